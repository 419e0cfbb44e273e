"""The rules of a standard: all a clearance asks, none of what a page prints."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, asking, small_content, with_technique
from trainer.kitchen.book import canonical
from trainer.kitchen.clearance import Clearance, clearances_of
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.rules import FORM, NewerRules, content_of, rules_of
from trainer.kitchen.technique import Content, Edition
from trainer.messages import Text, translate, with_values

D = date


def full_content() -> Content:
    """Return content with editions, a quiz that decides, points that end a sign-off, and a bar."""
    editions = (Edition(1, D(2025, 1, 1), "", True), Edition(2, D(2026, 6, 1), "", True, ("boil",)))
    return with_technique(small_content(), "pasta_nesting", editions=editions, **asking(4), plan=Plan(), waits=(2, 5))


def history() -> Scribe:
    """Return a scribe whose cook was cleared, then stopped, and whose sign-off an edition ended."""
    scribe = Scribe(content=full_content())
    scribe.joins("ada", born=D(2009, 5, 5))
    scribe.clears_for_pasta_room("ada", D(2026, 3, 2), expires=D(2026, 9, 1))
    scribe.sits("ada", "pasta_nesting", D(2026, 3, 2))
    scribe.watched("ada", "pasta_nesting", D(2026, 4, 2), missed=["boil"])
    stop = scribe.watched("ada", "cold_sauces", D(2026, 5, 1), "stopped")
    scribe.releases(stop, D(2026, 5, 9))
    return scribe


def printed(found: Clearance, content: Content) -> list[Any]:
    """Return a clearance with every sentence in the words of some content."""

    def words(text: Text) -> str:
        return translate(with_values(text, content.name_of))  # type: ignore[arg-type]

    missing = [(one.what, words(one.text), words(one.next_act), words(one.gap)) for one in found.missing]
    held = [(one.what, words(one.text), one.since, one.until, one.proof) for one in found.held]
    return [found.station, found.state, found.until, found.proof, words(found.reason), missing, held]


def test_rules_are_what_canonical_json_can_hold() -> None:
    """They come back from a body as they went in: texts, whole numbers, lists, dicts, null."""
    rules = rules_of(full_content())
    assert json.loads(canonical(rules)) == rules
    assert rules["form"] == FORM


def test_rules_say_nothing_a_page_prints() -> None:
    """Other titles, reasons, points in other words: the same rules."""
    content = full_content()
    other = replace(
        content,
        techniques={
            name: replace(one, title="?", goal="?", checklist=tuple(replace(p, text="?") for p in one.checklist))
            for name, one in content.techniques.items()
        },
        stations={name: replace(one, title="?", age_reason="?") for name, one in content.stations.items()},
    )
    assert rules_of(other) == rules_of(content)


def test_content_made_of_rules_has_the_same_rules() -> None:
    """Nothing a clearance asks is lost on the way into the book and back."""
    rules = rules_of(full_content())
    assert rules_of(content_of(rules)) == rules


def test_a_clearance_by_the_rules_alone_reads_as_one_by_the_content() -> None:
    """Every state, day, proof and sentence of a year, once names are printed by the content."""
    scribe = history()
    content, ruled = scribe.content, content_of(rules_of(scribe.content))
    progress, ada, states = scribe.progress(), scribe.people["ada"], set()
    for number in range(0, 400, 3):
        on = D(2026, 1, 1) + timedelta(days=number)
        whole = clearances_of(ada, content.stations.values(), progress, content, on)
        bare = clearances_of(ada, ruled.stations.values(), progress, ruled, on)
        assert [printed(one, content) for one in bare] == [printed(one, content) for one in whole]
        states |= {one.state for one in whole}
    assert {"not allowed", "stood down", "not started"} <= states


def test_the_reason_for_an_age_is_told_in_the_words_of_the_day() -> None:
    """The rules keep no law's name; the page that prints them does."""
    scribe = history()
    ruled = content_of(rules_of(scribe.content))
    (found,) = clearances_of(
        scribe.people["ada"], [ruled.stations["pasta_room"]], scribe.progress(), ruled, D(2026, 3, 2)
    )
    age = next(one for one in printed(found, scribe.content)[5] if one[0] == "age")
    assert "29 CFR 570.62" in age[1]


def test_rules_of_a_later_form_are_refused() -> None:
    """A newer program wrote them: what they ask cannot be guessed."""
    with pytest.raises(NewerRules, match="form 4"):
        content_of({**rules_of(small_content()), "form": 4})
