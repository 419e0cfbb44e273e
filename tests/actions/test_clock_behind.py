"""A machine whose clock is behind the book: nothing is saved, but a cook is taken off a station all the same."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from threading import Thread

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.outcome import Outcome
from trainer.actions.roster import apply_import, plan_import
from trainer.actions.standing import PutBack, TakenOff, put_back, take_off
from trainer.actions.watching import Look, Watch, ask_to_be_watched, find_practical, start_practical

MOST_ROSTER = b"number,name,birth date,roles\n7,Eve Fox,2001-05-01,cook\n"


def goes_back(crew: Crew, **time: float) -> datetime:
    """Turn the clock back, and return the moment."""
    return crew.later(**{name: -value for name, value in time.items()})


def ask(crew: Crew) -> Outcome:
    """Let Ada ask to be watched at something there is not: any later question would refuse it for that."""
    return ask_to_be_watched(crew.k, cook="ada", technique="sushi", now=crew.now, key=crew.key())


def behind(times: str) -> str:
    """Return the refusal, with both moments."""
    return f"This machine's clock is behind the last entry ({times}). Nothing was saved."


@pytest.mark.parametrize(
    ("back", "times"),
    [
        (timedelta(hours=2), "12:00 / 10:00"),
        (timedelta(days=93), "2 Mar / 29 Nov"),
        (timedelta(days=730), "2 Mar 2026 / 2 Mar 2024"),
    ],
)
def test_a_clock_behind_is_said_before_anything_else(crew: Crew, back: timedelta, times: str) -> None:
    """In the kitchen's own days or times (2 March 2026 at noon in New York), and what to do next."""
    crew.now -= back
    before = crew.k.file.book.end()
    found = refused(ask(crew))
    assert (english(found.reason), english(found.who_can)) == (
        behind(times),
        "Set the clock right, then send this again. If it is right now and ran ahead before: trainer clock correct",
    )
    assert crew.k.file.book.end() == before


def test_a_moment_behind_takes_the_last_entrys_moment(crew: Crew) -> None:
    """Waiting for another to finish writing is no clock gone back: up to a minute, in the book's own order."""
    last = crew.k.file.book.last_at()
    goes_back(crew, seconds=60)
    entry = saved(crew.reads("ada", "cold_sauces"))
    assert entry.at == last
    goes_back(crew, seconds=1)
    assert english(refused(crew.reads("ben", "cold_sauces")).reason) == behind("12:00 / 11:58")


def test_many_who_wait_for_each_other_are_all_saved(crew: Crew) -> None:
    """Sixteen papers, each dated when its page was sent: all are in the book, none earlier than the one before."""
    outcomes: list[Outcome] = []

    def show(number: int) -> None:
        paper = Paper("ada", "food_handler", str(number), date(2026, 1, 1), None)
        now = crew.now + timedelta(seconds=16 - number)
        outcomes.append(show_certificate(crew.k, by="mara", paper=paper, now=now, key=f"paper-{number}"))

    writers = [Thread(target=show, args=(number,)) for number in range(16)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert len([saved(outcome) for outcome in outcomes]) == 16
    moments = [entry.at for entry in crew.entries("certificate_shown")]
    assert moments == sorted(moments)


def test_no_practical_is_begun_or_signed_by_a_clock_behind(crew: Crew) -> None:
    """Before the PIN is asked for, even; nothing seen is lost."""
    crew.reads("ada", "cold_sauces")
    practical = crew.begins_practical()
    crew.sees(practical)
    goes_back(crew, hours=2)
    watch = Watch("ben", "sushi", "cold_side")
    begun = start_practical(crew.k, by="sous", watch=watch, now=crew.now, key=crew.key())
    assert english(refused(begun).reason) == behind("12:00 / 10:00")
    assert english(refused(crew.signs(practical, proved_at=None)).reason) == behind("12:00 / 10:00")
    assert find_practical(crew.k, practical.id) is not None


def test_no_roster_is_taken_in_by_a_clock_behind(crew: Crew) -> None:
    """Nobody of the file is among the people after it."""
    plan = plan_import(crew.k, MOST_ROSTER, now=crew.now)
    goes_back(crew, days=1)
    found = refused(apply_import(crew.k, plan=plan, by="mara", now=crew.now))
    assert english(found.reason) == behind("2 Mar / 1 Mar")
    assert "Eve Fox" not in {person.name for person in crew.k.people().values()}


def test_a_stop_is_never_refused_for_the_clock(crew: Crew) -> None:
    """The last entry is four weeks ahead: the stop takes its moment, says its own day, and holds from that day."""
    crew.clears("ada")
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe"))
    crew.later(days=28)
    ahead = crew.write("technique_read", "ben", {"technique": "cold_sauces", "edition": 1})
    goes_back(crew, days=28)
    entry = saved(crew.signs(practical))
    assert (entry.at, entry.happened, entry.day) == (ahead.at, TODAY, TODAY + timedelta(days=28))
    for on in (TODAY, TODAY + timedelta(days=28)):
        (row,) = (row for row in crew.k.board(on).rows if row.cook.id == "ada")
        assert row.clearances[1].state == "stood down"


def test_a_standing_down_takes_effect_today_whatever_the_clock_of_its_entry_says(crew: Crew) -> None:
    """The last entry was written by a clock four weeks ahead; the one who is taken off is off today, and then too."""
    crew.later(days=28)
    crew.write("technique_read", "ben", {"technique": "cold_sauces", "edition": 1})
    goes_back(crew, days=28)
    at, key = TakenOff("sous", ("cold_side",), "not safe"), crew.key()
    entry = saved(take_off(crew.k, by="mara", off=at, now=crew.now, key=key))
    assert entry.at == datetime(2026, 3, 30, 16, tzinfo=UTC) + timedelta(hours=1)
    assert (entry.body, entry.happened) == ({"stations": ["cold_side"], "why": "not safe", "reason": ""}, TODAY)
    for on in (TODAY, TODAY + timedelta(days=28)):
        (row,) = (row for row in crew.k.board(on).rows if row.cook.id == "sous")
        assert row.clearances[1].state == "stood down"
    assert saved(take_off(crew.k, by="mara", off=at, now=crew.now, key=key)) == entry
    assert "behind the last entry" in english(
        refused(
            put_back(crew.k, by="mara", back=PutBack("sous", ("cold_side",), "x"), now=crew.now, key=crew.key())
        ).reason
    )


def test_whoever_joined_after_the_day_the_clock_shows_is_stood_down_too(crew: Crew) -> None:
    """Kit joined today and the clock fell back a week: nothing of that keeps Kit at the station."""
    crew.joins("kit", "cook")
    goes_back(crew, days=7)
    at = TakenOff("kit", ("cold_side",), "not safe")
    entry = saved(take_off(crew.k, by="mara", off=at, now=crew.now, key=crew.key()))
    assert entry.happened == date(2026, 2, 23)
    ghost = TakenOff("ghost", ("cold_side",), "not safe")
    assert "not on the roster" in english(
        refused(take_off(crew.k, by="mara", off=ghost, now=crew.now, key=crew.key())).reason
    )


def test_a_clock_that_is_right_says_no_other_day(crew: Crew) -> None:
    """A standing down happened on the day it was written."""
    at = TakenOff("sous", ("cold_side",), "not safe")
    entry = saved(take_off(crew.k, by="mara", off=at, now=crew.later(minutes=1), key=crew.key()))
    assert entry.happened == entry.day == TODAY
