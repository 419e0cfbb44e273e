"""A batch and a cooling pan at the command line, with what comes with the program and no kitchen made."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from trainer.cli import trainer
from trainer.content.shipped import shipped

LATE_FIRST = ("14:00 135 F", "16:10 70 F", "19:00 41 F")


def run(folder: Path, *args: str, typed: str | None = None) -> Result:
    """Run the command line in this process, in a folder without a kitchen."""
    return CliRunner().invoke(trainer, ["--kitchen", str(folder / "none"), *args], input=typed)


def record_of(result: Result) -> dict[str, Any]:
    """Return the one record a command printed."""
    found: dict[str, Any] = json.loads(result.output)
    return found


def test_two_conditions_are_judged_apart_and_a_missed_one_fails(tmp_path: Path) -> None:
    """135 to 70 °F in 2 h 10 min fails though 41 °F is met at 5 h (FDA Food Code 2022, section 3-501.14(A)): exit 1."""
    result = run(tmp_path, "cooling", *LATE_FIRST, "--json")
    assert result.exit_code == 1
    record = record_of(result)
    assert record["missed"] is True
    assert [gate["outlook"] for gate in record["gates"]] == ["missed", "met"]
    assert [gate["within_minutes"] for gate in record["gates"]] == [120, 360]
    assert "3-501.14(A)(1)" in record["gates"][0]["source"]


def test_readings_come_from_arguments_a_file_or_the_pipe(tmp_path: Path) -> None:
    """The same log gives the same record, however it comes in."""
    log = tmp_path / "log.txt"
    log.write_text("\n".join(LATE_FIRST), encoding="utf-8")
    by_hand = run(tmp_path, "cooling", *LATE_FIRST, "--json").output
    assert run(tmp_path, "cooling", "--file", str(log), "--json").output == by_hand
    assert run(tmp_path, "cooling", "--file", "-", "--json", typed="\n".join(LATE_FIRST)).output == by_hand
    assert run(tmp_path, "cooling", "--json", typed="\n".join(LATE_FIRST)).output == by_hand


def test_a_forecast_needs_the_cold_around_the_food(tmp_path: Path) -> None:
    """Gap 55 to 45 °C in 30 min: ln(54.2/18.1)/0.00669 = 164 min from 57.2 to 21.1 °C, by hand: in the window, late."""
    result = run(tmp_path, "cooling", "0 58", "30 48", "--degrees", "C", "--around", "3", "--json")
    assert result.exit_code == 0
    first = record_of(result)["gates"][0]
    assert first["outlook"] == "will be late"
    assert 120 < first["earliest_minutes"] < 164 < first["latest_minutes"]
    assert "Type how cold" in record_of(run(tmp_path, "cooling", "0 58 C", "30 48 C", "--json"))["no_forecast"]


def test_a_cooling_pan_is_printed_with_who_decides(tmp_path: Path) -> None:
    """A person reads each limit, what is expected, its source, and that the local code decides."""
    shown = run(tmp_path, "cooling", "14:00 58 C", "14:30 48 C", "--around", "3 C").output
    assert "expected between 16:" in shown
    assert "Your local code decides; this is an estimate" in shown
    assert "far off the curve" in run(tmp_path, "cooling", *LATE_FIRST, "--around", "38 F").output


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("14:00 hot",), "Line 1"),
        (("14:00 135",), "the unit is missing"),
        (("14:00 135 F", "13:00 70 F"), "Line 2"),
        (("14:00 135 F", "--around", "cold"), "cold"),
        (("14:00 135 F", "--around", "3 oz"), "is no temperature"),
        (("14:00 135 F", "--degrees", "K"), "K"),
        (("--file", "no_such_file"), "no_such_file"),
        ((), "There is no reading."),
    ],
)
def test_wrong_use_of_cooling_says_why(tmp_path: Path, args: tuple[str, ...], says: str) -> None:
    """Exit code 2, with the line, the value and the rule."""
    result = run(tmp_path, "cooling", *args, typed="")
    assert result.exit_code == 2
    assert says in result.output


def kitchen_with(tmp_path: Path, file: str, old: str, new: str) -> Path:
    """Return a folder whose own content differs from the shipped one in one place."""
    content = tmp_path / "none" / "content"
    shutil.copytree(shipped("content"), content)
    text = (content / file).read_text(encoding="utf-8")
    assert old in text
    (content / file).write_text(text.replace(old, new), encoding="utf-8")
    return tmp_path


def test_the_kitchens_own_code_is_followed(tmp_path: Path) -> None:
    """A code that gives 3 hours for the first limit lets 2 h 10 min pass."""
    own = kitchen_with(
        tmp_path,
        "local_code/us_food_code_2022.yaml",
        "to_middle_within: {highest: 2 h",
        "to_middle_within: {highest: 3 h",
    )
    assert run(own, "cooling", *LATE_FIRST).exit_code == 0


def test_food_made_at_room_temperature_is_judged_by_its_own_limit(tmp_path: Path) -> None:
    """4 hours to 41 °F (FDA Food Code 2022, section 3-501.14(B)); what was hot is refused."""
    made = ("cooling", "--start", "room", "10:00 70 F")
    met = run(tmp_path, *made, "14:00 41 F")
    assert (met.exit_code, "from when it is made to 5 °C (41 °F) within 4 h: met" in met.output) == (0, True)
    late = run(tmp_path, *made, "14:01 41 F", "--json")
    assert late.exit_code == 1
    assert record_of(late)["gates"][0]["from_celsius"] is None
    hot = run(tmp_path, "cooling", "--start", "room", "10:00 140 F", "14:00 41 F")
    assert (hot.exit_code, "no room temperature" in hot.output) == (2, True)


def test_a_code_without_limits_for_cooling_is_told(tmp_path: Path) -> None:
    """Nothing is made up: exit code 1."""
    own = kitchen_with(tmp_path, "local_code/us_food_code_2022.yaml", "  cooling_start:", "  cooling_begin:")
    result = run(own, "cooling", *LATE_FIRST)
    assert result.exit_code == 1
    assert "no limits for cooling" in result.output


def test_content_that_cannot_be_read_ends_the_command(tmp_path: Path) -> None:
    """The file, the line and the problem, and exit code 1."""
    own = kitchen_with(tmp_path, "kitchen_code.yaml", "code: us_food_code_2022", "code: [")
    result = run(own, "batch", "durum_dough", "--portions", "4")
    assert result.exit_code == 1
    assert "kitchen_code.yaml:" in result.output
    assert "trainer content check" in result.output


def test_pasta_water_is_told_by_the_fill(tmp_path: Path) -> None:
    """40 nests, six at once, are seven batches: one fill of 3 gal with 4 oz of salt. 43 ask for a second. By hand."""
    printed = run(tmp_path, "batch", "pasta_water", "--portions", "40").output
    assert "the pot is filled once" in printed
    assert "6 nests go in at one time, 7 batches in all; one fill lasts 7 batches" in printed
    assert "3 gal" in printed
    assert "63" not in printed
    assert "filled 2 times" in run(tmp_path, "batch", "pasta_water", "--portions", "43").output
    assert record_of(run(tmp_path, "batch", "pasta_water", "--portions", "43", "--json"))["fills"] == 2
    assert record_of(run(tmp_path, "batch", "durum_dough", "--portions", "43", "--json"))["fills"] is None


def test_pasteurized_yolk_is_bought_by_the_carton(tmp_path: Path) -> None:
    """2 lb 4 1/4 oz for forty plates: two cartons of 2 lb; nobody buys 61 eggs. By hand."""
    printed = run(tmp_path, "batch", "yolk_sauce_base", "--portions", "40").output
    assert "as 2 cartons of 2 lb (907 g): Pasteurized yolk, 1 lb 11 3/4 oz (786 g) over" in printed
    assert "eggs" not in printed
