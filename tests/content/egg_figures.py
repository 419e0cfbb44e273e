"""The two figures of egg tempering that are drawn to scale, from the lines of the technique and the heat of foods.

`python -m tests.content.egg_figures` draws them into the content folder again; a test holds them equal.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from tests.content.conftest import CONTENT
from trainer.content.files import load_content
from trainer.kitchen.technique import Content, Limit
from trainer.kitchen.tempering_bench import BASES, LIQUIDS, Bowl, Pot, TemperingView, tempering_of
from trainer.recipe_math.quantity import Quantity

TECHNIQUE = "egg_tempering"
BOILING = Quantity.of(100, "°C")
HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 220" fill="none" stroke="currentColor" '
    'stroke-width="3" stroke-linecap="round" stroke-linejoin="round">'
)
PAPER = 'fill="var(--paper, #fff)"'
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight scale: two values, and where on the paper they lie."""

    low: float
    high: float
    at_low: float
    at_high: float

    def place(self, value: float) -> float:
        """Return where a value lies."""
        return self.at_low + (self.at_high - self.at_low) * (value - self.low) / (self.high - self.low)

    def value(self, place: float) -> float:
        """Return which value lies at a place."""
        return self.low + (self.high - self.low) * (place - self.at_low) / (self.at_high - self.at_low)


WARMTH = Scale(0, 80, 186, 18)
"""How far up the curve a temperature in celsius lies."""
POURED = Scale(0, 3.5, 56, 300)
"""How far along the curve a number of ladles lies."""
SETTING = Scale(55, 90, 84, 306)
"""How far along the bands a temperature in celsius lies."""


def figures(content: Content) -> dict[str, str]:
    """Return the text of each figure by its file name."""
    lines = {limit.id: limit for limit in content.techniques[TECHNIQUE].standard}
    return {"more_ladles.svg": curve_figure(lines), "bands.svg": bands_figure(lines)}


def ladles_of(lines: dict[str, Limit], hot: Quantity) -> TemperingView:
    """Return ladle by ladle how warm the seven yolks get in milk so hot, as the workbench works it out."""
    bowl = Bowl(BASES["yolks"], said(lines["yolks"]), said(lines["yolk_cold"]))
    ladle = said(lines["ladle"])
    amount = Quantity(ladle.amount * 7 / 2, ladle.unit)
    return tempering_of(bowl, Pot(LIQUIDS["milk"], amount, hot, ladle), Quantity.of(56, "°C"))


def said(limit: Limit) -> Quantity:
    """Return the number of a line that has one."""
    assert limit.target is not None, limit.id
    return limit.target


def ends(limit: Limit) -> Point:
    """Return both ends of a line, in celsius."""
    assert limit.lowest is not None, limit.id
    assert limit.highest is not None, limit.id
    return float(limit.lowest.to("°C").amount), float(limit.highest.to("°C").amount)


def curve_figure(lines: dict[str, Limit]) -> str:
    """Return the curve of a bowl of yolk, ladle by ladle, with the yolk's band and, dashed, milk at a full boil."""
    usual, boiling = ladles_of(lines, said(lines["milk_hot"])), ladles_of(lines, BOILING)
    dots = [(each.number, each.base_celsius) for each in usual.tempering.ladles]
    band = ends(lines["yolk_band"])
    return drawn(
        [
            *hatched(POURED.at_low, POURED.at_high, WARMTH.place(band[1]), WARMTH.place(band[0])),
            '<path d="M40 12V186H308" stroke-width="3"/>',
            *(f'<path d="M34 {n(WARMTH.place(each))}H40" stroke-width="2"/>' for each in range(10, 80, 10)),
            thermometer(16, 60, 186),
            line(usual),
            line(boiling, ' stroke-dasharray="8 6"'),
            *(dot(POURED.place(number), WARMTH.place(celsius)) for number, celsius in dots),
            *(ladle(POURED.place(number)) for number, _ in dots),
            *cross(POURED.place(3), WARMTH.place(warmth_after(boiling, 3)) - 14),
            check(POURED.place(3) - 4, WARMTH.place(dots[-1][1]) + 26),
            named("{yolk_band}", POURED.at_low, WARMTH.place(band[1]) - 5, "start"),
            named("{after_one_ladle}", POURED.place(1) + 10, WARMTH.place(dots[0][1]) + 20, "start"),
            named("{after_three_ladles}", POURED.place(3), WARMTH.place(dots[-1][1]) + 54),
        ]
    )


