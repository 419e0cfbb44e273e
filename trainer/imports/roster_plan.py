"""What a roster or shift file says: its columns, its rows, what a person answered, and what taking it in would do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from trainer.imports.table_files import RowProblem, RowQuestion
from trainer.imports.written_dates import Order
from trainer.kitchen.services import THE_THREE, HouseServices
from trainer.messages import Message, Text, message
from trainer.store.people import Listed

Kind = Literal["roster", "shifts"]
COLUMNS: Mapping[Kind, tuple[str, ...]] = {
    "roster": ("number", "name", "birth date", "roles", "started", "language"),
    "shifts": ("date", "sitting", "name", "number", "station"),
}
KIND_WORDS: Mapping[Kind, Message] = {"roster": message("roster"), "shifts": message("shifts")}
OTHER_HEADERS: Mapping[str, str] = {
    "day": "date",
    "service": "sitting",
    "cook": "name",
    "role": "roles",
    "born": "birth date",
    "fecha": "date",
    "dia": "date",
    "servicio": "sitting",
    "turno": "sitting",
    "nombre": "name",
    "cocinero": "name",
    "cocinero/a": "name",
    "numero": "number",
    "estacion": "station",
    "fecha de nacimiento": "birth date",
    "nacimiento": "birth date",
    "rol": "roles",
    "puesto": "roles",
    "puestos": "roles",
    "ingreso": "started",
    "fecha de ingreso": "started",
    "idioma": "language",
}
"""What else a column may be headed with, in plain letters, and the column it is."""
OTHER_WORDS: Mapping[str, str] = {
    "desayuno": "breakfast",
    "comida": "lunch",
    "almuerzo": "lunch",
    "cena": "dinner",
    "cocinero": "cook",
    "cocinera": "cook",
    "evaluador": "assessor",
    "evaluadora": "assessor",
    "gerente": "manager",
    "gerencia": "manager",
}
"""What else a service or a role may be called in a cell, in plain letters, and the id it is."""
NEEDED: Mapping[Kind, tuple[str, ...]] = {"roster": ("number", "name"), "shifts": ("date", "sitting", "station")}


@dataclass(frozen=True, slots=True)
class Choices:
    """What a person answered: the date order of the file or of a row, rows and columns to leave out, letters, sheet.

    `column_names` has the column that a header stands for, where a person said so.
    """

    date_order: Order | Literal[""] = ""
    row_orders: Mapping[int, Order] = field(default_factory=dict)
    left_out: frozenset[int] = frozenset()
    columns_left_out: frozenset[str] = frozenset()
    encoding: str = ""
    sheet: str = ""
    column_names: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class KnownPeople:
    """What the rows are held against: the people listed, the stations by id, today, and the house's services."""

    people: tuple[Listed, ...] = ()
    stations: Mapping[str, str] = field(default_factory=dict)
    today: date | None = None
    services: HouseServices = THE_THREE


@dataclass(frozen=True, slots=True)
class RosterRow:
    """One person of a roster file. None, "" or no roles where the cell was empty."""

    row: int
    number: str
    name: str
    born: date | None
    roles: tuple[str, ...]
    started: date | None
    language: str


@dataclass(frozen=True, slots=True)
class ShiftRow:
    """One planned shift of a shift file, with the cook's and the station's ids."""

    row: int
    on: date
    sitting: str
    cook: str
    station: str


@dataclass(frozen=True, slots=True)
class Change:
    """What taking in one row would do, in words: joins, changes, stays or planned.

    `birth` and `roles` tell apart what decides where a person may work: another birth date, rights given or taken.
    `note` says why a planned cook may not stand there, so that the place counts as no hand; "" where they may.
    """

    row: int
    act: Literal["joins", "changes", "stays", "planned"]
    name: str
    text: Text
    birth: Text = ""
    roles: Text = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class RosterPlan:
    """What a file says and what is wrong with it. It can be taken in when nothing is wrong and nothing is asked.

    `digest` is the SHA-256 of the file's bytes.
    """

    kind: Kind
    rows: tuple[RosterRow, ...] | tuple[ShiftRow, ...]
    problems: tuple[RowProblem, ...]
    questions: tuple[RowQuestion, ...]
    left_out: tuple[int, ...] = ()
    changes: tuple[Change, ...] = ()
    digest: str = ""

    @property
    def needs_proof(self) -> bool:
        """Return whether taking it in asks for the secret: where it changes anything about the people."""
        return self.kind == "roster" and any(change.act != "stays" for change in self.changes)

    @property
    def is_ready(self) -> bool:
        """Return whether the plan can be taken in as it stands."""
        return bool(self.rows) and not self.problems and not self.questions
