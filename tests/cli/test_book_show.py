"""One entry at the command line, with the texts it names and every look of a practical."""

from __future__ import annotations

import hashlib
import json
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from tests.actions.crew import Crew, crew_in, saved
from tests.cli.conftest import Run
from trainer.actions.sitting import finish_sitting
from trainer.actions.watching import Look
from trainer.cli import trainer
from trainer.kitchen.book import Entry, canonical
from trainer.store.kitchen_file import KitchenFile


def show(crew: Crew, *args: str) -> Result:
    """Run the command on the crew's kitchen."""
    crew.k.file.close()
    return CliRunner().invoke(trainer, ["--kitchen", str(crew.k.file.folder), "book", "show", *args])


def as_json(crew: Crew, entry: Entry) -> dict[str, Any]:
    """Return what the command prints of an entry as JSON."""
    result = show(crew, entry.id, "--json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """Return the crew in a kitchen of its own."""
    return crew_in(tmp_path / "kitchen")


def seen_twice(crew: Crew) -> Entry:
    """Sign a practical in which one point was seen short at noon and met ten minutes later."""
    practical = crew.begins_practical()
    crew.sees(practical)
    crew.sees(practical, Look("boil", None, ("2 min",), "slow gas"))
    crew.later(minutes=10)
    crew.sees(practical, Look("boil", None, ("85 s",)))
    return saved(crew.signs(practical))


def test_a_practical_is_shown_with_both_looks_and_their_times(crew: Crew) -> None:
    """As the kitchen's clock had it, with readings and note; in JSON with numbers, units and the moment in UTC."""
    entry = seen_twice(crew)
    looks = next(point["looks"] for point in as_json(crew, entry)["body"]["points"] if point["point"] == "boil")
    assert [(look["at"], look["readings"]) for look in looks[1:]] == [
        ("2026-03-02T17:00:00.000Z", [["2", "min", "2 min"]]),
        ("2026-03-02T17:10:00.000Z", [["85", "s", "85 s"]]),
    ]
    text = show(crew, entry.id).output
    assert "point boil: boiled in time" in text
    assert "  2026-03-02 12:00:00 EST, by sous: not yet (2 min). Note: slow gas\n" in text
    assert "  2026-03-02 12:10:00 EST, by sous: meets it (85 s)\n" in text


def test_every_column_is_there(crew: Crew) -> None:
    """Those of the table, the body read."""
    entry = seen_twice(crew)
    found = as_json(crew, entry)
    names = "kitchen seq id kind at day happened cook by device body key previous hash edition papers"
    assert sorted(found) == sorted(names.split())
    assert (found["seq"], found["cook"], found["by"], found["edition"]) == (entry.seq, "ada", "sous", 2)


def test_the_texts_of_a_quiz_are_resolved(crew: Crew) -> None:
    """Each under its digest, which is the SHA-256 of what is kept; what was read stands there."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    entry = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    digest = entry.body["shown"]
    kept = crew.k.file.book.paper(digest)
    assert kept is not None
    assert hashlib.sha256(kept).hexdigest() == digest
    papers = as_json(crew, entry)["papers"]
    assert list(papers) == [digest]
    assert papers[digest]["title"] == "Fresh pasta"
    assert [one["language"] for one in papers[digest]["questions"]] == ["en"] * 4
    assert papers[digest]["questions"][0]["text"] in show(crew, entry.id).output.replace('\\"', '"')


def test_an_entry_is_shown_by_its_number_too(crew: Crew) -> None:
    """Pages print the number; a number of no entry is refused like any other name."""
    entry = seen_twice(crew)
    assert json.loads(show(crew, str(entry.seq), "--json").output)["id"] == entry.id
    assert show(crew, "9" * 30).exit_code == show(crew, str(entry.seq + 1)).exit_code == 3


def test_an_entry_that_is_not_there_is_named(crew: Crew) -> None:
    """Refused, with what was typed."""
    result = show(crew, "nobody")
    assert (result.exit_code, "There is no entry 'nobody' in this book." in result.output) == (3, True)


def test_the_demo_keeps_practicals_and_answers_small(run: Run, demo: Path) -> None:
    """No practical over 10 kB, no answer over 1 kB, in eighteen months that were played; one of them shown."""
    with closing(KitchenFile.open(demo)) as file:
        practicals, answered = file.book.of_kind("practical_watched"), file.book.of_kind("answered")
        papers = [len(file.book.paper(entry.body["shown"]) or b"") for entry in answered]
    sizes = [len(canonical(entry.body).encode()) for entry in practicals]
    answers = [len(canonical(entry.body).encode()) for entry in answered]
    print(f"\npracticals {len(sizes)}: mean {sum(sizes) / len(sizes):.0f}, most {max(sizes)} bytes")
    print(f"answers {len(answers)}: mean {sum(answers) / len(answers):.0f}, most {max(answers)} bytes")
    print(f"papers {len(papers)}: mean {sum(papers) / len(papers):.0f}, most {max(papers)} bytes")
    assert (max(sizes) <= 10_000, max(answers) <= 1_000) == (True, True)
    assert min(papers) > 0
    assert run("book", "show", practicals[-1].id, "--json").exit_code == 0
