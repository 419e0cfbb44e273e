"""What every answer carries, and which unsafe requests are turned away before a page sees them."""

from __future__ import annotations

import gzip
from urllib.parse import urlsplit

from flask import Flask, Response, abort, request

from trainer.messages import message
from trainer.web.own_names import is_own

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "object-src 'none'",
        "frame-ancestors 'none'",
        "manifest-src 'self'",
        "worker-src 'self'",
    )
)
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
NAME_IT = message("Open it by its address, or start it with: trainer serve --name, and the name.")
A_YEAR = 31_536_000
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
KEPT = frozenset({"static", "screen.style"})  # named by content: for the caller, and for a year
PRESSED = frozenset({"text/html", "text/css", "text/javascript", "image/svg+xml"})


def add_headers(app: Flask, *, https: bool) -> None:
    """Put the same guard headers on every answer, and turn away unsafe requests that come from another site.

    So is a request under a name that is not the kitchen's own, where the app was given its names. Where a phone's first
    visit is in plain HTTP, browsers are not told to ask this name by HTTPS alone.
    """

    @app.before_request
    def reject_foreign_requests() -> None:
        names = app.config.get("OWN_NAMES")
        if names is not None and not is_own(request.host, names):
            abort(
                400,
                message("This kitchen does not answer by the name “{name}”. {mend}", name=request.host, mend=NAME_IT),
            )
        if request.method not in SAFE and not is_from_here():
            abort(400, message("This was sent from another site, so nothing was done."))

    @app.after_request
    def add_response_headers(response: Response) -> Response:
        response.headers.update(ALWAYS)
        if https and "FIRST_VISIT" not in app.config:
            response.headers["Strict-Transport-Security"] = f"max-age={A_YEAR}; includeSubDomains"
        if request.endpoint in KEPT and response.status_code < 400:
            response.headers["Cache-Control"] = f"public, max-age={A_YEAR}, immutable"
        else:
            response.headers["Cache-Control"] = "no-store"
        gzip_response(response)
        return response


def gzip_response(response: Response) -> None:
    """Send text gzipped to anyone who can read it so: a board of fifteen cooks is a tenth as long.

    A page's length tells nothing of its token, which is masked again each time (see `forms.VisitorToken`).
    """
    if response.mimetype not in PRESSED:
        return
    response.headers["Vary"] = "Accept-Encoding"
    wanted = "gzip" in request.headers.get("Accept-Encoding", "")
    if wanted and response.content_length != 0 and "Content-Encoding" not in response.headers:
        response.direct_passthrough = False
        response.set_data(gzip.compress(response.get_data(), 9 if request.endpoint in KEPT else 4, mtime=0))
        response.headers["Content-Encoding"] = "gzip"


def is_from_here() -> bool:
    """Return whether the request says it comes from our own pages.

    Sec-Fetch-Site is believed where a browser sends it; older browsers send Origin, which must name this host.
    A request with neither is left to the form's own token.
    """
    site = request.headers.get("Sec-Fetch-Site")
    if site is not None:
        return site in ("same-origin", "none")
    origin = request.headers.get("Origin")
    return origin is None or urlsplit(origin).netloc == request.host
