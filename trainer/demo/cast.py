"""Who is in the demo kitchen and how far each has come, so that every state occurs on its board.

People are known by their staff number in the demo roster. Days are counted back from today.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

HowFar = Literal["read", "quiz failed", "quiz passed", "asked", "signed", "one shift", "cleared"]


@dataclass(frozen=True, slots=True)
class Aim:
    """A station a cook goes for: when they begin its last technique, how far they come, and whether they keep it up."""

    station: str
    last_begins: int
    how_far: HowFar = "cleared"
    keeps_up: bool = True


@dataclass(frozen=True, slots=True)
class CastMember:
    """One cook's part: when they join, what they go for, when their food handler card ends (in days from today)."""

    number: str
    joins: int
    aims: tuple[Aim, ...] = ()
    card_ends_in: int = 400
    inducted: bool = True


@dataclass(frozen=True, slots=True)
class Event:
    """Something that befalls a cook at a station; `about` is the reason, or the technique it happens in."""

    number: str
    station: str
    days_ago: int
    about: str


@dataclass(frozen=True, slots=True)
class Goal:
    """A path of a cook to a station: opened some days ago, by a day some days from today, with a mentor or none.

    The mentor opens it; where there is none, the cook does.
    """

    number: str
    station: str
    opened: int
    due_in: int
    mentor: str = ""


MANAGER = "Ottilie Brandvold"
SOUS_CHEFS = ("002", "003")
NOTICE_UNREAD = ("015",)
"""Whoever has not read the notice on illness yet: the new hire."""
FAULTY_ROWS = frozenset({14, 18})  # the doubled cook and the birth date on 31 February

CAST = (
    CastMember(
        "002",
        545,
        (Aim("pasta_room", 470), Aim("saute", 448), Aim("cold_side", 426), Aim("grill", 418), Aim("pastry", 410)),
    ),
    CastMember(
        "003",
        545,
        (Aim("pasta_room", 525), Aim("saute", 500), Aim("cold_side", 487), Aim("grill", 480), Aim("pastry", 472)),
    ),
    CastMember("004", 545, (Aim("saute", 430), Aim("pasta_room", 380))),
    CastMember("005", 545, (Aim("grill", 425), Aim("cold_side", 390)), card_ends_in=12),
    CastMember("006", 545, (Aim("pasta_room", 420), Aim("pastry", 360))),
    CastMember("007", 545, (Aim("pastry", 440, keeps_up=False), Aim("cold_side", 410, keeps_up=False))),
    CastMember("008", 545, (Aim("grill", 400), Aim("saute", 340))),
    CastMember("009", 500, (Aim("cold_side", 300), Aim("pasta_room", 7, "asked"))),
    CastMember("010", 460, (Aim("cold_side", 250), Aim("saute", 5, "quiz failed"))),
    CastMember("011", 400, (Aim("pastry", 330), Aim("grill", 280)), inducted=False),
    CastMember("012", 250, (Aim("cold_side", 200), Aim("pasta_room", 24, "one shift"))),
    CastMember("013", 85, (Aim("cold_side", 66), Aim("grill", 40, "one shift"), Aim("pastry", 8, "asked"))),
    CastMember("014", 60, (Aim("cold_side", 42),), card_ends_in=1000),
    CastMember("015", 3, card_ends_in=1088, inducted=False),
)
STOOD_DOWN = Event("008", "saute", 6, "Left a pan on full heat and the line unwatched. Talk it through first.")
STOPPED = Event("010", "cold_side", 100, "knife_cuts")
GOALS = (
    Goal("012", "pasta_room", 33, -4, "003"),
    Goal("013", "grill", 42, 9, "002"),
    Goal("009", "pasta_room", 10, 12),
    Goal("013", "pastry", 9, 21, "003"),
    Goal("010", "saute", 8, 20, "002"),
    Goal("015", "cold_side", 2, 45, "003"),
)
