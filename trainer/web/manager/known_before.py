"""What cooks know from before, on screen: one form for many of them, one entry a cook."""

from __future__ import annotations

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField
from wtforms.fields.choices import SelectChoice

from trainer.actions import knowing
from trainer.actions.outcome import Outcome, Refused
from trainer.messages import message
from trainer.web import guard, proving, reading
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
        description=message("Year, month, day. Empty: 92 days from today, the longest there is."),
    )
    until = DayField(
        message("Good to, without any"),
        description=message("Year, month, day. Empty: 365 days from today, the longest there is."),
    )
    secret = secret_field()


@pages.route("/known-before", methods=["GET", "POST"])
@guard.needs("manager")
def said() -> AnyResponse:
    """Say who knows what from before, for as many as are ticked."""
    form = KnownForm()
    _offer(form)
    if form.is_sent_right() and proving.is_proved(form):
        outcome = _kept(form)
        if not isinstance(outcome, Refused):
            return go("board.tonight", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    heading = message("Known from before")
    lead = message(
        "For cooks who could do it before this book began. It stands for reading, questions and practical, is shown as "
        "known, not watched, and runs out. Age, papers and supervised shifts are asked all the same, and questions "
        "about safety from the first day."
    )
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=lead,
            own_url=request.path,
            back=url_for("manager.people"),
            back_words=message("Back, and change nothing"),
            words=message("Write it down"),
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


def _kept(form: KnownForm) -> Outcome:
    """Return what came of the form."""
    until, of_safety = knowing.latest_days(guard.today())
    cells = tuple((cook, station) for cook, station in (cell.split(BETWEEN) for cell in form.cells.data or ()))
    wanted = knowing.Knowing(cells, form.until.day or until, form.until_of_safety.day or of_safety, form.basis.data)
    return knowing.know_from_before(
        guard.kitchen(), by=guard.person().id, knowing=wanted, now=guard.now(), key=form.key.data
    )
