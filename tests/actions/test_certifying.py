"""Certificates shown to a manager."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.kitchen.kitchen_for_tests import small_content
from tests.printed import english
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.outcome import Outcome
from trainer.kitchen.technique import CertificateAsked

PAPER = Paper("ada", "food_handler", "FH-0012", TODAY - timedelta(days=30), TODAY + timedelta(days=1000))


def show(crew: Crew, by: str = "mara", **changes: Any) -> Outcome:
    """Show a certificate."""
    return show_certificate(crew.k, by=by, paper=replace(PAPER, **changes), now=crew.now, key=crew.key())


def test_a_certificate_is_kept_as_shown(crew: Crew) -> None:
    """Kind, number with its leading zeros, both days."""
    entry = saved(show(crew, number=" 0012 "))
    assert (entry.kind, entry.cook, entry.by) == ("certificate_shown", "ada", "mara")
    assert entry.body == {
        "certificate": "food_handler",
        "number": "0012",
        "issued": "2026-01-31",
        "expires": "2028-11-26",
    }


def test_a_certificate_may_have_no_end(crew: Crew) -> None:
    """Kept as null."""
    assert saved(show(crew, expires=None)).body["expires"] is None


def test_a_certificate_ending_today_is_taken(crew: Crew) -> None:
    """The last day counts."""
    saved(show(crew, expires=TODAY))


@pytest.mark.parametrize(
    ("by", "changes", "reason"),
    [
        ("sous", {}, "Sous is no manager."),
        ("mara", {"cook": "mara"}, "Nobody decides this about themselves."),
        ("mara", {"cook": "ghost"}, "ghost is not on the roster."),
        ("mara", {"certificate": "sailing"}, "No station asks for a certificate “sailing”."),
        ("mara", {"number": " "}, "The number is blank."),
        ("mara", {"number": "12\x00"}, "The number holds a sign that cannot be printed."),
        ("mara", {"issued": TODAY + timedelta(days=1)}, "It is issued on 3 March 2026, which is still to come."),
        ("mara", {"expires": TODAY - timedelta(days=31)}, "It ends before it is issued."),
        ("mara", {"expires": TODAY - timedelta(days=1)}, "It ended on 1 March 2026: a new one is needed."),
    ],
)
def test_a_certificate_is_refused_with_its_reason(crew: Crew, by: str, changes: dict[str, Any], reason: str) -> None:
    """Each rule by itself."""
    assert english(refused(show(crew, by, **changes)).reason) == reason
    assert crew.entries("certificate_shown") == []


def test_a_renewal_may_be_shown_before_it_begins(crew: Crew) -> None:
    """Up to the day after the end of the one on record: earlier than that nobody could tell when it will begin."""
    end = TODAY + timedelta(days=20)
    saved(show(crew, expires=end))
    late = show(crew, issued=end + timedelta(days=2), expires=end + timedelta(days=900))
    assert "still to come" in english(refused(late).reason)
    saved(show(crew, issued=end + timedelta(days=1), expires=end + timedelta(days=900)))


def test_a_paper_too_old_for_every_station_is_refused(crew: Crew) -> None:
    """Issued three years ago, and the one station that asks for it counts two."""
    asked = CertificateAsked("food_handler", "Food handler card", bars=False, most_years=2)
    crew.k.content = small_content(pasta_room={"certificates": (asked,)})
    words = "It was issued on 2 March 2023 and counts for 2 years at the most: a new one is needed."
    assert english(refused(show(crew, issued=TODAY.replace(year=2023), expires=None)).reason) == words
    saved(show(crew, issued=TODAY.replace(year=2024), expires=None))
