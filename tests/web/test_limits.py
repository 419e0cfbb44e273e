"""Lines of the house in place of the local code's, written on a page: stricter, never laxer, as a draft."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.web.hands import Hands
from tests.web.test_writing import drafts, said
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.teaching import Teaching
from trainer.content.files import Library, load_content
from trainer.content.shipped import shipped

__all__ = ["drafts"]
FILE = "kitchen_code.yaml"
SPANISH = "es.yaml"
HOT = "/standard/limits/hot_holding"


def test_limits_are_reached_from_the_standard_and_the_settings(cleo: Hands, drafts: Path) -> None:
    """The page defers to the local authority; a target alone is no limit and is not listed."""
    cleo.open("/settings")
    seen = cleo.follow("Limits of the code, and our own")
    assert "ask your local authority" in seen.work
    assert "Our own: at or above 140 °F" in seen.work
    assert "cold_holding" in seen.work
    assert "cooling_start" not in seen.work


def test_a_stricter_line_is_shown_then_drafted_then_published(cleo: Hands, drafts: Path) -> None:
    """The point that is judged by it is named first; the page of the standard then shows what publishing costs."""
    before = said(drafts, FILE)
    cleo.open(HOT)
    told = cleo.press("Show what changes", lowest="145 F", reason="Our city asks for it.").items("ul[role=status] li")
    assert [line for line in told if line.startswith("Judged otherwise: Rolling:")]
    assert "No edition changes: what is signed stands." in told[-1]
    assert said(drafts, FILE) == before
    done = cleo.press("Save as a draft", lowest="145 F", reason="Our city asks for it.")
    assert done.heading == "The standard"
    assert FILE in done.work
    assert "lowest: 145 F" in said(drafts, FILE)
    assert "source: house" in said(drafts, FILE)


def test_a_limit_nothing_names_is_told_so(cleo: Hands, drafts: Path) -> None:
    """A second line of the house stands beside the first, whose words stay as they are."""
    cleo.open("/standard/limits/cold_holding")
    typed: dict[str, Any] = {"highest": "38 F", "reason": "One line for every fridge."}
    assert "No point, no question and no step names this limit." in cleo.press("Show what changes", **typed).work
    cleo.press("Save as a draft", **typed)
    assert "reason: The window is drafty." in said(drafts, FILE)
    assert "highest: 38 F" in said(drafts, FILE)


def test_with_nothing_typed_the_code_stands_again(cleo: Hands, drafts: Path) -> None:
    """The house's line is taken out of the file."""
    cleo.open(HOT)
    cleo.press("Show what changes", lowest="", reason="")
    cleo.press("Save as a draft", lowest="", reason="")
    assert "hot_holding" not in said(drafts, FILE)
    assert "code: town" in said(drafts, FILE)


def test_the_reason_is_written_in_the_other_language_too(cleo: Hands, drafts: Path) -> None:
    """Into the file of its words, where others stay; the form comes back with it, and the files have no problem."""
    (drafts / SPANISH).write_text("# ours\nallergens: {egg: Huevo}\n", encoding="utf-8")
    cleo.open(HOT)
    typed: dict[str, Any] = {"lowest": "145 F", "reason": "Our city asks for it.", "told_es": "Lo pide la ciudad."}
    cleo.press("Show what changes", **typed)
    cleo.press("Save as a draft", **typed)
    assert said(drafts, SPANISH).startswith("# ours\nallergens: {egg: Huevo}\n")
    assert "reason: Lo pide la ciudad." in said(drafts, SPANISH)
    assert cleo.open(HOT).field("Why, in this language: Español").get_text().strip() == "Lo pide la ciudad."
    assert Library(drafts).problems == ()
    spanish, _ = load_content(drafts, "es")
    assert spanish is not None
    assert "Lo pide la ciudad." in " ".join(str(one) for one in spanish.code.overrides)


def test_where_the_other_reason_is_empty_the_first_counts(cleo: Hands, drafts: Path) -> None:
    """What was written there is taken out again; too long a one is refused and stays typed."""
    (drafts / SPANISH).write_text("overrides: {hot_holding: {title: Caliente, reason: Entra aire.}}\n", "utf-8")
    cleo.open(HOT)
    long: dict[str, Any] = {"lowest": "145 F", "reason": "Our city asks for it.", "told_es": "a" * 301}
    seen = cleo.press("Show what changes", **long)
    assert "301 characters" in seen.problems[0]
    assert seen.field("Why, in this language: Español").get_text().strip() == "a" * 301
    typed: dict[str, Any] = {**long, "told_es": " "}
    cleo.press("Show what changes", **typed)
    cleo.press("Save as a draft", **typed)
    assert said(drafts, SPANISH) == "overrides: {hot_holding: {title: Caliente}}\n"
    assert Library(drafts).problems == ()


def test_a_line_taken_out_takes_its_words_with_it(cleo: Hands, drafts: Path) -> None:
    """Words without a line would be a problem that leaves the language out."""
    (drafts / SPANISH).write_text("overrides: {hot_holding: {title: Caliente, reason: Entra aire.}}\n", "utf-8")
    cleo.open(HOT)
    cleo.press("Show what changes", lowest="", reason="")
    cleo.press("Save as a draft", lowest="", reason="")
    assert "hot_holding" not in said(drafts, FILE) + said(drafts, SPANISH)
    assert Library(drafts).problems == ()


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"lowest": "130 F"}, "This is laxer than the code: at or above 135 °F (57 °C) (Part 1)."),
        ({"lowest": "hot"}, "“hot” is no quantity. Write a number and a unit, like 140 F or 2 h."),
        ({"lowest": "2 h"}, "This measures something else than the code, which says at or above 135 °F"),
        ({"reason": ""}, "Write why the house has its own line."),
    ],
)
def test_a_line_that_may_not_stand_is_refused_and_stays_typed(
    cleo: Hands, drafts: Path, typed: dict[str, str], words: str
) -> None:
    """By the rule the file is held to, with the value and the code's own; nothing is written.

    135 °F and 57 °C are one limit in FDA Food Code 2022, § 3-501.16(A)(1).
    """
    before = said(drafts, FILE)
    cleo.open(HOT)
    sent: dict[str, Any] = {"lowest": "150 F", "reason": "The window is drafty.", **typed}
    seen = cleo.press("Show what changes", **sent)
    assert seen.status == 400
    assert words in " ".join(seen.problems)
    assert seen.field("At least")["value"] == sent["lowest"]
    assert said(drafts, FILE) == before


def test_a_kitchen_without_files_of_its_own_is_told_how_to_get_them(
    cleo: Hands, drafts: Path, kitchen: Kitchen
) -> None:
    """What came with the program is never written to."""
    del drafts
    kitchen.teaching = Teaching(kitchen.file, shipped("content"))
    assert "it needs a copy of its own" in cleo.open("/standard/limits").work
    assert cleo.open(HOT).status == 404


def test_nobody_but_a_manager_changes_a_limit(bo: Hands, drafts: Path) -> None:
    """An assessor is refused."""
    del drafts
    assert bo.open(HOT).status == 403
