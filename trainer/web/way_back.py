"""The page somebody was on last, on their own phone: after the idle time it opens there, and not at the start."""

from __future__ import annotations

from flask import Flask, Response, request

from trainer.web import guard
from trainer.web.page import is_looked_at, own_path

LEFT = "left"
LONGEST = 300
ROOMS_BETWEEN = frozenset({"door", "language", "clock", "recovery", "screen", "own_phone"})
"""Pages one passes through and does not come back to."""


def register(app: Flask) -> None:
    """Keep the address of each page that is looked at on one's own phone, in a cookie of that phone."""

    @app.after_request
    def keep(response: Response) -> Response:
        if _is_to_come_back_to(response) and (page := _address()) != guard.cookie(LEFT):
            guard.set_cookie(response, LEFT, page, guard.TWELVE_HOURS)
        return response


def page_left(otherwise: str) -> str:
    """Return the address of the page that was left on this phone."""
    kept = guard.cookie(LEFT) if guard.owner() is not None else ""
    return own_path(kept) if kept else otherwise


def _address() -> str:
    """Return the address asked for, without the word of what was just saved."""
    address = request.path if "saved" in request.args else request.full_path.rstrip("?")
    return address if len(address) <= LONGEST else request.path


def _is_to_come_back_to(response: Response) -> bool:
    """Return whether this is a page of somebody who is signed in on their own phone, and one to come back to."""
    signed, owner = guard.signed_in(), guard.owner()
    room = (request.endpoint or "door").split(".", maxsplit=1)[0]
    is_owners = signed is not None and owner is not None and signed.person.id == owner.id
    is_page = response.status_code == 200 and response.mimetype == "text/html" and is_looked_at()
    return is_owners and is_page and room not in ROOMS_BETWEEN
