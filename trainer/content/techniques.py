"""Techniques: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.kinds import BRACE, Table, Written
from trainer.content.languages import SourceFiles, check_questions, check_stray_files, read_languages
from trainer.content.law import made_critical, points_held
from trainer.content.limits import First
from trainer.content.mapping_reader import SHORT
from trainer.content.nodes import Diagnostics, read_tree
from trainer.content.parts import (
    FaultWords,
    HazardBlock,
    StandardLines,
    line_name,
)
from trainer.content.point_check import Checklist, PartAsked, check_checklist
from trainer.content.point_words_check import check_acts, check_taught
from trainer.content.points import (
    BelowBlock,
    FinishBlock,
    PartBlock,
    PointBlock,
    PointStructure,
    PointTold,
    finish_structure,
    point_structure,
    point_words,
)
from trainer.content.questions import (
    QuestionBlock,
    check_settings,
    family_words,
    setting_of,
    words_of_families,
)
from trainer.content.quiz import AnyQuiz, DecidingQuiz, EarlierQuiz, FixedQuiz, QuizSetting, check_drawable, quiz_of
from trainer.content.recipe_of import allergens_of_recipe, check_recipe
from trainer.content.scenes import SceneBlock, ScenesFile, SceneStructure, scene_structures, scenes_told
from trainer.content.standard import STANDARD, LoadContext, faulty_lines, standard_of
from trainer.content.steps import (
    StepBlock,
    StepStructure,
    StepWordsBlock,
    check_drawings,
    check_groups,
    groups_of,
    step_of,
    step_structure,
    words_by_line,
)
from trainer.content.words import Filler, Placeholders, words_for
from trainer.content.worked import COMPUTED
from trainer.kitchen.skills.bounds import FEWEST, MOST
from trainer.kitchen.technique import (
    AskedSkill,
    ChecklistPart,
    Edition,
    Limit,
    Point,
    PointChoice,
    QuestionSetting,
    Technique,
    Timer,
    Word,
)
from trainer.store.catalogues import ENGLISH

STRUCTURE = "technique.yaml"
MOST_NUMBERS = 3


class EditionBlock(Block):
    """One edition; numbered from 1 without a gap."""

    called = "an edition"

    number: int = key(kinds.whole(1, 999), "Its number.")
    since: date = key(kinds.day(), "The day from which it holds.")
    changed: str = key(kinds.text(), "What changed, in a sentence.")
    sign_offs_hold: bool = key(kinds.yes_no(), "Whether sign-offs on the edition before still count.")
    unless_missed: tuple[str, ...] = optional(
        kinds.names_of("points"), "Whoever missed one of these points shows it again."
    )


class TechniqueFile(Block):
    """The structure of one technique: `technique.yaml`."""

    own_names = (
        ("hazards", "hazards"), ("points", "checklist"), ("points", "finish"), ("steps", "steps"), ("cases", "cases"),
    )  # fmt: skip
    one_of = ("knowledge", "questions")

    editions: tuple[EditionBlock, ...] = key(kinds.list_of(kinds.nested(EditionBlock), 1), "What changed since when.")
    recipe: str = optional(
        kinds.name_of("recipes"),
        "The recipe the work makes: its allergens follow from it, and its numbers stand there.",
    )
    allergens: tuple[str, ...] = optional(
        kinds.names_of("allergens"), "What the work has in it; beside a recipe, only what that does not have."
    )
    standard: Table[Block] | None = optional(STANDARD, "Measured lines by id: typed with their source, or worked out.")
    numbers: tuple[Written, ...] = optional(
        kinds.list_of(line_name()), f"Up to {MOST_NUMBERS} lines whose numbers stand on the front page."
    )
    steps: Mapping[str, StepBlock] = key(kinds.entries(StepBlock, at_least_one=True), "What the hands do, in order.")
    hazards: Mapping[str, HazardBlock] = optional(kinds.entries(HazardBlock), "What can hurt.")
    faults: Mapping[str, int] = optional(kinds.own_ids(), "What goes wrong.")
    checklist: Mapping[str, PointBlock] = key(
        kinds.entries(PointBlock, at_least_one=True), "What an assessor looks at."
    )
    cases: Mapping[str, int] = optional(kinds.own_ids(), "What may be watched; the assessor picks one first.")
    finish: FinishBlock | None = optional(kinds.nested(FinishBlock), "How long the whole of it may take.")
    craft_needed: int | None = optional(kinds.whole(0, 100), "How many craft points are needed, finish among them.")
    scored_needed: int | None = optional(
        kinds.whole(0, 100), "Of the former kind: how many of the points that are not critical are needed."
    )
    parts: Mapping[str, PartBlock] = optional(
        kinds.entries(PartBlock), "Parts of a long checklist, each watched and signed by itself; all are needed."
    )
    judged_in: Table[tuple[Written, ...]] | None = optional(
        kinds.by_id(kinds.list_of(line_name(), 1)), "Limits taught here and watched in another technique, by its id."
    )
    quiz: AnyQuiz | None = key(
        kinds.shapes(FixedQuiz, DecidingQuiz, EarlierQuiz), "What passes the quiz.", beside=("questions",)
    )
    sign_off_months: int = key(kinds.whole(1, 120), "For how many months a sign-off is good.")
    knowledge: tuple[str, ...] = optional(
        kinds.names_of("skills"), f"The skills a cook is asked one by one: {FEWEST} to {MOST}."
    )
    answer_sets: Table[tuple[str, ...]] | None = optional(
        kinds.by_id(kinds.each_once(kinds.text(SHORT))), "Answers that several scenes share, by the set's id."
    )
    scenes: Mapping[str, SceneBlock] = optional(kinds.entries(SceneBlock), "Scenes to decide in: the family `decide`.")
    questions: Mapping[str, QuestionBlock] = optional(
        kinds.entries(QuestionBlock), "In place of skills, the former format: what a quiz asks."
    )
    sources: tuple[str, ...] = optional(
        kinds.names_of("sources"), "What a reader is shown: every source of a number above."
    )

    def check(self) -> None:
        """Add a problem for editions that are not numbered from one, each later than the one before."""
        before: EditionBlock | None = None
        for place, edition in enumerate(self.editions, 1):
            number, since = edition.number, edition.since
            if number != place:
                hint = f"Number the editions from 1 without a gap: this is {place}."
                edition.at.add(f"Edition {number} stands in place {place}.", hint)
            if before and since <= before.since:
                hint = f"An edition starts after the one before it, {before.since}."
                edition.at.add(f"Edition {number} starts on {since}.", hint)
            before = edition
        if not self.editions and "editions" in self.at.nodes:
            self.at.add(f"{self.at.name} has no edition.", "Add one under `editions`.")
        self._check_quiz()

    def _check_quiz(self) -> None:
        """Add the problems of a quiz beside skills, and of one that says no more than how long it is good."""
        lines, add = self.at.lines, self.at.diagnostics.add
        if "knowledge" in lines and not self.knowledge:
            add(lines["knowledge"], f"{self.at.name} asks for 0 skills.", f"Ask for {FEWEST} to {MOST}.")
        if "questions" in lines and "knowledge" in lines:
            message = "questions stands beside knowledge."
            add(lines["questions"], message, "Take it out: the skills say what is asked.")
        elif "knowledge" in lines and self.quiz is not None and not isinstance(self.quiz, EarlierQuiz):
            hint = "Write `quiz: {months: 12}`, for how long a quiz passed before still counts, or take it out."
            add(lines["quiz"], "quiz says what passes it, but the skills are asked one by one.", hint)
        elif "knowledge" not in lines and isinstance(self.quiz, EarlierQuiz):
            self.quiz.at.missing("need_right")


class TechniqueWords(ScenesFile):
    """The words of one technique: `en.yaml`, `es.yaml`."""

    title: Written | None = key(kinds.words(SHORT), "What a cook calls it.")
    goal: Written | None = key(kinds.words(), "What a cook can do who has learned it.")
    words: Table[Written] | None = optional(kinds.by_word(kinds.words()), "Words a cook needs first.")
    standard: Table[Written] | None = optional(
        kinds.words_by_id(), "A sentence for each line, which names it in braces."
    )
    tools: tuple[Written, ...] = optional(kinds.list_of(kinds.words(SHORT, "a tool")), "What is needed.")
    equipment: tuple[Written, ...] = optional(
        kinds.list_of(kinds.words(SHORT, "a piece of equipment")),
        "What one learns to use, in a word or two each, for a cook's record; without it, the tools.",
    )
    steps: Table[StepWordsBlock] | None = key(
        kinds.by_id(kinds.nested(StepWordsBlock), free=True), "The words of each step."
    )
    groups: Table[Written] | None = optional(kinds.words_by_id(), "The name of each group of steps.")
    numbers: Table[Written] | None = optional(words_by_line(), "A few words for each number of the front page.")
    hazards: Table[Written] | None = optional(kinds.words_by_id(), "The caution for each hazard.")
    faults: Table[FaultWords] | None = optional(
        kinds.by_id(kinds.nested(FaultWords), free=True), "The words of each fault."
    )
    checklist: Table[PointTold] | None = key(
        kinds.by_id(point_words(), free=True),
        "What the assessor must see, for each point; under finish, from what to what.",
    )
    cases: Table[Written] | None = optional(kinds.words_by_id(), "What each case is called.")
    parts: Table[Written] | None = optional(kinds.words_by_id(), "What each part is called.")
    questions: Table[Table[Written]] | None = optional(words_of_families(), "Things that questions name.")
    editions: tuple[Written, ...] = optional(
        kinds.list_of(kinds.words(called="an edition")), "What changed in each edition; in other languages alone."
    )


@dataclass
class TechniqueStructure:
    """The structure of one technique with all that does not hang on words, ready to be told."""

    id: str
    block: TechniqueFile
    context: LoadContext
    standard: Mapping[str, Limit]
    asked: tuple[PointStructure, ...]
    points: tuple[Point, ...]
    steps: Mapping[str, StepStructure]
    settings: tuple[QuestionSetting, ...]
    quiz: QuizSetting
    scenes: tuple[SceneStructure, ...] = ()
    numbers: Mapping[str, Limit] = field(default_factory=dict)

    @property
    def is_typed(self) -> bool:
        """Return whether the points are law, result and craft."""
        return any(each.point.type for each in self.asked)

    def _check_words(self, words: TechniqueWords, points: Mapping[str, PointTold], language: str) -> None:
        """Add the problems of points that tell two acts, and in English of limits that are taught and never watched."""
        check_acts(self.asked, points, language, [id for id, point in self.block.checklist.items() if point.one_act])
        if language == ENGLISH:
            taught = [text for step in (words.steps or {}).values() for text in (step.do, step.cue) if text]
            check_taught(taught, self._watched, self.context.code, words.at)

    @property
    def judges(self) -> frozenset[str]:
        """Return the limits of the code that are judged or said here, as files name them."""
        lines = [line.id for each in self.asked for line in (*each.point.lines, each.point.law) if line is not None]
        named = [name.text for point in self.block.checklist.values() for name in named_by_point(point)]
        return frozenset([*named, *(f"code.{id}" for id in lines)])

    @property
    def _watched(self) -> frozenset[str]:
        """Return the limits of the code that are judged here, or watched in another technique."""
        elsewhere = [name.text for names in (self.block.judged_in or {}).values() for name in names]
        return self.judges | frozenset(elsewhere)

    @property
    def typed(self) -> tuple[Point, ...]:
        """Return the points as they are typed, whatever the code asks for."""
        return tuple(each.point for each in self.asked)

    @property
    def lines(self) -> Mapping[str, Limit]:
        """Return every line that words may name."""
        return {**self.standard, **self.context.lines}

    def told(self, words: TechniqueWords, language: str, first: First) -> Technique:
        """Return the record in the words of one language; where something is wrong it is only good for a draft."""
        block = self.block
        faulty = faulty_lines(block.standard, self.standard)
        filler = Filler(words.at.diagnostics, language, Placeholders(self.lines, language, first), faulty)
        fill = filler.fill
        sentences = words_for(list(block.standard or ()), words.standard, "standard", "line", words)
        steps = words_for(block.steps, words.steps, "steps", "step", words)
        hazards = words_for(block.hazards, words.hazards, "hazards", "hazard", words)
        faults = words_for(block.faults, words.faults, "faults", "fault", words)
        points = words_for([each.point.id for each in self.asked], words.checklist, "checklist", "point", words)
        if self.is_typed:
            self._check_words(words, points, language)
        cases = words_for(block.cases, words.cases, "cases", "case", words)
        parts = words_for(block.parts, words.parts, "parts", "part", words)
        questions = family_words(words.questions, block.questions, filler)
        told_steps = tuple(
            step_of(step, _timers_told(step.timers, sentences, filler), steps.get(id), filler)
            for id, step in self.steps.items()
        )
        triples = {step.id: step.triple for step in told_steps}
        return Technique(
            id=self.id,
            title=fill(words.title),
            goal=fill(words.goal),
            editions=_editions_told(block, words, filler),
            words=tuple(Word(word.replace("_", " "), fill(means)) for word, means in (words.words or {}).items()),
            standard=tuple(self.standard.values()),
            standard_text=tuple(fill(sentences.get(id)) for id in self.standard),
            tools=tuple(fill(tool) for tool in words.tools),
            equipment=tuple(fill(each) for each in words.equipment),
            steps=told_steps,
            groups=groups_of(block.steps, words.groups, words, filler),
            numbers=self._numbers_told(words, filler.for_labels()),
            faults=tuple(faults[id].fault(id, filler) for id in block.faults if id in faults),
            hazards=tuple(hazard.hazard(fill(hazards.get(id))) for id, hazard in block.hazards.items()),
            allergens=_allergens(block, self.context),
            checklist=tuple(
                each.told(held, points.get(held.id), filler, self.context.allergens, triples.get(held.step))
                for held, each in zip(self.points, self.asked, strict=True)
            ),
            scored_needed=max(0, scored_needed(block) - made_critical(self.typed, self.points)),
            cases=tuple(PointChoice(id, fill(cases.get(id))) for id in block.cases),
            parts=tuple(
                ChecklistPart(id, fill(parts.get(id)), part.points, part.craft_needed)
                for id, part in block.parts.items()
            ),
            questions=tuple(replace(each, words=questions.get(each.family, {})) for each in self.settings),
            need_right=self.quiz.need_right,
            quiz_months=self.quiz.months,
            sign_off_months=block.sign_off_months,
            sources=block.sources,
            words_edition=language,
            plan=self.quiz.plan,
            safety_percent=self.quiz.safety_percent,
            waits=self.quiz.waits,
            named=frozenset(self.standard) & (_named_by_key(block) | _named_by_brace(words)),
            scenes=scenes_told(self.scenes, words, filler, first),
        )

    def _numbers_told(self, words: TechniqueWords, labels: Filler) -> tuple[tuple[Limit, str], ...]:
        """Return the numbers of the front page, each with its few words."""
        told = words_for(self.numbers, words.numbers, "numbers", "number", words)
        return tuple((limit, labels.fill(told.get(id))) for id, limit in self.numbers.items())


@dataclass(frozen=True, slots=True)
class TechniqueFiles:
    """The files of one technique, read; which skills it asks for stands in its structure."""

    structure: TechniqueStructure
    files: SourceFiles[Technique]

    def told(self, language: str, first: First, skills: Mapping[str, AskedSkill]) -> Technique | None:
        """Return what is taught in a language; None where it is not sound, or asks for a skill that is not there."""
        return self._asking(self.files.told(language, first), skills, whole=True)

    def draft(self, language: str, first: First, skills: Mapping[str, AskedSkill]) -> Technique | None:
        """Return as much as can be read in a language, with the skills that are there."""
        return self._asking(self.files.draft(language, first), skills, whole=False)

    def _asking(self, found: Technique | None, skills: Mapping[str, AskedSkill], *, whole: bool) -> Technique | None:
        asked = tuple(skills[id] for id in self.structure.block.knowledge if id in skills)
        if found is None or (whole and len(asked) < len(self.structure.block.knowledge)):
            return None
        if not self.structure.block.knowledge:
            return found
        return replace(found, knowledge=asked, questions=tuple(skill.setting for skill in asked))


def technique_files(folder: Path, context: LoadContext, diagnostics: Diagnostics) -> TechniqueFiles | None:
    """Return the technique in a folder, to be told in any language; None where its structure cannot be read at all.

    It is sound where nothing in structure and English words is wrong: nobody learns from half a standard.
    """
    own = diagnostics.of(f"techniques/{folder.name}")
    check_stray_files(folder, STRUCTURE, own)
    before = own.faults
    structure = technique_structure(folder, context, own)
    if structure is None:
        read_tree(folder / f"{ENGLISH}.yaml", own.of(f"{own.file}/{ENGLISH}.yaml"))
        return None
    is_sound = own.faults == before
    alike = partial(check_questions, context.question_words)
    files = read_languages(folder, TechniqueWords, structure.told, own, alike)
    before = own.faults
    english = files.draft(ENGLISH, "us")
    if english is not None:
        check_settings(structure.block.questions, english, context.question_words)
        check_drawable(structure.block.quiz, english, context.question_words)
    files.is_sound = is_sound and own.faults == before and ENGLISH in files.sound
    return TechniqueFiles(structure, files)


def words_of(folder: Path, language: str, own: Diagnostics) -> TechniqueWords | None:
    """Return the words of one language; None where they cannot be read at all."""
    found: TechniqueWords | None = read_file(
        folder / f"{language}.yaml", kinds.nested(TechniqueWords), "the words", own
    )
    return found


def technique_structure(folder: Path, context: LoadContext, own: Diagnostics) -> TechniqueStructure | None:
    """Return the structure, what its keys have to do with each other and with other files checked.

    None where it cannot be read at all. *own* are the diagnostics of the folder.
    """
    diagnostics = own.of(f"{own.file}/{STRUCTURE}")
    kind = kinds.nested(TechniqueFile)
    block: TechniqueFile | None = read_file(folder / STRUCTURE, kind, folder.name, diagnostics, context.known)
    if block is None:
        return None
    standard = standard_of(block.standard, context, {}, diagnostics)
    lines = StandardLines({**standard, **context.lines}, faulty_lines(block.standard, standard))
    asked = asked_points(block, lines, _allergens(block, context))
    typed = [(each.point, each.at.line) for each in asked]
    is_typed = any(each.point.type for each in asked)
    settings = tuple(setting_of(each, context.code) for each in block.questions.values())
    for step in block.steps.values():
        check_drawings(step, folder, lines)
    check_groups(block.steps)
    check_needed(block, asked)
    if is_typed:
        check_checklist(_as_checked(folder.name, block, asked, context), diagnostics)
    _check_sources(block, standard)
    check_recipe(block, context)
    return TechniqueStructure(
        id=folder.name,
        block=block,
        context=context,
        standard=standard,
        asked=asked,
        points=tuple(point for point, _ in typed) if is_typed else points_held(typed, context.code, diagnostics),
        steps={id: step_structure(step, lines, block.standard or ()) for id, step in block.steps.items()},
        settings=settings,
        quiz=quiz_of(block.quiz, sum(setting.count for setting in settings)),
        numbers=_numbers(block, lines),
        scenes=scene_structures(block.scenes or {}, block.answer_sets or {}, lines, folder),
    )


def _numbers(block: TechniqueFile, lines: StandardLines) -> dict[str, Limit]:
    """Return the lines whose numbers stand on the front page; too many are a problem."""
    if len(block.numbers) > MOST_NUMBERS:
        line, message = block.at.lines["numbers"], f"numbers names {len(block.numbers)} lines."
        block.at.diagnostics.add(line, message, f"Name the {MOST_NUMBERS} a cook must know by heart.")
    found = {name.text: lines.named(name, block.at) for name in block.numbers}
    return {id: limit for id, limit in found.items() if limit is not None}


def _allergens(block: TechniqueFile, context: LoadContext) -> tuple[str, ...]:
    """Return the allergens of the recipe, then the technique's own, each once."""
    return tuple(dict.fromkeys((*allergens_of_recipe(block.recipe, context), *block.allergens)))


