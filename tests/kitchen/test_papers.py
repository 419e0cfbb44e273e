"""Papers: read back as they were put down, packed or not, and nothing else is taken for one."""

from __future__ import annotations

import zlib

import pytest

from trainer.kitchen.papers import MOST_BYTES, packed, paper_text
from trainer.kitchen.quiz.seen_text import SeenQuestion, sitting_on, sitting_paper


def test_what_was_read_comes_back_word_for_word() -> None:
    """Umlauts, a drawing, nothing said of a right answer."""
    first = SeenQuestion(
        "es", "¿Qué se quema?\nA: Núñez", {"1": "El ñame", "2": "La sal"}, ("Porque sí.",), "<svg/>", "uno"
    )
    second = SeenQuestion("en", "How many?", {}, ("Divide.", "Round down."), says="You rounded up.")
    found = sitting_on(sitting_paper("Pasta", [first, second]))
    assert (found.title, found.questions) == ("Pasta", (first, second))


def test_a_packed_paper_is_deflate_by_the_standard() -> None:
    """RFC 1950 says how it begins; any reader of the standard unpacks it."""
    paper = packed({"words": "guard on before power " * 50})
    assert paper[0] & 0x0F == 8  # CM of RFC 1950, section 2.2: deflate
    assert int.from_bytes(paper[:2]) % 31 == 0  # FCHECK of the same section
    assert zlib.decompress(paper).decode() == paper_text(paper)


def test_a_plain_paper_is_its_own_text() -> None:
    """Also one that begins with the letter a packed one begins with."""
    assert paper_text("xerox «ñ»".encode()) == "xerox «ñ»"


def test_a_paper_that_would_unpack_without_end_is_refused() -> None:
    """A megabyte at the most: a file from elsewhere cannot fill the memory."""
    with pytest.raises(ValueError, match="at most 1000000 bytes"):
        paper_text(zlib.compress(b"a" * (MOST_BYTES + 1)))
