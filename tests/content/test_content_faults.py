"""Every kind of fault in a content file is told by file, line, problem and fix, and none hides another."""

from __future__ import annotations

from pathlib import Path
from shutil import copytree
from typing import NamedTuple

import pytest

from tests.kitchen.test_short_codes import twins
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.kitchen.technique import Practice, Problem

TECHNIQUE = "techniques/rolling/technique.yaml"
WORDS = "techniques/rolling/en.yaml"
TOWN = "local_code/town.yaml"
STATION = "stations/bench.yaml"
CODE = "kitchen_code.yaml"


class Fault(NamedTuple):
    """What is typed in place of what, on which line below it the problem is, and what is said of it."""

    file: str
    old: str
    new: str
    message: str
    hint: str
    below: int = 0


FAULTS = {
    "a bracket left open": Fault(STATION, "[rolling]", "[rolling", "not YAML", "Check quotes", 1),
    "a brace at the start without quotes": Fault(
        WORDS, '"Wait {seconds}."', "{seconds} of waiting", "not YAML", "Put quotes"
    ),
    "a tab": Fault(STATION, "title: Bench", "title:\tBench", "A tab stands", "spaces"),
    "an anchor": Fault(STATION, "title: Bench", "title: &name Bench", "anchor, &name", "Take it out"),
    "an alias": Fault(STATION, "title: Bench", "title: *name", "An alias, *name", "Write the value out"),
    "a tag": Fault(STATION, "title: Bench", "title: !!str Bench", "A tag", "Take it out"),
    "a second document": Fault(
        STATION, "supervised_shifts: 2", "supervised_shifts: 2\n---\nx: y", "second doc", "---", 2
    ),
    "an unknown key": Fault(
        STATION, "age_reason", "age_reasons", "age_reasons is not a key", "Did you mean age_reason?"
    ),
    "an unknown key in a step": Fault(
        TECHNIQUE, "lasts: code.pause", "lasts: code.pause, lests: 9", "lests is", "mean lasts?"
    ),
    "a missing key": Fault(STATION, "supervised_shifts: 2", "", "bench has no supervised_shifts", "Add", -6),
    "a way back longer than the practice": Fault(
        STATION,
        "supervised_shifts: 2",
        "supervised_shifts: 2\npractice: {shifts: 3, days: 20, return_shifts: 2, return_days: 30}",
        "return_days is 30, more than the 20 days",
        "no longer than the practice",
        1,
    ),
    "a key twice": Fault(STATION, "minimum_age: 16", "title: Again\nminimum_age: 16", "title stands twice", "Keep one"),
    "an id twice in a list": Fault(TECHNIQUE, "{id: wait,", "{id: roll,", "roll stands twice", "its own id"),
    "a number that is a word": Fault(STATION, "shifts: 2", "shifts: two", "'two', not a whole number", "from 0 to 60"),
    "a number with a leading nought is read as typed": Fault(
        STATION, "age: 16", "age: 12:30", "'12:30'", "whole number"
    ),
    "a bool that is neither": Fault(STATION, "bars: no", "bars: off", "bars is 'off'", "yes or no"),
    "a list that is a text": Fault(TECHNIQUE, "faults: [torn]", "faults: torn", "faults is not a list", "faults: [one"),
    "a text that is a list": Fault(STATION, "title: Bench", "title: [Bench]", "title should be words", "one text"),
    "a block that is a text": Fault(
        TECHNIQUE, "quiz: {need_right: 3, months: 12}", "quiz: 3", "quiz should hold", "key:"
    ),
    "an unreadable quantity": Fault(TECHNIQUE, "target: 4 oz", "target: four-ish", "target is 'four-ish'", "a unit"),
    "a quantity of two kinds": Fault(TECHNIQUE, "lowest: 30 min", "lowest: 30 oz", "rest: ", "one kind"),
    "ends the wrong way round": Fault(
        TECHNIQUE, "lowest: 30 min", "lowest: 3 h", "runs from 3 h to 2 h", "lower value first"
    ),
    "a line without a value": Fault(TECHNIQUE, "{target: 68 F,", "{", "bench says nothing", "Write target"),
    "a limit without a source": Fault(
        TOWN, "highest: 41 F, source: town_code", "highest: 41 F", "names no source", "source:"
    ),
    "an unknown source": Fault(TECHNIQUE, "[town_code, house]", "[town_cod, house]", "'town_cod'", "mean town_code?"),
    "an unknown source of a line": Fault(
        TECHNIQUE, "2 h, source: house", "2 h, source: hose", "source names 'hose'", "Did you mean house?"
    ),
    "a source nobody wrote down": Fault(
        TECHNIQUE, "2 h, source: house", "2 h, source: my_book", "source names 'my_book'", "sources.yaml first"
    ),
    "a source no reader is shown": Fault(
        TECHNIQUE,
        "sources: [town_code, house]",
        "sources: [town_code]",
        "from house, which sources leaves",
        "Add house",
    ),
    "an unknown allergen": Fault(TECHNIQUE, "allergens: [egg]", "allergens: [eggs]", "'eggs'", "Did you mean egg?"),
    "an unknown hazard": Fault(TECHNIQUE, "hazards: [rollers]", "hazards: [roller]", "'roller'", "mean rollers?"),
    "an unknown limit": Fault(
        TECHNIQUE, "limit: sheet_weight", "limit: sheet_wait", "'sheet_wait'", "mean sheet_weight?"
    ),
    "an unknown limit of the code": Fault(
        TECHNIQUE, "limit: code.hot_holding", "limit: code.hot_hold", "'code.hot_hold'", "mean code.hot_holding?"
    ),
    "an unknown technique": Fault(STATION, "[rolling]", "[roling]", "'roling'", "Did you mean rolling?"),
    "an unknown family": Fault(TECHNIQUE, "scale_by_yield", "scale_by_yeld", "'scale_by_yeld'", "mean scale_by_yield?"),
    "an unknown range": Fault(
        TECHNIQUE, "count: 3}", "count: 3, ranges: {nobody: 1 to 2 step 1}}", "has no nobody", ""
    ),
    "a range upside down": Fault(
        TECHNIQUE,
        "count: 3}",
        "count: 3, ranges: {amount_pounds: 9 to 2 step 1}}",
        "'9 to 2 step 1', not a range",
        "lowest",
    ),
    "a range without a step": Fault(
        TECHNIQUE,
        "count: 3}",
        "count: 3, ranges: {amount_pounds: 2 to 9}}",
        "'2 to 9', not a range",
        "8 to 16 step 1/2",
    ),
    "a range named after no limit": Fault(
        TECHNIQUE, "count: 3}", "count: 3, ranges: {amount_pounds: code.hot}}", "code.hot, which is not known", ""
    ),
    "a range in another unit than its limit": Fault(
        TECHNIQUE,
        "count: 3}",
        "count: 3, ranges: {amount_pounds: code.hot_holding}}",
        "is not measured as",
        "same kind",
    ),
    "ranges nothing fits in": Fault(
        TECHNIQUE,
        "count: 3}",
        "count: 3, ranges: {new_portions: 40 to 40 step 1, old_portions: 40 to 40 step 1}}",
        "",
        "",
    ),
    "too few faults for the questions set": Fault(
        TECHNIQUE, "count: 3}", "count: 3}\n  - {family: choose_fault, count: 2}", "choose_fault", "more faults", 1
    ),
    "too few steps for the questions set": Fault(
        TECHNIQUE, "count: 3}", "count: 3}\n  - {family: order_steps, count: 1}", "order_steps", "more steps", 1
    ),
    "a family twice": Fault(
        TECHNIQUE,
        "count: 3}",
        "count: 3}\n  - {family: scale_by_yield, count: 1}",
        "stands twice",
        "counts together",
        1,
    ),
    "a fault twice": Fault(TECHNIQUE, "faults: [torn]", "faults: [torn, torn]", "torn stands twice", "Keep one"),
    "a word twice in a list": Fault(
        TECHNIQUE, "allergens: [egg]", "allergens: [egg, egg]", "egg stands twice", "Keep one"
    ),
    "a paper twice": Fault(
        STATION,
        "bars: no}",
        "bars: no}\n  - {id: food_handler, title: Food handler card, bars: no}",
        "food_handler stands twice",
        "Keep one",
        1,
    ),
    "a quantity that is a list": Fault(
        TECHNIQUE, "target: 4 oz", "target: [4 oz]", "target is a list", "a number and a unit"
    ),
    "an amount with two readings": Fault(TECHNIQUE, "target: 4 oz", "target: 4:30", "'4:30'", "a number and a unit"),
    "no edition": Fault(
        TECHNIQUE,
        """  - {number: 1, since: 2025-03-01, changed: First edition., sign_offs_hold: yes}
  - {number: 2, since: 2025-09-01, changed: A new pin., sign_offs_hold: no}
allergens""",
        "  []\nallergens",
        "has no edition",
        "Add one",
        -1,
    ),
    "a mark that is no sign": Fault(TECHNIQUE, "mark: hands_in_machine", "mark: skull", "'skull'", "Known here"),
    "words for a family not asked": Fault(
        WORDS,
        "title: Rolling",
        "title: Rolling\nquestions: {packs_to_buy: {food: flour}}",
        "has no packs_to_buy",
        "",
        1,
    ),
    "words a family does not use": Fault(
        WORDS,
        "title: Rolling",
        "title: Rolling\nquestions: {scale_by_yield: {fod: flour}}",
        "has no fod",
        "mean food?",
        1,
    ),
    "a target alone judged": Fault(
        TECHNIQUE, "limit: sheet_weight", "limit: bench", "bench is a target alone", "give_or_take"
    ),
    "weighed against a time": Fault(
        TECHNIQUE, "limit: sheet_weight", "limit: rest", "weighed, but rest is a dur", "another"
    ),
    "a ticked point with a limit": Fault(
        TECHNIQUE, "ticked, critical", "ticked, limit: rest, critical", "is ticked", "weighed"
    ),
    "a measured point without a limit": Fault(
        TECHNIQUE, "measured, limit: code.hot_holding", "measured", "kept_hot has no limit", "Add `limit"
    ),
    "more pieces inside than taken": Fault(
        TECHNIQUE, "pieces_inside: 4", "pieces_inside: 6", "6 pieces of 5", "no more"
    ),
    "editions with a gap": Fault(TECHNIQUE, "number: 2", "number: 3", "Edition 3 stands in place 2", "without a gap"),
    "dates that do not rise": Fault(
        TECHNIQUE, "2025-09-01", "2025-03-01", "Edition 2 starts on 2025-03-01", "after the one"
    ),
    "a date that is none": Fault(TECHNIQUE, "2025-09-01", "2025-02-30", "'2025-02-30', not a date", "year-month-day"),
    "need_right above asked": Fault(TECHNIQUE, "need_right: 3", "need_right: 4", "is 4, but 3 questions", "3 or fewer"),
    "an edition that names no point of the checklist": Fault(
        TECHNIQUE,
        "changed: First edition., sign_offs_hold: yes",
        "changed: First edition., sign_offs_hold: yes, unless_missed: [kept_hott]",
        "unless_missed names 'kept_hott'",
        "mean kept_hot?",
    ),
    "scored_needed above scored": Fault(
        TECHNIQUE, "scored_needed: 1", "scored_needed: 2", "but 1 points", "1 or fewer"
    ),
    "a figure that is missing": Fault(
        TECHNIQUE, "figure: roll.svg", "figure: rol.svg", "no figure rol.svg", "mean roll.svg?"
    ),
    "a figure outside the folder": Fault(
        TECHNIQUE, "figure: roll.svg", "figure: ../roll.svg", "'../roll.svg'", "own folder"
    ),
    "a figure told too short": Fault(
        WORDS, " from the middle outwards on a floured wooden bench.", ".", "told in 9 words", "15 words or more"
    ),
    "a figure without words": Fault(WORDS, "    figure: A pair", "    # A pair", "roll has no figure", "Add", -3),
    "a timed step without its time": Fault(
        TECHNIQUE, "kind: time, lasts: code.pause", "kind: time", "wait has no lasts", "Add"
    ),
    "a time typed in a step": Fault(
        TECHNIQUE, "lasts: code.pause", "lasts: 90 s", "'90 s', which is not known", "pause"
    ),
    "a step that lasts as long as no line": Fault(
        TECHNIQUE, "lasts: code.pause", "lasts: code.paus", "'code.paus', which is not known", "mean code.pause?"
    ),
    "a step that lasts a weight": Fault(TECHNIQUE, "lasts: code.pause", "lasts: sheet_weight", "lasts 4 oz", "a time"),
    "a timer that runs to a highest value": Fault(
        TECHNIQUE, "lasts: code.pause", "lasts: code.cold_holding", "a highest value alone", "a lowest value"
    ),
    "structure without words": Fault(WORDS, "  bench: ", "  # ", "line bench has no words", "Add `bench", -2),
    "words without structure": Fault(WORDS, "  torn: ", "  torm: ", "fault torm, which", "Did you mean torn?"),
    "a digit in the words": Fault(
        WORDS, "Roll from the middle.", "Roll 3 times.", "A number is typed in do", "standard"
    ),
    "a fraction in the words": Fault(WORDS, "Too dry.", "Too dry by ½.", "A number is typed in cause", "in braces"),
    "an unknown brace": Fault(
        WORDS, 'rests {rest}."', 'rests {rests}."', "{rests} in rest names no", "Did you mean rest?"
    ),
    "an unknown brace of the code": Fault(WORDS, "{code.hot_holding}", "{code.hot}", "{code.hot}", "code."),
    "a brace left open": Fault(WORDS, 'rests {rest}."', 'rests {rest."', "A brace in rest is not closed", "{name"),
    "a text over long": Fault(WORDS, "Too dry.", "Too dry. " * 60, "539 letters long", "within 400"),
    "an empty text": Fault(WORDS, "goal: An even sheet that does not tear.", "goal:", "goal is empty", "Write it"),
    "a laxer line of the house": Fault(CODE, "lowest: 140 F", "lowest: 130 F", "laxer than the code", "name the law"),
    "a line of the house for another kind": Fault(CODE, "lowest: 140 F", "lowest: 140 s", "something else", "135 °F"),
    "a line of the house for no limit": Fault(
        CODE, "hot_holding:", "hot_holdin:", "has no hot_holdin", "mean hot_holding?"
    ),
    "an age without its reason": Fault(STATION, "age_reason: An invented rule.", "", "no age_reason", "Add", -5),
    "a source of unknown standing": Fault("sources.yaml", "known: read", "known: heard", "'heard'", "read"),
    "an id in capitals": Fault("allergens.yaml", "egg: {", "Egg: {", "'Egg' cannot be an id", "small letters"),
}


