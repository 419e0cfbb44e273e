"""Opening a new kitchen: its file, and the manager who begins its book."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from trainer.actions.kitchen_settings import enter_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.publishing import publish_first
from trainer.actions.roster import first_manager
from trainer.actions.signing_in import set_secret
from trainer.actions.teaching import Draft
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import NotAKitchen
from trainer.store.settings import Settings


def open_new_kitchen(  # noqa: PLR0913, PLR0917 - everything a kitchen begins with, once
    folder: Path, settings: Settings, draft: Draft, manager: tuple[str, str], now: datetime, key: str
) -> Outcome:
    """Return the manager's entry of a new kitchen in *folder*; `manager` is a name and a passphrase.

    What `draft` teaches becomes its first standard.

    Refused, with nothing left behind, where a kitchen is there already or a setting, the name or the passphrase will
    not do.
    """
    try:
        file = KitchenFile.create(folder, settings)
    except NotAKitchen as problem:
        return Refused(str(problem))
    except ValueError as problem:
        return Refused(str(problem), field="settings")
    outcome = _begin(Kitchen(file, draft.content), draft, manager, now, key)
    file.close()
    if isinstance(outcome, Refused):
        file.path.unlink()
    return outcome


def _begin(kitchen: Kitchen, draft: Draft, manager: tuple[str, str], now: datetime, key: str) -> Outcome:
    """Return the manager's entry, or why not."""
    name, secret = manager
    begun = first_manager(kitchen, name=name, now=now, key=key)
    if isinstance(begun, Saved):
        kept = set_secret(kitchen, person=begun.entry.cook, secret=secret, now=now)
        if isinstance(kept, Refused):
            return kept
        enter_settings(kitchen, by=begun.entry.cook, now=now, key=f"{key}:settings")
        published = publish_first(kitchen, draft=draft, by=begun.entry.cook, now=now, key=f"{key}: standard")
        if isinstance(published, Refused):
            return published
    return begun
