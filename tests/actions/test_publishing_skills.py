"""A standard that asks for skills: none is new in the first, one more has its day, and the preview says its cost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.actions.crew import TODAY
from tests.actions.test_publishing import STRUCTURE, TOMORROW, Bakery
from tests.content.test_skill_files import SKILLS, add_skill
from tests.printed import english
from trainer.kitchen.standard_cost import cost_words

QUIZ = "quiz: {need_right: 3, months: 12}\n"
QUESTIONS = "questions:\n  - {family: scale_by_yield, count: 3}\n"


class SkilledBakery(Bakery):
    """A bakery whose technique asks for skills from its second standard on."""

    def asks_for_skills(self) -> None:
        """Ask for three skills in place of a quiz."""
        for name in SKILLS:
            add_skill(self.drafts, name)
        self.change(STRUCTURE, QUIZ, "quiz: {months: 12}\nknowledge: [sheets, warm, date_mark]\n")
        self.change(STRUCTURE, QUESTIONS, "")

    def asks_for_one_more(self) -> None:
        """Ask for a fourth one."""
        own = self.drafts / "skills/order"
        own.mkdir()
        (own / "skill.yaml").write_text("family: par_level\n", encoding="utf-8")
        (own / "en.yaml").write_text("title: An order\n", encoding="utf-8")
        self.change(STRUCTURE, "date_mark]", "date_mark, order]")

    @property
    def rules(self) -> dict[str, Any]:
        """Return what the newest standard in the book says of the technique."""
        rules: dict[str, Any] = self.k.file.book.of_kind("standard_published")[-1].body["rules"]["techniques"][0]
        return rules


@pytest.fixture
def bakery(tmp_path: Path) -> Iterator[SkilledBakery]:
    """Return the bakery."""
    found = SkilledBakery(tmp_path)
    found.k.today(found.crew.now)
    yield found
    found.k.file.close()


def test_skills_in_place_of_a_quiz_cost_nobody_who_passed_it(bakery: SkilledBakery) -> None:
    """It counts to its own last day, and the skills are the technique's first."""
    bakery.asks_for_skills()
    found = bakery.previews()
    assert (found.cost.losses, found.cost.new, found.is_words_only) == ((), (), False)
    bakery.publishes()
    assert bakery.rules["knowledge"] == ["sheets", "warm", "date_mark"]
    assert "added" not in bakery.rules
    assert bakery.state(TODAY) == "cleared"


def test_a_skill_more_is_dated_and_its_questions_are_counted(bakery: SkilledBakery) -> None:
    """One cook who is cleared, three questions of 25 seconds: 75 s by hand, a minute; a later one keeps the day."""
    bakery.asks_for_skills()
    bakery.publishes()
    bakery.asks_for_one_more()
    found = bakery.previews(TOMORROW)
    assert english(cost_words(found.cost, found.since)) == (
        "Nobody loses a clearance. "
        "3 questions on what is new, of 1 person: within 14 days where it is about safety, else within 28."
    )
    assert {name: found.cost.counts[name] for name in ("new_skills", "new_questions", "minutes")} == {
        "new_skills": 1,
        "new_questions": 3,
        "minutes": 1,
    }
    bakery.publishes(TOMORROW)
    assert bakery.rules["added"] == {"order": TOMORROW.isoformat()}
    bakery.change(STRUCTURE, "sign_off_months: 12", "sign_off_months: 11")
    bakery.k.today(bakery.crew.later(days=5))
    bakery.publishes()
    assert bakery.rules["added"] == {"order": TOMORROW.isoformat()}
