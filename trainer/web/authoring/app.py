"""The app that shows a technique to who is writing it: no kitchen, no book, nothing to send, this machine alone."""

from __future__ import annotations

from flask import Flask

from trainer.web import headers
from trainer.web.app import dress_templates
from trainer.web.authoring.pages import TechniqueWritten, pages

HERE = ["127.0.0.1", "localhost"]


def create_preview(written: TechniqueWritten) -> Flask:
    """Return the app that previews one technique; it answers this machine's own names only."""
    app = Flask("trainer.web")
    app.config.update(TRUSTED_HOSTS=HERE, HTTPS=False)
    app.extensions["written"] = written
    dress_templates(app)
    headers.add_headers(app, https=False)
    app.register_blueprint(pages)
    return app
