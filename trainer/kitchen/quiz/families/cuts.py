"""A cut drawn in its true size, beside a ruler: which cut is it."""

from __future__ import annotations

from typing import NamedTuple

from trainer.kitchen.quiz.choices import mixed_up
from trainer.kitchen.quiz.family import Choosing, Drawn, Figure, Posed, span
from trainer.kitchen.quiz.ink import At, box, drawing, line, number, words
from trainer.kitchen.quiz.question import Choice
from trainer.kitchen.quiz.wording import any_of
from trainer.recipe_math.saying import joined, say

INCH = 25.4
RULER = 70


def _millimetres(inches: float) -> str:
    """Return inches as millimetres to the tenth."""
    return number(round(inches * INCH, 1))


class Cut(NamedTuple):
    """A cut: its shape, its face in inches (side, and thickness for a flat one), and how long a stick may be."""

    name: str
    shape: str
    side: float
    other: float
    longest: float = 0.0

    def size(self) -> str:
        """Return its nominal size in words."""
        side, other = _millimetres(self.side), _millimetres(self.other)
        if self.shape == "cube":
            return say("about {side} mm on every side", side=side)
        if self.shape == "stick":
            return say("about {side} mm thick and {other} mm or longer", side=side, other=other)
        return say("a flat square of about {side} mm, {other} mm thick", side=side, other=other)


CUTS = (
    Cut(say("large dice"), "cube", 3 / 4, 3 / 4),
    Cut(say("medium dice"), "cube", 1 / 2, 1 / 2),
    Cut(say("small dice"), "cube", 1 / 4, 1 / 4),
    Cut(say("brunoise"), "cube", 1 / 8, 1 / 8),
    Cut(say("fine brunoise"), "cube", 1 / 16, 1 / 16),
    Cut(say("batonnet"), "stick", 1 / 4, 2, 2.5),
    Cut(say("julienne"), "stick", 1 / 8, 1, 2),
    Cut(say("fine julienne"), "stick", 1 / 16, 1, 2),
    Cut(say("paysanne"), "flat", 1 / 2, 1 / 8),
)
SAYS_SHAPE = {"cube": say("a cube"), "stick": say("a stick"), "flat": say("a thin flat square")}
TELLS = {
    "larger_cut": say("Takes a cut for the next larger one of its shape."),
    "smaller_cut": say("Takes a cut for a smaller one of its shape."),
    "another_shape": say("Mixes up cubes, sticks and flat cuts."),
}
ADVISES = {
    "larger_cut": say("You took a larger cut. Read one side of the end off the ruler, then compare it with each cut."),
    "smaller_cut": say(
        "You took a smaller cut. Read one side of the end off the ruler, then compare it with each cut."
    ),
    "another_shape": say(
        "You mixed up the shapes. A cube is as long as it is wide, a stick is longer, a flat cut is thin."
    ),
}


class Piece(NamedTuple):
    """A piece as drawn, in millimetres: the face, and how long it is from the side."""

    wide: float
    high: float
    long: float


def _piece(draw: Drawn, cut: Cut) -> Piece:
    """Return a piece of the cut, off by as much as was drawn, to a tenth of a millimetre."""
    by = float(draw.numbers["size_percent"]) / 100
    side, other = round(cut.side * INCH * by, 1), round(cut.other * INCH * by, 1)
    if cut.shape == "stick":
        part = float(draw.numbers["length_percent"]) / 100
        return Piece(side, side, round((cut.other + part * (cut.longest - cut.other)) * INCH, 1))
    return Piece(side, other if cut.shape == "flat" else side, side)


def _ruler(top: float) -> list[str]:
    """Return a ruler of seven centimetres with its foot line at a height."""
    marks = [line(At(4 + mm, top), At(4 + mm, top + (3 if mm % 10 == 0 else 1.6)), 0.2) for mm in range(RULER + 1)]
    numbers = [words(At(4 + mm, top + 6.2), str(mm), 3) for mm in range(0, RULER + 1, 10)]
    return [line(At(4, top), At(4 + RULER, top), 0.25), *marks, *numbers]


