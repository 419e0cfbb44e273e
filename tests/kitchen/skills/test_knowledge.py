"""A technique is known on the days all its skills are: what counts, what is missing, what an earlier quiz says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from tests.kitchen.kitchen_for_tests import technique
from tests.printed import english
from trainer.kitchen.knowledge import knowledge
from trainer.kitchen.record import CookRecord
from trainer.kitchen.requirements import Requirement
from trainer.kitchen.sitting_result import SittingResult
from trainer.kitchen.skills.fold import Act, Happening
from trainer.kitchen.technique import AskedSkill, QuestionSetting, Technique

START = date(2026, 3, 2)


def asked(name: str, *, safety: bool = False) -> AskedSkill:
    """Return a skill of base 3, good for a year, or six months where it is about safety."""
    setting = QuestionSetting(f"family_{name}", {}, {}, 1)
    return AskedSkill(name, name.capitalize(), setting, safety, 6 if safety else 12, Fraction(1, 10), 3)


def day(number: int) -> date:
    """Return a day counted from the start."""
    return START + timedelta(days=number)


def taught(*skills: AskedSkill, **more: object) -> Technique:
    """Return a technique that asks for some skills."""
    settings = tuple(one.setting for one in skills)
    return replace(technique("fresh_pasta"), knowledge=skills, questions=settings, quiz_months=6, **more)  # type: ignore[arg-type]


def happened(on: int, skill: AskedSkill, act: Act, name: str = "") -> Happening:
    """Return something that happened in a skill."""
    return Happening(day(on), skill.id, act, skill.terms, name, f"{on}{skill.id}{act}", skill.setting.family)


def passed(skill: AskedSkill, on: int = 1) -> list[Happening]:
    """Return three right answers over two days, the last on the day after the one named."""
    return [happened(on, skill, "right"), happened(on, skill, "right"), happened(on + 1, skill, "right")]


def known(found: Technique, happenings: list[Happening], on: int, sat: tuple[SittingResult, ...] = ()) -> Requirement:
    """Return what a technique asks to be known, on a day."""
    there = tuple(one for one in happenings if one.on <= day(on))
    return knowledge(CookRecord("ana", skills=there, sat=sat), found, day(on))


def test_one_skill_that_is_not_passed_blocks_the_technique() -> None:
    """No bad skill hides behind good ones; the missing one is named with how far it is."""
    marks, heat = asked("marks"), asked("heat")
    found = known(taught(marks, heat), [*passed(marks), happened(2, heat, "right")], 5)
    assert found.best is None
    assert found.missing
    assert english(found.missing.gap) == "Heat (1 of 3 in a row)"


def test_all_passed_hold_to_the_earliest_end_and_name_each_row() -> None:
    """The technique ends with the first skill that runs out; the proof is the last row of each."""
    marks, heat = asked("marks", safety=True), asked("heat")
    found = known(taught(marks, heat), [*passed(marks), *passed(heat, 3)], 10)
    assert found.best
    assert (found.best.since, found.best.until) == (day(4), date(2026, 9, 4))
    assert len(found.best.proof) == 6 - 2  # two rows of three, whose answers of one day share a name here


def test_a_quiz_of_before_counts_to_its_own_day() -> None:
    """Who passed the earlier kind of quiz keeps that, asked skill by skill meanwhile."""
    sat = SittingResult("old", day(0), "fresh_pasta", 1, 8, 10, 8, passed=True, kept={"questions": []})
    found = taught(asked("marks"))
    assert known(found, [], 10, (sat,)).best
    assert known(found, [], 200, (sat,)).best is None


def test_a_wrong_refresher_warns_and_its_loss_leaves_seven_days_for_safety() -> None:
    """Wrong on day 23: two in a row by day 36, else lost from day 37 and held seven days, due again."""
    marks = asked("marks", safety=True)
    answers = [*passed(marks), happened(23, marks, "wrong")]
    warned, held, lost = (known(taught(marks), answers, on) for on in (30, 40, 44))
    assert warned.best
    assert english(warned.due) == "Marks (0 of 2 in a row, by 7 April 2026)"
    assert held.best
    assert held.best.until == day(43)
    assert lost.best is None


def test_a_lost_skill_that_is_not_about_safety_is_held_for_four_weeks() -> None:
    """Twenty-eight days, the first of them the day it was lost."""
    marks = asked("marks")
    answers = [*passed(marks), happened(30, marks, "wrong"), happened(31, marks, "wrong")]
    assert known(taught(marks), answers, 31 + 27).best
    assert known(taught(marks), answers, 31 + 28).best is None


def test_a_skill_added_later_leaves_time_to_those_who_knew_the_rest() -> None:
    """Twenty-eight days, fourteen for safety; nobody begins by them."""
    marks, heat = asked("marks"), asked("heat", safety=True)
    found = taught(marks, heat, added={"heat": day(20)})
    assert known(found, passed(marks), 33).best
    assert known(found, passed(marks), 34).best is None
    assert known(found, passed(marks, 21), 25).best is None


def test_what_is_known_once_counts_for_every_technique_that_asks_for_it() -> None:
    """A skill stands once; both techniques are passed by the same three answers."""
    marks = asked("marks")
    first, second = taught(marks), replace(taught(marks), id="other")
    assert known(first, passed(marks), 5).best == known(second, passed(marks), 5).best


def test_answers_of_earlier_quizzes_carry_all_but_one_of_a_row() -> None:
    """Two right ones of a failed sitting: one new right answer is enough. A pass before them leaves them out."""
    marks = asked("marks")
    kept = {"questions": [{"family": "family_marks", "seed": n, "right": True} for n in range(4)]}
    failed = SittingResult("old", day(0), "fresh_pasta", 1, 4, 10, 8, passed=False, kept=kept)
    assert known(taught(marks), [happened(2, marks, "right")], 3, (failed,)).best
