"""A practical by law, result and craft: the case first, what was said, one try more; and what the book keeps of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.actions.crew import Crew, crew_in, refused, saved
from tests.kitchen.kitchen_for_tests import small_content, with_technique
from tests.kitchen.test_typed_points import LINE, LIST
from trainer.actions.leaning import leaning_entries
from trainer.actions.watching import (
    Look,
    Practical,
    Watch,
    ask_to_be_watched,
    drop_practical,
    find_practical,
    pick_case,
    see_point,
    start_practical,
    waiting,
)
from trainer.kitchen.book import Entry
from trainer.kitchen.practical import PointSeen
from trainer.kitchen.technique import ChecklistPart, Content, PointChoice
from trainer.messages import translate

CASES = (PointChoice("raw", "Raw eggs"), PointChoice("pasteurized", "Pasteurized yolk"))
HEATED = Look("heat", None, ("156 F", "18 s", "160 F", "20 s"))
SAID = Look("says", None, said=("heat", "time"))
OPEN = Look("line", None, said=("right",))
SPOON = Look("spoon", "meets it")
TASTED = Look("taste", None, said=("under",))


def typed_content() -> Content:
    """Return the content whose cold sauces have a typed checklist with cases."""
    return with_technique(small_content(), "cold_sauces", checklist=LIST, scored_needed=1, cases=CASES)


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """Return the crew of that kitchen."""
    return crew_in(tmp_path, typed_content())


def begun(crew: Crew, case: str = "raw") -> Practical:
    """Return a practical whose case is picked."""
    practical = crew.begins_practical()
    picked = pick_case(crew.k, by="sous", practical=practical.id, case=case, now=crew.now)
    assert isinstance(picked, Practical), picked
    return picked


def test_the_case_comes_before_the_first_point(crew: Crew) -> None:
    """Nobody judges heat without saying of which eggs; a stop waits for nothing."""
    practical = crew.begins_practical()
    found = see_point(crew.k, by="sous", practical=practical.id, look=SPOON, now=crew.now)
    assert refused(found).field == "case"
    unsafe = see_point(crew.k, by="sous", practical=practical.id, look=Look("spoon", "unsafe"), now=crew.now)
    assert isinstance(unsafe, PointSeen)


def test_a_case_nobody_knows_is_refused_by_name(crew: Crew) -> None:
    """The sentence names it and those there are."""
    practical = crew.begins_practical()
    found = refused(pick_case(crew.k, by="sous", practical=practical.id, case="duck", now=crew.now))
    assert translate(found.reason) == "“duck” is none of: Raw eggs, Pasteurized yolk."
    assert translate(refused(pick_case(crew.k, by="sous", practical=practical.id, case="", now=crew.now)).reason)


def test_a_case_can_be_changed_until_a_point_was_looked_at(crew: Crew) -> None:
    """Then another begins anew."""
    practical = begun(crew, "pasteurized")
    assert [point.id for point in practical.points] == ["says", "line", "taste", "spoon"]
    practical = begun(crew)
    assert [point.id for point in practical.points] == ["heat", "says", "line", "taste", "spoon"]
    crew.sees(practical, SPOON)
    found = refused(pick_case(crew.k, by="sous", practical=practical.id, case="pasteurized", now=crew.now))
    assert "begin anew" in translate(found.reason)
    assert drop_practical(crew.k, by="sous", practical=practical.id) is None


def test_the_book_keeps_type_lines_case_and_what_was_said(crew: Crew) -> None:
    """All that its page shows, so that nothing is asked of the content again."""
    practical = begun(crew)
    crew.sees(practical, HEATED, SAID, replace(OPEN, said=("over",)))
    crew.sees(practical, replace(OPEN, is_made_again=True), TASTED, SPOON)
    entry = saved(crew.signs(practical))
    assert (entry.body["verdict"], entry.body["case"]) == ("meets it", ["raw", "Raw eggs"])
    points = {point["point"]: point for point in entry.body["points"]}
    assert {name: point["type"] for name, point in points.items()} == {
        "heat": "law", "says": "law", "line": "result", "taste": "craft", "spoon": "craft",
    }  # fmt: skip
    assert [line["id"] for line in points["heat"]["limits"]] == ["egg_pooled", "egg_pooled_time"]
    assert points["says"]["expects"][0] == ["heat", "155 °F", "155"]
    assert points["says"]["looks"][0]["said"] == ["heat", "time"]
    assert [(look["seen"], look.get("attempt", 1)) for look in points["line"]["looks"]] == [
        ("not yet", 1),
        ("meets it", 2),
    ]
    assert points["taste"]["looks"][0]["said"] == ["under"]


def test_a_law_missed_is_not_yet(crew: Crew) -> None:
    """Whatever else was right."""
    practical = begun(crew)
    crew.sees(practical, HEATED, replace(SAID, said=("heat",)), OPEN, replace(TASTED, said=("right",)), SPOON)
    assert saved(crew.signs(practical)).body["verdict"] == "not yet"


def test_points_of_the_other_case_are_not_missed(crew: Crew) -> None:
    """Pasteurized yolk is not asked for the line of raw eggs."""
    practical = begun(crew, "pasteurized")
    crew.sees(practical, SAID, OPEN, TASTED, SPOON)
    assert saved(crew.signs(practical)).body["verdict"] == "meets it"


def test_a_correction_is_no_second_try(crew: Crew) -> None:
    """Only what the cook made again counts as one; of two tries a third is none."""
    practical = begun(crew)
    missed, again = replace(OPEN, said=("over",)), replace(OPEN, said=("over",), is_made_again=True)
    for look, attempts in ((missed, 1), (missed, 1), (again, 2), (again, 2)):
        crew.sees(practical, look)
        found = find_practical(crew.k, practical.id)
        assert found is not None
        point = found.point("line")
        assert point is not None
        assert point.attempts == attempts


def test_a_checklist_that_asks_something_else_is_watched_anew(crew: Crew) -> None:
    """A try less is another checklist; the case that is gone too."""
    practical = begun(crew)
    changed = tuple(replace(point, tries=1) if point is LINE else point for point in LIST)
    crew.k.content = with_technique(typed_content(), "cold_sauces", checklist=changed)
    found = see_point(crew.k, by="sous", practical=practical.id, look=SPOON, now=crew.now)
    assert "has changed since you began" in translate(refused(found).reason)


PARTS = (
    ChecklistPart("says", "What is said", ("heat", "says"), 0),
    ChecklistPart("hands", "What is done", ("line", "taste", "spoon"), 1),
)


@pytest.fixture
def parted(tmp_path: Path) -> Crew:
    """Return the crew of a kitchen whose cold sauces are watched in two parts, without cases."""
    content = with_technique(small_content(), "cold_sauces", checklist=LIST, scored_needed=1, parts=PARTS)
    return crew_in(tmp_path, content)


def test_one_part_is_watched_and_signed_by_itself(parted: Crew) -> None:
    """The first that is left; the entry says which; then the next is begun."""
    practical = parted.begins_practical()
    assert (practical.part, [point.id for point in practical.points]) == ("says", ["heat", "says"])
    parted.sees(practical, HEATED, SAID)
    entry = saved(parted.signs(practical))
    assert (entry.body["part"], entry.body["verdict"]) == (["says", "What is said"], "meets it")
    assert entry.body["divided"] == ["says", "hands"]
    other = parted.begins_practical()
    assert other.part == "hands"
    parted.sees(other, OPEN, TASTED, SPOON)
    assert saved(parted.signs(other)).body["verdict"] == "meets it"


def test_one_part_signed_leaves_the_request_open_for_the_other(parted: Crew) -> None:
    """The cook goes on waiting; with the last part the request is answered, and so it is by *not yet* on each."""

    def asked() -> list[str]:
        return [one.technique for one in waiting(parted.k, parted.k.today(parted.now))]

    parted.reads("ada", "cold_sauces")
    saved(ask_to_be_watched(parted.k, cook="ada", technique="cold_sauces", now=parted.now, key=parted.key()))
    practical = parted.begins_practical()
    parted.sees(practical, HEATED, replace(SAID, said=("heat",)))
    assert saved(parted.signs(practical)).body["verdict"] == "not yet"
    assert asked() == ["cold_sauces"]
    again = ask_to_be_watched(parted.k, cook="ada", technique="cold_sauces", now=parted.now, key=parted.key())
    assert "waiting" in translate(refused(again).reason)
    other = pick_case(
        parted.k, by="sous", practical=parted.begins_practical().id, case="", part="hands", now=parted.now
    )
    assert isinstance(other, Practical)
    parted.sees(other, OPEN, TASTED, SPOON)
    assert saved(parted.signs(other)).body["verdict"] == "meets it"
    assert asked() == []


def test_a_part_that_is_signed_already_is_not_waited_for(parted: Crew) -> None:
    """Asked for the rest, the rest alone answers."""
    practical = parted.begins_practical()
    parted.sees(practical, HEATED, SAID)
    saved(parted.signs(practical))
    parted.later(days=1)
    saved(ask_to_be_watched(parted.k, cook="ada", technique="cold_sauces", now=parted.now, key=parted.key()))
    other = parted.begins_practical()
    parted.sees(other, OPEN, TASTED, SPOON)
    saved(parted.signs(other))
    assert waiting(parted.k, parted.k.today(parted.now)) == ()


def test_a_second_assessor_watches_the_other_part_at_the_same_time(parted: Crew) -> None:
    """Signing one overtakes nobody at the other; a stop in one does."""
    parted.clears("nils")
    mine = parted.begins_practical()
    watch = Watch("ada", "cold_sauces", "cold_side")
    theirs = start_practical(parted.k, by="nils", watch=watch, now=parted.now, key=parted.key())
    assert isinstance(theirs, Practical), theirs
    assert theirs.part == "hands"
    parted.sees(theirs, OPEN, TASTED, SPOON)
    saved(parted.signs(theirs))
    parted.sees(mine, HEATED, SAID)
    assert saved(parted.signs(mine)).body["part"][0] == "says"


def test_another_part_can_be_picked_before_the_first_point(parted: Crew) -> None:
    """Its points and how much craft it needs come with it; one nobody knows is refused."""
    practical = parted.begins_practical()
    picked = pick_case(parted.k, by="sous", practical=practical.id, case="", part="hands", now=parted.now)
    assert isinstance(picked, Practical)
    assert ([point.id for point in picked.points], picked.need) == (["line", "taste", "spoon"], 1)
    found = refused(pick_case(parted.k, by="sous", practical=practical.id, case="", part="feet", now=parted.now))
    assert translate(found.reason) == "“feet” is none of: What is said, What is done."


@pytest.fixture
def twice(tmp_path: Path) -> Crew:
    """Return the crew of a kitchen where both techniques Ada has read watch the same law: one line, one id."""
    content = with_technique(small_content(), "cold_sauces", checklist=LIST, scored_needed=1)
    return crew_in(tmp_path, with_technique(content, "pasta_nesting", checklist=LIST, scored_needed=1))


def watched_once(crew: Crew, *looks: Look) -> Entry:
    """Sign a practical of cold sauces by these looks."""
    practical = crew.begins_practical()
    crew.sees(practical, *looks)
    return saved(crew.signs(practical))


def of_the_other(crew: Crew) -> Practical:
    """Begin a practical of the other technique, whose pair is the same law."""
    crew.write("technique_read", "ada", {"technique": "pasta_nesting", "edition": 1})
    crew.clears("sous", "pasta_nesting", "pasta_room")
    crew.clears("sous", "fresh_pasta", "pasta_room")
    crew.write("station_opened", "sous", {"station": "pasta_room", "until": "2027-01-01", "reason": "new"})
    watch = Watch("ada", "pasta_nesting", "pasta_room")
    begun = start_practical(crew.k, by="sous", watch=watch, now=crew.now, key=crew.key())
    assert isinstance(begun, Practical), begun
    return begun


def test_a_law_seen_met_lately_needs_no_second_look(twice: Crew) -> None:
    """The entry keeps on which entry it leans; what is no law, or has no line, is looked at again."""
    first = watched_once(twice, HEATED, SAID, OPEN, TASTED, SPOON)
    twice.later(days=20)
    practical = of_the_other(twice)
    assert practical.done == {"heat"}
    twice.sees(practical, SAID, OPEN, TASTED, SPOON)
    entry = saved(twice.signs(practical))
    assert entry.body["verdict"] == "meets it"
    kept = {point["point"]: point for point in entry.body["points"]}
    assert kept["heat"]["leans_on"] == [first.id, "2026-03-02", "sous"]
    assert kept["heat"]["looks"] == []
    assert "leans_on" not in kept["says"]
    assert leaning_entries(twice.k, first.id) == (entry.id,)


def test_a_second_look_counts_where_it_is_taken(twice: Crew) -> None:
    """What somebody sees today stands over what was seen before."""
    watched_once(twice, HEATED, SAID, OPEN, TASTED, SPOON)
    practical = of_the_other(twice)
    cold = replace(HEATED, readings=("150 F", "18 s", "160 F", "20 s"))
    twice.sees(practical, cold, SAID, OPEN, TASTED, SPOON)
    entry = saved(twice.signs(practical))
    assert entry.body["verdict"] == "not yet"
    assert "leans_on" not in entry.body["points"][0]


@pytest.mark.parametrize("days", [30, 31])
def test_it_counts_for_thirty_days(twice: Crew, days: int) -> None:
    """The house's own bound; the thirtieth day is one of them."""
    watched_once(twice, HEATED, SAID, OPEN, TASTED, SPOON)
    twice.later(days=days)
    assert of_the_other(twice).done == ({"heat"} if days == 30 else set())


def test_nothing_before_a_stop_is_taken_as_seen(twice: Crew) -> None:
    """A stop since asks for every look again."""
    watched_once(twice, HEATED, SAID, OPEN, TASTED, SPOON)
    stopped = watched_once(twice, Look("spoon", "unsafe"))
    body = {"stop": stopped.id, "reason": "shown again", "retry_from": "2026-03-02"}
    twice.write("stop_released", "ada", body)
    assert of_the_other(twice).done == set()


def test_a_void_between_asks_for_the_look(twice: Crew) -> None:
    """Signing names the point whose first look counts no more."""
    first = watched_once(twice, HEATED, SAID, OPEN, TASTED, SPOON)
    practical = of_the_other(twice)
    twice.sees(practical, SAID, OPEN, TASTED, SPOON)
    twice.write("entry_voided", "ada", {"entry": first.id, "reason": "wrong cook"})
    found = refused(twice.signs(practical))
    assert "“Heats it” was seen on 2 March 2026, and that counts no more." in translate(found.reason)
    twice.sees(practical, HEATED)
    assert saved(twice.signs(practical)).body["verdict"] == "meets it"
