"""A person who has left is erased: what tells who they were goes, what the book says of their work stays."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.actions.crew import NOON, Crew, crew_in, entered, refused, saved
from tests.printed import english
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.erasing import Erasure, erase_person, export_of, held_about
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome
from trainer.actions.people_on_record import ProofOfAge, Written, see_age
from trainer.actions.standing import Leaving, TakenOff, cook_leaves, take_off
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.papers import PERSON_ERASED, TEXT_ERASED
from trainer.store.kitchen_file import KitchenFile
from trainer.store.people import Secret

REASON = "Cut a thumb at the slicer, asked Xaviera to go home"
WHY_LEFT = "Moved to Duluth"


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """Return the crew; Tim, under 18, was stood down, showed a certificate, was watched with a note, and has left."""
    crew = crew_in(tmp_path / "kitchen")
    k = crew.k
    crew.joins("tim", "cook", born=None)
    k.file.people.change(replace(k.people()["tim"], name="Timothy Quillfeather"))
    entered(crew, see_age(k, proof=ProofOfAge("tim", date(2008, 4, 1), "licence"), written=written(crew)))
    practical = crew.begins_practical("tim")
    crew.sees(practical)
    saved(crew.signs(practical, note="Steady hands, left-handed"))
    off = TakenOff("tim", ("cold_side",), "seen", REASON)
    saved(take_off(k, by="mara", off=off, now=crew.later(days=1), key=crew.key()))
    crew.k.content = replace(k.content)
    paper = Paper("tim", "first_aid", "FA-77-1234", date(2026, 1, 1), None)
    saved(show_certificate(k, by="mara", paper=paper, now=crew.later(days=1), key=crew.key()))
    k.file.people.set_secret("tim", Secret("hash-of-tim", "pin", must_change=False))
    leaving = Leaving("tim", WHY_LEFT)
    saved(cook_leaves(k, by="mara", leaving=leaving, now=crew.later(days=30), key=crew.key()))
    crew.later(days=1)
    return crew


def written(crew: Crew, by: str = "mara") -> Written:
    """Return what a manager writes now."""
    return Written(by, crew.now, crew.key())


def erased(crew: Crew, cook: str = "tim", by: str = "mara") -> Outcome:
    """Erase a person."""
    return erase_person(crew.k, erasure=Erasure(cook, "asked for it"), written=written(crew, by))


def cells(k: Kitchen, days: int = 34) -> list[Any]:
    """Return every cell of every board from the first day on: state, what is missing, until when, by which entries."""
    boards = (k.board(date(2026, 3, 2) + timedelta(days=n)) for n in range(days))
    return [
        (row.cook.id, each.station, each.on, each.state, [m.what for m in each.missing], each.until, each.proof)
        for board in boards
        for row in board.rows
        for each in row.clearances
    ]


def bytes_on_disk(folder: Path) -> bytes:
    """Return the bytes of every file of a kitchen."""
    return b"".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())


def test_every_cell_of_every_board_stays(crew: Crew) -> None:
    """Also those of a minor, whose birth date is gone: on the day, under another word."""
    before, names = cells(crew.k), {row.cook.name for row in crew.k.board(date(2026, 3, 5)).rows}
    saved(erased(crew))
    assert sorted(map(repr, cells(crew.k))) == sorted(map(repr, before))
    after = {row.cook.name for row in crew.k.board(date(2026, 3, 5)).rows}
    assert names - after == {"Timothy Quillfeather"}
    assert after - names == {PERSON_ERASED}
    opened_again = Kitchen(KitchenFile.open(crew.k.file.folder), crew.k.content)
    assert sorted(map(repr, cells(opened_again))) == sorted(map(repr, before))
    opened_again.file.close()


def test_the_book_is_whole_and_says_what_was_dropped(crew: Crew) -> None:
    """Each text about the person has an entry that it went, verify says when; the name was written down just before."""
    texts = held_about(crew.k, "tim").texts
    assert len(texts) >= 5
    entry = saved(erased(crew))
    found = crew.k.file.verify()
    assert found.problems == ()
    assert found.kitchens[0].dropped == ((entry.day.isoformat(), len(texts) + 1),)
    dropped = crew.k.file.book.of_kind("paper_dropped")
    assert {each.body["because"] for each in dropped} == {entry.id}
    assert set(texts) <= {each.body["digest"] for each in dropped}
    assert held_about(crew.k, "tim").texts == ()


def test_nothing_that_tells_who_it_was_is_on_the_disk_any_more(crew: Crew) -> None:
    """Neither name, birth date, secret nor what was written, in the file or its journal: looked for byte by byte."""
    told = [b"Quillfeather", b"2008-04-01", b"hash-of-tim", b"left-handed", b"FA-77-1234"]
    told += [REASON.encode(), WHY_LEFT.encode()]
    folder = crew.k.file.folder
    there = bytes_on_disk(folder)
    assert [words for words in told if words not in there] == []
    saved(erased(crew))
    there = bytes_on_disk(folder)
    assert [words for words in told if words in there] == []


def test_what_was_written_reads_as_erased(crew: Crew) -> None:
    """On every page and board that told it, for this process and any other; what others wrote of others stays."""
    k = crew.k
    off = TakenOff("ada", ("cold_side",), "seen", "Sent home early")
    saved(take_off(k, by="mara", off=off, now=crew.now, key=crew.key()))
    other = Kitchen(KitchenFile.open(k.file.folder), k.content)
    assert other.progress().record("tim").stood_down[0].reason == REASON
    saved(erased(crew))
    for each in (k, other):
        assert each.progress().record("tim").stood_down[0].reason == TEXT_ERASED
        assert each.progress().record("ada").stood_down[0].reason == "Sent home early"
    kinds = {entry.kind: entry.body for entry in k.file.book.since(0) if entry.cook == "tim"}
    assert kinds["cook_left"]["reason"] == TEXT_ERASED
    assert kinds["practical_watched"]["note"] == TEXT_ERASED
    assert kinds["certificate_shown"]["number"] == TEXT_ERASED
    other.file.close()


def test_the_export_proves_which_entries_were_theirs(crew: Crew) -> None:
    """Worked out again by the standard library from the file alone: each digest in the book, and each entry's hash.

    SHA-256 of the texts (FIPS 180-4), and of the JSON array of an entry's columns, as the store's own document says.
    """
    export = json.loads(json.dumps(export_of(crew.k, "tim", crew.now)))
    saved(erased(crew))
    with closing(sqlite3.connect(crew.k.file.path)) as file:
        rows = file.execute("SELECT body, hash FROM book WHERE cook = 'tim'").fetchall()
        assert file.execute("SELECT count(*) FROM people WHERE id = 'tim'").fetchone() == (0,)
    hashes = {own_hash for _, own_hash in rows}
    for entry in export["entries"]:
        line = json.dumps(entry["columns"], ensure_ascii=False, separators=(",", ":"))
        assert hashlib.sha256(line.encode()).hexdigest() == entry["hash"]
        assert entry["hash"] in hashes
    bodies = "".join(body for body, _ in rows)
    for digest, text in export["papers"].items():
        assert hashlib.sha256(text.encode()).hexdigest() == digest
        assert digest in bodies
    texts = [json.loads(text) for text in export["papers"].values()]
    assert {"2008-04-01"} == {text["born"] for text in texts if "born" in text}
    assert {REASON, WHY_LEFT} <= {text["text"] for text in texts if "text" in text}
    assert export["person"]["name"] == "Timothy Quillfeather"


@pytest.mark.parametrize(
    ("cook", "by", "words", "who_can"),
    [
        ("tim", "ada", "Only a manager", "A manager can do this."),
        ("mara", "mara", "Nobody erases themselves", "Another manager can do this."),
        ("ada", "mara", "Ada is on the roster", "Take Ada off the roster first."),
        ("ada", "local", "Ada is on the roster", "Take Ada off the roster first."),
        ("nobody", "mara", "no such person", ""),
    ],
)
def test_who_cannot_be_erased(crew: Crew, cook: str, by: str, words: str, who_can: str) -> None:
    """With why, and what comes first; nothing is written, and everybody stays."""
    end, people = crew.k.file.book.end(), crew.k.file.people.listed()
    refusal = refused(erased(crew, cook, by))
    assert words in english(refusal.reason)
    assert english(refusal.who_can) == who_can
    assert (crew.k.file.book.end(), crew.k.file.people.listed()) == (end, people)


def test_the_last_manager_stays(crew: Crew) -> None:
    """Even at the machine itself: somebody else becomes manager first."""
    leaving = Leaving("nils", "retired")
    saved(cook_leaves(crew.k, by="mara", leaving=leaving, now=crew.now, key=crew.key()))
    refusal = refused(erased(crew, "mara", "local"))
    assert english(refusal.reason) == "Mara is the only manager. Somebody else becomes manager first."


def test_nobody_is_erased_twice(crew: Crew) -> None:
    """The same form again is the entry already there; another one is refused."""
    same = Written("mara", crew.now, "erase-1")
    first = saved(erase_person(crew.k, erasure=Erasure("tim", "asked for it"), written=same))
    assert saved(erase_person(crew.k, erasure=Erasure("tim", "asked for it"), written=same)).id == first.id
    assert "erased already" in english(refused(erased(crew)).reason)


def test_all_of_it_or_nothing(crew: Crew, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that fills up in the middle leaves name, texts and book as they were."""
    before = (crew.k.file.book.end(), crew.k.file.people.listed(), held_about(crew.k, "tim"))

    def full(*_: object) -> None:
        raise OSError("full")

    monkeypatch.setattr(type(crew.k.file.people), "erase", full)
    with pytest.raises(OSError, match="full"):
        erased(crew)
    assert (crew.k.file.book.end(), crew.k.file.people.listed(), held_about(crew.k, "tim")) == before


