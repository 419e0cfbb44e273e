"""The checklist of a technique as files have it: its points, their words, and what each is judged by.

A point has a type: law (a limit or rule of the code), result (the dish), craft (scored). A checklist without types is
of the former kind: its points are critical, or scored.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import cast

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind, Schema, Table, Written
from trainer.content.lines import amount
from trainer.content.mapping_reader import ID, MappingReader, nearest
from trainer.content.nodes import Node, ScalarNode
from trainer.content.parts import StandardLines, line_name, line_names
from trainer.content.words import Filler
from trainer.kitchen.motion import SIDES, Triple
from trainer.kitchen.practical import PICKED
from trainer.kitchen.technique import ALLERGEN, HOUSE, Judged, Limit, Point, PointChoice, PointType
from trainer.recipe_math.quantity import Quantity

JUDGED = ("ticked", "weighed", "measured", "timed", "pair", "says", "tasted", "pictures")
MEASURED = ("weighed", "measured", "timed", "pair")
TYPES = ("law", "result", "craft")
DIMENSIONS = {"weighed": "mass", "timed": "duration"}
FINISH = "finish"
"""The id of the point that times the whole of the work."""
ALLERGENS = "allergens"
"""What is expected where every allergen of the technique is to be said."""
ALL = 0
PAIR_HINT = "Write two lines, the temperature and then its time: `limit: [code.reheat, code.reheat_time]`."


class BelowBlock(Block):
    """Worked out: which of these lines begin below another."""

    below: Written | None = key(line_name(), "The line they are held against.")
    of: tuple[Written, ...] = key(kinds.list_of(line_name(), 2), "Lines of the standard, each with its words.")


Expects = Written | BelowBlock


def expected() -> Kind:
    """Return one thing a cook is to say: an id, or what is worked out from lines."""
    below = kinds.nested(BelowBlock)

    def read(node: Node, name: str, at: MappingReader) -> Expects:
        if isinstance(node, ScalarNode):
            return Written(node.line, name, node.value)
        found: BelowBlock = below.read(node, name, at)
        return found

    own = {"type": "string", "pattern": rf"^(code\.)?{ID.pattern}$"}
    written = "code.<id>, a line, allergens, an id with own words, or keys below"
    return Kind(written, read, {"oneOf": [own, below.schema]}, blocks=(BelowBlock,))


def all_or_so_many() -> Kind:
    """Return how many are needed; all of them is 0."""
    some = kinds.whole(1, 30)

    def read(node: Node, name: str, at: MappingReader) -> int:
        if isinstance(node, ScalarNode) and node.value == "all":
            return ALL
        found: int = some.read(node, name, at)
        return found

    return Kind("all, or 1 to 30", read, {"oneOf": [{"const": "all"}, some.schema]}, ALL)


class PointBlock(Block):
    """One line of the checklist: one act that an assessor can see."""

    named_by = "id"

    id: str = key(kinds.own_id())
    type: str = optional(kinds.one_of(TYPES), "A limit or rule of the code; the dish, or what comes of it; scored.")
    judged: str = key(kinds.one_of(JUDGED), "How it is judged.")
    critical: bool = key(kinds.yes_no(), "Of the former kind, without a type: missed, it means not yet.", default=False)
    limit: Written | tuple[Written, ...] | None = key(
        line_names(),
        "What it is judged by; a pair by two lines, a temperature and its time.",
        when=("judged", MEASURED),
    )
    law: Written | None = optional(line_name(), "The line of the code beside a stricter one of the house.")
    tools: tuple[str, ...] = optional(kinds.names_of("instruments"), "What it is measured with.", name="with")
    pieces: int = key(kinds.whole(1, 100), "How many readings are taken; of a pair, how many pieces.", default=1)
    pieces_inside: int = key(kinds.whole(1, 100), "How many of them must be inside; all, if left out.", default=0)
    expects: tuple[Expects, ...] = key(
        kinds.list_of(expected(), 1), "What the cook says; the assessor ticks each.", when=("judged", ("says",))
    )
    need: int = key(all_or_so_many(), "How many of these are needed; all, if left out.", default=ALL)
    step: str = key(
        kinds.name_of("steps"), "The step whose three pictures are the key.", when=("judged", ("pictures",))
    )
    cases: tuple[str, ...] = optional(kinds.names_of("cases"), "In which cases it is asked; in all, if left out.")
    tries: int = key(kinds.whole(1, 3), "How often the cook may make it in one practical.", default=1)
    one_act: bool = key(kinds.yes_no(), "It is one act, though its words look like two.", default=False)

    @property
    def inside(self) -> int:
        """Return how many readings must be inside."""
        return self.pieces_inside or self.pieces

    @property
    def limits(self) -> tuple[Written, ...]:
        """Return the lines it names to be judged by."""
        return self.limit if isinstance(self.limit, tuple) else (self.limit,) if self.limit else ()

    @property
    def is_needed(self) -> bool:
        """Return whether it is needed always: law and results are, and what is critical."""
        return self.type in ("law", "result") or self.critical

    def check(self) -> None:
        """Add the problems of keys that do not go together."""
        if self.inside > self.pieces:
            hint = "Ask for no more than are taken."
            self.at.add(f"{self.inside} pieces of {self.pieces} cannot be inside.", hint)
        if self.type and "critical" in self.at.nodes:
            self.at.add(f"{self.id} has a type and critical.", "Take critical out: law and results are always needed.")
        if self.expects and self.judged != "says":
            self.at.add(f"{self.id} expects words, but it is {self.judged}.", "Judge it says, or take expects out.")
        if self.need > len(self.expects) and not any(isinstance(each, BelowBlock) for each in self.expects):
            self._check_need()

    def _check_need(self) -> None:
        """Add a problem where more is needed than is expected; allergens are as many as there are."""
        is_open = any(isinstance(each, Written) and each.text == ALLERGENS for each in self.expects)
        if not is_open:
            message = f"{self.id} needs {self.need} of {len(self.expects)} expected."
            self.at.add(message, "Ask for no more than it expects.")


class FinishBlock(Block):
    """How long the whole work may take: a timed point of its own."""

    within: Quantity | None = optional(amount(), "How long at the most.")
    limit: Written | None = optional(line_name(), "In place of within, the line it is judged by.")
    type: str = key(kinds.one_of(TYPES), "As of a point: craft, or result.")
    tools: tuple[str, ...] = optional(kinds.names_of("instruments"), "What it is timed with.", name="with")
    cases: tuple[str, ...] = optional(kinds.names_of("cases"), "In which cases it is asked; in all, if left out.")
    source: str = key(kinds.source(), "Who says so; house where the kitchen itself does.", beside=("within",))
    place: str = optional(kinds.text(), "Where in the source, or how it was found.")

    one_of = ("within", "limit")

    def check(self) -> None:
        """Add a problem where it is timed against two things."""
        if self.within is not None and self.limit is not None:
            self.at.add("finish has within and limit.", "Keep one of the two.")


class PartBlock(Block):
    """A part of a long checklist: watched and signed by itself."""

    named_by = "id"

    id: str = key(kinds.own_id())
    craft_needed: int = key(kinds.whole(0, 100), "How many of its craft points are needed.")
    points: tuple[str, ...] = key(kinds.names_of("points"), "Its points.")


class PointWords(Block):
    """The words of a point with more to say than its act."""

    act: Written | None = key(kinds.words(), "What the assessor must see: one act, in 14 words or fewer.")
    expects: Table[Written] | None = optional(
        kinds.words_by_id(), "What is said, by the ids that the structure expects."
    )
    under: Written | None = optional(kinds.words(), "Tasted or judged by pictures: too little.")
    right: Written | None = optional(kinds.words(), "Right.")
    over: Written | None = optional(kinds.words(), "Too far.")


@dataclass(frozen=True)
class PointTold:
    """The words of one point, with the place they stand in; `sides` are too little, right and too far."""

    at: MappingReader
    act: Written | None
    expects: Mapping[str, Written] = field(default_factory=dict)
    sides: Mapping[str, Written] = field(default_factory=dict)

    @property
    def texts(self) -> tuple[Written, ...]:
        """Return everything that is said, the act first."""
        return tuple(text for text in (self.act, *self.expects.values(), *self.sides.values()) if text is not None)


def point_words() -> Kind:
    """Return the words of a point: its act alone, or with what is expected or picked."""
    act, more = kinds.words(), kinds.nested(PointWords)

    def read(node: Node, name: str, at: MappingReader) -> PointTold:
        if isinstance(node, ScalarNode):
            return PointTold(MappingReader(at.diagnostics, node.line, name), act.read(node, name, at))
        found: PointWords = more.read(node, name, at)
        sides: dict[str, Written] = {side: text for side in SIDES if (text := getattr(found, side)) is not None}
        return PointTold(found.at, found.act, found.expects or {}, sides)

    schema: Schema = {"oneOf": [act.schema, more.schema]}
    return Kind("words, or keys below", read, schema, blocks=(PointWords,))


@dataclass(frozen=True)
class ExpectedChoice:
    """One thing to be said before it has words: a measured line, an allergen, or words of the point's own."""

    id: str
    limit: Limit | None = None
    allergen: str = ""


