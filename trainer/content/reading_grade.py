"""How hard a text is to read: the grade of Flesch and Kincaid, as a writer is told it.

Kincaid, Fishburne, Rogers, Chissom 1975, Research Branch Report 8-75: 0.39 words a sentence + 11.8 syllables a word -
15.59. Syllables are counted by their vowels, which is a guess; the grade says which text to look at, no more.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

WORD = re.compile(r"[A-Za-zÀ-ÿ]+(?:['’][A-Za-z]+)?")
SENTENCE = re.compile(r"[.!?:;]+(?:\s|$)")
VOWELS = re.compile(r"[aeiouyáéíóúàâêèëïöü]+")
SILENT = re.compile(r"(?<=[^aeiouyl])e(?:s|d)?$|(?<=[aeiouy]l)e(?:s|d)?$")


def syllables(word: str) -> int:
    """Return how many syllables an English word has, by its vowels.

    >>> [syllables(word) for word in ("whisk", "table", "temper", "grate")]
    [1, 2, 2, 1]
    """
    plain = word.lower().replace("’", "'").split("'")[0]
    return max(1, len(VOWELS.findall(SILENT.sub("", plain))))


def grade(texts: Iterable[str]) -> float:
    """Return the grade of some texts together, to a tenth; 0 where there is no word."""
    sentences = words = beats = 0
    for text in texts:
        found = WORD.findall(text)
        words, beats = words + len(found), beats + sum(map(syllables, found))
        sentences += max(1, len(SENTENCE.findall(text))) if found else 0
    return round(0.39 * words / sentences + 11.8 * beats / words - 15.59, 1) if words else 0.0
