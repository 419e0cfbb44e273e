"""Papers, the texts beside the book: names, birth dates and what people wrote, that can be dropped; long ones packed.

The book has a text's digest. The text holds a salt of 16 random bytes too, so that nobody can find a birth date by
trying every day of a century, nor a reason by trying the usual ones. A text dropped takes its salt with it, and what is
left in the book tells nothing. Packed is by zlib (RFC 1950).
"""

from __future__ import annotations

import json
import re
import zlib
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, final

from trainer.kitchen.book import canonical, digest_of
from trainer.messages import Message, message

PAPER = "paper"
FREE_TEXTS = frozenset({"reason", "note", "basis"})
"""What a body calls the texts that people write as they like, however deep they stand in it."""
FREE_TEXTS_OF: Mapping[str, frozenset[str]] = {
    "certificate_shown": frozenset({"number"}),
    "technique_taught": frozenset({"what"}),
    "record_given": frozenset({"to", "for"}),
    "stop_released": frozenset({"what"}),
    "founder_stands": frozenset({"words"}),
    "drill_given": frozenset({"words"}),
    "entry_contested": frozenset({"words"}),
    "words_added": frozenset({"words"}),
    "plan_published": frozenset({"plan"}),
}
"""Those of one kind of entry only."""
OF_PEOPLE: Mapping[str, tuple[str, ...]] = {"person_named": ("name",), "age_seen": ("birth",)}
"""Where a body names the digest of a text that says who somebody is."""
FIELDS_WITH_PAPERS: Mapping[str, tuple[str, ...]] = {
    **OF_PEOPLE,
    "book_upgraded": ("days",),
    "quiz_sat": ("shown",),
    "answered": ("shown",),
    "notice_read": ("shown",),
    "standard_published": ("texts",),
}
"""Where a body names the digest of any text by a name of its own."""
MARK = f'"{PAPER}":"'
DIGEST = "([0-9a-f]{64})"
_FREE = re.compile(f'"{PAPER}":"{DIGEST}"')
_OF_KIND = {
    kind: tuple(re.compile(f'"{field}":"{DIGEST}"') for field in fields) for kind, fields in FIELDS_WITH_PAPERS.items()
}


@final
class Erased(str):
    """What stands in place of a text that was dropped: it prints in each reader's language, and never changes."""

    __slots__ = ("_words",)

    def __new__(cls, words: Message) -> Erased:
        """Take the words, whose English is the text itself."""
        made = super().__new__(cls, words.pattern)
        made._words = words
        return made

    _words: Message

    def __reduce__(self) -> tuple[type[Erased], tuple[Message]]:
        """Return what a copy is made from."""
        return Erased, (self._words,)

    def as_text(self) -> Message:
        """Return what a reader is shown."""
        return self._words


TEXT_ERASED = Erased(message("text erased"))
PERSON_ERASED = Erased(message("erased person"))


def name_paper(name: str, salt: str) -> bytes:
    """Return the text that stands for a name: canonical JSON of the name and the salt."""
    return canonical({"name": name, "salt": salt}).encode()


def birth_paper(born: date, salt: str) -> bytes:
    """Return the text that stands for a birth date: canonical JSON of the day and the salt."""
    return canonical({"born": born.isoformat(), "salt": salt}).encode()


def texts_apart(
    kind: str, body: Mapping[str, Any], new_salt: Callable[[], str]
) -> tuple[dict[str, Any], tuple[bytes, ...]]:
    """Return a body with digests in place of what people wrote, and the texts: canonical JSON of `text` and `salt`."""
    papers: list[bytes] = []

    def digest(text: str) -> Any:  # noqa: ANN401 - JSON
        """Return what names a text; nothing written stays nothing."""
        if not text:
            return text
        papers.append(canonical({"salt": new_salt(), "text": text}).encode())
        return {PAPER: digest_of(papers[-1])}

    apart: dict[str, Any] = _with_each(body, FREE_TEXTS | FREE_TEXTS_OF.get(kind, frozenset()), digest)
    return apart, tuple(papers)


