"""What leans on an entry, against a naive script: repeat over all entries until nothing is added."""

from __future__ import annotations

from random import Random

import pytest

from trainer.kitchen.leaning import leaning_on


def naive(entry: str, entitled_by: dict[str, list[str]]) -> set[str]:
    """Return all that lean on an entry, found by going over everything again and again."""
    found = {entry}
    while True:
        more = {one for one, reasons in entitled_by.items() if found & set(reasons)} - found
        if not more:
            return found - {entry}
        found |= more


@pytest.mark.parametrize("seed", range(40))
def test_the_closure_is_that_of_a_naive_script(seed: int) -> None:
    """Random books of 60 signatures, loops among them; in the order of the book, the entry itself left out."""
    rng = Random(seed)  # noqa: S311 - a repeatable book
    ids = [f"e{number}" for number in range(60)]
    graph = {one: rng.sample(ids, rng.choice([0, 1, 1, 2, 4])) for one in ids}
    for entry in rng.sample(ids, 10):
        found = leaning_on(entry, graph)
        assert set(found) == naive(entry, graph)
        assert list(found) == [one for one in ids if one in found]


def test_assessors_who_signed_for_each_other_make_a_loop() -> None:
    """A by B, B by A: each leans on the other, neither on itself."""
    graph = {"a": ["b"], "b": ["a"], "c": ["b"], "d": ["other"]}
    assert leaning_on("a", graph) == ("b", "c")
    assert leaning_on("b", graph) == ("a", "c")
    assert leaning_on("d", graph) == ()
