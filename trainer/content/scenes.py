"""Scenes of a technique to decide in: their structure, their words, and how they become records.

    scenes:
      - {id: first_late, kind: what_now, answers: cooling, right: [tag_it], draws: {start: {between: 9:00 to 20:00}}}

A scene's numbers are lines of the standard and the code, in braces, or are drawn near one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.figure_files import figure_in, warn_of_refused
from trainer.content.kinds import Table, Written
from trainer.content.limits import First
from trainer.content.mapping_reader import SHORT, MappingReader, nearest
from trainer.content.parts import StandardLines
from trainer.content.scene_numbers import DRAW_SHAPES, KEY_SHAPES, DrawBlock, KeyBlock
from trainer.content.words import Filler, words_for
from trainer.kitchen.quiz.scenes import KINDS, Scene, SceneChoice, SceneDraw, SceneKey, SceneKind, ScenePicture

PICTURES = 3
Fill = Callable[[Written | None], str]
FEWEST_PARTS = 3
"""Acts, and reasons, of a scene that asks for both: with two, who knows one thing has the other."""


class PictureBlock(Block):
    """A picture to be named."""

    id: str = key(kinds.own_id())
    figure: Written | None = key(kinds.placed_text(SHORT), "An .svg file in this folder.")
    name: Written | None = key(kinds.placed_text(SHORT), "Which of the choices it is.")


class SceneBlock(Block):
    """A scene of the work to decide in."""

    named_by = "id"

    id: str = key(kinds.own_id())
    kind: str = key(kinds.one_of(KINDS), "What is asked.")
    answers: str = optional(kinds.text(SHORT), "A list of `answer_sets`, in place of choices of its own.")
    choices: Mapping[str, int] = optional(
        kinds.own_ids(), "What may be chosen or marked: acts, words, lines; of pictures the names, in order."
    )
    right: tuple[str, ...] = optional(kinds.each_once(kinds.text(SHORT)), "Which of them are right.")
    reasons: Mapping[str, int] = key(kinds.own_ids(), "Why the act is right.", when=("kind", ("next_why",)))
    reason: str = key(kinds.text(SHORT), "Which of the reasons is right.", when=("kind", ("next_why",)))
    pictures: Mapping[str, PictureBlock] = key(
        kinds.entries(PictureBlock), "Three pictures, each with a name of its own.", when=("kind", ("which_ready",))
    )
    figure: Written | None = optional(kinds.placed_text(SHORT), "An .svg file in this folder: what is seen.")
    draws: Table[DrawBlock] | None = optional(kinds.by_id(kinds.shapes(*DRAW_SHAPES)), "Numbers that are drawn.")
    number: KeyBlock | None = key(
        kinds.shapes(*KEY_SHAPES), "The number asked for.", name="key", when=("kind", ("keyed",))
    )

    def check(self) -> None:
        """Add the problems of choices that are not there, or too few, or of which none or all are right."""
        if self.kind == "keyed":
            return
        if "choices" in self.at.nodes and "answers" in self.at.nodes:
            self.at.add(f"{self.id} has choices and answers.", "Keep one of the two.")
        if self.kind == "which_ready":
            self._check_pictures()
        elif self.kind == "next_why":
            self._check_reasons()

    def _check_pictures(self) -> None:
        names = sorted(each.name.text for each in self.pictures.values() if each.name)
        if len(self.pictures) != PICTURES or names != sorted(self.choices):
            hint = "Give three choices and three pictures, each with one of them as its name."
            self.at.add(f"{self.id} does not name {PICTURES} pictures.", hint)

    def _check_reasons(self) -> None:
        if min(len(self.choices), len(self.reasons)) < FEWEST_PARTS:
            message = f"{self.id} has {len(self.choices)} acts and {len(self.reasons)} reasons."
            self.at.add(message, f"Give {FEWEST_PARTS} or more of each.")
        if self.reason not in self.reasons:
            self.at.add(f"{self.id} has no reason {self.reason!r}.", nearest(self.reason, self.reasons))


class ChoiceWords(Block):
    """The words of one choice."""

    text: Written | None = key(kinds.words(), "What is chosen, in nine words or fewer.")
    wrong: Written | None = optional(kinds.words(), "Why it is wrong, said to the cook; needed where it can be.")


CHOICE_WORDS = kinds.by_id(kinds.nested(ChoiceWords), free=True)


class SceneWords(Block):
    """The words of one scene."""

    seen: Written | None = key(kinds.words(), "What is seen, in twenty words or fewer; numbers in braces.")
    because: Written | None = key(kinds.words(), "Why the right answer is right.")
    choices: Table[ChoiceWords] | None = optional(CHOICE_WORDS, "The words of each choice.")
    reasons: Table[ChoiceWords] | None = optional(CHOICE_WORDS, "The words of each reason.")
    pictures: Table[Written] | None = optional(kinds.words_by_id(), "What each picture shows.")
    figure: Written | None = optional(kinds.words(), "What the figure shows, the answer left out.")


@dataclass(frozen=True, slots=True)
class SceneStructure:
    """A scene with all that does not hang on words."""

    block: SceneBlock
    choices: tuple[str, ...]
    draws: tuple[SceneDraw, ...]
    key: SceneKey | None
    svgs: Mapping[str, str]


def scene_structures(
    blocks: Mapping[str, SceneBlock], sets: Mapping[str, tuple[str, ...]], lines: StandardLines, folder: Path
) -> tuple[SceneStructure, ...]:
    """Return the scenes whose choices, numbers and figures are there; what is wrong is added to each."""
    return tuple(_structure(block, sets, lines, folder) for block in blocks.values())


def _structure(
    block: SceneBlock, sets: Mapping[str, tuple[str, ...]], lines: StandardLines, folder: Path
) -> SceneStructure:
    choices = tuple(block.choices)
    if block.answers:
        choices = sets.get(block.answers, ())
        if block.answers not in sets:
            block.at.unknown(block.at.lines["answers"], "answers", block.answers, sets)
    _check_right(block, choices)
    draws: dict[str, SceneDraw] = {}
    for id, each in (block.draws or {}).items():
        drawn = each.draw(id, lines, draws)
        if drawn is not None:
            draws[id] = drawn
    found = block.number.key_of(lines, draws) if block.number and block.kind == "keyed" else None
    return SceneStructure(block, choices, tuple(draws.values()), found, _svgs(block, folder))


def _check_right(block: SceneBlock, choices: tuple[str, ...]) -> None:
    """Add a problem where other than one choice is right; of a scene to mark, where none is, or all are."""
    if block.kind in {"keyed", "which_ready"}:
        return
    for id in (id for id in block.right if id not in choices):
        block.at.add(f"{block.id} has no choice {id!r}.", nearest(id, choices))
    right, is_mark_all = len(set(block.right) & set(choices)), block.kind == "mark_all"
    if (not 0 < right < len(choices)) if is_mark_all else right != 1:
        wanted = "some, and not all," if is_mark_all else "one"
        block.at.add(f"{right} of {len(choices)} choices of {block.id} are right.", f"Name {wanted} under `right`.")


def _svgs(block: SceneBlock, folder: Path) -> dict[str, str]:
    """Return the drawings a scene shows, by the file's name; one that is not there is a problem."""
    named = [block.figure, *(each.figure for each in (block.pictures or {}).values())]
    found = {}
    for name in (name for name in named if name and name.text):
        path = folder / name.text
        if Path(name.text).name != name.text or path.suffix != ".svg" or not path.is_file():
            hint = nearest(name.text, {each.name for each in folder.glob("*.svg")})
            block.at.diagnostics.add(name.line, f"There is no figure {name.text} in {folder.name}.", hint)
        else:
            warn_of_refused(name.line, path, block.at.diagnostics)
            found[name.text] = " ".join(figure_in(folder, name.text).split())
    return found


