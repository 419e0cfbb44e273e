"""A checklist in parts: each is watched and signed by itself, and both are needed on the same day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe, small_content, with_technique
from trainer.kitchen.requirements import practical
from trainer.kitchen.rules import content_of, rules_of
from trainer.kitchen.technique import ChecklistPart, Content, Edition
from trainer.messages import translate

PARTS = (
    ChecklistPart("probes", "Probe and clock", ("guard_on", "weights"), 1),
    ChecklistPart("fire", "At the bars", ("boil", "told"), 1),
)
MARCH, MAY = date(2026, 3, 1), date(2026, 5, 1)


def parted() -> Content:
    """Return the content whose cold sauces are watched in two parts."""
    return with_technique(small_content(), "cold_sauces", parts=PARTS)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe of that kitchen, with Ada in it who has read."""
    found = Scribe(content=parted())
    found.joins("ada")
    found.reads("ada", "cold_sauces", FIRST)
    return found


def signs(scribe: Scribe, part: str, when: date, verdict: str = "meets it", **more: object) -> str:
    """Write a practical of one part; of the whole, where none is named."""
    about = {"part": [part, part], "divided": ["probes", "fire"]} if part else {}
    return scribe.watched("ada", "cold_sauces", when, verdict, **about, **more)  # type: ignore[arg-type]


def holds(scribe: Scribe, on: date) -> bool:
    """Return whether the practical counts on a day."""
    record = scribe.progress().record("ada").as_of(on)
    return practical(record, scribe.content.techniques["cold_sauces"], on).best is not None


def missing(scribe: Scribe, on: date) -> str:
    """Return what is said to be missing of it."""
    record = scribe.progress().record("ada").as_of(on)
    found = practical(record, scribe.content.techniques["cold_sauces"], on).missing
    assert found is not None
    return translate(found.text)


def test_one_part_is_not_the_whole(scribe: Scribe) -> None:
    """What is missing names the other part, and how many are signed."""
    assert missing(scribe, MARCH).endswith(
        "0 of 2 parts signed; Probe and clock: no sign-off; At the bars: no sign-off."
    )
    signs(scribe, "probes", MARCH)
    assert not holds(scribe, MARCH)
    assert missing(scribe, MARCH).endswith("1 of 2 parts signed; At the bars: no sign-off.")


def test_both_parts_count_on_the_days_they_have_in_common(scribe: Scribe) -> None:
    """From the later one to the end of the earlier one; both are its proof."""
    entries = [signs(scribe, "probes", MARCH), signs(scribe, "fire", MAY)]
    record = scribe.progress().record("ada").as_of(MAY)
    best = practical(record, scribe.content.techniques["cold_sauces"], MAY).best
    assert best is not None
    assert (best.since, best.until, list(best.proof)) == (MAY, date(2027, 3, 1), entries)
    assert holds(scribe, date(2027, 3, 1))
    assert not holds(scribe, date(2027, 3, 2))
    signs(scribe, "probes", date(2027, 2, 1))
    assert holds(scribe, date(2027, 5, 1))


def test_a_sign_off_of_the_whole_counts_for_every_part(scribe: Scribe) -> None:
    """As it was before the checklist was divided."""
    signs(scribe, "", MARCH)
    assert holds(scribe, MARCH)


@pytest.mark.parametrize("parts", [(), (ChecklistPart("all", "All", ("guard_on",), 0),)])
def test_all_parts_of_another_division_are_the_whole(scribe: Scribe, parts: tuple[ChecklistPart, ...]) -> None:
    """Where the checklist is whole again, or divided otherwise; one of them alone is less than the station asks."""
    signs(scribe, "probes", MARCH)
    scribe.content = with_technique(small_content(), "cold_sauces", parts=parts)
    assert not holds(scribe, MARCH)
    signs(scribe, "fire", MARCH)
    assert holds(scribe, MARCH)
    assert not holds(scribe, date(2027, 3, 2))


def test_a_not_yet_in_one_part_leaves_the_other(scribe: Scribe) -> None:
    """And a stop in one ends both."""
    signs(scribe, "probes", MARCH)
    signs(scribe, "fire", MARCH, "not yet")
    assert missing(scribe, MARCH).endswith("1 of 2 parts signed; At the bars: not yet, watched on 1 March 2026.")
    signs(scribe, "fire", MARCH)
    assert holds(scribe, MARCH)
    signs(scribe, "fire", MAY, "stopped")
    assert not holds(scribe, MAY)


def test_an_edition_that_asks_again_ends_both(scribe: Scribe) -> None:
    """As the edition rule says."""
    editions = (Edition(1, date(2025, 1, 1), "", True), Edition(2, MAY, "", False))
    scribe.content = with_technique(parted(), "cold_sauces", editions=editions)
    for part in ("probes", "fire"):
        signs(scribe, part, MARCH)
    assert holds(scribe, date(2026, 4, 30))
    assert not holds(scribe, MAY)
    for part in ("probes", "fire"):
        signs(scribe, part, MAY, edition=2)
    assert holds(scribe, MAY)


def test_rules_keep_the_parts_in_a_form_of_their_own() -> None:
    """An older program must not take one part for the whole; without parts nothing is written otherwise."""
    rules = rules_of(parted())
    assert rules["form"] == 3
    (technique,) = [each for each in content_of(rules).techniques.values() if each.parts]
    assert [(part.id, part.points) for part in technique.parts] == [(part.id, part.points) for part in PARTS]
    plain = rules_of(small_content())
    assert plain["form"] == 1
    assert all("parts" not in each["checklist"] for each in plain["techniques"])


def test_a_part_is_called_as_the_reader_calls_it() -> None:
    """By its id, in any other words."""
    spanish = with_technique(parted(), "cold_sauces", parts=(replace(PARTS[0], title="Sonda y reloj"), PARTS[1]))
    name = parted().techniques["cold_sauces"].part_name(PARTS[0])
    assert spanish.name_of(name).name == "Sonda y reloj"
