"""A manager writes what is taught, in forms over the same files, which keep every comment written by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import Tag
from flask import Flask

from tests.architecture.catalogue import catalogue
from tests.store.small_kitchen import change, small_kitchen
from tests.web.conftest import NOON
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.teaching import Teaching
from trainer.actions.upgrading import upgrade
from trainer.content.form_fields import parts
from trainer.content.shipped import shipped

WORDS, STRUCTURE = "techniques/rolling/en.yaml", "techniques/rolling/technique.yaml"
STEP = "/writing/rolling/steps/roll"


@pytest.fixture
def drafts(kitchen: Kitchen, app: Flask, tmp_path: Path) -> Path:
    """Return the folder the kitchen's files are in, with what they say published."""
    del app
    folder = small_kitchen(tmp_path / "content")
    kitchen.teaching = Teaching(kitchen.file, folder)
    assert upgrade(kitchen, draft=kitchen.teaching.draft(), now=NOON)
    return folder


def filled(hands: Hands, **typed: str | list[str]) -> dict[str, str | list[str]]:
    """Return every field of the form on screen as it stands, with some of them typed anew by their names."""
    found: dict[str, str | list[str]] = {}
    for name, value in _standing(hands):
        before = found.get(name)
        found[name] = value if before is None else [*([before] if isinstance(before, str) else before), value]
    return {**found, **typed}


def _standing(hands: Hands) -> Iterator[tuple[str, str]]:
    form = hands.page.soup.select_one("form#sheet") or hands.page.soup.select_one("main form[method=post]")
    assert isinstance(form, Tag)
    for each in form.select("input, select, textarea"):
        kind = each.get("type")
        if each.name == "select":
            chosen = each.select_one("option[selected]")
            yield str(each["name"]), str(chosen["value"]) if chosen else ""
        elif each.name == "textarea":
            yield str(each["name"]), each.get_text().removeprefix("\n")
        elif kind != "checkbox" or each.has_attr("checked"):
            yield str(each["name"]), str(each.get("value", ""))


def send(hands: Hands, data: dict[str, str | list[str]]) -> None:
    """Send the form on screen."""
    hands._see(hands.client.post(hands.address, data=data, follow_redirects=True))


def said(drafts: Path, file: str) -> str:
    """Return what a file says now."""
    return (drafts / file).read_text(encoding="utf-8")


def test_the_room_is_reached_from_the_standard(cleo: Hands, drafts: Path) -> None:
    """It is no place of its own in the header: a standard is published there, and written one page further."""
    cleo.open("/standard")
    assert cleo.follow("Write what is taught").heading == "Write what is taught"
    assert cleo.page.link("Rolling") == "/writing/rolling"


def test_a_kitchen_without_files_of_its_own_gets_a_copy_first(cleo: Hands, drafts: Path, kitchen: Kitchen) -> None:
    """What came with the program is never written to."""
    kitchen.teaching = Teaching(kitchen.file, shipped("content"))
    page = cleo.open("/writing")
    assert "it needs a copy of its own" in page.work
    assert cleo.open("/writing/pasta_nesting").status == 404
    cleo.open("/writing")
    cleo.press("Make our own copy")
    own = kitchen.file.folder / "content"
    assert kitchen.teaching.drafts == own
    assert (own / "sources.yaml").read_bytes() == (shipped("content") / "sources.yaml").read_bytes()
    assert cleo.page.link("Pasta nesting") == "/writing/pasta_nesting"


def test_a_technique_is_begun_by_its_name(cleo: Hands, drafts: Path) -> None:
    """The same files as the command makes, and how much is to be written; a name that will not do is told and kept."""
    cleo.open("/writing")
    cleo.press("Begin it", {"What a cook would call it": "7 cuts"})
    assert cleo.page.status == 400
    assert cleo.page.problems == ["“7 cuts” holds a figure or a brace. Spell the number out: words hold no figures."]
    cleo.press("Begin it", {"What a cook would call it": "Garlic butter"})
    assert cleo.page.heading == "Garlic butter"
    assert (drafts / "techniques/garlic_butter/es.yaml").is_file()
    assert re.search(r"\d+ things to fix", cleo.page.work)


