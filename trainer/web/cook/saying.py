"""What a page reads aloud, part by part: cautions first, then what it is about, in the order of the page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.kitchen.quiz.question import Choice, Question
from trainer.kitchen.technique import Hazard, Step, Technique
from trainer.messages import Text, joined, message
from trainer.web.drawn import StepDrawing
from trainer.web.filters import clock_span, listed, own_label


def step_said(step: Step, hazards: Iterable[Hazard], drawing: StepDrawing) -> tuple[Text, ...]:
    """Return a step: its cautions, its name, what to do, what the drawing says in words, how long, and the cue."""
    stop = [message("Stop here and check.")] if step.kind == "stop" else []
    return (*cautions_said(hazards), step.title, *stop, step.text, *_drawn(drawing), *_clocks(step), step.cue)


def cautions_said(hazards: Iterable[Hazard]) -> tuple[Text, ...]:
    """Return cautions, each said to be one."""
    return tuple(message("Caution: {caution}", caution=hazard.caution) for hazard in hazards)


def _drawn(drawing: StepDrawing) -> Iterator[Text]:
    """Yield the words that stand under the drawings of a row."""
    for frame in drawing.frames:
        yield joined([frame.lead, *frame.lines], ", ")


def _clocks(step: Step) -> Iterator[Text]:
    if step.seconds:
        yield clock_span(step.seconds)
    for timer in step.timers:
        yield message("{span}: {words}", span=clock_span(timer.seconds), words=timer.text)


def front_said(found: Technique, cautions: Iterable[Hazard], allergens: Iterable[str]) -> tuple[Text, ...]:
    """Return the first page of a technique: cautions and allergens, its name, its goal, and its numbers."""
    kept_apart = listed(allergens)
    warned = (
        [message("Allergens: {allergens}. Keep them apart and say so.", allergens=kept_apart)] if kept_apart else []
    )
    numbers = (message("{span}: {words}", span=own_label(limit), words=words) for limit, words in found.numbers)
    return (*cautions_said(cautions), *warned, found.title, found.goal, *numbers)


def question_said(question: Question, given: str = "") -> tuple[Text, ...]:
    """Return a question, then each picture's letter and what there is to choose; once an act is chosen, the reasons."""
    acts = [choice for choice in question.choices if question.reasons and choice.key in given.split()[:1]]
    choices = question.reasons if acts else question.choices
    chosen = (message("You do this: {act}", act=act.text) for act in acts)
    why = [message("Why?")] if acts else []
    return (question.text, *chosen, *why, *(_lettered(choice, question) for choice in choices))


def _lettered(choice: Choice, question: Question) -> Text:
    """Return a choice with the letter it stands under; a name for a picture has none."""
    if question.pictures:
        return choice.text
    return message("{letter}: {name}", letter=choice.letter, name=choice.text)
