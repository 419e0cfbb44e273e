"""How the tests open a page of the workbench and read its tables and its plot."""

from __future__ import annotations

from urllib.parse import urlencode

from bs4 import Tag

from tests.web.hands import Hands, Seen


def asked(hands: Hands, page: str, **typed: str) -> Seen:
    """Open a page of the workbench with what is typed in its address."""
    return hands.open(f"/bench/{page}?{urlencode(typed)}")


def cells(seen: Seen, region: str) -> list[list[str]]:
    """Return the rows of a table, cell by cell."""
    found = seen.soup.select_one(f"[aria-label='{region}']")
    assert found is not None
    rows = [
        [" ".join(cell.get_text(" ").split()) for cell in row.find_all(["th", "td"])]
        for row in found.select("tbody tr")
    ]
    return [[cell for cell in row if cell] for row in rows]


def plot_told(seen: Seen) -> str:
    """Return what the plot says in words; it has a name, and no colour and no style of its own."""
    svg = seen.soup.find("svg", class_="plot")
    assert isinstance(svg, Tag)
    assert svg["role"] == "img"
    for part in str(svg["aria-labelledby"]).split():
        assert svg.find(id=part) is not None
    inks = {str(tag[name]) for tag in svg.find_all(True) for name in ("fill", "stroke") if tag.has_attr(name)}
    assert {ink for ink in inks if not ink.startswith("url(#")} <= {"currentColor", "none"}
    assert svg.select("[style], style, script") == []
    return " ".join(svg.get_text(" ").split())
