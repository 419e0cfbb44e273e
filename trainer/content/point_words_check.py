"""The words of a typed checklist: one act a point, and every limit that the steps teach is watched somewhere."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping

from trainer.content.kinds import BRACE, Written
from trainer.content.limits import has_ends
from trainer.content.mapping_reader import MappingReader
from trainer.content.point_verbs import ALSO_ADJECTIVES, ARTICLES, JOINS, POINT_VERBS
from trainer.content.points import PointStructure, PointTold
from trainer.kitchen.technique import Limit

MOST_WORDS = 14
WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|;|\{[^{}]*\}|\d+")
ONE_ACT = "Split it into a point for each act; or write `one_act: yes` where it is one."


def check_acts(
    points: Collection[PointStructure], words: Mapping[str, PointTold], language: str, whole: Collection[str]
) -> None:
    """Add a problem for each point that is more than one act; *whole* are those that say they are one."""
    for each in points:
        told = words.get(each.point.id)
        if told is None or told.act is None or each.point.id in whole:
            continue
        add, line = told.at.diagnostics.add, told.act.line
        count = len(told.act.text.split())
        if count > MOST_WORDS:
            add(line, f"{each.point.id} is told in {count} words; {MOST_WORDS} are enough for one act.", ONE_ACT)
        elif each.point.judged != "tasted":
            for first, join, second in two_acts(told.act.text, language):
                add(line, f"{each.point.id} is two acts: {first} ... {join} ... {second}.", ONE_ACT)


def two_acts(text: str, language: str) -> Iterator[tuple[str, str, str]]:
    """Yield the first verb, the word that joins, and the second verb, where a text tells two acts.

    >>> list(two_acts("Wipes the board and washes the knife", "en")), list(two_acts("Salt and pepper", "en"))
    ([('wipes', 'and', 'washes')], [])
    """
    joins, found = JOINS.get(language, frozenset()), [word.lower() for word in WORD.findall(text)]
    verbs = [place for place in range(len(found)) if _is_verb(found, place, language)]
    for join in (place for place, word in enumerate(found) if word in joins):
        before, after = [each for each in verbs if each < join], [each for each in verbs if each > join]
        if before and after:
            yield found[before[-1]], found[join], found[after[0]]
            return


def _is_verb(found: list[str], place: int, language: str) -> bool:
    """Return whether a word says what the cook does."""
    word = found[place]
    if word not in POINT_VERBS.get(language, frozenset()):
        return False
    return word not in ALSO_ADJECTIVES or place == 0 or (place + 1 < len(found) and found[place + 1] in ARTICLES)


def check_taught(
    taught: Collection[Written], judged: Collection[str], code: Mapping[str, Limit], at: MappingReader
) -> None:
    """Add a problem for each limit of the code that a step teaches, and that no point judges, here or elsewhere."""
    told: set[str] = set()
    for text in taught:
        for name in (found[1].strip() for found in BRACE.finditer(text.text)):
            limit = code.get(name.removeprefix("code.")) if name.startswith("code.") else None
            if limit is None or not has_ends(limit) or name in judged or name in told:
                continue
            told.add(name)
            message = f"{name} is taught in the steps, and no point judges it."
            hint = f"Add a point that does; or say where it is watched: `judged_in: {{technique: [{name}]}}`."
            at.diagnostics.add(text.line, message, hint)