def problems_of(folder: Path) -> tuple[Problem, ...]:
    """Return the problems found in a folder."""
    return load_content(folder)[1]


def test_the_kitchen_that_is_broken_below_has_no_fault_itself(tmp_path: Path) -> None:
    """A kitchen without a fault loads without a problem."""
    content, problems = load_content(small_kitchen(tmp_path))
    assert problems == ()
    assert content is not None
    assert list(content.techniques) == ["rolling"]


@pytest.mark.parametrize("fault", FAULTS.values(), ids=FAULTS)
def test_a_fault_is_told_with_file_line_and_mend(tmp_path: Path, fault: Fault) -> None:
    """One fault gives a problem in its own file, at its own line, that says what is wrong and how to fix it."""
    folder = small_kitchen(tmp_path)
    line = change(folder, fault.file, fault.old, fault.new) + fault.below
    found = [p for p in problems_of(folder) if p.file == fault.file and fault.message in p.message]
    assert found, problems_of(folder)
    assert found[0].line == line
    assert fault.hint in found[0].hint
    assert found[0].hint


def test_a_step_that_lasts_longer_than_two_days_is_told_at_the_step(tmp_path: Path) -> None:
    """No timer at a bench runs for three days."""
    folder = small_kitchen(tmp_path)
    change(folder, TOWN, "target: 90 s", "target: 3 days")
    (problem,) = problems_of(folder)
    assert (problem.file, problem.line) == (TECHNIQUE, 11)
    assert "wait lasts 3 days" in problem.message


