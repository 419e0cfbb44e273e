"""The words of the skills a technique asks for: what is asked, and the things its questions name."""

from __future__ import annotations

from collections.abc import Mapping

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Refused
from trainer.content.round_trip import NotWritable
from trainer.content.written import STRUCTURE, Sheet, WrittenSkill, problems_at
from trainer.kitchen.technique import Problem
from trainer.messages import message
from trainer.web import guard
from trainer.web.page import go, show
from trainer.web.writing.fields import typed_into, view_of
from trainer.web.writing.folders import Writing, writing_of
from trainer.web.writing.sheets import CHANGED, SheetForm, SheetPage

pages = Blueprint("skills", __name__)


@pages.route("/writing/<technique>/skills/<skill>", methods=["GET", "POST"])
@guard.needs("manager")
def skill(technique: str, skill: str) -> AnyResponse:
    """Show the words of a skill, and keep what is typed into them."""
    here = writing_of(technique)
    if skill not in asked_by(here):
        abort(404)
    written = WrittenSkill.read(here.content / "skills" / skill)
    sheet = written.sheet()
    form, now = SheetForm(seen=sheet.digest), {}
    if request.method == "POST":
        typed = typed_into(sheet)
        if form.is_sent_right():
            refused = _kept(written, sheet, typed, form)
            if refused is None:
                return go(".skill", technique=here.id, skill=skill, kept=1)
            form.refuse(refused)
        if form.seen.data != sheet.digest:
            now = {each.name: each.field.value for each in sheet.fields if typed.get(each.name) != each.field.value}
            form.seen.data = sheet.digest
        sheet = sheet.filled(typed)
    return _page(here, sheet, form, now)


def asked_by(here: Writing) -> tuple[str, ...]:
    """Return the skills a technique names that have a folder."""
    named = here.written.trees[STRUCTURE].get("knowledge") or ()
    return tuple(str(each) for each in named if str(each) in here.draft.known["skills"])


def problems_in(here: Writing, skill: str) -> tuple[Problem, ...]:
    """Return what is wrong with the files of a skill."""
    return tuple(each for each in here.draft.elsewhere if each.file.startswith(f"skills/{skill}/"))


def _kept(written: WrittenSkill, sheet: Sheet, typed: Mapping[str, str], form: SheetForm) -> Refused | None:
    if sheet.digest != form.seen.data:
        return Refused(CHANGED)
    try:
        with guard.kitchen().file.writing():
            written.saved(typed).keep(written)
    except NotWritable as problem:
        return Refused(message("“{typed}” is not yet a word, a colon and what it names.", typed=str(problem)[:80]))
    return None


def _page(here: Writing, sheet: Sheet, form: SheetForm, now: Mapping[str, str]) -> AnyResponse:
    problems = problems_at(sheet, problems_in(here, sheet.id), f"skills/{sheet.id}")
    return show(
        SheetPage(
            title=sheet.id.replace("_", " "),
            told_in="en",
            technique=here.title,
            part=message("Skills it asks for"),
            sheet=view_of(sheet, here.names, problems, now),
            to_fix=sum(len(each) for each in problems.values()),
            is_kept=request.args.get("kept", "") == "1" and request.method == "GET",
            is_new=False,
            ways=(),
            behind={},
            numbers=(),
            out_url="",
            photograph_url="",
            own_url=request.path,
            back_url=url_for("writing.technique", technique=here.id),
            form=form,
        )
    )
