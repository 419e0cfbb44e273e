"""The day and the service that an address of the night's pages names."""

from __future__ import annotations

from datetime import date

from flask import abort

from trainer.web import guard


def service_of_address(day: str, service: str) -> tuple[date, str]:
    """Return the service an address names; there is no page for any other."""
    try:
        on = date.fromisoformat(day)
    except ValueError:
        abort(404)
    if guard.kitchen().services.find(service) is None:
        abort(404)
    return on, service
