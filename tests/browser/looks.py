"""What is measured on a page as it stands on a screen. A function returns what is wrong, in words; empty is right."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Any

from playwright.sync_api import Page

STANDARDS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
BESIDES = ("color-contrast-enhanced", "target-size")
SMALLEST = 48  # px, any control
A_QUARTER = 0.25  # of a control may be covered while the line typed in is not: the browser scrolls to that line
MOST_TABS = 100
LEAST_CONTRAST = 7  # of text, by day and by night
SMALLEST_TEXT = 18  # px, never under

PLACE_BAR = """where => {
  for (const bar of document.querySelectorAll(".bar")) bar.style.position = where;
}"""

SIDEWAYS = """() => {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  if (wide <= 0) return [];
  const edge = document.documentElement.clientWidth;
  const over = [...document.querySelectorAll("body *")].filter((e) => e.getBoundingClientRect().right > edge + 1);
  return [`${wide} px sideways: ${over.slice(0, 3).map((e) => e.outerHTML.slice(0, 120)).join(" | ")}`];
}"""

SPACED = """() => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync("* { line-height: 1.5 !important; letter-spacing: .12em !important;"
    + " word-spacing: .16em !important }"
    + " p { margin-bottom: 2em !important }");
  document.adoptedStyleSheets = [sheet];
}"""
PLAIN = "() => { document.adoptedStyleSheets = [] }"

HAS_A_BAR = "() => Boolean(document.querySelector('.bar'))"
COVERED = """(share) => {
  const e = document.activeElement, bars = document.querySelectorAll(".bar"), bar = bars[bars.length - 1];
  if (e === document.body || e === document.documentElement) return "the end";
  const box = e.getBoundingClientRect(), b = bar.getBoundingClientRect();
  const aside = box.right <= b.left || box.left >= b.right;
  if (bar.contains(e) || aside || box.height > b.top || box.top >= b.bottom) return "";
  return box.bottom - b.top > box.height * share ? `focused under the bar: ${e.outerHTML.slice(0, 120)}` : "";
}"""
COVERED_AT_THE_END = """() => {
  const bars = document.querySelectorAll(".bar"), bar = bars[bars.length - 1], found = [];
  scrollTo(0, document.documentElement.scrollHeight);
  const b = bar.getBoundingClientRect();
  for (const e of document.querySelectorAll("main > *, main > form > *")) {
    if (e.contains(bar) || bar.contains(e) || !e.checkVisibility()) continue;
    const box = e.getBoundingClientRect();
    if (box.height && box.bottom > b.top + 1 && box.top < b.bottom && box.right > b.left && box.left < b.right)
      found.push(`at the end under the bar: ${e.outerHTML.slice(0, 120)}`);
  }
  scrollTo(0, 0);
  return found;
}"""

BELOW_THE_VIEW = """() => {
  const bars = document.querySelectorAll(".bar"), bar = bars[bars.length - 1], found = [];
  scrollTo(0, 0);
  const foot = bar.getBoundingClientRect().top;
  for (const e of document.querySelectorAll(".hazard, .step .figure, .step-text, .step .clock .set, .step .cue")) {
    const box = e.getBoundingClientRect();
    if (box.bottom > foot + 1) found.push(`${Math.round(box.bottom - foot)} px below: ${e.outerHTML.slice(0, 120)}`);
  }
  return found;
}"""

SMALL_CONTROLS = """(least) => {
  const found = [];
  for (const e of document.querySelectorAll("a[href], button, input:not([type=hidden]), select, textarea, summary")) {
    if (!e.checkVisibility() || e.classList.contains("skip")) continue;
    let hit = e.closest("label") || e, box = hit.getBoundingClientRect();
    const after = getComputedStyle(e, "::after");
    const spread = after.position === "absolute" && after.inset === "0px";
    if (spread) box = e.closest("li, td, .ticket").getBoundingClientRect();
    const readout = e.closest(".readout");
    if (readout) box = readout.getBoundingClientRect();
    const said = e.parentElement.textContent.trim();
    if (e.tagName === "A" && e.parentElement.tagName === "P" && said.length > e.textContent.trim().length + 3) continue;
    if (box.height < least - .5 || box.width < least - .5)
      found.push(`${Math.round(box.width)} x ${Math.round(box.height)}: ${e.outerHTML.slice(0, 110)}`);
  }
  return found;
}"""

FAINT_TEXT = """(least) => {
  const part = (c) => { c /= 255; return c <= .04045 ? c / 12.92 : ((c + .055) / 1.055) ** 2.4 };
  const light = ([r, g, b]) => .2126 * part(r) + .7152 * part(g) + .0722 * part(b);
  const figures = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const ground = (e) => {
    for (; e; e = e.parentElement) {
      const found = figures(getComputedStyle(e).backgroundColor);
      if (found.length < 4 || found[3] === 1) return found;
    }
    return [255, 255, 255];
  };
  const found = new Set(), walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const e = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim() || !e.checkVisibility() || e.closest("svg, .unseen, script")) continue;
    const [one, two] = [light(figures(getComputedStyle(e).color)), light(ground(e))].sort((a, b) => b - a);
    const ratio = (one + .05) / (two + .05);
    if (ratio < least) found.add(`${ratio.toFixed(2)}: ${e.outerHTML.slice(0, 90)}`);
  }
  return [...found].slice(0, 5);
}"""

SMALL_TEXT = """(least) => {
  const found = new Set(), walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const e = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim() || !e.checkVisibility() || e.closest("svg, .unseen, script")) continue;
    const size = parseFloat(getComputedStyle(e).fontSize);
    if (size < least) found.add(`${size} px: ${e.outerHTML.slice(0, 90)}`);
  }
  return [...found].slice(0, 5);
}"""


@cache
def axe_source() -> str:
    """Return the script of axe, from its package."""
    return files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")


def axe(page: Page) -> tuple[list[str], list[str]]:
    """Return what axe finds wrong, and what it leaves to be judged by eye."""
    if not page.evaluate("() => Boolean(window.axe)"):
        page.evaluate(axe_source())
    rules = {name: {"enabled": True} for name in BESIDES}
    options = {
        "runOnly": {"type": "tag", "values": list(STANDARDS)},
        "rules": rules,
        "resultTypes": ["violations", "incomplete"],
    }
    page.evaluate(PLACE_BAR, "static")  # what the page scrolls under the bar at the moment is no smaller for it
    found: dict[str, Any] = page.evaluate("options => axe.run(document, options)", options)
    page.evaluate(PLACE_BAR, "")
    return _told(found["violations"]), _told(found["incomplete"])


def _told(results: list[dict[str, Any]]) -> list[str]:
    return [
        f"{rule['id']}: {node['html'][:140]} {node['failureSummary'][:160]}"
        for rule in results
        for node in rule["nodes"]
    ]


def sideways(page: Page) -> list[str]:
    """Return how far the page scrolls sideways, and the first things that stick out."""
    return list(page.evaluate(SIDEWAYS))


def sideways_spaced(page: Page) -> list[str]:
    """Return the same with the text spacing of WCAG 2.2, success criterion 1.4.12."""
    page.evaluate(SPACED)
    found = sideways(page)
    page.evaluate(PLAIN)
    return found


def under_the_bar(page: Page) -> list[str]:
    """Return what the bar at the foot covers: of each thing reached with Tab, and of the end of the page."""
    if not page.evaluate(HAS_A_BAR):
        return []
    found = list(page.evaluate(COVERED_AT_THE_END))
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        told = page.evaluate(COVERED, A_QUARTER)
        if told == "the end":
            break
        found += [told] if told else []
    return found


def below_the_view(page: Page) -> list[str]:
    """Return what of a step, of its cautions, drawing, sentence, clock and cue, is not seen without scrolling."""
    found: list[str] = page.evaluate(BELOW_THE_VIEW)
    return found


def small_controls(page: Page) -> list[str]:
    """Return every control smaller than allowed; links inside a sentence are text."""
    return list(page.evaluate(SMALL_CONTROLS, SMALLEST))


def faint_text(page: Page) -> list[str]:
    """Return text of too little contrast by WCAG 2.2's formula; axe leaves text on torn paper open."""
    return list(page.evaluate(FAINT_TEXT, LEAST_CONTRAST))


def small_text(page: Page) -> list[str]:
    """Return text smaller than allowed."""
    return list(page.evaluate(SMALL_TEXT, SMALLEST_TEXT))
