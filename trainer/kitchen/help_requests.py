"""What a cook asked to be shown and nobody has shown yet."""

from __future__ import annotations

from trainer.kitchen.record import CookRecord, HelpAsked


def open_help(record: CookRecord) -> tuple[HelpAsked, ...]:
    """Return the askings nobody has answered, in order of the book."""
    answered = {line.asked for line in record.help_given}
    return tuple(line for line in record.help_asked if line.entry not in answered)


def help_open_for(record: CookRecord, technique: str, *, step: str = "", skill: str = "") -> HelpAsked | None:
    """Return the open asking for a step of a technique, or for a question's skill; None where there is none."""
    wanted = (technique, step, skill)
    return next((line for line in open_help(record) if (line.technique, line.step, line.skill) == wanted), None)
