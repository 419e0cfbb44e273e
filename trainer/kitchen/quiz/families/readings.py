"""Instruments to read: a dial balance, a digital balance under a bowl, a thermometer; each drawn for its question."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache, partial
from typing import NamedTuple

from trainer.kitchen.quiz.family import Figure, Numbers, NumericFamily, Range, System, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.svg import At, box, circle, drawing, line, words
from trainer.kitchen.quiz.tolerances import exactly
from trainer.kitchen.quiz.wording import figures
from trainer.recipe_math.figures import number_text

ON_A_MARK = exactly("", "None: the pointer stands on a mark.")


class Dial(NamedTuple):
    """A dial balance, in grams or ounces: all around, from number to number, from mark to mark."""

    capacity: int
    numbered: int
    mark: Fraction


def _dials(*dials: tuple[int, int, int | str]) -> tuple[Dial, ...]:
    return tuple(Dial(capacity, numbered, Fraction(mark)) for capacity, numbered, mark in dials)


class _Face(NamedTuple):
    """The dials of one system: their unit, the names of what is drawn, their lines, and how a mark is taken wrongly."""

    system: System
    unit: str
    dial: str
    marks: str
    alt: str
    dials: tuple[Dial, ...]
    taken_for: tuple[tuple[str, Fraction], ...]

    def of(self, n: Numbers) -> Dial:
        """Return the dial drawn."""
        return self.dials[int(n[self.dial]) - 1]

    def shows(self, n: Numbers) -> Fraction:
        """Return what the pointer shows."""
        return n[self.marks] * self.of(n).mark

    def below(self, n: Numbers) -> Fraction:
        """Return the number at or below the pointer."""
        return self.shows(n) // self.of(n).numbered * Fraction(self.of(n).numbered)

    def past(self, n: Numbers) -> Fraction:
        """Return how many marks the pointer stands past that number."""
        return (self.shows(n) - self.below(n)) / self.of(n).mark

    def is_between(self, n: Numbers) -> bool:
        """Return whether the pointer stands on the dial and between two numbers."""
        return self.shows(n) < self.of(n).capacity and self.past(n) != 0

    def counted_back(self, n: Numbers) -> Fraction:
        """Return the reading where the marks are counted back from the next number."""
        return self.below(n) + self.of(n).numbered - self.past(n) * self.of(n).mark

    def one_mark_over(self, n: Numbers) -> Fraction | None:
        """Return the reading one mark too far; None where counting back from the next number gives the same."""
        over = self.shows(n) + self.of(n).mark
        return None if over == self.counted_back(n) else over


GRAM_DIALS = _Face(
    "metric", "g", "dial", "marks", "a_dial_in_grams",
    _dials(
        (200, 20, 2), (500, 50, 5), (1000, 100, 20), (2000, 200, 20), (2000, 200, 40), (4000, 500, 50),
        (5000, 500, 50), (6000, 1000, 100), (10000, 1000, 200), (20000, 2000, 200),
    ),
    (("mark_as_one_gram", Fraction(1)), ("mark_as_ten_grams", Fraction(10))),
)  # fmt: skip
OUNCE_DIALS = _Face(
    "us", "oz", "ounce_dial", "ounce_marks", "a_dial_in_ounces",
    _dials((8, 1, "1/4"), (16, 1, "1/4"), (16, 2, "1/4"), (32, 2, "1/2"), (32, 4, "1/2"), (80, 10, 2), (160, 16, 2)),
    (("mark_as_one_ounce", Fraction(1)), ("mark_as_a_tenth", Fraction(1, 10))),
)  # fmt: skip
"""None of either has more than a hundred marks: more cannot be told apart on a phone."""
_MIDDLE = At(130, 130)


@lru_cache(maxsize=len(GRAM_DIALS.dials) + len(OUNCE_DIALS.dials))
def _drawn_face(dial: Dial, unit: str) -> str:
    """Return a dial without its pointer."""
    shapes = [circle(_MIDDLE, 120), circle(_MIDDLE, 4, is_filled=True), words(At(130, 172), unit, 16)]
    for mark in range(int(dial.capacity / dial.mark)):
        weight = mark * dial.mark
        turn, is_numbered = float(360 * weight / dial.capacity), weight % dial.numbered == 0
        start = _MIDDLE.toward(turn, 100 if is_numbered else 110)
        shapes.append(line(start, _MIDDLE.toward(turn, 118), 2 if is_numbered else 0.8))
        if is_numbered:
            place = _MIDDLE.toward(turn, 80 if dial.capacity < 10_000 else 74)
            shapes.append(words(_shifted(place), str(weight), 13))
    return "".join(shapes)


def _draw_dial(f: _Face, n: Numbers) -> Figure:
    dial = f.of(n)
    turn = float(360 * f.shows(n) / dial.capacity)
    marks = dial.numbered / dial.mark - 1
    alt = sentence(f.alt, numbered=dial.numbered, marks=marks, mark=f.past(n), below=f.below(n))
    pointer = line(_MIDDLE, _MIDDLE.toward(turn, 108), 3)
    return Figure(drawing(260, 260, [_drawn_face(dial, f.unit), pointer]), alt)


def _shifted(place: At) -> At:
    """Return where a text of this size stands so that its middle is at the place."""
    return At(place.x, place.y + 4.5)


def _solve_dial(f: _Face, n: Numbers) -> tuple[Sentence, ...]:
    dial = f.of(n)
    mark, steps = figures(dial.mark), dial.numbered / dial.mark
    return (
        sentence("from_number_to_number", numbered=dial.numbered, steps=steps, result=mark, unit=f.unit),
        sentence(
            "the_pointer_stands_marks",
            past=f.past(n),
            below=f.below(n),
            mark=mark,
            result=figures(f.shows(n)),
            unit=f.unit,
        ),
    )


def _read_scale(f: _Face, ask: str, dial: str) -> NumericFamily:
    taken = {name: partial(_mark_taken_for, f, size) for name, size in f.taken_for}
    return NumericFamily(
        name="read_scale",
        level="one step",
        unit=f.unit,
        system=f.system,
        ranges={
            f.dial: span(1, len(f.dials), 1, dial),
            f.marks: span(1, 99, 1, "marks the pointer stands past zero"),
        },
        words=("food",),
        ask=lambda n, w: sentence(ask, food=w["food"]),
        right=f.shows,
        solve=partial(_solve_dial, f),
        wrong={
            **taken,
            "counted_back_from_next": f.counted_back,
            "number_below_given": f.below,
            "numbered_mark_counted": f.one_mark_over,
        },
        tolerance=ON_A_MARK,
        formula="number below + marks past it × (step / marks in a step)",
        checked_against="The pointer's angle read back from the drawing, in the tests; division by hand.",
        fits=f.is_between,
        picture=partial(_draw_dial, f),
    )


def _mark_taken_for(f: _Face, size: Fraction, n: Numbers) -> Fraction | None:
    """Return the reading where a mark is taken for another weight; None where counting back is a hair from it."""
    taken = f.below(n) + f.past(n) * size
    return None if 0 < abs(taken - f.counted_back(n)) < Fraction(1, 10) else taken


READ_SCALE = replace(
    _read_scale(GRAM_DIALS, "ask", "which dial"),
    other=_read_scale(OUNCE_DIALS, "ask_in_ounces", "which dial in ounces"),
)


class _Balance(NamedTuple):
    """A digital balance: its small unit, how many of it make the large one, and how its display is read."""

    system: System
    unit: str
    name: str
    many: int
    display: Callable[[Fraction], str]
    first_line: str
    wrong: tuple[str, str, str]
    others: tuple[Fraction, Fraction]

    def of(self, what: str, n: Numbers) -> Fraction:
        """Return a weight among the numbers drawn."""
        return n[f"{what}_{self.name}"]

    def shows(self, n: Numbers) -> Fraction:
        """Return what is on it, the bowl among it."""
        return self.of("food", n) + self.of("bowl", n)


def _pounds_and_ounces(ounces: Fraction) -> str:
    return f"{ounces // 16} lb {number_text(ounces % 16, 1)} oz"


GRAM_BALANCE = _Balance(
    "metric", "g", "grams", 1000, lambda grams: f"{number_text(grams / 1000, 3)} kg", "the_display_in_grams",
    ("left_in_kilograms", "kilogram_of_hundred", "kilogram_of_ten_thousand"), (Fraction(1, 10), Fraction(10)),
)  # fmt: skip
OUNCE_BALANCE = _Balance(
    "us", "oz", "ounces", 16, _pounds_and_ounces, "the_display_in_ounces",
    ("left_in_pounds", "pound_of_ten", "pound_of_twelve"), (Fraction(10), Fraction(12)),
)  # fmt: skip


def _draw_display(b: _Balance, n: Numbers) -> Figure:
    shown = b.display(b.shows(n))
    shapes = [
        line(At(40, 60), At(200, 60), 3), line(At(70, 60), At(60, 24), 1.5), line(At(170, 60), At(180, 24), 1.5),
        line(At(60, 24), At(180, 24), 1.5), box(At(30, 66), 180, 70, 1.5), box(At(70, 82), 100, 36, 1),
        words(At(120, 107), shown, 20 if b.system == "metric" else 16),
    ]  # fmt: skip
    return Figure(drawing(240, 150, shapes), sentence("a_digital_balance_with", shown=shown))


def _first_line(b: _Balance, n: Numbers) -> Sentence:
    shows = b.shows(n)
    if b.system == "metric":
        return sentence(b.first_line, display=number_text(shows / 1000, 3), weight=shows)
    pounds, ounces = divmod(shows, 16)
    return sentence(b.first_line, pounds=pounds, ounces=figures(ounces), result=figures(shows))


def _misread(b: _Balance, place: int, n: Numbers) -> Fraction:
    """Return the weight where the large unit is taken for another number of the small one."""
    shows = b.shows(n)
    if b.system == "metric":
        return shows * b.others[place] - b.of("bowl", n)
    return shows // 16 * b.others[place] + shows % 16 - b.of("bowl", n)


def _read_balance(b: _Balance, bowl: Range, food: Range) -> NumericFamily:
    left, one, other = b.wrong
    return NumericFamily(
        name="read_balance",
        level="two steps",
        unit=b.unit,
        system=b.system,
        ranges={f"bowl_{b.name}": bowl, f"food_{b.name}": food},
        words=("food",),
        ask=lambda n, w: sentence("ask", bowl=figures(b.of("bowl", n)), food=w["food"], unit=b.unit),
        told=lambda n: (b.of("bowl", n),),
        right=lambda n: b.of("food", n),
        solve=lambda n: (
            _first_line(b, n),
            sentence(
                "take_off_the_bowl",
                weight=figures(b.shows(n)),
                bowl=figures(b.of("bowl", n)),
                result=figures(b.of("food", n)),
                unit=b.unit,
            ),
        ),
        wrong={
            "bowl_forgotten": b.shows,
            "bowl_added": lambda n: b.shows(n) + b.of("bowl", n),
            "bowl_taken_off_twice": lambda n: b.shows(n) - 2 * b.of("bowl", n),
            left: lambda n: b.of("food", n) / b.many,
            one: partial(_misread, b, 0),
            other: partial(_misread, b, 1),
        },
        tolerance=exactly("", "None: the display is read as it stands."),
        formula="display in the small unit - empty bowl",
        checked_against="The display read back from the drawing, in the tests; subtraction by hand.",
        fits=lambda n: b.system == "metric" or b.shows(n) >= 32,
        picture=partial(_draw_display, b),
    )


READ_BALANCE = replace(
    _read_balance(
        GRAM_BALANCE,
        span(180, 900, 5, "weight of the empty bowl, in grams"),
        span(260, 4000, 5, "weight of the food, in grams"),
    ),
    other=_read_balance(
        OUNCE_BALANCE,
        span(6, 31, "1/2", "weight of the empty bowl, in ounces"),
        span(20, 150, "1/2", "weight of the food, in ounces"),
    ),
)

_TOP, _LONG = 34.0, 200.0


class _Glass(NamedTuple):
    """A kind of thermometer: its unit, what its lowest number is called, degrees from number to number, its marks."""

    system: System
    unit: str
    lowest: str
    numbered: int
    marks: tuple[Fraction, Fraction]

    @property
    def reach(self) -> int:
        """Return the degrees from the lowest number to the highest: four numbers on."""
        return 4 * self.numbered


CELSIUS = _Glass("metric", "°C", "lowest_celsius", 10, (Fraction(2), Fraction(5, 2)))
FAHRENHEIT = _Glass("us", "°F", "lowest_fahrenheit", 20, (Fraction(4), Fraction(5)))


def _mark(g: _Glass, n: Numbers) -> Fraction:
    """Return the degrees from mark to mark."""
    return g.marks[int(n["division"]) - 1]


def _degrees(g: _Glass, n: Numbers) -> Fraction:
    return n[g.lowest] + n["marks"] * _mark(g, n)


def _numbered_below(g: _Glass, n: Numbers) -> Fraction:
    return _degrees(g, n) // g.numbered * Fraction(g.numbered)


def _degrees_past(g: _Glass, n: Numbers) -> Fraction:
    """Return the degrees past the number below."""
    return _degrees(g, n) % g.numbered


def _marks_past(g: _Glass, n: Numbers) -> Fraction:
    return _degrees_past(g, n) / _mark(g, n)


def _height(g: _Glass, above: Fraction) -> float:
    """Return how far down the drawing it stands, so many degrees above the lowest number."""
    return _TOP + _LONG * (1 - float(above / g.reach))


@lru_cache(maxsize=64)
def _ladder(g: _Glass, lowest: Fraction, mark: Fraction) -> str:
    """Return a thermometer without its column."""
    foot = At(82, _TOP + _LONG + 22)
    shapes = [words(At(42, 20), g.unit, 15), circle(foot, 10, is_filled=True)]
    shapes += [line(At(x, _TOP - 10), At(x, foot.y - 10), 1) for x in (76, 88)]
    for step in range(int(g.reach / mark) + 1):
        celsius, y = lowest + step * mark, _height(g, step * mark)
        is_numbered = celsius % g.numbered == 0
        shapes.append(line(At(56 if is_numbered else 64, y), At(74, y), 1.6 if is_numbered else 0.8))
        if is_numbered:
            shapes.append(words(At(50, y + 5), str(celsius), 15, "end"))
    return "".join(shapes)


def _draw_thermometer(g: _Glass, n: Numbers) -> Figure:
    column = line(At(82, _TOP + _LONG + 22), At(82, _height(g, n["marks"] * _mark(g, n))), 6)
    alt = sentence(
        "a_thermometer_numbered_every",
        numbered=g.numbered,
        marks=int(g.numbered / _mark(g, n)) - 1,
        mark=_marks_past(g, n),
        below=_numbered_below(g, n),
    )
    return Figure(drawing(120, 270, [_ladder(g, n[g.lowest], _mark(g, n)), column]), alt)


def _thermometer_fits(g: _Glass, n: Numbers) -> bool:
    return _degrees(g, n) < n[g.lowest] + g.reach and _degrees_past(g, n) != 0


def _from_the_top(g: _Glass, n: Numbers) -> Fraction:
    read = _degrees(g, n)
    return read + g.numbered - 2 * (read % g.numbered)


def _mark_too_high(g: _Glass, n: Numbers) -> Fraction | None:
    """Return the reading one mark too far; None where counting from the top gives the same."""
    over = _degrees(g, n) + _mark(g, n)
    return None if over == _from_the_top(g, n) else over


def _ask_thermometer(g: _Glass, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        number=n["thermometer"],
        list=w["list"],
        unit=g.unit,
    )


def _solve_thermometer(g: _Glass, n: Numbers) -> tuple[Sentence, ...]:
    return (
        sentence(
            "degrees_a_mark",
            numbered=g.numbered,
            steps=figures(g.numbered / _mark(g, n)),
            result=figures(_mark(g, n)),
        ),
        sentence(
            "the_column_ends_marks",
            past=_marks_past(g, n),
            below=_numbered_below(g, n),
            mark=figures(_mark(g, n)),
            result=figures(_degrees(g, n)),
            unit=g.unit,
        ),
    )


def _read_thermometer(g: _Glass, lowest: Range, divisions: str) -> NumericFamily:
    return NumericFamily(
        name="read_thermometer",
        level="one step",
        unit=g.unit,
        system=g.system,
        ranges={
            g.lowest: lowest,
            "division": span(1, len(g.marks), 1, f"from mark to mark: {divisions}"),
            "marks": span(1, 19, 1, "marks the column stands above the lowest number"),
            "thermometer": span(1, 60, 1, "its number on the checklist"),
        },
        words=("list",),
        ask=partial(_ask_thermometer, g),
        told=lambda n: (n["thermometer"],),
        right=partial(_degrees, g),
        solve=partial(_solve_thermometer, g),
        wrong={
            "mark_as_one_degree": lambda n: _numbered_below(g, n) + _marks_past(g, n),
            "counted_down": lambda n: _numbered_below(g, n) - _degrees_past(g, n),
            "counted_from_the_top": partial(_from_the_top, g),
            "number_below_given": partial(_numbered_below, g),
            "numbered_mark_counted": partial(_mark_too_high, g),
            "minus_forgotten": lambda n: -_degrees(g, n) if _degrees(g, n) < 0 else None,
        },
        off=("copied",),
        tolerance=ON_A_MARK,
        formula="number below + marks above it × degrees of a mark",
        checked_against="The end of the column read back from the drawing, in the tests; division by hand.",
        fits=partial(_thermometer_fits, g),
        picture=partial(_draw_thermometer, g),
        below_zero=True,
    )


READ_THERMOMETER = replace(
    _read_thermometer(
        CELSIUS,
        span(-40, 60, 10, "lowest number on the thermometer, in Celsius"),
        "1 two degrees, 2 two and a half",
    ),
    other=_read_thermometer(
        FAHRENHEIT,
        span(-40, 160, 20, "lowest number on the thermometer, in Fahrenheit"),
        "1 four degrees, 2 five",
    ),
)
