"""Kitchens at the command line: the demo, a new one, the board, the proof, the roster, the book."""

from __future__ import annotations

import json
import platform
import sqlite3
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import get_args

import pytest
from click.testing import CliRunner
from flask import Flask

from tests.cli.conftest import NOW, Run
from trainer.actions.outcome import Saved
from trainer.actions.standing import TakenOff, take_off
from trainer.cli import listening, trainer
from trainer.cli.opening import open_here
from trainer.kitchen.clearance import State
from trainer.store.connections import Connections
from trainer.store.kitchen_file import KitchenFile

ROSTER = Path(__file__).parents[2] / "demo_roster" / "roster.csv"
PASSPHRASE = "copper pans over the pass\n"


def states(run: Run, *args: str) -> dict[str, dict[str, str]]:
    """Return the state of every cook at every station, as `board --json` prints it."""
    lines = run("board", "--json", *args).output.splitlines()
    rows = [json.loads(line) for line in lines]
    return {row["cook"]: {name: cell["state"] for name, cell in row["stations"].items()} for row in rows}


@pytest.mark.parametrize(
    "command",
    [
        ("demo",),
        ("demo", "--anew"),
        ("board",),
        ("board", "--on", "never"),
        ("why", "Renzo Calabrì", "grill"),
        ("why", "Nobody", "grill"),
        ("roster", str(ROSTER)),
        ("book", "verify"),
        ("content", "check"),
    ],
)
def test_no_command_leaves_a_connection_open(
    run: Run, command: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whether it ends well or is refused, what a command opened it closes."""
    opened: list[Connections] = []
    begin = Connections.__init__

    def begun(self: Connections, path: Path) -> None:
        begin(self, path)
        opened.append(self)

    monkeypatch.setattr(Connections, "__init__", begun)
    run(*command)
    assert [each._all for each in opened if each._all] == []


def test_every_state_occurs_on_the_demo_board(run: Run) -> None:
    """The demo shows each word a board can hold; fourteen cooks, five stations."""
    board = states(run)
    assert len(board) == 14
    assert {len(row) for row in board.values()} == {5}
    assert {state for row in board.values() for state in row.values()} == set(get_args(State))


def test_the_demo_holds_services_by_a_published_plan(demo: Path) -> None:
    """The last three days were served as planned and closed; the days to come have a plan, and a week is set."""
    kitchen = open_here(demo)
    nights, today = kitchen.progress().nights, NOW.date()
    closings = nights.closings(today, today)
    assert {day for day, _ in closings} == {today - timedelta(days=back) for back in (1, 2, 3)}
    assert all(one.as_planned and one.guests for one in closings.values())
    plan, week = nights.plan(today, today, today), nights.week(today, today, today)
    assert plan is not None
    assert week is not None
    assert {place.runs for place in plan.places} == {True, False}
    assert any(place.day == today for place in plan.places)
    assert week.needs(today, "dinner")
    assert week.needs(today, "lunch") is None


def test_each_missing_thing_is_in_words_and_a_clearance_has_none(run: Run) -> None:
    """Nobody is cleared while something is missing, and nobody is short of reasons who is not."""
    for line in run("board", "--json").output.splitlines():
        for cell in json.loads(line)["stations"].values():
            assert (cell["state"] in ("cleared", "due again")) == (not cell["missing"])


def test_a_past_day_shows_the_record_as_it_was_then(run: Run) -> None:
    """The day before the first entry nobody was on the roster; on the first day nobody was cleared."""
    assert states(run, "--on", "2025-05-28") == {}
    first_day = states(run, "--on", "2025-05-29")
    assert first_day
    assert not any(state == "cleared" for row in first_day.values() for state in row.values())


def test_the_board_of_a_past_day_does_not_change_with_later_entries(run: Run, demo: Path) -> None:
    """Stood down today by another process: today's board says so, last month's is as it was."""
    before = run("board", "--json", "--on", "2026-10-25").output
    kitchen = open_here(demo)
    day = kitchen.day(NOW.date())
    (renzo,) = [cook for cook, person in kitchen.people().items() if person.name.startswith("Renzo")]
    (boss,) = [cook for cook in day.progress.cooks_on(day.on) if "manager" in day.roles(cook)]
    off = TakenOff(renzo, ("grill",), "seen", "Rest after a burn.")
    assert isinstance(take_off(kitchen, by=boss, off=off, now=NOW, key="one"), Saved)
    kitchen.file.close()
    assert states(run)["Renzo Calabrì"]["grill"] == "stood down"
    assert states(run, "--on", "2026-10-25")["Renzo Calabrì"]["grill"] == "cleared"
    assert run("board", "--json", "--on", "2026-10-25").output == before


def test_a_bad_date_is_wrong_use_and_says_how_to_write_one(run: Run) -> None:
    """Exit code 2; the value and the form wanted are named."""
    result = run("board", "--on", "31/02/2026")
    assert result.exit_code == 2
    assert "31/02/2026" in result.output
    assert "YYYY-MM-DD" in result.output


def test_why_lists_what_is_held_and_the_entries_that_prove_it(run: Run) -> None:
    """A cleared cook: nothing missing, every held thing dated, and entries to look up."""
    record = json.loads(run("why", "Adaeze Umeh-Lindqvist", "pasta_room", "--json").output)
    assert record["state"] == "cleared"
    assert record["missing"] == []
    assert record["proof"]


def test_why_says_what_is_missing(run: Run) -> None:
    """The cook who is seventeen is told of the age bar; what is missing stands under the act that comes next."""
    result = run("why", "Emre", "pasta_room")
    assert "not allowed" in result.output
    assert "18" in result.output
    next_act = result.output.index("  next: The cook reads it and says so.")
    assert next_act < result.output.index("    missing: Pasta nesting: edition 3 not read; ")


@pytest.mark.parametrize(("cook", "station"), [("Nobody", "grill"), ("Renzo", "scullery")])
def test_an_unknown_cook_or_station_is_wrong_use_and_names_those_there_are(run: Run, cook: str, station: str) -> None:
    """Exit code 2 and a list to choose from."""
    result = run("why", cook, station)
    assert result.exit_code == 2
    assert "There are:" in result.output


def test_the_demo_is_kept_and_no_other_kitchen_is_made_into_one(run: Run, tmp_path: Path) -> None:
    """A second `demo` changes nothing; on a real kitchen it is refused with exit code 3."""
    assert "already" in run("demo").output
    folder = str(tmp_path / "ours")
    new = ["--kitchen", folder, "new", "--name", "Ours", "--manager", "Ida", "--timezone", "Europe/Rome"]
    made = CliRunner().invoke(trainer, [*new, "--passphrase-from", "-"], input=PASSPHRASE)
    assert made.exit_code == 0, made.output
    assert CliRunner().invoke(trainer, ["--kitchen", folder, "demo"]).exit_code == 3


@pytest.mark.parametrize(
    ("zone", "secret", "word"), [("Mars/Olympus", PASSPHRASE, "time zone"), ("Europe/Rome", "short\n", "15")]
)
def test_a_kitchen_that_cannot_begin_leaves_nothing_behind(tmp_path: Path, zone: str, secret: str, word: str) -> None:
    """A wrong time zone or a short passphrase is refused with the rule; the next try finds an empty place."""
    folder = tmp_path / "ours"
    new = ["--kitchen", str(folder), "new", "--name", "Ours", "--manager", "Ida", "--timezone", zone]
    result = CliRunner().invoke(trainer, [*new, "--passphrase-from", "-"], input=secret)
    assert result.exit_code == 3
    assert word in result.output
    assert not (folder / "kitchen.db").exists()


def test_a_roster_is_previewed_with_every_fault_before_anything_is_taken_in(run: Run) -> None:
    """The demo roster's three faults are named by row; nothing is taken in, exit code 1."""
    result = run("roster", str(ROSTER), "--apply")
    assert result.exit_code == 1
    for fault in ("03/04/2001", "31/02/1998", "row 14"):
        assert fault in result.output
    assert "Nothing was taken in" in result.output


def test_a_mended_roster_is_previewed_and_the_same_file_again_changes_nothing(run: Run) -> None:
    """With the answers given, the preview says so; taking in what is there already changes nothing."""
    answers = ("roster", str(ROSTER), "--dates", "dmy", "--leave-out", "14", "--leave-out", "18")
    assert "This is a preview" in run(*answers).output
    taken = run(*answers, "--apply")
    assert taken.exit_code == 0
    assert "Nothing changed" in taken.output


BIRTH = "number,name,birth date,roles\n015,Noor Haddad-Silva,2012-01-05,cook\n900,Eve Fox,,assessor\n"
BOSS_WORDS = "blue apron on the hook\n"


@pytest.fixture
def birth_file(tmp_path: Path) -> str:
    """Return a roster file that makes a cook a minor and lets an assessor join."""
    path = tmp_path / "birth.csv"
    path.write_text(BIRTH, encoding="utf-8")
    return str(path)


def test_taking_in_people_asks_for_the_managers_passphrase(run: Run, birth_file: str, demo: Path) -> None:
    """Nothing without it, nothing with a wrong one; typed unseen, or from a file for scripts, it is taken in."""
    shown = run("roster", birth_file).output
    assert "Birth dates that change:\n  row 2: Noor Haddad-Silva: " in shown
    assert "2012-01-05. Bars from: " in shown
    assert "Roles given or taken:\n  row 3: Eve Fox: joins as assessor" in shown
    for typed, words in (("", "in a file"), ("wrong wrong wrong wrong\n", "not the passphrase of Ottilie")):
        refused = run("roster", birth_file, "--apply", input=typed)
        assert (refused.exit_code, words in refused.output) == (3, True)
    with closing(KitchenFile.open(demo)) as file:
        assert "Eve Fox" not in [person.name for person in file.people.all().values()]
    result = run("roster", birth_file, "--apply", "--passphrase-file", "-", input=BOSS_WORDS)
    assert result.exit_code == 0, result.output
    with closing(KitchenFile.open(demo)) as file:
        *_, birth, joined, authority, named, taken_in = file.book.since(0)
    kinds = ["age_seen", "cook_joined", "authority_given", "person_named", "roster_taken_in"]
    assert [each.kind for each in (birth, joined, authority, named, taken_in)] == kinds
    assert taken_in.body["entries"] == [birth.id, joined.id, authority.id, named.id]
    assert {"years": 18, "from": "2030-01-05"} in birth.body["bars"]
    assert "2012" not in str(birth.body)


def test_the_passphrase_is_typed_unseen(run: Run, birth_file: str) -> None:
    """The question names whose it is; what is typed stands nowhere."""
    result = run("roster", birth_file, "--apply", input=BOSS_WORDS)
    assert result.exit_code == 0, result.output
    assert "Passphrase of Ottilie Brandvold" in result.output
    assert BOSS_WORDS.strip() not in result.output


def test_a_changed_entry_is_found(run: Run, demo: Path) -> None:
    """Somebody who gets past the guards and changes an entry is found out; exit code 1 names the entry."""
    assert run("book", "verify").exit_code == 0
    with closing(sqlite3.connect(demo / "kitchen.db")) as book, book:
        for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            book.execute(f"DROP TRIGGER {name}")
        book.execute("UPDATE book SET body = replace(body, 'not yet', 'meets it') WHERE kind = 'practical_watched'")
    result = run("book", "verify", "--json")
    assert result.exit_code == 1
    assert json.loads(result.output)["kitchens"][0]["problems"][0]["seq"] > 0


@pytest.mark.parametrize("signs", [12, 20, 64])
def test_a_check_value_printed_earlier_vouches_for_the_book(run: Run, demo: Path, signs: int) -> None:
    """Twelve signs of an older board or more, in any case, with blanks: found at the entry that was the last then."""
    entry = KitchenFile.open(demo).book.since(499)[0]
    typed = f" {entry.hash[:4].upper()} {entry.hash[4:signs]}"
    result = run("book", "verify", "--head", typed)
    assert result.exit_code == 0, result.output
    assert "Nothing was changed, up to entry 500." in result.output
    assert ("weak" in result.output) is (signs == 12)
    assert json.loads(run("book", "verify", "--json", "--head", typed).output)["up_to"] == 500


def test_the_check_value_printed_now_is_taken_back(run: Run, demo: Path) -> None:
    """What `verify` prints vouches when it is typed back; each way to be wrong is told apart, none called forged."""
    file = KitchenFile.open(demo)
    size, _ = file.book.end()
    value = file.book.head().short
    file.close()
    assert f"check value {value}" in run("book", "verify").output
    assert json.loads(run("book", "verify", "--json").output)["kitchens"][0]["short_head"] == value
    assert f"Nothing was changed, up to entry {size:,}." in run("book", "verify", "--head", value.lower()).output
    for wrong, words in (
        (f"{value[:-1]}{(int(value[-1]) + 1) % 10}", "Type it again, sign by sign."),
        ("9999999-7K2M-QX4F-9T0B-ZR6H-12", "its end was cut off"),
        ("1093-7K2M-QX4F-9T0B-ZR6H-43", "the book was rewritten, or the value is another kitchen's"),
    ):
        result = run("book", "verify", "--head", wrong)
        assert (result.exit_code, words in result.output) == (1, True), result.output
        assert "forged" not in result.output


def test_a_wrong_sign_in_a_check_value_is_said_and_is_no_forgery(run: Run, demo: Path) -> None:
    """Exit code 1 and the value named; the book itself has no problem."""
    head = KitchenFile.open(demo).book.end()[1]
    for typed in (("0" if head[11] != "0" else "1").join((head[:11], "")), head[:11], "z" + head[1:12], head + "0"):
        result = run("book", "verify", "--head", typed)
        assert result.exit_code == 1
        assert "0 problems" in result.output
        assert "Nothing was changed" not in result.output


def test_a_kitchen_cut_short_is_named_without_a_traceback(run: Run, demo: Path) -> None:
    """A truncated file ends every command in one plain line."""
    data = (demo / "kitchen.db").read_bytes()
    (demo / "kitchen.db").write_bytes(data[: len(data) // 3])
    for command in (["board"], ["book", "verify"], ["why", "Renzo", "grill"]):
        result = run(*command)
        assert result.exit_code == 1
        assert result.exception is None or isinstance(result.exception, SystemExit)


def test_no_kitchen_is_said_with_what_to_do(tmp_path: Path) -> None:
    """A first `board` in an empty folder points to `new` and `demo`."""
    result = CliRunner().invoke(trainer, ["--kitchen", str(tmp_path), "board"])
    assert result.exit_code == 1
    assert "trainer demo" in result.output


def test_content_is_checked_and_counted(run: Run) -> None:
    """What comes with the program has no problem; the record keeps its three keys."""
    result = run("content", "check", "--json")
    record = json.loads(result.output)
    assert result.exit_code == 0
    assert record["problems"] == []
    assert record["techniques"] >= 4
    assert record["stations"] == 5


def test_broken_content_fails_the_check_with_file_and_line(run: Run, tmp_path: Path) -> None:
    """A folder with nothing to teach in it is a list of problems, each with its mend, and exit code 1."""
    (tmp_path / "empty").mkdir()
    result = run("content", "check", str(tmp_path / "empty"), "--json")
    assert result.exit_code == 1
    for problem in json.loads(result.output)["problems"]:
        assert set(problem) == {"file", "line", "problem", "mend", "message", "hint", "leaves_out"}
        assert problem["leaves_out"]


def test_a_kitchen_of_its_own_may_speak_spanish(run: Run, tmp_path: Path) -> None:
    """Whoever has not chosen a language reads the kitchen's; the book and the rules stay as they are."""
    words = tmp_path / "words"
    words.write_text("blue apron on the hook\n", encoding="utf-8")
    folder = str(tmp_path / "nuestra")
    asked = ["--name", "Nuestra", "--manager", "Ida", "--timezone", "America/Chicago", "--language", "es"]
    made = run("--kitchen", folder, "new", *asked, "--passphrase-from", str(words))
    assert made.exit_code == 0, made.output
    with closing(KitchenFile.open(Path(folder))) as file:
        assert file.settings.language == "es"


def test_a_kitchen_is_served_under_the_names_it_was_given(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """By its machine's own name, its addresses and what follows --name; by no other."""
    names = ("kitchen.example", "other.example:8070", platform.node(), "127.0.0.1:8070", "evil.example")
    answers: list[int] = []

    def listen(app: Flask, *_: object) -> None:
        answers.extend(app.test_client().get("/", headers={"Host": name}).status_code for name in names)

    monkeypatch.setattr(listening, "listen", listen)
    result = run("serve", "--host", "0.0.0.0", "--name", "kitchen.example", "--name", "other.example")  # noqa: S104
    assert result.exit_code == 0, result.output
    assert answers == [200, 200, 200, 200, 400]


def test_https_is_made_by_one_command(run: Run) -> None:
    """Names and addresses are checked; what phones trust already is not made anew by mistake."""
    assert "is no host name" in run("https", "--name", "a kitchen").output
    made = run("https", "--name", "Kitchen.lan", "--name", "192.168.1.20")
    assert made.exit_code == 0
    assert "kitchen.lan, 192.168.1.20" in made.output
    again = run("https")
    assert (again.exit_code, "--anew" in again.output) == (3, True)
