"""The workbench's page for a pan that cools: the log against each limit of the local code, and what to expect."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import ClassVar

from flask import Blueprint, Response
from markupsafe import Markup

from trainer.kitchen.cooling_watch import CoolingStart, CoolingView, GateView, Outlook, gates_of, watched, wrong_start
from trainer.kitchen.typed_lines import CoolingLog, cooling_log, when_text
from trainer.messages import Text, joined, message
from trainer.recipe_math.cooling import Gate, NewtonFit
from trainer.recipe_math.cooling_forecast import Expected
from trainer.recipe_math.cooling_log import GateLog
from trainer.recipe_math.cooling_window import CoolingPan, Window, window
from trainer.recipe_math.estimates import hours_text, in_celsius
from trainer.web import guard, reading
from trainer.web.bench import plots
from trainer.web.bench.fields import LONGEST, AmountField, LinesField, own_length, own_unit
from trainer.web.bench.words import decimal_mark, degree_unit, degrees_of, warmth, writing
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, OneOfField

pages = Blueprint("cooling", __name__)
HOUR = 60
STEPS = 24
STARTS = {
    CoolingStart.HOT: message("Cooked, or kept hot"),
    CoolingStart.ROOM: message("Made at room temperature"),
}
OPEN, COVERED = "open", "covered"
COVERS = {OPEN: message("Open"), COVERED: message("Covered")}
LEFT, STIRRED = "left", "stirred"
STIRS = {LEFT: message("Left to stand"), STIRRED: message("Stirred often")}
WORDS = {
    Outlook.MET: message("met"),
    Outlook.MISSED: message("missed"),
    Outlook.LATE: message("will be late"),
    Outlook.MAY_BE_LATE: message("may be late"),
    Outlook.IN_TIME: message("on course"),
    Outlook.COOLING: message("still cooling"),
    Outlook.NOT_SHOWN: message("not shown"),
    Outlook.NOT_BEGUN: message("not begun"),
}
ACTS = {
    Outlook.MET: message("Write it in the log with your name."),
    Outlook.IN_TIME: message("Keep reading it, in the middle, at least every half hour."),
    Outlook.COOLING: message("Read it again soon, in the middle. Two readings and the cold around it give a forecast."),
    Outlook.LATE: message(
        "Act now. Spread it thin in shallow pans, stand it in ice and water and stir, leave it uncovered where "
        "nothing can drip on it. Then read it again."
    ),
    Outlook.MAY_BE_LATE: message(
        "Act as if it were late. Spread it thin in shallow pans, or stand it in ice and water and stir. Read it again "
        "in a quarter of an hour."
    ),
    Outlook.MISSED: message(
        "Stop. Nobody serves this. Tell the person in charge now. Your local code says whether it may be reheated "
        "at once and cooled anew, or must be thrown away."
    ),
    Outlook.NOT_SHOWN: message(
        "What cannot be shown does not count. Tell the person in charge, as if it were missed. Next time read it "
        "when it falls through each temperature."
    ),
    Outlook.NOT_BEGUN: message("The clock begins when it falls below the first temperature. Read it often until then."),
}


@dataclass(frozen=True, slots=True)
class GateSeen:
    """One limit as it is shown: what it asks, how it stands, what was seen and is expected, what to do, its source."""

    asks: Text
    word: Text
    is_bad: bool
    seen: Text
    expected: Text
    act: Text
    source: str


@dataclass(frozen=True, slots=True)
class ReadingSeen:
    """One reading as it was understood."""

    at: Text
    warmth: Text


@dataclass(frozen=True, slots=True)
class CoolingResult:
    """What came out: each limit by itself, the readings, the plot, how well the curve fits, what is not known."""

    gates: tuple[GateSeen, ...]
    readings: tuple[ReadingSeen, ...]
    plot: Markup | None
    fit: Text
    not_known: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class CoolingPage(Page):
    """Readings typed in; what they show below."""

    template: ClassVar[str] = "bench/cooling.html"
    form: CoolingForm
    found: CoolingResult | None
    code: str
    has_limits: bool
    start: str
    degrees: str
    length: Text


class CoolingForm(SumForm):
    """How the food began, what was read, a line each, and how cold it is around the food."""

    start = OneOfField(message("How did it begin?"), default=CoolingStart.HOT.value)
    readings = LinesField(message("Readings"))
    around = AmountField(
        message("How cold is it around the food?"), ("temperature",), needed=False, validators=[AtMost(200)]
    )
    depth = AmountField(message("How deep is the food?"), ("length",), needed=False, validators=[AtMost(200)])
    cover = OneOfField(message("Lid"), default=OPEN)
    stirring = OneOfField(message("Stirring"), default=LEFT)

    def is_filled(self) -> bool:
        """Return whether anything was typed; how the food began is always chosen."""
        return bool(self.readings.data or self.around.data or self.depth.data)

    @property
    def began(self) -> CoolingStart:
        """Return how the food began, as chosen."""
        return CoolingStart(self.start.data) if self.start.data in set(CoolingStart) else CoolingStart.HOT

    @property
    def pan(self) -> CoolingPan:
        """Return how the food stands; a depth that was not typed is the deepest the page allows for."""
        deep = self.depth.quantity
        is_open, is_stirred = self.cover.data != COVERED, self.stirring.data == STIRRED
        if deep is None:
            return CoolingPan(is_open=is_open, is_stirred=is_stirred)
        return CoolingPan(float(deep.base), is_open, is_stirred)


@pages.get("/bench/cooling")
@guard.needs("person")
def cooling() -> Response:
    """Show what a log of readings says about each limit for cooling, and the forecast."""
    form, code = CoolingForm(), reading.content().code
    form.start.offer({start.value: words for start, words in STARTS.items() if gates_of(code, start)}, nothing="")
    form.cover.offer(COVERS, nothing="")
    form.stirring.offer(STIRS, nothing="")
    view = _worked_out(form) if form.is_filled() and form.start.choices else None
    page = CoolingPage(
        title=message("Cooling"),
        form=form,
        found=view,
        code=f"{code.title} {code.edition}",
        has_limits=bool(form.start.choices),
        start=form.began.value,
        degrees=own_unit("temperature"),
        length=own_length(),
    )
    return show(page)


def _worked_out(form: CoolingForm) -> CoolingResult | None:
    is_right = form.validate()
    log = cooling_log(form.readings.data[:LONGEST], degrees=own_unit("temperature"), decimal_mark=decimal_mark())
    for problem in log.problems:
        form.put("readings", problem.as_text())
    if log.problems or not is_right:
        return None
    around, code = form.around.quantity, reading.content().code
    wrong = wrong_start(log.readings, code, form.began, writing())
    if wrong:
        form.put("start", wrong)
        return None
    gates = gates_of(code, form.began)
    view = watched(log.readings, gates, in_celsius(around) if around else None, writing(), form.pan)
    return _shown(view, log, form.pan)


def _shown(view: CoolingView, log: CoolingLog, pan: CoolingPan) -> CoolingResult:
    seen = [line for gate in view.gates for line in gate.log.not_known]
    expected = [line for gate in view.gates if gate.forecast for line in gate.forecast.not_known]
    return CoolingResult(
        gates=tuple(_gate(gate, log.by_the_clock) for gate in view.gates),
        readings=tuple(ReadingSeen(when_text(r.minutes, log.by_the_clock), warmth(r.celsius)) for r in log.readings),
        plot=_plot(view, log, pan),
        fit=_fit(view),
        not_known=tuple(dict.fromkeys([*seen, *expected])),
    )


def _fit(view: CoolingView) -> Text:
    """Return how far the curve can be trusted, in words; why there is none, where there is none."""
    if view.fit is None:
        return view.no_fit_reason
    around = warmth(view.fit.surroundings_celsius)
    if view.fit.readings == 2:
        return message(
            "The curve is drawn toward {around} around the food, through two readings: "
            "nothing shows yet how well it fits. Take a third.",
            around=around,
        )
    worst = message(
        "The curve is drawn toward {around} around the food; the worst of {readings} readings lies {miss} off it.",
        around=around,
        readings=view.fit.readings,
        miss=writing().apart(view.fit.largest_miss_celsius),
    )
    far = message("That is far: expect little from it. Something around the food has changed.")
    return joined([worst, far]) if view.fits_badly else worst


def _gate(view: GateView, by_the_clock: bool) -> GateSeen:
    gate = view.log.gate
    return GateSeen(
        asks=_asks(gate),
        word=WORDS[view.outlook],
        is_bad=view.outlook in (Outlook.MISSED, Outlook.LATE, Outlook.MAY_BE_LATE, Outlook.NOT_SHOWN),
        seen=_seen(view.log, view.outlook),
        expected=_expected(view, by_the_clock),
        act=ACTS[view.outlook],
        source=gate.source,
    )


def _asks(gate: Gate) -> Text:
    """Return a limit in one line."""
    to, within = warmth(gate.to_celsius), hours_text(gate.within_minutes)
    if gate.from_celsius is None:
        return message("{to} within {time} of being made", to=to, time=within)
    return message("{start} to {to} within {time}", start=warmth(gate.from_celsius), to=to, time=within)


def _start(gate: Gate) -> Text:
    """Return where the clock of a limit begins."""
    return message("when it was made") if gate.from_celsius is None else warmth(gate.from_celsius)


def _seen(log: GateLog, outlook: Outlook) -> Text:
    """Return what the readings alone show, in one sentence."""
    least, limit = hours_text(log.at_least_minutes), hours_text(log.gate.within_minutes)
    if outlook is Outlook.NOT_BEGUN:
        return message("No reading is below {start} yet.", start=_start(log.gate))
    if outlook is Outlook.MISSED:
        return message("It took {time} or more. The limit is {limit}.", time=least, limit=limit)
    if log.at_most_minutes is None:
        return message("No reading shows when it fell through {start}.", start=_start(log.gate))
    most = hours_text(log.at_most_minutes)
    if outlook is Outlook.MET:
        return message("It took {time} at the most. The limit is {limit}.", time=most, limit=limit)
    if log.minutes_left is not None:
        left = hours_text(log.minutes_left)
        return message("Gone: {gone} at the most. Left: {left}.", gone=most, left=left)
    return message(
        "It took between {least} and {most}: the readings do not show which side of {limit}.",
        least=least,
        most=most,
        limit=limit,
    )


def _expected(view: GateView, by_the_clock: bool) -> Text:
    """Return when it is to be expected, while it still matters: at the earliest and latest; empty where it does not."""
    forecast = view.forecast
    if forecast is None or view.is_reached:
        return ""
    to = warmth(view.log.gate.to_celsius)
    if forecast.expected is Expected.NEVER:
        return message("It never gets to {to}: it is too warm around it.", to=to)
    first, last = forecast.at.earliest, forecast.at.latest
    if first is None:
        return ""
    if last is None:
        return message(
            "It comes to {to} no sooner than {first}. How late cannot be said: it has hardly cooled yet.",
            to=to,
            first=_moment(first, by_the_clock),
        )
    return message(
        "It comes to {to} between {first} and {last}: {in_all}.",
        to=to,
        first=_moment(floor(first), by_the_clock),
        last=_moment(ceil(last), by_the_clock),
        in_all=_in_all(forecast.in_all),
    )


def _moment(minutes: float, by_the_clock: bool) -> Text:
    at = when_text(minutes, by_the_clock)
    return at if by_the_clock else message("{time} from the start", time=at)


def _in_all(found: Window) -> Text:
    """Return the window in whole minutes, outward: what may be a minute over a limit is never told as on it."""
    first, last = when_text(floor(found.earliest or 0), False), when_text(ceil(found.latest or 0), False)
    return message("{first} to {last} in all", first=first, last=last)


def _plot(view: CoolingView, log: CoolingLog, pan: CoolingPan) -> Markup | None:
    """Return readings, the window and limits in hours from the first reading; a wall hangs where a limit ends."""
    if not view.gates:
        return None
    start = log.readings[0].minutes
    end = max(log.readings[-1].minutes, *(gate.begins_at_minutes + gate.log.gate.within_minutes for gate in view.gates))
    hot = view.gates[0].log.gate.from_celsius
    warmest = max([*(r.celsius for r in log.readings), *([] if hot is None else [hot])])
    coldest = min(*(r.celsius for r in log.readings), view.gates[-1].log.gate.to_celsius, 0)
    plot = plots.Plot(
        name="cooling",
        title=message("Temperature of the food over time"),
        told=joined(
            (joined([when_text(r.minutes, log.by_the_clock), warmth(r.celsius)], ": ") for r in log.readings), "; "
        ),
        across=plots.Axis(0, (end - start) / HOUR * 1.06, message("hours from the first reading")),
        up=plots.Axis(degrees_of(coldest), degrees_of(warmest + 4), degree_unit()),
    )
    parts = [part for gate in view.gates for part in _limit_parts(plot, gate, start)]
    if view.fit and not view.fits_badly:
        parts += [plots.curve(plot, line, dashed=True) for line in _ways(view.fit, log, pan, (start, end)) if line]
    parts.append(plots.dots(plot, [((r.minutes - start) / HOUR, degrees_of(r.celsius)) for r in log.readings]))
    return plots.drawn(plot, parts)


def _ways(
    fit: NewtonFit, log: CoolingLog, pan: CoolingPan, span: tuple[float, float]
) -> tuple[list[plots.Point], list[plots.Point]]:
    """Return the earliest and the latest way the food may go on from the last reading, to the end of the plot."""
    (start, end), last, around = span, log.readings[-1], fit.surroundings_celsius
    begin = ((last.minutes - start) / HOUR, degrees_of(last.celsius))
    early, late = [begin], [begin]
    for step in range(1, STEPS):
        celsius = last.celsius + (around - last.celsius) * step / STEPS
        met = window(log.readings, around, celsius, pan)
        for way, at in ((early, met.earliest), (late, met.latest)):
            if at is not None and way[-1][0] <= (at - start) / HOUR <= (end - start) / HOUR:
                way.append(((at - start) / HOUR, degrees_of(celsius)))
    return early, late


def _limit_parts(plot: plots.Plot, view: GateView, start: float) -> list[Markup]:
    gate = view.log.gate
    to = degrees_of(gate.to_celsius)
    at = (view.begins_at_minutes + gate.within_minutes - start) / HOUR
    line = plots.level(plot, to, f"{to:.0f} {degree_unit()}")
    limit = message("{time} limit", time=when_text(gate.within_minutes, False))
    return [line, plots.wall(plot, at, to, limit)] if at > 0 else [line]
