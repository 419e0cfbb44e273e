"""How often the commonest right answer of a setting is right."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

import pytest

from tests.kitchen.kitchen_for_tests import technique
from tests.kitchen.quiz.asking import WORDS
from tests.printed import english
from trainer.kitchen.quiz.luck import common_answers, luck_of
from trainer.kitchen.technique import QuestionSetting


def setting(family: str, **ranges: str) -> QuestionSetting:
    """Return a setting with these ranges, each as "lowest highest step"."""
    spans = {name: tuple(map(Fraction, text.split())) for name, text in ranges.items()}
    return QuestionSetting(family, MappingProxyType({}), MappingProxyType(spans), 1)  # type: ignore[arg-type]


CONSTANT = setting("date_mark", days_allowed="3 3 1", days_later="1 2 1")
ANY = technique("any", questions=(CONSTANT, setting("date_mark"), setting("unit_conversion"), setting("name_cut")))


def test_a_constant_answer_is_found() -> None:
    """Three days kept, by hand: on day 2 two wrong ways fall together, so only day 3 is asked, which leaves one."""
    luck = luck_of(CONSTANT, ANY, WORDS)
    assert luck is not None
    assert (english(luck.answer), luck.share, luck.is_too_common) == ("1 day", Fraction(1), True)
    assert common_answers(ANY, WORDS) == (luck,)


def test_the_share_is_counted_and_the_same_each_time() -> None:
    """Days left from one to five lie between a fifth and a half; the same seeds give the same share."""
    luck = luck_of(setting("date_mark"), ANY, WORDS)
    assert luck is not None
    assert Fraction(1, 5) < luck.share < Fraction(1, 2)
    assert luck_of(setting("date_mark"), ANY, WORDS) == luck


@pytest.mark.parametrize("family", ["name_cut", "no_such_family"])
def test_a_choice_has_no_such_share(family: str) -> None:
    """Its right key moves about by itself; a family nobody knows is told elsewhere."""
    assert luck_of(setting(family), ANY, WORDS) is None


def test_what_cannot_be_drawn_is_told_elsewhere() -> None:
    """No question, no share."""
    assert luck_of(setting("date_mark", days_allowed="1 1 1"), ANY, WORDS) is None