def asked_points(block: TechniqueFile, lines: StandardLines, allergens: tuple[str, ...]) -> tuple[PointStructure, ...]:
    """Return the points of a checklist as they are typed; the one that times the whole work is the last."""
    points = [point_structure(point, lines, allergens) for point in block.checklist.values()]
    finish = finish_structure(block.finish, lines) if block.finish else None
    return (*points, *([finish] if finish else []))


def scored_needed(block: TechniqueFile) -> int:
    """Return how many of the points that are not always needed are: of each part so many, where there are parts."""
    if block.parts:
        return sum(part.craft_needed for part in block.parts.values())
    return block.craft_needed or block.scored_needed or 0


def check_needed(block: TechniqueFile, asked: tuple[PointStructure, ...]) -> None:
    """Add a problem where more points are needed than there are, or it is not said how many."""
    is_typed, lines = any(each.point.type for each in asked), block.at.lines
    name, other = ("craft_needed", "scored_needed") if is_typed else ("scored_needed", "craft_needed")
    if other in lines:
        what = "Points with a type" if is_typed else "Points without a type"
        block.at.diagnostics.add(lines[other], f"{what} are not counted by {other}.", f"Write {name} in its place.")
    elif name not in lines and not block.parts:
        block.at.missing(name)
    elif name in lines and block.parts:
        hint = "Each part says its own: take this one out."
        block.at.diagnostics.add(lines[name], f"{name} stands beside parts.", hint)
    if not is_typed and not block.parts and name in lines:
        _check_scored(block, [each.point for each in asked])


