"""What changed between two editions: words struck and new, step by step, and nothing of a step that is the same."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tests.web.small_content import DIE, NESTS
from trainer.kitchen.edition_changes import changed_steps, pieces_of

WORDS = st.lists(st.sampled_from(["pour", "3", "2", "fl", "oz", "in"]), max_size=8).map(" ".join)


@given(WORDS, WORDS)
def test_the_pieces_give_both_texts_back(before: str, now: str) -> None:
    """Without what is new they are the old text, without what is gone the new one; the same text has none."""
    pieces = pieces_of(before, now)
    if before == now:
        assert not pieces
        return
    assert " ".join(piece.words for piece in pieces if piece.kind != "new") == before
    assert " ".join(piece.words for piece in pieces if piece.kind != "gone") == now


def test_only_steps_that_changed_are_told() -> None:
    """By their number and name now; a step that is new or gone is told whole."""
    catch, weigh, boil = NESTS.steps
    now = replace(
        NESTS,
        steps=(
            replace(boil, id="rest", name="Rest"),
            catch,
            replace(weigh, text="Weigh each nest twice on the balance."),
        ),
    )
    rest, weighed, gone = changed_steps(NESTS, now)
    assert (rest.number, rest.title, [piece.kind for piece in rest.pieces]) == (1, "Rest", ["new"])
    assert (weighed.number, [(one.kind, one.words) for one in weighed.pieces]) == (
        3,
        [("same", "Weigh each nest"), ("new", "twice"), ("same", "on the balance.")],
    )
    assert (gone.number, gone.title, [piece.kind for piece in gone.pieces]) == (0, "Boil one", ["gone"])


def test_a_caution_that_changed_is_told_with_its_step() -> None:
    """It stands above the step, and is read with it."""
    hazards = (replace(DIE, caution="Keep fingers and cloths out of the die while it runs."), *NESTS.hazards[1:])
    (change,) = changed_steps(NESTS, replace(NESTS, hazards=hazards))
    assert change.number == 1
    assert ("new", "and cloths") in [(one.kind, one.words) for one in change.pieces]