def _figure(piece: Piece) -> Figure:
    top = max(piece.high, 4.0) + 8
    shapes = [
        words(At(4, 3.6), "{end}", 3, "start"),
        box(At(4, 5), piece.wide, piece.high),
        words(At(4, top + 3), "{side}", 3, "start"),
        box(At(4, top + 4.4), piece.long, piece.high),
        *_ruler(top + 4.4 + piece.high + 1.5),
        words(At(4 + RULER + 5, top + piece.high + 12), "mm", 3, "start"),
    ]
    alt = say(
        "One piece in true size, beside a ruler in millimetres. Its end is {wide} mm wide and {high} mm high; from the "
        "side it is {long} mm long.",
        wide=number(piece.wide),
        high=number(piece.high),
        long=number(piece.long),
    )
    return Figure(say(drawing(86, top + piece.high + 14, shapes, "mm"), end=say("end"), side=say("side")), alt)


def _wrong(right: Cut, other: Cut) -> Choice:
    """Return another cut as a choice, with what tells it from the right one."""
    if right.shape != other.shape:
        name, why = "another_shape", say("That cut is {shape}.", shape=SAYS_SHAPE[other.shape])
    elif other.side > right.side:
        name, why = "larger_cut", say("That cut is larger.")
    else:
        name, why = "smaller_cut", say("That cut is smaller.")
    says = joined([why, say("A {cut} is {size}.", cut=other.name, size=other.size())])
    return Choice("", other.name, is_right=False, name=name, says=says)


def _choose(draw: Drawn) -> Posed | None:
    """Return a question about one cut, two of its own shape among the other choices where there are two."""
    right = CUTS[int(draw.numbers["cut"]) - 1]
    kin = [cut for cut in CUTS if cut.shape == right.shape and cut != right]
    strangers = [cut for cut in CUTS if cut.shape != right.shape]
    near = sorted(kin, key=lambda cut: max(cut.side / right.side, right.side / cut.side))[:2]
    others = [*near, *draw.rng.sample(strangers, 3 - len(near))]
    choices = mixed_up(draw.rng, Choice("", right.name, is_right=True), [_wrong(right, cut) for cut in others])
    piece = _piece(draw, right)
    return Posed(
        say("This piece of {food} is drawn in its true size. Which cut is it?", food=draw.words["food"]),
        choices,
        (
            say(
                "Its end is {wide} mm by {high} mm; it is {long} mm long.",
                wide=number(piece.wide),
                high=number(piece.high),
                long=number(piece.long),
            ),
            say(
                "That is {shape}: {cut}, {size}. Charts differ; your kitchen's standard decides.",
                shape=SAYS_SHAPE[right.shape],
                cut=right.name,
                size=right.size(),
            ),
        ),
        _figure(piece),
    )


NAME_CUT = Choosing(
    name="name_cut",
    title=say("Which cut is it, by its true size"),
    level="one step",
    unit="",
    ranges={
        "cut": span(1, len(CUTS), 1, "which cut, in the order of the list"),
        "size_percent": span(92, 108, 1, "how large it is drawn, in percent of its nominal size"),
        "length_percent": span(0, 100, 2, "how long a stick is, from its shortest to its longest"),
    },
    words={
        "food": any_of("carrot|celeriac|potato|turnip|leek|pumpkin|beetroot|swede|zucchini|parsnip|kohlrabi|celery")
    },
    formula="the nearest size of its shape",
    checked_against="An open encyclopedia's list of culinary knife cuts (copy undated): dice 3/4, 1/2, 1/4, 1/8, 1/16 "
    "in; other charts differ.",
    choose=_choose,
    tells=TELLS,
    advises=ADVISES,
)
