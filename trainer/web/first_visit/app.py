"""The app that answers in plain HTTP where the kitchen's own pages come over HTTPS: one page, and one file to take."""

from __future__ import annotations

from flask import Flask

from trainer.actions.open_kitchen import Kitchen
from trainer.store.encryption import HouseCertificate
from trainer.web import headers
from trainer.web.app import dress_templates
from trainer.web.first_visit.pages import pages


def create_first_visit(kitchen: Kitchen, certificate: HouseCertificate) -> Flask:
    """Return the app for a phone's first visit; it knows nobody and takes nothing.

    `OVER_HTTPS` in its settings is the address of the kitchen's pages.
    """
    app = Flask("trainer.web")
    app.config.update(OWN_NAMES=frozenset(certificate.names), HTTPS=False, OVER_HTTPS="")
    app.extensions.update(kitchen=kitchen, certificate=certificate)
    dress_templates(app)
    headers.add_headers(app, https=False)
    app.register_blueprint(pages)
    return app
