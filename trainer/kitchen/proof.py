"""How a signer had proved who they are: by what, when, on which device, and since when the secret is theirs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Literal, cast

from trainer.kitchen.book import moment_text

How = Literal["pin", "passphrase", "passkey", "first_code", "local", "recovery_sheet"]
NEW_FOR = timedelta(hours=24)
SIGNED = frozenset(
    {
        "practical_watched",
        "rechecked",
        "shift_worked",
        "stop_released",
        "entry_voided",
        "stood_down",
        "restored",
        "station_opened",
        "wait_lifted",
        "authority_given",
        "authority_ended",
    }
)
"""The kinds of entries that are signatures; so are a `cook_changed` with roles and a service not closed as planned."""


@dataclass(frozen=True, slots=True)
class Proof:
    """One proof of who somebody is. `secret_since` is when the secret was set, None where that was not kept."""

    how: How
    at: datetime
    device: str
    secret_since: datetime | None = None

    def body(self) -> dict[str, str]:
        """Return it as an entry keeps it."""
        since = moment_text(self.secret_since) if self.secret_since else ""
        return {"how": self.how, "at": moment_text(self.at), "device": self.device, "secret_since": since}

    @property
    def is_new(self) -> bool:
        """Return whether the secret was set less than a day before it was given."""
        return self.secret_since is not None and timedelta(0) <= self.at - self.secret_since < NEW_FOR


def proof_in(body: Mapping[str, Any]) -> Proof | None:
    """Return the proof an entry's body keeps; None where it keeps none."""
    kept = body.get("proof")
    if not kept:
        return None
    since = datetime.fromisoformat(kept["secret_since"]) if kept["secret_since"] else None
    return Proof(cast("How", kept["how"]), datetime.fromisoformat(kept["at"]), kept["device"], since)


def is_signature(kind: str, body: Mapping[str, Any]) -> bool:
    """Return whether an entry of a kind, with a body, is a signature and carries a proof."""
    if kind == "service_stood":
        return not body["as_planned"]
    return kind in SIGNED or (kind == "cook_changed" and "roles" in body)
