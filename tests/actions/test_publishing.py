"""A standard is published: previewed with its cost, in force from its day, and nothing before that day changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.actions.crew import TODAY, crew_in, refused, saved
from tests.printed import english
from tests.store.small_kitchen import change, small_kitchen
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.publishing import NOTHING_NEW, Preview, Publishing, preview, publish
from trainer.actions.teaching import Draft, Teaching, draft_in
from trainer.actions.upgrading import needs_upgrade, upgrade
from trainer.kitchen.book import Entry
from trainer.kitchen.standard_cost import cost_words

STRUCTURE, WORDS = "techniques/rolling/technique.yaml", "techniques/rolling/en.yaml"
TOMORROW = TODAY + timedelta(days=1)


class Bakery:
    """A crew whose kitchen teaches from a folder of files, with Ada cleared at its one station."""

    def __init__(self, room: Path) -> None:
        self.drafts = small_kitchen(room / "content")
        self.crew = crew_in(room / "kitchen", draft_in(self.drafts, "us").content)
        self._clear("ada")
        self.k = Kitchen(self.crew.k.file, teaching=Teaching(self.crew.k.file, self.drafts))
        assert needs_upgrade(self.k)
        assert upgrade(self.k, draft=self.draft(), now=self.crew.now)

    def _clear(self, cook: str) -> None:
        sat = {"technique": "rolling", "edition": 2, "seed": 1, "grader": 5, "questions": [], "right": 3, "asked": 3}
        self.crew.write("technique_read", cook, {"technique": "rolling", "edition": 2})
        self.crew.write("quiz_sat", cook, {**sat, "need": 3, "passed": True, "safety_percent": 70})
        watched = {"technique": "rolling", "edition": 2, "station": "bench", "points": [], "verdict": "meets it"}
        self.crew.write("practical_watched", cook, {**watched, "reasons": [], "note": ""})
        paper = {"certificate": "food_handler", "number": "1", "issued": "2026-01-02", "expires": None}
        self.crew.write("certificate_shown", cook, paper)
        worked = {"station": "bench", "worked_on": "2026-03-01", "beside": "sous", "guests": 40}
        for sitting in ("lunch", "dinner"):
            self.crew.write("shift_worked", cook, {**worked, "sitting": sitting})

    def draft(self) -> Draft:
        """Return the files as they are now."""
        return draft_in(self.drafts, "us")

    def change(self, file: str, old: str, new: str) -> None:
        """Edit a file."""
        change(self.drafts, file, old, new)

    def ends_sign_offs(self) -> None:
        """Add an edition that asks everybody for everything again."""
        last = "sign_offs_hold: no}\n"
        third = f"{last}  - {{number: 3, since: 2026-03-01, changed: A new board., sign_offs_hold: no}}\n"
        self.change(STRUCTURE, last, third)

    def previews(self, since: date | None = None) -> Preview:
        """Return the preview of the files as they are."""
        found = preview(self.k, draft=self.draft(), since=since, now=self.crew.now)
        assert isinstance(found, Preview), found
        return found

    def publishes(self, since: date | None = None, by: str = "mara") -> Entry:
        """Look at the preview, and publish."""
        publishing = Publishing(self.draft(), since, self.previews(since).digest)
        return saved(publish(self.k, by=by, publishing=publishing, now=self.crew.now, key=self.crew.key()))

    def state(self, on: date, cook: str = "ada") -> str:
        """Return what the board of a day says of a cook at the first station."""
        row = next(row for row in self.k.board(on).rows if row.cook.id == cook)
        return row.clearances[0].state


@pytest.fixture
def bakery(tmp_path: Path) -> Iterator[Bakery]:
    """Return the bakery."""
    found = Bakery(tmp_path)
    found.k.today(found.crew.now)
    yield found
    found.k.file.close()


def test_files_that_are_what_was_published_have_nothing_to_publish(bakery: Bakery) -> None:
    """No second standard that says the same."""
    assert preview(bakery.k, draft=bakery.draft(), since=None, now=bakery.crew.now) == NOTHING_NEW


def test_a_change_of_words_costs_nobody_anything(bakery: Bakery) -> None:
    """Nothing that is asked or measured differs; it is published all the same, as a standard of its own."""
    bakery.change(WORDS, "Roll from the middle.", "Roll out from the middle.")
    found = bakery.previews()
    assert (found.is_words_only, found.paths, found.cost.losses) == (True, (WORDS,), ())
    assert bakery.publishes().body["number"] == 2
    assert bakery.k.content.techniques["rolling"].steps[0].text == "Roll out from the middle."


def test_a_preview_says_who_loses_what_and_the_work_to_bring_it_back(bakery: Bakery) -> None:
    """One cook: 2 steps at 25 seconds to read, one practical of 15 minutes; the quiz stays. By hand: 950 s, 16 min."""
    bakery.ends_sign_offs()
    found = bakery.previews(TOMORROW)
    counts = {"cooks": 1, "clearances": 1, "readings": 1, "questions": 0, "practicals": 1, "minutes": 16}
    assert dict(found.cost.counts) == counts
    assert [each.what for each in found.cost.losses[0].missing] == ["reading:rolling", "practical:rolling"]
    assert [dict(each) for each in found.asks] == [
        {"technique": "rolling", "edition": 3, "anew": "practical", "by": "2026-03-03"}
    ]
    words = english(cost_words(found.cost, found.since))
    assert words == "Publishing costs 1 clearance of 1 person from 3 March 2026; 16 minutes to bring back."


def test_a_standard_counts_from_its_day_and_never_before(bakery: Bakery) -> None:
    """An edition typed with a day that has gone by: nobody lapses before the standard's own first day."""
    assert bakery.state(TODAY) == "cleared"
    bakery.ends_sign_offs()
    assert bakery.state(TODAY) == "cleared"
    bakery.publishes(TOMORROW)
    assert bakery.state(TODAY) == "due again"
    assert bakery.state(TOMORROW) == "lapsed"
    row = next(row for row in bakery.k.board(TOMORROW).rows if row.cook.id == "ada")
    assert row.clearances[0].until == TODAY


