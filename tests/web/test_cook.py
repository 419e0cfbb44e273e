"""The cook's pages: the own page, a technique and its steps, saying it is read, asking to be watched, the record."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import NOON
from tests.web.hands import Hands, Seen
from tests.web.small_content import NESTS
from trainer.actions.open_kitchen import Kitchen
from trainer.store.shifts import PlannedShift


def read_through(hands: Hands, technique: str = "nests") -> None:
    """Say that a technique's edition in force is read."""
    page = hands.go_through(technique)
    edition = next(b.get_text() for b in page.soup.find_all("button") if b.get_text().startswith("I have read"))
    hands.press(edition)


def in_turn(page: Seen) -> list[str]:
    """Return the techniques to do on a cook's own page, in sequence: the next one, then the rest."""
    return [found.get_text() for found in page.soup.select(".ticket.next h2, .under .name")]


def test_a_new_cooks_page_says_what_to_read(ana: Hands) -> None:
    """In a house without paths a new hire reads what there is; the one enamel button names the next act."""
    page = ana.open("/rail")
    assert in_turn(page) == ["Pasta nesting", "Butter sauce"]
    assert "not started" in page.soup.select(".ticket.next")[0].get_text()
    assert page.link("Read: Pasta nesting") == "/techniques/nests"
    assert len(page.soup.select(".enamel")) == 1


def test_what_the_next_shift_asks_for_hangs_first(ana: Hands, kitchen: Kitchen) -> None:
    """Planned at the sauté station, a new hire reads what that station asks for before the rest."""
    kitchen.file.shifts.add([PlannedShift(kitchen.today(NOON), "dinner", "ana", "saute")])
    assert in_turn(ana.open("/rail")) == ["Butter sauce", "Pasta nesting"]


def test_a_technique_shows_standard_hazards_and_allergens(ana: Hands) -> None:
    """The technique's page has the goal, the words, the standard in both unit systems, cautions and allergens."""
    work = ana.open("/techniques/nests").work
    assert "nest One portion of strands" in work
    assert "4.5 oz" in work
    assert "Keep fingers out of the die" in work
    assert "Allergens: wheat, egg" in work
    assert "Asked for at: Pasta room" in work
    assert "local code" in work


def test_steps_come_one_a_screen(ana: Hands) -> None:
    """Next leads through every step and on to the faults; Back leads back."""
    ana.open("/techniques/nests")
    page = ana.follow("Start: Catch")
    for step in NESTS.steps:
        assert step.text in page.work
        assert [s.text for s in NESTS.steps if s.text in page.work] == [step.text]
        page = ana.follow("Next")
    assert page.path == "/techniques/nests/after"
    assert "Too little flour." in page.work
    assert ana.follow("Back to the steps").path == "/techniques/nests/steps/3"


def test_a_caution_stands_above_the_step_it_guards(ana: Hands) -> None:
    """The hazard's caution comes before the step's own words; a hazard of another step does not show."""
    work = ana.open("/techniques/nests/steps/1").work
    assert work.index("Keep fingers out of the die") < work.index("Catch the strands")
    assert "The pot is hot" not in work


def test_reading_is_recorded_with_its_edition(ana: Hands, kitchen: Kitchen) -> None:
    """The acknowledgement names the edition in force and lands in the book and on the record."""
    ana.go_through("nests")
    page = ana.press("I have read edition 2")
    entry = kitchen.file.book.since(0)[-1]
    assert (entry.kind, entry.cook, entry.by, entry.body) == (
        "technique_read",
        "ana",
        "ana",
        {"technique": "nests", "edition": 2},
    )
    assert "Saved 12:00." in page.work
    assert page.link("Sit the quiz: Pasta nesting") == "/techniques/nests/quiz"
    assert "Read edition 2, 3 Nov 2026" in ana.open("/record").work


def test_pressing_twice_saves_once(ana: Hands, kitchen: Kitchen) -> None:
    """The same form sent twice gives one entry and the same answer."""
    page = ana.go_through("nests")
    button = page.button("I have read edition 2")
    form = button.find_parent("form")
    assert form is not None
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}
    first, second = (ana.client.post("/techniques/nests/after", data=data) for _ in range(2))
    assert first.status_code == second.status_code == 303
    assert first.location == second.location
    assert [e.kind for e in kitchen.file.book.since(0)].count("technique_read") == 1


def test_a_technique_without_a_quiz_is_asked_to_be_watched_after_reading(ana: Hands, kitchen: Kitchen) -> None:
    """Read, then ask: the ticket then says how long the cook has waited."""
    read_through(ana, "sauce")
    page = ana.open("/techniques/sauce")
    assert "ready to show" in page.work
    page = ana.press("Ask to be watched")
    assert page.path == "/rail"
    assert kitchen.file.book.since(0)[-1].kind == "watch_asked"
    assert "1 waits for others: Butter sauce" in page.work
    assert "Asked Tue 3 Nov 2026, 12:00." in page.work
    assert page.link("Read: Pasta nesting"), "what waits never stands on the big button"


def test_ready_to_show_hangs_first(ana: Hands) -> None:
    """A technique that is ready to show hangs before one that is still to read."""
    read_through(ana, "sauce")
    page = ana.open("/rail")
    assert in_turn(page) == ["Butter sauce", "Pasta nesting"]
    assert page.button("Ask to be watched")


def test_the_record_says_what_is_missing_at_each_station(ana: Hands) -> None:
    """The own record lists every station with its state and what is missing."""
    work = ana.open("/record").work
    assert "Pasta room not started" in work
    assert "Food handler" in work


def test_nobody_opens_anothers_result(ana: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """An entry of another cook is answered as if there were none."""
    read_through(ana)
    entry = kitchen.file.book.since(0)[-1]
    assert sign_in("dev").open(f"/results/{entry.id}").status == 404


def test_an_unknown_technique_is_a_plain_page(ana: Hands) -> None:
    """An address that names no technique says so, and what to do."""
    page = ana.open("/techniques/soup")
    assert page.status == 404
    assert "There is no technique “soup”" in page.work
    assert page.link("Back to the start") == "/"
