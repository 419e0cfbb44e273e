"""A technique looked at while it is written: read again at each look, problems on top, nothing written anywhere."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from flask.testing import FlaskClient

from tests.content.test_content_faults import FAULTS, Fault
from tests.content.test_content_languages import SPANISH, spanish_kitchen
from tests.store.small_kitchen import change
from trainer.content.kitchen import KNOWN as WAYS
from trainer.content.new_technique import begin_technique
from trainer.web.authoring.app import create_preview
from trainer.web.authoring.pages import TechniqueWritten
from trainer.web.filters import KNOWN

STRUCTURE, ENGLISH = "techniques/rolling/technique.yaml", "techniques/rolling/en.yaml"
Look = Callable[..., BeautifulSoup]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a small content folder told in two languages."""
    return spanish_kitchen(tmp_path)


@pytest.fixture
def client(folder: Path) -> FlaskClient:
    """Return a person's browser on the machine that previews."""
    return create_preview(TechniqueWritten(folder, "rolling", "en", "us")).test_client()


@pytest.fixture
def look(client: FlaskClient) -> Look:
    """Return a way to load the page again."""

    def loaded(address: str = "/") -> BeautifulSoup:
        answer = client.get(address)
        assert answer.status_code == 200
        return BeautifulSoup(answer.text, "lxml")

    return loaded


def one(page: Tag, selector: str) -> Tag:
    """Return the first thing on a page that a selector finds."""
    found = page.select_one(selector)
    assert found is not None, selector
    return found


def words(page: Tag) -> str:
    """Return all that is to be read on a page."""
    return " ".join(page.get_text(" ").split())


def test_all_of_a_technique_stands_on_one_page(look: Look) -> None:
    """Goal, standard, each step with its caution and drawing, faults, checklist with limits, questions."""
    page = look()
    read = words(page)
    for said in (
        "An even sheet that does not tear.",
        "One sheet weighs 4 oz (113 g), give or take 0.2 oz (6 g).",
        "Keep fingers away from the rollers.",
        "Step 2 of 2 id: wait Wait 1 minute 30 seconds.",
        "A hole. Cause: Too dry. Cure: Cover the dough.",
        "Critical: The guard is on.",
        "4 of 5 inside",
        "scale_by_yield",
        "Nothing to mend here.",
    ):
        assert said in read
    assert str(one(page, "[role=img]")["aria-label"]).startswith("A pair of hands")


def test_a_change_shows_at_the_next_look(folder: Path, look: Look) -> None:
    """Anyone who writes saves the file and loads the page again; nothing is started again."""
    assert "Roll from the middle." in words(look())
    change(folder, ENGLISH, "Roll from the middle.", "Roll from the edge.")
    assert "Roll from the edge." in words(look())


def test_problems_stand_on_top_by_file_and_line_with_their_mend(folder: Path, look: Look) -> None:
    """All problems of the folder, of every language, and the technique still shown below as far as it can be read."""
    line = change(folder, ENGLISH, "Too dry.", "Too dry by 3 minutes.")
    change(folder, SPANISH, "Un hoyo.", "1 hoyo.")
    page = look()
    mends = one(page, "details.mends")
    assert words(one(mends, "summary")) == "2 things to mend"
    assert [words(heading) for heading in mends.select("h2")] == [ENGLISH, SPANISH]
    read = words(mends)
    assert f"line {line} A number is typed in cause" in read
    assert "Give the number a line under `standard` in technique.yaml" in read
    assert "Too dry by 3 minutes." in words(page)
    assert words(one(page, "h1")) == "Rolling"
    assert "Nothing to mend" not in words(page)


def test_a_problem_of_the_files_everything_names_is_told_too(folder: Path, look: Look) -> None:
    """A code that cannot be read would else make each of its limits look unknown for no reason."""
    change(folder, "local_code/town.yaml", "limits:", "limits: [")
    assert "local_code/town.yaml" in words(look())


@pytest.mark.parametrize("fault", [fault for fault in FAULTS.values() if fault.file.startswith("techniques/")], ids=str)
def test_a_technique_with_any_fault_can_be_looked_at(folder: Path, look: Look, fault: Fault) -> None:
    """Half written is when a preview is needed."""
    change(folder, fault.file, fault.old, fault.new)
    assert "to mend" in words(look())


