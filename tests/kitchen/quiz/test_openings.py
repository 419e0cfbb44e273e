"""A choice is how a text begins: whole sentences, short enough for a phone, no two alike among what is shipped."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.kitchen.quiz.asking import draw_question
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.kitchen.quiz.material import Material, StepWords, material_of
from trainer.kitchen.quiz.openings import opening
from trainer.kitchen.technique import Content, Fault

LONG = "Then carry it to the cold side, cover it, and write on the label what it is and until when it is good."


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        ("Stop", "Stop"),
        ("Stop.", "Stop."),
        (f"Stop. {LONG}", f"Stop. {LONG}"),
        (f"Take the pan off the heat. {LONG}", "Take the pan off the heat."),
        ("Take it off the heat now. Stir it. Taste it.", "Take it off the heat now. Stir it. Taste it."),
        (LONG, LONG),
        ("¿Se cuajó? Cuélala otra vez por el colador fino.", "¿Se cuajó? Cuélala otra vez por el colador fino."),
        ("Weigh 0.25 oz of salt for it. " + LONG, "Weigh 0.25 oz of salt for it."),
    ],
)
def test_whole_sentences_as_far_as_they_fit(text: str, begins: str) -> None:
    """Never half a sentence; a short first one takes the next along; a point in a number ends nothing."""
    assert opening(text) == begins


@pytest.fixture(scope="module", params=["en", "es"])
def taught(request: pytest.FixtureRequest) -> Content:
    """Return what is shipped, in each language."""
    content, problems = load_content(shipped("content"), request.param)
    assert content is not None, problems
    return content


def test_no_two_begin_alike(taught: Content) -> None:
    """Within a technique each cause, each cure and each step can be told by how it begins."""
    alike = []
    for one in taught.techniques.values():
        material = material_of(one)
        parts = [step.text for step in material.steps], [f.cause for f in one.faults], [f.cure for f in one.faults]
        for texts in parts:
            counted = Counter(map(opening, dict.fromkeys(texts)))
            alike += [(one.id, text) for text, times in counted.items() if times > 1]
    assert alike == []


def test_what_is_chosen_begins_and_the_solution_says_all() -> None:
    """The cure to choose is its first sentence; below the answer it stands whole."""
    faults = tuple(
        Fault(name, f"It looks {name}.", f"It was left {name} for too long.", f"Take the {name} out of the pan. {LONG}")
        for name in ("burnt", "split", "grainy")
    )
    for seed in range(12):
        question = draw_question("choose_fault", seed, None, Material("Sauce", (), faults))
        assert all(LONG not in choice.text for choice in question.choices)
        assert LONG in " ".join(question.solution)


def test_faults_that_begin_alike_are_no_two_choices() -> None:
    """Two cures with one first sentence cannot be told apart by it, so these stand whole."""
    faults = tuple(
        Fault(name, f"It looks {name}.", f"It was left {name}.", f"Take it out of the pan at once. {LONG} {name}.")
        for name in ("burnt", "split")
    ) + tuple(Fault(name, f"It is {name}.", f"It sat {name}.", f"Stir the {name} in.") for name in ("thin", "dull"))
    for seed in range(20):
        question = draw_question("choose_fault", seed, None, Material("Sauce", (), faults))
        assert len({choice.text for choice in question.choices}) == len(question.choices)


def test_steps_that_begin_alike_are_no_two_choices() -> None:
    """Two steps with one first sentence cannot be told apart by it, so these stand whole."""
    texts = [
        f"Wash and dry your hands well. {LONG}",
        "Weigh the flour.",
        "Wash and dry your hands well. Then go on to the dough with both hands.",
    ]
    texts += ["Crack the eggs.", "Knead the dough.", "Let it rest."]
    steps = tuple(StepWords(f"s{place}", text) for place, text in enumerate(texts))
    for seed in range(60):
        question = draw_question("order_steps", seed, None, Material("Dough", steps, ()))
        assert len({choice.text for choice in question.choices}) == len(question.choices)
        assert question.text.count("Wash and dry") == question.text.count(texts[0]) + question.text.count(texts[2])
