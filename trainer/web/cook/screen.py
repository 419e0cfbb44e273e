"""A screen's own size: a bar is measured once, and figures in millimetres are true to size on it from then on.

A browser takes an inch for 96 of its pixels, which few screens keep to. What was measured stands in a cookie of this
browser, since it is the screen's and nobody's else.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, make_response, redirect, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Refused
from trainer.kitchen.reading import read_quantity
from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.web import guard
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, own_path, show

pages = Blueprint("screen", __name__)
COOKIE = "screen"
BAR = Quantity.of(50, "mm")
LEAST, MOST = 400, 2500  # thousandths: a bar of 50 mm that measures from 20 to 125 mm


class ScreenForm(KitchenForm):
    """How long the bar is on this screen."""

    bar = TextField(message("How long is the bar?"))


@dataclass(frozen=True, kw_only=True)
class ScreenPage(Page):
    """The bar to measure."""

    template: ClassVar[str] = "cook/screen.html"
    form: ScreenForm
    back: str


@pages.route("/screen", methods=["GET", "POST"])
@guard.needs("person")
def measure() -> AnyResponse:
    """Ask how long the bar is, and keep what follows for this browser."""
    form, back = ScreenForm(), own_path(request.args.get("then") or url_for("cook.rail"))
    if form.is_sent_right():
        grown = _grown(form)
        if grown:
            response = make_response(redirect(back, 303))
            guard.set_cookie(response, COOKIE, str(grown), guard.FIVE_YEARS)
            return response
    return show(ScreenPage(title=message("True size on this screen"), form=form, back=back))


@pages.get("/screen/<int:grown>.css")
@guard.needs("nobody")
def style(grown: int) -> Response:
    """Return the one rule that makes a figure in millimetres so much larger on the screen, and not on paper."""
    if not LEAST <= grown <= MOST:
        abort(404)
    rule = f'@media screen {{ .figure svg[width$="mm"] {{ zoom: {grown / 1000:.3f}; }} }}\n'
    response = make_response(rule)
    response.headers["Content-Type"] = "text/css; charset=utf-8"
    return response


def style_url() -> str:
    """Return the address of this screen's rule; empty where it was never measured."""
    kept = guard.cookie(COOKIE)
    usable = kept.isascii() and kept.isdigit() and len(kept) <= len(str(MOST)) and LEAST <= int(kept) <= MOST
    return url_for("screen.style", grown=int(kept)) if usable else ""


def _grown(form: ScreenForm) -> int:
    """Return by how many thousandths figures must be drawn, from the bar as measured; 0 where it cannot be."""
    typed = form.bar.data or ""
    try:
        read = read_quantity(typed, BAR.unit.symbol, guard.kitchen().file.settings.decimal_mark)
        length = read.to(BAR.unit.symbol).amount
    except QuantityProblem as problem:
        form.refuse(Refused(problem.reason, field="bar"))
        return 0
    grown = round(1000 * BAR.amount / length) if length > 0 else 0
    if LEAST <= grown <= MOST:
        return grown
    words = message("“{typed}” is not the length of this bar. Measure it again, in mm or in.", typed=typed)
    form.refuse(Refused(words, field="bar"))
    return 0
