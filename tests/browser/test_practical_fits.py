"""Each shape of a point on a small phone: the task, its error and the keys above the bar, in both languages."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.browser.engine import Screen, Served
from tests.browser.journeys import person_id, ready_to_show, step_in
from tests.browser.somebody import Somebody
from tests.browser.test_keypad import NOT_YET_SEEN, reads_in
from trainer.actions import watching
from trainer.kitchen.technique import Point, Technique
from trainer.web.assessor.stopwatch import LONG

PHONE = Screen("phone", 360, 740)
PAST_THE_FOOT = """() => {
  const bar = [...document.querySelectorAll(".bar")].pop(), form = document.querySelector("#point");
  const lows = [...form.querySelectorAll("h1, p, .field, .pad, .unit-keys, fieldset, .slots")]
    .filter((e) => !e.closest("details") && !e.closest(".bar") && e.checkVisibility())
    .map((e) => e.getBoundingClientRect().bottom + scrollY);
  const note = document.querySelector(".note summary").getBoundingClientRect();
  const names = [...document.querySelectorAll(".top-title, .top-title *")];
  return {
    note: note.bottom + scrollY + bar.getBoundingClientRect().height - innerHeight,
    cut: names.filter((e) => e.scrollWidth > e.clientWidth + 1).length,
    over: Math.max(...lows) + bar.getBoundingClientRect().height - innerHeight,
    aside: document.documentElement.scrollWidth - innerWidth,
  };
}"""


def shape_of(point: Point) -> tuple[object, ...]:
    """Return what makes two points the same page but for their words."""
    kind = point.lines[0].lowest or point.lines[0].highest or point.lines[0].target if point.lines else None
    dimension = kind.unit.dimension if kind else ""
    is_long = kind is not None and dimension == "duration" and kind.base >= LONG
    return point.judged, dimension, min(point.pieces, 2), len(point.choices), point.then is not None, is_long


def longest_of_each_shape(techniques: Iterator[Technique]) -> dict[tuple[object, ...], tuple[Technique, Point]]:
    """Return the point with the most letters of each shape."""
    found: dict[tuple[object, ...], tuple[Technique, Point]] = {}
    for technique in techniques:
        for point in technique.checklist:
            there = found.get(shape_of(point))
            if there is None or _letters(point) > _letters(there[1]):
                found[shape_of(point)] = (technique, point)
    return found


def _letters(point: Point) -> int:
    return len(point.text) + sum(len(choice.text) for choice in point.choices)


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_shape_of_a_point_and_its_error_fit_a_small_phone(
    quernstone: Served, sit_down: Callable[..., Somebody], language: str
) -> None:
    """Nothing lies under the bar before or after the error, and no name is cut; before it the note stands above too."""
    renzo = sit_down(quernstone, PHONE)
    step_in(renzo, quernstone, "Sous chef")
    reads_in(renzo, quernstone, language)
    k = quernstone.kitchen
    told = k.content_for(language, "us" if language == "en" else "metric")
    wrong = {}
    for shape, (technique, point) in longest_of_each_shape(iter(told.techniques.values())).items():
        address = at_point(quernstone, technique, point)
        renzo.open(address)
        found = {"before": renzo.page.evaluate(PAST_THE_FOOT)}
        if point.judged not in {"ticked", "tasted", "pictures"} and len(point.choices) != 1:
            for by_hand in renzo.page.locator(".by-hand:not([open]) summary").all():
                by_hand.click()
            for field in renzo.page.locator(".readout input").all():
                field.fill("1.2.3")
            renzo.page.wait_for_timeout(NOT_YET_SEEN)
            renzo.tap(renzo.page.locator(".bar button[name=save], .bar button[name=seen]").first)
            assert renzo.page.locator(".in-place.problems").count() == 1, address
            found["error"] = {**renzo.page.evaluate(PAST_THE_FOOT), "note": 0}
        if any(max(each.values()) > 0 for each in found.values()):
            wrong[technique.id, point.id, shape] = found
    assert wrong == {}


def at_point(served: Served, technique: Technique, point: Point) -> str:
    """Let the sous chef begin a practical in which this point is asked; return the point's address."""
    k, now, hire, sous = served.kitchen, served.clock(), person_id(served, "New hire"), person_id(served, "Sous chef")
    part = next((part.id for part in technique.parts if point.id in part.points), "")
    case = next((case.id for case in technique.cases if not point.cases or case.id in point.cases), "")
    key = f"{technique.id}-{part}-{case}"
    if watching.find_practical(k, key) is None:
        if not any(one.cook == hire and one.technique == technique.id for one in watching.waiting(k, k.today(now))):
            ready_to_show(served, hire, technique)
        for begun in watching.practicals_by(k, sous):
            watching.drop_practical(k, by=sous, practical=begun.id)
        (station, *_) = k.content.stations_asking_for(technique.id)
        watch = watching.Watch(hire, technique.id, station.id, part=part)
        begun_now = watching.start_practical(k, by=sous, watch=watch, now=now, key=key)
        assert isinstance(begun_now, watching.Practical), begun_now
        if case or part:
            watching.pick_case(k, by=sous, practical=key, case=case, now=now, part=part)
    ids = [one.id for one in technique.points_in(case, part)]
    return f"/practicals/{key}/{ids.index(point.id) + 1}"
