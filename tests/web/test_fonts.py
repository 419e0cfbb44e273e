"""The faces: served from their packages, small enough, whole where they are used."""

from __future__ import annotations

import gzip
import struct
from itertools import pairwise

import pytest

from tests.web.hands import Hands, Seen
from trainer.web import fonts


@pytest.mark.parametrize("name", list(fonts.FACES))
def test_a_face_is_served_pressed_and_kept_for_a_year(stranger: Hands, name: str) -> None:
    """A face comes gzipped, as a TrueType file, to be kept for a year."""
    answer = stranger.client.get(f"/fonts/{name}.ttf", headers={"Accept-Encoding": "gzip"})
    assert answer.headers["Content-Encoding"] == "gzip"
    assert "immutable" in answer.headers["Cache-Control"]
    assert gzip.decompress(answer.data)[:4] == b"\x00\x01\x00\x00"


def test_the_three_faces_leave_room_for_the_page() -> None:
    """Text, bold and tape together stay under 70 KiB of the 100 KiB a first view may weigh."""
    assert sum(len(fonts.face(name, pressed=True)) for name in fonts.FACES) <= 70 * 1024


def test_an_unknown_face_is_not_found(stranger: Hands) -> None:
    """There is no face beyond the three."""
    assert stranger.client.get("/fonts/secret.ttf").status_code == 404


def test_the_tape_keeps_capitals_and_loses_small_letters() -> None:
    """Capitals and figures keep their outlines; small letters are empty."""
    tables = fonts._tables(fonts.face("tape", pressed=False))
    letters = fonts._letters(tables["cmap"])
    sizes = _sizes(tables)
    assert all(sizes[letters[ord(sign)]] > 0 for sign in "AZÉÑÜ08&")
    assert [sign for sign in "aeg" if sizes[letters[ord(sign)]] > 0] == []


def test_a_face_keeps_its_letters_and_loses_hints_for_coarse_screens() -> None:
    """No instructions and no glyph names (OpenType 1.9.1, glyf and post); every letter still has its outline."""
    tables = fonts._tables(fonts.face("text", pressed=False))
    letters = fonts._letters(tables["cmap"])
    sizes = _sizes(tables)
    assert not fonts.HINTS & set(tables)
    assert all(sizes[letters[ord(sign)]] > 0 for sign in "aegßÉü½°08&")
    assert struct.unpack_from(">I", tables["post"])[0] == 0x00030000
    outlines = fonts._outlines(tables)
    assert not [o for o in outlines if o and struct.unpack_from(">h", o)[0] > 0 and _instructions(o)]


def _instructions(outline: bytes) -> int:
    return int(struct.unpack_from(">H", outline, 10 + 2 * struct.unpack_from(">h", outline)[0])[0])


def _sizes(tables: dict[str, bytes]) -> list[int]:
    is_long = struct.unpack_from(">h", tables["head"], 50)[0] == 1
    count = len(tables["loca"]) // (4 if is_long else 2)
    ends = struct.unpack(f">{count}{'I' if is_long else 'H'}", tables["loca"])
    return [b - a for a, b in pairwise(ends)]


def test_a_first_view_weighs_at_most_100_kib(ana: Hands) -> None:
    """The rail with its faces, style sheet, script and icon weighs at most 100 KiB; a later page at most 25 KiB."""
    page = ana.open("/rail")
    weights = [_weight(ana, path) for path in _parts(page)]
    html = len(page.response.data)
    assert html + sum(weights) + sum(len(fonts.face(n, pressed=True)) for n in fonts.FACES) <= 100 * 1024
    assert html <= 25 * 1024


def _parts(page: Seen) -> list[str]:
    linked = [str(t["href"]) for t in page.soup.select("link[rel=stylesheet], link[rel=icon]")]
    return linked + [str(t["src"]) for t in page.soup.select("script")]


def _weight(hands: Hands, path: str) -> int:
    with hands.client.get(path, headers={"Accept-Encoding": "gzip"}) as answer:
        assert answer.status_code == 200
        return len(answer.data)
