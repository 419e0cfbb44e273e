"""Whatever people and the kitchen write is shown as it was written: it is never markup, and never a pattern to fill."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from urllib.parse import quote

import pytest
from bs4 import BeautifulSoup
from flask import Flask
from markupsafe import Markup

from tests import made_up_language
from tests.web import at_work
from tests.web.at_work import OWN, Work, pages_of, put_to_work
from tests.web.conftest import PEOPLE
from tests.web.hands import Hands, Seen
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.messages import message
from trainer.store.kitchen_file import KitchenFile
from trainer.web import reading

ODD = '<b title="{brace}">{brace}{0}</b>&amp;'
TYPED = ("⟪none⟫", "⟪soon⟫", "⟪warm⟫")


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Kitchen]:
    """Return the invented kitchen, in which every name, note and Spanish word has markup and braces in it."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    monkeypatch.setattr(made_up_language, "OPEN_TAUGHT", ODD)
    monkeypatch.setattr(at_work, "NOTE", ODD)
    spanish = made_up_language.taught(OWN)
    yield Kitchen(file, OWN, lambda language, units: spanish if language == "es" else OWN)
    file.close()


@pytest.fixture
def work(kitchen: Kitchen) -> Work:
    """Return what is under way, with everybody reading Spanish."""
    under_way = put_to_work(kitchen)
    for person in PEOPLE:
        kitchen.file.people.rename(person, f"{kitchen.people()[person].name} {ODD}")
        keep_own_language(kitchen, person=person, language="es", units="")
    kitchen.file.change_settings(replace(kitchen.file.settings, name=f"Corner {ODD}"))
    return under_way


@pytest.fixture
def everybody(
    at_tablet: Callable[[], Hands], sign_in: Callable[[str], Hands], work: Work
) -> Iterator[tuple[Hands, tuple[str, ...]]]:
    """Return the browsers of a tablet, the cook, the assessor and the manager, each with the pages to open."""
    pages = pages_of(work)
    tablet = at_tablet()
    tablet.client.set_cookie("language", "es")
    return iter([(tablet, pages["tablet"]), *((sign_in(who), pages[who]) for who in ("ana", "bo", "cleo"))])


def is_as_written(page: Seen) -> bool:
    """Return whether the odd text is on a page; it must be there as a text alone."""
    assert page.status < 500, page.path
    html = page.response.get_data(as_text=True)
    assert "<b title=" not in html, page.path
    soup = BeautifulSoup(html, "html.parser")
    assert not soup.select('[title="{brace}"]'), page.path
    return ODD in soup.get_text() or any(
        ODD in str(value) for tag in soup.find_all(True) for value in tag.attrs.values()
    )


def test_what_people_and_content_say_is_no_markup(everybody: Iterator[tuple[Hands, tuple[str, ...]]]) -> None:
    """OWASP ASVS 5.0.0, 1.2.1: names, notes, content and what stands in an address, on every page there is."""
    shown = 0
    for hands, addresses in everybody:
        for address in addresses:
            for typed in TYPED:
                address = address.replace(typed, quote(ODD))  # noqa: PLW2901 - the same address, typed otherwise
            shown += is_as_written(hands.open(address))
    assert shown > 100


def test_what_is_typed_into_a_form_is_no_markup(everybody: Iterator[tuple[Hands, tuple[str, ...]]]) -> None:
    """What is refused is shown again as it was typed, in the field and in the words of the refusal."""
    shown = 0
    for hands, addresses in everybody:
        for address in addresses:
            for page in sent_odd(hands, address):
                shown += is_as_written(page)
    assert shown > 10


def sent_odd(hands: Hands, address: str) -> Iterator[Seen]:
    """Send each form of a page that has something to fill in, filled with the odd text; yield what comes back."""
    for form in hands.open(address).soup.select("main form[method=post]"):
        to_fill = form.select("input:not([type=hidden], [type=radio], [type=checkbox], [type=file]), textarea")
        if to_fill:
            data = {str(i["name"]): str(i.get("value", "")) for i in form.select("input[type=hidden]")}
            data |= {str(i["name"]): ODD for i in to_fill}
            yield hands._see(hands.client.post(str(form.get("action") or address), data=data, follow_redirects=True))


def test_markup_of_a_template_stays_and_a_value_beside_it_does_not(app: Flask) -> None:
    """A number in bold within a sentence is bold; a name in the same sentence is a name."""
    with app.test_request_context("/"):
        app.preprocess_request()
        told = reading.said(message("{who}: {what} of <all>", who=ODD, what=Markup("<i>3</i>")))
    assert BeautifulSoup(told, "html.parser").get_text() == f"{ODD}: 3 of <all>"
    assert [tag.name for tag in BeautifulSoup(told, "html.parser").find_all(True)] == ["i"]
