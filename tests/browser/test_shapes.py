"""The nine shapes of a state, as a laser printer or a bad photocopy leaves them: 24 px, one bit."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path
from typing import get_args

from playwright.sync_api import Browser, Page

import trainer.web
from trainer.kitchen.clearance import State

MARKS = Path(trainer.web.__file__).parent / "templates" / "macros" / "marks.svg"
INK = """([svg, size]) => new Promise((done) => {
  const picture = new Image(size, size);
  picture.onload = () => {
    const canvas = new OffscreenCanvas(size, size), pen = canvas.getContext("2d");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, size, size);
    pen.drawImage(picture, 0, 0, size, size);
    const dots = pen.getImageData(0, 0, size, size).data, inked = [];
    for (let n = 0; n < size * size; n += 1) if (dots[4 * n] < 128) inked.push(n);
    done(inked);
  };
  picture.src = "data:image/svg+xml;base64," + btoa(svg);
})"""
SIZE, LEAST = 24, 0.20


def inked(page: Page, state: str) -> frozenset[int]:
    """Return the dots of a state's shape that are black at 24 px when every dot is either black or white."""
    name = state.replace(" ", "-")
    found = re.search(rf'<symbol id="shape-{name}" (viewBox="[^"]+")>(.*?)</symbol>', MARKS.read_text("utf-8"))
    assert found, f"No shape for {state!r}"
    drawing = found[2].replace("currentColor", "#000")
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" width="48" height="48" {found[1]}>{drawing}</svg>'
    return frozenset(page.evaluate(INK, [svg, SIZE]))


def test_any_two_shapes_differ_in_a_fifth_of_their_ink(browser: Browser) -> None:
    """Of the dots that are black in either of two shapes, at least 20 % are black in only one."""
    page = browser.new_context().new_page()
    page.goto("about:blank")
    shapes = {state: inked(page, state) for state in get_args(State)}
    page.context.close()
    assert len(shapes) == 9
    apart = {(a, b): len(shapes[a] ^ shapes[b]) / len(shapes[a] | shapes[b]) for a, b in combinations(shapes, 2)}
    nearest = min(apart, key=lambda pair: apart[pair])
    print(f"\nnearest pair: {nearest[0]} and {nearest[1]}, {apart[nearest]:.0%} of their ink differs")
    assert {pair: share for pair, share in apart.items() if share < LEAST} == {}
