"""People who left are kept for as long as the kitchen says, and are erased only when it is told to."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.actions.crew import Crew, crew_in, refused, saved
from tests.cli.conftest import NOW, Run
from tests.cli.test_person import HIRE, leaves
from tests.printed import english
from trainer import clock
from trainer.actions.people_on_record import Written
from trainer.actions.retention import Leaver, erase_leavers, law_on, leavers, read_years, set_years, years_kept
from trainer.kitchen.book import Entry
from trainer.messages import translate
from trainer.store.catalogues import translations
from trainer.store.kitchen_file import KitchenFile
from trainer.web.person_words import LINES

FAR = datetime(2060, 1, 1, 17, tzinfo=UTC)
SHORT = "That is short: California asks for at least 3 years after leaving (Labor Code 1198.5(c))."


@pytest.fixture
def crew(tmp_path: Path) -> Iterator[Crew]:
    """Return the crew on 2 March 2026."""
    crew = crew_in(tmp_path / "crew")
    yield crew
    crew.k.file.close()


def written(crew: Crew) -> Written:
    """Return what a command on the machine writes now."""
    return Written("local", crew.now, crew.key())


def leaves_on(crew: Crew, cook: str, on: date) -> Entry:
    """Turn the clock to a day, and let somebody leave."""
    crew.now = datetime(on.year, on.month, on.day, 17, tzinfo=UTC)
    return crew.write("cook_left", cook, {"reason": "moved"})


def listed(crew: Crew, years: int = 3) -> dict[str, date]:
    """Return who is listed, with the day they may be erased from."""
    return {one.cook: one.erased_from for one in leavers(crew.k, years, FAR)}


def entries(folder: Path, kind: str) -> list[Entry]:
    """Return a kitchen's entries of a kind."""
    with closing(KitchenFile.open(folder)) as file:
        return [entry for entry in file.book.since(0) if entry.kind == kind]


@pytest.mark.parametrize(
    ("left", "years", "erased_from"),
    [
        (date(2026, 3, 2), 3, date(2029, 3, 3)),
        (date(2026, 12, 31), 1, date(2028, 1, 1)),
        (date(2027, 2, 28), 1, date(2028, 2, 29)),
        (date(2028, 2, 29), 3, date(2031, 3, 1)),
        (date(2028, 2, 29), 4, date(2032, 3, 1)),
    ],
)
def test_years_end_as_the_law_of_periods_has_it(crew: Crew, left: date, years: int, erased_from: date) -> None:
    """Regulation (EEC, Euratom) 1182/71, article 3(1) and 3(2)(c): the day of the event does not count; a period of
    years ends with the last hour of the same date, or of the month where it has no such day.
    """
    leaves_on(crew, "ada", left)
    assert listed(crew, years) == {"ada": erased_from}


@pytest.mark.parametrize("years", [1, 2, 3, 4, 100])
def test_nobody_is_listed_a_day_before_the_same_date_has_passed(crew: Crew, years: int) -> None:
    """Held to the plain comparison of year, month and day, on every day around each."""
    days = [date(2027, 12, 31), date(2028, 1, 1), date(2028, 2, 28), date(2028, 2, 29), date(2028, 3, 1)]
    for place, left in enumerate(days):
        crew.joins(f"cook{place}", "cook")
        leaves_on(crew, f"cook{place}", left)
    found = listed(crew, years)
    for place, left in enumerate(days):
        kept = (left.year + years, left.month, left.day)
        around = (date(left.year + years, 1, 1) + timedelta(days=n - 10) for n in range(400))
        first = next(on for on in around if (on.year, on.month, on.day) > kept)
        assert found[f"cook{place}"] == first


def test_whoever_came_back_is_kept(crew: Crew) -> None:
    """Who is here is never listed; leaving again begins the years anew."""
    leaves_on(crew, "ada", date(2026, 3, 2))
    crew.later(days=400)
    crew.write("cook_joined", "ada", {"roles": ["cook"]})
    assert listed(crew) == {}
    leaves_on(crew, "ada", date(2028, 6, 1))
    assert listed(crew) == {"ada": date(2031, 6, 2)}


