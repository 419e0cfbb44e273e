"""The limits of the local code on pages, and lines of the house in their place: what one changes, then a draft."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import Field, HiddenField, TextAreaField

from trainer.actions.house_limits import (
    HouseCode,
    HouseLimit,
    LimitChange,
    OwnLine,
    house_code,
    limit_change,
    told_elsewhere,
    write_own_line,
    wrong_line,
)
from trainer.actions.outcome import Refused
from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.limit_text import limit_text
from trainer.kitchen.technique import Limit
from trainer.messages import Text, joined, message, plural
from trainer.store.catalogues import ENGLISH, languages, name_of
from trainer.web import guard, reading
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import AtMost
from trainer.web.writing.folders import content_folder

pages = Blueprint("limits", __name__)
MOST_PLACES = 12
TOLD = "told_"
"""Before the tag of a language: the field of the reason in it."""
AUTHORITY = message(
    "This table is a model code. Your state, county or city decides: ask your local authority, and where it asks for "
    "more, write its line here. A house may ask for more than the code, never for less."
)


class LineForm(KitchenForm):
    """A line of the house in place of the code's, why, and the mark of the change as it was shown."""

    lowest = TextField(
        message("At least"), [AtMost(40)], description=message("A number and a unit, like 140 F or 2 h.")
    )
    highest = TextField(
        message("At most"), [AtMost(40)], description=message("A number and a unit, like 140 F or 2 h.")
    )
    reason = TextAreaField(message("Why"), [AtMost(300)])
    seen = HiddenField()

    @property
    def told(self) -> tuple[Field, ...]:
        """Return the fields of the reason in other languages."""
        return tuple(one for one in self if one.name.startswith(TOLD))


def line_form(**filled: str) -> LineForm:
    """Return the form with a field more for each language the house may tell its reason in besides."""
    hint = message("Empty: the words above count in this language too.")
    more = {
        f"{TOLD}{tag}": TextAreaField(
            message("Why, in this language: {language}", language=name_of(tag)), [AtMost(300)], description=hint
        )
        for tag in languages()
        if tag != ENGLISH
    }
    made: LineForm = type("LineForm", (LineForm,), more)(**filled)
    return made


@dataclass(frozen=True, slots=True)
class LimitLine:
    """A limit of the code: its name in the files, both lines in words, where it is changed."""

    id: str
    words: Text
    own: Text
    url: str


@dataclass(frozen=True, kw_only=True)
class LimitsPage(Page):
    """Every limit that a house may make stricter, those with a line of the house first."""

    template: ClassVar[str] = "manager/limits.html"
    lead: Text
    limits: tuple[LimitLine, ...]
    is_own: bool


@dataclass(frozen=True, kw_only=True)
class LimitPage(Page):
    """One limit and the form for the house's line; once it is filled, what would change."""

    template: ClassVar[str] = "manager/limit.html"
    limit: LimitLine
    lead: Text
    own_url: str
    form: LineForm
    changes: tuple[Text, ...]


@pages.get("/standard/limits")
@guard.needs("manager")
def limits() -> AnyResponse:
    """Show the limits of the code this kitchen works under."""
    folder = content_folder()
    code = house_code(folder, reading.now().language) if folder else None
    lines = [_line(one) for one in code.limits] if code else []
    return show(
        LimitsPage(
            title=message("Limits of the code, and our own"),
            lead=joined([*([_called(code)] if code else []), AUTHORITY]),
            limits=tuple(sorted(lines, key=lambda one: not one.own)),
            is_own=folder is not None,
        )
    )


@pages.route("/standard/limits/<limit>", methods=["GET", "POST"])
@guard.needs("manager")
def limit(limit: str) -> AnyResponse:
    """Show what a line of the house would change; write it as a draft."""
    folder = content_folder()
    code = house_code(folder, reading.now().language) if folder else None
    found = next((one for one in code.limits if one.published.id == limit), None) if code else None
    if folder is None or found is None:
        abort(404, message("There is no limit “{limit}” in the code that a house may change.", limit=limit[:40]))
    form = _form(found, folder)
    changes: tuple[Text, ...] = ()
    if form.is_sent_right():
        told = _asked(form, folder, found)
        if told is None:
            return go("manager.standard.standard")
        changes = told
    else:
        form.seen.data = ""
    return show(
        LimitPage(
            title=message("Our own line"),
            limit=_line(found),
            lead=AUTHORITY,
            own_url=url_for(".limit", limit=limit),
            form=form,
            changes=changes,
        )
    )


