"""What cooks know from before, on screen: one form for many of them, one entry a cook."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField, TextAreaField
from wtforms.fields.choices import SelectChoice

from trainer.actions import knowing
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.book import Entry, canonical, digest_of
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.filters import weekday
from trainer.web.manager.acts import ActPage, TicksField
from trainer.web.page import go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import DayField, NeedsText

pages = Blueprint("known_before", __name__)
BETWEEN = " "


class KnownForm(LatelyForm):
    """Who knows which station, to which day, and how the manager knows."""

    basis = TextAreaField(
        message("How you know"), [NeedsText(message("Write how you know. It stays in the book."), 500)]
    )
    cells = TicksField(message("Who knows which station"), choices=[])
    until_of_safety = DayField(
        message("Good to, with questions about safety"),
        description=message(
            "Year, month, day. The last of them; the others come before. Empty: 92 days from today, the longest."
        ),
    )
    until = DayField(
        message("Good to, without any"),
        description=message(
            "Year, month, day. The last of them; the others come before. Empty: 365 days from today, the longest."
        ),
    )
    seen = HiddenField()
    secret = secret_field()


@dataclass(frozen=True, kw_only=True)
class KnownPage(ActPage):
    """The form, and once it is filled the last days it gives, to be seen before they are proved."""

    template: ClassVar[str] = "manager/known_before.html"
    days: tuple[Text, ...]


@pages.route("/known-before", methods=["GET", "POST"])
@guard.needs("manager")
def said() -> AnyResponse:
    """Say who knows what from before, for as many as are ticked."""
    form = KnownForm()
    _offer(form)
    is_right = form.is_sent_right()
    there = _kept_before(form) if request.method == "POST" else None
    if there is not None:
        return go("board.tonight", saved=there.id)
    days = _days(form) if is_right else {}
    is_seen = bool(days) and form.seen.data == _mark(days)
    if is_seen and proving.is_proved(form):
        outcome = _kept(form)
        if not isinstance(outcome, Refused):
            return go("board.tonight", saved=outcome.entry.id)
        form.refuse(outcome)
    form.seen.data = _mark(days) if days else ""
    if not days:
        del form.secret
    else:
        proving.leave_out(form)
    heading = message("Known from before")
    lead = message(
        "For cooks who could do it before this book began. It stands for reading, questions and practical, is shown as "
        "known, not watched, and runs out. Age, papers and supervised shifts are asked all the same, and questions "
        "about safety from the first day."
    )
    return show(
        KnownPage(
            days=_lines(days),
            title=heading,
            heading=heading,
            lead=lead,
            own_url=request.path,
            back=url_for("manager.people"),
            back_words=message("Back, and change nothing"),
            words=message("Write it down") if days else message("Show the days"),
            form=form,
        )
    )


def _offer(form: KnownForm) -> None:
    """Put every cook at every station they are not cleared at on the list; nobody says it of themselves."""
    board, titles = guard.kitchen().board(guard.today()), reading.content().stations
    form.cells.choices = [
        SelectChoice(
            BETWEEN.join((row.cook.id, cell.station)),
            message("{name}: {station}", name=row.cook.name, station=titles[cell.station].title),
        )
        for row in board.rows
        for cell in row.clearances
        if row.cook.id != guard.person().id and not cell.is_cleared and cell.station in titles
    ]


def _kept_before(form: KnownForm) -> Entry | None:
    """Return the first entry of a form that was sent before, and is sent once more."""
    first = next(iter(form.cells.data or ()), "").split(BETWEEN)[0]
    return guard.kitchen().file.book.find_key(f"{form.key.data}:{first}")


def _days(form: KnownForm) -> knowing.Days:
    """Return to which day each technique would be known; nothing where it was refused, with the refusal on the form."""
    k, by, now = guard.kitchen(), guard.person().id, guard.now()
    found = knowing.days_of(k, by=by, knowing=_wanted(form), now=now)
    if isinstance(found, Refused):
        form.refuse(found)
        return {}
    return found


def _mark(days: knowing.Days) -> str:
    """Return what stands for the days a manager was shown, so that no others are written."""
    return digest_of(canonical({f"{cook} {name}": day.isoformat() for (cook, name), day in days.items()}).encode())


def _lines(days: knowing.Days) -> tuple[Text, ...]:
    """Return who is to be watched at what by which day, soonest first."""
    people, techniques = guard.kitchen().people(), reading.content().techniques
    return tuple(
        message(
            "{day}: {name}, {technique}",
            day=weekday(day),
            name=people[cook].name if cook in people else cook,
            technique=techniques[name].title if name in techniques else name,
        )
        for (cook, name), day in days.items()
    )


def _wanted(form: KnownForm) -> knowing.Knowing:
    """Return what the form says."""
    until, of_safety = knowing.latest_days(guard.today())
    cells = tuple((cook, station) for cook, station in (cell.split(BETWEEN) for cell in form.cells.data or ()))
    return knowing.Knowing(cells, form.until.day or until, form.until_of_safety.day or of_safety, form.basis.data)


def _kept(form: KnownForm) -> Outcome:
    """Return what came of the form."""
    k, by = guard.kitchen(), guard.person().id
    return knowing.know_from_before(k, by=by, knowing=_wanted(form), now=guard.now(), key=form.key.data)
