"""A cut drawn in its true size, beside a ruler: which cut is it."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, Draw, Figure, Option, mixed_up, span
from trainer.kitchen.quiz.sentences import Sentence, Series, sentence
from trainer.kitchen.quiz.svg import At, box, drawing, line, number, words

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

    @property
    def called(self) -> Sentence:
        """Return its name."""
        return sentence(f"cut_{self.name}")

    def size(self) -> Sentence:
        """Return its nominal size in words."""
        return sentence(f"size_of_{self.shape}", side=_millimetres(self.side), other=_millimetres(self.other))


CUTS = (
    Cut("large_dice", "cube", 3 / 4, 3 / 4),
    Cut("medium_dice", "cube", 1 / 2, 1 / 2),
    Cut("small_dice", "cube", 1 / 4, 1 / 4),
    Cut("brunoise", "cube", 1 / 8, 1 / 8),
    Cut("fine_brunoise", "cube", 1 / 16, 1 / 16),
    Cut("batonnet", "stick", 1 / 4, 2, 2.5),
    Cut("julienne", "stick", 1 / 8, 1, 2),
    Cut("fine_julienne", "stick", 1 / 16, 1, 2),
    Cut("paysanne", "flat", 1 / 2, 1 / 8),
)


class Piece(NamedTuple):
    """A piece as drawn, in millimetres: the face, and how long it is from the side."""

    wide: float
    high: float
    long: float


def _piece(draw: Draw, cut: Cut) -> Piece:
    """Return a piece of the cut, off by as much as was drawn, to a tenth of a millimetre."""
    by = float(draw.numbers["size_percent"]) / 100
    side, other = round(cut.side * INCH * by, 1), round(cut.other * INCH * by, 1)
    if cut.shape == "stick":
        part = float(draw.numbers["length_percent"]) / 100
        return Piece(side, side, round((cut.other + part * (cut.longest - cut.other)) * INCH, 1))
    return Piece(side, other if cut.shape == "flat" else side, side)


@lru_cache(maxsize=256)
def _ruler(top: float) -> tuple[str, ...]:
    """Return a ruler of seven centimetres with its foot line at a height."""
    marks = [line(At(4 + mm, top), At(4 + mm, top + (3 if mm % 10 == 0 else 1.6)), 0.2) for mm in range(RULER + 1)]
    numbers = [words(At(4 + mm, top + 6.2), str(mm), 3) for mm in range(0, RULER + 1, 10)]
    return (line(At(4, top), At(4 + RULER, top), 0.25), *marks, *numbers)


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
    alt = sentence("piece_drawn", wide=number(piece.wide), high=number(piece.high), long=number(piece.long))
    svg = drawing(86, top + piece.high + 14, shapes, "mm")
    return Figure(svg, alt, {"end": sentence("end"), "side": sentence("side")})


def _wrong(right: Cut, other: Cut) -> Option:
    """Return another cut as an option, with what tells it from the right one."""
    if right.shape != other.shape:
        method, why = "another_shape", sentence("that_cut_is", shape=sentence(f"shape_{other.shape}"))
    elif other.side > right.side:
        method, why = "larger_cut", sentence("that_cut_is_larger")
    else:
        method, why = "smaller_cut", sentence("that_cut_is_smaller")
    return Option(
        other.name, other.called, method, Series((why, sentence("cut_is", cut=other.called, size=other.size())))
    )


def _choose(draw: Draw) -> ChoiceItem | None:
    """Return a question about one cut, two of its own shape among the other choices where there are two."""
    right, by_name = CUTS[int(draw.numbers["cut"]) - 1], {cut.name: cut for cut in CUTS}
    kin = [cut for cut in CUTS if cut.shape == right.shape and cut != right]
    strangers = [cut.name for cut in CUTS if cut.shape != right.shape]
    near = sorted(kin, key=lambda cut: max(cut.side / right.side, right.side / cut.side))[:2]
    others = [*near, *(by_name[name] for name in draw.picks.several(strangers, 3 - len(near)))]
    options = mixed_up(draw.picks, [Option(right.name, right.called), *(_wrong(right, cut) for cut in others)])
    piece = _piece(draw, right)
    return ChoiceItem(
        sentence("ask", food=draw.picked["food"]),
        options,
        (
            sentence("its_end_is", wide=number(piece.wide), high=number(piece.high), long=number(piece.long)),
            sentence("that_is", shape=sentence(f"shape_{right.shape}"), cut=right.called, size=right.size()),
        ),
        _figure(piece),
        hints=1,
    )


NAME_CUT = ChoiceFamily(
    name="name_cut",
    level="one step",
    unit="",
    ranges={
        "cut": span(1, len(CUTS), 1, "which cut, in the order of the list"),
        "size_percent": span(92, 108, 1, "how large it is drawn, in percent of its nominal size"),
        "length_percent": span(0, 100, 2, "how long a stick is, from its shortest to its longest"),
    },
    words=("food",),
    formula="the nearest size of its shape",
    checked_against="An open encyclopedia's list of culinary knife cuts (copy undated): dice 3/4, 1/2, 1/4, 1/8, 1/16 "
    "in; other charts differ.",
    choose=_choose,
    slips=("larger_cut", "smaller_cut", "another_shape"),
)
