"""How long a request's body may be: little for a stranger, a form for who is signed in, a file where files go."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from http.cookies import CookieError, SimpleCookie

from flask import Flask, request

from trainer.actions.open_kitchen import Kitchen
from trainer.store.problems import CannotSave, KitchenProblem
from trainer.web import guard

FILE = 10 * 1024 * 1024
FORM = 256 * 1024
LIST = 1024 * 1024  # a preview of a long file, with many rows left out
STRANGER = 64 * 1024
TOLD_IN_WORDS = 4 * FILE  # so much too long a file of a person signed in is still read, to say so on a page
BY_ENDPOINT = {
    "manager.roster.upload": FILE,
    "writing.photographs.take": FILE,
    "manager.roster.look_again": LIST,
    "manager.roster.take_in": LIST,
}


def limit_bodies(app: Flask, kitchen: Kitchen, clock: Callable[[], datetime]) -> None:
    """Refuse too long a body on every route, and tell the server under the app what it may read at all."""

    @app.before_request
    def by_route() -> None:
        most = BY_ENDPOINT.get(request.endpoint or "", FORM) if guard.signed_in() else STRANGER
        request.max_content_length = most
        request.max_form_memory_size = most

    def before_reading(headers: Mapping[str, str]) -> int:
        length = headers.get("CONTENT_LENGTH", "")
        if length.isdigit() and int(length) <= STRANGER:
            return STRANGER
        return TOLD_IN_WORDS if is_signed_in(headers.get("COOKIE", "")) else STRANGER

    def is_signed_in(cookies: str) -> bool:
        try:
            kept = SimpleCookie(cookies)
            with app.app_context():
                names = guard.names_of(guard.SESSION)
            tokens = [kept[name].value for name in names if name in kept]
            return any(kitchen.file.sessions.find(token, clock()) for token in tokens)
        except (CookieError, CannotSave, KitchenProblem):
            return False

    app.extensions["body_limit"] = before_reading
