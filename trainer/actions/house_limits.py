"""The limits of the local code and the house's own lines in their place, written as a draft: stricter, never laxer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.content import kitchen
from trainer.content.files import load_content
from trainer.content.house_words import CODES, OVERRIDES, REASON, TITLE, HouseWords, house_words
from trainer.content.kitchen import KITCHEN_CODE, CodeInForce, code_of, sources_of
from trainer.content.limits import asks_no_less, has_ends, is_same_kind
from trainer.content.nodes import Diagnostics
from trainer.content.round_trip import NotWritable, with_or_without, with_words
from trainer.content.written import write_whole
from trainer.kitchen.limit_text import limit_text
from trainer.kitchen.technique import Content, Limit, LocalCode, Point, Problem, Technique
from trainer.messages import Text, message
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem
from trainer.store.catalogues import ENGLISH, languages

ENDS = ("lowest", "highest")


@dataclass(frozen=True, slots=True)
class HouseLimit:
    """A limit as the code has it, and the house's line in its place with the reason; None where it has none.

    `told` is the reason in the reader's language.
    """

    published: Limit
    own: Limit | None = None
    reason: str = ""
    told: str = ""


@dataclass(frozen=True, slots=True)
class HouseCode:
    """The code the kitchen works under, and each of its limits that a house may make stricter."""

    code: LocalCode
    limits: tuple[HouseLimit, ...]


@dataclass(frozen=True, slots=True)
class OwnLine:
    """A line of the house as it is typed; with nothing typed the code's own stands again.

    `told` is the reason in other languages, by their tags; where one is empty, `reason` counts there too.
    """

    limit: str
    lowest: str
    highest: str
    reason: str
    told: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_taken_out(self) -> bool:
        """Return whether nothing is typed."""
        return not (self.lowest or self.highest)


@dataclass(frozen=True, slots=True)
class LimitChange:
    """What a line of the house would change: points judged by it, skills asked with it, other techniques it stands in.

    `problems` are those the files would have that they do not have now.
    """

    points: tuple[tuple[Technique, Point], ...]
    skills: tuple[str, ...]
    techniques: tuple[Technique, ...]
    problems: tuple[Problem, ...]


def house_code(folder: Path, language: str) -> HouseCode | None:
    """Return the code in a kitchen's files with the house's lines in words; None where they cannot be read."""
    found = _code_in(folder)
    if found is None:
        return None
    own, words = {line.limit.id: line for line in found.own}, house_words(folder, language)
    told = (_limit(limit, own.get(id), words) for id, limit in found.code.limits.items())
    title = words.of(found.code.title, CODES, found.code.id, TITLE)
    return HouseCode(replace(found.code, title=title), tuple(one for one in told if has_ends(one.published)))


def told_elsewhere(folder: Path, limit: str) -> dict[str, str]:
    """Return the house's reason for a line in each language but English, by its tag; "" where there are no words."""
    others = (tag for tag in languages() if tag != ENGLISH)
    return {tag: house_words(folder, tag).of("", OVERRIDES, limit, REASON) for tag in others}


def _limit(limit: Limit, own: kitchen.OwnLine | None, words: HouseWords) -> HouseLimit:
    if own is None:
        return HouseLimit(limit)
    return HouseLimit(own.published, own.limit, own.reason, words.of(own.reason, OVERRIDES, limit.id, REASON))


def _code_in(folder: Path) -> CodeInForce | None:
    told = Diagnostics("", [])
    return code_of(folder, told, list(sources_of(folder / "sources.yaml", told) or {}))


def wrong_line(found: HouseLimit, wanted: OwnLine, decimal_mark: str) -> Refused | None:
    """Return what is wrong with a line typed: no quantity, another kind, laxer than the code, or without a reason."""
    if wanted.is_taken_out:
        return None
    ends: dict[str, Quantity] = {}
    for name in ENDS:
        typed: str = getattr(wanted, name)
        try:
            if typed:
                ends[name] = parse_quantity(typed, decimal_mark=decimal_mark, kind=TEMPERATURE)
        except QuantityProblem:
            words = message("“{typed}” is no quantity. Write a number and a unit, like 140 F or 2 h.", typed=typed[:40])
            return Refused(words, "", name)
    wrong = _laxer(found.published, ends)
    if wrong:
        return Refused(wrong, "", next(iter(ends)))
    return None if wanted.reason else Refused(message("Write why the house has its own line."), "", "reason")