def _as_checked(id: str, block: TechniqueFile, asked: tuple[PointStructure, ...], context: LoadContext) -> Checklist:
    """Return a checklist as it is checked: with its parts, or one of all points."""
    at = block.at.lines
    parts = [PartAsked(part.id, part.points, part.craft_needed, part.at.line) for part in block.parts.values()]
    everything = tuple(each.point.id for each in asked)
    whole = PartAsked("", everything, block.craft_needed or 0, at.get("craft_needed", block.at.line))
    return Checklist(
        id, asked, tuple(block.cases), parts or [whole], context.code, context.instruments, at.get("checklist", 1)
    )


def _check_scored(block: TechniqueFile, typed: Sequence[Point]) -> None:
    """Add a problem where more scored points are needed than there are."""
    scored = sum(not point.critical for point in typed)
    if (block.scored_needed or 0) > scored:
        hint = f"Ask for {scored} or fewer, or add points that are not critical."
        message = f"scored_needed is {block.scored_needed}, but {scored} points are scored."
        block.at.diagnostics.add(block.at.lines["scored_needed"], message, hint)


def named_by_point(point: PointBlock) -> Iterator[Written]:
    """Yield the measured lines a point names by a key."""
    yield from point.limits
    for each in point.expects:
        yield from each.of if isinstance(each, BelowBlock) else (each,)


