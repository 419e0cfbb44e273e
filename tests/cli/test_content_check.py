"""`content check`: problems, what each quiz really does, and the count."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner, Result

from tests.cli.conftest import Run
from tests.store.older_content import older_content
from tests.store.small_kitchen import change, small_kitchen
from trainer.cli import trainer

FILE = "techniques/rolling/technique.yaml"


def check(folder: Path, *more: str) -> Result:
    """Check a folder."""
    return CliRunner().invoke(trainer, ["content", "check", str(folder), *more])


def deciding(folder: Path) -> Path:
    """Return a small content whose quiz decides by the usual plan."""
    small_kitchen(folder)
    change(folder, FILE, "{need_right: 3, months: 12}", "{decides: yes, months: 12}")
    return folder


def test_the_author_reads_one_line_a_quiz(tmp_path: Path) -> None:
    """The true rates of the plan cut off at 25: .0773 and .0871, average lengths under Wald's 13.5 and 18.2.

    The rates were worked out outside this project by dynamic programming; Wald's lengths are for a plan without an end.
    """
    result = check(deciding(tmp_path))
    line = next(line for line in result.output.splitlines() if line.startswith("rolling: "))
    assert "passes 7.7 times in 100" in line
    assert "held back 8.7 times in 100" in line
    assert result.output.splitlines()[-1] == "1 techniques, 1 stations, 0 problems"
    assert result.exit_code == 0


def test_a_fixed_quiz_has_its_line_too(tmp_path: Path) -> None:
    """3 of 3: .6 ** 3 is .216, and 1 - .85 ** 3 is .385875 (by hand)."""
    result = check(small_kitchen(tmp_path))
    assert "rolling: 3 of 3 right." in result.output
    assert "passes 21.6 times in 100" in result.output
    assert "held back 38.6 times in 100" in result.output


def test_a_quiz_that_holds_back_many_says_how_to_mend_it(tmp_path: Path) -> None:
    """38.6 in 100 are many and 8.7 are not."""
    mend = "ask more questions (about safety none, or four and more), or let it decide."
    (tmp_path / "fixed").mkdir()
    (tmp_path / "deciding").mkdir()
    assert mend in check(small_kitchen(tmp_path / "fixed")).output
    assert mend not in check(deciding(tmp_path / "deciding")).output


def test_the_record_keeps_its_keys_and_adds_the_quizzes(tmp_path: Path) -> None:
    """Whoever reads techniques, stations and problems reads on as before."""
    record = json.loads(check(deciding(tmp_path), "--json").output)
    assert (record["techniques"], record["stations"], record["problems"]) == (1, 1, [])
    quiz = record["quizzes"][0]
    assert (quiz["technique"], quiz["decides"]) == ("rolling", True)
    assert (quiz["knows_too_little"], quiz["knows_enough"]) == (0.6, 0.85)
    assert (quiz["false_pass"], quiz["false_fail"]) == (0.0773, 0.0871)


def test_content_that_cannot_be_used_has_no_quizzes(tmp_path: Path) -> None:
    """Without a local code there is no content; the problems are told and the exit code is 1."""
    small_kitchen(tmp_path)
    (tmp_path / "kitchen_code.yaml").unlink()
    result = check(tmp_path, "--json")
    assert result.exit_code == 1
    assert json.loads(result.output)["quizzes"] == []


def test_a_limit_that_can_be_missed_is_a_problem_and_nothing_is_left_out(tmp_path: Path) -> None:
    """Exit code 1, file, line and mend; the technique and its station are counted, and the record says so too."""
    folder = small_kitchen(tmp_path)
    line = change(folder, FILE, "limit: code.hot_holding, critical: yes}", "limit: code.hot_holding}")
    result = check(folder)
    assert result.exit_code == 1
    assert f"{FILE}:{line}: kept_hot is judged by hot_holding, a limit of the code, and can be missed." in result.output
    assert result.output.splitlines()[-1] == "1 techniques, 1 stations, 1 problems"
    (problem,) = json.loads(check(folder, "--json").output)["problems"]
    assert (problem["line"], problem["leaves_out"]) == (line, False)


def test_a_kitchen_with_an_older_content_of_its_own_keeps_its_stations(run: Run, demo: Path) -> None:
    """Published, its stations are all there; nobody lacks more than the quizzes, which no one sat who answered skills.

    Check and preview say what to mend, and what the code asks anyway costs nobody anything.
    """
    before = run("board", "--json").stdout
    older_content(demo)
    assert run("content", "check").exit_code == 1
    published = run("content", "publish", "--json")
    assert "asks for less than the code in 12 places; it is taught, and judged as the code asks" in published.stderr
    assert "left out" not in published.stderr
    record = json.loads(published.stdout)
    assert record["published"]
    missing = {what for loss in record["losses"] for what in loss["missing"]}
    assert missing
    assert {what.partition(":")[0] for what in missing} == {"quiz"}
    stations = [
        [set(json.loads(line)["stations"]) for line in text.splitlines()]
        for text in (before, run("board", "--json").stdout)
    ]
    assert stations[0] == stations[1]


def test_a_sum_with_one_answer_is_a_problem_and_taught_all_the_same(tmp_path: Path) -> None:
    """Kept three days, a custard has one day left whatever is drawn: the check says so by file and line and fails.

    The technique and its station are there as before.
    """
    small_kitchen(tmp_path)
    constant = "{family: date_mark, count: 3, ranges: {days_allowed: 3 to 3 step 1, days_later: 1 to 2 step 1}}"
    text = (tmp_path / FILE).read_text(encoding="utf-8")
    place = text.index("- {family:")
    (tmp_path / FILE).write_text(text[:place] + f"- {constant}" + text[text.index("\n", place) :], encoding="utf-8")
    line = text.count("\n", 0, place) + 1
    result = check(tmp_path)
    assert f"{FILE}:{line}: date_mark: the answer is 1 day in 100 of 100 questions." in result.output
    assert "Widen the ranges so that answers differ" in result.output
    assert result.output.splitlines()[-1] == "1 techniques, 1 stations, 1 problems"
    assert result.exit_code == 1
    record = json.loads(check(tmp_path, "--json").output)
    assert (record["techniques"], record["stations"]) == (1, 1)
    assert [(each["line"], each["leaves_out"]) for each in record["problems"]] == [(line, False)]