def test_words_typed_are_kept_in_the_file_with_its_comments(cleo: Hands, drafts: Path) -> None:
    """Edited by hand and then here, the file keeps what was written by hand."""
    change(drafts, WORDS, "title: Rolling", "# by hand\ntitle: Rolling  # as we call it")
    cleo.open(STEP)
    send(cleo, filled(cleo, **{"en.roll.do": "Roll from the middle, then turn."}))
    assert "Kept as a draft." in cleo.page.work
    assert "    do: Roll from the middle, then turn.\n" in said(drafts, WORDS)
    assert "# by hand\ntitle: Rolling  # as we call it\n" in said(drafts, WORDS)
    assert "drafted, not published" in cleo.open("/writing").work


def test_english_and_spanish_stand_side_by_side(cleo: Hands, drafts: Path) -> None:
    """Each words field has one for each language in one row; the first Spanish word makes the file."""
    page = cleo.open(STEP)
    row = page.soup.select_one("fieldset.tongues:has([id='en-roll-do'])")
    assert row is not None
    assert [each.get("lang") for each in row.select("textarea")] == ["en", "es"]
    send(cleo, filled(cleo, **{"es.roll.do": "Estira desde el centro."}))
    assert "do: Estira desde el centro." in said(drafts, "techniques/rolling/es.yaml")


def test_a_problem_stands_beside_its_field(cleo: Hands, drafts: Path) -> None:
    """What was typed is kept, and what the check says of it is there with file and line."""
    cleo.open(STEP)
    send(cleo, filled(cleo, **{"en.roll.do": "Roll 3 times."}))
    field = cleo.page.soup.find(id="en-roll-do")
    assert isinstance(field, Tag)
    assert field.get_text() == "\nRoll 3 times."
    assert field["aria-invalid"] == "true"
    told = cleo.page.soup.find(id=str(field["aria-describedby"]))
    assert isinstance(told, Tag)
    assert "A number is typed in do" in told.get_text()
    assert "techniques/rolling/en.yaml:12" in told.get_text()


def test_what_is_no_list_is_told_and_kept(cleo: Hands, drafts: Path) -> None:
    """A word without what it means cannot be written; nothing is saved and everything typed is still there."""
    cleo.open("/writing/rolling/whole")
    before = said(drafts, WORDS)
    send(cleo, filled(cleo, **{"en.words": "sheet", "en.goal": "An even sheet."}))
    assert cleo.page.status == 400
    assert "“sheet” cannot be written in this form." in cleo.page.problems[0]
    assert said(drafts, WORDS) == before
    assert filled(cleo)["en.goal"] == "An even sheet."


def test_a_caution_is_read_back_before_it_is_kept(cleo: Hands, drafts: Path) -> None:
    """It is asked whether that is what a cook must do; no goes back with the words, yes keeps them."""
    cleo.open("/writing/rolling/hazards/rollers")
    address = cleo.address
    send(cleo, filled(cleo, **{"en.rollers": "Put your fingers between the rollers."}))
    assert "Is that what a cook must do?" in cleo.page.work
    assert "Put your fingers between the rollers." in cleo.page.work
    assert "Put your fingers" not in said(drafts, WORDS)
    cleo.press("No, change it", again="1")
    assert filled(cleo)["en.rollers"] == "Put your fingers between the rollers."
    assert "Put your fingers" not in said(drafts, WORDS)
    cleo.address = address
    send(cleo, filled(cleo, **{"en.rollers": "Keep every finger away from the rollers."}))
    cleo.press("Yes, keep it")
    assert "rollers: Keep every finger away from the rollers." in said(drafts, WORDS)


def test_another_sentence_than_the_one_read_back_is_read_back_anew(cleo: Hands, drafts: Path) -> None:
    """Yes is said to the words that were read, and to no others."""
    cleo.open("/writing/rolling/hazards/rollers")
    send(cleo, filled(cleo, **{"en.rollers": "Keep away."}))
    data = filled(cleo) | {"en.rollers": "Reach in."}
    send(cleo, data)
    assert "Reach in." in cleo.page.work
    assert "Is that what a cook must do?" in cleo.page.work
    assert "Reach in." not in said(drafts, WORDS)


