"""Skills: what is asked of a cook one by one, each written once for all techniques that ask for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.kinds import Kind, Table, Written
from trainer.content.languages import SourceFiles, check_lists, check_stray_files, read_languages
from trainer.content.limits import First
from trainer.content.mapping_reader import SHORT
from trainer.content.nodes import Diagnostics, Node
from trainer.content.questions import A_RANGE, alternatives, closed_ranges, settings_ranges, takes_words
from trainer.content.standard import LoadContext
from trainer.content.words import Filler, Placeholders
from trainer.kitchen.quiz.drawing import CannotDraw, setting_problems
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.material import PRACTICE, Material
from trainer.kitchen.quiz.skill_luck import structural_luck
from trainer.kitchen.skills.rule import MOST_SAFETY_LUCK, OTHER_MONTHS, SAFETY_MONTHS, TooLucky, base_of
from trainer.kitchen.technique import AskedSkill, QuestionSetting
from trainer.store.catalogues import ENGLISH

STRUCTURE = "skill.yaml"
UNSETTLED = base_of(MOST_SAFETY_LUCK)
"""What a skill asks for while its luck is not known."""


class SkillFile(Block):
    """The structure of one skill: `skill.yaml`."""

    family: str = key(kinds.one_of(FAMILIES), "What is asked; `trainer families` lists them. One, for one thing asked.")
    ranges: Table[Node] | None = optional(
        kinds.by_id(A_RANGE, free=True), "Numbers to draw from; `trainer families <family>` lists them."
    )
    safety: bool = optional(
        kinds.yes_no(), "Whether a mistake can hurt somebody; always so where the family has a caution."
    )
    months: int = optional(
        kinds.whole(1, OTHER_MONTHS),
        f"For how many months a pass is good: {SAFETY_MONTHS} for safety, else {OTHER_MONTHS}; never more.",
    )
    of: str = optional(
        kinds.name_of("techniques"), "Whose faults, steps or scenes it asks about, where the family takes them."
    )
    same_as: str = optional(
        kinds.name_of("skills"), "Another skill that asks the same thing; no technique asks for both."
    )

    @classmethod
    def schema(cls) -> dict[str, object]:
        """Return the block as JSON Schema; each family knows its own ranges."""
        return {**super().schema(), "allOf": closed_ranges()}

    @property
    def is_safety(self) -> bool:
        """Return whether a mistake can hurt somebody."""
        return self.safety or (self.family in FAMILIES and FAMILIES[self.family].safety)

    @property
    def good_for(self) -> int:
        """Return for how many months a pass is good."""
        usual = SAFETY_MONTHS if self.is_safety else OTHER_MONTHS
        return min(self.months, usual) if "months" in self.at.nodes else usual

    def check(self) -> None:
        """Add the problems of keys that do not go together."""
        lines, add = self.at.lines, self.at.diagnostics.add
        if "safety" in lines and not self.safety and self.is_safety:
            message = f"safety is no, but {self.family} has a caution."
            add(lines["safety"], message, "Write yes, or take the key out: a mistake here can hurt somebody.")
        if self.is_safety and self.months > SAFETY_MONTHS:
            message = f"months is {self.months}, more than the {SAFETY_MONTHS} of a skill about safety."
            add(lines["months"], message, f"Write {SAFETY_MONTHS} or fewer, or take the key out.")
        if self.same_as and self.same_as == self.at.name:
            add(lines["same_as"], f"{self.at.name} is said to ask the same as itself.", "Name another skill.")
        takes = takes_words(FAMILIES[self.family]) if self.family in FAMILIES else ""
        if takes and "of" not in lines:
            self.at.add(f"{self.at.name} does not say whose {takes} it asks about.", "Add `of: <technique>`.")
        if self.family in FAMILIES and not takes and "of" in lines:
            message = f"of is not a key of a skill of {self.family}."
            add(lines["of"], message, "Take it out: its questions need no technique's words.")


class SkillWords(Block):
    """The words of one skill: `en.yaml`, `es.yaml`."""

    title: Written | None = key(kinds.words(SHORT), "What is asked, in a few words.")
    words: Table[Written] | None = optional(
        kinds.words_by_id(), "Things its questions name, in the lists of its family, an upright bar between two."
    )


@dataclass
class SkillStructure:
    """The structure of one skill with all that does not hang on words, ready to be told."""

    id: str
    block: SkillFile
    context: LoadContext
    setting: QuestionSetting

    def told(self, words: SkillWords, language: str, first: First) -> AskedSkill:
        """Return the record in the words of one language, its luck still to be settled."""
        numbers = {f"code.{id}": limit for id, limit in self.context.code.items()}
        filler = Filler(words.at.diagnostics, language, Placeholders(numbers, language, first))
        kind = FAMILIES.get(self.block.family)
        lists = words.words.known(kind.words) if words.words and kind else {}
        told = {id: alternatives(filler.fill(text)) for id, text in lists.items()}
        block, setting = self.block, replace(self.setting, words=told)
        luck = MOST_SAFETY_LUCK
        title = filler.fill(words.title)
        return AskedSkill(
            self.id, title, setting, block.is_safety, block.good_for, luck, UNSETTLED, block.of, block.same_as
        )


@dataclass(frozen=True, slots=True)
class SkillFiles:
    """The files of one skill, read."""

    structure: SkillStructure
    files: SourceFiles[AskedSkill]


def skill_files(folder: Path, context: LoadContext, diagnostics: Diagnostics) -> SkillFiles | None:
    """Return the skill in a folder; None where its structure cannot be read at all."""
    own = diagnostics.of(f"skills/{folder.name}")
    check_stray_files(folder, STRUCTURE, own)
    before, at = own.faults, own.of(f"{own.file}/{STRUCTURE}")
    kind: Kind = kinds.nested(SkillFile)
    block: SkillFile | None = read_file(folder / STRUCTURE, kind, folder.name, at, context.known)
    if block is None:
        return None
    ranges = settings_ranges(block.family, block.ranges, context.code, block.at)
    structure = SkillStructure(folder.name, block, context, QuestionSetting(block.family, {}, ranges, 1))
    is_sound = own.faults == before
    alike = partial(check_lists, block.family, context.question_words)
    files = read_languages(folder, SkillWords, structure.told, own, alike)
    files.is_sound = is_sound and ENGLISH in files.sound
    return SkillFiles(structure, files)


@dataclass(frozen=True, slots=True)
class SettledSkills:
    """The skills of a kitchen that can be asked, each with its luck and how many right in a row it asks for."""

    files: Mapping[str, SkillFiles]
    lucks: Mapping[str, AskedSkill]

    def told(self, language: str, first: First) -> dict[str, AskedSkill]:
        """Return the skills in a language."""
        return dict(self._told(language, first))

    def _told(self, language: str, first: First) -> Iterator[tuple[str, AskedSkill]]:
        for id, settled in self.lucks.items():
            found = self.files[id].files.told(language, first)
            if found is not None:
                yield id, replace(found, luck=settled.luck, base=settled.base)


def settle_skills(
    files: Mapping[str, SkillFiles], materials: Mapping[str, Material], context: LoadContext
) -> SettledSkills:
    """Return the skills that can be asked; *materials* is what each sound technique gives to its questions.

    A skill from which nothing can be drawn, and one that luck passes too often, is a problem and left out.
    """
    found = {id: _settled(each, materials, context) for id, each in files.items()}
    return SettledSkills(files, {id: skill for id, skill in found.items() if skill is not None})


def _settled(each: SkillFiles, materials: Mapping[str, Material], context: LoadContext) -> AskedSkill | None:
    """Return a skill with its luck; None where it cannot be asked, which is told."""
    block, skill = each.structure.block, each.files.told(ENGLISH, "us")
    material = materials.get(block.of, None) if block.of else PRACTICE
    if skill is None or material is None:
        return None
    asked = QuestionContext(context.question_words, material, skill.setting)
    luck = _luck(block, asked)
    if luck is None:
        return None
    try:
        settled = replace(skill, luck=luck, base=base_of(luck))
    except TooLucky as problem:
        block.at.add(str(problem), "Give it more choices, or ask another family.")
        return None
    if skill.is_safety and luck > MOST_SAFETY_LUCK:
        message = f"{skill.id} is about safety, and luck is right {luck} of the time: more than {MOST_SAFETY_LUCK}."
        block.at.add(message, "Give it more choices, ask for a number, or ask another family.")
        return None
    return settled


def _luck(block: SkillFile, asked: QuestionContext) -> Fraction | None:
    """Return the luck of a setting; None where nothing can be drawn from it, which is told."""
    takes = takes_words(FAMILIES[block.family])
    hint = f"Write more {takes} that differ." if takes else "Widen the ranges, or leave them to the family."
    problems = setting_problems(asked.setting, asked) if asked.setting else ()
    try:
        if not problems:
            return structural_luck(asked)
    except CannotDraw as problem:
        problems = (f"{problem}.",)
    for each in problems:
        block.at.add(each, hint)
    return None
