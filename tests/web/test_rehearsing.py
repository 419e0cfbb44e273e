"""Going through the points of a practical alone: the real points in their order, cases and parts, nothing kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tests.web.hands import Hands
from tests.web.kitchen_people import study
from tests.web.small_content import CONTENT, NESTS, WEIGHT
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import ChecklistPart, Point, PointChoice

SignIn = Callable[[str], Hands]
PAGE = "/techniques/nests/rehearse"
HOT, COLD = PointChoice("hot", "Hot nests"), PointChoice("cold", "Cold nests")
POINTS = (
    Point(
        "limit", "Say the limit.", True, "says", None, type="law", choices=(PointChoice("a", "At least 57"),), need=1
    ),
    Point("weights", "Nests weigh the same.", True, "weighed", WEIGHT, 5, 4, type="result"),
    Point("steam", "Steam them.", True, "ticked", None, type="craft", cases=("hot",)),
    Point("chill", "Chill them.", True, "ticked", None, type="craft", cases=("cold",)),
)


def teach(kitchen: Kitchen, **changes: object) -> None:
    """Let the nests have the typed points, and more."""
    nests = replace(NESTS, checklist=POINTS, **changes)  # type: ignore[arg-type]
    kitchen.content = replace(CONTENT, techniques={**CONTENT.techniques, "nests": nests})


def points_on(hands: Hands) -> list[str]:
    """Return the points of the page, in order."""
    return [label.get_text().strip() for label in hands.page.soup.select(".rehearse label")]


def test_the_points_stand_in_the_order_of_the_practical(kitchen: Kitchen, ana: Hands) -> None:
    """Each with its line, how many pieces, and a box that belongs to no form: nothing is sent, nothing is kept."""
    teach(kitchen, cases=(HOT, COLD))
    before = len(kitchen.file.book.since(0))
    page = ana.open(PAGE)
    assert points_on(ana) == ["Say the limit.", "Nests weigh the same.", "Steam them."]
    assert "4 of 5 inside" in page.work
    assert "give or take 0.2 oz" in page.work
    assert not page.soup.select("main form")
    assert len(kitchen.file.book.since(0)) == before
    assert not kitchen.file.drafts.list("practical")


def test_what_is_said_is_shown_only_when_asked_for(kitchen: Kitchen, ana: Hands) -> None:
    """The expected answer is folded away, closed, under the point."""
    teach(kitchen)
    (fold,) = ana.open(PAGE).soup.select(".rehearse details")
    assert not fold.has_attr("open")
    assert "At least 57" in fold.get_text()
    assert "At least 57" not in str(ana.page.soup.select("[data-say]")[0]["data-say"])


def test_another_case_has_its_own_points(kitchen: Kitchen, ana: Hands) -> None:
    """The first case stands there; another is one tap away."""
    teach(kitchen, cases=(HOT, COLD))
    ana.open(PAGE)
    ana.follow("Cold nests")
    assert points_on(ana)[-1] == "Chill them."
    ana.open(f"{PAGE}?case=none")
    assert points_on(ana)[-1] == "Steam them."


def test_parts_are_gone_through_one_by_one(kitchen: Kitchen, ana: Hands) -> None:
    """As they are watched and signed."""
    parts = (ChecklistPart("first", "The limit", ("limit",), 0), ChecklistPart("second", "The nests", ("weights",), 0))
    teach(kitchen, parts=parts)
    ana.open(PAGE)
    assert points_on(ana) == ["Say the limit."]
    ana.follow("The nests")
    assert points_on(ana) == ["Nests weigh the same."]


def test_it_is_offered_where_only_the_practical_is_left(kitchen: Kitchen, ana: Hands) -> None:
    """On the technique's page always among its folds; above the steps once all else is there."""
    teach(kitchen)
    assert "Go through the 4 points" not in ana.open("/techniques/nests").work
    study(kitchen, "ana")
    assert ana.open("/techniques/nests").link("Go through the 4 points") == PAGE
