"""Questions made from a technique's own words: which fault is behind a sign, and which step comes when."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

from trainer.kitchen.quiz.choices import mixed_up
from trainer.kitchen.quiz.family import Choosing, Drawn, Posed, span
from trainer.kitchen.quiz.question import Choice
from trainer.kitchen.technique import Fault
from trainer.recipe_math.saying import joined, say

MOST_CHOICES = 4
CAUSE = ("cause", say("That is the cause of another fault, the one that shows so:"), say("What is behind it?"))
CURE = ("cure", say("That is the cure of another fault, the one that shows so:"), say("How do you put it right?"))


def _as_question(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else joined([text, "."], "")


def _unlike(faults: Sequence[Fault], fault: Fault, part: str) -> list[Fault]:
    """Return the other faults, one for each text that is not the right one's."""
    seen = {getattr(fault, part)}
    found = []
    for other in faults:
        if getattr(other, part) not in seen:
            seen.add(getattr(other, part))
            found.append(other)
    return found


def _choose_fault(draw: Drawn) -> Posed | None:
    """Return a question from the faults; None where there are fewer than three to tell apart."""
    faults, rng = draw.material.faults, draw.rng
    if not faults:
        return None
    part, of_another, asks = CAUSE if draw.numbers["asks"] == 1 else CURE
    fault = faults[rng.randrange(len(faults))]
    others = _unlike(faults, fault, part)
    if len(others) < 2:
        return None
    wrong = [
        Choice(
            "", getattr(other, part), is_right=False, name=f"another_{part}",
            says=joined([of_another, _as_question(other.shows)]),
        )
        for other in rng.sample(others, min(len(others), MOST_CHOICES - 1))
    ]  # fmt: skip
    return Posed(
        say(
            "{technique}. You see this: {sign} {asks}",
            technique=draw.material.title,
            sign=_as_question(fault.shows),
            asks=asks,
        ),
        mixed_up(rng, Choice("", getattr(fault, part), is_right=True), wrong),
        (
            say("Why: {cause}", cause=_as_question(fault.cause)),
            say("How to put it right: {cure}", cure=_as_question(fault.cure)),
        ),
    )


CHOOSE_FAULT = Choosing(
    name="choose_fault",
    title=say("Which fault is behind a sign"),
    level="one step",
    unit="",
    ranges={"asks": span(1, 2, 1, "what is asked: 1 the cause, 2 how to put it right")},
    words={},
    formula="the cause, or the cure, that stands with the sign",
    checked_against="The technique's own faults: its content decides.",
    choose=_choose_fault,
    tells={
        "another_cause": say("Takes the cause of one fault for that of another."),
        "another_cure": say("Takes the cure of one fault for that of another."),
    },
    advises={
        "another_cause": say("You took the cause of another fault. Ask of each cause: what would I see then?"),
        "another_cure": say("You took the cure of another fault. Find the cause first: the cure takes it away."),
    },
    takes="faults",
)


def _next_step(draw: Drawn) -> Posed | None:
    """Return a question about what follows a step; None with fewer than four steps."""
    steps, rng = draw.material.steps, draw.rng
    if len(steps) < MOST_CHOICES:
        return None
    place = rng.randrange(len(steps) - 1)
    others = [each for each in range(len(steps)) if each not in {place, place + 1}]
    wrong = [_out_of_turn(steps, each, place + 1) for each in rng.sample(others, min(len(others), MOST_CHOICES - 1))]
    return Posed(
        say(
            "{technique}. You have just done this: {step} Which step comes next?",
            technique=draw.material.title,
            step=_as_question(steps[place]),
        ),
        mixed_up(rng, Choice("", steps[place + 1], is_right=True), wrong),
        tuple(
            say("Step {number}: {step}", number=each + 1, step=_as_question(steps[each])) for each in (place, place + 1)
        ),
    )


def _out_of_turn(steps: Sequence[str], place: int, wanted: int) -> Choice:
    """Return a step that is not the one wanted, with where it belongs."""
    told = {"number": place + 1, "steps": len(steps), "wanted": wanted + 1}
    if place > wanted:
        name = "skips_ahead"
        says = say("That step comes later: it is step {number} of {steps}; here step {wanted} follows.", **told)
    else:
        name = "goes_back"
        says = say("That step comes earlier: it is step {number} of {steps}; here step {wanted} follows.", **told)
    return Choice("", steps[place], is_right=False, name=name, says=says)


def _put_in_order(draw: Drawn) -> Posed | None:
    """Return a question about the order of three steps, lettered; None with fewer than three."""
    steps, rng = draw.material.steps, draw.rng
    if len(steps) < 3:
        return None
    places = rng.sample(range(len(steps)), 3)
    letters = dict(zip("ABC", places, strict=True))
    right = tuple(sorted(letters, key=lambda letter: letters[letter]))
    wrong = [
        Choice("", ", ".join(order), is_right=False, name="out_of_order", says=_first_slip(order, right))
        for order in rng.sample([each for each in permutations("ABC") if each != right], MOST_CHOICES - 1)
    ]
    listed = joined((joined([letter, _as_question(steps[place])], ": ") for letter, place in letters.items()), "\n")
    asked = say("{technique}. In which order are these done?", technique=draw.material.title)
    return Posed(
        joined([asked, listed], "\n"),
        mixed_up(rng, Choice("", ", ".join(right), is_right=True), wrong),
        tuple(
            say(
                "{letter}, step {number}: {step}",
                letter=letter,
                number=letters[letter] + 1,
                step=_as_question(steps[letters[letter]]),
            )
            for letter in right
        ),
    )


def _first_slip(order: Sequence[str], right: Sequence[str]) -> str:
    """Return what is said about an order: the first step that stands too early."""
    given, wanted = next((one, other) for one, other in zip(order, right, strict=True) if one != other)
    return say("{given} stands too early: {wanted} comes before it.", given=given, wanted=wanted)


ORDER_STEPS = Choosing(
    name="order_steps",
    title=say("Which step comes next"),
    level="one step",
    unit="",
    ranges={"asks": span(1, 2, 1, "what is asked: 1 the next step, 2 the order of three steps")},
    words={},
    formula="the technique's own order",
    checked_against="The technique's own steps: its content decides.",
    choose=lambda draw: _next_step(draw) if draw.numbers["asks"] == 1 else _put_in_order(draw),
    tells={
        "skips_ahead": say("Skips a step."),
        "goes_back": say("Goes back to a step that is done."),
        "out_of_order": say("Puts steps in another order than the standard's."),
    },
    advises={
        "skips_ahead": say("You skipped a step. Say the steps in your head, on from the one that is done."),
        "goes_back": say("You went back to a step that was done. Say the steps in your head from the first one on."),
        "out_of_order": say("You put the steps in another order. Find the earliest of them, then the next."),
    },
    takes="steps",
)
