"""Bringing in a roster or planned shifts: send a file, look at what it would do, leave rows out, take in all."""

from __future__ import annotations

import base64
import binascii
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import FileField

from trainer.actions import roster
from trainer.actions.outcome import Refused
from trainer.imports.roster_plan import COLUMNS, Change, Choices, RosterPlan
from trainer.imports.table_files import RowProblem, RowQuestion
from trainer.messages import Text, message, plural
from trainer.store.drafts import Draft
from trainer.web import guard, proving, reading
from trainer.web.filters import moment
from trainer.web.forms import KitchenForm, new_key
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field

pages = Blueprint("roster", __name__)
MOST_SHOWN = 200
ORDERS = ("dmy", "mdy")


class FileForm(KitchenForm):
    """The file to look at."""

    file = FileField(message("File"))


class TakeInForm(LatelyForm):
    """What every press on the page of a file sends; taking in people asks for the secret as well."""

    secret = secret_field()


@dataclass(frozen=True, slots=True)
class ImportUnderWay:
    """A file sent earlier and not taken in yet."""

    words: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class UploadPage(Page):
    """The form for a file, what a file has in it, and files not taken in yet."""

    template: ClassVar[str] = "manager/upload.html"
    own_url: str
    form: FileForm
    roster_columns: str
    shift_columns: str
    under_way: tuple[ImportUnderWay, ...]


@dataclass(frozen=True, slots=True)
class ProblemLine:
    """One cell that cannot be taken; whole rows can be left out, and columns the kitchen does not know."""

    problem: RowProblem
    place: Text
    leave_row: int
    leave_column: Text


@dataclass(frozen=True, kw_only=True)
class ImportPreviewPage(Page):
    """What a file would do, row by row, before anything is changed."""

    template: ClassVar[str] = "manager/preview.html"
    own_url: str
    apply_url: str
    drop_url: str
    file_name: str
    kind: Text
    changes: tuple[Change, ...]
    more_changes: int
    births: tuple[Change, ...]
    roles: tuple[Change, ...]
    problems: tuple[ProblemLine, ...]
    columns: tuple[str, ...]
    questions: tuple[RowQuestion, ...]
    order_asked: tuple[Text, ...]
    left_out: tuple[int, ...]
    columns_left_out: tuple[str, ...]
    chosen_order: str
    is_ready: bool
    take_in_words: Text
    form: TakeInForm


@dataclass(frozen=True, kw_only=True)
class TakenPage(Page):
    """What was taken in."""

    template: ClassVar[str] = "manager/taken.html"
    lines: tuple[Text, ...]
    waits: bool


@pages.route("/roster", methods=["GET", "POST"])
@guard.needs("manager")
def upload() -> AnyResponse:
    """Take a file to look at; nothing is changed by sending it."""
    form = FileForm()
    if form.is_sent_right():
        sent = request.files.get("file")
        data = sent.read() if sent else b""
        if sent and data:
            return go(".preview", draft=_keep(sent.filename or "file", data).id)
        form.refuse(Refused(message("Choose a file first. An empty file cannot be read."), field="file"))
    return show(
        UploadPage(
            title=message("Roster and shifts"),
            own_url=url_for(".upload"),
            form=form,
            roster_columns=", ".join(COLUMNS["roster"]),
            shift_columns=", ".join(COLUMNS["shifts"]),
            under_way=tuple(_under_way()),
        )
    )


@pages.get("/roster/<draft>")
@guard.needs("manager")
def preview(draft: str) -> Response:
    """Show what the file would do."""
    return _preview_page(_mine(draft), TakeInForm())


@pages.post("/roster/<draft>")
@guard.needs("manager")
def look_again(draft: str) -> AnyResponse:
    """Keep what was answered and left out, and look at the file again."""
    kept, form = _mine(draft), TakeInForm()
    if not form.is_sent_right():
        return _preview_page(kept, form)
    _put(replace(kept, body={**kept.body, "choices": _answers(kept.body["choices"])}))
    return go(".preview", draft=draft)


@pages.post("/roster/<draft>/take-in")
@guard.needs("manager")
def take_in(draft: str) -> AnyResponse:
    """Take in every row, or none."""
    kept, form = _mine(draft), TakeInForm()
    if not form.is_sent_right():
        return _preview_page(kept, form)
    plan = _plan(kept)
    if not plan.is_ready:
        form.refuse(message("Some rows cannot be taken yet. Mend them or leave them out. Nothing was changed."))
        return _preview_page(kept, form)
    if plan.needs_proof and not proving.is_proved(form):
        return _preview_page(kept, form)
    done = roster.apply_import(guard.kitchen(), plan=plan, by=guard.person().id, now=guard.now(), key=draft)
    if isinstance(done, Refused):
        form.refuse(done)
        return _preview_page(kept, form)
    guard.kitchen().file.drafts.delete(draft)
    return show(TakenPage(title=message("Taken in"), lines=(done.text,), waits=bool(done.waiting)))


@pages.post("/roster/<draft>/drop")
@guard.needs("manager")
def drop(draft: str) -> AnyResponse:
    """Put a file away; nothing was changed by it."""
    kept, form = _mine(draft), TakeInForm()
    if not form.is_sent_right():
        return _preview_page(kept, form)
    guard.kitchen().file.drafts.delete(draft)
    return go(".upload")


def _keep(name: str, data: bytes) -> Draft:
    """Return the file kept as a draft of this manager."""
    body: Mapping[str, Any] = {"file": base64.b64encode(data).decode("ascii"), "choices": {}}
    draft = Draft(new_key(), "import", name[:120], "", guard.person().id, body, guard.now())
    _put(draft)
    return draft