def test_a_leaving_that_was_voided_does_not_count(crew: Crew) -> None:
    """Entered by a slip: they never left."""
    left = leaves_on(crew, "ada", date(2026, 3, 2))
    crew.write("entry_voided", "ada", {"entry": left.id, "reason": "slip", "counts": "never", "leaning": []})
    assert listed(crew) == {}


def test_whoever_left_first_is_listed_first(crew: Crew) -> None:
    """With names, and the day they left."""
    leaves_on(crew, "ben", date(2026, 3, 5))
    leaves_on(crew, "ada", date(2026, 3, 9))
    found = leavers(crew.k, 3, FAR)
    assert found == (
        Leaver("ben", "Ben", date(2026, 3, 5), date(2029, 3, 6)),
        Leaver("ada", "Ada", date(2026, 3, 9), date(2029, 3, 10)),
    )


def test_everybody_is_handed_over_before_anybody_is_erased(crew: Crew) -> None:
    """One who came back after the list was made is refused, and the others are erased all the same."""
    leaves_on(crew, "ada", date(2026, 3, 2))
    leaves_on(crew, "ben", date(2026, 3, 2))
    found = leavers(crew.k, 1, FAR)
    crew.later(days=10)
    crew.write("cook_joined", "ben", {"roles": ["cook"]})
    kept: list[tuple[str, str]] = []

    def keep(one: Leaver, held: dict[str, Any]) -> None:
        assert {"ada", "ben"} <= crew.k.file.people.all().keys()
        kept.append((one.cook, held["person"]["name"]))

    (_, of_ada), (_, of_ben) = erase_leavers(crew.k, found, written(crew), keep)
    assert kept == [("ada", "Ada"), ("ben", "Ben")]
    assert saved(of_ada).body["why"] == "kept long enough"
    assert "on the roster" in english(refused(of_ben).reason)
    assert ("ada" in crew.k.file.people.all(), "ben" in crew.k.file.people.all()) == (False, True)
    assert listed(crew) == {}
    assert crew.k.file.verify().is_whole


def test_the_last_setting_holds(crew: Crew) -> None:
    """Unset at first, and again with never; the same twice is no entry."""
    assert years_kept(crew.k) is None
    for years in (5, 3, None, 4):
        entry = saved(set_years(crew.k, years, written(crew)))
        assert (entry.cook, entry.by, entry.body) == ("book", "local", {"years": years})
        assert years_kept(crew.k) == years
    again = refused(set_years(crew.k, 4, written(crew)))
    assert english(again.reason) == "It is set like that already. Nothing was changed."
    assert len(crew.entries("retention_set")) == 4


def test_a_form_sent_twice_sets_it_once(crew: Crew) -> None:
    """The second answer is the entry already there."""
    once = written(crew)
    assert saved(set_years(crew.k, 5, once)) == saved(set_years(crew.k, 5, replace(once)))


@pytest.mark.parametrize(
    ("years", "words", "spanish"),
    [
        (1, "are kept for 1 year.", "se conservan 1 año."),
        (3, "are kept for 3 years.", "se conservan 3 años."),
        (None, "are kept until somebody erases them.", "se conservan hasta que alguien los borre."),
    ],
)
def test_the_entry_is_told_in_words(years: int | None, words: str, spanish: str) -> None:
    """In both languages."""
    (line,) = LINES["retention_set"]({"years": years}, None)  # type: ignore[arg-type]
    assert english(line).endswith(words)
    assert translate(line, translations("es")).endswith(spanish)


