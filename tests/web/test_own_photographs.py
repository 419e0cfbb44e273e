"""A kitchen's own photograph of a step: sent from a phone, a draft first, then published and copied with the rest."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest
from flask import Flask
from PIL import Image

from tests.content.test_word_check import IN_SPANISH
from tests.store.small_kitchen import STATION, change, small_kitchen
from tests.web.conftest import NOON, PASSPHRASE
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.teaching import Teaching
from trainer.actions.upgrading import upgrade
from trainer.store.backup import back_up

PAGE = "/writing/rolling/steps/roll/photograph"
SHOWS = "Two hands hold a thin sheet of dough against the light of a window, and it shows no hole at all."
MUESTRA = "Dos manos sostienen una hoja delgada de masa contra la luz de una ventana y no se ve ningún hoyo en ella."


@pytest.fixture
def drafts(kitchen: Kitchen, app: Flask) -> Path:
    """Return the kitchen's own content folder, inside its folder, with what it says published."""
    del app
    folder = small_kitchen(kitchen.file.folder / "content")
    (folder / "stations/bench.yaml").write_text(STATION.replace("minimum_age: 16\nage_reason: An invented rule.\n", ""))
    (folder / "techniques/rolling/es.yaml").write_text(f"{IN_SPANISH}editions: [La primera., La segunda.]\n", "utf-8")
    kitchen.teaching = Teaching(kitchen.file, folder)
    assert upgrade(kitchen, draft=kitchen.teaching.draft(), now=NOON)
    return folder


def taken(size: tuple[int, int] = (3000, 2000)) -> bytes:
    """Return a photograph as a phone sends it."""
    out = io.BytesIO()
    Image.new("RGB", size, (180, 150, 90)).save(out, "JPEG")
    return out.getvalue()


def send(hands: Hands, data: bytes, name: str = "IMG_1.jpg", **words: str) -> None:
    """Send the form on screen with a file."""
    form = hands.page.soup.select_one("form#photograph")
    assert form is not None
    sent: dict[str, object] = {
        str(each["name"]): str(each.get("value", "")) for each in form.select("input[type=hidden]")
    }
    sent |= {"in_english": SHOWS, "in_spanish": MUESTRA, **words, "file": (io.BytesIO(data), name)}
    hands._see(hands.client.post(PAGE, data=sent, content_type="multipart/form-data", follow_redirects=True))


def test_a_photograph_is_kept_with_what_it_shows_in_both_languages(cleo: Hands, drafts: Path) -> None:
    """It lies beside the technique's files; they name it."""
    cleo.open("/writing/rolling/steps/roll")
    cleo.follow("Photograph of this step")
    send(cleo, taken())
    image = cleo.page.soup.select_one("figure.photograph img")
    assert image is not None
    assert image["alt"] == SHOWS
    assert Image.open(io.BytesIO(cleo.client.get(str(image["src"])).data)).size == (1600, 1067)
    assert "photograph: roll.photo.jpg" in (drafts / "techniques/rolling/technique.yaml").read_text(encoding="utf-8")
    assert "sheet of dough against the light" in (drafts / "techniques/rolling/en.yaml").read_text(encoding="utf-8")
    assert "Dos manos sostienen" in (drafts / "techniques/rolling/es.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "Choose a photograph first."),
        (b"%PDF-1.7", "no JPEG, PNG or WebP picture, whatever its name says"),
        (taken()[:2000], "breaks off, or is damaged"),
    ],
)
def test_a_file_that_will_not_do_is_refused_and_the_words_stay(
    cleo: Hands, drafts: Path, data: bytes, says: str
) -> None:
    """What was typed is kept; no file is written."""
    cleo.open(PAGE)
    send(cleo, data)
    assert cleo.page.status == 400
    assert says in cleo.page.problems[0]
    assert cleo.page.field("What it shows, in English").get_text().strip() == SHOWS
    assert not list(drafts.glob("**/*.jpg"))


def test_spanish_is_asked_for_where_there_is_spanish(cleo: Hands, drafts: Path) -> None:
    """A technique that is told in English alone stays so: a file of blanks would stop it from being published."""
    (drafts / "techniques/rolling/es.yaml").unlink()
    page = cleo.open(PAGE)
    assert "What it shows, in Spanish" not in page.work
    send(cleo, taken())
    assert not (drafts / "techniques/rolling/es.yaml").exists()
    assert cleo.page.soup.select("figure.photograph")


def test_a_photograph_without_words_is_refused(cleo: Hands, drafts: Path) -> None:
    """Who cannot see it must learn from it, too."""
    cleo.open(PAGE)
    send(cleo, taken(), in_spanish="")
    assert cleo.page.status == 400
    assert "Say in fifteen words or more" in cleo.page.problems[0]
    assert not list(drafts.glob("**/*.jpg"))


def test_it_is_taught_once_published_on_the_step_and_on_paper(
    cleo: Hands, ana: Hands, drafts: Path, kitchen: Kitchen, tmp_path: Path
) -> None:
    """As a draft no cook sees it; published, the book holds it; the nightly copy holds the draft and the book."""
    cleo.open(PAGE)
    send(cleo, taken())
    assert ana.open("/photographs/rolling/roll.photo.jpg").status == 404
    cleo.open("/standard")
    assert "techniques/rolling/roll.photo.jpg" in cleo.page.work
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    step = ana.open("/techniques/rolling/steps/1")
    image = step.soup.select_one("figure.photograph img")
    assert image is not None
    assert image["alt"] == SHOWS
    picture = ana.client.get(str(image["src"]))
    assert (picture.status_code, picture.mimetype) == (200, "image/jpeg")
    assert ana.open("/techniques/rolling/sheet").soup.select("figure.photograph img")
    kept = (drafts / "techniques/rolling/roll.photo.jpg").read_bytes()
    assert picture.data == kept
    copy, _ = back_up(kitchen.file, tmp_path / "copies", NOON)
    with zipfile.ZipFile(copy) as archive:
        assert archive.read("content/techniques/rolling/roll.photo.jpg") == kept


def test_a_photograph_taken_away_stays_where_it_was_published(cleo: Hands, ana: Hands, drafts: Path) -> None:
    """A draft is changed; what is taught is not, until it is published anew."""
    cleo.open(PAGE)
    send(cleo, taken((300, 200)))
    cleo.open("/standard")
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    cleo.open(PAGE)
    cleo.press("Take the photograph away")
    assert not cleo.page.soup.select("figure.photograph")
    assert not list(drafts.glob("**/*.jpg"))
    assert "photograph" not in (drafts / "techniques/rolling/technique.yaml").read_text(encoding="utf-8")
    assert ana.client.get("/photographs/rolling/roll.photo.jpg").status_code == 200


def test_a_photograph_that_is_gone_leaves_the_step_taught(cleo: Hands, drafts: Path) -> None:
    """The check tells of it, and no station is lost."""
    change(
        drafts, "techniques/rolling/technique.yaml", "figure: roll.svg}", "figure: roll.svg, photograph: x.photo.jpg}"
    )
    page = cleo.open("/writing/rolling/steps/roll")
    assert "There is no photograph x.photo.jpg in rolling that a page can show." in page.work


@pytest.mark.parametrize("name", ["..%2f..%2fsources.yaml", "roll.svg", "en.yaml"])
def test_nothing_else_of_the_folder_is_handed_out(ana: Hands, drafts: Path, name: str) -> None:
    """Only a photograph is a photograph."""
    assert ana.client.get(f"/photographs/rolling/{name}").status_code == 404
