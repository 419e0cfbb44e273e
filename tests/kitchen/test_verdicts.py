"""The verdict on the points of a practical, and its reasons."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.kitchen.kitchen_for_tests import CHECKLIST, technique
from tests.printed import all_english, english
from trainer.kitchen.practical import PointSeen, Seen
from trainer.kitchen.verdicts import Verdict, coached_verdict, lowered, reason_from, reasons_in_words, verdict
from trainer.kitchen.watched_points import seen_points
from trainer.messages import Message


def all_seen(**words: Seen) -> list[PointSeen]:
    """Return every point seen as *meets it* but those named."""
    return [PointSeen(point.id, words.get(point.id, "meets it")) for point in CHECKLIST]


TECHNIQUE = technique("pasta_nesting")


def reasons(seen: Sequence[PointSeen], found: Verdict | None = None, note: str = "") -> list[str]:
    """Return the reasons of a verdict as they are printed."""
    told = reasons_in_words(found or verdict(TECHNIQUE, seen), seen_points(TECHNIQUE, seen), note)
    return all_english(told)


def test_everything_met_meets_it() -> None:
    """The word and what it rests on."""
    assert verdict(TECHNIQUE, all_seen()).word == "meets it"
    assert reasons(all_seen()) == ["Every critical point met.", "3 of 3 scored points met, 2 needed."]


def test_a_scored_point_short_is_named_and_still_meets_it_when_enough_are_met() -> None:
    """Two of three are needed."""
    seen = all_seen(boil="not yet")
    assert verdict(TECHNIQUE, seen).word == "meets it"
    assert reasons(seen)[-1] == "Scored: boiled in time, not yet"


def test_too_few_scored_points_are_not_yet() -> None:
    """The count, then each point."""
    seen = all_seen(boil="not yet", told="not yet")
    assert verdict(TECHNIQUE, seen).word == "not yet"
    assert reasons(seen) == [
        "1 of 3 scored points met, 2 needed.",
        "Scored: boiled in time, not yet",
        "Scored: allergens told, not yet",
    ]


def test_a_critical_point_missed_is_not_yet_however_good_the_rest() -> None:
    """Common practice of the strictest sign-offs: a critical step missed decides."""
    seen = all_seen(guard_on="not yet")
    assert verdict(TECHNIQUE, seen).word == "not yet"
    assert reasons(seen)[0] == "Critical: guard on before power, not yet"


def test_a_critical_point_not_seen_is_not_yet() -> None:
    """Nothing is taken as met because nobody looked."""
    assert reasons(all_seen()[1:])[0] == "Critical: guard on before power, not looked at"
    assert verdict(TECHNIQUE, ()).word == "not yet"


def test_anything_unsafe_is_stopped() -> None:
    """Scored or critical: a danger stops the run, and comes first among the reasons."""
    seen = [*all_seen(guard_on="not yet")[:3], PointSeen("told", "unsafe", (), "nut oil")]
    assert verdict(TECHNIQUE, seen).word == "stopped"
    assert reasons(seen)[:2] == ["Scored: allergens told, unsafe (nut oil)", "Critical: guard on before power, not yet"]


def test_a_stop_gives_no_reason_that_was_never_come_to() -> None:
    """Stopped at the first point: that alone is why, not the points nobody got to nor their count."""
    seen = [PointSeen("guard_on", "unsafe", (), "hand inside")]
    assert reasons(seen) == ["Critical: guard on before power, unsafe (hand inside)"]


def test_reasons_give_the_readings() -> None:
    """What was read stands beside the word."""
    seen = [*all_seen()[:2], PointSeen("boil", "not yet", ("2 min",)), PointSeen("told", "meets it")]
    assert reasons(seen)[-1] == "Scored: boiled in time, not yet (read: 2 min)"


def test_an_assessor_may_lower_a_verdict_with_a_note() -> None:
    """Coached: not yet, and why stands first."""
    found = lowered(verdict(TECHNIQUE, all_seen()), "not yet", "coached")
    assert isinstance(found, Verdict)
    assert found.word == "not yet"
    assert reasons(all_seen(), found, "coached")[0] == "The assessor says not yet: coached"


def _rule(found: Verdict | Message) -> Message:
    """Return the rule that a verdict breaks."""
    assert isinstance(found, Message)
    return found


def test_a_verdict_is_not_lowered_without_a_note() -> None:
    """The reason is asked for."""
    assert "say in the note" in english(_rule(lowered(verdict(TECHNIQUE, all_seen()), "stopped", " ")))


def test_a_verdict_is_never_lifted() -> None:
    """What the points say stands."""
    found = lowered(verdict(TECHNIQUE, ()), "meets it", "good enough")
    assert english(_rule(found)) == "The points say not yet; nobody can say meets it over them."


def test_a_verdict_left_alone_stays() -> None:
    """Say nothing, or the same."""
    found = verdict(TECHNIQUE, all_seen())
    assert lowered(found, None, "") == found
    assert lowered(found, "meets it", "") == found


def test_a_verdict_nobody_knows_is_refused() -> None:
    """The value and the rule."""
    found = lowered(verdict(TECHNIQUE, ()), "passed", "")  # type: ignore[arg-type]
    assert english(_rule(found)) == "“passed” is no verdict: meets it, not yet or stopped."


@pytest.mark.parametrize(
    ("seen", "word"),
    [
        (all_seen(), "not yet"),
        (all_seen(boil="not yet", told="not yet"), "not yet"),
        (all_seen(told="unsafe"), "stopped"),
    ],
)
def test_a_run_in_which_the_assessor_helped_is_not_yet_at_most(seen: list[PointSeen], word: str) -> None:
    """DOE-HDBK-1074-95, appendix C: no help, prompts or suggestions (item 8), pass or fail (item 9), stop on danger."""
    found = coached_verdict(verdict(TECHNIQUE, seen))
    assert found.word == word
    assert "The assessor helped or prompted: not yet at most." in reasons(seen, found)


def test_a_reason_is_kept_as_rule_point_and_numbers() -> None:
    """No sentence goes into the book: what is printed is worked out when it is printed."""
    found = verdict(TECHNIQUE, all_seen(boil="not yet"))
    kept = [reason.kept() for reason in found.reasons]
    assert kept == [
        {"rule": "critical_met"},
        {"rule": "scored", "count": [2, 3, 2]},
        {"rule": "not_yet", "point": "boil"},
    ]
    assert tuple(map(reason_from, kept)) == found.reasons
