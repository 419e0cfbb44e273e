"""Proving oneself again: what a signature and a grant of rights ask for, beside being signed in."""

from __future__ import annotations

from datetime import datetime

from flask import abort

from trainer.actions import signing_in
from trainer.actions.outcome import Refused
from trainer.recipe_math.saying import say
from trainer.web import guard
from trainer.web.forms import KitchenForm

NOT_YOURS = Refused(say("That is not your PIN or passphrase. Nothing was saved yet."), field="secret")


def proved_now(form: KitchenForm) -> datetime | None:
    """Return the moment of the proof after the right secret, or None with the refusal at the form's secret."""
    signed = guard.signed_in()
    if signed is None:
        abort(403)
    typed = form["secret"].data or ""
    if not typed:
        form.refuse(Refused(say("Type your PIN or passphrase again. Nothing was saved yet."), field="secret"))
        return None
    session = signing_in.prove_again(guard.kitchen(), token=signed.token, secret=typed, now=guard.now())
    if isinstance(session, Refused):
        form.refuse(NOT_YOURS if session == signing_in.NO_MATCH else session)
        return None
    return session.proved_at