def test_allergens_are_read_back_by_their_titles(cleo: Hands, drafts: Path) -> None:
    """All of them, as a cook calls them."""
    change(drafts, "techniques/rolling/technique.yaml", "allergens: [egg]", "allergens: []")
    cleo.open("/writing/rolling/whole")
    send(cleo, filled(cleo, **{"technique.allergens": ["egg"]}))
    assert "Are these all the allergens in this work, and no others?" in cleo.page.work
    assert "Egg" in cleo.page.work
    send(cleo, filled(cleo))
    assert "allergens: [egg]" in said(drafts, STRUCTURE)


def test_the_second_of_two_is_told_and_keeps_what_they_typed(cleo: Hands, drafts: Path) -> None:
    """What stands in the file now is shown beside; sent once more, the second one's words take its place."""
    cleo.open(STEP)
    mine = filled(cleo, **{"en.roll.do": "Roll it my way."})
    change(drafts, WORDS, "do: Roll from the middle.", "do: Roll it their way.")
    send(cleo, mine)
    assert cleo.page.status == 400
    assert "Somebody else has changed this since you opened it." in cleo.page.problems[0]
    assert "In the file now: Roll it their way." in cleo.page.work
    assert filled(cleo)["en.roll.do"] == "Roll it my way."
    assert "their way" in said(drafts, WORDS)
    send(cleo, filled(cleo))
    assert "do: Roll it my way." in said(drafts, WORDS)


def test_two_who_write_different_steps_do_not_meet(cleo: Hands, drafts: Path) -> None:
    """Another entry of the same file is no reason to stop anybody."""
    cleo.open(STEP)
    mine = filled(cleo, **{"en.roll.do": "Roll it my way."})
    change(drafts, WORDS, "Wait {seconds}.", "Wait for {seconds}, no less.")
    send(cleo, mine)
    assert "Kept as a draft." in cleo.page.work
    assert "Roll it my way." in said(drafts, WORDS)
    assert "no less" in said(drafts, WORDS)


def test_a_step_is_added_moved_and_taken_out(cleo: Hands, drafts: Path) -> None:
    """Each in one press or two; the words go with the step."""
    cleo.open("/writing/rolling/steps")
    cleo.follow("Add a step")
    send(cleo, filled(cleo, called="", **{"en..do": "Dust the bench."}))
    assert cleo.page.problems == ["“” gives no name. Write two or three words in letters."]
    send(cleo, filled(cleo, called="Dust the bench", behind="roll", **{"technique.kind": "do"}))
    assert cleo.page.heading == "Dust the bench."
    assert re.findall(r"- \{id: (\w+)", said(drafts, STRUCTURE))[:3] == ["roll", "dust_the_bench", "wait"]
    cleo.open("/writing/rolling/steps")
    data = {each: value for each, value in filled(cleo).items() if each not in ("up", "down")}
    send(cleo, {**data, "up": "dust_the_bench"})
    assert re.findall(r"- \{id: (\w+)", said(drafts, STRUCTURE))[:3] == ["dust_the_bench", "roll", "wait"]
    cleo.open("/writing/rolling/steps/dust_the_bench")
    cleo.follow("Take it out")
    cleo.press("Yes, take it out")
    assert "dust_the_bench" not in said(drafts, STRUCTURE) + said(drafts, WORDS)


def test_a_line_of_the_standard_and_an_edition_are_added(cleo: Hands, drafts: Path) -> None:
    """A line has its number, its source and its sentence; an edition the next number and today."""
    cleo.open("/writing/rolling/standard/new")
    line = {"technique..target": "2 mm", "technique..source": "house", "en.": "It is {thin} thin."}
    send(cleo, filled(cleo, called="thin", **line))
    assert "thin: {target: 2 mm, source: house}" in said(drafts, STRUCTURE)
    assert "Kept as a draft." in cleo.page.work
    cleo.open("/writing/rolling/editions/new")
    assert filled(cleo)["technique.number"] == "3"
    assert filled(cleo)["technique.since"] == "2026-11-03"
    send(cleo, filled(cleo, **{"technique.changed": "Thinner."}))
    edition = "- {number: 3, since: 2026-11-03, changed: Thinner., sign_offs_hold: yes}"
    assert edition in said(drafts, STRUCTURE)


