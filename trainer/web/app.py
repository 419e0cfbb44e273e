"""The app factory: one kitchen in, one Flask app out."""

from __future__ import annotations

import hashlib
import importlib
import mimetypes
from collections.abc import Callable, Collection
from datetime import datetime
from pathlib import Path

from flask import Flask, url_for
from jinja2 import StrictUndefined

from trainer import clock as wall
from trainer.actions.open_kitchen import Kitchen
from trainer.messages import message, plural
from trainer.web import body_limits, errors, filters, guard, headers, reading, way_back, witness
from trainer.web.offline import late

ROOMS = (
    "door.pages",
    "door.language",
    "door.clock",
    "cook.pages",
    "cook.steps",
    "cook.screen",
    "cook.quiz",
    "cook.questions",
    "cook.news",
    "cook.notice",
    "cook.practice",
    "cook.rehearsing",
    "print.sheets",
    "print.record",
    "door.recovery",
    "door.own_phone",
    "assessor.pages",
    "assessor.desk",
    "assessor.knowledge",
    "assessor.most",
    "assessor.again",
    "assessor.aloud",
    "manager.board",
    "manager.pages",
    "manager.lapsing",
    "writing.pages",
    "photographs",
    "night.ahead",
    "night.training",
    "night.plan",
    "night.plan_rows",
    "night.open_places",
    "night.services",
    "night.service_names",
    "night.one_day",
    "night.close",
    "night.off",
    "night.swaps",
    "bench.pages",
    "paths",
    "way",
    "handing_out.pages",
    "offline.pages",
    "clocks",
)
"""The modules whose `pages` are registered, room by room; a room's other modules hang on its own."""


def create_app(
    kitchen: Kitchen,
    *,
    clock: Callable[[], datetime] = wall.now,
    steady: Callable[[], float] | None = None,
    https: bool = False,
    names: Collection[str] = (),
) -> Flask:
    """Return the app that serves one kitchen; *clock* tells the time, *https* makes cookies keep to encryption.

    With *steady*, the machine's clock that nobody sets (in seconds), the other one is watched.
    It answers at any address, as localhost, and under *names*.
    """
    app = Flask("trainer.web")
    app.config.update(
        SECRET_KEY=kitchen.file.secret_key(),
        MAX_CONTENT_LENGTH=body_limits.FILE,
        MAX_FORM_MEMORY_SIZE=body_limits.FILE,
        HTTPS=https,
        OWN_NAMES=frozenset(names),
    )
    app.extensions.update(kitchen=kitchen, clock=clock)
    if steady is not None:
        kitchen.keep_time(clock, steady)
    dress_templates(app)
    guard.register_auth(app)
    witness.register(app)
    way_back.register(app)
    body_limits.limit_bodies(app, kitchen, clock)
    headers.add_headers(app, https=https)
    errors.catch(app)
    late.register(app)
    for module in ROOMS:
        app.register_blueprint(importlib.import_module(f"trainer.web.{module}").pages)
    return app


mimetypes.add_type("font/woff2", ".woff2")  # Python 3.11 to 3.13 do not know it by themselves


def dress_templates(app: Flask) -> None:
    """Give an app's templates what all of ours are written with."""
    app.jinja_options = {
        **app.jinja_options,
        "undefined": StrictUndefined,
        "finalize": reading.said,
        "trim_blocks": True,
        "lstrip_blocks": True,
    }
    app.jinja_env.filters.update(filters.FILTERS)
    app.jinja_env.globals.update(static_url=_static_urls(app), message=message, plural=plural, page_seal=late.page_seal)


def _static_urls(app: Flask) -> Callable[[str], str]:
    """Return a function that names a static file by its content, so that it may be kept for a year."""
    folder = Path(app.static_folder or "")
    stamps = {p.name: hashlib.sha256(p.read_bytes()).hexdigest()[:12] for p in folder.iterdir() if p.is_file()}

    def static_url(name: str) -> str:
        """Return the address of a static file in this edition."""
        return url_for("static", filename=name, v=stamps[name])

    return static_url