def _with_each(value: Any, wanted: frozenset[str], change: Callable[[str], Any]) -> Any:  # noqa: ANN401 - JSON
    """Return a value of a body with the texts under the names wanted changed, however deep they stand."""
    if isinstance(value, Mapping):
        return {
            name: change(inner) if name in wanted and isinstance(inner, str) else _with_each(inner, wanted, change)
            for name, inner in value.items()
        }
    return [_with_each(inner, wanted, change) for inner in value] if isinstance(value, list) else value


def plain_texts(kind: str, body: Mapping[str, Any]) -> int:
    """Return how many texts people wrote stand in a body itself, as older programs kept them."""
    found: list[str] = []
    _with_each(body, FREE_TEXTS | FREE_TEXTS_OF.get(kind, frozenset()), found.append)
    return sum(map(bool, found))


def with_texts(value: Any, find: Callable[[str], bytes | None]) -> Any:  # noqa: ANN401 - JSON
    """Return a value of a body with the texts in place of their digests; of one that was dropped, that it was."""
    if isinstance(value, Mapping):
        if value.keys() == {PAPER}:
            text = find(value[PAPER])
            return TEXT_ERASED if text is None else json.loads(text)["text"]
        return {name: with_texts(inner, find) for name, inner in value.items()}
    return [with_texts(inner, find) for inner in value] if isinstance(value, list) else value


def papers_named(kind: str, body: str) -> list[str]:
    """Return the digests of the texts an entry names, from its body as kept: canonical JSON, where no text looks so."""
    found = _FREE.findall(body) if MARK in body else []
    return found + [digest for pattern in _OF_KIND.get(kind, ()) for digest in pattern.findall(body)]


def papers_on_people(kind: str, body: str) -> list[str]:
    """Return those of them that say who somebody is, or that people wrote; what a cook was asked is neither."""
    named = papers_named(kind, body)
    return named if kind in OF_PEOPLE or kind not in FIELDS_WITH_PAPERS else _FREE.findall(body)


MOST_BYTES = 1_000_000
_PACKED = b"\x78"
"""How a packed paper begins (RFC 1950, section 2.2: CMF of deflate with a 32 K window); no JSON begins so."""


def packed(value: Mapping[str, Any]) -> bytes:
    """Return a value as a packed paper."""
    return zlib.compress(canonical(value).encode(), 9)


def is_packed(paper: bytes) -> bool:
    """Return whether a paper is a packed one.

    >>> is_packed(packed({"a": 1})), is_packed(b"x is how a note may begin")
    (True, False)
    """
    return paper.startswith(_PACKED) and paper_text(paper).encode() != paper


def papers_about(cook: str, body: object) -> list[str]:
    """Return the digests of what people wrote beside a cook's id, however deep that stands in a body as kept."""
    if isinstance(body, Mapping):
        inner = [digest for value in body.values() for digest in papers_about(cook, value)]
        own = [v[PAPER] for v in body.values() if isinstance(v, Mapping) and v.keys() == {PAPER}]
        return [*own, *inner] if body.get("cook") == cook else inner
    return [digest for value in body for digest in papers_about(cook, value)] if isinstance(body, list) else []


def paper_text(paper: bytes) -> str:
    """Return the text of a paper, packed or not; ValueError for one that is no text, or too long to be one of ours.

    >>> paper_text(packed({"a": 1})), paper_text(b"a note")
    ('{"a":1}', 'a note')
    """
    if not paper.startswith(_PACKED):
        return paper.decode()
    unpacking = zlib.decompressobj()
    try:
        found = unpacking.decompress(paper, MOST_BYTES)
    except zlib.error:
        return paper.decode()  # a text that begins with the same letter
    if not unpacking.eof:
        raise ValueError(f"A packed paper holds at most {MOST_BYTES} bytes.")
    return found.decode()
