"""Giving a first code: shown once, to whoever may see it; one that opens the name of a signer waits for a second."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.giving_codes import FirstCode, first_code
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Waits
from trainer.messages import Text, joined, message
from trainer.web import guard, proving
from trainer.web.filters import moment
from trainer.web.manager.acts import Asking, ConfirmForm, act_page, known_person
from trainer.web.page import Page, go, show

pages = Blueprint("codes", __name__)


@dataclass(frozen=True, kw_only=True)
class FirstCodePage(Page):
    """A first code, shown once."""

    template: ClassVar[str] = "manager/code.html"
    name: str
    code: str
    good_until: Text
    back: str


@pages.route("/cooks/<cook>/first-code", methods=["GET", "POST"])
@guard.needs("manager")
def give(cook: str) -> AnyResponse:
    """Give a person a code for their first sign-in, shown once."""
    who, form, k = known_person(cook), ConfirmForm(), guard.kitchen()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        made = first_code(k, by=guard.person().id, cook=cook, now=guard.now(), key=form.key.data)
        if isinstance(made, Waits):
            return go("manager.second.listed")
        if not isinstance(made, Refused):
            return show_code(made)
        form.refuse(made)
    lead = [
        message(
            "A code of 8 figures, good for one day. They choose their own PIN with it."
            " The PIN they had works until then."
        )
    ]
    if {"assessor", "manager"} & k.progress().roles(cook, guard.today()):
        lead.append(
            message("One for somebody who signs for others may wait for a second manager, or for a day: you are told.")
        )
    asking = Asking(cook, message("First code for {name}", name=who.name), joined(lead), message("Make the code"))
    return act_page(form, asking)


def show_code(made: FirstCode) -> Response:
    """Return the page of a code just made; nobody sees it a second time."""
    return show(
        FirstCodePage(
            title=message("First code"),
            name=known_person(made.person).name,
            code=made.code,
            good_until=moment(made.good_until),
            back=url_for("manager.person", cook=made.person),
        )
    )
