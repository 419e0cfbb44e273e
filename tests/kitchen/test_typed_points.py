"""Points that are law, result or craft: how each kind is judged, and what the points come to."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction

import pytest

from tests.kitchen.kitchen_for_tests import technique
from trainer.kitchen.book import canonical
from trainer.kitchen.practical import AskBack, PointProblem, PointSeen, Seen, judge_point
from trainer.kitchen.technique import Limit, Point, PointChoice
from trainer.kitchen.verdicts import reasons_in_words, verdict, verdict_on
from trainer.kitchen.watched_points import (
    LookTaken,
    WatchedPoint,
    is_same_checklist,
    look_taken,
    point_from,
    point_kept,
    points_of,
    seen_points,
)
from trainer.messages import translate
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import unit

NOON = datetime(2026, 3, 2, 17, tzinfo=UTC)
# FDA Food Code 2022, 3-401.11(A)(2): eggs that are pooled, 155 °F for 17 seconds
POOLED = Limit("egg_pooled", Quantity(Fraction(155), unit("°F")), None, None, "food_code_2022")
POOLED_TIME = Limit("egg_pooled_time", Quantity(Fraction(17), unit("s")), None, None, "food_code_2022")
SIDES = tuple(PointChoice(side, side) for side in ("under", "right", "over"))
PAIR = Point("heat", "Heats it.", True, "pair", POOLED, 2, 2, type="law", then=POOLED_TIME, cases=("raw",))
SAYS = Point(
    "says", "Says it.", True, "says", None, type="law", need=2,
    choices=(PointChoice("heat", "155 °F", "155"), PointChoice("time", "17 s", "17"), PointChoice("who", "who")),
)  # fmt: skip
LINE = Point("line", "Stays open.", True, "pictures", None, type="result", choices=SIDES, tries=2, step="coat")
TASTE = Point("taste", "Tastes it.", False, "tasted", None, type="craft", choices=SIDES)
SPOON = Point("spoon", "Stirs.", False, "ticked", None, type="craft", tools=("stopwatch",))
LIST = (PAIR, SAYS, LINE, TASTE, SPOON)
BASE = technique("base", checklist=LIST, scored_needed=1)


def seen(point: Point, readings: Sequence[str] = (), tick: Seen | None = None, **more: object) -> PointSeen:
    """Return the point as judged; anything else fails the test."""
    found = judge_point(point, readings, tick, **more)  # type: ignore[arg-type]
    assert isinstance(found, PointSeen), found
    return found


def problem(point: Point, readings: Sequence[str] = (), tick: Seen | None = None, **more: object) -> PointProblem:
    """Return the rule that was broken."""
    found = judge_point(point, readings, tick, **more)  # type: ignore[arg-type]
    assert isinstance(found, PointProblem), found
    return found


@pytest.mark.parametrize(
    ("readings", "word"),
    [
        (("155 F", "17 s", "160 F", "20 s"), "meets it"),
        (("155 F", "17 s", "160 F", "16 s"), "not yet"),
        (("154 F", "17 s", "160 F", "20 s"), "not yet"),
        (("68 C", "17 s", "72 C", "0.3 min"), "meets it"),
    ],
)
def test_a_piece_of_a_pair_is_inside_where_both_its_readings_are(readings: Sequence[str], word: str) -> None:
    """Heat without its seconds is not heat enough, and the other way round."""
    assert seen(PAIR, readings).seen == word


def test_a_pair_takes_two_readings_a_piece() -> None:
    """The first one missing is named."""
    found = problem(PAIR, ("155 F", "17 s", "", "20 s"))
    assert (translate(found.rule), found.reading) == ("3 of 4 readings: take 4.", 2)


def test_a_time_of_a_pair_is_asked_back_by_its_own_line() -> None:
    """An hour of stirring is no reading of a stopwatch."""
    found = judge_point(PAIR, ("155 F", "3600 s", "155 F", "17 s"), None)
    assert isinstance(found, AskBack)
    assert found.reading == 1


@pytest.mark.parametrize(
    ("said", "word"), [((), "not yet"), (("heat",), "not yet"), (("heat", "who"), "meets it"), (("x", "y"), "not yet")]
)
def test_so_many_as_are_needed_of_what_is_expected_meet_it(said: Sequence[str], word: str) -> None:
    """Two of three are needed here; what is not expected is not counted."""
    assert seen(SAYS, said=said).seen == word


def test_nobody_says_meets_it_over_too_little() -> None:
    """And not yet over enough takes a note."""
    assert translate(problem(SAYS, (), "meets it", said=("heat",)).rule).startswith("1 of 2 ticked.")
    assert "say in the note" in translate(problem(SAYS, (), "not yet", said=("heat", "time")).rule)
    assert seen(SAYS, (), "not yet", said=("heat", "time"), note="Read from a card.").seen == "not yet"


@pytest.mark.parametrize(("side", "word"), [("under", "not yet"), ("right", "meets it"), ("over", "not yet")])
@pytest.mark.parametrize("point", [LINE, TASTE], ids=["pictures", "tasted"])
def test_right_alone_meets_it(point: Point, side: str, word: str) -> None:
    """Too little and too far do not."""
    assert seen(point, said=(side,)).seen == word


@pytest.mark.parametrize("said", [(), ("under", "right")])
def test_one_of_three_is_picked(said: Sequence[str]) -> None:
    """None, or two, is asked back."""
    assert "pick one of the three" in translate(problem(TASTE, said=said).rule)


def test_unsafe_never_waits_for_anything() -> None:
    """What was ticked stays with it."""
    assert seen(SAYS, (), "unsafe", said=("heat",)) == PointSeen("says", "unsafe", said=("heat",))


def looked(*words: str) -> list[PointSeen]:
    """Return a look at each point of the list."""
    return [PointSeen(point.id, word) for point, word in zip(LIST, words, strict=True) if word]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("words", "verdict_word"),
    [
        (("meets it",) * 5, "meets it"),
        (("meets it", "meets it", "meets it", "not yet", "meets it"), "meets it"),
        (("meets it", "meets it", "meets it", "not yet", "not yet"), "not yet"),
        (("not yet", "meets it", "meets it", "meets it", "meets it"), "not yet"),
        (("meets it", "", "meets it", "meets it", "meets it"), "not yet"),
        (("meets it", "meets it", "not yet", "meets it", "meets it"), "not yet"),
        (("meets it", "meets it", "meets it", "meets it", "unsafe"), "stopped"),
    ],
)
def test_every_law_every_result_and_enough_craft_meet_it(words: Sequence[str], verdict_word: str) -> None:
    """One craft point is needed here; unsafe stops, whatever the type."""
    assert verdict(BASE, looked(*words)).word == verdict_word


def test_reasons_name_the_type_of_each_point() -> None:
    """Law, result and craft; the former kinds stay critical and scored."""
    looks = looked("not yet", "meets it", "not yet", "not yet", "meets it")
    found, points = verdict(BASE, looks), seen_points(BASE, looks)
    assert [translate(words) for words in reasons_in_words(found, points)] == [
        "Law: Heats it, not yet",
        "Result: Stays open, not yet",
        "1 of 2 craft points met, 1 needed.",
        "Craft: Tastes it, not yet",
    ]
    met = verdict(BASE, looked(*("meets it",) * 5))
    assert translate(reasons_in_words(met, points)[0]) == "Every law and every result met."


def kept_and_read(point: WatchedPoint) -> WatchedPoint:
    """Return a point as it comes back from the book."""
    return point_from(json.loads(canonical(point_kept(point))))


def test_a_typed_point_comes_back_from_the_book() -> None:
    """Type, both lines, what was expected as it was read, which of it was said, the try."""
    law = replace(POOLED, source="house")
    pair, says, line, *_ = points_of(replace(BASE, checklist=(replace(PAIR, law=law), *LIST[1:])))
    first = PointSeen("heat", "meets it", ("155 °F", "17 s", "160 °F", "1 min"))
    looks = (look_taken(pair.as_asked, first, by="sous", at=NOON, decimal_mark="."),)
    said = (LookTaken(NOON, "sous", PointSeen("says", "meets it", said=("heat", "who"))),)
    tries = tuple(LookTaken(NOON, "sous", PointSeen("line", "not yet", said=("over",)), attempt=n) for n in (1, 2))
    for point, taken in ((pair, looks), (says, said), (line, tries)):
        whole = replace(point, looks=taken)
        assert kept_and_read(whole) == whole
    assert looks[0].amounts == (("155", "°F"), ("17", "s"), ("160", "°F"), ("1", "min"))


def test_what_a_point_of_the_former_kind_keeps_is_what_it_kept() -> None:
    """No key more: an older program reads it as its own."""
    (guard,) = points_of(technique("cold", checklist=(Point("guard", "Guard on.", True, "ticked", None),)))
    assert set(point_kept(guard)) == {"point", "words", "language", "critical", "judged", "looks"}


def test_a_second_try_is_there_until_it_is_made() -> None:
    """After a not yet, and only then."""
    line = points_of(BASE)[2]
    missed = LookTaken(NOON, "sous", PointSeen("line", "not yet", said=("over",)))
    assert not line.may_be_made_again
    assert replace(line, looks=(missed,)).may_be_made_again
    assert not replace(line, looks=(missed, replace(missed, attempt=2))).may_be_made_again
    met = LookTaken(NOON, "sous", PointSeen("line", "meets it", said=("right",)))
    assert not replace(line, looks=(met,)).may_be_made_again


def test_another_answer_is_another_checklist() -> None:
    """The number behind the words, not the words; a type, a case, a try more as well."""
    own = points_of(BASE)
    says = own[1]
    told = replace(says, choices=tuple(replace(choice, text="¡otro!") for choice in says.choices))
    assert is_same_checklist(own, [own[0], told, *own[2:]])
    changed = replace(says, choices=(replace(says.choices[0], value="160"), *says.choices[1:]))
    for other in (changed, replace(says, type="result"), replace(says, need=1), replace(says, tries=2)):
        assert not is_same_checklist(own, [own[0], other, *own[2:]])
    assert not is_same_checklist(own, [replace(own[0], then=replace(POOLED_TIME, lowest=None)), *own[1:]])


def test_only_the_points_of_a_case_are_judged() -> None:
    """A practical of pasteurized yolk is not asked for the heat of raw eggs."""
    points = points_of(BASE, "pasteurized")
    assert [point.id for point in points] == ["says", "line", "taste", "spoon"]
    met = [replace(p, looks=(LookTaken(NOON, "sous", PointSeen(p.id, "meets it")),)) for p in points]
    assert verdict_on(met, 1).word == "meets it"
