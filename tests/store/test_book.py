"""The record book takes entries at its end, once each, and changes none."""

from __future__ import annotations

import hashlib
import sqlite3
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tests.store.kitchens import NOON, deed, fill, new_kitchen
from trainer.kitchen.book import FIRST, canonical, entry_hash
from trainer.store.connections import engine
from trainer.store.identity import new_id, token_hash
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import BookRefuses, KeyReused

SAID = 'kind, at, day, happened, cook, "by", device, body'
COPY_LAST = f"id, {SAID}, key, previous, hash, edition FROM book WHERE seq = 2"


def test_the_first_entry_has_seq_1_and_follows_64_zeros(tmp_path: Path) -> None:
    """The book begins at 1, after a hash of zeros."""
    entry = new_kitchen(tmp_path).book.append(deed(1))
    assert (entry.seq, entry.previous) == (1, "0" * 64)


def test_each_entry_names_the_hash_of_the_one_before_it(tmp_path: Path) -> None:
    """Entries are chained."""
    book = new_kitchen(tmp_path).book
    first, second = book.append(deed(1)), book.append(deed(2))
    assert second.previous == first.hash


def test_an_entry_comes_back_as_it_was_written(tmp_path: Path) -> None:
    """What is read equals what append returned, after the file was closed and opened again."""
    file = new_kitchen(tmp_path)
    written = [file.book.append(deed(n, note="Zoë said “no”\n\x00\U0001f35d", list=[1, None, True])) for n in (1, 2)]
    file.close()
    again = KitchenFile.open(tmp_path)
    assert again.book.since(0) == written
    assert again.book.since(1) == written[1:]
    assert again.book.find(written[0].id) == written[0]
    assert again.book.find_key("key-2") == written[1]
    assert again.book.find("nobody") is None


def test_entries_are_told_by_number_in_the_order_named(tmp_path: Path) -> None:
    """However many are named, each has its number; one that is not in the book is passed over."""
    book = new_kitchen(tmp_path).book
    ids = [book.append(deed(n)).id for n in range(1, 4)]
    assert book.numbers_of([ids[2], "nobody", ids[0]]) == [3, 1]
    assert book.numbers_of([*ids, *("nobody" for _ in range(40_000))]) == [1, 2, 3]
    assert book.numbers_of([]) == []


def test_the_hash_is_sha_256_over_every_column_in_order(tmp_path: Path) -> None:
    """A hand-written JSON line of the columns, hashed by hashlib, gives the entry's hash."""
    file = new_kitchen(tmp_path, kitchen="k1")
    entry = file.book.append(replace(deed(1, technique="saute", edition=2), key="a-key"))
    line = (
        f'["2","k1","1","{entry.id}","technique_read","2026-11-25T12:01:00.000Z","2026-11-25","2026-11-25","ana","ana",'
        '"local","{\\"edition\\":2,\\"technique\\":\\"saute\\",\\"v\\":2}","a-key","' + "0" * 64 + '"]'
    )
    assert entry.hash == hashlib.sha256(line.encode()).hexdigest()


def test_sha_256_of_abc_is_the_published_one() -> None:
    """FIPS 180-4, SHA-256 example: the one-block message "abc" (NIST, Examples with Intermediate Values)."""
    assert token_hash("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_changed_column_changes_the_hash() -> None:
    """No column is left out, and no text can move from one column into the next."""
    columns = ["2", "k", "1", "id", "kind", "at", "day", "day", "cook", "by", "local", "{}", "key", FIRST]
    hashes = {entry_hash([*columns[:n], columns[n] + "x", *columns[n + 1 :]]) for n in range(len(columns))}
    assert len(hashes | {entry_hash(columns)}) == 15
    assert entry_hash(["ab", "c"]) != entry_hash(["a", "bc"])


def test_strings_are_escaped_as_rfc_8785_shows() -> None:
    """RFC 8785, section 3.2.2.2, and the sample of 3.2.2: only what JSON must escape is escaped, in lower case."""
    assert canonical({"string": "\u20ac$\u000f\u000aA'\u0042\u0022\u005c\\\"/"}) == (
        '{"string":"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
    )
    assert canonical({"literals": [None, True, False]}) == '{"literals":[null,true,false]}'


def test_names_are_sorted_as_rfc_8785_shows() -> None:
    """RFC 8785, section 3.2.3, the sample without its two names beyond our ASCII names' reach."""
    sample = {"\u20ac": 1, "\r": 2, "1": 3, "\u0080": 4, "\u00f6": 5}
    assert canonical(sample) == '{"\\r":2,"1":3,"\u0080":4,"\u00f6":5,"\u20ac":1}'


def test_the_same_key_with_the_same_content_writes_nothing_new(tmp_path: Path) -> None:
    """A deed sent twice, the second time later, is one entry."""
    book = new_kitchen(tmp_path).book
    first = book.append(deed(1))
    assert book.append(replace(deed(1), at=NOON.replace(hour=23))) == first
    assert len(book.since(0)) == 1


@pytest.mark.parametrize("other", [{"cook": "bo"}, {"by": "bo"}, {"kind": "watch_asked"}, {"body": {"edition": 9}}])
def test_the_same_key_with_other_content_is_refused(tmp_path: Path, other: dict[str, Any]) -> None:
    """A key names one deed and no other."""
    book = new_kitchen(tmp_path).book
    book.append(deed(1))
    with pytest.raises(KeyReused, match="key-1"):
        book.append(replace(deed(1), **other))


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"body": {"grams": 1.5}}, "whole numbers"),
        ({"body": {"half": "\ud800"}}, "half a character"),
        ({"body": {"long": "x" * 1_000_001}}, "at most 1000000 bytes"),
        ({"body": {1: "x"}}, "whole numbers"),
        ({"key": ""}, "key has 1 to 200"),
        ({"cook": "a\nb"}, "cook has 1 to 200"),
        ({"at": NOON.replace(tzinfo=None)}, "time zone"),
        ({"kind": "cook_baked"}, "no kind of entry 'cook_baked'"),
    ],
)
def test_a_deed_that_is_not_plain_is_refused_by_name(tmp_path: Path, wrong: dict[str, Any], said: str) -> None:
    """The refusal names the value and the rule, and nothing is written."""
    book = new_kitchen(tmp_path).book
    with pytest.raises(BookRefuses, match=said):
        book.append(replace(deed(1), **wrong))
    assert book.end() == (0, FIRST)


