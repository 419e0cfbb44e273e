"""A person at a browser: opens pages, reads them by role and label, fills in and presses what is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from bs4 import BeautifulSoup, Tag
from flask.testing import FlaskClient
from werkzeug.test import TestResponse


@dataclass
class Seen:
    """A page as it came back."""

    response: TestResponse
    path: str

    @property
    def status(self) -> int:
        """Return the status code."""
        return self.response.status_code

    @cached_property
    def soup(self) -> BeautifulSoup:
        """Return the page's elements."""
        return BeautifulSoup(self.response.get_data(as_text=True), "lxml")

    @property
    def title(self) -> str:
        """Return the page title."""
        return str(self.soup.title.string) if self.soup.title else ""

    @property
    def heading(self) -> str:
        """Return the words of the first heading."""
        found = self.soup.find("h1")
        return " ".join(found.get_text().split()) if found else ""

    @property
    def work(self) -> str:
        """Return the words of the main part."""
        found = self.soup.find("main")
        return " ".join(found.get_text(" ").split()) if found else ""

    @property
    def running(self) -> str:
        """Return the words of the band of clocks under the header."""
        found = self.soup.select_one(".running")
        return " ".join(found.get_text(" ").split()) if found else ""

    @property
    def clocks(self) -> list[str]:
        """Return what each clock of the band is called, the first to end first."""
        return [" ".join(found.get_text(" ").split()) for found in self.soup.select(".running .what")]

    @property
    def problems(self) -> list[str]:
        """Return the lines of the summary on top."""
        return [" ".join(item.get_text().split()) for item in self.soup.select("[role=alert] li")]

    def items(self, where: str) -> list[str]:
        """Return the words of each element a selector finds."""
        return [" ".join(item.get_text().split()) for item in self.soup.select(where)]

    def button(self, words: str) -> Tag:
        """Return the button with these words."""
        for found in self.soup.find_all("button"):
            if " ".join(found.get_text().split()) == words:
                return found
        raise AssertionError(f"No button {words!r} on {self.path}: {self.work[:400]}")

    def link(self, words: str) -> str:
        """Return where the link with these words leads."""
        for found in self.soup.find_all("a"):
            if " ".join(found.get_text().split()) == words:
                return str(found["href"])
        raise AssertionError(f"No link {words!r} on {self.path}: {self.work[:400]}")

    def field(self, label: str) -> Tag:
        """Return the input with this label."""
        for found in self.soup.find_all("label"):
            if " ".join(found.get_text().split()) == label:
                target = self.soup.find(id=str(found["for"]))
                assert isinstance(target, Tag)
                return target
        raise AssertionError(f"No label {label!r} on {self.path}")


class Hands:
    """A person with a browser of their own."""

    def __init__(self, client: FlaskClient, looks: Callable[[], None] = lambda: None) -> None:
        """Take a fresh client; `looks` lets the time pass that a person looks at a point before judging it."""
        self.client = client
        self.looks = looks
        self.page = Seen(client.get("/static/lid.svg", buffered=True), "/")
        self.address = "/"

    def open(self, path: str) -> Seen:
        """Open an address, following where it leads."""
        response = self.client.get(path, follow_redirects=True)
        return self._see(response)

    def _see(self, response: TestResponse) -> Seen:
        self.page = Seen(response, response.request.path)
        query = response.request.query_string.decode()
        self.address = self.page.path + (f"?{query}" if query else "")
        return self.page

    def go_through(self, technique: str) -> Seen:
        """Open every step of a technique, and then what comes after them."""
        self.open(f"/techniques/{technique}/steps")
        for step in [str(a["href"]) for a in self.page.soup.select(".groups a")]:
            self.open(step)
        return self.open(f"/techniques/{technique}/after")

    def follow(self, words: str) -> Seen:
        """Press a link."""
        return self.open(self.page.link(words))

    def press(self, words: str, fill: Mapping[str, str] | None = None, **changes: Any) -> Seen:
        """Fill inputs by label, change others by name, and press a button; return what comes back."""
        button = self.page.button(words)
        form = self.page.soup.find("form", id=str(button["form"])) if button.get("form") else button.find_parent("form")
        assert isinstance(form, Tag)
        data = {str(i["name"]): str(i.get("value", "")) for i in form.find_all("input") if i.get("name") and _sent(i)}
        data |= {str(self.page.field(label)["name"]): value for label, value in (fill or {}).items()}
        data |= changes
        if button.get("name"):
            data[str(button["name"])] = str(button.get("value", ""))
        path = str(form.get("action") or self.address)
        if path.startswith("/practicals/"):
            self.looks()
        response = self.client.post(path, data=data, follow_redirects=True)
        return self._see(response)


def take_all(hands: Hands, readings: Mapping[str, str], words: str = "Meets it", **changes: Any) -> Seen:
    """Key in every reading, by its name or its label, one piece a page, and press an answer on the last.

    It stops at a page that was refused, or that asks something back.
    """
    while True:
        fields = {str(one["name"]): _label_of(hands.page, one) for one in hands.page.soup.select(".readout input")}
        keyed: dict[str, Any] = {name: readings[name if name in readings else label] for name, label in fields.items()}
        save = hands.page.soup.select_one("button[name=save]")
        page = hands.press(" ".join(save.get_text().split()) if save else words, **{**keyed, **changes})
        if save is None or page.status != 200 or not page.soup.select(".slots"):
            return page


def _label_of(page: Seen, field: Tag) -> str:
    label = page.soup.find("label", attrs={"for": str(field["id"])})
    return " ".join(label.get_text().split()) if label else ""


PRESSED = ("unit", "unit_2", "case", "part")
"""Radio buttons of which one alone, or none, is sent."""


def _sent(field: Tag) -> bool:
    """Return whether a browser sends this input: a box that is ticked, and of several units the one that is pressed."""
    return field.has_attr("checked") or (field.get("type") != "checkbox" and field.get("name") not in PRESSED)
