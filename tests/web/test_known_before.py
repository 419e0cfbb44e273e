"""What cooks know from before, said on one page for as many as are ticked."""

from __future__ import annotations

from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions.open_kitchen import Kitchen

BASIS = "How you know"
SAFE = "Good to, with questions about safety"


def test_a_manager_says_it_of_two_cooks_in_one_act(cleo: Hands, kitchen: Kitchen) -> None:
    """Their cells count, each with its mark; the proof says known and not watched, and names no signature."""
    cleo.open("/cooks")
    cleo.follow("Known from before")
    ticked = ["ana pasta_room", "bo pasta_room"]
    page = cleo.press("Show the days", {BASIS: "Two years beside me."}, cells=ticked)
    assert "To be watched: 2 practicals" in page.work
    days = [line.get_text() for line in page.soup.select("main ul li") if "Pasta nesting" in line.get_text()]
    assert [day.split(": ")[1] for day in days] == ["Ana Pardo, Pasta nesting", "Bo Lind, Pasta nesting"]
    assert not kitchen.file.book.of_kind("known_before")
    shown = cleo.page
    cleo.press("Write it down", {BASIS: "Two years beside me."}, cells=ticked)
    cleo.page = shown
    assert cleo.press("Write it down", {BASIS: "Two years beside me."}, cells=ticked).path == "/board"
    entries = [entry for entry in kitchen.file.book.since(0) if entry.kind == "known_before"]
    assert [entry.cook for entry in entries] == ["ana", "bo"]
    cell = cleo.open("/board").soup.select_one("a[href='/board/ana/pasta_room']")
    assert cell
    assert "cleared" in cell.get_text()
    assert "Known, not watched." in cell.get_text()
    proof = cleo.open("/board/ana/pasta_room").work
    assert "known, not watched, said by Cleo" in proof
    assert "signed off" not in proof
    assert "How the manager knows: Two years beside me." in proof


def test_days_other_than_those_shown_are_shown_first(cleo: Hands, kitchen: Kitchen) -> None:
    """Another tick after the days were shown: nothing is written, and the days are shown anew."""
    cleo.open("/known-before")
    cleo.press("Show the days", {BASIS: "Two years."}, cells=["ana pasta_room"])
    page = cleo.press("Write it down", {BASIS: "Two years."}, cells=["ana pasta_room", "dev pasta_room"])
    assert "Dev Karim, Pasta nesting" in page.work
    assert not kitchen.file.book.of_kind("known_before")


def test_a_day_too_far_off_is_refused_and_what_was_typed_stays(cleo: Hands, kitchen: Kitchen) -> None:
    """The longest is named, and nothing is written."""
    cleo.open("/known-before")
    page = cleo.press("Show the days", {BASIS: "Two years.", SAFE: "2027-06-01"}, cells=["ana pasta_room"])
    assert "1 June 2027 is too far off: at the most 92 days" in page.problems[0]
    assert "Two years." in page.work or "Two years." in page.response.get_data(as_text=True)
    assert "2027-06-01" in page.response.get_data(as_text=True)
    assert all(entry.kind != "known_before" for entry in kitchen.file.book.since(0))


def test_cooks_and_what_they_know_are_ticked_apart(cleo: Hands, kitchen: Kitchen) -> None:
    """Two cooks with a station become two cells, a single technique one more; whose time it takes stands above."""
    cleo.open("/known-before")
    more = {"cooks": ["ana", "dev"], "stations": ["pasta_room"], "techniques": ["sauce"]}
    page = cleo.press("Show the days", {BASIS: "Two years."}, **more)
    cells = [str(one["value"]) for one in page.soup.select("#cells input[checked]")]
    assert cells == ["ana pasta_room", "dev pasta_room", "ana saute sauce", "dev saute sauce"]
    assert "at most" in page.work
    assert "minutes a week of the time of Bo Lind." in page.work
    page = cleo.press("Write it down", {BASIS: "Two years."}, cells=cells[:3])
    assert "To be watched: 3 practicals" in page.work
    cleo.press("Write it down", {BASIS: "Two years."}, cells=cells[:3])
    entries = kitchen.file.book.of_kind("known_before")
    assert [(one.cook, one.body["cells"][0]["station"]) for one in entries] == [
        ("ana", "pasta_room"),
        ("dev", "pasta_room"),
        ("ana", "saute"),
    ]


def test_what_is_left_to_nobody_is_passed_over(cleo: Hands, kitchen: Kitchen) -> None:
    """Bo has shown what the pasta room asks for: he is passed over, and the page says so."""
    clear(kitchen, "bo")
    cleo.open("/known-before")
    page = cleo.press("Show the days", {BASIS: "Two years."}, cooks=["ana", "bo"], stations=["pasta_room"])
    assert "1 was passed over: nothing is left to say there." in page.work
    assert [str(one["value"]) for one in page.soup.select("#cells input[checked]")] == ["ana pasta_room"]


def test_too_few_minutes_a_week_are_refused_at_the_field(cleo: Hands, kitchen: Kitchen) -> None:
    """Nothing is written, and the ticks stay."""
    cleo.open("/known-before")
    fill = {BASIS: "Two years.", "Minutes a week for watching": "5"}
    page = cleo.press("Show the days", fill, cooks=["ana"], stations=["pasta_room"])
    assert "15 minutes of practicals do not fit" in page.problems[0]
    assert [str(one["value"]) for one in page.soup.select("#cells input[checked]")] == ["ana pasta_room"]
    assert not kitchen.file.book.of_kind("known_before")


def test_without_a_tick_or_a_word_it_is_refused(cleo: Hands) -> None:
    """Each is asked for."""
    cleo.open("/known-before")
    assert cleo.press("Show the days", cells=["ana pasta_room"]).problems == [
        "Write how you know. It stays in the book."
    ]
    assert cleo.press("Show the days", {BASIS: "Two years."}, cells=[]).problems == [
        "Tick at least one cook and station."
    ]


def test_only_a_manager_opens_the_page(ana: Hands) -> None:
    """A cook says nothing of the kind."""
    assert ana.open("/known-before").status == 403
