"""Proving oneself again: what a signature and a grant of rights ask for, beside being signed in."""

from __future__ import annotations

from datetime import datetime

from flask import abort
from wtforms import PasswordField

from trainer.actions import signing_in
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Second
from trainer.kitchen.proof import Proof
from trainer.messages import message
from trainer.store.acting import prove
from trainer.web import guard
from trainer.web.forms import KitchenForm

ASKED_WHEN_OLD = message("Asked since you last gave it more than two minutes ago.")
NOT_YOURS = Refused(message("That is not your PIN or passphrase. Nothing was saved yet."), field="secret")


class LatelyForm(KitchenForm):
    """A form of an act that gives, takes or lifts something: a proof of the last two minutes is enough for it.

    A form under it ends in a `secret_field`, so that it is drawn last.
    """


def secret_field() -> PasswordField:
    """Return the field for the secret, for a form that asks for it only where the last proof is old."""
    return PasswordField(message("Your PIN or passphrase"), description=ASKED_WHEN_OLD)


def is_proved(form: KitchenForm) -> bool:
    """Return whether anyone who sent the form has proved who they are, as the form asks; else the refusal stands on it.

    A form without the field asks for nothing. What is typed is looked at even where the last proof would do.
    """
    if "secret" not in form or (isinstance(form, LatelyForm) and _is_recent() and not form["secret"].data):
        return True
    return proved_now(form) is not None


def leave_out(form: KitchenForm) -> None:
    """Take the secret's field off a form that need not ask for it: nobody proves themselves twice in two minutes."""
    if isinstance(form, LatelyForm) and "secret" in form and _is_recent() and not form["secret"].errors:
        del form["secret"]


def _is_recent() -> bool:
    """Return whether anyone who is signed in gave their secret within the last two minutes."""
    signed = guard.signed_in()
    return signed is not None and signing_in.proved_within(signed.session, signing_in.PROOF_MINUTES, guard.now())


def proved_now(form: KitchenForm) -> datetime | None:
    """Return the moment of the proof after the right secret, or None with the refusal at the form's secret."""
    signed = guard.signed_in()
    if signed is None:
        abort(403)
    typed = form["secret"].data or ""
    if not typed:
        form.refuse(Refused(message("Type your PIN or passphrase again. Nothing was saved yet."), field="secret"))
        return None
    session = signing_in.prove_again(guard.kitchen(), token=signed.token, secret=typed, now=guard.now())
    if isinstance(session, Refused):
        form.refuse(NOT_YOURS if session == signing_in.NO_MATCH else session)
        return None
    prove(session.proof)
    return session.proved_at


def word_of_another(form: KitchenForm, person: str, field: str) -> Second | None:
    """Return the word of another who is not signed in, after their right secret in a field; or None, with the refusal.

    Their wrong tries are counted as at the door: for them, on this device.
    """
    signed = guard.signed_in()
    if signed is None:
        abort(403)
    typed, now = form[field].data or "", guard.now()
    if not typed:
        form.refuse(Refused(message("The second to sign types their own PIN or passphrase here."), field=field))
        return None
    kept = signing_in.proved(guard.kitchen(), device=signed.session.device, person=person, secret=typed, now=now)
    if isinstance(kept, Refused) or kept.kind == "first_code":
        wrong = Refused(message("That is not the PIN or passphrase of the second to sign."), field=field)
        is_wait = isinstance(kept, Refused) and kept != signing_in.NO_MATCH
        form.refuse(Refused(kept.reason, kept.who_can, field) if isinstance(kept, Refused) and is_wait else wrong)
        return None
    return Second(person, Proof(kept.kind, now, signed.session.device, kept.since).body())
