"""Where content asks for less than the code: told with file, line and fix, taught all the same, and held to the code.

The limits of the invented town are written here; what is laxer or stricter than they are is plain arithmetic.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.store.older_content import older_content
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.content.limits import limit_text
from trainer.kitchen.practical import PointSeen
from trainer.kitchen.technique import Content, Problem, Technique
from trainer.kitchen.verdicts import verdict
from trainer.recipe_math.parsing import parse_quantity

TECHNIQUE = "techniques/rolling/technique.yaml"
WORDS = "techniques/rolling/en.yaml"
TOWN = "local_code/town.yaml"
CODE = "kitchen_code.yaml"
KEPT_HOT = "limit: code.hot_holding, critical: yes}"
BENCH = "bench: {target: 68 F, source: house}"
COLD = "  cold_holding: {highest: 41 F, source: town_code, place: Part 2}\n"


def read(folder: Path) -> tuple[Content, tuple[Problem, ...]]:
    """Return content in which every technique and station is there, and its problems."""
    content, problems = load_content(folder)
    assert content is not None
    assert (list(content.techniques), list(content.stations)) == (["rolling"], ["bench"])
    return content, problems


def rolling(folder: Path) -> Technique:
    """Return the technique of the small kitchen."""
    return read(folder)[0].techniques["rolling"]


def seen(technique: Technique, missed: str) -> str:
    """Return the verdict over a practical in which one point was missed and every other met."""
    looks = (PointSeen(point.id, "not yet" if point.id == missed else "meets it") for point in technique.checklist)
    return verdict(technique, looks).word


def test_a_limit_of_the_code_that_can_be_missed_is_told(tmp_path: Path) -> None:
    """Its line, what is wrong, what to write; the technique is taught, the point critical, and one fewer is scored."""
    folder = small_kitchen(tmp_path)
    change(folder, TECHNIQUE, "scored_needed: 1", "scored_needed: 2")
    line = change(folder, TECHNIQUE, KEPT_HOT, "limit: code.hot_holding}")
    content, (problem,) = read(folder)
    assert (problem.file, problem.line, problem.leaves_out) == (TECHNIQUE, line, False)
    assert "kept_hot is judged by hot_holding, a limit of the code, and can be missed" in problem.message
    assert "critical: yes" in problem.hint
    technique = content.techniques["rolling"]
    assert [point.critical for point in technique.checklist] == [True, False, True]
    assert technique.scored_needed == 1
    assert seen(technique, "kept_hot") == "not yet"
    assert seen(technique, "nothing") == "meets it"


def test_no_piece_may_miss_a_limit_of_the_code(tmp_path: Path) -> None:
    """Four of five pans inside the line are one pan outside it."""
    folder = small_kitchen(tmp_path)
    line = change(folder, TECHNIQUE, KEPT_HOT, KEPT_HOT.replace("}", ", pieces: 5, pieces_inside: 4}"))
    content, (problem,) = read(folder)
    assert (problem.file, problem.line) == (TECHNIQUE, line)
    assert "1 of 5 pieces" in problem.message
    assert content.techniques["rolling"].checklist[2].pieces_inside == 5


def test_a_stricter_line_of_the_same_name_cannot_be_missed_either(tmp_path: Path) -> None:
    """A house line that goes by the code's name stands in for the code."""
    folder = small_kitchen(tmp_path)
    change(folder, TECHNIQUE, BENCH, "hot_holding: {lowest: 150 F, source: house}")
    change(folder, WORDS, 'bench: "The bench is about {bench}."', 'hot_holding: "It stands {hot_holding}."')
    change(folder, TECHNIQUE, KEPT_HOT, "limit: hot_holding}")
    content, (problem,) = read(folder)
    assert "can be missed" in problem.message
    point = content.techniques["rolling"].checklist[2]
    assert point.critical
    assert point.limit is not None
    assert limit_text(point.limit) == "at or above 150 °F (66 °C)"


HEATED = """\
  boiled: {lowest: 155 F, source: town_code, place: Part 5}
  boiled_time: {lowest: 17 s, source: town_code, place: Part 5}
"""


def heated(folder: Path, *points: str) -> int:
    """Let the town ask for a heat with its seconds, judged by these points; return the line of the first."""
    small_kitchen(folder)
    change(folder, TOWN, COLD, COLD + HEATED)
    line = change(folder, TECHNIQUE, "scored_needed: 1", "".join(f"  - {p}\n" for p in points) + "scored_needed: 1")
    for point in points:
        name = point.split(",")[0].removeprefix("{id: ")
        change(folder, WORDS, "  guard_on: The", f"  {name}: It boils.\n  guard_on: The")
    return line