def _check_sources(block: TechniqueFile, standard: Mapping[str, Limit]) -> None:
    """Add a problem for a source that a number names and the list leaves out: a reader is shown that list alone."""
    named = dict.fromkeys(limit.source for limit in standard.values() if limit.source != COMPUTED)
    for source in (each for each in named if each not in block.sources):
        line = block.at.lines.get("sources", block.at.line)
        message = f"A number comes from {source}, which sources leaves out."
        block.at.diagnostics.add(line, message, f"Add {source} to sources, so that a reader sees it.")


def _timers_told(timers: tuple[Timer, ...], sentences: Mapping[str, Written], filler: Filler) -> tuple[Timer, ...]:
    """Return timers with the sentences of their lines; one alone has none."""
    if len(timers) < 2:
        return timers
    return tuple(replace(timer, text=filler.fill(sentences.get(timer.line))) for timer in timers)


def _editions_told(block: TechniqueFile, words: TechniqueWords, filler: Filler) -> tuple[Edition, ...]:
    """Return the editions, with what changed in another language where its words say it."""
    editions = tuple(
        Edition(each.number, each.since, each.changed, each.sign_offs_hold, each.unless_missed)
        for each in block.editions
    )
    if filler.language == ENGLISH or not words.editions:
        return editions
    if len(words.editions) != len(editions):
        message = f"editions tells {len(words.editions)} of {len(editions)} editions."
        words.at.diagnostics.add(words.editions[0].line, message, "Say what changed in each, in their order.")
        return editions
    return tuple(replace(each, changed=filler.fill(told)) for each, told in zip(editions, words.editions, strict=True))


def _named_by_key(block: TechniqueFile) -> set[str]:
    """Return the measured lines that steps and points name by a key."""
    lasts = [name for step in block.steps.values() if step.lasts for name in _each(step.lasts)]
    shown = [step.triple.line for step in block.steps.values() if step.triple and step.triple.line]
    watched = [name for point in block.checklist.values() for name in named_by_point(point)]
    return {name.text for name in [*lasts, *shown, *block.numbers, *watched]}


def _each(names: Written | tuple[Written, ...]) -> tuple[Written, ...]:
    """Return one name or several as several."""
    return (names,) if isinstance(names, Written) else names


def _named_by_brace(words: TechniqueWords) -> set[str]:
    """Return the measured lines that the words of steps, cautions and points name in braces; reasons aside."""
    steps = [text for step in (words.steps or {}).values() for text in (step.do, step.cue)]
    points = [text for point in (words.checklist or {}).values() for text in point.texts]
    others = [*(words.hazards or {}).values(), *points]
    return {found[1].strip() for text in [*steps, *others] if text for found in BRACE.finditer(text.text)}
