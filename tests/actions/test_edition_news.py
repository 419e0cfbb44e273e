"""What a reader of an older edition has not read, from the texts the book published it with."""

from __future__ import annotations

from tests.actions.test_publishing import WORDS, Bakery, bakery
from trainer.actions.edition_news import changes_since

__all__ = ["bakery"]


def news(bakery: Bakery, read: int) -> list[list[tuple[str, str]]]:
    """Return the pieces of each step that changed since an edition was read."""
    now = bakery.k.content.techniques["rolling"]
    found = changes_since(bakery.k, now=now, read=read, language="en", units="us")
    return [[(piece.kind, piece.words) for piece in one.pieces] for one in found]


def test_the_words_of_the_edition_that_was_read_stand_against_todays(bakery: Bakery) -> None:
    """Edition 2 as it was published, edition 3 as it is: one word more in one step, and nothing of the other."""
    bakery.ends_sign_offs()
    bakery.change(WORDS, "Roll from the middle.", "Roll out from the middle.")
    bakery.publishes()
    (pieces,) = news(bakery, 2)
    assert ("new", "out") in pieces
    assert not [words for kind, words in pieces if kind == "gone"]


def test_nothing_is_told_of_an_edition_the_book_never_published(bakery: Bakery) -> None:
    """Edition 1 was taught before the book kept texts: the page says what its edition line says, and no more."""
    bakery.ends_sign_offs()
    bakery.publishes()
    assert news(bakery, 1) == []
