"""The way into a demo kitchen: three invented people to step in as, with secrets that are no secret."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from trainer.actions.open_kitchen import OpenKitchen
from trainer.recipe_math.saying import say

DEMO_PIN = "70281936"
DEMO_PASSPHRASE = "blue apron on the hook"  # noqa: S105 - shown on the demo's first page


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

    Nobody in a kitchen that is no demo. Whoever makes a demo kitchen gives its people `DEMO_PIN`, its managers
    `DEMO_PASSPHRASE`.
    """
    if not k.file.settings.is_demo:
        return ()
    progress = k.progress()
    roles = {who: progress.roles(who, on) for who in progress.cooks_on(on) if who in k.people()}
    newest = [who for who, held in roles.items() if held == {"cook"}][-1:]
    assessors = [who for who, held in roles.items() if "assessor" in held and "manager" not in held][:1]
    managers = [who for who, held in roles.items() if "manager" in held][:1]
    hire = say("Things to read, steps to follow, a quiz to sit.")
    sous = say("Who waits to be watched, a practical point by point, the signature.")
    boss = say("Tonight’s board, the reason behind every cell, the roster.")
    pin, words = say("the PIN"), say("the passphrase")
    return (
        *(Door(say("New hire"), who, k.people()[who].name, hire, pin, DEMO_PIN) for who in newest),
        *(Door(say("Sous chef"), who, k.people()[who].name, sous, pin, DEMO_PIN) for who in assessors),
        *(Door(say("Manager"), who, k.people()[who].name, boss, words, DEMO_PASSPHRASE) for who in managers),
    )
