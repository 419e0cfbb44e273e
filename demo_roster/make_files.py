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

`shifts.csv` is as an American one writes it: commas, every cell in quotes, CRLF. It plans from the start day, a
Wednesday, to the end of the month after: dinner every day, lunch too on Saturdays and Sundays; the pastry section rests
at lunch and on Mondays. Nobody is on twice a day or more than five days a week. Nobody under 18 stands in the pasta
room, where the extruder is. On Fridays and Saturday nights somebody is planned at a station just before being cleared
for it, so that the service holds with a swap; a few days hold no better than they can: somebody is away.
"""

from __future__ import annotations

import argparse
import csv
import io
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import Literal

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
MON, TUE, WED, THU, FRI, SAT, SUN = range(7)
WEEK = {
    (MON, "dinner"): "004 002 009 008 -",
    (TUE, "dinner"): "006 004 013 005 003",
    (WED, "dinner"): "006 003 012 008 011",
    (THU, "dinner"): "004 002 010 005 011",
    (FRI, "dinner"): "009 002 003 008 011",
    (SAT, "lunch"): "006 004 014 008 -",
    (SAT, "dinner"): "003 002 005 011 013",
    (SUN, "lunch"): "004 003 014 008 -",
    (SUN, "dinner"): "006 002 010 005 011",
}
"""By weekday and service: who stands at each station, in the sequence of `STATIONS`; nobody where it rests."""
BESIDE = {
    (MON, "dinner"): {"010": "saute", "015": "cold_side"},
    (TUE, "dinner"): {"012": "pasta_room", "007": "pastry"},
    (WED, "dinner"): {"009": "pasta_room", "013": "pastry", "015": "cold_side"},
    (THU, "dinner"): {"012": "pasta_room", "013": "grill", "015": "cold_side"},
    (FRI, "dinner"): {"010": "saute", "007": "pastry", "015": "cold_side"},
    (SAT, "lunch"): {"009": "pasta_room", "007": "cold_side"},
    (SUN, "lunch"): {"009": "pasta_room", "013": "grill"},
    (SUN, "dinner"): {"012": "pasta_room", "015": "cold_side"},
}
"""Who learns a station beside the one who runs it."""
OTHERWISE = {
    (12, "dinner"): "006 010 009 008 -",
    (14, "dinner"): "004 003 012 008 006",
    (15, "dinner"): "004 002 010 005 007",
}
"""Days, counted from the start, that are not like their weekday: 002 is away on a Monday, 011 on two days after it."""


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
    names = {row[0]: row[1] for row in (*COOKS, *youngest_two(start))}
    for number in range((last_day(start) - start).days + 1):
        day = start + timedelta(days=number)
        for sitting in ("lunch", "dinner"):
            for cook, station in stand(day.weekday(), sitting, number):
                yield day.isoformat(), sitting, names[cook], station


def last_day(start: date) -> date:
    """Return the last day of the month after the start day's."""
    two_on = date(start.year + (start.month > 10), (start.month + 1) % 12 + 1, 1)
    return two_on - timedelta(days=1)


def stand(weekday: int, sitting: str, number: int) -> Iterator[tuple[str, str]]:
    """Yield who stands where at one service of a day, the learners last; nothing where that service is not held."""
    usual = WEEK.get((weekday, sitting), "")
    hands = OTHERWISE.get((number, sitting), usual).split()
    standing = {cook: station for cook, station in zip(hands, STATIONS, strict=bool(hands)) if cook != "-"}
    learning: Mapping[str, str] = BESIDE.get((weekday, sitting), {})
    yield from standing.items()
    yield from ((cook, station) for cook, station in learning.items() if cook not in standing)


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