def test_what_is_taught_changes_with_the_day_and_not_with_the_file(bakery: Bakery) -> None:
    """The words published for tomorrow are taught tomorrow."""
    bakery.change(WORDS, "title: Rolling", "title: Rolling by hand")
    bakery.publishes(TOMORROW)
    assert bakery.k.content.techniques["rolling"].title == "Rolling"
    bakery.k.today(bakery.crew.later(days=1))
    assert bakery.k.content.techniques["rolling"].title == "Rolling by hand"
    assert bakery.k.content_on(TODAY, "en", "us").techniques["rolling"].title == "Rolling"


def test_a_station_taken_out_stays_on_the_boards_of_its_days(bakery: Bakery) -> None:
    """Its clearances are lost from the new day on, and the preview says so."""
    (bakery.drafts / "stations/bench.yaml").rename(bakery.drafts / "stations/table.yaml")
    found = bakery.previews(TOMORROW)
    assert [(loss.cook, loss.station, loss.missing) for loss in found.cost.losses] == [("ada", "bench", ())]
    bakery.publishes(TOMORROW)
    assert [station.id for station in bakery.k.board(TODAY).stations] == ["bench"]
    assert [station.id for station in bakery.k.board(TOMORROW).stations] == ["table"]


def test_no_standard_begins_on_a_day_that_has_gone_by(bakery: Bakery) -> None:
    """The past is not to be rewritten."""
    bakery.change(WORDS, "Roll from the middle.", "Roll out from the middle.")
    found = refused(preview(bakery.k, draft=bakery.draft(), since=TODAY - timedelta(days=1), now=bakery.crew.now))
    assert found.field == "since"
    assert "1 March" in english(found.reason)


def test_files_changed_after_the_preview_are_looked_at_again(bakery: Bakery) -> None:
    """What is published is what was shown."""
    bakery.ends_sign_offs()
    seen = bakery.previews().digest
    bakery.change(STRUCTURE, "sign_off_months: 12", "sign_off_months: 1")
    publishing = Publishing(bakery.draft(), None, seen)
    found = refused(publish(bakery.k, by="mara", publishing=publishing, now=bakery.crew.now, key="late"))
    assert "changed since the preview" in english(found.reason)
    assert len(bakery.k.progress().standards.published) == 1


