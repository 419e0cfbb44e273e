"""What was done without network and is sent later: the moment it was done, and what the phone is told came of it.

A form that may wait says so itself (`waits` in macros/forms.html) and carries under our seal when its page was drawn.
Nothing that is signed may wait.
"""

from __future__ import annotations

import hashlib
import hmac
from datetime import UTC, datetime, timedelta

from flask import Flask, Response, current_app, g, jsonify, request

from trainer.kitchen.practical import A_LOOK
from trainer.messages import Text
from trainer.web import guard, reading

DONE_AT, LOOKED_FOR, KEPT, KEPT_FOR = "Done-At", "Looked-For", "Kept", "Kept-For"
"""Headers: when it was done and how long its page was open, in milliseconds; that a page is fetched to be kept; whose
page an answer is."""
SLACK = timedelta(minutes=1)
"""By so much a phone may be wrong about the kitchen's clock, which it read over a slow network."""
TRY_LATER = frozenset({429, 503, 507})


def is_to_be_kept() -> bool:
    """Return whether a phone fetches this page to keep it: nobody looks at it now."""
    return KEPT in request.headers


def is_late() -> bool:
    """Return whether this was done before it is sent."""
    return DONE_AT in request.headers


def page_seal() -> str:
    """Return when this page was drawn, and for whom, as nobody else can write it."""
    drawn = str(_milliseconds(guard.now()))
    return f"{drawn}-{_seal(drawn)}"


def done_at() -> datetime | None:
    """Return when what is sent later was done, as the phone says; None where it says nothing that can be.

    It was done after its page was drawn, and before now.
    """
    said, drawn = _moment(request.headers.get(DONE_AT, "")), _drawn_at()
    if said is None or drawn is None or not drawn - SLACK <= said <= guard.now() + SLACK:
        return None
    return min(max(said, drawn), guard.now())


def was_too_quick() -> bool:
    """Return whether a verdict that waited was given sooner than anybody can have looked."""
    looked = request.headers.get(LOOKED_FOR, "")
    return is_late() and looked.isascii() and looked.isdigit() and timedelta(milliseconds=int(looked[:9])) < A_LOOK


def register(app: Flask) -> None:
    """Say of every page whose it is; answer what is sent later in a line a phone can keep."""

    @app.after_request
    def say_whose(response: Response) -> Response:
        signed = guard.signed_in() if "signed_in" in g else None
        if signed is not None and response.mimetype == "text/html":
            response.headers[KEPT_FOR] = signed.person.id
        return _told(response, signed) if is_late() else response


def _told(response: Response, signed: guard.CurrentUser | None) -> Response:
    """Return whether it was saved, and if not, why, and whether to try once more later."""
    if 300 <= response.status_code < 400:
        done = jsonify(saved=True)
        for cookie in response.headers.getlist("Set-Cookie"):
            done.headers.add("Set-Cookie", cookie)
        return done
    words: tuple[Text, ...] = g.get("told", ())
    later = signed is None or signed.must_choose or response.status_code in TRY_LATER
    return jsonify(saved=request.method == "GET", later=later, words=[str(reading.said(each)) for each in words])


def _drawn_at() -> datetime | None:
    drawn, _, seal = request.form.get("page_at", "").partition("-")
    return _moment(drawn) if hmac.compare_digest(seal.encode(), _seal(drawn).encode()) else None


def _seal(drawn: str) -> str:
    """Return the seal of a moment for whoever is signed in."""
    signed, secret = guard.signed_in(), current_app.config["SECRET_KEY"]
    said = f"page:{signed.person.id if signed else ''}:{drawn}"
    return hmac.new(secret, said.encode("utf-8", "replace"), hashlib.sha256).hexdigest()[:32]


def _milliseconds(moment: datetime) -> int:
    return int(moment.timestamp() * 1000)


def _moment(text: str) -> datetime | None:
    """Return a moment told in milliseconds since 1970; None where it is none, or after the year 2286."""
    is_number = text.isascii() and text.isdigit() and len(text) <= 13
    return datetime.fromtimestamp(int(text) / 1000, UTC) if is_number else None
