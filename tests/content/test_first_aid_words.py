"""What is taught for the minute in which a person is hurt, and how it is practised, against those who publish it."""

from __future__ import annotations

import re

import pytest

from tests.content.conftest import CONTENT
from trainer.content.files import load_content
from trainer.kitchen.technique import Content, Step

CALLS = re.compile(r"\b(?:calls?|dials?|rings?) the emergency number", re.IGNORECASE)


@pytest.fixture(scope="module")
def spanish() -> Content:
    """Return the shipped content in Spanish."""
    content, _ = load_content(CONTENT, "es")
    assert content is not None
    return content


def step_of(content: Content, technique: str, name: str) -> Step:
    """Return a step of a technique."""
    return next(step for step in content.techniques[technique].steps if step.id == name)


def point_text(content: Content, technique: str, name: str) -> str:
    """Return the words of a point."""
    return next(point.text for point in content.techniques[technique].checklist if point.id == name)


def test_no_exercise_dials_the_emergency_number(content: Content) -> None:
    """Broward County, Florida, 911 pages: the line is for emergencies, and never called to test."""
    for technique in content.techniques.values():
        for point in technique.checklist:
            assert not CALLS.search(point.text), f"{technique.id} {point.id}"
        assert not [text for text in technique.standard_text if "number rings" in text], technique.id


def test_the_emergency_exercise_names_the_practice_phone(content: Content, spanish: Content) -> None:
    """The cook speaks into a practice phone or to the assessor; in both languages nobody dials the real number."""
    names = ("drill_call", "call_words")
    english, other = (" ".join(point_text(each, "allergens", n) for n in names) for each in (content, spanish))
    for words in ("practice phone", "the assessor as the line", "Nobody dials the real number"):
        assert words in english
    for words in ("teléfono de práctica", "quien evalúa", "Nadie marca el número real"):
        assert words in other
    assert "emergency_line_tests" in content.techniques["allergens"].sources


def test_a_guest_who_reacts_lies_flat_and_never_stands(content: Content) -> None:
    """ASCIA, How to position a person having anaphylaxis (2024-08): lay flat; if breathing is hard, sit with legs
    outstretched; on the left side if pregnant; no standing or walking, even if they seem recovered.
    """
    step = step_of(content, "allergens", "lie_flat")
    for words in ("lie flat", "Hard to breathe?", "sit on the floor, legs out"):
        assert words in step.text
    assert "pregnant" in step.cue
    assert "left side" in step.cue
    cautions = {hazard.id: hazard.caution for hazard in content.techniques["allergens"].hazards}
    assert "Never let them stand, walk" in cautions["upright"]
    assert "upright" in step.hazards
    assert "ascia_positioning" in content.techniques["allergens"].sources


@pytest.mark.parametrize("name", ["reacts", "lie_flat"])
def test_no_figure_sits_the_guest_in_a_chair(content: Content, spanish: Content, name: str) -> None:
    """The words for who cannot see a figure agree with the step: flat, or on the floor."""
    english, other = (step_of(each, "allergens", name).figure_alt for each in (content, spanish))
    assert "chair" not in english
    assert "silla" not in other
    assert "lies flat on the floor" in english
    assert "acostado" in other


def test_the_guests_own_injector_is_asked_for_and_the_line_decides_on_more(content: Content) -> None:
    """AHA and American Red Cross, first aid, top things to know (2024-11-14), 6: help with their own medicine."""
    step = step_of(content, "allergens", "injector")
    assert "their own injector" in step.text
    assert "as you were trained" in step.text
    assert "Note the time" in step.text
    assert "only by their own plan or the emergency line" in step.why


@pytest.mark.parametrize(("technique", "name"), [("knife_care", "cut_press"), ("knife_cuts", "cut_hand")])
def test_a_cut_is_pressed_and_nobody_is_told_to_raise_it(
    content: Content, spanish: Content, technique: str, name: str
) -> None:
    """AHA and American Red Cross (2024-11-14), 2: direct pressure, then a tourniquet or packing. No raising of it."""
    step, other = step_of(content, technique, name), step_of(spanish, technique, name)
    assert "Press a clean cloth" in step.text
    taught = " ".join((step.text, step.cue, step.figure_alt))
    assert not re.search(r"hand high|raised|above the heart|held higher", taught)
    assert not re.search(
        r"en alto|sube la mano|sobre el corazón|más alta|más arriba",
        " ".join((other.text, other.cue, other.figure_alt)),
    )
    points = " ".join(point.text for point in content.techniques[technique].checklist)
    assert "raises" not in points


def test_life_at_risk_is_for_the_trained(content: Content) -> None:
    """AHA and American Red Cross (2024-11-14), 2: a tourniquet or packing where the place of the wound allows it."""
    assert re.search(r"someone trained packs it or ties a tourniquet", step_of(content, "knife_care", "cut_press").why)


def test_a_part_cut_off_never_lies_on_the_ice(content: Content) -> None:
    """National Safety Council, First aid for amputations: wrapped damp, bagged, the bag in ice water, not on ice."""
    step = step_of(content, "knife_care", "cut_off")
    order = [step.text.index(words) for words in ("Press", "emergency number", "damp", "bag it", "ice water")]
    assert order == sorted(order)
    assert "Ice on the skin itself kills" in step.why
    assert "nsc_amputations" in content.techniques["knife_care"].sources