def test_a_text_taken_away_behind_the_books_back_is_a_problem(crew: Crew) -> None:
    """At the entry that names it; one that was dropped and is still there is one as well."""
    with closing(sqlite3.connect(crew.k.file.path)) as file, file:
        file.execute("DELETE FROM papers WHERE instr(bytes, ?)", (WHY_LEFT.encode(),))
    (left,) = crew.k.file.book.of_kind("cook_left")
    found = crew.k.file.verify()
    assert [(each.seq, "not there any more" in english(each.problem)) for each in found.problems] == [(left.seq, True)]
    assert left.body["reason"] == TEXT_ERASED


def test_a_dropped_text_put_back_is_a_problem(crew: Crew) -> None:
    """An old copy of the texts laid over the new ones is found out."""
    (left,) = crew.k.file.book.of_kind("cook_left")
    export = export_of(crew.k, "tim", crew.now)
    saved(erased(crew))
    digest, text = next((d, t) for d, t in export["papers"].items() if WHY_LEFT in t)
    with closing(sqlite3.connect(crew.k.file.path)) as file, file:
        sql = "INSERT INTO papers (kitchen, hash, bytes) VALUES (?, ?, ?)"
        file.execute(sql, (left.kitchen, digest, text.encode()))
    (problem,) = crew.k.file.verify().problems
    assert "still there" in english(problem.problem)


