"""A drawing draws and does nothing else: what could run, move or load is told, and no page shows it.

What an SVG file can do: SVG 2, W3C Candidate Recommendation of 4 October 2018, chapters 12.4 (foreignObject), 15
(scripting), 16 (linking); SVG Animations Level 2. Named from memory.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.store.small_kitchen import change, small_kitchen
from trainer.content.figure_files import figure, refused_in
from trainer.content.files import load_content
from trainer.content.shipped import shipped

HARMFUL = {
    "a script": "<script>alert(1)</script>",
    "an event handler": '<path d="M0 0" onclick="alert(1)"/>',
    "an event handler in capitals": '<path d="M0 0" ONLOAD="alert(1)"/>',
    "a foreign image": '<image href="https://example.com/a.png"/>',
    "an image that carries its data": '<image href="data:image/png;base64,AAAA"/>',
    "another document": '<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>',
    "a link": '<a href="https://example.com"><path d="M0 0"/></a>',
    "a shape from elsewhere": '<use href="https://example.com/a.svg#b"/>',
    "a shape from elsewhere, the former way": (
        '<use xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="a.svg#b"/>'
    ),
    "a script as an address": '<use href="javascript:alert(1)"/>',
    "a paint from elsewhere": '<path d="M0 0" fill="url(https://example.com/a.svg#b)"/>',
    "a style": "<style>@import 'https://example.com/a.css';</style>",
    "a style on a shape": '<path d="M0 0" style="background: url(a)"/>',
    "movement": '<circle r="3"><animate attributeName="r" to="9" dur="1s"/></circle>',
    "movement by steps": '<circle r="3"><set attributeName="r" to="9" begin="1s"/></circle>',
    "an element of another language": '<b xmlns="http://www.w3.org/1999/xhtml">x</b>',
}
PLAIN = '<g transform="scale(2)"><path d="M0 0h9" fill="var(--paper, #fff)"/><text x="1" y="2">A</text></g>'


def svg(inside: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{inside}</svg>'


@pytest.mark.parametrize("inside", HARMFUL.values(), ids=HARMFUL)
def test_what_could_do_more_than_draw_is_told_and_not_shown(tmp_path: Path, inside: str) -> None:
    """The step is taught without the drawing, and the writer is told what is wrong with it."""
    folder = small_kitchen(tmp_path)
    (folder / "techniques/rolling/roll.svg").write_text(svg(inside))
    content, problems = load_content(folder)
    (problem,) = problems
    assert (problem.file, problem.leaves_out) == ("techniques/rolling/technique.yaml", False)
    assert problem.message.startswith("roll.svg has ")
    assert content is not None
    assert "rolling" in content.techniques
    assert figure(folder, "rolling", "roll.svg") == ""


@pytest.mark.parametrize(
    "text",
    [
        '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>',
        "<svg><path></svg>",
        "<html/>",
        svg("<path d='M0 0'/>" * 10_000),
    ],
    ids=["entities", "no XML", "another root", "too large"],
)
def test_what_is_no_plain_drawing_is_refused(text: str) -> None:
    """Entities may grow without end, and what cannot be read cannot be judged."""
    assert refused_in(text)


def test_a_plain_drawing_is_shown() -> None:
    """Lines, areas, a few letters, and a paint that is the page's own."""
    assert refused_in(svg(PLAIN)) == ""
    assert refused_in(svg('<defs><path id="a" d="M0 0"/></defs><use href="#a" fill="url(#a)"/>')) == ""


def test_a_picture_of_a_scene_is_held_to_the_same(tmp_path: Path) -> None:
    """Scenes to decide in show drawings of the same folder."""
    folder = small_kitchen(tmp_path)
    (folder / "techniques/rolling/torn.svg").write_text(svg(HARMFUL["a script"]))
    change(folder, "techniques/rolling/technique.yaml", "sources:", SCENE)
    assert any("torn.svg has the element script" in each.message for each in load_content(folder)[1])


SCENE = """\
scenes:
  - {id: torn, kind: what_now, figure: torn.svg, choices: [cover, sell, wait], right: [cover]}
sources:"""


def test_every_shipped_drawing_is_a_plain_one() -> None:
    """What the house teaches is shown."""
    paths = sorted(shipped("content").glob("techniques/*/*.svg"))
    assert len(paths) > 200
    assert [path.name for path in paths if refused_in(path.read_text(encoding="utf-8"))] == []