def test_words_for_a_figure_the_step_does_not_show_are_told(tmp_path: Path) -> None:
    """A figure's words without the figure are words without structure."""
    folder = small_kitchen(tmp_path)
    change(folder, TECHNIQUE, ", figure: roll.svg", "")
    (problem,) = problems_of(folder)
    assert (problem.file, problem.line) == (WORDS, 15)
    assert "figure it does not show" in problem.message


@pytest.mark.parametrize("wrong", ["target: 4 oz, source: my_book", "target: 4 oz", "target: four-ish, source: house"])
def test_a_faulty_line_is_told_once_and_not_where_it_is_named(tmp_path: Path, wrong: str) -> None:
    """Points, steps and words that name the line are right: only the line itself is to be fixed."""
    folder = small_kitchen(tmp_path)
    line = change(folder, TECHNIQUE, "target: 4 oz, give_or_take: 0.2 oz, source: house", wrong)
    (problem,) = {(found.file, found.line) for found in problems_of(folder)}
    assert problem == (TECHNIQUE, line)


def test_several_faults_in_one_file_are_all_told(tmp_path: Path) -> None:
    """Reading goes on after a fault, so one reading finds them all."""
    folder = small_kitchen(tmp_path)
    lines = {
        change(folder, TECHNIQUE, "allergens: [egg]", "allergens: [eggs]"),
        change(folder, TECHNIQUE, "target: 4 oz", "target: four-ish"),
        change(folder, TECHNIQUE, "kind: do", "kind: done"),
        change(folder, TECHNIQUE, "form: triangle", "form: square"),
        change(folder, TECHNIQUE, "sign_off_months: 12", "sign_off_months: soon"),
        change(folder, TECHNIQUE, "[town_code, house]", "[town_code, house, house]"),
    }
    assert lines <= {p.line for p in problems_of(folder) if p.file == TECHNIQUE}


