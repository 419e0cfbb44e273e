"""The rule decides as its table says, row by row: histories by hand, exact chances, simulated lengths."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.kitchen.skills.vectors import Row, day, day_number, folded, rows
from trainer.kitchen.skills.chances import lengths, pass_chance, renew_chance


def named(row: Row) -> str:
    """Return what a row is called in a report."""
    return f"{row['id']}-{row['skill']}"


@pytest.mark.parametrize("row", rows("fold"), ids=named)
def test_a_history_ends_where_the_table_says(row: Row) -> None:
    """State, row, need, wrong, rounds, days, drill and each outcome are the table's."""
    skill, outcomes = folded(row)
    on = day(int(row["read_on"]))
    state = skill.state(on)
    found = {
        "state": state,
        "run": str(skill.run),
        "need": str(skill.need),
        "wrong": str(skill.wrong),
        "rounds": str(skill.rounds),
        "opens": day_number(skill.opens) if state == "wait" else "",
        "due": day_number(skill.due),
        "good_until": day_number(skill.good_until),
        "drill": skill.drill,
        "by_person": "yes" if skill.by_person else "",
        "counted": ";".join(outcomes),
    }
    assert found == {name: row[name] for name in found}


@pytest.mark.parametrize("row", rows("pass"), ids=lambda row: row["id"])
def test_the_chance_to_pass_is_exact(row: Row) -> None:
    """The closed form gives the fraction of the table."""
    found = pass_chance(int(row["base"]), Fraction(row["p"]), int(row["max_rounds"]))
    assert found == Fraction(row["exact"])


@pytest.mark.parametrize("row", rows("renew"), ids=lambda row: row["id"])
def test_the_chance_to_renew_is_exact(row: Row) -> None:
    """Three right refreshers before a drill: p cubed over 1 - q p squared (1 + p + p squared)."""
    assert renew_chance(Fraction(row["p"])) == Fraction(row["exact"])


@pytest.mark.parametrize("row", rows("length"), ids=lambda row: row["id"])
def test_the_length_of_a_pass_is_near_the_table(row: Row) -> None:
    """Median and 90th percentile of simulated cooks are within one answer of the table's own simulation."""
    _, skills, right = row["id"].split("_")
    found = lengths((int(row["base"]),) * int(skills), float(Fraction(right)))
    expected = tuple(int(figure) for figure in row["exact"].split())
    assert all(abs(ours - theirs) <= 1 for ours, theirs in zip(found, expected, strict=True)), found