def _put(draft: Draft) -> None:
    """Keep a draft."""
    guard.kitchen().file.drafts.put(draft)


def _mine(draft: str) -> Draft:
    """Return this manager's own file under way."""
    found = guard.kitchen().file.drafts.get(draft)
    if found is None or found.kind != "import" or found.by != guard.person().id:
        abort(404, message("This file is not here any more. It may be taken in already. Send it again if not."))
    return found


def _under_way() -> list[ImportUnderWay]:
    """Return this manager's files not taken in yet, newest first."""
    drafts = guard.kitchen().file.drafts.list("import", by=guard.person().id)
    return [
        ImportUnderWay(
            message("{about}, sent {at}", about=draft.about, at=moment(draft.at)), url_for(".preview", draft=draft.id)
        )
        for draft in reversed(drafts)
    ]


def _plan(draft: Draft) -> RosterPlan:
    """Return what the draft's file would do, with the answers given so far."""
    try:
        data = base64.b64decode(draft.body["file"], validate=True)
    except (binascii.Error, KeyError):
        abort(404)
    k, content = guard.kitchen(), reading.content()
    plan = roster.plan_import(k, data, _choices(draft), now=guard.now(), told_in=content)
    return roster.with_what_waits(k, plan, guard.person().id, guard.now())


def _choices(draft: Draft) -> Choices:
    """Return the answers kept with a draft."""
    kept = draft.body["choices"]
    return Choices(
        date_order=kept.get("date_order", ""),
        row_orders={int(row): order for row, order in kept.get("row_orders", {}).items()},
        left_out=frozenset(kept.get("left_out", [])),
        columns_left_out=frozenset(kept.get("columns", [])),
        encoding=kept.get("encoding", ""),
        sheet=kept.get("sheet", ""),
        column_names=kept.get("column_names", {}),
    )


def _answers(before: Mapping[str, Any]) -> dict[str, Any]:
    """Return the answers on the page sent, for a draft's body; an answer given before stays until changed."""
    order = request.form.get("date_order", "")
    row_orders = {
        name.removeprefix("row_order_"): value
        for name, value in request.form.items()
        if name.startswith("row_order_") and value in ORDERS and name[10:].isdigit()
    }
    return {
        "date_order": order if order in ORDERS else before.get("date_order", ""),
        "row_orders": {**before.get("row_orders", {}), **row_orders},
        "left_out": sorted({int(row) for row in request.form.getlist("left_out") if row.isascii() and row.isdigit()}),
        "columns": sorted(set(request.form.getlist("column_left_out"))),
        "encoding": request.form.get("encoding", before.get("encoding", ""))[:40],
        "column_names": {**before.get("column_names", {}), **_columns_named()},
        "sheet": request.form.get("sheet", before.get("sheet", ""))[:40],
    }


def _columns_named() -> dict[str, str]:
    """Return which of our columns a person says that a header stands for, by header."""
    known = {column for columns in COLUMNS.values() for column in columns}
    sent = {name.removeprefix("column_is_"): column for name, column in request.form.items() if "column_is_" in name}
    return {header: column for header, column in sent.items() if column in known}


def _preview_page(draft: Draft, form: TakeInForm) -> Response:
    """Return the page of what a file would do."""
    plan, kept = _plan(draft), draft.body["choices"]
    if not plan.needs_proof:
        del form["secret"]
    proving.leave_out(form)
    rows = plural("{number} row", "{number} rows", len(plan.rows))
    return show(
        ImportPreviewPage(
            title=message("Look at {about}", about=draft.about),
            own_url=url_for(".look_again", draft=draft.id),
            apply_url=url_for(".take_in", draft=draft.id),
            drop_url=url_for(".drop", draft=draft.id),
            file_name=draft.about,
            kind=message("a roster") if plan.kind == "roster" else message("planned shifts"),
            changes=plan.changes[:MOST_SHOWN],
            more_changes=max(0, len(plan.changes) - MOST_SHOWN),
            births=tuple(change for change in plan.changes if change.birth),
            roles=tuple(change for change in plan.changes if change.roles),
            problems=tuple(_problem_line(problem) for problem in plan.problems),
            columns=COLUMNS[plan.kind],
            questions=tuple(q for q in plan.questions if q.name != "date_order"),
            order_asked=tuple(_order_words(q) for q in plan.questions if q.name == "date_order")[:3],
            left_out=tuple(sorted(plan.left_out)),
            columns_left_out=tuple(kept.get("columns", ())),
            chosen_order=kept.get("date_order", ""),
            is_ready=plan.is_ready,
            take_in_words=message("Take in {rows}", rows=rows),
            form=form,
        )
    )


def _problem_line(problem: RowProblem) -> ProblemLine:
    """Return a problem with what can be left out to get past it."""
    is_header = problem.row == 1
    place = (
        message("The file")
        if problem.row == 0
        else message("The header")
        if is_header
        else message("Row {row}", row=problem.row)
    )
    unknown_column = problem.column if is_header and problem.value else ""
    return ProblemLine(problem, place, problem.row if problem.row > 1 else 0, unknown_column)


def _order_words(question: RowQuestion) -> Text:
    """Return one date that reads two ways, with both readings."""
    day_first, month_first = (reading.text for reading in question.readings)
    return message(
        "Row {row}, {column}: {value} is {one} or {other}",
        row=question.row,
        column=question.column,
        value=question.value,
        one=day_first,
        other=month_first,
    )