def test_faults_in_different_files_do_not_hide_each_other(tmp_path: Path) -> None:
    """A file that is no YAML leaves the others to be read and told."""
    folder = small_kitchen(tmp_path)
    change(folder, TOWN, "limits:", "limits: [")
    change(folder, STATION, "bars: no", "bars: off")
    change(folder, WORDS, "Roll from the middle.", "Roll 3 times.")
    assert {TOWN, STATION, WORDS} <= {p.file for p in problems_of(folder)}


def test_a_number_as_typed_is_never_turned_into_another(tmp_path: Path) -> None:
    """YAML 1.1 reads `no` as false, 12:30 as 750 and 010 as 8; a value here is what a person typed (yaml.org, 1.1)."""
    folder = small_kitchen(tmp_path)
    change(folder, STATION, "title: Bench", "title: no")
    change(folder, STATION, "supervised_shifts: 2", "supervised_shifts: 010")
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    assert content.stations["bench"].title == "no"
    assert content.stations["bench"].supervised_shifts == 10


def test_what_a_station_asks_of_papers_and_practice_is_read(tmp_path: Path) -> None:
    """As typed; a station that says nothing asks for neither."""
    folder = small_kitchen(tmp_path)
    plain, _ = load_content(folder)
    practice = "practice: {shifts: 3, days: 90, return_shifts: 2, return_days: 30}"
    change(folder, STATION, "bars: no", "bars: no, grace_days: 20, most_years: 3, within_days: 14")
    change(folder, STATION, "supervised_shifts: 2", f"supervised_shifts: 2\n{practice}")
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    assert plain is not None
    assert content.stations["bench"].practice == Practice(3, 90, 2, 30)
    assert [(one.grace_days, one.most_years, one.within_days) for one in content.stations["bench"].certificates] == [
        (20, 3, 14)
    ]
    assert plain.stations["bench"].practice is None
    assert [(one.grace_days, one.most_years) for one in plain.stations["bench"].certificates] == [(0, 0)]