def _asked(form: LineForm, folder: Path, found: HouseLimit) -> tuple[Text, ...] | None:
    """Write a change that was shown, and return None; else return what it does, or put on the form what is wrong."""
    k, shown = guard.kitchen(), form.seen.data
    form.seen.data = ""
    wanted = _wanted(form, found)
    mark = digest_of(canonical(asdict(wanted)).encode())
    wrong = wrong_line(found, wanted, ".")
    if wrong is None and shown == mark:
        write_own_line(k, folder, wanted)
        return None
    change = wrong or limit_change(k, folder, wanted)
    if isinstance(change, Refused):
        form.refuse(change)
        return ()
    form.seen.data = mark
    return tuple(_does(change))


def _form(found: HouseLimit, folder: Path) -> LineForm:
    """Return the form with the ends the code has, filled with the house's own line."""
    own = found.own
    told = {f"{TOLD}{tag}": words for tag, words in told_elsewhere(folder, found.published.id).items()}
    reason = found.reason if own else ""
    form = line_form(lowest=_typed(own, "lowest"), highest=_typed(own, "highest"), reason=reason, **told)
    for name in ("lowest", "highest"):
        if getattr(found.published, name) is None:
            del form[name]
    return form


def _typed(own: Limit | None, end: str) -> str:
    value = getattr(own, end) if own else None
    return str(value) if value is not None else ""


def _wanted(form: LineForm, found: HouseLimit) -> OwnLine:
    lowest, highest = (form[name].data or "" if name in form else "" for name in ("lowest", "highest"))
    told = {one.name.removeprefix(TOLD): " ".join((one.data or "").split()) for one in form.told}
    return OwnLine(found.published.id, lowest, highest, (form.reason.data or "").strip(), told)


def _line(one: HouseLimit) -> LimitLine:
    first = guard.kitchen().file.settings.units_first
    published = message("{line} ({place})", line=limit_text(one.published, first), place=one.published.place)
    own = message("Our own: {line}. {reason}", line=limit_text(one.own, first), reason=one.told) if one.own else ""
    return LimitLine(one.published.id, published, own, url_for(".limit", limit=one.published.id))


def _called(code: HouseCode) -> Text:
    return message("This kitchen works under {title}, {edition}.", title=code.code.title, edition=code.code.edition)


def _does(change: LimitChange) -> Iterator[Text]:
    """Yield in words what a line changes."""
    content = reading.content()
    titles = {id: one.title for id, one in content.techniques.items()}
    texts = {(id, one.id): one.text for id, technique in content.techniques.items() for one in technique.checklist}
    for technique, point in change.points[:MOST_PLACES]:
        title, text = titles.get(technique.id, technique.title), texts.get((technique.id, point.id), point.text)
        yield message("Judged otherwise: {technique}: {point}", technique=title, point=text)
    if len(change.points) > MOST_PLACES:
        more = len(change.points) - MOST_PLACES
        yield plural("and {number} point more", "and {number} points more", more)
    if change.skills:
        names = joined([content.skills[id].title if id in content.skills else id for id in change.skills], ", ")
        yield message("Asked with other numbers: {skills}.", skills=names)
    if change.techniques:
        names = joined([titles.get(one.id, one.title) for one in change.techniques], ", ")
        yield message("Read with other numbers: {techniques}.", techniques=names)
    for problem in change.problems:
        where = f"{problem.file}:{problem.line}"
        yield message("To fix before it is published: {where} {problem}", where=where, problem=problem.message)
    if not (change.points or change.skills or change.techniques):
        yield message("No point, no question and no step names this limit.")
    yield message("No edition changes: what is signed stands. From the day of publishing the new line is judged.")
