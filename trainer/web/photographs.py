"""The kitchen's own photographs, as they were published with their technique."""

from __future__ import annotations

from flask import Blueprint, Response, abort, url_for

from trainer.content.photo_files import photograph_in
from trainer.kitchen.technique import Step
from trainer.web import guard, reading

pages = Blueprint("photographs", __name__)


@pages.get("/photographs/<technique>/<name>")
@guard.needs("person")
def photograph(technique: str, name: str) -> Response:
    """Return a photograph of a technique that is taught."""
    if technique not in reading.content().techniques:
        abort(404)
    return jpeg(photograph_in(guard.kitchen().drawings / "techniques" / technique, name))


def jpeg(data: bytes) -> Response:
    """Return a photograph as an answer; a page that is not there where there is none."""
    return Response(data, mimetype="image/jpeg") if data else abort(404)


def photograph_url(technique: str, step: Step) -> str:
    """Return the address of a step's photograph; empty where it has none."""
    return url_for("photographs.photograph", technique=technique, name=step.photograph) if step.photograph else ""