@dataclass(frozen=True)
class PointStructure:
    """A point without words: what it asks as it is typed, what is to be said, and the ids that need own words."""

    at: MappingReader
    point: Point
    expected: tuple[ExpectedChoice, ...] = ()
    own: tuple[str, ...] = ()

    def told(
        self, held: Point, words: PointTold | None, filler: Filler, allergens: Mapping[str, str], triple: Triple | None
    ) -> Point:
        """Return the point with its words, which name the pieces as typed; *triple* has the pictures of its step."""
        own = {"pieces": str(self.point.pieces), "pieces_inside": str(self.point.pieces_inside)}
        fill = filler.with_own(own).fill
        if words is None:
            return held
        self._check_words(words, triple)
        choices = tuple(_choice(each, words, filler, allergens) for each in self.expected)
        if self.point.judged in PICKED:
            choices = tuple(PointChoice(side, fill(text)) for side, text in words.sides.items())
            if triple is not None and not words.sides:
                choices = tuple(PointChoice(side, picture.look) for side, picture in triple.pictures)
        need = self.point.need if self.point.judged == "says" else 0
        return replace(held, text=fill(words.act), choices=choices, need=need or len(choices))

    def _check_words(self, words: PointTold, triple: Triple | None) -> None:
        """Add a problem for each thing expected that has no words, and for words that nothing expects."""
        for id in (id for id in self.own if id not in words.expects):
            words.at.add(f"{self.point.id} expects {id}, which has no words.", f"Add `{id}: ...` under `expects`.")
        for id in (id for id in words.expects if id not in self.own):
            line = words.expects[id].line
            message = f"{self.point.id} has words for {id}, which it does not expect."
            words.at.diagnostics.add(line, message, nearest(id, self.own))
        if self.point.judged in PICKED and (triple is None or words.sides):
            for side in (side for side in SIDES if side not in words.sides):
                words.at.add(f"{self.point.id} does not say {side}.", f"Add `{side}: ...`: what it is like then.")
        elif words.sides and self.point.judged not in PICKED:
            words.at.add(f"{self.point.id} says under, right or over, but it is {self.point.judged}.", "Take them out.")