def test_a_heat_limit_without_its_seconds_is_told(tmp_path: Path) -> None:
    """The code names 17 s beside the heat; no point judges them. The heat itself is judged all the same."""
    line = heated(tmp_path, "{id: hot, judged: measured, limit: code.boiled, critical: yes}")
    content, (problem,) = read(tmp_path)
    assert (problem.file, problem.line, problem.leaves_out) == (TECHNIQUE, line, False)
    assert "hot is judged by boiled, and no point by boiled_time" in problem.message
    assert "judged: timed, limit: code.boiled_time, critical: yes" in problem.hint
    assert content.techniques["rolling"].checklist[-1].critical


def test_a_heat_limit_with_its_seconds_is_whole(tmp_path: Path) -> None:
    """Two critical points, heat and seconds."""
    heated(
        tmp_path,
        "{id: hot, judged: measured, limit: code.boiled, critical: yes}",
        "{id: kept, judged: timed, limit: code.boiled_time, critical: yes}",
    )
    assert read(tmp_path)[1] == ()


LAXER = {
    "lowest lower": ("warm", "lowest: 135 F", "lowest: 134.9 F"),
    "lowest lower, in the other unit": ("warm", "lowest: 135 F", "lowest: 57 C"),  # 57 °C is 134.6 °F
    "highest higher": ("chill", "highest: 41 F", "highest: 41.1 F"),
    "highest left open": ("both", "lowest: 10 s, highest: 15 s", "lowest: 10 s"),
    "lowest left open": ("both", "lowest: 10 s, highest: 15 s", "highest: 15 s"),
    "within wider": ("off", "within: 2 F", "within: 3 F"),
    "a room that reaches past the end": ("chill", "highest: 41 F", "target: 40 F, give_or_take: 2 F"),
    "only named, and outside": ("warm", "lowest: 135 F", "target: 120 F"),
}
NO_LAXER = {
    "the same": ("warm", "lowest: 135 F", "lowest: 135 F"),
    "the same in the other unit": ("chill", "highest: 41 F", "highest: 5 C"),  # 5 °C is 41 °F exactly
    "lowest higher": ("warm", "lowest: 135 F", "lowest: 135.1 F"),
    "highest lower": ("chill", "highest: 41 F", "highest: 40 F"),
    "both ends, where the code has one": ("warm", "lowest: 135 F", "lowest: 140 F, highest: 160 F"),
    "a narrower span": ("both", "lowest: 10 s, highest: 15 s", "lowest: 11 s, highest: 14 s"),
    "within narrower": ("off", "within: 2 F", "within: 1 F"),
    "only named, and inside": ("warm", "lowest: 135 F", "target: 140 F"),
    "a target of the code limits nothing": ("about", "target: 135 F", "highest: 120 F"),
    "another kind of thing": ("warm", "lowest: 135 F", "lowest: 10 min"),
}


def in_both(folder: Path, name: str, of_code: str, of_house: str) -> int:
    """Write one line under one name in the code and in the technique; return the line it stands on in the technique."""
    small_kitchen(folder)
    change(folder, TOWN, COLD, f"{COLD}  {name}: {{{of_code}, source: town_code, place: Part 6}}\n")
    change(folder, WORDS, 'bench: "The bench is about {bench}."', f'{name}: "It is {{{name}}}."')
    return change(folder, TECHNIQUE, BENCH, f"{name}: {{{of_house}, source: house}}")


@pytest.mark.parametrize(("name", "of_code", "of_house"), LAXER.values(), ids=LAXER)
def test_a_line_laxer_than_the_codes_of_the_same_name_is_told(
    tmp_path: Path, name: str, of_code: str, of_house: str
) -> None:
    """In each direction; what is taught and judged is the code's own line."""
    line = in_both(tmp_path, name, of_code, of_house)
    content, (problem,) = read(tmp_path)
    assert (problem.file, problem.line, problem.leaves_out) == (TECHNIQUE, line, False)
    assert f"{name} is laxer than the code's line of that name" in problem.message
    assert "Part 6" in problem.message
    taught = content.techniques["rolling"].standard[2]
    assert taught == content.code.limits[name]
    assert content.techniques["rolling"].standard_text[2] == f"It is {limit_text(taught)}."


@pytest.mark.parametrize(("name", "of_code", "of_house"), NO_LAXER.values(), ids=NO_LAXER)
def test_a_line_as_strict_as_the_codes_stands(tmp_path: Path, name: str, of_code: str, of_house: str) -> None:
    """The house may ask for more, and for another thing by the same name."""
    in_both(tmp_path, name, of_code, of_house)
    assert read(tmp_path)[1] == ()


