"""The drawings of a technique's steps, read from its folder, ready to stand in a page.

A drawing draws, and does nothing else: lines, areas and a few words. What could run, move, or ask for something from
elsewhere is refused, and so is whatever is not known to be harmless.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path
from xml.etree import ElementTree

from trainer.content.nodes import Diagnostics

HEAD = re.compile(r"<\?xml.*?\?>|<!--.*?-->", re.DOTALL)
LARGEST = 100_000
SVG = "{http://www.w3.org/2000/svg}"
SHAPES = frozenset({"circle", "ellipse", "line", "path", "polygon", "polyline", "rect"})
ELEMENTS = SHAPES | {
    "svg",
    "g",
    "text",
    "tspan",
    "title",
    "desc",
    "defs",
    "clipPath",
    "marker",
    "mask",
    "pattern",
    "use",
}
WITHIN = re.compile(r"url\(\s*['\"]?#[\w.-]+['\"]?\s*\)")


def figure(content: Path, technique: str, name: str) -> str:
    """Return a figure of a content folder as SVG text without prologue and comments; empty where there is none.

    Only a plain file name is looked for. A drawing that is refused is not shown.
    """
    return figure_in(content / "techniques" / technique, name)


def figure_in(folder: Path, name: str) -> str:
    """Return a figure that lies in a technique's folder; only a plain file name is looked for."""
    path = folder / name
    if not name.endswith(".svg") or Path(name).name != name or not path.is_file():
        return ""
    text = read_drawing(path)
    return "" if refused_in(text) else HEAD.sub("", text).strip()


def warn_of_refused(line: int, path: Path, diagnostics: Diagnostics) -> None:
    """Add a problem where no page shows a drawing; what it belongs to is taught without it."""
    refused = refused_in(read_drawing(path))
    if refused:
        diagnostics.warn(line, f"{path.name} has {refused}, so no page shows it.", "Draw with lines, areas and text.")


def read_drawing(path: Path) -> str:
    """Return the text of a drawing; what is no UTF-8 is told by `refused_in`."""
    return path.read_text(encoding="utf-8", errors="replace")


@lru_cache(maxsize=1024)
def refused_in(text: str) -> str:
    """Return what a page refuses in an SVG text, in a few words; empty where it may stand in one.

    SVG 2 (W3C Candidate Recommendation, 4 October 2018) lets a file run scripts (chapter 15), move (SMIL), hold other
    documents (`foreignObject`, 12.4) and load from elsewhere (16.2); none of it is needed to draw.

    >>> refused_in('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>')
    'the element script'
    """
    if len(text) > LARGEST:
        return f"more than {LARGEST // 1000} kB"
    if "<!DOCTYPE" in text.upper() or "<!ENTITY" in text.upper():
        return "a document type"
    try:
        root = ElementTree.fromstring(text)  # noqa: S314 - no document type, so no entities; and our own drawings
    except ElementTree.ParseError as error:
        return f"what is no XML ({error})"
    if root.tag.removeprefix(SVG) != "svg":
        return "another root than svg"
    found = (_refused(each) for each in root.iter())
    return next((each for each in found if each), "")


def _refused(element: ElementTree.Element) -> str:
    """Return what is refused of one element; empty where nothing is."""
    if element.tag.removeprefix(SVG) not in ELEMENTS:
        return f"the element {element.tag.rpartition('}')[2]}"
    for written, value in element.attrib.items():
        name = written.rpartition("}")[2].lower()
        if name.startswith("on"):
            return f"the event handler {name}"
        if name == "style":
            return "the attribute style"
        if name in {"href", "src"} and not value.strip().startswith("#"):
            return f"a reference to {value[:40]!r}"
        if "url(" in WITHIN.sub("", value).lower():
            return f"a reference in {name}"
    return ""