def _choice(expected: ExpectedChoice, words: PointTold, filler: Filler, allergens: Mapping[str, str]) -> PointChoice:
    """Return one thing to be said, in words; a line in those of the reader."""
    if expected.allergen:
        return PointChoice(expected.id, allergens.get(expected.allergen, expected.allergen))
    if expected.limit is not None:
        return PointChoice(expected.id, filler.numbers[expected.id], _ends_of(expected.limit))
    return PointChoice(expected.id, filler.fill(words.expects.get(expected.id)))


def _ends_of(limit: Limit) -> str:
    """Return the numbers of a line, the same in every language."""
    ends = (limit.lowest, limit.target, limit.highest)
    return "|".join(f"{end.amount} {end.unit.symbol}" if end is not None else "" for end in ends)


def point_structure(block: PointBlock, lines: StandardLines, allergens: tuple[str, ...]) -> PointStructure:
    """Return one point of the checklist as it is typed, without its words."""
    limits = _limits_of(block, lines)
    found = list(_expected_of(block, lines, allergens))
    own = tuple(each.id for each in found if each.limit is None and not each.allergen)
    worked_out = tuple(name.text for below in block.expects if isinstance(below, BelowBlock) for name in below.of)
    point = Point(
        id=block.id,
        text="",
        critical=block.is_needed,
        judged=cast(Judged, block.judged),
        limit=limits[0] if limits else None,
        pieces=block.pieces,
        pieces_inside=block.inside,
        type=cast(PointType, block.type or ""),
        then=limits[1] if len(limits) > 1 else None,
        need=block.need or len(found),
        cases=block.cases,
        tries=block.tries,
        tools=block.tools,
        law=lines.named(block.law, block.at) if block.law else None,
        step=block.step or "",
    )
    return PointStructure(block.at, point, tuple(found), (*own, *worked_out))