def test_hot_holding_at_120_is_refused_and_judged_at_135(tmp_path: Path) -> None:
    """FDA Food Code 2022, § 3-501.16(A)(1): hot food is held at 135 °F or above; the house cannot say 120 °F."""
    in_both(tmp_path, "warm", "lowest: 135 F", "lowest: 120 F")
    change(tmp_path, TECHNIQUE, KEPT_HOT, "limit: warm, critical: yes}")
    point = rolling(tmp_path).checklist[2]
    assert point.limit is not None
    readings = {text: point.limit.admits(parse_quantity(text)) for text in ("120 °F", "134 °F", "135 °F")}
    assert readings == {"120 °F": False, "134 °F": False, "135 °F": True}


def test_a_recipe_whose_line_is_laxer_is_cooked_by_the_codes(tmp_path: Path) -> None:
    """A recipe names heat and hours too, and is left out for it as little as a technique is."""
    folder = small_kitchen(tmp_path)
    recipe = folder / "recipes" / "dough"
    recipe.mkdir(parents=True)
    (recipe / "recipe.yaml").write_text(
        "portion: {weight: 4 oz, source: house}\nsource: house\n"
        "ingredients:\n  - {id: flour, amount: 2 lb, flour: yes}\n"
        "standard:\n  cold_holding: {highest: 50 F, source: house}\nmethod: [keep]\n",
        encoding="utf-8",
    )
    (recipe / "en.yaml").write_text(
        'title: Dough\nmakes: Sheets\ningredients: {flour: Flour}\nmethod: {keep: "Keep it {cold_holding}."}\n',
        encoding="utf-8",
    )
    content, (problem,) = read(folder)
    assert (problem.file, problem.line) == ("recipes/dough/recipe.yaml", 6)
    assert content.recipes["dough"].method == ("Keep it at or below 41 °F (5 °C).",)


def test_the_house_is_no_law_that_lets_it_be_laxer(tmp_path: Path) -> None:
    """A laxer line in kitchen_code.yaml names a law, and the house is none; the code's line stands."""
    folder = small_kitchen(tmp_path)
    line = change(folder, CODE, "lowest: 140 F, source: house", "lowest: 120 F, source: house, law: house")
    content, (problem,) = read(folder)
    assert (problem.file, problem.line) == (CODE, line)
    assert "laxer than the code" in problem.message
    assert limit_text(content.code.limits["hot_holding"]) == "at or above 135 °F (57 °C)"


CAN_BE_MISSED = {
    ("safe_holding", "first_stage"),
    ("safe_holding", "both_stages"),
    ("rendered_pork_base", "cooled"),
    ("allergens", "bucket_strong"),
    ("clean_hands", "water_warm"),
    ("sanitizer", "wash_hot"),
    ("sanitizer", "third_warm"),
    ("station_opening", "hands_washed"),
    ("knife_care", "hands_before_glove"),
    ("extruder_safety", "cleaned_in_time"),
}
"""The points of the older content that are judged by a limit of the code and could be missed, found by reading it."""
NO_SECONDS = {("rendered_pork_base", "cooked"), ("pastry_custard", "cream_hot")}


@pytest.fixture(scope="module")
def older(tmp_path_factory: pytest.TempPathFactory) -> tuple[Content, tuple[Problem, ...]]:
    """Return what reading the older content gives."""
    content, problems = load_content(older_content(tmp_path_factory.mktemp("older")))
    assert content is not None
    return content, problems


def test_an_older_content_of_a_kitchens_own_keeps_every_station(older: tuple[Content, tuple[Problem, ...]]) -> None:
    """The program got newer, the kitchen's files did not: all is taught, and each gap is told in its file."""
    content, problems = older
    assert (len(content.techniques), len(content.stations), len(content.recipes)) == (18, 5, 6)
    told = {(problem.file.split("/")[1], problem.message.split()[0]) for problem in problems}
    assert told == CAN_BE_MISSED | NO_SECONDS
    assert len(problems) == len(told)
    assert not any(problem.leaves_out for problem in problems)


@pytest.mark.parametrize(("name", "point"), sorted(CAN_BE_MISSED))
def test_a_limit_of_the_code_is_never_missable_in_older_content(
    older: tuple[Content, tuple[Problem, ...]], name: str, point: str
) -> None:
    """With that one point missed and all others met, nobody meets it; with none missed, everybody does."""
    technique = older[0].techniques[name]
    assert seen(technique, point) == "not yet"
    assert seen(technique, "nothing") == "meets it"


@pytest.mark.parametrize("name", ["safe_holding", "sanitizer", "allergens"])
def test_older_content_asks_for_no_more_scored_points_than_it_did(
    older: tuple[Content, tuple[Problem, ...]], name: str
) -> None:
    """One scored point could be missed beside the limits, and still can: the count goes down with the points."""
    technique = older[0].techniques[name]
    scored = [point.id for point in technique.checklist if not point.critical]
    assert technique.scored_needed == len(scored) - 1
    assert seen(technique, scored[0]) == "meets it"