def poured(view: TemperingView) -> list[Point]:
    """Return the points of a curve, by ladles in place of grams."""
    grams = view.curve[-1][0] / POURED.high
    return [(weight / grams, warm) for weight, warm in view.curve]


def warmth_after(view: TemperingView, ladles: int) -> float:
    """Return how warm the bowl is after so many ladles, read between the points of its curve."""
    points = poured(view)
    for (left, low), (right, high) in pairwise(points):
        if left <= ladles <= right:
            return low + (high - low) * (ladles - left) / (right - left)
    raise ValueError(f"The curve does not reach {ladles} ladles.")


def line(view: TemperingView, more: str = "") -> str:
    """Return the line through the points of a curve."""
    points = " ".join(f"{n(POURED.place(ladles))},{n(WARMTH.place(warm))}" for ladles, warm in poured(view))
    return f'<polyline points="{points}" stroke-width="3.5"{more}/>'


def bands_figure(lines: dict[str, Limit]) -> str:
    """Return the bands in which white, yolk, whole egg and thinned egg thicken and set, one above the other."""
    rows = [("white_band", white), ("yolk_band", yolk), ("whole_egg_band", mixed_bowl), ("custard_band", pot)]
    parts = [f'<path d="M{n(SETTING.at_low)} 26H{n(SETTING.at_high)}" stroke-width="3"/>']
    parts += [f'<path d="M{n(SETTING.place(each))} 20V32" stroke-width="2.5"/>' for each in range(60, 91, 10)]
    parts += [f'<path d="M{n(SETTING.place(each))} 23V29" stroke-width="2"/>' for each in range(55, 90, 10)]
    parts.append('<path d="M296.6 20L306 26L296.6 32" stroke-width="3"/>')
    parts += ['<g transform="translate(16 26) rotate(90)">', thermometer(0, -48, 6), "</g>"]
    for number, (key, icon) in enumerate(rows):
        middle = 62 + 42 * number
        low, high = ends(lines[key])
        left, right = SETTING.place(low), SETTING.place(high)
        parts.append(f'<path d="M84 {middle}H306" stroke-width="1.5" stroke-dasharray="2 7"/>')
        parts += icon(42, middle)
        parts += hatched(left, right, middle - 12, middle + 12)
        parts.append(
            f'<rect x="{n(left)}" y="{middle - 12}" width="{n(right - left)}" height="24" rx="3" data-line="{key}"/>'
        )
        parts.append(named(f"{{{key}}}", min(max((left + right) / 2, 132), 258), middle - 15))
    return drawn(parts)


def hatched(left: float, right: float, top: float, bottom: float) -> list[str]:
    """Return slanted strokes that fill a box, so that a band shows without colour."""
    strokes, high = [], bottom - top
    start = left - high
    while start < right:
        x1, x2 = max(start, left), min(start + high, right)
        if x2 > x1:
            strokes.append(f"M{n(x1)} {n(bottom - (x1 - start))}L{n(x2)} {n(bottom - (x2 - start))}")
        start += 7
    return [f'<path d="{"".join(strokes)}" stroke-width="1.6"/>']


def thermometer(x: float, top: float, bottom: float) -> str:
    """Return a small thermometer that says what goes up."""
    return (
        f'<path d="M{n(x - 5)} {n(top)}a5 5 0 0 1 10 0V{n(bottom - 20)}a11 11 0 1 1 -10 0z" {PAPER} '
        'stroke-width="2.5"/>'
        f'<path d="M{n(x)} {n(bottom - (bottom - top) * 0.5)}V{n(bottom - 12)}" stroke-width="5"/>'
    )


def dot(x: float, y: float) -> str:
    """Return a full dot on the curve."""
    return f'<circle cx="{n(x)}" cy="{n(y)}" r="6.5" fill="currentColor" stroke="none"/>'


def ladle(x: float) -> str:
    """Return a small ladle under the axis."""
    return (
        f'<path d="M{n(x - 11)} 198h22c0 16 -22 16 -22 0z" {PAPER} stroke-width="2.5"/>'
        f'<path d="M{n(x + 11)} 198l9 -8" stroke-width="3"/>'
    )