def _laxer(published: Limit, ends: dict[str, Quantity]) -> Text:
    """Return what speaks against these ends in place of the code's, by the rule files are held to; "" if nothing."""
    limit = Limit(published.id, ends.get("lowest"), ends.get("highest"), None, "house")
    told = {"code": limit_text(published), "place": published.place}
    if not is_same_kind(limit, published):
        return message("This measures something else than the code, which says {code} ({place}).", **told)
    if limit.lowest and limit.highest and not Limit("", None, limit.highest, None, "").admits(limit.lowest):
        return message("The lower value is above the higher one.")
    if not asks_no_less(limit, published):
        return message(
            "This is laxer than the code: {code} ({place}). A house may ask for more, never for less.", **told
        )
    return ""


def limit_change(k: Kitchen, folder: Path, wanted: OwnLine) -> LimitChange | Refused:
    """Return what a line would change in what the kitchen's files teach; nothing is written."""
    first = k.file.settings.units_first
    draft = k.teaching.draft() if k.teaching else None
    try:
        texts = _with_line(folder, wanted)
    except (NotWritable, OSError):
        return Refused(message("The file of the kitchen's code cannot be read. Fix it in an editor first."))
    with TemporaryDirectory() as room:
        for each in folder.iterdir():
            if each.name not in texts and not each.name.startswith("."):
                (Path(room) / each.name).symlink_to(each.resolve())
        for name, text in texts.items():
            (Path(room) / name).write_text(text, encoding="utf-8")
        after, then = load_content(Path(room), units_first=first)
    if draft is None or draft.content is None or after is None:
        return Refused(message("The files of the kitchen cannot be read. Fix them in an editor first."))
    return _compared(draft.content, after, tuple(one for one in then if one not in draft.problems))


def _compared(before: Content, after: Content, problems: tuple[Problem, ...]) -> LimitChange:
    points = tuple(_points(before, after))
    judged = {technique.id for technique, _ in points}
    skills = tuple(
        id for id, one in after.skills.items() if id in before.skills and one.setting != before.skills[id].setting
    )
    others = tuple(
        one
        for id, one in after.techniques.items()
        if id not in judged and id in before.techniques and _taught(one) != _taught(before.techniques[id])
    )
    return LimitChange(points, skills, others, problems)


def _points(before: Content, after: Content) -> Iterator[tuple[Technique, Point]]:
    """Yield the points of checklists that would be judged otherwise."""
    for id, technique in after.techniques.items():
        old = {one.id: one for one in before.techniques[id].checklist} if id in before.techniques else {}
        for point in technique.checklist:
            if point.id in old and old[point.id] != point:
                yield technique, point


def _taught(technique: Technique) -> object:
    return technique.steps, technique.standard, technique.questions, technique.hazards


def write_own_line(k: Kitchen, folder: Path, wanted: OwnLine) -> None:
    """Write a line of the house into the kitchen's files, or take it out of them, its words in every language too."""
    with k.file.writing():
        for name, text in _with_line(folder, wanted).items():
            write_whole(folder / name, text.encode())


def _with_line(folder: Path, wanted: OwnLine) -> dict[str, str]:
    """Return the file of the kitchen's code with the line, and those of words that change; their comments are kept."""
    ends = {name: getattr(wanted, name) for name in ENDS if getattr(wanted, name)}
    line = {**ends, "source": "house", "reason": wanted.reason} if ends else None
    text = (folder / KITCHEN_CODE).read_text(encoding="utf-8-sig")
    code = {KITCHEN_CODE: with_or_without(text, OVERRIDES, wanted.limit, line)}
    words = {f"{tag}.yaml": _words_with(folder, tag, wanted) for tag in languages() if tag != ENGLISH}
    changed = {name: new for name, (old, new) in words.items() if new != old}
    return {**code, **changed} if line else {**changed, **code}  # words without their line would be a problem


def _words_with(folder: Path, language: str, wanted: OwnLine) -> tuple[str, str]:
    """Return the house's words in a language as they are, and with those of a line; both "" where there are none."""
    path = folder / f"{language}.yaml"
    old = path.read_text(encoding="utf-8-sig") if path.is_file() else ""
    told = wanted.told.get(language, "")
    if wanted.is_taken_out:
        return old, with_words(old, (OVERRIDES, wanted.limit), "") if old else ""
    if told == house_words(folder, language).of("", OVERRIDES, wanted.limit, REASON):
        return old, old
    return old, with_words(old, (OVERRIDES, wanted.limit, REASON), told)
