"""The points of a practical as they are kept: read back they are the same, and every look stands."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import CHECKLIST, Scribe, technique
from trainer.kitchen.book import canonical
from trainer.kitchen.practical import AskBack, PointSeen, Seen
from trainer.kitchen.watched_points import (
    LookTaken,
    WatchedPoint,
    is_same_checklist,
    look_taken,
    point_from,
    point_kept,
    points_of,
)

NOON = datetime(2026, 3, 2, 17, tzinfo=UTC)
GUARD, WEIGHTS, BOIL, _ = points_of(technique("cold_sauces"))


def kept_and_read(point: WatchedPoint) -> WatchedPoint:
    """Return a point as it comes back from the book."""
    return point_from(json.loads(canonical(point_kept(point))))


def test_a_point_comes_back_with_every_look() -> None:
    """Words, line, readings as numbers, what was asked back and answered, the note, who and when."""
    first = PointSeen("boil", "not yet", ("2 min",), "slow gas", (AskBack(0, "99999 s", ("99999 s",), "2 min"),))
    looks = tuple(
        look_taken(BOIL.as_asked, seen, by="sous", at=NOON, decimal_mark=".")
        for seen in (first, PointSeen("boil", "meets it", ("1 min 25 s",)))
    )
    point = replace(BOIL, looks=looks, language="es")
    assert kept_and_read(point) == point
    assert [look.amounts for look in looks] == [(("2", "min"),), (("17/12", "min"),)]  # 1 min 25 s: 60/60 + 25/60


def test_a_reading_of_a_stop_that_nobody_can_read_is_kept_as_text() -> None:
    """A stop waits for no number."""
    seen = PointSeen("boil", "unsafe", ("hot",))
    point = replace(BOIL, looks=(look_taken(BOIL.as_asked, seen, by="sous", at=NOON, decimal_mark="."),))
    assert kept_and_read(point) == point
    assert point.looks[0].amounts == (("", ""),)


def test_unsafe_at_any_look_stays() -> None:
    """Whatever was seen after it."""
    seen: tuple[Seen, ...] = ("unsafe", "meets it")
    point = replace(GUARD, looks=tuple(LookTaken(NOON, "sous", PointSeen("guard_on", word)) for word in seen))
    assert (point.is_unsafe, point.word) == (True, "unsafe")


def test_words_alone_make_no_other_checklist() -> None:
    """Another line, another number of pieces, a point more or critical now: another one."""
    own = points_of(technique("cold_sauces"))
    assert is_same_checklist(own, [replace(point, words="¡Listo!", language="es") for point in own])
    nobody = WatchedPoint("more", "more", critical=False)
    for other in (
        (*own, nobody),
        own[::-1],
        (replace(GUARD, critical=False), *own[1:]),
        (GUARD, replace(WEIGHTS, inside=5), *own[2:]),
        (GUARD, replace(WEIGHTS, limit=BOIL.limit), *own[2:]),
    ):
        assert not is_same_checklist(own, other)


@pytest.mark.parametrize(
    ("seen", "unsafe", "missed"),
    [
        (["not yet", "meets it"], (), ()),
        (["meets it", "not yet"], (), ("boil",)),
        (["unsafe", "meets it"], ("boil",), ("boil",)),
        ([], (), ()),
    ],
)
def test_the_last_look_says_what_was_missed_and_unsafe_stays(
    seen: list[Seen], unsafe: tuple[str, ...], missed: tuple[str, ...]
) -> None:
    """A point nobody looked at was not seen to fall short."""
    scribe = Scribe()
    scribe.joins("ada")
    looks = tuple(LookTaken(NOON, "sous", PointSeen("boil", word)) for word in seen)
    points = [point_kept(replace(point, looks=looks if point.id == "boil" else ())) for point in points_of(_COLD)]
    body: dict[str, Any] = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "points": points}
    scribe.write("practical_watched", "ada", date(2026, 3, 2), {**body, "verdict": "not yet", "reasons": []}, by="sous")
    (line,) = scribe.progress().record("ada").watched
    assert (line.unsafe, line.missed) == (unsafe, missed)


_COLD = technique("cold_sauces", checklist=CHECKLIST)
