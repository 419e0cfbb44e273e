"""A phone's first visit: take in the kitchen's certificate, step by step, then go on over HTTPS.

The certificate is public. Whoever is careful compares the fingerprint with the one on the manager's page *Devices*, or
that `trainer https` printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, current_app, g, make_response, redirect, request, url_for
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response as AnyResponse

from trainer.messages import Text, message
from trainer.store.catalogues import languages, name_of, nearest_language
from trainer.store.encryption import HouseCertificate
from trainer.web import guard
from trainer.web.page import Page, rendered
from trainer.web.reading import ReaderSettings, said
from trainer.web.shell import bare_shell

pages = Blueprint("first_visit", __name__)
CERTIFICATE = "application/x-x509-ca-cert"
"""What phones know the file of a certificate authority by; common practice, no registered type."""


@dataclass(frozen=True, slots=True)
class Tongue:
    """Another language of the page, and its address."""

    tag: str
    name: str
    url: str


@dataclass(frozen=True, slots=True)
class Way:
    """A kind of device, and what to do there, in order."""

    device: Text
    acts: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class FirstVisitPage(Page):
    """The file to take, what to do with it on each kind of device, and the way on."""

    template: ClassVar[str] = "door/first_visit.html"
    tongues: tuple[Tongue, ...]
    take: str
    ways: tuple[Way, ...]
    fingerprint: str
    onward: str


@pages.before_request
def how_it_is_read() -> None:
    """Tell the page in the language asked for, else the browser's, else the kitchen's."""
    settings = guard.kitchen().file.settings
    wanted = request.args.get("language") or request.accept_languages.best_match(languages()) or settings.language
    g.signed_in, g.device = None, None
    g.reading = ReaderSettings(nearest_language(wanted[:8]), settings.units_first)


@pages.get("/")
def first() -> Response:
    """Say how this device learns to trust the kitchen."""
    here = g.reading.language
    page = FirstVisitPage(
        title=message("Let this device trust the kitchen"),
        tongues=tuple(Tongue(tag, name_of(tag), url_for(".first", language=tag)) for tag in languages() if tag != here),
        take=url_for(".certificate"),
        ways=_ways(),
        fingerprint=_certificate().fingerprint,
        onward=current_app.config["OVER_HTTPS"],
    )
    return rendered(page, bare_shell(guard.kitchen().file.settings.name, here))


@pages.get("/kitchen.crt")
def certificate() -> Response:
    """Give the authority's certificate, which is no secret."""
    answer = make_response(_certificate().authority.read_bytes())
    answer.content_type = CERTIFICATE
    answer.headers["Content-Disposition"] = 'attachment; filename="kitchen.crt"'
    return answer


@pages.get("/<path:anything>")
def elsewhere(anything: str) -> AnyResponse:
    """Lead an old address to the same page over HTTPS; a browser that trusts nobody yet finds the first page."""
    return redirect(current_app.config["OVER_HTTPS"] + anything, 307)


@pages.app_errorhandler(400)
def refused(refusal: HTTPException) -> Response:
    """Say in plain words why a request is not answered: a name that is not the kitchen's."""
    how_it_is_read()
    answer = make_response(said(refusal.description), 400)
    answer.mimetype = "text/plain"
    return answer


def _certificate() -> HouseCertificate:
    found: HouseCertificate = current_app.extensions["certificate"]
    return found


def _ways() -> tuple[Way, ...]:
    """Return what to do on each kind of device, in the words of its own settings as they were in 2025 (from memory)."""
    return (
        Way(
            message("iPhone or iPad"),
            (
                message("Take the file, and allow it."),
                message("Settings, General, VPN & Device Management: install it."),
                message("Settings, General, About, Certificate Trust Settings: switch it on."),
            ),
        ),
        Way(
            message("Android"),
            (
                message("Take the file."),
                message("Settings, Security, More security settings, Install from storage: CA certificate."),
                message("Install it anyway, and choose the file kitchen.crt."),
            ),
        ),
        Way(
            message("Computer"),
            (
                message("Take the file and open it."),
                message("Keep it among the trusted root authorities. Firefox keeps its own list, in its settings."),
            ),
        ),
    )
