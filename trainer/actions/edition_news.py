"""What a cook who read an older edition of a technique has not read: from the texts the book published it with."""

from __future__ import annotations

from trainer.actions.open_kitchen import Kitchen, Units
from trainer.kitchen.edition_changes import StepChange, changed_steps
from trainer.kitchen.technique import Technique


def changes_since(k: Kitchen, *, now: Technique, read: int, language: str, units: Units) -> tuple[StepChange, ...]:
    """Return the steps that changed since an edition was read; nothing where its texts are not kept or readable."""
    for standard in reversed(k.progress().standards.published):
        held = standard.content.techniques.get(now.id)
        if held is None or not standard.texts or k.teaching is None or held.editions[-1].number != read:
            continue
        told = k.teaching.read(standard.texts, language, units)
        before = told.techniques.get(now.id) if told else None
        return changed_steps(before, now) if before else ()
    return ()