def test_the_skills_of_a_new_technique_are_written_too(cleo: Hands, drafts: Path) -> None:
    """What is asked has its words here as well, or the technique could not be published."""
    cleo.open("/writing")
    cleo.press("Begin it", {"What a cook would call it": "Garlic butter"})
    cleo.open("/writing/garlic_butter/skills/garlic_butter_batch")
    send(cleo, filled(cleo, **{"en.title": "Butter for a batch", "en.words": "food: butter|garlic"}))
    assert "Kept as a draft." in cleo.page.work
    kept = said(drafts, "skills/garlic_butter_batch/en.yaml")
    assert re.search(r"^title: Butter for a batch", kept, re.MULTILINE)
    assert "  food: butter|garlic" in kept
    assert cleo.open("/writing/garlic_butter/skills/none").status == 404


def test_a_station_is_told_to_ask_for_it(cleo: Hands, drafts: Path) -> None:
    """Nobody learns what no station asks for: the page says so, and the station's file keeps its comments."""
    change(drafts, "stations/bench.yaml", "techniques: [rolling]", "techniques: [rolling]  # by hand")
    cleo.open("/writing")
    cleo.press("Begin it", {"What a cook would call it": "Garlic butter"})
    assert "No station asks for it yet, so nobody learns it." in cleo.page.work
    cleo.follow("Stations that ask for it")
    data = {each: value for each, value in filled(cleo).items() if each != "station"}
    send(cleo, {**data, "station": ["bench"]})
    assert "Asked for at: Bench" in cleo.page.work
    assert "techniques: [rolling, garlic_butter]  # by hand" in said(drafts, "stations/bench.yaml").replace(
        "] #", "]  #"
    )
    cleo.follow("Stations that ask for it")
    send(cleo, data)
    assert "techniques: [rolling]" in said(drafts, "stations/bench.yaml")


def test_it_is_seen_as_a_cook_and_an_assessor_would(cleo: Hands, drafts: Path) -> None:
    """What was typed a moment ago is on the page, published or not."""
    cleo.open(STEP)
    send(cleo, filled(cleo, **{"en.roll.do": "Roll it thin."}))
    page = cleo.open("/writing/rolling/look")
    assert "Roll it thin." in page.work
    assert "The guard is on." in page.work
    assert cleo.follow("Back to writing it").heading == "Rolling"


def test_a_file_that_is_no_yaml_is_told_and_left_alone(cleo: Hands, drafts: Path) -> None:
    """Where it breaks is named; nothing is written over it."""
    (drafts / WORDS).write_text("title: [", encoding="utf-8")
    page = cleo.open(STEP)
    assert page.status == 404
    assert "techniques/rolling/en.yaml:2" in page.work
    assert said(drafts, WORDS) == "title: ["


@pytest.mark.parametrize("address", ["/writing", "/writing/rolling", STEP, "/writing/rolling/look"])
def test_nobody_but_a_manager_writes(ana: Hands, bo: Hands, drafts: Path, address: str) -> None:
    """Cooks and assessors read what is published."""
    assert ana.open(address).status == 403
    assert bo.open(address).status == 403


@pytest.mark.parametrize(
    "address", ["/writing/..", "/writing/none", "/writing/rolling/none", "/writing/rolling/steps/x"]
)
def test_what_is_not_there_is_told(cleo: Hands, drafts: Path, address: str) -> None:
    """No page, and nothing outside the folder."""
    assert cleo.open(address).status == 404


def test_every_page_is_told_in_spanish(cleo: Hands, drafts: Path, kitchen: Kitchen) -> None:
    """No sentence of the program stands in English; the check of the files speaks English, and says so."""
    keep_own_language(kitchen, person="cleo", language="es", units="us")
    spanish = catalogue("es")
    english = [str(each.id) for each in spanish if isinstance(each.id, str) and each.id.count(" ") > 1]
    pages = ["", "/rolling", "/rolling/whole", "/rolling/look", "/rolling/stations"]
    pages.append("/rolling/steps/roll/photograph")
    for name in parts():
        pages += [f"/rolling/{name}", f"/rolling/{name}/new"]
    pages += ["/rolling/steps/roll", "/rolling/steps/roll/out", "/rolling/standard/rest", "/rolling/checklist/weights"]
    for page in pages:
        seen = cleo.open(f"/writing{page}")
        assert seen.status == 200, page
        for one in seen.soup.select("[lang=en], script, textarea"):
            one.decompose()
        assert [words for words in english if words in seen.work] == [], page
