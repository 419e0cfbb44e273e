"""The way into a demo kitchen: three invented people to step in as, with secrets that are no secret."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.roles import ROLES, Role, in_sequence
from trainer.messages import Text, message
from trainer.store.secret_hash import is_right

DEMO_PIN = "70281936"
DEMO_PASSPHRASE = "blue apron on the hook"  # noqa: S105 - shown on the demo's first page
SECRETS = {"pin": (DEMO_PIN, message("the PIN")), "passphrase": (DEMO_PASSPHRASE, message("the passphrase"))}


@dataclass(frozen=True, slots=True)
class Door:
    """One way in: who, as what, what they will find, and the secret to type by hand."""

    role: Text
    person: str
    name: str
    finds: Text
    secret_word: Text
    secret: str

    @property
    def first_name(self) -> str:
        """Return the name on the button."""
        return self.name.split()[0]


def doors(k: Kitchen, on: date) -> tuple[Door, ...]:
    """Return the three ways in on a day: the cook who joined last, the first assessor, the first manager.

    Of the people made up for the demo, and of those only who the demo's secret still opens to: no button leads to
    a refusal, and nobody's own PIN is shown. A way in that nobody is left for is not there; in a kitchen that is no
    demo none is.
    """
    if not k.file.settings.is_demo:
        return ()
    by_role = _made_up_people(k, on)
    found = (_door(k, title, by_role[role], finds) for role, title, finds in WAYS)
    return tuple(door for door in found if door is not None)


WAYS: tuple[tuple[Role, Text, Text], ...] = (
    ("cook", message("New hire"), message("Things to read, steps to follow, questions to answer.")),
    ("assessor", message("Sous chef"), message("Who waits to be watched, a practical point by point, the signature.")),
    ("manager", message("Manager"), message("Tonight’s board, the reason behind every cell, the roster.")),
)


def _made_up_people(k: Kitchen, on: date) -> dict[Role, list[str]]:
    """Return the demo's people of a day by their strongest role; those who only cook with the newest first."""
    progress, cast, people = k.progress(), k.file.demo_cast.all(), k.people()
    found: dict[Role, list[str]] = {role: [] for role in ROLES}
    for who in progress.cooks_on(on):
        if who in people and who in cast:
            found[in_sequence(progress.roles(who, on))[-1]].append(who)
    found["cook"].reverse()
    return found


def _door(k: Kitchen, role: Text, whom: Iterable[str], finds: Text) -> Door | None:
    """Return the way in as the first of these people whom the demo's secret opens to."""
    for who in whom:
        kept = k.file.people.secret_of(who)
        secret, word = SECRETS.get(kept.kind, ("", "")) if kept else ("", "")
        if kept and secret and _opens(kept.hash, secret):
            return Door(role, who, k.people()[who].name, finds, word, secret)
    return None


@lru_cache(maxsize=64)
def _opens(kept: str, secret: str) -> bool:
    """Return whether a demo secret still opens; worked out once for a kept one, as it is slow on purpose."""
    return is_right(kept, secret)
