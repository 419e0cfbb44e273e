"""A message is a value: no text is made of it but by the printer, and no code compares it with a sentence."""

from __future__ import annotations

import copy
import json
import pickle
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import pytest

from trainer.messages import Printable, Text, Value, counted, joined, message, plural, translate, with_values

MISSING = message("{what} is missing.", what=message("milk"))


@pytest.mark.parametrize(
    "use",
    [
        lambda found: found + " Write it.",
        lambda found: "Look: " + found,
        lambda found: found[:10],
        lambda found: f"{found} Write it.",
        "{}".format,
        lambda found: "%s" % found,  # noqa: UP031 - another way to the same mistake
        str,
        json.dumps,
        lambda found: json.dumps({"text": found}),
        len,
        list,
        lambda found: " ".join([found]),
        lambda found: "milk" in found,
    ],
)
def test_no_text_is_made_of_a_message_but_by_the_printer(use: Callable[[Any], object]) -> None:
    """Adding, cutting, joining, searching, `str()` and JSON fail at once, and say what is meant instead."""
    with pytest.raises(TypeError):
        use(MISSING)


def test_a_message_is_not_kept_in_a_database() -> None:
    """The engine takes no such value."""
    with closing(sqlite3.connect(":memory:")) as book, pytest.raises(sqlite3.Error):
        book.execute("SELECT ?", (MISSING,))


@dataclass(frozen=True)
class Kept:
    """A record that holds a text."""

    text: Text


def test_a_record_of_a_message_is_not_written_as_json_by_accident() -> None:
    """`asdict` hands the message on whole, and what writes JSON refuses it."""
    assert asdict(Kept(MISSING)) == {"text": MISSING}
    with pytest.raises(TypeError, match="Message"):
        json.dumps(asdict(Kept(MISSING)))


def test_an_error_that_names_a_message_shows_how_it_is_made() -> None:
    """For anyone who reads a log."""
    with pytest.raises(TypeError, match=r"translate\(\).*message\('Milk \{n\}', n=2\)"):
        str(message("Milk {n}", n=2))  # type: ignore[misc]
    assert repr(plural("{number} egg", "{number} eggs", 2, of="a hen")) == (
        "plural('{number} egg', '{number} eggs', 2, of='a hen')"
    )


def test_a_message_equals_what_says_the_same_and_no_text() -> None:
    """Not even the text it would be printed as."""
    assert message("{what}", what="milk") == message("{what}", what="milk")
    assert message("{what}", what="milk") != message("{what}", what="egg")
    assert len({message("milk"), message("milk"), plural("egg", "eggs", 1), plural("egg", "eggs", 2)}) == 3
    assert [message("milk")] != ["milk"]  # type: ignore[comparison-overlap]


def test_a_message_never_changes_and_can_be_copied() -> None:
    """A copy of a record, and a record sent to another process, hold the same message."""
    with pytest.raises(AttributeError, match="never changes"):
        MISSING.pattern = "x"
    assert copy.deepcopy({"text": MISSING})["text"] is MISSING
    assert pickle.loads(pickle.dumps(MISSING)) == copy.copy(MISSING) == MISSING  # noqa: S301 - our own bytes


def test_texts_joined_keep_their_parts() -> None:
    """Plain texts make a plain text, one text is itself, and nothing is nothing."""
    assert joined([message("Milk"), "egg"], ", ") == message("{part0}, {part1}", part0=message("Milk"), part1="egg")
    assert (joined(["milk", "egg"], ", "), joined([MISSING]), joined([])) == ("milk, egg", MISSING, "")


def test_a_table_of_words_is_counted_later() -> None:
    """What counts nothing stays as it is."""
    assert counted(plural("egg", "eggs", 1), 3) == plural("egg", "eggs", 3)
    assert counted(message("dozen"), 3) == message("dozen")


@dataclass(frozen=True)
class Named:
    """A value that knows its own text."""

    name: str

    def as_text(self) -> Text:
        """Return the name."""
        return self.name


def test_a_value_that_knows_its_own_text_is_printed_or_replaced() -> None:
    """However deep it stands; a reader may know the same thing by another name."""

    def in_spanish(value: Printable) -> Value:
        return Named("la parrilla") if value == Named("grill") else value

    text = message("Off: {stations}.", stations=joined([Named("grill"), message("today")]))
    assert translate(text) == "Off: grill today."
    assert translate(with_values(text, in_spanish)) == "Off: la parrilla today."
    assert with_values("grill", in_spanish) == "grill"


WRONG = """
from trainer.messages import Message, Text, message

def use(text: Text, found: Message) -> None:
    text + "x"
    found + "x"
    found == "x"
    text.strip()
    text[0]
    "x" in text
    f"{text}"
    str(found)
    print(text)
    kept: str = found
"""


def test_a_type_checker_refuses_all_of_it(tmp_path: Path) -> None:
    """Every line of the function is an error before anything runs: one reported a line."""
    wrong = tmp_path / "wrong.py"
    wrong.write_text(WRONG, encoding="utf-8")
    settings = str(Path(__file__).parents[2] / "pyproject.toml")
    call = [sys.executable, "-m", "mypy", "--config-file", settings, "--cache-dir", str(tmp_path / "cache"), str(wrong)]
    done = subprocess.run(call, capture_output=True, text=True, check=False)
    first = WRONG.splitlines().index('    text + "x"') + 1
    lines = {int(line.split(":")[1]) for line in done.stdout.splitlines() if line.startswith(str(wrong))}
    assert done.returncode == 1
    assert lines == set(range(first, first + 10)), done.stdout
