"""Scenes of a technique to decide in: one act of several, all that fits, act and reason, pictures named, a number."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, Draw, Figure, Keyed, Option, mixed_up
from trainer.kitchen.quiz.picks import Picks
from trainer.kitchen.quiz.scenes import LETTERS, Scene, SceneChoice, SceneKey
from trainer.kitchen.quiz.sentences import Sentence, Series, sentence
from trainer.kitchen.quiz.svg import At, number, words
from trainer.kitchen.quiz.wording import clock, with_unit
from trainer.messages import translate
from trainer.recipe_math.printing import both_ways
from trainer.recipe_math.quantity import COUNT, Quantity

FEWEST = 4
SIDE, GAP, HEAD = 100, 10, 22
METHODS = {"which_limit": "other_limit", "mark_all": "marked_too_much", "next_why": "other_act"}
Drawn = Mapping[str, Fraction | Quantity]


def _decide(draw: Draw) -> ChoiceItem | None:
    """Return a question from one of the technique's scenes; None where there is none, or too few answers differ."""
    scenes = {scene.id: scene for scene in draw.material.scenes}
    if not scenes:
        return None
    scene = scenes[draw.picks.one(list(scenes))]
    drawn: dict[str, Fraction | Quantity] = {}
    for each in scene.draws:
        drawn[each.id] = each.value(draw.picks.one(each.picks), drawn)
    told = {name: _printed(value, scene) for name, value in drawn.items()}
    if scene.key is not None:
        return _keyed(scene, scene.key, drawn, told)
    if scene.pictures:
        return _pictures(scene, draw.picks, told)
    options = _options(scene.choices, told, METHODS.get(scene.kind, "another_case"))
    if len(options) < FEWEST and scene.kind not in {"mark_all", "next_why"} and not draw.picks.is_kept:
        return None
    reasons = _options(scene.reasons, told, "other_reason")
    return ChoiceItem(
        _asked(scene, told),
        mixed_up(draw.picks, options),
        _solved([option for option in (*options, *reasons) if not option.method], scene, told),
        Figure(scene.figure, scene.figure_alt or None),
        marks_all=scene.kind == "mark_all",
        reasons=mixed_up(draw.picks, reasons) if reasons else (),
    )


def _printed(value: Fraction | Quantity, scene: Scene) -> str:
    """Return a drawn number as it is read: a time of day, or a quantity in both systems of measures."""
    return clock(value) if isinstance(value, Fraction) else translate(both_ways(value, scene.first))


def _asked(scene: Scene, told: Mapping[str, str]) -> Series:
    """Return what is seen, and what is asked of it; a number is asked for by the scene itself."""
    seen = scene.seen.format_map(told)
    return Series((seen,) if scene.kind == "keyed" else (seen, sentence(f"ask_{scene.kind}")))


def _options(choices: Sequence[SceneChoice], told: Mapping[str, str], method: str) -> tuple[Option, ...]:
    """Return the choices in words, the right ones first; a wrong one that reads like another is left out."""
    found: dict[str, Option] = {}
    for choice in sorted(choices, key=lambda choice: not choice.is_right):
        text = choice.text.format_map(told)
        why = choice.wrong.format_map(told) or None
        found.setdefault(text, Option(choice.id, text, "" if choice.is_right else method, why))
    return tuple(found.values())


def _solved(right: Sequence[Option], scene: Scene, told: Mapping[str, str]) -> tuple[Sentence | str, ...]:
    """Return what is right, and why."""
    texts = Series(tuple(option.text for option in right), "; ")
    return (sentence("right_is", answers=texts), scene.because.format_map(told))


def _pictures(scene: Scene, picks: Picks, told: Mapping[str, str]) -> ChoiceItem:
    """Return a question that shows the pictures in a row, in a random order, each to be named."""
    by_id = {picture.id: picture for picture in scene.pictures}
    shown = [by_id[each] for each in picks.mixed(list(by_id))]
    names = tuple(Option(choice.id, choice.text.format_map(told)) for choice in scene.choices)
    texts = {option.id: option.text for option in names}
    pairs = Series(
        tuple(Series((letter, texts[each.name])) for letter, each in zip(LETTERS, shown, strict=False)), "; "
    )
    alt = Series(tuple(Series((f"{letter}:", each.alt)) for letter, each in zip(LETTERS, shown, strict=False)))
    return ChoiceItem(
        _asked(scene, told),
        names,
        (sentence("right_is", answers=pairs), scene.because.format_map(told)),
        Figure(in_a_row([picture.svg for picture in shown]), alt),
        names=tuple(picture.name for picture in shown),
    )


def in_a_row(pictures: Sequence[str]) -> str:
    """Return pictures as one, side by side under their letters."""
    wide = len(pictures) * SIDE + (len(pictures) - 1) * GAP
    parts = []
    for place, svg in enumerate(pictures):
        left = place * (SIDE + GAP)
        parts.append(words(At(left + SIDE / 2, HEAD - 6), LETTERS[place], 18))
        parts.append(_placed(svg, left))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {SIDE + HEAD}" fill="none" '
        f'stroke="currentColor">{"".join(parts)}</svg>'
    )


def _placed(svg: str, left: float) -> str:
    """Return a picture inside another one, its own size taken off."""
    head, rest = re.match(r"\s*<svg([^>]*)>", svg), re.sub(r"^\s*<svg[^>]*>", "", svg)
    own = re.sub(r'\s(?:width|height|xmlns)="[^"]*"', "", head[1]) if head else ""
    return f'<svg x="{number(left)}" y="{HEAD}" width="{SIDE}" height="{SIDE}"{own}>{rest}'


def _keyed(scene: Scene, key: SceneKey, drawn: Drawn, told: Mapping[str, str]) -> ChoiceItem | None:
    """Return a question for a number; None where it comes to nothing, or to what another line comes to."""
    value = key.value(drawn)
    wrong = {"other_limit": key.value(drawn, key.instead)} if key.instead else {}
    if value <= 0 or value in wrong.values():
        return None
    tolerance = Fraction(0) if key.unit == "each" or key.line.unit.dimension == COUNT else Fraction(1, 2)
    solution = (sentence("number_is", answer=with_unit(value, key.unit)), scene.because.format_map(told))
    keyed = Keyed(value, key.unit, tolerance, {name: each for name, each in wrong.items() if each > 0})
    return ChoiceItem(_asked(scene, told), (), solution, Figure(scene.figure, scene.figure_alt or None), keyed=keyed)


DECIDE = ChoiceFamily(
    name="decide",
    level="in a shift",
    unit="",
    ranges={},
    words=(),
    safety=True,
    formula="what the standard of the technique and the local code ask for in this scene",
    checked_against="The technique's own scenes, their numbers from its standard and from the local code.",
    choose=_decide,
    slips=(
        "another_case", "other_limit", "marked_too_much", "left_out", "other_act", "other_reason", "names_swapped",
    ),
    takes="scenes",
)  # fmt: skip
