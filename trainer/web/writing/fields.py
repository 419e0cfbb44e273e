"""The fields of a sheet as a page draws them, and what a person typed into them."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass

from flask import request

from trainer.content.draft import TechniqueDraft
from trainer.content.form_fields import Field, Part, parts
from trainer.content.written import CODE, STRUCTURE, Sheet, SheetField, WrittenTechnique
from trainer.kitchen.limit_text import limit_text
from trainer.kitchen.technique import Problem
from trainer.messages import Text, joined, message
from trainer.store.catalogues import name_of
from trainer.web import reading
from trainer.web.writing.words import choice_word, help_word


@dataclass(frozen=True, slots=True)
class Choice:
    """One of what may be chosen."""

    value: str
    words: Text
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class FieldView:
    """A field on a page. `told_in` is the language its words are in, "" for the structure; `now` what the file says.

    `now` is empty unless somebody else has changed it meanwhile.
    """

    name: str
    id: str
    label: Text
    tongue: Text
    told_in: str
    widget: str
    value: str
    choices: tuple[Choice, ...]
    problems: tuple[Problem, ...]
    hint: Text
    now: str
    is_number: bool


@dataclass(frozen=True, slots=True)
class Row:
    """The same words in every language, side by side."""

    label: Text
    fields: tuple[FieldView, ...]


@dataclass(frozen=True, slots=True)
class SheetView:
    """A sheet on a page: the structure, what is seldom needed of it, the words row by row, and those seldom needed."""

    structure: tuple[FieldView, ...]
    more: tuple[FieldView, ...]
    words: tuple[Row, ...]
    more_words: tuple[Row, ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Names:
    """What there is to choose from, by what it is a name of: ids with their words."""

    known: Mapping[str, Mapping[str, Text]]

    @classmethod
    def of(cls, written: WrittenTechnique, draft: TechniqueDraft) -> Names:
        """Return what a technique's files may name, in the reader's words."""
        content = reading.content()
        own = {id: id.replace("_", " ") for id in written.trees[STRUCTURE].get("standard") or ()}
        units = reading.now().units
        code = {
            f"{CODE}{id}": joined([id.replace("_", " "), limit_text(limit, units)], ": ")
            for id, limit in content.code.limits.items()
        }
        return cls(
            {
                **{what: {id: id.replace("_", " ") for id in ids} for what, ids in draft.known.items()},
                **{name: _begun(written, part) for name, part in parts().items()},
                "points": _begun(written, parts()["checklist"]),
                "sources": {id: source.title for id, source in draft.sources.items()},
                "allergens": draft.allergens,
                "skills": {id: _skill(id) for id in sorted(draft.known["skills"])},
                "lines": {**own, **code},
            }
        )

    def choices(self, field: Field) -> tuple[Choice, ...]:
        """Return what may be chosen in a field; what is written there and is not known stays to be seen."""
        chosen = field.value.split("\n") if field.widget == "some" else [field.value]
        known = {each: choice_word(each) for each in field.choices} or self.known.get(field.names, {})
        unknown = {each: message("{name} (not there)", name=each) for each in chosen if each and each not in known}
        return tuple(Choice(id, words, id in chosen) for id, words in {**known, **unknown}.items())


def _skill(id: str) -> Text:
    found = reading.content().skills.get(id)
    return found.title if found else id.replace("_", " ")


def _begun(written: WrittenTechnique, part: Part) -> dict[str, Text]:
    """Return the entries of a part by how they begin, in the reader's language where it is written."""
    found: dict[str, Text] = {}
    for id in written.entries(part):
        words, _ = written.title(part, id, reading.now().language)
        found[id] = words if len(words) < 70 else f"{words[:66]} ..."
    return found


