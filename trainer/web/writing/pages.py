"""The room where a manager writes: which techniques there are, the parts of one, and how it looks by now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Refused
from trainer.actions.writing import begin, begin_own_content, write
from trainer.content.draft import draft_of
from trainer.content.files import folders_of
from trainer.content.form_fields import Part, parts
from trainer.content.written import WHOLE, part_named, problems_at
from trainer.kitchen.technique import Problem
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.authoring.pages import asked_draw, preview_of
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import NeedsText
from trainer.web.writing import photographs, sheets, skills, stations
from trainer.web.writing.folders import Writing, content_folder, writing_of
from trainer.web.writing.words import help_word, one_more, part_word

pages = Blueprint("writing", __name__)
pages.register_blueprint(sheets.pages)
pages.register_blueprint(photographs.pages)
pages.register_blueprint(stations.pages)
pages.register_blueprint(skills.pages)


class BeginForm(KitchenForm):
    """What a new technique is called."""

    called = TextField(
        message("What a cook would call it"),
        [NeedsText(message("Write a name first: Pan sauces."))],
        description=message("In English. The record keeps this name, so choose it with care."),
    )


@dataclass(frozen=True, slots=True)
class TechniqueLink:
    """A technique that can be opened."""

    title: Text
    url: str
    is_drafted: bool


@dataclass(frozen=True, kw_only=True)
class TechniquesPage(Page):
    """Every technique, and a name for a new one; without content of its own, a kitchen is offered a copy first."""

    template: ClassVar[str] = "writing/techniques.html"
    techniques: tuple[TechniqueLink, ...]
    is_own: bool
    own_url: str
    back_url: str
    form: BeginForm
    copy_form: PlainForm


@dataclass(frozen=True, slots=True)
class PartLink:
    """A part of a technique: how many entries it has, and how much in them is to be fixed."""

    words: Text
    help: Text
    url: str
    count: int | None
    to_fix: int


@dataclass(frozen=True, kw_only=True)
class TechniquePage(Page):
    """The parts of a technique; on top what is wrong with it and stands in no field."""

    template: ClassVar[str] = "writing/technique.html"
    parts: tuple[PartLink, ...]
    skills: tuple[PartLink, ...]
    seldom: tuple[PartLink, ...]
    problems: tuple[Problem, ...]
    to_fix: int
    asked_at: tuple[Text, ...]
    stations_url: str
    look_url: str
    standard_url: str
    back_url: str


@dataclass(frozen=True, slots=True)
class EntryLink:
    """An entry of a part, by how it begins."""

    id: str
    title: Text
    told_in: str
    url: str
    to_fix: int
    can_move: bool


@dataclass(frozen=True, kw_only=True)
class PartPage(Page):
    """The entries of a part in their order."""

    template: ClassVar[str] = "writing/part.html"
    technique: Text
    help: Text
    entries: tuple[EntryLink, ...]
    add: Text
    new_url: str
    own_url: str
    back_url: str
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class TakeOutPage(Page):
    """Whether an entry goes, with its words."""

    template: ClassVar[str] = "writing/take_out.html"
    entry: Text
    own_url: str
    back_url: str
    form: PlainForm


@pages.route("/writing", methods=["GET", "POST"])
@guard.needs("manager")
def techniques() -> AnyResponse:
    """Show every technique; begin a new one."""
    folder, form = content_folder(), BeginForm()
    if folder is not None and form.is_sent_right():
        begun = begin(guard.kitchen(), folder, form.called.data, guard.today())
        if not isinstance(begun, Refused):
            return go(".technique", technique=begun)
        form.refuse(begun)
    return show(
        TechniquesPage(
            title=message("Write what is taught"),
            techniques=tuple(_listed(folder)) if folder else (),
            is_own=folder is not None,
            own_url=url_for(".techniques"),
            back_url=url_for("manager.standard.standard"),
            form=form,
            copy_form=PlainForm(is_fresh=True),
        )
    )


@pages.post("/writing/own")
@guard.needs("manager")
def own() -> AnyResponse:
    """Give the kitchen a copy of its own of what came with the program."""
    if content_folder() is None and PlainForm().is_sent_right():
        begin_own_content(guard.kitchen())
    return go(".techniques")


def _listed(folder: Path) -> Iterator[TechniqueLink]:
    """Yield the techniques of a folder by what they are called; one that is not taught by its folder."""
    taught = reading.content().techniques
    drafted = _drafted()
    for path in folders_of(folder, "techniques"):
        title: Text = taught[path.name].title if path.name in taught else path.name.replace("_", " ").capitalize()
        yield TechniqueLink(title, url_for(".technique", technique=path.name), path.name in drafted)


def _drafted() -> frozenset[str]:
    """Return the techniques whose files differ from what is published."""
    k = guard.kitchen()
    latest = k.progress().standards.latest
    if k.teaching is None or latest is None:
        return frozenset()
    parts_of = (path.split("/") for path in k.teaching.drafted(latest.texts).paths)
    return frozenset(found[1] for found in parts_of if found[0] == "techniques" and len(found) > 1)


@pages.get("/writing/<technique>")
@guard.needs("manager")
def technique(technique: str) -> AnyResponse:
    """Show the parts of a technique, and what is wrong that stands in no field."""
    here = writing_of(technique)
    placed = _placed(here)
    seen = {each for found in placed.values() for each in found}
    links = {name: _part_link(here, name, placed.get(name, ())) for name in (WHOLE, *parts())}
    seldom = {name for name, link in links.items() if not link.count and name in SELDOM}
    asked = tuple(_skill_link(here, skill) for skill in skills.asked_by(here))
    return show(
        TechniquePage(
            title=here.title,
            parts=tuple(link for name, link in links.items() if name not in seldom),
            skills=asked,
            seldom=tuple(link for name, link in links.items() if name in seldom),
            problems=tuple(each for each in here.draft.problems if each not in seen),
            to_fix=len(here.draft.problems) + sum(each.to_fix for each in asked),
            asked_at=tuple(each.words for each in stations.choices(here) if each.is_chosen),
            stations_url=url_for("writing.stations.stations", technique=here.id),
            look_url=url_for(".look", technique=here.id),
            standard_url=url_for("manager.standard.standard"),
            back_url=url_for(".techniques"),
        )
    )


SELDOM = ("answer_sets", "cases", "judged_in", "parts", "questions", "scenes")
"""Parts that most techniques do without; an empty one is folded away."""


def _placed(here: Writing) -> Mapping[str, tuple[Problem, ...]]:
    """Return the problems that stand in an entry, by its part."""
    folder = f"techniques/{here.id}"
    whole = problems_at(here.written.sheet(None), here.draft.problems, folder)
    found = {WHOLE: tuple(each for problems in whole.values() for each in problems)}
    for part in parts().values():
        own: dict[Problem, None] = {}
        for id in here.written.entries(part):
            own |= dict.fromkeys(_of_entry(here, part, id))
        found[part.name] = tuple(own)
    return found


def _of_entry(here: Writing, part: Part, id: str) -> tuple[Problem, ...]:
    found = problems_at(here.written.sheet(part, id), here.draft.problems, f"techniques/{here.id}")
    return tuple(each for problems in found.values() for each in problems)


def _skill_link(here: Writing, skill: str) -> PartLink:
    taught = reading.content().skills.get(skill)
    url = url_for("writing.skills.skill", technique=here.id, skill=skill)
    words = taught.title if taught else skill.replace("_", " ")
    return PartLink(words, "", url, None, len(skills.problems_in(here, skill)))


def _part_link(here: Writing, name: str, problems: tuple[Problem, ...]) -> PartLink:
    part = part_named(name)
    if part is None:
        url = url_for("writing.sheets.whole", technique=here.id)
        return PartLink(part_word(name), "", url, None, len(problems))
    url = url_for(".part", technique=here.id, part=name)
    return PartLink(part_word(name), help_word(part.help, name), url, len(here.written.entries(part)), len(problems))


@pages.route("/writing/<technique>/<part>", methods=["GET", "POST"])
@guard.needs("manager")
def part(technique: str, part: str) -> AnyResponse:
    """Show the entries of a part; move one."""
    here, found = writing_of(technique), part_named(part)
    if found is None:
        abort(404)
    if request.method == "POST":
        return _move(here, found)
    return show(_part_page(here, found))


def _move(here: Writing, part: Part) -> AnyResponse:
    """Move an entry one place up or down."""
    form, page = PlainForm(), _part_page(here, part)
    if not form.is_sent_right():
        return show(page)
    up, down = request.form.get("up", ""), request.form.get("down", "")
    refused = write(guard.kitchen(), here.folder, lambda written: written.moved(part, up or down, -1 if up else 1))
    if refused is not None:
        abort(404)
    return go(".part", technique=here.id, part=part.name)


def _part_page(here: Writing, part: Part) -> PartPage:
    entries = here.written.entries(part)
    return PartPage(
        title=part_word(part.name),
        technique=here.title,
        help=help_word(part.help, part.name),
        entries=tuple(
            EntryLink(
                id,
                *here.entry(part, id),
                url_for("writing.sheets.entry", technique=here.id, part=part.name, entry=id),
                len(_of_entry(here, part, id)),
                part.how == "blocks",
            )
            for id in entries
        ),
        add=one_more(part.name),
        new_url=url_for("writing.sheets.new", technique=here.id, part=part.name),
        own_url=url_for(".part", technique=here.id, part=part.name),
        back_url=url_for(".technique", technique=here.id),
        form=PlainForm(),
    )


@pages.route("/writing/<technique>/<part>/<entry>/out", methods=["GET", "POST"])
@guard.needs("manager")
def take_out(technique: str, part: str, entry: str) -> AnyResponse:
    """Ask whether an entry goes, and take it out."""
    here, found, form = writing_of(technique), part_named(part), PlainForm()
    if found is None or entry not in here.written.entries(found):
        abort(404)
    if form.is_sent_right():
        if write(guard.kitchen(), here.folder, lambda written: written.without(found, entry)) is not None:
            abort(404)
        return go(".part", technique=here.id, part=found.name)
    return show(
        TakeOutPage(
            title=message("Take it out?"),
            entry=here.entry(found, entry)[0],
            own_url=url_for(".take_out", technique=here.id, part=part, entry=entry),
            back_url=url_for("writing.sheets.entry", technique=here.id, part=part, entry=entry),
            form=form,
        )
    )


@pages.get("/writing/<technique>/look")
@guard.needs("manager")
def look(technique: str) -> Response:
    """Show the technique as a cook and an assessor would see it now."""
    content, language = content_folder(), request.args.get("language", reading.now().language)[:8]
    draft = draft_of(content, technique, language, reading.now().units, guard.today()) if content else None
    if draft is None:
        abort(404)

    def address(tag: str, draw: int) -> str:
        return url_for(".look", technique=technique, language=tag, draw=draw)

    return show(preview_of(draft, asked_draw(), address, url_for(".technique", technique=technique)))