def test_a_technique_just_begun_can_be_looked_at(folder: Path) -> None:
    """Blanks stand where words will be."""
    begin_technique(folder, "Pan sauces", date(2026, 11, 25))
    page = create_preview(TechniqueWritten(folder, "pan_sauces", "en", "us")).test_client().get("/")
    assert page.status_code == 200
    assert "24 things to mend" in page.text


def test_it_is_told_in_the_language_asked_for(look: Look) -> None:
    """Words, limits and the language of the page itself; one press leads to the other language."""
    page = look()
    other = one(page, "a[lang=es]")
    assert words(other) == "Español"
    spanish = look(str(other["href"]))
    assert one(spanish, "html")["lang"] == "es"
    assert "Reposa de 30 minutos a 2 horas." in words(spanish)
    assert one(spanish, "a[lang=en]")
    assert "An even sheet" in words(look("/?language=fr"))


def test_a_faulty_translation_is_shown_as_it_stands(folder: Path, look: Look) -> None:
    """A cook would be taught in English; who translates wants to see the Spanish."""
    change(folder, SPANISH, "Muy seca.", "Muy seca por 3 minutos.")
    assert "Muy seca por 3 minutos." in words(look("/?language=es"))


def test_other_questions_can_be_drawn(look: Look) -> None:
    """The same address shows the same questions, and a press draws others."""
    page = look()
    asked = [words(each) for each in page.select("p.asked")]
    assert [words(each) for each in look().select("p.asked")] == asked
    more = look(str(one(page, "section p > a")["href"]))
    assert [words(each) for each in more.select("p.asked")] != asked
    assert look("/?draw=no") is not None


def test_nothing_is_written_and_nothing_can_be_sent(folder: Path, client: FlaskClient, look: Look) -> None:
    """No form, no cookie, no file touched; a POST is turned away."""
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*")}
    page = look()
    assert page.find("form") is None
    assert "Set-Cookie" not in client.get("/").headers
    assert client.post("/").status_code == 405
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*")} == before


@pytest.mark.parametrize("host", ["evil.example", "192.168.1.5", "quernstone.local:8400"])
def test_another_host_is_not_answered(client: FlaskClient, host: str) -> None:
    """A page elsewhere that leads a browser here by a name of its own learns nothing."""
    assert client.get("/", headers={"Host": host}).status_code == 400


@pytest.mark.parametrize("host", ["127.0.0.1:8400", "localhost:8400"])
def test_this_machine_is_answered_under_the_usual_guard(client: FlaskClient, host: str) -> None:
    """The same policy as every page: no script but our own, nothing kept by the browser."""
    answer = client.get("/", headers={"Host": host})
    assert answer.status_code == 200
    assert "script-src 'self'" in answer.headers["Content-Security-Policy"]
    assert answer.headers["Cache-Control"] == "no-store"


def test_what_is_typed_is_shown_and_never_run(folder: Path, look: Look) -> None:
    """Words are words, whatever stands in them."""
    change(folder, ENGLISH, "A hole.", "<script>alert()</script>")
    page = look()
    assert "<script>alert()</script>" in words(page)
    assert all(script.get("src") for script in page.find_all("script"))


def test_a_folder_that_goes_away_is_told(folder: Path, client: FlaskClient) -> None:
    """Renamed while it is looked at."""
    (folder / "techniques/rolling").rename(folder / "techniques/rolled")
    assert client.get("/").status_code == 404


@pytest.mark.parametrize("name", ["", "..", ".hidden", "../../stations", "nothing"])
def test_only_a_folder_of_techniques_is_looked_at(folder: Path, name: str) -> None:
    """A name is a name, no path."""
    (folder / "techniques/.hidden").mkdir()
    assert create_preview(TechniqueWritten(folder, name, "en", "us")).test_client().get("/").status_code == 404


def test_how_a_source_is_known_has_a_word(look: Look) -> None:
    """Every way that sources.yaml may name is said in the reader's language, none as the file has it."""
    assert set(KNOWN) == set(WAYS)
    assert "(house)" in words(look())