def view_of(
    sheet: Sheet, names: Names, problems: Mapping[str, tuple[Problem, ...]], now: Mapping[str, str] | None = None
) -> SheetView:
    """Return a sheet as a page draws it; *now* is what the files say where somebody changed them meanwhile."""
    drawn = {
        each: _drawn(each, names, problems.get(each.name, ()), (now or {}).get(each.name, "")) for each in sheet.fields
    }
    structure = [each for each in sheet.fields if each.file == STRUCTURE]
    rows: dict[str, list[SheetField]] = {}
    for each in sheet.fields:
        if each.file != STRUCTURE:
            rows.setdefault(each.field.key, []).append(each)
    empty = {each.field.path[-1] for each in structure if each.field.path and not each.field.value}
    below = 2 if sheet.part and sheet.part.how == "table" else 1
    seldom = {each for each in sheet.fields if _is_seldom(each, below if each.file == STRUCTURE else 2, empty)}
    folded = [row for row in rows.values() if all(_is_still(drawn[each]) and each in seldom for each in row)]
    told = [row for row in rows.values() if row not in folded]
    return SheetView(
        tuple(drawn[each] for each in structure if each not in seldom or not _is_still(drawn[each])),
        tuple(drawn[each] for each in structure if each in seldom and _is_still(drawn[each])),
        tuple(_row(row, drawn) for row in told),
        tuple(_row(row, drawn) for row in folded),
        problems.get("", ()),
    )


def _row(fields: Iterable[SheetField], drawn: Mapping[SheetField, FieldView]) -> Row:
    found = tuple(drawn[each] for each in fields)
    return Row(found[0].label, found)


def _is_still(view: FieldView) -> bool:
    """Return whether nothing stands in a field, and nothing is said of it."""
    return not (view.value or view.problems or view.now)


def _is_seldom(each: SheetField, depth: int, empty: Container[str]) -> bool:
    """Return whether a field is none of the plain ones: it stands deeper than *depth*, or is typed as in the file.

    *empty* are the keys of the structure under which nothing stands: words of a drawing that is not there.
    """
    field = each.field
    if field.needed:
        return False
    if field.widget == "as_typed" or len(field.path) > depth:
        return True
    if each.file == STRUCTURE:
        return field.widget == "lines" or (field.widget == "line" and not (field.is_amount or field.is_number))
    return len(field.path) > 1 and field.path[-1] in empty


def _drawn(each: SheetField, names: Names, problems: tuple[Problem, ...], now: str) -> FieldView:
    field = each.field
    is_told = each.file != STRUCTURE
    return FieldView(
        name=each.name,
        id=each.name.replace(".", "-"),
        label=help_word(field.help, field.path[-1] if field.path else ""),
        tongue=name_of(each.file) if is_told else "",
        told_in=each.file if is_told else "",
        widget="as_typed" if field.widget == "one" and field.value[:1] == "[" else field.widget,
        value=field.value,
        choices=names.choices(field) if field.widget in ("one", "some") else (),
        problems=problems,
        hint=_hint(field, is_told),
        now=now,
        is_number=field.is_number,
    )


def _hint(field: Field, is_told: bool) -> Text:
    """Return how a field is filled in, where that is not plain."""
    if field.widget == "lines":
        return message("One on each line.")
    if field.widget == "pairs":
        return message("One on each line, then a colon and what it means.")
    if field.widget == "as_typed":
        return message("As it stands in the file, on one line.")
    return message("A number and a unit: 4.5 oz, 57 C, 2 h.") if field.is_amount and not is_told else ""


def typed_into(sheet: Sheet) -> dict[str, str]:
    """Return what was typed into the fields of a sheet, each as a file can say it: one line, or a line for each."""
    found = {}
    for each in sheet.fields:
        field = each.field
        if field.widget == "some" and each.name not in request.form and f"{each.name}.there" not in request.form:
            continue
        if field.widget != "some" and each.name not in request.form:
            continue
        sent = request.form.getlist(each.name) if field.widget == "some" else [request.form[each.name]]
        lines = [" ".join(line.split()) for text in sent for line in text.splitlines()]
        clean = ["".join(sign for sign in line if sign.isprintable()) for line in lines if line]
        found[each.name] = (" " if field.widget in ("line", "text", "as_typed", "one") else "\n").join(clean)
    return found