def test_a_file_above_one_megabyte_is_refused(tmp_path: Path) -> None:
    """A file too large is not read, and the rest is."""
    folder = small_kitchen(tmp_path)
    (folder / STATION).write_bytes(b"# " + b"x" * 1_000_000)
    (problem,) = problems_of(folder)
    assert (problem.file, problem.line) == (STATION, 1)
    assert "larger than 1 MB" in problem.message


def test_text_that_is_not_utf_8_is_told_by_its_line(tmp_path: Path) -> None:
    """A file saved in another encoding says where the first such letter stands."""
    folder = small_kitchen(tmp_path)
    (folder / STATION).write_bytes(b"# one\ntitle: Saut\xe9\n")
    (problem,) = problems_of(folder)
    assert (problem.line, problem.hint) == (2, "Save the file as UTF-8.")


def test_a_thousand_open_brackets_are_a_problem_not_a_crash(tmp_path: Path) -> None:
    """Deep nesting is refused before it can exhaust anything."""
    folder = small_kitchen(tmp_path)
    (folder / STATION).write_text("a: " + "[" * 500_000, encoding="utf-8")
    (problem,) = problems_of(folder)
    assert problem.file == STATION


def test_an_alias_that_repeats_itself_is_a_problem_not_a_crash(tmp_path: Path) -> None:
    """An anchor is refused where it stands, so nothing can grow from it."""
    folder = small_kitchen(tmp_path)
    (folder / STATION).write_text("title: &a [*a, *a]\n", encoding="utf-8")
    (problem,) = problems_of(folder)
    assert "anchor" in problem.message


