"""The faces: made when the program is installed, small enough, whole where they are used."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import trainer.web
from tests.web.hands import Hands, Seen

FOLDER = Path(trainer.web.__file__).parent / "static" / "fonts"
FACES = ("text", "bold", "tape")


def face(name: str) -> TTFont:
    """Return a face as it is served; none means that the program was not installed since its fonts are made so."""
    return TTFont(FOLDER / f"{name}.woff2")


def drawn(font: TTFont, letters: str) -> list[str]:
    """Return the letters of which a font has an outline."""
    outlines, names = font["glyf"], font.getBestCmap()
    return [sign for sign in letters if ord(sign) in names and outlines[names[ord(sign)]].numberOfContours != 0]


@pytest.mark.parametrize("name", FACES)
def test_a_face_is_served_small_and_kept_for_a_year(stranger: Hands, name: str) -> None:
    """A face comes as WOFF2 (W3C Recommendation: its first four bytes), to be kept for a year."""
    with stranger.client.get(f"/static/fonts/{name}.woff2") as answer:
        assert answer.data[:4] == b"wOF2"
        assert answer.mimetype == "font/woff2"
        assert "immutable" in answer.headers["Cache-Control"]


def test_the_three_faces_leave_room_for_the_page() -> None:
    """Text, bold and tape together stay under 55 KiB of the 100 KiB a first view may weigh."""
    assert sum((FOLDER / f"{name}.woff2").stat().st_size for name in FACES) <= 55 * 1024


def test_the_licence_of_each_font_comes_with_it() -> None:
    """The SIL Open Font License and the Apache License both ask for that."""
    licences = [path.read_text(encoding="utf-8") for path in FOLDER.glob("*-LICENSE.txt")]
    assert len(licences) == 2
    assert any("SIL Open Font License" in text for text in licences)
    assert any("Apache License" in text for text in licences)


def test_an_unknown_face_is_not_found(stranger: Hands) -> None:
    """There is no face beyond the three."""
    assert stranger.client.get("/static/fonts/secret.woff2").status_code == 404


def test_the_tape_keeps_capitals_and_loses_small_letters() -> None:
    """Capitals and figures keep their outlines; small letters are gone."""
    tape = face("tape")
    assert "".join(drawn(tape, "AZÉÑÜ08&")) == "AZÉÑÜ08&"
    assert drawn(tape, "aegé") == []


@pytest.mark.parametrize("name", ["text", "bold"])
def test_a_face_keeps_its_letters_and_loses_hints_for_coarse_screens(name: str) -> None:
    """No instructions and no glyph names (OpenType 1.9.1, glyf and post); every letter still has its outline."""
    font = face(name)
    assert "".join(drawn(font, "aegßÉü½°08&")) == "aegßÉü½°08&"
    assert not {"fpgm", "prep", "cvt ", "DSIG"} & set(font.keys())
    assert font["post"].formatType == 3
    assert not [glyph for glyph in font["glyf"].glyphs.values() if hasattr(glyph, "program") and glyph.program]


def test_a_first_view_weighs_at_most_100_kib(ana: Hands) -> None:
    """The rail with its faces, style sheet, script and icon weighs at most 100 KiB; a later page at most 25 KiB."""
    page = ana.open("/rail")
    weights = [_weight(ana, path) for path in _parts(page)]
    html = len(page.response.data)
    faces = [_weight(ana, f"/static/fonts/{name}.woff2") for name in FACES]
    assert html + sum(weights) + sum(faces) <= 100 * 1024
    assert html <= 25 * 1024


def _parts(page: Seen) -> list[str]:
    linked = [str(t["href"]) for t in page.soup.select("link[rel=stylesheet], link[rel=icon]")]
    return linked + [str(t["src"]) for t in page.soup.select("script")]


def _weight(hands: Hands, path: str) -> int:
    with hands.client.get(path, headers={"Accept-Encoding": "gzip"}) as answer:
        assert answer.status_code == 200
        return len(answer.data)
