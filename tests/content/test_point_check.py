"""What a typed checklist may not say: each refused with its file and line, the point, the value and the rule."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.store.small_kitchen import change
from tests.store.typed_kitchen import SPANISH, STRUCTURE, WORDS, typed_kitchen
from trainer.content.files import load_content
from trainer.content.point_words_check import two_acts

PAIR = "    judged: pair\n    limit: [code.egg_pooled, code.egg_pooled_time]\n"
MEASURED = "    judged: measured\n    limit: code.egg_pooled\n"
SPOON = "  - {id: spoon, type: craft, judged: ticked}"
CODE = "local_code/town.yaml"


@dataclass(frozen=True)
class Refusal:
    """A change that is refused: what stands in place of what, the words of the problem, of its hint, and where."""

    old: str
    new: str
    words: str
    hint: str
    at: str = ""
    file: str = STRUCTURE
    and_words: tuple[str, str] = ("", "")


def words_of(id: str) -> tuple[str, str]:
    """Return the change that gives another point its words."""
    return "  spoon: Never lets the spoon stand", f"  spoon: Never lets the spoon stand\n  {id}: Stirs"


REFUSALS = {
    "a limit of the code that is craft": Refusal(
        SPOON, f"{SPOON}\n  - {{id: hot, type: craft, judged: measured, limit: code.hot_holding}}",
        "hot is judged by hot_holding, a limit of the code, and is craft.", "`type: law`", "id: hot,",
        and_words=words_of("hot"),
    ),
    "a limit of the code that a piece may miss": Refusal(
        SPOON,
        f"{SPOON}\n  - {{id: hot, type: law, judged: measured, limit: code.hot_holding, pieces: 3, pieces_inside: 2}}",
        "hot lets 1 of 3 pieces miss hot_holding.", "pieces_inside", "id: hot,", and_words=words_of("hot"),
    ),
    "a line of the house laxer than the code beside it": Refusal(
        "limit: band, with: [thin_probe]", "limit: band, law: code.hot_holding_most",
        "laxer than hot_holding_most (at or below 165 °F (74 °C)).", "as strict as the code", "id: heat_past",
    ),
    "a line of the code of another kind beside it": Refusal(
        "limit: portion,", "limit: portion, law: code.hot_holding,",
        "weighed has hot_holding beside a line of another kind.", "stands beside", "id: weighed",
    ),
    "a heat without its seconds": Refusal(
        PAIR, MEASURED, "heat_raw is judged by egg_pooled without its time (at least 17 seconds).",
        "`judged: pair, limit: [code.egg_pooled, code.egg_pooled_time]`", "id: heat_raw",
    ),
    "no result in a case": Refusal(
        "{id: line_open, type: result,", "{id: line_open, type: craft,",
        "sauce has no result in the case raw.", "type result", "checklist:",
    ),
    "a point without a type": Refusal(
        SPOON, SPOON.replace("type: craft, ", ""),
        "spoon has no type, and others have one.", "`type: law`", "id: spoon",
    ),
    "more craft than is asked in a case": Refusal(
        "craft_needed: 3", "craft_needed: 5",
        "sauce needs 5 craft points, but 4 are asked in the case raw.", "4 or fewer", "craft_needed",
    ),
    "an instrument whose step is over a quarter of the band": Refusal(
        "give_or_take: 0.5 oz", "give_or_take: 0.1 oz",
        "weighed: the step of scale, 0.1 oz, is over a quarter of 4 oz (113 g), give or take 0.1 oz (3 g).",
        "finer steps", "id: weighed",
    ),
    "an instrument that is less true than the band is wide": Refusal(
        "limit: band, with: [thin_probe]", "limit: band, with: [surface_probe]",
        "heat_past: surface_probe is true within 5 °F, and from 164 °F (73 °C) to 170 °F (77 °C) is",
        "truer instrument", "id: heat_past", and_words=("band: {lowest: 160 F", "band: {lowest: 164 F"),
    ),
    "a strip that shows nothing inside": Refusal(
        SPOON, f"{SPOON}\n  - {{id: strong, type: craft, judged: measured, limit: bucket, with: [strip]}}",
        "strong: strip shows nothing inside from 60 ppm to 90 ppm.", "another instrument", "id: strong",
        and_words=words_of("strong"),
    ),
    "one quantity by two lines": Refusal(
        SPOON, f"{SPOON}\n  - {{id: again, type: law, judged: measured, limit: hot_holding}}\n"
        "  - {id: hot, type: law, judged: measured, limit: code.hot_holding}",
        "hot_holding is judged as at or above 140 °F (60 °C) here and as at or above 150 °F (66 °C) at again.",
        "One quantity has one line", "id: hot,",
        and_words=("  spoon: Never lets the spoon stand", "  spoon: Never\n  again: Probes it\n  hot: Probes it again"),
    ),
    "more points than one can watch": Refusal(
        SPOON, SPOON + "".join(f"\n  - {{id: more_{n}, type: craft, judged: ticked}}" for n in "abcdefgh"),
        "sauce has 18 points, more than 16 to watch at one time.", "under `parts`", "checklist:",
        and_words=(words_of("x")[0], words_of("x")[0] + "".join(f"\n  more_{n}: Stirs" for n in "abcdefgh")),
    ),
    "a point in no part": Refusal(
        "craft_needed: 3", "parts:\n  - {id: all, craft_needed: 1, points: [says_limit, spoon]}",
        "taste stands in no part.", "in one part", "id: taste",
        and_words=("cases: {raw: Raw", "parts: {all: All}\ncases: {raw: Raw"),
    ),
    "a point in two parts": Refusal(
        "craft_needed: 3",
        "parts:\n  - {id: one, craft_needed: 1, points: [spoon]}\n  - {id: two, craft_needed: 0, points: [spoon]}",
        "spoon stands in one and two.", "in one part", "id: spoon",
        and_words=("cases: {raw: Raw", "parts: {one: One, two: Two}\ncases: {raw: Raw"),
    ),
    "fifteen words": Refusal(
        "spoon: Never lets the spoon stand",
        "spoon: Never lets the spoon stand still in the pot while it is over the fire",
        "spoon is told in 15 words; 14 are enough for one act.", "`one_act: yes`", file=WORDS,
    ),
    "two acts": Refusal(
        "spoon: Never lets the spoon stand", "spoon: Stirs the pot and wipes the rim",
        "spoon is two acts: stirs ... and ... wipes.", "`one_act: yes`", file=WORDS,
    ),
    "two acts in Spanish": Refusal(
        "spoon: Nunca deja quieta la cuchara", "spoon: Mueve la olla y luego seca la orilla",
        "spoon is two acts: mueve ... y ... seca.", "`one_act: yes`", file=SPANISH,
    ),
    "a limit said to be watched in a technique that does not": Refusal(
        "craft_needed: 3", "craft_needed: 3\njudged_in: {sauce: [code.cold_holding]}",
        "code.cold_holding is said to be judged in sauce, which does not judge it.", "has a point", "judged_in",
    ),
    "a limit of the code that is taught and not watched": Refusal(
        "do: Heat it slowly.", 'do: "Hold it {code.cold_holding}."',
        "code.cold_holding is taught in the steps, and no point judges it.", "`judged_in:", file=WORDS,
    ),
}  # fmt: skip


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """Return the typed kitchen, with lines more for what is to be broken."""
    folder = typed_kitchen(tmp_path)
    change(folder, CODE, "  pause:", "  hot_holding_most: {highest: 165 F, source: town_code, place: Part 6}\n  pause:")
    lines = (
        "  hot_holding: {lowest: 150 F, source: house}\n  bucket: {lowest: 60 ppm, highest: 90 ppm, source: house}\n"
    )
    change(folder, STRUCTURE, "  rare: {lowest", f"{lines}  rare: {{lowest")
    words = '  hot_holding: "Hot is {hot_holding}."\n  bucket: "The bucket has {bucket}."\n'
    for file, rare in ((WORDS, '  rare: "Rare'), (SPANISH, '  rare: "Roja')):
        change(folder, file, rare, f"{words}{rare}")
    return folder


def test_the_kitchen_that_is_broken_here_is_whole(kitchen: Path) -> None:
    """Nothing is wrong before."""
    assert load_content(kitchen)[1] == ()


@pytest.mark.parametrize("name", REFUSALS)
def test_it_is_refused_by_name_with_its_line(kitchen: Path, name: str) -> None:
    """The problem stands where the point does, and the technique, or the language, is left out."""
    refusal = REFUSALS[name]
    line = change(kitchen, refusal.file, refusal.old, refusal.new)
    old, new = refusal.and_words
    if old:
        change(kitchen, STRUCTURE if old in (kitchen / STRUCTURE).read_text("utf-8") else WORDS, old, new)
    if refusal.at:
        text = (kitchen / refusal.file).read_text("utf-8")
        line = text[: text.index(refusal.at)].count("\n") + 1
    found = [problem for problem in load_content(kitchen)[1] if refusal.words in problem.message]
    assert [(problem.file, problem.line) for problem in found] == [(refusal.file, line)], load_content(kitchen)[1]
    assert refusal.hint in found[0].hint
    assert found[0].leaves_out


@pytest.mark.parametrize(
    ("old", "new", "file"),
    [
        ("judged: ticked}", "judged: ticked, one_act: yes}", STRUCTURE),
        ("do: Heat it slowly.", 'do: "Hold it {code.egg_pooled}."', WORDS),
        ("craft_needed: 3", "craft_needed: 3\njudged_in: {rolling: [code.hot_holding]}", STRUCTURE),
        ("limit: band, with: [thin_probe]", "limit: band, law: code.hot_holding", STRUCTURE),
    ],
)
def test_what_answers_a_refusal_is_taken(kitchen: Path, old: str, new: str, file: str) -> None:
    """One act that says so; a limit that is judged here; one that is watched elsewhere."""
    change(kitchen, file, old, new)
    if "one_act" in new:
        change(kitchen, WORDS, "spoon: Never lets the spoon stand", "spoon: Stirs the pot and wipes the rim")
    assert [problem for problem in load_content(kitchen)[1] if problem.file != SPANISH] == []


@pytest.mark.parametrize(
    ("text", "language", "found"),
    [
        ("Wipes the board and washes the knife", "en", [("wipes", "and", "washes")]),
        ("Probes the middle, then the edge", "en", []),
        ("Keeps raw and cooked apart", "en", []),
        ("Lava y seca las manos", "es", [("lava", "y", "seca")]),
        ("Usa una cuchara limpia y un trapo", "es", []),
        ("Usa sartén limpia y seca", "es", []),
    ],
)
def test_two_acts_are_two_verbs_with_a_word_that_joins_between(
    text: str, language: str, found: list[tuple[str, str, str]]
) -> None:
    """Two things of one act are one act. Common practice of a checklist: one line, one look."""
    assert list(two_acts(text, language)) == found
