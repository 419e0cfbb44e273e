"""All clocks a person has running, and stopping one from any page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, redirect, request
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.step_clocks import stop_clock
from trainer.messages import message
from trainer.web import guard
from trainer.web.forms import PlainForm
from trainer.web.page import Page, own_path, show

pages = Blueprint("clocks", __name__)


@dataclass(frozen=True, kw_only=True)
class ClocksPage(Page):
    """Every clock that runs, each with its stop; the shell has them, as on any page."""

    template: ClassVar[str] = "clocks/clocks.html"


@pages.get("/clocks")
@guard.needs("person")
def listed() -> AnyResponse:
    """Show every clock that runs."""
    return show(ClocksPage(title=message("Clocks")))


@pages.post("/clocks/stop")
@guard.needs("person")
def stop() -> AnyResponse:
    """Stop a clock, or say that its end was seen; then go back to the page that was open."""
    if PlainForm().is_sent_right():
        stop_clock(guard.kitchen(), cook=guard.person().id, clock=request.form.get("clock", ""))
    return redirect(own_path(request.form.get("then", "")), 303)