class ScenesFile(Block):
    """The scenes of a words file, and the answers that several of them share."""

    answer_sets: Table[Table[ChoiceWords]] | None = optional(
        kinds.by_id(CHOICE_WORDS), "The words of answers that several scenes share."
    )
    scenes: Table[SceneWords] | None = optional(
        kinds.by_id(kinds.nested(SceneWords), free=True), "The words of each scene."
    )


def scenes_told(
    structures: tuple[SceneStructure, ...], words: ScenesFile, filler: Filler, first: First
) -> tuple[Scene, ...]:
    """Return the scenes in the words of one language; what is not told in it is a problem."""
    told = words_for([each.block.id for each in structures], words.scenes, "scenes", "scene", words)
    return tuple(
        _told(each, told[each.block.id], words.answer_sets, filler, first)
        for each in structures
        if each.block.id in told
    )


def _told(
    found: SceneStructure, words: SceneWords, sets: Table[Table[ChoiceWords]] | None, filler: Filler, first: First
) -> Scene:
    """Return one scene; what is drawn stays in braces, to be filled in when it is asked."""
    block = found.block
    fill = filler.with_own({draw.id: f"{{{draw.id}}}" for draw in found.draws}).fill
    texts = sets.get(block.answers) if block.answers and sets else words.choices
    all_right = block.kind == "which_ready"
    return Scene(
        id=block.id,
        kind=cast(SceneKind, block.kind),
        seen=fill(words.seen),
        because=fill(words.because),
        choices=_choices(found.choices, found.choices if all_right else block.right, texts, words.at, fill),
        reasons=_choices(tuple(block.reasons or ()), (block.reason,), words.reasons, words.at, fill),
        pictures=_pictures(found, words, fill),
        draws=found.draws,
        key=found.key,
        figure=found.svgs.get(block.figure.text, "") if block.figure else "",
        figure_alt=_alt(block, words, fill),
        first=first,
    )


def _choices(
    ids: tuple[str, ...], right: tuple[str, ...], texts: Table[ChoiceWords] | None, at: MappingReader, fill: Fill
) -> tuple[SceneChoice, ...]:
    """Return choices with their words; a wrong one says why."""
    told: Mapping[str, ChoiceWords] = texts or {}
    for id in (id for id in ids if id not in told):
        at.add(f"{at.name} has no words for {id}.", f"Add `{id}: {{text: ...}}` to its choices.")
    for id in (id for id in ids if id in told and id not in right and told[id].wrong is None):
        at.add(f"{at.name} does not say why {id} is wrong.", "Add `wrong: ...` to it.")
    return tuple(
        SceneChoice(id, fill(told[id].text), id in right, "" if id in right else fill(told[id].wrong))
        for id in ids
        if id in told
    )


def _pictures(found: SceneStructure, words: SceneWords, fill: Fill) -> tuple[ScenePicture, ...]:
    """Return the pictures of a scene with what they show."""
    alts = words_for(list(found.block.pictures or ()), words.pictures, "pictures", "picture", words)
    return tuple(
        ScenePicture(id, found.svgs.get(each.figure.text, ""), fill(alts.get(id)), each.name.text)
        for id, each in (found.block.pictures or {}).items()
        if each.figure and each.name
    )


def _alt(block: SceneBlock, words: SceneWords, fill: Fill) -> str:
    """Return what a figure shows; one without words is a problem, and so are words without a figure."""
    if bool(block.figure) != bool(words.figure):
        words.at.add(f"{words.at.name} tells a figure it does not show, or shows one it does not tell.",
                     "Name the file in technique.yaml, and what it shows here.")  # fmt: skip
    return fill(words.figure)
