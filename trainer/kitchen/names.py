"""Names as they are looked for and put in sequence: without accents, marks and capitals, so that lucja finds Łucja."""

from __future__ import annotations

import unicodedata

PLAIN = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ß": "ss", "æ": "ae", "œ": "oe", "ı": "i", "ħ": "h", "ŋ": "n"}
)
"""Letters that Unicode does not take apart into a plain one and its mark (Unicode Standard, chapter 7; from memory)."""


def plain(name: str) -> str:
    """Return a name in small letters without marks, with single blanks.

    >>> plain("Łucja  Çelikoğlu-O'Neill")
    "lucja celikoglu-o'neill"
    """
    if name.isascii():
        return " ".join(name.lower().split())
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", name) if not unicodedata.combining(sign))
    return " ".join(unicodedata.normalize("NFKD", bare.casefold()).translate(PLAIN).split())


def name_key(name: str) -> tuple[str, str]:
    """Return what a list of people is sorted by: the plain name, and of two that are alike the one as it is written.

    >>> sorted(["Mateo", "Zoë", "Łucja", "leilani", "Émile"], key=name_key)
    ['Émile', 'leilani', 'Łucja', 'Mateo', 'Zoë']
    """
    return plain(name), name


def is_called(name: str, typed: str) -> bool:
    """Return whether every word that was typed begins one of a name's words.

    >>> is_called("Łucja Çelikoğlu", "celik lu"), is_called("Ana Pardo", "rdo"), is_called("Jo-Ann Ruiz", "ann")
    (True, False, True)
    """
    words = _words(name)
    return all(any(word.startswith(part) for word in words) for part in _words(typed))


def _words(text: str) -> list[str]:
    """Return the plain words of a name; a hyphen or an apostrophe ends one."""
    return "".join(sign if sign.isalnum() else " " for sign in plain(text)).split()
