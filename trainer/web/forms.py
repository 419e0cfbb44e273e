"""Forms: a token bound to the visitor, a key made before the first try, and problems in plain words."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask import current_app, g, request
from werkzeug.datastructures import ImmutableMultiDict
from wtforms import Form, HiddenField, StringField, ValidationError
from wtforms.csrf.core import CSRF, CSRFTokenField

from trainer.actions.outcome import Refused
from trainer.messages import Text, joined, message, with_values
from trainer.web import reading

TOO_OLD = message(
    "This page was open too long, or was sent from elsewhere. Nothing was saved. "
    "What you typed is still here: send it again."
)


@dataclass(frozen=True, slots=True)
class FieldProblem:
    """One thing to fix: the id of the input (empty: the whole form) and the same words the input shows."""

    field: str
    text: Text


class VisitorToken(CSRF):  # type: ignore[misc]
    """A token worked out from the visitor's own cookie, so it lives exactly as long as the visit.

    On a page it is masked with figures drawn again each time, so that the length of a gzipped page tells nothing of it.
    """

    def generate_csrf_token(self, csrf_token_field: CSRFTokenField) -> str:
        """Return the token for anyone who is asking, masked: signed-in session first, else the visitor cookie."""
        del csrf_token_field
        mask = secrets.token_bytes(32)
        return mask.hex() + _masked(_token(), mask).hex()

    def validate_csrf_token(self, form: Form, field: CSRFTokenField) -> None:
        """Refuse a missing or foreign token in words that say what is safe."""
        del form
        try:
            sent = bytes.fromhex(field.data or "")
        except ValueError:
            sent = b""
        if len(sent) != 64 or not hmac.compare_digest(_masked(sent[32:], sent[:32]), _token()):
            raise ValidationError(TOO_OLD)


def _token() -> bytes:
    """Return the token of anyone who is asking."""
    secret: bytes = current_app.config["SECRET_KEY"]
    return hmac.new(secret, b"form:" + g.visit.encode(), hashlib.sha256).digest()


def _masked(token: bytes, mask: bytes) -> bytes:
    """Return the token under a mask; done twice it is the token again."""
    return bytes(one ^ other for one, other in zip(token, mask, strict=True))


class KitchenForm(Form):  # type: ignore[misc]
    """The form every page starts from. `key` is made when the page is drawn and kept through every try."""

    class Meta:
        """Every form carries the visitor's token."""

        csrf = True
        csrf_class = VisitorToken

    key = HiddenField()

    def __init__(self, *, is_fresh: bool = False, **values: Any) -> None:  # noqa: ANN401 - WTForms' own arguments
        """Read the posted form on a POST, so that what was typed is kept; a fresh one, or on a GET, starts empty."""
        super().__init__(request.form if request.method == "POST" and not is_fresh else None, **values)
        self._refusals: list[FieldProblem] = []
        if not self.key.data or len(self.key.data) > 64:
            self.key.data = new_key()

    def is_sent_right(self) -> bool:
        """Return whether this is a POST whose every field holds."""
        return request.method == "POST" and bool(self.validate())

    def refuse(self, refusal: Refused | Text) -> None:
        """Put an action's refusal at the field it names, or on top of the form."""
        told = refusal if isinstance(refusal, Refused) else Refused(refusal)
        reason = with_values(joined(part for part in (told.reason, told.who_can) if part), reading.named)
        name = told.field
        if name in self._fields and self._fields[name].type not in ("HiddenField", "CSRFTokenField"):
            self._fields[name].errors = [*self._fields[name].errors, reason]
        else:
            self._refusals.append(FieldProblem("", reason))

    def problems(self) -> tuple[FieldProblem, ...]:
        """Return every problem, in the order of the fields; hidden fields speak for the whole form."""
        found = list(self._refusals)
        for field in self:
            hidden = field.type in ("HiddenField", "CSRFTokenField")
            found += [FieldProblem("" if hidden else field.id, error) for error in field.errors]
        return tuple(found)


class PlainForm(KitchenForm):
    """A form with nothing to fill in: one button."""


class SumForm(KitchenForm):
    """A form that saves nothing: sent by GET, so that all that is typed stands in the address; no token, no key."""

    class Meta:
        """There is nothing to guard: the form changes nothing."""

        csrf = False

    key = None

    def __init__(self, example: Mapping[str, str] | None = None) -> None:
        """Read what stands in the address; with nothing there, fill in the example."""
        self.is_asked = bool(request.args)
        Form.__init__(self, request.args if self.is_asked else ImmutableMultiDict(example or {}))
        self._refusals = []

    def works(self) -> bool:
        """Return whether something was typed or filled in, and every field holds."""
        return self.is_filled() and bool(self.validate())

    def is_filled(self) -> bool:
        """Return whether anything stands in any field."""
        return any(field.data for field in self)

    def put(self, field: str, problem: Text) -> None:
        """Put a problem found later, in the sum itself, at a field."""
        self._fields[field].errors = [*self._fields[field].errors, problem]


class TextField(StringField):  # type: ignore[misc]
    """A line of text, stripped, with control characters refused by the word they make unusable."""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Keep the text as typed, without the blanks around it; a null byte is dropped, since SQLite ends there."""
        self.data = valuelist[0].strip().replace("\x00", "") if valuelist else ""


def new_key() -> str:
    """Return a fresh idempotency key."""
    return secrets.token_urlsafe(18)
