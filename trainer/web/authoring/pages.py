"""A technique while it is written: its pages as a cook will see them, read again at each look, problems on top.

There is no kitchen behind these pages: nobody signs in, nothing is written, only this machine is answered.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from pathlib import Path
from typing import ClassVar, Literal, cast

from flask import Blueprint, Response, abort, current_app, g, request, url_for

from trainer.content.draft import TechniqueDraft, draft_of
from trainer.content.figure_files import figure_in
from trainer.content.photo_files import photograph_in
from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Hazard, Problem, Source, Step, Technique
from trainer.messages import message
from trainer.store.catalogues import name_of, nearest_language
from trainer.web.drawn import StepDrawing, drawn, numbers_on
from trainer.web.page import Page, rendered
from trainer.web.reading import ReaderSettings, said
from trainer.web.shell import bare_shell

pages = Blueprint("preview", __name__)


@dataclass(frozen=True, slots=True)
class TechniqueWritten:
    """What is previewed: which technique of which content folder, and how it is told where nothing else is asked."""

    content: Path
    technique: str
    language: str
    units: Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class FileToMend:
    """A file with its problems, by line."""

    name: str
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class StepShown:
    """A step with the cautions above it and its drawing."""

    step: Step
    hazards: tuple[Hazard, ...]
    drawing: StepDrawing
    photograph: str


@dataclass(frozen=True, slots=True)
class Sample:
    """What is asked, a skill by its title or a family of a quiz by its id, and one question of it."""

    asked: str
    question: Question


@dataclass(frozen=True, slots=True)
class OtherTongue:
    """A language the technique has words in, and the address of the same page in it."""

    tag: str
    name: str
    url: str


@dataclass(frozen=True, kw_only=True)
class TechniquePreviewPage(Page):
    """All of a technique on one page, under what is to be fixed."""

    template: ClassVar[str] = "preview/technique.html"
    technique: Technique | None
    tongues: tuple[OtherTongue, ...]
    to_mend: int
    files: tuple[FileToMend, ...]
    steps: tuple[StepShown, ...]
    allergens: tuple[str, ...]
    questions: tuple[Sample, ...]
    sources: tuple[Source, ...]
    others_url: str
    back_url: str = ""


@pages.before_request
def how_it_is_read() -> None:
    """Tell the page in the language and the units asked for."""
    written = _written()
    g.signed_in, g.device = None, None
    language = request.args.get("language", written.language)[:8]
    g.reading = ReaderSettings(nearest_language(language), written.units)


@pages.get("/")
def technique() -> Response:
    """Show the technique as its files say it at this moment."""
    written = _written()
    draft = draft_of(
        written.content, written.technique, request.args.get("language", written.language)[:8], written.units
    )
    if draft is None:
        abort(404, said(message("There is no technique {technique} any more.", technique=written.technique)))
    return rendered(preview_of(draft, asked_draw(), _address), bare_shell(message("Preview"), draft.language))


def _address(language: str, draw: int) -> str:
    return url_for("preview.technique", language=language, draw=draw)


def preview_of(
    draft: TechniqueDraft, draw: int, address: Callable[[str, int], str], back_url: str = ""
) -> TechniquePreviewPage:
    """Return the page of a draft, with the questions of one draw; *address* is that of another language or draw."""
    found = draft.technique
    problems = draft.problems + draft.elsewhere
    return TechniquePreviewPage(
        title=found.title if found and found.title else draft.id,
        technique=found,
        tongues=tuple(
            OtherTongue(tag, name_of(tag), address(tag, draw)) for tag in draft.languages if tag != draft.language
        ),
        to_mend=len(problems),
        files=_files(problems),
        steps=tuple(_shown(draft, found, step) for step in found.steps) if found else (),
        allergens=tuple(draft.allergens.get(name, name) for name in found.allergens) if found else (),
        questions=tuple(_samples(found, draw, draft.question_words)) if found else (),
        sources=tuple(draft.sources[name] for name in found.sources if name in draft.sources) if found else (),
        others_url=address(draft.language, draw + 1),
        back_url=back_url,
    )


def _files(problems: Iterable[Problem]) -> tuple[FileToMend, ...]:
    """Return problems file by file, in the order they come."""
    return tuple(FileToMend(name, tuple(found)) for name, found in groupby(problems, key=lambda each: each.file))


def _shown(draft: TechniqueDraft, found: Technique, step: Step) -> StepShown:
    """Return a step as it is shown."""
    hazards = tuple(hazard for hazard in found.hazards if hazard.id in step.hazards)
    found_there = photograph_in(draft.folder, step.photograph)
    picture = f"data:image/jpeg;base64,{b64encode(found_there).decode()}" if found_there else ""
    drawing = drawn(step, numbers_on(found, draft.code, partial(figure_in, draft.folder)))
    return StepShown(step, hazards, drawing, picture)


def _samples(found: Technique, draw: int, words: QuestionWords) -> Iterator[Sample]:
    """Yield a question of each skill or family from which one can be drawn; the others have their problem on top."""
    skills = [(skill.title, skill.setting) for skill in found.knowledge if skill.of in ("", found.id)]
    for asked, setting in skills or [(setting.family, setting) for setting in found.questions]:
        context = QuestionContext(words, material_of(found), setting)
        try:
            yield Sample(asked, tell(draw_question(setting.family, draw, context), context))
        except CannotDraw:
            continue


def asked_draw() -> int:
    """Return which questions are asked for; the first where that is no number."""
    typed = request.args.get("draw", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 7 else 1


def _written() -> TechniqueWritten:
    """Return what this app previews."""
    return cast(TechniqueWritten, current_app.extensions["written"])
