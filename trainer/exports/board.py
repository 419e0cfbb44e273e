"""The board as tables: who is cleared where, and what is missing."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from trainer.actions.open_kitchen import Board
from trainer.exports.asking import Asked
from trainer.exports.tables import Cell, Table
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.lapses import Lapse, lapses_by
from trainer.kitchen.state_words import state_word
from trainer.messages import Text, joined, message

LONG_HEADS = (message("Cook"), message("Station"), message("State"), message("Good to"), message("Missing"))
LAPSE_HEADS = (
    message("Last good day"),
    message("Days left"),
    message("Cook"),
    message("What ends"),
    message("Stations"),
)


def board_tables(asked: Asked) -> tuple[Table, ...]:
    """Return the board of a day as it hangs, then a row for each cook and station with what is missing."""
    board = asked.k.board(asked.on)
    heads: tuple[Text, ...] = (message("Cook"), *(asked.station(station.id) for station in board.stations))
    grid = [(row.cook.name, *(_cell(each) for each in row.clearances)) for row in board.rows]
    return (
        Table(joined([message("Board"), asked.on.isoformat()]), heads, grid),
        Table(message("Cook by station"), LONG_HEADS, _long_rows(asked, board)),
    )


def _cell(found: Clearance) -> Cell:
    """Return a cell of the board: the state, and the last good day of a clearance; nothing where nobody goes for it."""
    if found.blank:
        return None
    if found.until is None or not found.is_cleared:
        return state_word(found.state)
    return message("{state} to {day}", state=state_word(found.state), day=found.until.isoformat())


def _long_rows(asked: Asked, board: Board) -> Iterator[tuple[Cell, ...]]:
    for row in board.rows:
        for found in row.clearances:
            if not found.blank:
                missing = joined((asked.named(one.text) for one in found.missing), " ")
                station = asked.station(found.station)
                yield (row.cook.name, station, state_word(found.state), found.until, missing)


def lapse_tables(asked: Asked, last: date) -> tuple[Table, ...]:
    """Return what ends by a day, the nearest first: whose, what, its last good day, the stations that go with it."""
    clearances = (found for row in asked.k.board(asked.on).rows for found in row.clearances)
    rows = [_lapse_row(asked, lapse) for lapse in lapses_by(clearances, last)]
    return (Table(message("What lapses"), LAPSE_HEADS, rows),)


def _lapse_row(asked: Asked, lapse: Lapse) -> tuple[Cell, ...]:
    stations: Text = joined((asked.station(station) for station in lapse.stations), ", ")
    days = (lapse.until - asked.on).days
    return lapse.until, days, asked.person(lapse.cook), asked.named(lapse.held.text), stations