def test_nobody_signs_their_own_practical_even_past_the_program(tmp_path: Path) -> None:
    """The rule is kept by the database itself."""
    with pytest.raises(BookRefuses, match="nobody_signs_their_own_practical"):
        new_kitchen(tmp_path).book.append(deed(1, "practical_watched", "ana", verdict="meets it"))


def test_nobody_grants_themselves_a_station_even_past_the_program(tmp_path: Path) -> None:
    """The rule is kept by the database itself."""
    with pytest.raises(BookRefuses, match="nobody_grants_themselves_a_station"):
        new_kitchen(tmp_path).book.append(deed(1, "station_opened", "ana", station="grill"))


@pytest.mark.parametrize("module", [sqlite3, engine], ids=["sqlite3", "engine"])
@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE book SET cook = 'bo' WHERE seq = 1",
        "DELETE FROM book WHERE seq = 2",
        "DELETE FROM book",
        f"INSERT OR REPLACE INTO book SELECT kitchen, 2, {COPY_LAST}",
        f"REPLACE INTO book SELECT kitchen, 2, 'new', {SAID}, 'new', previous, hash, 2 FROM book WHERE seq = 2",  # noqa: S608
        f"INSERT OR REPLACE INTO book SELECT kitchen, 3, {COPY_LAST}",
        f"INSERT INTO book SELECT kitchen, 2, {COPY_LAST} ON CONFLICT DO UPDATE SET cook = 'bo'",
        f"INSERT OR REPLACE INTO book SELECT kitchen, 3, id, {SAID}, 'new', hash, 'h', 2 FROM book WHERE seq = 2",  # noqa: S608
        f"INSERT OR REPLACE INTO book SELECT kitchen, 3, 'new', {SAID}, key, hash, 'h', 2 FROM book WHERE seq = 2",  # noqa: S608
        f"INSERT INTO book SELECT kitchen, 9, 'new', {SAID}, 'new', hash, 'h', 2 FROM book WHERE seq = 2",  # noqa: S608
        f"INSERT INTO book SELECT kitchen, 3, 'new', {SAID}, 'new', 'other', 'h', 2 FROM book WHERE seq = 2",  # noqa: S608
        f"INSERT INTO book SELECT kitchen, 3, 'new', {SAID}, 'new', hash, 'h', 1 FROM book WHERE seq = 2",  # noqa: S608
    ],
)
def test_no_connection_can_change_take_out_or_replace_an_entry(tmp_path: Path, module: Any, sql: str) -> None:
    """The guards are in the file: a plain connection of another program is refused too."""
    file = new_kitchen(tmp_path)
    fill(file, 2)
    before = file.book.since(0)
    file.close()
    other = module.connect(str(file.path))
    with pytest.raises(module.IntegrityError, match=r"book keeps|book grows|never changed|never taken out"):
        other.execute(sql)
    other.close()
    assert KitchenFile.open(tmp_path).book.since(0) == before


def test_a_transaction_keeps_all_or_nothing(tmp_path: Path) -> None:
    """What was added before an error in the same transaction is not there after it."""
    file = new_kitchen(tmp_path)

    def write_two() -> None:
        with file.writing():
            file.book.append(deed(1))
            file.book.append(replace(deed(1), cook="bo"))

    with pytest.raises(KeyReused):
        write_two()
    assert file.book.since(0) == []


def test_ids_are_uuid_version_7_in_order_of_time() -> None:
    """RFC 9562, section 5.7: 48 bits of milliseconds, version 7, variant 10."""
    early, late = new_id(NOON), new_id(NOON.replace(hour=13))
    assert early < late
    assert int(early[:12], 16) == int(NOON.timestamp() * 1000)
    assert (early[12], early[16] in "89ab", len(early)) == ("7", True, 32)


def test_an_append_costs_the_same_however_long_the_book_is(tmp_path: Path) -> None:
    """Counted in the engine's own steps, not in time: the guards look entries up and read none through."""
    file = new_kitchen(tmp_path)

    def steps_of(number: int) -> int:
        steps = [0]

        def step() -> int:
            steps[0] += 1
            return 0

        connection = file._connections.borrowed()
        connection.set_progress_handler(step, 1)
        file.book.append(deed(number))
        connection.set_progress_handler(None, 1)
        return steps[0]

    fill(file, 10)
    short = steps_of(11)
    with file.writing():
        for number in range(12, 2000):
            file.book.append(deed(number))
    assert steps_of(2000) < short * 1.5
