"""Writes the roster and the shifts of Quernstone, a restaurant we made up: 70 guests, and it extrudes its own pasta.

    python demo_roster/make_files.py --start 2026-11-25

writes `roster.csv` and `shifts.csv` beside this script. The same start gives the same files. Every name is invented.

`roster.csv` is as a European spreadsheet writes it: byte order mark, semicolons, CRLF, accents, an empty line at the
end. It has 15 people once its faults are left out: 14 cooks, and the manager (001, Ottilie Brandvold), who is the
fifteenth and cooks no station. Of the cooks two are assessors, the sous chefs 002 and 003; 014 is under 18; 015 is a
new hire. The faults, on purpose:

- row 10: the birth date 03/04/2001 can be read two ways (it is meant with the day first),
- row 14: number 012 for the second time,
- row 18: a birth date on 31 February; number 016 must be left out until the true date is known.

`shifts.csv` is as an American one writes it: commas, every cell in quotes, CRLF. It plans from the start day to the end
of the month after: closed on Mondays, dinner on all other days, lunch too on Saturdays and Sundays. Nobody under 18
stands in the pasta room, where the extruder is.
"""

from __future__ import annotations

import argparse
import csv
import io
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Literal

SEED = 70
HEADERS = ("number", "name", "birth date", "roles", "started", "language")
MANAGER = ("001", "Ottilie Brandvold", "1979-05-14", "manager", "2019-03-04", "en")
COOKS = (
    ("002", "Renzo Calabrì", "1986-09-30", "cook, assessor", "2020-01-13", "en"),
    ("003", "Adaeze Umeh-Lindqvist", "1990-02-17", "cook, assessor", "2021-06-07", "en"),
    ("004", "Thảo Vy Đặng", "1994-11-08", "cook", "2022-02-21", "en"),
    ("005", "Zoë Marchetti-Roux", "1997-07-25", "cook", "2022-09-05", "fr"),
    ("006", "Siobhán Ní Dhálaigh", "1992-12-01", "cook", "2023-01-16", "en"),
    ("007", "Łucja Wiśnicka", "1999-03-19", "cook", "2023-05-08", "en"),
    ("008", "Farrukh Yoldoshev", "1988-06-11", "cook", "2023-08-28", "en"),
    ("009", "Mateo Quispe Arandia", "03/04/2001", "cook", "2024-02-12", "es"),
    ("010", "Hjördís Eldjárn", "1995-10-22", "cook", "2024-04-15", "en"),
    ("011", "Kwabena Osei-Tano", "1993-01-29", "cook", "2024-10-07", "en"),
    ("012", "Yūka Tanabe-Moreau", "2000-08-16", "cook", "2025-03-17", "en"),
    ("013", "Leilani Kahananui", "2002-05-05", "cook", "2025-09-01", "en"),
)
DOUBLED = "012"
NO_SUCH_DAY = ("016", "Tobiáš Hrubeš", "31/02/1998", "cook", "2026-10-12", "en")
STATIONS = ("pasta_room", "saute", "cold_side", "grill", "pastry")
MONDAY, FRIDAY, SATURDAY = 0, 4, 5


def youngest_two(start: date) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the cook who is 17 on the start day, and the new hire, who began two days before it."""
    born = date(start.year - 17, start.month, 1) - timedelta(days=150)
    minor = ("014", "Emre Çelikoğlu", born.isoformat(), "cook", (start - timedelta(days=160)).isoformat(), "en")
    hire = ("015", "Noor Haddad-Silva", "2004-12-09", "cook", (start - timedelta(days=2)).isoformat(), "en")
    return minor, hire


def roster_rows(start: date) -> list[tuple[str, ...]]:
    """Return the rows of the roster, faults and all."""
    rows = [MANAGER, *COOKS]
    doubled = next(row for row in COOKS if row[0] == DOUBLED)
    return [*rows[:12], doubled, rows[12], *youngest_two(start), NO_SUCH_DAY]


def roster_file(start: date) -> bytes:
    """Return roster.csv: byte order mark, semicolons, CRLF, an empty line at the end."""
    return ("\ufeff" + _table([HEADERS, *roster_rows(start)], ";", csv.QUOTE_MINIMAL) + ";;;;;\r\n").encode()


def shifts_file(start: date) -> bytes:
    """Return shifts.csv: commas, quotes, CRLF."""
    rows = [("date", "sitting", "name", "station"), *shift_rows(start)]
    return _table(rows, ",", csv.QUOTE_ALL).encode()


def shift_rows(start: date) -> Iterator[tuple[str, str, str, str]]:
    """Yield the planned shifts from the start day to the end of the month after."""
    rng = Random(SEED)  # noqa: S311 - a plan that can be made again, not a secret
    day = start
    while day <= last_day(start):
        if day.weekday() != MONDAY:
            sittings = ("lunch", "dinner") if day.weekday() >= SATURDAY else ("dinner",)
            for sitting in sittings:
                for name, station in stand(rng, day, start):
                    yield day.isoformat(), sitting, name, station
        day += timedelta(days=1)


def last_day(start: date) -> date:
    """Return the last day of the month after the start day's."""
    two_on = date(start.year + (start.month > 10), (start.month + 1) % 12 + 1, 1)
    return two_on - timedelta(days=1)


def stand(rng: Random, day: date, start: date) -> Iterator[tuple[str, str]]:
    """Yield who stands where at one sitting: one at each station, and a second in two of them on busy days."""
    minor, hire = (row[1] for row in youngest_two(start))
    hands = [row[1] for row in COOKS]
    rng.shuffle(hands)
    busy = FRIDAY <= day.weekday() <= SATURDAY
    for station in (*STATIONS, *(("pasta_room", "saute") if busy else ())):
        yield hands.pop(), station
    yield (minor if day.weekday() % 2 else hire), "cold_side"


def _table(rows: Iterable[tuple[str, ...]], delimiter: str, quoting: Literal[0, 1]) -> str:
    """Return rows as delimited text with CRLF."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\r\n", quoting=quoting)
    writer.writerows(rows)
    return out.getvalue()


def main() -> None:
    """Write both files."""
    parser = argparse.ArgumentParser(description="Write the demo roster and shifts.")
    parser.add_argument("--start", type=date.fromisoformat, default=date(2026, 11, 25), help="the first day planned")
    parser.add_argument("--into", type=Path, default=Path(__file__).parent, help="the folder to write to")
    chosen = parser.parse_args()
    (chosen.into / "roster.csv").write_bytes(roster_file(chosen.start))
    (chosen.into / "shifts.csv").write_bytes(shifts_file(chosen.start))


if __name__ == "__main__":
    main()
