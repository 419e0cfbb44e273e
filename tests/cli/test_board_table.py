"""The board on a terminal: never wider than 120 letters, in short words with what they mean where it is large."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import get_args

import pytest

from tests.big_house import TITLES, name_of
from trainer.cli.board_table import WIDEST, board_text
from trainer.kitchen.clearance import Clearance, State

ON = date(2026, 11, 3)
STATES: tuple[State, ...] = get_args(State)


def rows(cooks: int, stations: int) -> list[tuple[str, list[Clearance]]]:
    """Return cooks with every state in turn, a quarter of the cells blank, one of them known from before."""
    return [
        (name_of(cook), [replace(_cell(cook + place), known=cook == 1) for place in range(stations)])
        for cook in range(cooks)
    ]


def _cell(turn: int) -> Clearance:
    """Return one cell, the states in turn."""
    state = STATES[turn % len(STATES)]
    return Clearance("c", "s", ON, state, (), (), date(2027, 3, 1), (), blank=turn % 4 == 2)


@pytest.mark.parametrize("cooks", [1, 14, 60])
@pytest.mark.parametrize("stations", [1, 3, 5, 6, 8, 9, 12, 13, 25])
def test_no_line_is_wider_than_a_terminal(cooks: int, stations: int) -> None:
    """At any size, and every cook stands in every table."""
    titles = [f"{TITLES[place % len(TITLES)]} {place}" for place in range(stations)]
    lines = list(board_text(titles, rows(cooks, stations)))
    assert max(map(len, lines)) <= WIDEST
    tables = sum(line.startswith("Cook") for line in lines)
    assert len(lines) >= tables * (cooks + 1)


def test_a_small_board_has_its_days() -> None:
    """Where there is room, a state and its last good day."""
    lines = list(board_text(TITLES[:3], rows(14, 3)))
    assert lines[0].split() == ["Cook", "Bread", "Butchery", "Cold", "side"]
    assert "cleared to 2027-03-01" in "\n".join(lines)


def test_five_stations_have_their_days_in_short_words() -> None:
    """With names as long as they come, and what the short words say below."""
    lines = list(board_text(TITLES[:5], rows(60, 5)))
    told = "\n".join(lines)
    assert "clear 2027-03-01" in told
    assert "due 2027-03-01" in told
    assert "clear 2027-03-01*" in told
    assert "clear and a day: cleared to that day   due and a day: due again to that day" in told
    assert max(map(len, lines)) <= WIDEST
    assert lines[0].split()[:2] == ["Cook", "Bread"]


def test_a_large_board_has_numbers_and_says_what_they_are() -> None:
    """Twelve stations: a number a head, the titles and the short words below."""
    lines = list(board_text(TITLES, rows(60, 12)))
    assert lines[0].split() == ["Cook", *(str(number) for number in range(1, 13))]
    told = "\n".join(lines[61:])
    assert all(f"{number} {title}" in told for number, title in enumerate(TITLES, 1))
    assert "ready: ready to show" in told
    assert "*: known, not watched" in told


def test_eight_stations_keep_their_titles() -> None:
    """Up to eight the head is the title, cut where it is long."""
    titles = [*TITLES[:7], "Wood-fired oven"]
    lines = list(board_text(titles, rows(14, 8)))
    assert lines[0].split()[:3] == ["Cook", "Bread", "Butchery"]
    assert lines[0].endswith("…")
    assert f"{lines[0].split('  ')[-1].strip()} Wood-fired oven" in "\n".join(lines[15:])
