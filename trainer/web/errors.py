"""The pages for when something went wrong: what happened, what is safe, what to do, a number to quote."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Flask, Response, make_response, request
from werkzeug.exceptions import HTTPException

from trainer.messages import Text, message
from trainer.store.problems import CannotSave, DamagedKitchen, KeyReused, ReadingOnly
from trainer.web.page import Page, show
from trainer.web.reading import said

SAFE = message("What was saved before is safe.")
NOT_NOW = message(
    "Take this as not saved: when the kitchen can be written to again, send it once more. It will not count twice."
)
TO_MEND = message(
    "Tell whoever looks after this machine: stop the server, put the right file back or take the last good backup "
    "(trainer restore FILE), then start it again (trainer serve)."
)
DAMAGED = message("The book is damaged. Reading only.")
NOTHING = message("Nothing was saved from this try. What was saved before is safe.")


@dataclass(frozen=True, kw_only=True)
class ErrorPage(Page):
    """One thing that went wrong, in plain words."""

    template: ClassVar[str] = "errors/error.html"
    happened: Text
    safe: Text
    act: Text
    quote: str


WORDS = {
    400: (
        message("That could not be read"),
        message("The page sent something the kitchen could not read."),
        message("Go back, load the page again, and send it once more."),
    ),
    403: (
        message("Not yours to open"),
        message("This page is for somebody else."),
        message("Go back to your start page. A manager can say who may."),
    ),
    404: (
        message("Nothing hangs here"),
        message("There is no page at this address."),
        message("Check the address, or go back to your start page."),
    ),
    405: (
        message("Not this way"),
        message("This page cannot be sent to like that."),
        message("Go back to the page before and use its own button."),
    ),
    413: (
        message("Too large"),
        message("What was sent is too large for this page."),
        message("Send a smaller one. A roster file is rarely over 1 MB."),
    ),
    429: (
        message("Wait a moment"),
        message("Too many tries came in a short time."),
        message("Wait for the time shown, then try again."),
    ),
}


def catch(app: Flask) -> None:
    """Answer every error with a page of our own."""

    @app.errorhandler(HTTPException)
    def refused(problem: HTTPException) -> Response:
        code = problem.code or 500
        if code not in WORDS:
            return broken(problem)
        title, happened, act = WORDS[code]
        own_words = _larger_than() if code == 413 else _own_words(problem)
        response = _page(
            code, ErrorPage(title=title, happened=own_words or happened, safe=_safe(), act=act, quote=_quote())
        )
        if code == 405:
            response.headers["Allow"] = ", ".join(getattr(problem, "valid_methods", None) or ["GET"])
        return response

    @app.errorhandler(CannotSave)
    def full(problem: CannotSave) -> Response:
        quote = _quote()
        app.logger.error("%s not saved: %s", quote, problem)
        words = message("The disk would not take it. It may be full.")
        act = message("Tell a manager to free some room. Then go back and send it again: it will not count twice.")
        return _page(507, ErrorPage(title=message("Not saved"), happened=words, safe=NOTHING, act=act, quote=quote))

    @app.errorhandler(ReadingOnly)
    @app.errorhandler(DamagedKitchen)
    def reading_only(problem: ReadingOnly | DamagedKitchen) -> Response:
        quote = _quote()
        app.logger.error("%s reading only: %s", quote, problem)
        words = problem.reason if isinstance(problem, ReadingOnly) else DAMAGED
        return _page(
            503, ErrorPage(title=message("Reading only"), happened=words, safe=NOT_NOW, act=TO_MEND, quote=quote)
        )

    @app.errorhandler(KeyReused)
    def sent_twice(problem: KeyReused) -> Response:
        words = message("This form was already sent once, with something else in it. The first one counts.")
        act = message("Load the page again to see what was saved, and go on from there.")
        return _page(409, ErrorPage(title=message("Already saved"), happened=words, safe=SAFE, act=act, quote=_quote()))

    @app.errorhandler(Exception)
    def broken(problem: Exception) -> Response:
        quote = _quote()
        app.logger.error("%s %s %s", quote, request.method, request.path, exc_info=problem)
        words = message("The program met something it did not expect.")
        act = message("Go back and try once more. If it happens again, tell a manager the number below.")
        return _page(
            500, ErrorPage(title=message("Something broke"), happened=words, safe=_safe(), act=act, quote=quote)
        )


def _page(code: int, page: ErrorPage) -> Response:
    try:
        return show(page, code)
    except Exception:  # the last page must come out whatever is broken
        text = message(
            "{title}. {happened} {safe} {act} Number to quote: {quote}",
            title=page.title,
            happened=page.happened,
            safe=page.safe,
            act=page.act,
            quote=page.quote,
        )
        return make_response((str(said(text)), code, {"Content-Type": "text/plain; charset=utf-8"}))


def _own_words(problem: HTTPException) -> Text:
    """Return the sentence a page of ours gave with its refusal; "" where it is the library's, which is in English."""
    library = [vars(kind).get("description") for kind in type(problem).__mro__]
    return "" if problem.description in library else problem.description or ""


def _larger_than() -> Text:
    """Return how much this page takes, in the unit a file's size is shown in."""
    most = request.max_content_length or 0
    size = f"{most >> 20} MB" if most >= 1 << 20 else f"{most >> 10} KB"
    return message("The file or text is larger than {size}.", size=size)


def _safe() -> Text:
    return NOTHING if request.method == "POST" else SAFE


def _quote() -> str:
    return f"{secrets.randbelow(10**6):06d}"
