"""A roster or shift file is previewed, then taken in whole or not at all."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.actions.people_at_the_door import NOON, id_of, person_of, small_kitchen, staffed, with_manager
from tests.printed import all_english, english
from trainer.actions.confirming import confirm
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused, Saved
from trainer.actions.own_language import keep_own_language
from trainer.actions.roster import Imported, apply_import, first_manager, plan_import, with_what_waits
from trainer.actions.signing_in import Done, set_secret
from trainer.actions.two_people import Second, local_second, waiting
from trainer.imports.roster_plan import Choices, RosterPlan
from trainer.kitchen.book import NewEntry
from trainer.store.people import People
from trainer.store.problems import CannotSave
from trainer.store.shifts import PlannedShift

HEADER = "number,name,birth date,roles,started,language\r\n"
MANAGER_ROW = "001,Ottilie Brandvold,,manager,,\r\n"


def plan(k: Kitchen, text: str, choices: Choices | None = None) -> RosterPlan:
    """Return the plan of a file at noon."""
    return plan_import(k, text.encode(), choices or Choices(), now=NOON)


def taken(k: Kitchen, by: str, text: str, choices: Choices | None = None) -> Imported:
    """Take in a file and return what was done."""
    outcome = apply_import(k, plan=plan(k, text, choices), by=by, now=NOON)
    assert isinstance(outcome, Imported), outcome
    return outcome


def refused(outcome: object) -> Refused:
    """Return the refusal."""
    assert isinstance(outcome, Refused)
    return outcome


def roles(k: Kitchen, person: str) -> frozenset[str]:
    """Return a person's roles at noon."""
    return k.progress().roles(person, k.today(NOON))


def test_the_first_manager_joins_by_their_own_hand_and_only_once(tmp_path: Path) -> None:
    """A second first manager is refused; the same form sent twice is one entry."""
    k = small_kitchen(tmp_path)
    first = first_manager(k, name=" Ottilie  Brandvold ", now=NOON, key="a")
    assert isinstance(first, Saved)
    assert first_manager(k, name="Ottilie Brandvold", now=NOON, key="a") == first
    assert "manager already" in english(refused(first_manager(k, name="Bo", now=NOON, key="b")).reason)
    assert (first.entry.by, k.people()[first.entry.cook].name) == (first.entry.cook, "Ottilie Brandvold")
    assert roles(k, first.entry.cook) == {"manager"}


def test_a_first_manager_needs_a_name(tmp_path: Path) -> None:
    """The field is named."""
    assert refused(first_manager(small_kitchen(tmp_path), name="  ", now=NOON, key="a")).field == "name"


def test_a_preview_changes_nothing(tmp_path: Path) -> None:
    """It says what each row would do, and the book and the people stay as they were."""
    k, _ = with_manager(tmp_path)
    before = (k.file.book.end(), k.file.people.listed())
    changes = plan(k, HEADER + MANAGER_ROW + "002,Ana,,,,\r\n").changes
    assert [(c.row, c.act, english(c.text)) for c in changes] == [
        (2, "changes", "number: none → 001"),
        (3, "joins", "joins as cook"),
    ]
    assert (k.file.book.end(), k.file.people.listed()) == before


def test_people_join_with_an_entry_each(tmp_path: Path) -> None:
    """Names go to the people, roles to the book, signed by the manager."""
    k, manager = with_manager(tmp_path)
    done = taken(k, manager, HEADER + '007,Zoë Roux,1990-02-28,"cook, assessor",2020-01-31,fr\r\n')
    person, started = person_of(k, "007")
    entry, authority, *_ = done.entries
    assert (authority.kind, authority.cook, authority.body["scope"]) == ("authority_given", person.id, {"all": True})
    assert (entry.kind, entry.by, entry.cook, entry.body) == (
        "cook_joined",
        manager,
        person.id,
        {"roles": ["cook", "assessor"], "second": None},
    )
    assert (person.name, person.born, person.language) == ("Zoë Roux", date(1990, 2, 28), "fr")
    assert started == date(2020, 1, 31)
    assert english(done.text) == "1 joined."


