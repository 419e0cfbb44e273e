"""A content file that the program changes keeps what a person wrote beside the change."""

from __future__ import annotations

from pathlib import Path

import pytest

from trainer.content.round_trip import (
    NotWritable,
    drop_key,
    dumped,
    from_line,
    in_line,
    moved,
    parse,
    set_key,
    text_like,
    with_item,
    with_key,
    with_words,
    without,
)
from trainer.content.shipped import shipped

FILE = """\
# On top.
steps:
  first:
    do: ___                     # beside it
    why: ___

# What hurts
hazards:
  care: "Mind: it is hot."      # said aloud
list:
  - {id: one, kind: do}  # the first
  # before the second
  - {id: two, kind: do}

# after the list
faults: [torn]             # what goes wrong
months: 012
holds: no
# the end of a part
last: 12:30
"""

FILES = [*sorted(shipped("content").glob("techniques/*/*.yaml"))[::2], *shipped("content").glob("*.yaml")]


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_written_without_a_change_is_the_same_to_the_letter(path: Path) -> None:
    """Comments, order, quotes and the ends of lines: of files that ship."""
    text = path.read_text(encoding="utf-8")
    assert dumped(parse(text)) == text


def test_a_word_stays_the_word_it_is() -> None:
    """`no`, `12:30` and `012` are texts here, as in every content file; none is turned into something else."""
    tree = parse(FILE)
    assert (tree["holds"], tree["last"], tree["months"]) == ("no", "12:30", "012")
    assert dumped(tree) == FILE


def test_a_new_key_stands_above_the_comment_that_follows() -> None:
    """What is said of the next part goes on being said of it."""
    tree = parse(FILE)
    set_key(tree["steps"]["first"], "cue", "Looks smooth.")
    assert "    why: ___\n    cue: Looks smooth.\n\n# What hurts\nhazards:" in dumped(tree)


def test_a_key_taken_out_leaves_the_comment_below_it() -> None:
    """A comment below belongs to what comes next."""
    tree = parse(FILE)
    drop_key(tree, "holds")
    assert "months: 012\n# the end of a part\nlast: 12:30\n" in dumped(tree)


def test_an_entry_moves_with_what_stands_beside_it() -> None:
    """Its own line goes; the comment between the two stays between them. Moved back, the file is as before."""
    after = moved(FILE, "list", 0, 1)
    assert "list:\n  - {id: two, kind: do}\n  # before the second\n  - {id: one, kind: do}  # the first\n" in after
    assert moved(after, "list", 1, -1) == FILE


def test_an_entry_taken_out_leaves_every_other_line() -> None:
    """No line but its own is gone."""
    assert without(FILE, "list", 1) == FILE.replace("  - {id: two, kind: do}\n", "")
    assert without(FILE, "hazards", "care").count("hazards: {}") == 1
    assert "faults: []" in without(FILE, "faults", 0)


def test_a_sign_that_ends_a_line_for_yaml_alone_moves_nothing_else() -> None:
    """A line separator ends a line of YAML 1.1 (section 5.4, from memory), and hardly one of an editor."""
    ends = FILE.replace("hot.", "hot.\u2028Mind.")
    assert [each["id"] for each in parse(moved(ends, "list", 0, 1))["list"]] == ["two", "one"]


def test_an_entry_goes_where_it_is_put() -> None:
    """In the list behind another, in a part that was empty, and in one that was not there."""
    new = {"id": "new", "figure": "{x}: y"}
    assert '{id: one, kind: do}  # the first\n  - {id: new, figure: "{x}: y"}\n  # before' in with_item(
        FILE, "list", new, 0
    )
    assert "faults: [torn, burnt]             # what" in with_item(FILE, "faults", "burnt", 0).replace(
        "burnt]      ", "burnt]             "
    ).replace("              #", "             #")
    assert '  care: "Mind: it is hot."      # said aloud\n  cold: Wear gloves.\nlist:' in with_key(
        FILE, "hazards", "cold", "Wear gloves."
    )
    assert with_key(FILE, "words", "bench", "A table.").endswith("last: 12:30\nwords:\n  bench: A table.\n")
    assert parse(with_item(FILE.replace("faults: [torn]", "faults: []"), "faults", "x", -1))["faults"] == ["x"]


@pytest.mark.parametrize("said", ["yes: no", "{line} first", "- a dash", "#no comment", "it's", 'a "word"', "", " x"])
def test_any_words_are_read_back_as_they_were_typed(said: str) -> None:
    """Signs that mean something in YAML get quotes."""
    tree = parse(FILE)
    tree["last"] = text_like(tree["last"], said, in_flow=False)
    tree["list"][0]["kind"] = text_like("do", said, in_flow=True)
    again = parse(dumped(tree))
    assert (again["last"], again["list"][0]["kind"]) == (said, said)


def test_a_long_text_is_folded_and_reads_back_whole() -> None:
    """No line of a file is longer than a screen is wide."""
    said = "Fold: the dough over itself and turn it by a quarter. " * 9
    tree = parse(FILE)
    tree["last"] = text_like("", said.strip(), in_flow=False)
    text = dumped(tree)
    assert max(map(len, text.splitlines())) <= 120
    assert parse(text)["last"] == said.strip()


def test_a_value_on_one_line_is_what_was_typed() -> None:
    """Lists and keyed blocks go in and come out; an open bracket is told."""
    assert in_line(from_line("[raw, {below: code.reheat}]")) == "[raw, {below: code.reheat}]"
    with pytest.raises(NotWritable):
        from_line("[raw")


@pytest.mark.parametrize("broken", ["a: [", "- a\n- b\n", "\tx: y", ""])
def test_what_is_no_yaml_of_ours_is_never_written_over(broken: str) -> None:
    """A program that cannot read a file does not write it."""
    with pytest.raises(NotWritable):
        parse(broken)


def test_words_under_a_path_come_and_go_and_all_else_stays() -> None:
    """In a block, in braces, in a file that says nothing yet; an emptied block goes too, the comments stay."""
    assert with_words("", ("overrides", "hot", "reason"), "Es: así") == 'overrides:\n  hot:\n    reason: "Es: así"\n'
    file = "# ours\nstations: {grill: {title: Parrilla}}\noverrides: {hot: {title: Caliente}}\n"
    there = with_words(file, ("overrides", "hot", "reason"), "Entra aire, y frío.")
    assert there.startswith("# ours\nstations: {grill: {title: Parrilla}}\n")
    assert parse(there)["overrides"]["hot"] == {"title": "Caliente", "reason": "Entra aire, y frío."}
    assert with_words(there, ("overrides", "hot", "reason"), "") == file
    assert with_words(there, ("overrides", "hot"), "") == "# ours\nstations: {grill: {title: Parrilla}}\n"
    assert with_words(there, ("overrides", "cold", "reason"), "") == there