def test_unset_it_is_a_proposal_of_three_years(run: Run, demo: Path) -> None:
    """At least three years after leaving: California Labor Code 1198.5(c)(1). Nothing is written, nobody erased."""
    cook = leaves(demo, HIRE)
    done = run("retention")
    assert done.exit_code == 0, done.output
    assert done.output.splitlines() == [
        "Names of people who left, and texts about them, are kept until somebody erases them.",
        "With 3 years, a proposal, it would be:",
        "Kept long enough: nobody",
        "Still to be kept:",
        f"  {HIRE} ({cook}): left 2026-11-25, may be erased from 2029-11-26 on",
        "Local law decides how long it must be, and may ask for longer: in California 4 years for some papers"
        " (Government Code 12946). Where a claim is open, keep everybody it is about.",
        "Nobody was erased.",
    ]
    assert entries(demo, "retention_set") == []


def test_years_are_previewed_then_set(run: Run, demo: Path) -> None:
    """A preview writes nothing; set, the list goes by it from then on, until it is never again."""
    leaves(demo, HIRE)
    preview = run("retention", "--years", "5", "--preview")
    assert (preview.exit_code, "from 2031-11-26 on" in preview.output) == (0, True)
    assert preview.output.startswith("Only a preview: Names of people who left")
    assert entries(demo, "retention_set") == []
    done = run("retention", "--years", "5")
    (entry,) = entries(demo, "retention_set")
    assert (done.exit_code, entry.body, entry.by) == (0, {"years": 5}, "local")
    assert f"Set. Entry {entry.seq} of the book says so." in done.output
    assert "from 2031-11-26 on" in run("retention").output
    assert run("retention", "--years", "never").exit_code == 0
    assert "a proposal, it would be" in run("retention", "--preview").output
    assert run("book", "verify").exit_code == 0


@pytest.mark.parametrize(("years", "is_short"), [(1, True), (2, True), (3, False), (4, False), (None, False)])
def test_fewer_than_three_years_are_taken_with_a_warning(crew: Crew, years: int | None, is_short: bool) -> None:
    """Local law decides; the program only says what some laws ask for."""
    assert (SHORT in english(law_on(years))) == is_short
    assert "Local law decides how long it must be" in english(law_on(years))
    if years is not None:
        assert saved(set_years(crew.k, years, written(crew))).body == {"years": years}


@pytest.mark.parametrize(("typed", "years"), [("1", 1), ("3", 3), ("100", 100), ("never", None)])
def test_whole_years_and_never_are_taken(typed: str, years: int | None) -> None:
    """From 1 to 100."""
    assert read_years(typed) == years


@pytest.mark.parametrize("typed", ["0", "101", "-1", "2.5", "three", "", "\u0663", "9" * 5000])
def test_other_years_are_refused(typed: str) -> None:
    """The value and the rule are named."""
    words = f"“{typed}” is not taken. Type whole years from 1 to 100, or: never. Nothing was changed."
    assert english(refused(read_years(typed)).reason) == words


def test_years_that_are_refused_change_nothing(run: Run, demo: Path) -> None:
    """Exit code 3, and no entry."""
    done = run("retention", "--years", "0")
    assert (done.exit_code, "“0” is not taken." in done.output) == (3, True), done.output
    assert entries(demo, "retention_set") == []


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        (["--years", "3", "--into"], 2, "--apply goes by the years set before."),
        (["--preview", "--into"], 2, "--apply goes by the years set before."),
        ([], 2, "Name a new folder with --into, for all that is held about them. Nobody was erased."),
        (["--into"], 3, "Nobody has set how long names are kept. Nobody was erased."),
    ],
)
def test_nobody_is_erased_unasked(run: Run, demo: Path, options: list[str], code: int, words: str) -> None:
    """Not by years that were just typed, not without a place for their papers, not where nothing was set."""
    cook, into = leaves(demo, HIRE), demo.parent / "left"
    done = run("retention", "--apply", "--yes", *options, *([str(into)] if "--into" in options else []))
    assert (done.exit_code, words in done.output, into.exists()) == (code, True, False), done.output
    assert cook in people(demo)


def people(demo: Path) -> set[str]:
    """Return the ids of all whose names are kept."""
    with closing(KitchenFile.open(demo)) as file:
        return set(file.people.all())


