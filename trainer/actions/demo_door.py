"""The way into a demo kitchen: three invented people to step in as, with secrets that are no secret."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from trainer.actions.open_kitchen import OpenKitchen
from trainer.recipe_math.saying import say
from trainer.store.secret_hash import is_right

DEMO_PIN = "70281936"
DEMO_PASSPHRASE = "blue apron on the hook"  # noqa: S105 - shown on the demo's first page
SECRETS = {"pin": (DEMO_PIN, say("the PIN")), "passphrase": (DEMO_PASSPHRASE, say("the passphrase"))}


@dataclass(frozen=True, slots=True)
class Door:
    """One way in: who, as what, what they will find, and the secret to type by hand."""

    role: str
    person: str
    name: str
    finds: str
    secret_word: str
    secret: str

    @property
    def first_name(self) -> str:
        """Return the name on the button."""
        return self.name.split()[0]


def doors(k: OpenKitchen, on: date) -> tuple[Door, ...]:
    """Return the three ways in on a day: the cook who joined last, the first assessor, the first manager.

    Of the people made up for the demo, and of those only whoever the demo's secret still opens to: no button leads to
    a refusal, and nobody's own PIN is shown. A way in that nobody is left for is not there; in a kitchen that is no
    demo none is.
    """
    if not k.file.settings.is_demo:
        return ()
    progress, cast, people = k.progress(), k.file.demo_cast.all(), k.people()
    here = [who for who in progress.cooks_on(on) if who in people and who in cast]
    roles = {who: progress.roles(who, on) for who in here}
    newest = [who for who in reversed(here) if roles[who] == {"cook"}]
    assessors = [who for who in here if "assessor" in roles[who] and "manager" not in roles[who]]
    managers = [who for who in here if "manager" in roles[who]]
    hire = say("Things to read, steps to follow, a quiz to sit.")
    sous = say("Who waits to be watched, a practical point by point, the signature.")
    boss = say("Tonight’s board, the reason behind every cell, the roster.")
    ways = ((say("New hire"), newest, hire), (say("Sous chef"), assessors, sous), (say("Manager"), managers, boss))
    found = (_door(k, role, whom, finds) for role, whom, finds in ways)
    return tuple(door for door in found if door is not None)


def _door(k: OpenKitchen, role: str, whom: Iterable[str], finds: str) -> Door | None:
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