def test_texts_of_older_entries_stay_and_are_counted(tmp_path: Path) -> None:
    """An older program wrote them into the book itself; an empty one is none."""
    crew = crew_in(tmp_path / "kitchen")
    kept_whole: Callable[..., Any] = lambda kind, body, salt: (dict(body), ())  # noqa: E731
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("trainer.store.book.texts_apart", kept_whole)
        crew.write("stood_down", "ada", {"station": "cold_side", "reason": "an old reason"})
        note = {"points": [{"point": "a", "seen": "not yet", "note": "an old note"}], "note": ""}
        body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "verdict": "not yet", "reasons": []}
        crew.write("practical_watched", "ada", {**body, **note})
    assert held_about(crew.k, "ada").older_texts == 2
    assert crew.k.progress().record("ada").stood_down[0].reason == "an old reason"


def test_a_form_sent_twice_is_one_entry_though_its_text_is_kept_apart(crew: Crew) -> None:
    """A new salt is drawn for each try, and what was written is the same."""
    deed = NewEntry("restored", crew.now, "ada", "mara", {"station": "grill", "reason": "well again"}, "again")
    first: Entry = crew.k.file.book.append(deed)
    assert crew.k.file.book.append(deed).id == first.id
    assert first.body == {"station": "grill", "reason": "well again"}
    assert first.at > NOON