def test_the_same_file_twice_changes_nothing(tmp_path: Path) -> None:
    """The second time, the outcome says so and no entry is written."""
    k, manager = with_manager(tmp_path)
    text = HEADER + "002,Ana,1990-03-04,assessor,2020-01-01,fr\r\n003,Bo,,,,\r\n"
    taken(k, manager, text)
    end = k.file.book.end()
    assert english(taken(k, manager, text).text) == "Nothing changed, 2 as they were."
    assert k.file.book.end() == end


def test_somebody_known_by_number_is_changed_and_not_doubled(tmp_path: Path) -> None:
    """A new name is a change of name; new roles are an entry; the preview says both."""
    k, manager, ana = staffed(tmp_path)
    text = HEADER + "002,Ana Roux-Lund,1990-03-04,cook assessor,,\r\n"
    (change,) = plan(k, text).changes
    assert english(change.text) == "name: Ana Roux → Ana Roux-Lund; roles: cook → assessor, cook"
    entry, authority, named = taken(k, manager, text).entries
    assert (authority.kind, authority.cook) == ("authority_given", ana)
    assert (entry.kind, entry.cook, id_of(k, "002")) == ("cook_changed", ana, ana)
    assert (named.kind, named.cook) == ("person_named", ana)
    assert k.people()[ana].name == "Ana Roux-Lund"


def test_an_empty_cell_takes_nothing_away(tmp_path: Path) -> None:
    """Birth date, language and roles stay where the file says nothing."""
    k, manager = with_manager(tmp_path)
    taken(k, manager, HEADER + "002,Ana,1990-03-04,assessor,2020-01-01,fr\r\n")
    before = (person_of(k, "002"), roles(k, id_of(k, "002")))
    assert taken(k, manager, "number,name\r\n002,Ana\r\n").stayed == 1
    assert (person_of(k, "002"), roles(k, id_of(k, "002"))) == before


def test_units_somebody_chose_stay_whatever_the_file_says(tmp_path: Path) -> None:
    """A roster has no column for them, so taking one in takes nothing away."""
    k, manager, ana = staffed(tmp_path)
    assert keep_own_language(k, person=ana, language="es", units="metric") is None
    taken(k, manager, HEADER + "002,Ana Roux-Lund,1990-03-04,cook,,\r\n")
    kept = k.people()[ana]
    assert (kept.name, kept.language, kept.units) == ("Ana Roux-Lund", "es", "metric")


def test_somebody_without_a_number_is_known_by_name(tmp_path: Path) -> None:
    """The first manager, made by name alone, is not doubled by the roster that names them."""
    k, manager = with_manager(tmp_path)
    taken(k, manager, HEADER + MANAGER_ROW)
    assert id_of(k, "001") == manager
    assert len(k.people()) == 1


def test_somebody_listed_under_another_number_is_a_problem(tmp_path: Path) -> None:
    """The same name and birth date: the row names the number they have."""
    k, manager, _ = staffed(tmp_path)
    (problem,) = plan(k, HEADER + "009,ana roux,1990-03-04,,,\r\n").problems
    assert (problem.row, "under number 002" in english(problem.reason)) == (2, True)
    assert isinstance(
        apply_import(k, plan=plan(k, HEADER + "009,ana roux,1990-03-04,,,"), by=manager, now=NOON), Refused
    )


def test_somebody_who_left_joins_again(tmp_path: Path) -> None:
    """The same id, a new entry."""
    k, manager, ana = staffed(tmp_path)
    k.file.book.append(NewEntry("cook_left", NOON, ana, manager, {"reason": "moved"}, "left"))
    (entry,) = taken(k, manager, HEADER + "002,Ana Roux,1990-03-04,cook,,\r\n").entries
    assert (entry.kind, entry.cook) == ("cook_joined", ana)


def test_somebody_the_file_does_not_name_stays(tmp_path: Path) -> None:
    """A file adds and changes; nobody leaves by being left out."""
    k, manager, ana = staffed(tmp_path)
    taken(k, manager, HEADER + "003,Bo,,,,\r\n")
    assert roles(k, ana) == {"cook"}


def test_rows_left_out_are_said(tmp_path: Path) -> None:
    """The outcome counts them."""
    k, manager = with_manager(tmp_path)
    text = HEADER + "002,Ana,31/02/1990,,,\r\n003,Bo,,,,\r\n"
    assert english(taken(k, manager, text, Choices(left_out=frozenset({2}))).text) == "1 joined, 1 row left out."