def test_a_cook_publishes_nothing(bakery: Bakery) -> None:
    """A manager does, or whoever works on the machine itself."""
    bakery.ends_sign_offs()
    publishing = Publishing(bakery.draft())
    refused(publish(bakery.k, by="sous", publishing=publishing, now=bakery.crew.now, key="sous"))
    saved(publish(bakery.k, by="local", publishing=publishing, now=bakery.crew.now, key="local"))


def test_a_form_sent_twice_publishes_once(bakery: Bakery) -> None:
    """The same key gives the entry already there."""
    bakery.ends_sign_offs()
    publishing = Publishing(bakery.draft())
    first, second = (
        saved(publish(bakery.k, by="mara", publishing=publishing, now=bakery.crew.now, key="one")) for _ in range(2)
    )
    assert first.id == second.id


def test_files_with_a_fault_are_not_published(bakery: Bakery) -> None:
    """A technique that would be left out would take its stations with it."""
    bakery.change(STRUCTURE, "scored_needed: 1", "scored_needed: 9")
    found = refused(preview(bakery.k, draft=bakery.draft(), since=None, now=bakery.crew.now))
    assert "trainer content check" in english(found.who_can)


def test_drafted_files_are_named_and_nothing_else(bakery: Bakery) -> None:
    """A README beside them is no draft; a file put back as it was is none either."""
    teaching = bakery.k.teaching
    assert teaching is not None
    texts = bakery.k.texts_on(TODAY)
    (bakery.drafts / "README.md").write_text("ours")
    assert teaching.drafted(texts).paths == ()
    bakery.change(WORDS, "Roll from", "Roll out from")
    assert teaching.drafted(texts).paths == (WORDS,)
    bakery.change(WORDS, "Roll out from", "Roll from")
    assert teaching.drafted(texts).paths == ()


def test_texts_laid_out_are_those_of_the_book_whatever_lies_there(bakery: Bakery) -> None:
    """The folder is taken for a copy, and never believed: a changed file in it is put right at the next start."""
    assert bakery.k.content.techniques["rolling"].title == "Rolling"
    words = bakery.k.drawings / WORDS
    words.write_text(words.read_text().replace("title: Rolling", "title: Nonsense"))
    again = Kitchen(bakery.k.file, teaching=Teaching(bakery.k.file, bakery.drafts))
    again.today(bakery.crew.now)
    assert again.content.techniques["rolling"].title == "Rolling"


def test_rules_are_judged_by_even_where_a_text_is_gone(bakery: Bakery) -> None:
    """A station never disappears because its words cannot be read: it is called by its id then."""
    before = bakery.state(TODAY)
    gone = replace(bakery.draft(), texts=replace(bakery.draft().texts, by_path={}))
    assert gone.digest != bakery.draft().digest
    k = Kitchen(bakery.k.file, teaching=Nothing(bakery.k.file, bakery.drafts))
    k.today(bakery.crew.now)
    assert [station.title for station in k.content.stations.values()] == ["bench"]
    assert k.board(TODAY).rows[0].clearances[0].state == before


class Nothing(Teaching):
    """Cannot read a text."""

    def read(self, texts: str, language: str, units: str) -> None:
        """Return nothing."""


def test_the_first_standard_of_an_older_book_holds_for_every_day_before(bakery: Bakery) -> None:
    """What was asked then was not kept; the body says so."""
    first = bakery.k.file.book.of_kind("standard_published")[0]
    assert first.body["not_kept_before"] is True
    assert bakery.k.progress().standards.in_force(date(2025, 1, 1)) is not None
    assert upgrade(bakery.k, draft=bakery.draft(), now=bakery.crew.now) == 0


def test_a_new_age_is_worked_out_for_everybody_with_a_birth_date(bakery: Bakery) -> None:
    """A station that asks for 40 years: Ada, born on 5 May 1990, is barred until 5 May 2030, by the book alone."""
    bakery.change("stations/bench.yaml", "minimum_age: 16", "minimum_age: 40")
    assert [loss.cook for loss in bakery.previews().cost.losses] == ["ada"]
    bakery.publishes()
    ages = [entry for entry in bakery.k.file.book.of_kind("age_seen") if entry.cook == "ada"]
    assert {"years": 40, "from": "2030-05-05"} in ages[-1].body["bars"]
    assert bakery.state(TODAY) == "not allowed"
