"""The workbench's page for printed tables of how long meat is held at a temperature: looked up, never worked out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response

from trainer.messages import Text, message
from trainer.recipe_math.cooking_holds import TABLES, Hold, HoldTable, Meat, hold_at
from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.printing import as_given
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem
from trainer.web import guard, reading
from trainer.web.bench.fields import AmountField, own_unit
from trainer.web.bench.words import both, warmth
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, OneOfField

pages = Blueprint("holds", __name__)


@dataclass(frozen=True, slots=True)
class HoldRow:
    """One row of a table: how warm, how long."""

    warmth: Text
    time: Text


@dataclass(frozen=True, slots=True)
class TableSeen:
    """One printed table as it is shown."""

    name: Text
    rows: tuple[HoldRow, ...]
    source: Text
    from_memory: bool


@dataclass(frozen=True, slots=True)
class HoldResult:
    """What the table says for the temperature that was typed."""

    answer: Text
    row: Text
    source: Text
    from_memory: bool


@dataclass(frozen=True, kw_only=True)
class HoldsPage(Page):
    """What is cooked and how warm it is; the tables stand below."""

    template: ClassVar[str] = "bench/holds.html"
    form: HoldsForm
    found: HoldResult | None
    tables: tuple[TableSeen, ...]
    degrees: str
    code: str


class HoldsForm(SumForm):
    """What is cooked, and what the probe shows in its coldest place."""

    meat = OneOfField(message("What is cooked"), default=Meat.ROAST.value)
    temperature = AmountField(message("The probe shows"), (TEMPERATURE,), validators=[AtMost(200)])


@pages.get("/bench/holds")
@guard.needs("person")
def holds() -> Response:
    """Show how long meat is held at a temperature, and the tables."""
    form, code = HoldsForm(), reading.content().code
    form.meat.offer({meat.value: table.name for meat, table in TABLES.items()}, nothing="")
    page = HoldsPage(
        title=message("Heat and hold"),
        form=form,
        found=_looked_up(form) if form.is_asked and form.validate() else None,
        tables=tuple(_table(table) for table in TABLES.values()),
        degrees=own_unit("temperature"),
        code=f"{code.title} {code.edition}",
    )
    return show(page)


def _looked_up(form: HoldsForm) -> HoldResult | None:
    try:
        found = hold_at(Meat(form.meat.data), form.temperature.amount())
    except QuantityProblem as problem:
        form.put("temperature", problem.reason)
        return None
    return _shown(found, form.temperature.amount())


def _shown(found: Hold, typed: Quantity) -> HoldResult:
    time = _time(found.time)
    return HoldResult(
        answer=message("At {typed}: {time}", typed=both(typed), time=time),
        row=message("By the row of {row}, in the coldest place, without a break.", row=warmth(in_celsius(found.row))),
        source=found.table.source,
        from_memory=found.table.from_memory,
    )


def _table(table: HoldTable) -> TableSeen:
    rows = tuple(
        HoldRow(warmth(in_celsius(Quantity.of(degrees, "°F"))), _time(Quantity.of(seconds, "s")))
        for degrees, seconds in table.rows
    )
    return TableSeen(table.name, rows, table.source, table.from_memory)


def _time(time: Quantity) -> Text:
    """Return a time of a table; nothing is told as at once."""
    return as_given(time) if time.amount else message("at once")
