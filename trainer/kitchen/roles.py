"""The roles a person may have in a kitchen: in one sequence, with their words, and what each is for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal, get_args

from trainer.messages import Message, Text, joined, message

Role = Literal["cook", "assessor", "manager"]
ROLES: tuple[Role, ...] = get_args(Role)
ROLE_WORDS: Mapping[str, Message] = {
    "cook": message("cook"),
    "assessor": message("assessor"),
    "manager": message("manager"),
}
ROLE_HEADINGS: Mapping[str, Message] = {
    "cook": message("Cook"),
    "assessor": message("Assessor"),
    "manager": message("Manager"),
}
AT_STATIONS = frozenset({"cook", "assessor"})
"""The roles that work a station: a manager who is nothing else stands at none."""


def in_sequence(roles: Iterable[str]) -> tuple[Role, ...]:
    """Return roles in their own sequence; a word that is no role is left out."""
    wanted = frozenset(roles)
    return tuple(role for role in ROLES if role in wanted)


def works_a_station(roles: frozenset[str]) -> bool:
    """Return whether a person with these roles stands at stations."""
    return bool(roles & AT_STATIONS)


def roles_in_words(roles: Iterable[str]) -> Text:
    """Return roles in words, one after the other."""
    return joined((ROLE_WORDS.get(role, role) for role in roles), ", ")
