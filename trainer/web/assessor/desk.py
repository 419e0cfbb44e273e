"""The sous chef's desk: the line tonight, whom to watch, who asks for help, shifts to sign, whom to talk to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.correcting import Correction, void_entry
from trainer.actions.desk import sign_shifts
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Waits
from trainer.messages import message
from trainer.web import guard, proving
from trainer.web.assessor.desk_shifts import ShiftsForm, ShiftsList, chosen, shifts_list
from trainer.web.assessor.desk_signed import SignedLine, signed_lines
from trainer.web.assessor.desk_talk import TalkLine, talk_lines
from trainer.web.assessor.helped import HelpLine, asked_help
from trainer.web.assessor.to_teach import ToTeach, to_teach
from trainer.web.assessor.to_watch import HalfDone, WaitingCook, half_done, to_watch
from trainer.web.forms import PlainForm
from trainer.web.night.told import OffLine, off_lines
from trainer.web.night.tonight import Tonight, shown_service, tonight
from trainer.web.page import Page, go, show
from trainer.web.paths import WishLine, wish_lines

pages = Blueprint("desk", __name__)


@dataclass(frozen=True, kw_only=True)
class DeskPage(Page):
    """The home of an assessor."""

    template: ClassVar[str] = "assessor/waiting.html"
    tonight: Tonight
    off: tuple[OffLine, ...]
    half_done: tuple[HalfDone, ...]
    watch_now: tuple[WaitingCook, ...]
    watch_later: tuple[WaitingCook, ...]
    watch_first: str
    helped: tuple[HelpLine, ...]
    shifts: ShiftsList
    shifts_form: ShiftsForm
    signed: tuple[SignedLine, ...]
    methods: tuple[TalkLine, ...]
    teach: tuple[ToTeach, ...]
    wishes: tuple[WishLine, ...]
    wish_form: PlainForm


def desk_page(shifts_form: ShiftsForm | None = None, refused: Refused | None = None) -> Response:
    """Return the desk; with a list that was sent, what is wrong with it and what was typed; or with another refusal."""
    k = guard.kitchen()
    waiting, shifts = to_watch(k, shown_service(k)), shifts_list(k, shifts_form)
    line, first = tonight(k), waiting.first
    if refused is not None:
        shifts.form.refuse(refused)
    return show(
        DeskPage(
            title=line.heading,
            tonight=line,
            off=off_lines(k),
            wishes=wish_lines(),
            wish_form=PlainForm(is_fresh=True),
            half_done=half_done(k),
            watch_now=waiting.now,
            watch_later=waiting.later,
            watch_first=first.first_name if first else "",
            helped=asked_help(),
            shifts=shifts,
            shifts_form=shifts.form,
            signed=signed_lines(k),
            methods=talk_lines(k),
            teach=to_teach(),
        )
    )


@pages.post("/shifts-worked/list")
@guard.needs("assessor")
def sign() -> AnyResponse:
    """Sign the shifts that are ticked, with one secret: all of them, or none."""
    k, form = guard.kitchen(), ShiftsForm()
    if form.is_sent_right() and proving.is_proved(form):
        outcome = sign_shifts(k, by=guard.person().id, shifts=chosen(k), now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go("assessor.waiting", saved=outcome.entry.id)
        form.refuse(outcome)
    return desk_page(form)


@pages.post("/signed/<entry>/undo")
@guard.needs("assessor")
def undo(entry: str) -> AnyResponse:
    """Take back what the reader signed in the last ten minutes: it counts for no day."""
    form = PlainForm()
    if not form.is_sent_right():
        return desk_page(refused=Refused(form.problems()[0].text))
    slip = Correction(entry, "", "never")
    outcome = void_entry(guard.kitchen(), by=guard.person().id, correction=slip, now=guard.now(), key=form.key.data)
    if isinstance(outcome, Waits):
        return desk_page(
            refused=Refused(message("It waits: others lean on this entry, so a second person has to agree."))
        )
    if isinstance(outcome, Refused):
        return desk_page(refused=outcome)
    return go("assessor.waiting", saved=outcome.entry.id)
