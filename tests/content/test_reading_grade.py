"""The reading grade a writer is told, against worked examples of the formula."""

from __future__ import annotations

import pytest

from trainer.content.reading_grade import grade


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Kincaid and others 1975, worked by hand: 6 words, 6 syllables: 2.34 + 11.8 - 15.59
        ("The cat sat on the mat.", -1.4),
        # 13 words, 24 syllables: an example often printed with the formula, from memory
        ("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 11.3),
    ],
)
def test_the_grade_is_that_of_the_formula(text: str, expected: float) -> None:
    """0.39 words a sentence + 11.8 syllables a word - 15.59."""
    assert grade([text]) == pytest.approx(expected, abs=0.1)


def test_no_words_have_no_grade() -> None:
    """And nothing is divided by them."""
    assert grade(["", "42"]) == 0