@pytest.mark.parametrize("row", ["002,,,,,", "002,Ana,03/04/1990,,,"])
def test_a_file_with_a_problem_or_a_question_is_not_taken(tmp_path: Path, row: str) -> None:
    """Not even its good rows."""
    k, manager = with_manager(tmp_path)
    outcome = apply_import(k, plan=plan(k, HEADER + "003,Bo,,,,\r\n" + row), by=manager, now=NOON)
    assert "problems or open questions" in english(refused(outcome).reason)
    assert len(k.people()) == 1


def test_a_disk_that_fills_up_halfway_takes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All or nothing: the people added before the fault are gone again, and so are their entries."""
    k, manager = with_manager(tmp_path)
    ready = plan(k, HEADER + "002,Ana,,,,\r\n003,Bo,,,,\r\n")
    add = People.add

    def add_one(people: People, person: object, number: str, started: object) -> None:
        if number == "003":
            raise CannotSave("full")
        add(people, person, number, started)  # type: ignore[arg-type]

    monkeypatch.setattr(People, "add", add_one)
    with pytest.raises(CannotSave):
        apply_import(k, plan=ready, by=manager, now=NOON)
    assert len(k.people()) == 1
    assert k.file.book.end()[0] == 2
    assert k.progress().cooks_on(k.today(NOON)) == (manager,)


def test_only_a_manager_takes_in_a_file(tmp_path: Path) -> None:
    """The refusal says who may."""
    k, _, ana = staffed(tmp_path)
    for who in (ana, "nobody"):
        outcome = refused(apply_import(k, plan=plan(k, HEADER + "003,Bo,,,,"), by=who, now=NOON))
        assert english(outcome.who_can) == "A manager can do this."


def test_nobody_gives_themselves_a_role(tmp_path: Path) -> None:
    """Not by a file either."""
    k, manager, _ = staffed(tmp_path)
    text = HEADER + "001,Ottilie Brandvold,,manager assessor,,\r\n003,Bo,,,,\r\n"
    assert "Row 2 gives you the role assessor" in english(
        refused(apply_import(k, plan=plan(k, text), by=manager, now=NOON)).reason
    )
    assert len(k.people()) == 2


def test_one_manager_must_be_left(tmp_path: Path) -> None:
    """A file that would take the last one away is refused, and so it is while the role of another waits a day.

    A command on the machine counts as the second person at once, and so does that role then.
    """
    k, manager, ana = staffed(tmp_path)
    k.file.book.append(NewEntry("cook_changed", NOON, manager, ana, {"roles": ["cook", "manager"]}, "both"))
    text = HEADER + "001,Ottilie Brandvold,,cook,,\r\n"
    assert "without a manager" in english(refused(apply_import(k, plan=plan(k, text), by=manager, now=NOON)).reason)
    assert roles(k, manager) == {"cook", "manager"}
    text += "003,Bo,,manager,,\r\n"
    found = refused(apply_import(k, plan=plan(k, text), by=manager, now=NOON))
    assert english(found.who_can).startswith("A new manager's role waits first")
    done = apply_import(k, plan=plan(k, text), by=manager, now=NOON, second=local_second(NOON))
    assert isinstance(done, Imported)
    assert done.waiting == 0
    assert roles(k, id_of(k, "003")) == {"manager"}
    assert roles(k, manager) == {"cook"}


def test_a_plan_made_before_somebody_else_changed_the_roster_is_looked_at_again(tmp_path: Path) -> None:
    """What is written follows the roster as it is when it is written."""
    k, manager = with_manager(tmp_path)
    early = plan(k, HEADER + "002,Ana,1990-03-04,,,\r\n")
    taken(k, manager, HEADER + "002,Ana,1990-03-04,,,\r\n")
    again = apply_import(k, plan=early, by=manager, now=NOON)
    assert isinstance(again, Imported)
    assert (again.stayed, again.entries) == (1, ())


SHIFTS = "date,sitting,number,station\r\n2026-12-01,dinner,002,grill\r\n2026-12-01,lunch,002,Sauté\r\n"


def test_shifts_are_planned_and_the_same_file_again_changes_nothing(tmp_path: Path) -> None:
    """A station may be named by its title."""
    k, manager, ana = staffed(tmp_path)
    assert english(taken(k, manager, SHIFTS).text) == "2 shifts planned."
    assert english(taken(k, manager, SHIFTS).text) == "Nothing changed, 2 as they were."
    assert k.file.shifts.on(date(2026, 12, 1)) == (
        PlannedShift(date(2026, 12, 1), "lunch", ana, "saute"),
        PlannedShift(date(2026, 12, 1), "dinner", ana, "grill"),
    )


def test_a_changed_shift_says_what_it_was(tmp_path: Path) -> None:
    """The preview names the old station."""
    k, manager, _ = staffed(tmp_path)
    taken(k, manager, SHIFTS)
    changes = plan(k, SHIFTS.replace("grill", "saute")).changes
    assert [english(change.text) for change in changes] == [
        "2026-12-01, dinner: saute (was grill)",
        "2026-12-01, lunch: saute",
    ]


def test_roles_count_from_the_moment_they_are_given(tmp_path: Path) -> None:
    """An import of yesterday shows today, and not the day before."""
    k, manager = with_manager(tmp_path)
    taken(k, manager, HEADER + "002,Ana,,,,\r\n")
    day = k.today(NOON)
    ana = id_of(k, "002")
    assert k.progress().roles(ana, day) == {"cook"}
    assert k.progress().roles(ana, day - timedelta(days=1)) == frozenset()


MINOR = "002,Ana Roux,2010-03-04,cook,,\r\n"


def with_an_age(k: Kitchen) -> Kitchen:
    """Return the kitchen with 18 years asked for at the grill (29 CFR 570.61-62 asks it at powered machines)."""
    grill = replace(k.content.stations["grill"], minimum_age=18, age_reason="powered machine")
    k.content = replace(k.content, stations={**k.content.stations, "grill": grill})
    return k


def test_another_birth_date_is_shown_apart_with_what_it_does(tmp_path: Path) -> None:
    """Anyone who takes the file in reads who is barred or freed by it, before anything is changed."""
    k, _, _ = staffed(tmp_path)
    (change,) = plan(with_an_age(k), HEADER + MINOR).changes
    assert english(change.birth) == "1990-03-04 → 2010-03-04. Bars from: Grill."
    assert english(change.roles) == ""
    (change,) = plan(k, HEADER + "002,Ana Roux,1991-03-04,cook manager,,\r\n").changes
    assert english(change.birth) == "1990-03-04 → 1991-03-04. No station is affected."
    assert english(change.roles) == "cook → cook, manager"


def test_a_role_that_somebody_joins_with_is_shown_apart_too(tmp_path: Path) -> None:
    """A manager or assessor who joins; a cook who joins has no power over others."""
    k, _ = with_manager(tmp_path)
    told = [change.roles for change in plan(k, HEADER + "003,Bo,,assessor,,\r\n004,Cy,,cook,,\r\n").changes]
    assert all_english(told) == ["joins as assessor", ""]


@pytest.mark.parametrize(
    ("born", "reached"),
    [("2010-03-04", "2028-03-04"), ("1991-03-04", "joining"), ("", "")],
)
def test_a_birth_date_changed_is_an_entry_without_the_date(tmp_path: Path, born: str, reached: str) -> None:
    """From when the cook is 18, by whom it was changed, and in place of which entry; an empty cell changes nothing.

    18 years after 4 March 2010 is 4 March 2028; anyone born in 1991 was 18 before joining in 2026.
    """
    k, manager, ana = staffed(tmp_path)
    (before,) = k.file.book.of_kind("age_seen")
    done = taken(with_an_age(k), manager, HEADER + f"002,Ana Roux,{born},cook,,\r\n")
    if not born:
        assert done.entries == ()
        return
    (entry,) = done.entries
    assert (entry.kind, entry.cook, entry.by) == ("age_seen", ana, manager)
    assert entry.body["bars"] == [{"years": 18, "from": reached}]
    assert (entry.body["seen"], entry.body["corrects"]) == ("not seen", before.id)
    assert born not in str(entry.body)
    assert roles(k, ana) == {"cook"}


def test_every_row_that_changes_somebody_leaves_an_entry(tmp_path: Path) -> None:
    """Joining, another name, another birth date: each is in the book, in the order of the file."""
    k, manager, _ = staffed(tmp_path)
    text = HEADER + "002,Ana Roux-Lund,1991-03-04,cook,,\r\n003,Bo,1990-05-06,,,\r\n004,Cy,,,,\r\n"
    assert [(entry.kind, entry.cook) for entry in taken(k, manager, text).entries] == [
        ("person_named", id_of(k, "002")),
        ("age_seen", id_of(k, "002")),
        ("cook_joined", id_of(k, "003")),
        ("person_named", id_of(k, "003")),
        ("age_seen", id_of(k, "003")),
        ("cook_joined", id_of(k, "004")),
        ("person_named", id_of(k, "004")),
    ]


def test_taking_in_a_file_is_an_entry_with_its_digest(tmp_path: Path) -> None:
    """Which file, how many rows did what, and the entries it made; taken in again it changes nothing and writes none.

    The digest is SHA-256 (FIPS 180-4) of the file's bytes.
    """
    k, manager, _ = staffed(tmp_path)
    text = HEADER + "002,Ana Roux,1991-03-04,cook assessor,,\r\n003,Bo,,,,\r\n"
    done = taken(k, manager, text)
    assert done.taken_in is not None
    assert (done.taken_in.kind, done.taken_in.cook, done.taken_in.by) == ("roster_taken_in", manager, manager)
    assert done.taken_in.body == {
        "file": hashlib.sha256(text.encode()).hexdigest(),
        "rows": 2,
        "joined": 1,
        "changed": 1,
        "births": 1,
        "roles": 1,
        "entries": [entry.id for entry in done.entries],
    }
    kinds = ["cook_changed", "authority_given", "age_seen", "cook_joined", "person_named"]
    assert [entry.kind for entry in done.entries] == kinds
    end = k.file.book.end()
    assert taken(k, manager, text).taken_in is None
    assert k.file.book.end() == end
    assert k.file.verify().is_whole


def test_what_a_file_did_is_not_voided(tmp_path: Path) -> None:
    """A void would undo nothing: a birth date is changed again, a role is taken back by voiding its own entry."""
    k, manager, _ = staffed(tmp_path)
    done = taken(k, manager, HEADER + "002,Ana Roux,1991-03-04,cook,,\r\n")
    assert done.taken_in is not None
    for entry in (done.taken_in, *done.entries):
        outcome = void_entry(k, by=manager, correction=Correction(entry.id, "slip"), now=NOON, key="void")
        assert "only says what happened" in english(refused(outcome).reason)


BOB = "010,Bob Vane,2010-03-04,cook,,\r\n"
FREED = "010,Bob Vane-Lund,1990-03-04,cook manager,,\r\n"


def with_a_second(k: Kitchen, manager: str) -> str:
    """Return the id of another manager, who has the PIN; at the grill 18 years are asked, and Bob is 16."""
    taken(with_an_age(k), manager, HEADER + BOB)
    plan_of_two = plan(k, HEADER + "011,Nils Moe,1980-01-01,manager,,\r\n")
    done = apply_import(k, plan=plan_of_two, by=manager, now=NOON, second=local_second(NOON))
    assert isinstance(done, Imported)
    nils = id_of(k, "011")
    assert isinstance(set_secret(k, person=nils, secret="80362714"), Done)
    return nils


def test_what_a_row_frees_waits_and_the_rest_of_it_counts_at_once(tmp_path: Path) -> None:
    """The name counts, the role and the birth date wait, each like the single act; Nils confirms one and the other."""
    k, manager, _ = staffed(tmp_path)
    nils = with_a_second(k, manager)
    done = taken(k, manager, HEADER + FREED)
    assert english(done.text) == "1 changed, 1 row waits for a second person."
    bob = id_of(k, "010")
    assert [entry.kind for entry in done.entries] == ["person_named"]
    kept = k.people()[bob]
    assert (kept.name, kept.born) == ("Bob Vane-Lund", date(2010, 3, 4))
    assert roles(k, bob) == {"cook"}
    asked = {one.about: one for one in waiting(k)}
    assert asked["roles"].body["args"] == {"roles": ["cook", "manager"]}
    assert asked["age"].body["args"] == {"born": "1990-03-04", "seen": "not seen"}
    for one in asked.values():
        assert isinstance(confirm(k, draft=one.id, second=Second(nils, {}), now=NOON), Saved)
    assert k.people()[bob].born == date(1990, 3, 4)
    assert roles(k, bob) == {"cook", "manager"}
    assert english(taken(k, manager, HEADER + FREED).text) == "Nothing changed, 1 as they were."


def test_the_same_file_again_waits_once(tmp_path: Path) -> None:
    """No entry, and nothing asked for twice."""
    k, manager, _ = staffed(tmp_path)
    with_a_second(k, manager)
    taken(k, manager, HEADER + FREED)
    before, end = waiting(k), k.file.book.end()
    again = taken(k, manager, HEADER + FREED)
    assert english(again.text) == "Nothing changed, 1 row waits for a second person, 1 as they were."
    assert (waiting(k), k.file.book.end()) == (before, end)


@pytest.mark.parametrize("has_second", [True, False])
def test_the_preview_says_what_of_a_row_will_wait(tmp_path: Path, has_second: bool) -> None:
    """For another manager, or where there is none for a day; of a cook nothing; the command line says it of none."""
    k, manager, _ = staffed(tmp_path)
    if has_second:
        with_a_second(k, manager)
    else:
        taken(with_an_age(k), manager, HEADER + BOB)
    asked = plan(k, HEADER + FREED + "012,Cy,,cook,,\r\n")
    notes = all_english([change.note for change in with_what_waits(k, asked, manager, NOON).changes])
    wait = "waits until another manager confirms it."
    if not has_second:
        wait = "counts after a day, since there is no other manager to confirm it."
    assert notes == [f"The new role {wait} The birth date {wait}", ""]
    assert all_english([change.note for change in asked.changes]) == ["", ""]


def test_a_birth_date_that_bars_counts_at_once(tmp_path: Path) -> None:
    """And so does a role taken away, whoever could be the second."""
    k, manager, ana = staffed(tmp_path)
    with_a_second(k, manager)
    done = taken(k, manager, HEADER + MINOR)
    assert ([entry.kind for entry in done.entries], done.waiting) == (["age_seen"], 0)
    assert k.people()[ana].born == date(2010, 3, 4)


def test_on_the_machine_itself_nothing_waits_and_the_entries_say_so(tmp_path: Path) -> None:
    """Each entry that frees names the machine as the second; the one of a name does not."""
    k, manager, _ = staffed(tmp_path)
    with_a_second(k, manager)
    done = apply_import(k, plan=plan(k, HEADER + FREED), by=manager, now=NOON, second=local_second(NOON))
    assert isinstance(done, Imported)
    seconds = {entry.kind: (entry.body.get("second") or {}).get("by") for entry in done.entries}
    assert seconds == {"cook_changed": "local", "person_named": None, "age_seen": "local"}
    assert (waiting(k), roles(k, id_of(k, "010"))) == ((), frozenset({"cook", "manager"}))


def test_nobody_lifts_a_bar_off_themselves_by_a_file(tmp_path: Path) -> None:
    """The row is named, and nothing of the file is taken in; without that row the rest is."""
    k, manager, _ = staffed(tmp_path)
    with_a_second(k, manager)
    text = HEADER + "001,Ottilie Brandvold,1970-01-01,manager,,\r\n012,Cy,,cook,,\r\n"
    found = refused(apply_import(k, plan=plan(k, text), by=manager, now=NOON))
    assert english(found.reason).startswith("Row 2 changes your own birth date and lifts a bar.")
    assert k.people()[manager].born is None
    assert taken(k, manager, text, Choices(left_out=frozenset({2}))).joined == 1


def test_a_manager_who_is_alone_gives_their_own_birth_date_once(tmp_path: Path) -> None:
    """The first roster of a new kitchen names its manager too; another date for themselves they do not give."""
    k, manager, _ = staffed(tmp_path)
    (entry,) = taken(with_an_age(k), manager, HEADER + "001,Ottilie Brandvold,2010-01-01,manager,,\r\n").entries
    assert (entry.kind, entry.body["second"], k.people()[manager].born) == ("age_seen", None, date(2010, 1, 1))
    older = plan(k, HEADER + "001,Ottilie Brandvold,1970-01-01,manager,,\r\n")
    found = refused(apply_import(k, plan=older, by=manager, now=NOON))
    assert "your own birth date" in english(found.reason)