def cross(x: float, y: float) -> list[str]:
    """Return a cross."""
    return [
        f'<path d="M{n(x - 8)} {n(y - 8)}L{n(x + 8)} {n(y + 8)}M{n(x + 8)} {n(y - 8)}L{n(x - 8)} {n(y + 8)}" '
        'stroke-width="4"/>'
    ]


def named(lines: str, x: float, y: float, anchor: str = "middle") -> str:
    """Return a number, named in braces, that is printed in the reader's units when the drawing is shown."""
    return (
        f'<text x="{n(x)}" y="{n(y)}" font-size="18" font-weight="700" text-anchor="{anchor}" fill="currentColor" '
        f'stroke="none">{lines}</text>'
    )


def check(x: float, y: float) -> str:
    """Return a check mark."""
    return f'<path d="M{n(x - 9)} {n(y)}l7 7l13 -17" stroke-width="4"/>'


def white(x: float, y: float) -> list[str]:
    """Return an egg white: a wide puddle with nothing in it."""
    return [
        f'<path d="M{n(x - 28)} {n(y + 6)}C{n(x - 32)} {n(y - 10)} {n(x - 12)} {n(y - 14)} {n(x - 2)} {n(y - 10)}'
        f"S{n(x + 26)} {n(y - 14)} {n(x + 28)} {n(y + 2)}S{n(x + 6)} {n(y + 16)} {n(x - 4)} {n(y + 12)}"
        f'S{n(x - 24)} {n(y + 16)} {n(x - 28)} {n(y + 6)}z" {PAPER}/>'
    ]


def yolk(x: float, y: float) -> list[str]:
    """Return a yolk."""
    return [
        f'<circle cx="{n(x)}" cy="{n(y)}" r="14" {PAPER}/>',
        f'<path d="M{n(x - 7)} {n(y - 2)}a8 8 0 0 1 6 -6" stroke-width="2"/>',
    ]


def mixed_bowl(x: float, y: float) -> list[str]:
    """Return a bowl with a whisk: whole egg, mixed."""
    return [
        f'<path d="M{n(x - 24)} {n(y - 8)}C{n(x - 22)} {n(y + 12)} {n(x - 12)} {n(y + 16)} {n(x - 6)} {n(y + 16)}'
        f'h12C{n(x + 12)} {n(y + 16)} {n(x + 22)} {n(y + 12)} {n(x + 24)} {n(y - 8)}z" {PAPER}/>',
        f'<path d="M{n(x)} {n(y + 10)}C{n(x - 10)} {n(y + 2)} {n(x - 4)} {n(y - 8)} {n(x + 6)} {n(y - 12)}'
        f'M{n(x)} {n(y + 10)}C{n(x + 10)} {n(y + 6)} {n(x + 12)} {n(y - 4)} {n(x + 6)} {n(y - 12)}" stroke-width="2"/>',
        f'<path d="M{n(x + 6)} {n(y - 12)}L{n(x + 12)} {n(y - 20)}" stroke-width="4"/>',
    ]


def pot(x: float, y: float) -> list[str]:
    """Return a pot: egg thinned with milk and sugar."""
    return [
        f'<path d="M{n(x - 18)} {n(y - 12)}v22q0 5 5 5h26q5 0 5 -5v-22" {PAPER}/>',
        f'<path d="M{n(x - 18)} {n(y - 6)}h-8M{n(x + 18)} {n(y - 6)}h8" stroke-width="3"/>',
        f'<path d="M{n(x - 16)} {n(y - 3)}q8 -4 16 0t16 0" stroke-width="2"/>',
    ]


def drawn(parts: Iterable[str]) -> str:
    """Return the text of a figure."""
    return "\n".join([HEAD, *(f"  {part}" for part in parts), "</svg>", ""])


def n(value: float) -> str:
    """Return a place on the paper, to a tenth.

    The last bits are rounded off first: they differ between versions of Python, and decide a place half way.
    """
    return f"{round(value, 6):.1f}".removesuffix(".0")


def main(names: Sequence[str] = ()) -> None:
    """Draw the figures into the content folder."""
    content, problems = load_content(CONTENT)
    assert content is not None, problems
    for name, text in figures(content).items():
        if not names or name in names:
            (CONTENT / "techniques" / TECHNIQUE / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