@pytest.fixture
def kept(run: Run, demo: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Let the new hire leave on 25 November 2026, keep names for a year, and turn the clock to its last day."""
    cook = leaves(demo, HIRE)
    assert run("retention", "--years", "1").exit_code == 0
    monkeypatch.setattr(clock, "now", lambda: NOW + timedelta(days=365))
    return cook


@pytest.fixture
def over(run: Run, kept: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """Turn the clock to the day after, and say that it is right."""
    monkeypatch.setattr(clock, "now", lambda: NOW + timedelta(days=366))
    assert run("clock", "confirm", "2027-11-26").exit_code == 0
    return kept


def test_a_clock_in_doubt_erases_nobody(run: Run, demo: Path, tmp_path: Path, kept: str) -> None:
    """Nothing was entered for a year: the date is typed first. On the last day of the year nobody is erased yet."""
    into = tmp_path / "left"
    doubted = run("retention", "--apply", "--into", str(into), "--yes")
    assert (doubted.exit_code, "clock is to be looked at first" in doubted.output) == (3, True)
    assert run("clock", "confirm", "2027-11-25").exit_code == 0
    early = run("retention", "--apply", "--into", str(into), "--yes")
    assert (early.exit_code, early.output) == (0, "Nobody left so long ago. Nobody was erased.\n")
    assert (kept in people(demo), into.exists()) == (True, False)


def test_whoever_was_kept_long_enough_is_erased(run: Run, demo: Path, tmp_path: Path, over: str) -> None:
    """After their number was typed and their papers saved; the book verifies, and boards of before keep the row."""
    into = tmp_path / "left"
    done = run("retention", "--apply", "--into", str(into), input="1\n")
    assert done.exit_code == 0, done.output
    assert f"{HIRE} ({over}): left 2026-11-25, may be erased from 2027-11-26 on" in done.output
    assert SHORT in done.output
    assert f"1 person erased.\nAll that was held about them is in {into}: hand it over, then delete it." in done.output
    held = json.loads((into / f"{over}.json").read_text(encoding="utf-8"))
    assert (held["person"]["name"], into.stat().st_mode & 0o077) == (HIRE, 0)
    (erased,) = entries(demo, "person_erased")
    assert (erased.cook, erased.by, erased.body["why"]) == (over, "local", "kept long enough")
    assert over not in people(demo)
    assert run("book", "verify").exit_code == 0
    rows = map(json.loads, run("board", "--on", "2026-11-24", "--json").output.splitlines())
    assert next(row["cook"] for row in rows if row["id"] == over) == "erased person"
    again = run("retention", "--apply", "--into", str(tmp_path / "again"), "--yes")
    assert (again.exit_code, again.output) == (0, "Nobody left so long ago. Nobody was erased.\n")


def test_another_number_typed_erases_nobody(run: Run, demo: Path, tmp_path: Path, over: str) -> None:
    """And makes no folder."""
    into = tmp_path / "left"
    done = run("retention", "--apply", "--into", str(into), input="2\n")
    assert (done.exit_code, "“2” is not 1. Nobody was erased." in done.output) == (3, True)
    assert (over in people(demo), into.exists()) == (True, False)


def test_a_folder_that_holds_anything_is_not_taken(run: Run, demo: Path, tmp_path: Path, over: str) -> None:
    """Papers of an earlier time are never mixed with these; nor is a folder taken that cannot be made."""
    (tmp_path / "mine").write_text("mine", encoding="utf-8")
    full = run("retention", "--apply", "--into", str(tmp_path), "--yes")
    assert (full.exit_code, "holds files already. Name a new folder. Nobody was erased." in full.output) == (3, True)
    below = run("retention", "--apply", "--into", str(tmp_path / "mine" / "left"), "--yes")
    assert (below.exit_code, "cannot be made (Not a directory). Nobody was erased." in below.output) == (3, True)
    assert over in people(demo)
