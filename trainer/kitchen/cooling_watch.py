"""A pan that cools, against the gates of the kitchen's local code: what the log shows, and what is to be expected.

Caution: an estimate, and no word on whether food is safe. The local code and the person in charge decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from trainer.kitchen.code_figures import read_by_the_code
from trainer.kitchen.technique import Limit, LocalCode
from trainer.messages import Text, message
from trainer.recipe_math.cooling import Gate, NewtonFit, fitted
from trainer.recipe_math.cooling_forecast import Expected, Forecast, forecasts
from trainer.recipe_math.cooling_log import GateLog, Shows, judged
from trainer.recipe_math.cooling_window import CoolingPan
from trainer.recipe_math.estimates import METRIC, TimedReading, Writing, in_celsius, in_minutes
from trainer.recipe_math.quantity import QuantityProblem

UNKNOWN_PAN = CoolingPan()
BAD_MISS_CELSIUS = 3.0
"""A reading further off the curve than this says that the surroundings did not stay as they were: the house's own."""
_END = "cooling_end"
_LINES = (("cooling_middle", "cooling_to_middle_within"), (_END, "cooling_to_end_within"))
_ROOM = "cooling_from_room_within"


class CoolingStart(StrEnum):
    """How the food that cools began: it was hot, or it was made from things at room temperature."""

    HOT = "hot"
    ROOM = "room"


class Outlook(StrEnum):
    """How a gate stands: what the log shows, and while the food still cools, what the forecast leads to expect.

    On course is only what comes in time at the latest; where the forecast goes past the limit it may be late.
    """

    MET = "met"
    MISSED = "missed"
    LATE = "will be late"
    MAY_BE_LATE = "may be late"
    IN_TIME = "on course"
    COOLING = "still cooling"
    NOT_SHOWN = "not shown"
    NOT_BEGUN = "not begun"


@dataclass(frozen=True, slots=True)
class GateView:
    """One gate: what the log shows, the forecast (None without a curve), when it begins, how it stands.

    It begins on the clock of the readings: worked out from the curve, else with the last reading before the food fell
    through it, and where the gate has no first temperature, with the first reading. `is_reached` says whether a reading
    has been at or below the end: then there is nothing left to expect.
    """

    log: GateLog
    forecast: Forecast | None
    begins_at_minutes: float
    is_reached: bool
    outlook: Outlook


@dataclass(frozen=True, slots=True)
class CoolingView:
    """Each gate by itself, the curve if there is one, and why there is none."""

    gates: tuple[GateView, ...]
    fit: NewtonFit | None
    no_fit_reason: Text

    @property
    def fits_badly(self) -> bool:
        """Return whether a reading lies so far off the curve that little can be expected from it."""
        return self.fit is not None and self.fit.largest_miss_celsius > BAD_MISS_CELSIUS

    @property
    def is_missed(self) -> bool:
        """Return whether the log shows at least one gate missed; one that is met makes up for no other."""
        return any(gate.outlook is Outlook.MISSED for gate in self.gates)


def gates_of(code: LocalCode, start: CoolingStart = CoolingStart.HOT) -> tuple[Gate, ...]:
    """Return the gates of a local code for food that began so, in its order; none where it has no limit for that.

    What was hot has its gates from one temperature to the next; what was made at room temperature has one from the
    moment it is made (FDA Food Code 2022, section 3-501.14(A) and (B), for a code that follows it).
    """
    if start is CoolingStart.ROOM:
        return _gates(code, None, [(_END, _ROOM)])
    hot = _target(code.limits, "cooling_start")
    return () if hot is None else _gates(code, hot, _LINES)


def _gates(code: LocalCode, start: float | None, lines: Iterable[tuple[str, str]]) -> tuple[Gate, ...]:
    """Return the gates from a start to each end that the code names, with its time."""
    found = []
    for to, within in lines:
        end, limit = _target(code.limits, to), code.limits.get(within)
        if end is None or limit is None or limit.highest is None:
            continue
        source = f"{code.title} {code.edition}, {limit.place}" if limit.place else f"{code.title} {code.edition}"
        found.append(Gate(start, end, in_minutes(limit.highest), source))
    return tuple(found)


