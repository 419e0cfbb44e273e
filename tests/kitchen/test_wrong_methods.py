"""Wrong methods named to the teacher from the second answer on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from tests.kitchen.kitchen_for_tests import FIRST, Scribe, answered
from tests.kitchen.quiz.asking import WORDS
from tests.printed import english
from trainer.kitchen.skills.fold import Act, Happening
from trainer.kitchen.skills.rule import Terms
from trainer.kitchen.wrong_methods import AcrossCooks, ShownMethod, methods_across, methods_answered, methods_shown

RIGHT = answered(right=True)


def wrong(family: str = "amount_to_buy", method: str | None = "loss_forgotten") -> dict[str, Any]:
    """Return a wrong answer a method shows in."""
    return answered(right=False, family=family, method=method)


def shown(*sittings: tuple[Sequence[dict[str, Any]], bool]) -> tuple[ShownMethod, ...]:
    """Return the methods a cook's sittings show, each with its answers and whether it passed."""
    scribe = Scribe()
    scribe.joins("ada")
    for day, (answers, passed) in enumerate(sittings):
        scribe.answers("ada", "fresh_pasta", FIRST + timedelta(days=day), answers, passed=passed)
    return methods_shown(scribe.progress().record("ada").sat)


def test_no_sitting_shows_nothing() -> None:
    """Nobody's method is guessed."""
    assert shown() == ()


def test_one_such_answer_may_be_a_slip() -> None:
    """It takes two; a wrong answer without a known method is none, nor is the same name of another family."""
    assert shown(([wrong(), RIGHT], False)) == ()
    assert shown(([wrong(method=None), wrong(method=None)], False)) == ()
    assert shown(([wrong(), wrong(family="packs_to_buy")], False)) == ()


def test_two_answers_show_a_method_and_what_it_means() -> None:
    """The sentence for the teacher comes with how often it showed."""
    found = shown(([wrong(), RIGHT, wrong()], False))
    assert found == (ShownMethod("amount_to_buy", "loss_forgotten", 2),)
    assert english(found[0].for_teacher(WORDS)) == "Leaves the loss out. 2 answers showed it."


def test_a_method_nobody_has_words_for_is_counted_all_the_same() -> None:
    """An answer of an older program may name a method that is gone: how often it showed is still told."""
    found = shown(([wrong(method="no_such"), wrong(method="no_such")], False))
    assert [english(way.for_teacher(WORDS)) for way in found] == ["2 answers showed it."]


def test_fails_in_a_row_are_read_together() -> None:
    """Once in each of two failed sittings is twice."""
    assert [way.times for way in shown(([wrong()], False), ([wrong()], False))] == [2]


def test_a_pass_wipes_what_was_before_it() -> None:
    """After a pass only the passing sitting counts; after a later fail only what came since."""
    assert shown(([wrong(), wrong()], False), ([RIGHT], True)) == ()
    assert [way.times for way in shown(([wrong()], False), ([wrong(), wrong()], True))] == [2]
    assert shown(([wrong(), wrong()], True), ([wrong()], False)) == ()


def test_the_most_frequent_comes_first() -> None:
    """Three answers before two."""
    found = shown(([wrong("discard_time", "a"), wrong(), wrong("discard_time", "a"), wrong(), wrong()], False))
    assert [(way.name, way.times) for way in found] == [("loss_forgotten", 3), ("a", 2)]


def happened(name: str, act: Act = "wrong", family: str = "discard_time") -> Happening:
    """Return an answer that shows a method."""
    return Happening(FIRST, "holding", act, Terms(3), name, family=family)


def test_across_cooks_a_method_is_counted_in_answers_and_in_people() -> None:
    """Of most cooks first; once in one cook may be a slip, once in each of two is worth a talk."""
    answers = {
        "ana": [happened("time_gone"), happened("other")],
        "bo": [happened("time_gone"), happened("twice"), happened("twice")],
    }
    assert methods_across(answers) == (
        AcrossCooks("discard_time", "time_gone", 2, ("ana", "bo")),
        AcrossCooks("discard_time", "twice", 2, ("bo",)),
    )


def test_a_drill_against_a_method_does_not_show_it() -> None:
    """It names the method it is against; the answers that showed it are counted, and no more."""
    done = [happened("time_gone"), happened("time_gone", "drill"), happened("time_gone", "drill_by_person")]
    assert methods_across({"ana": done}) == ()
    assert methods_answered(done, {"holding"}) == ()
    assert methods_answered([*done, happened("time_gone")], {"holding"}) == (
        ShownMethod("discard_time", "time_gone", 2),
    )