@pytest.mark.parametrize("text", ["", "# only a remark\n", "---\n"])
def test_an_empty_file_is_told(tmp_path: Path, text: str) -> None:
    """An empty file says so."""
    folder = small_kitchen(tmp_path)
    (folder / STATION).write_text(text, encoding="utf-8")
    assert [p.file for p in problems_of(folder)][:1] == [STATION]


@pytest.mark.parametrize("file", ["sources.yaml", "kitchen_code.yaml", TOWN])
def test_without_code_or_sources_there_is_no_content(tmp_path: Path, file: str) -> None:
    """What everything refers to must be there; else there is no content, and the file is named."""
    folder = small_kitchen(tmp_path)
    (folder / file).unlink()
    content, problems = load_content(folder)
    assert content is None
    assert file in {p.file for p in problems}


def test_a_missing_words_file_is_told(tmp_path: Path) -> None:
    """Structure without any words is told by the name of the file to make."""
    folder = small_kitchen(tmp_path)
    (folder / WORDS).unlink()
    (problem,) = problems_of(folder)
    assert (problem.file, problem.message) == (WORDS, "This file is missing.")


def test_an_empty_folder_is_told_not_a_crash(tmp_path: Path) -> None:
    """A folder without content has problems and no content."""
    content, problems = load_content(tmp_path)
    assert content is None
    assert {"sources.yaml", "kitchen_code.yaml", "techniques"} <= {p.file for p in problems}


def test_a_station_waits_for_a_technique_with_a_fault(tmp_path: Path) -> None:
    """A station asking for a technique that could not be read is left out: nobody is cleared for less than it asks."""
    folder = small_kitchen(tmp_path)
    change(folder, TECHNIQUE, "allergens: [egg]", "allergens: [eggs]")
    content, problems = load_content(folder)
    assert content is not None
    assert (content.techniques, content.stations) == ({}, {})
    assert len(problems) == 1


def test_one_paper_has_one_title(tmp_path: Path) -> None:
    """Two stations that call one certificate by two titles are told."""
    folder = small_kitchen(tmp_path)
    other = (folder / STATION).read_text(encoding="utf-8").replace("Food handler card", "Hygiene card")
    (folder / "stations/other.yaml").write_text(other, encoding="utf-8")
    (problem,) = problems_of(folder)
    assert "food_handler is called" in problem.message


def test_a_short_code_that_would_open_another_card_is_told(tmp_path: Path) -> None:
    """It is told at the file of the later one, with the other's name; both are taught."""
    folder = small_kitchen(tmp_path)
    first, second = sorted(twins())
    for name in (first, second):
        copytree(folder / "techniques/rolling", folder / "techniques" / name)
    content, (problem,) = load_content(folder)
    assert content is not None
    assert {first, second} <= content.techniques.keys()
    assert (problem.file, problem.line) == (f"techniques/{second}/technique.yaml", 1)
    assert problem.message == f"The short code of {second} is that of the technique {first}, too."