def wrong_start(
    readings: Sequence[TimedReading], code: LocalCode, start: CoolingStart, writing: Writing = METRIC
) -> Text:
    """Return why a log cannot be of food made at room temperature: a reading is as hot as food that was cooked.

    Empty where nothing speaks against it. The longer time is never given to what was hot.
    """
    hot, warmest = _target(code.limits, "cooling_start"), max(readings, key=lambda reading: reading.celsius)
    if start is not CoolingStart.ROOM or hot is None or read_by_the_code([warmest], [hot])[0].celsius < hot:
        return ""
    return message(
        "A reading of {reading} is no room temperature: choose that it was hot.",
        reading=writing.degrees(warmest.celsius),
    )


def watched(
    readings: Sequence[TimedReading],
    gates: Sequence[Gate],
    surroundings_celsius: float | None,
    writing: Writing = METRIC,
    pan: CoolingPan = UNKNOWN_PAN,
) -> CoolingView:
    """Return how each gate stands, judged apart, by the log first and then by the forecast.

    *pan* is how the food stands; unknown, it is deep, open and left alone, which is the worst for the latest moment.
    A reading in Celsius from the code's own figure for a limit to the limit is that limit: 57 °C is 135 °F. Without
    surroundings, or with one reading, there is no curve. At least one reading, in order (QuantityProblem).
    """
    read = read_by_the_code(readings, _limits(gates))
    logs = judged(read, gates, writing)
    fit, reason = _curve(read, surroundings_celsius, writing)
    has_forecast = fit is not None and surroundings_celsius is not None
    expected = forecasts(read, surroundings_celsius or 0, gates, pan) if has_forecast else (None,) * len(gates)
    fits_badly = fit is not None and fit.largest_miss_celsius > BAD_MISS_CELSIUS
    views = (_view(log, forecast, fit, read, fits_badly) for log, forecast in zip(logs, expected, strict=True))
    return CoolingView(tuple(views), fit, reason)


def _limits(gates: Iterable[Gate]) -> tuple[float, ...]:
    """Return every temperature a gate begins or ends at, in celsius."""
    ends = (end for gate in gates for end in (gate.from_celsius, gate.to_celsius))
    return tuple(end for end in ends if end is not None)


def _curve(
    readings: Sequence[TimedReading], surroundings: float | None, writing: Writing
) -> tuple[NewtonFit | None, Text]:
    if surroundings is None:
        return None, message("Type how cold it is around the food to see a forecast.")
    try:
        fit = fitted(readings, surroundings, writing)
    except QuantityProblem as problem:
        return None, message("No forecast: {problem}", problem=problem.reason)
    if fit.first_gap_celsius < 0:
        return None, message("No forecast: the food is colder than what is around it, so it warms.")
    return fit, ""


def _view(
    log: GateLog,
    forecast: Forecast | None,
    fit: NewtonFit | None,
    readings: Sequence[TimedReading],
    fits_badly: bool,
) -> GateView:
    start, end = log.gate.from_celsius, log.gate.to_celsius
    begins = fit.minutes_until(start) if fit and start is not None else None
    if start is None:
        begins = readings[0].minutes
    elif begins is None:
        above = [reading.minutes for reading in readings if reading.celsius >= start]
        begins = above[-1] if above else readings[0].minutes
    is_reached = any(reading.celsius <= end for reading in readings)
    return GateView(log, forecast, begins, is_reached, _outlook(log, forecast, fits_badly))


def _outlook(log: GateLog, forecast: Forecast | None, fits_badly: bool) -> Outlook:
    """Return how a gate stands; nothing is on course by a forecast from readings that follow no one curve."""
    if log.shows is not Shows.STILL_COOLING:
        return Outlook(str(log.shows))
    if forecast is None:
        return Outlook.COOLING
    if forecast.expected in (Expected.LATE, Expected.NEVER):
        return Outlook.LATE
    return Outlook.MAY_BE_LATE if fits_badly or forecast.expected is Expected.OPEN else Outlook.IN_TIME


def _target(limits: Mapping[str, Limit], key: str) -> float | None:
    limit = limits.get(key)
    return in_celsius(limit.target) if limit is not None and limit.target is not None else None
