"""Questions made from a technique's own words: which fault is behind a sign, and which step comes when."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import permutations

from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, Draw, Option, mixed_up, span
from trainer.kitchen.quiz.material import StepWords
from trainer.kitchen.quiz.openings import openings
from trainer.kitchen.quiz.sentences import Series, sentence
from trainer.kitchen.technique import Fault

MOST_CHOICES = 4
MOST_FAULTS = 6
"""Six where the technique has so many: two struck out leave one chance in four."""


def _ended(text: str) -> str:
    """Return a text of the technique with a full stop where it has no mark at its end."""
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _unlike(faults: Sequence[Fault], fault: Fault, part: str) -> list[Fault]:
    """Return the other faults, one for each text that is not the right one's."""
    seen = {getattr(fault, part)}
    found = []
    for other in faults:
        if getattr(other, part) not in seen:
            seen.add(getattr(other, part))
            found.append(other)
    return found


def _choose_fault(draw: Draw) -> ChoiceItem | None:
    """Return a question from the faults; None where there are fewer than three to tell apart."""
    faults = {fault.id: fault for fault in draw.material.faults}
    if not faults:
        return None
    part = "cause" if draw.numbers["asks"] == 1 else "cure"
    fault = faults[draw.picks.one(list(faults))]
    others = [other.id for other in _unlike(draw.material.faults, fault, part)]
    if len(others) < 2 and not draw.picks.is_kept:
        return None
    taken = draw.picks.several(others, min(len(others), MOST_FAULTS - 1))
    told = openings(getattr(each, part) for each in draw.material.faults)
    wrong = [
        Option(
            name, told[getattr(faults[name], part)], f"another_{part}",
            Series((sentence(f"{part}_of_another"), _ended(faults[name].shows))),
        )
        for name in taken
    ]  # fmt: skip
    return ChoiceItem(
        sentence("ask", technique=draw.material.title, sign=_ended(fault.shows), asks=sentence(f"asks_{part}")),
        mixed_up(draw.picks, [Option(fault.id, told[getattr(fault, part)]), *wrong]),
        (sentence("why", cause=_ended(fault.cause)), sentence("how_to_put_it_right", cure=_ended(fault.cure))),
        hints=0 if part == "cause" else 1,
    )


CHOOSE_FAULT = ChoiceFamily(
    name="choose_fault",
    level="one step",
    unit="",
    ranges={"asks": span(1, 2, 1, "what is asked: 1 the cause, 2 how to put it right")},
    words=(),
    formula="the cause, or the cure, that stands with the sign",
    checked_against="The technique's own faults: its content decides.",
    choose=_choose_fault,
    slips=("another_cause", "another_cure"),
    takes="faults",
)


def _next_step(draw: Draw) -> ChoiceItem | None:
    """Return a question about what follows a step; None with fewer than four steps."""
    steps = draw.material.steps
    if len(steps) < MOST_CHOICES:
        return None
    places = {step.id: place for place, step in enumerate(steps)}
    done = places[draw.picks.one([step.id for step in steps[:-1]])]
    others = [step.id for step in steps if places[step.id] not in {done, done + 1}]
    taken = draw.picks.several(others, min(len(others), MOST_CHOICES - 1))
    told = openings(step.text for step in steps)
    wrong = [_out_of_turn(steps, told, places[name], done + 1) for name in taken]
    return ChoiceItem(
        sentence("ask_next", technique=draw.material.title, step=_ended(told[steps[done].text])),
        mixed_up(draw.picks, [Option(steps[done + 1].id, told[steps[done + 1].text]), *wrong]),
        tuple(sentence("step", number=each + 1, step=_ended(steps[each].text)) for each in (done, done + 1)),
        hints=1,
    )


def _out_of_turn(steps: Sequence[StepWords], told: Mapping[str, str], place: int, wanted: int) -> Option:
    """Return a step that is not the one wanted, with where it belongs."""
    method, key = ("skips_ahead", "comes_later") if place > wanted else ("goes_back", "comes_earlier")
    why = sentence(key, number=place + 1, steps=len(steps), wanted=wanted + 1)
    return Option(steps[place].id, told[steps[place].text], method, why)


def _put_in_order(draw: Draw) -> ChoiceItem | None:
    """Return a question about the order of three steps, lettered; None with fewer than three."""
    steps = {step.id: (place, step) for place, step in enumerate(draw.material.steps)}
    if len(steps) < 3:
        return None
    letters = dict(zip("ABC", draw.picks.several(list(steps), 3), strict=True))
    right = "".join(sorted(letters, key=lambda letter: steps[letters[letter]][0]))
    orders = ["".join(order) for order in permutations("ABC") if "".join(order) != right]
    wrong = [
        Option(order, ", ".join(order), "out_of_order", sentence("stands_too_early", **_first_slip(order, right)))
        for order in draw.picks.several(orders, MOST_CHOICES - 1)
    ]
    told = openings(step.text for step in draw.material.steps)
    listed = [Series((letter, _ended(told[steps[name][1].text])), ": ") for letter, name in letters.items()]
    return ChoiceItem(
        Series((sentence("ask_order", technique=draw.material.title), *listed), "\n"),
        mixed_up(draw.picks, [Option(right, ", ".join(right)), *wrong]),
        tuple(
            sentence(
                "lettered_step",
                letter=letter,
                number=steps[letters[letter]][0] + 1,
                step=_ended(steps[letters[letter]][1].text),
            )
            for letter in right
        ),
    )


def _first_slip(order: str, right: str) -> dict[str, str]:
    """Return the first step of an order that stands too early, and the one that comes before it."""
    given, wanted = next((one, other) for one, other in zip(order, right, strict=True) if one != other)
    return {"given": given, "wanted": wanted}


ORDER_STEPS = ChoiceFamily(
    name="order_steps",
    level="one step",
    unit="",
    ranges={"asks": span(1, 2, 1, "what is asked: 1 the next step, 2 the order of three steps")},
    words=(),
    formula="the technique's own order",
    checked_against="The technique's own steps: its content decides.",
    choose=lambda draw: _next_step(draw) if draw.numbers["asks"] == 1 else _put_in_order(draw),
    slips=("skips_ahead", "goes_back", "out_of_order"),
    takes="steps",
)