def finish_structure(block: FinishBlock, lines: StandardLines) -> PointStructure | None:
    """Return the point that times the whole work; None where it has no time to be held to."""
    limit = lines.named(block.limit, block.at) if block.limit else None
    if block.within is not None:
        limit = Limit(FINISH, None, block.within, None, block.source or HOUSE, block.place)
    if limit is None:
        return None
    end = limit.highest or limit.lowest
    if end is None or end.unit.dimension != "duration":
        block.at.add(f"finish is held to {limit.id}, which is no time with an end.", "Write `within: 25 min`.")
        return None
    point = Point(
        FINISH, "", block.type in ("law", "result"), "timed", limit,
        type=cast(PointType, block.type), cases=block.cases, tools=block.tools,
    )  # fmt: skip
    return PointStructure(block.at, point)


def _expected_of(block: PointBlock, lines: StandardLines, allergens: tuple[str, ...]) -> Iterator[ExpectedChoice]:
    """Yield what is to be said at a point; what is named and not there is a problem."""
    for each in block.expects:
        if isinstance(each, BelowBlock):
            yield from _below(each, lines)
        elif each.text == ALLERGENS:
            if not allergens:
                block.at.diagnostics.add(each.line, f"{block.id} expects allergens, and the technique names none.",
                                         "Name them under `allergens`, or expect words of its own.")  # fmt: skip
            yield from (ExpectedChoice(f"{ALLERGEN}{id}", allergen=id) for id in allergens)
        elif each.text.startswith("code.") or each.text in lines.known:
            limit = lines.named(each, block.at)
            if limit is not None:
                yield ExpectedChoice(each.text, limit)
        elif each.text not in lines.faulty and block.at.check_id(each.text, each.line):
            yield ExpectedChoice(each.text)


def _below(block: BelowBlock, lines: StandardLines) -> Iterator[ExpectedChoice]:
    """Yield the lines that begin below another, by its lowest value; none at all is a problem."""
    bar = lines.named(block.below, block.at) if block.below else None
    named = [(name, limit) for name in block.of if (limit := lines.named(name, block.at)) is not None]
    end = bar.lowest or bar.target if bar else None
    if end is None:
        return
    found = []
    for name, limit in named:
        begins = limit.lowest or limit.target
        if begins is None or begins.unit.dimension != end.unit.dimension:
            block.at.diagnostics.add(name.line, f"{name.text} has no lowest value of that kind.", "Give it a lowest.")
        elif begins < end:
            found.append(ExpectedChoice(name.text))
    if named and not found:
        block.at.add(f"None of these begins below {end}.", "Then nothing is to be said: take the point out.")
    yield from found


def _limits_of(block: PointBlock, lines: StandardLines) -> tuple[Limit, ...]:
    """Return the lines a point is judged by; what cannot be met or missed is a problem."""
    names, add = block.limits, block.at.diagnostics.add
    if names and block.judged not in MEASURED:
        add(names[0].line, f"{block.id} is {block.judged}, so it has no limit.", "Judge it weighed, measured or timed.")
        return tuple(limit for name in names if (limit := lines.known.get(name.text)))
    if names and (len(names) == 2) != (block.judged == "pair"):
        hint = PAIR_HINT if block.judged == "pair" else "Name one line, or judge it as a pair."
        add(names[0].line, f"{block.id} is {block.judged}, and names {len(names)} lines.", hint)
        return ()
    kinds_asked = ("temperature", "duration") if block.judged == "pair" else (DIMENSIONS.get(block.judged, ""),)
    found = [_limit_named(block, name, kind, lines) for name, kind in zip(names, kinds_asked, strict=False)]
    return tuple(limit for limit in found if limit is not None)


def _limit_named(block: PointBlock, name: Written, kind: str, lines: StandardLines) -> Limit | None:
    """Return a line a point names; one that cannot be met or missed, or is of another kind, is a problem."""
    limit, add = lines.named(name, block.at), block.at.diagnostics.add
    if limit is None:
        return None
    end = limit.highest or limit.lowest
    if end is None:
        hint = "Give the line a give_or_take, a lowest or a highest."
        add(name.line, f"{name.text} is a target alone: nothing can be inside or outside it.", hint)
    elif kind and end.unit.dimension != kind:
        message = f"{block.id} is {block.judged}, but {limit.id} is a {end.unit.dimension}."
        hint = PAIR_HINT if block.judged == "pair" else "Name another line, or judge the point another way."
        add(name.line, message, hint)
    return limit
