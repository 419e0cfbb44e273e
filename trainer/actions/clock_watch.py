"""Whether this machine's clock can be believed: not behind the last entry, not set while the program runs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from trainer.actions.outcome import Refused
from trainer.kitchen.book import NewEntry
from trainer.kitchen.spans import in_short
from trainer.messages import Text, message, plural
from trainer.store.identity import day_in

if TYPE_CHECKING:
    from trainer.actions.open_kitchen import Kitchen

CLOCK_MAY_LAG = timedelta(minutes=1)  # a time service sets a clock back by that much, and nobody minds
MOST_JUMP = timedelta(minutes=5)
MOST_SILENCE = timedelta(days=30)
YEAR = timedelta(days=365)
SET_IT = message(
    "Set the clock right, then send this again. If it is right now and ran ahead before: {command}",
    command="trainer clock correct",
)
TYPE_TODAY = message(
    "A manager or an assessor types today's date on the page “Clock”, or on this machine: {command}",
    command="trainer clock confirm",
)


@dataclass(slots=True)
class ClockWatch:
    """A machine's clock beside its steady one, which nobody sets and which goes on while the machine sleeps.

    What the two showed when the watch began is the measure. `confirmed` is how far the book had come then.
    """

    now: Callable[[], datetime]
    steady: Callable[[], float]
    confirmed: int = 0
    _began: datetime = field(init=False)
    _steady_began: float = field(init=False)

    def __post_init__(self) -> None:
        """Begin."""
        self.begin_anew(self.confirmed)

    def begin_anew(self, confirmed: int) -> None:
        """Take what the clock shows now for right: as the program starts, and when a person has said that it is."""
        self._began, self._steady_began, self.confirmed = self.now(), self.steady(), confirmed

    def jump(self, now: datetime) -> timedelta:
        """Return by how much the clock was set since the watch began; less than nothing where it was set back."""
        return (now - self._began) - timedelta(seconds=self.steady() - self._steady_began)


@dataclass(frozen=True, slots=True)
class ClockTrouble:
    """Why nothing is saved at what the clock shows, and what to do; `can_confirm` where today's date is to be typed."""

    reason: Text
    act: Text
    can_confirm: bool

    def refusal(self) -> Refused:
        """Return it as the refusal of an act."""
        return Refused(message("{reason} Nothing was saved.", reason=self.reason), self.act)


def clock_trouble(k: Kitchen, now: datetime) -> ClockTrouble | None:
    """Return what is wrong with this machine's clock, or None: what was saved would get a wrong day.

    It is behind the last entry, it was set since the program started, or the last entry is so old that nobody can tell.
    """
    return _behind(k, now) or _set_meanwhile(k, now) or _after_long_silence(k, now)


def refused_by_clock(k: Kitchen, now: datetime) -> Refused | None:
    """Return the refusal of whatever is to be written now, or None where the clock can be believed."""
    trouble = clock_trouble(k, now)
    return trouble.refusal() if trouble else None


def may_run_ahead(k: Kitchen, now: datetime) -> bool:
    """Return whether the clock may be ahead: it is doubted, and not behind the last entry."""
    trouble = clock_trouble(k, now)
    return trouble is not None and trouble.can_confirm


def _behind(k: Kitchen, now: datetime) -> ClockTrouble | None:
    last = k.file.book.last_at()
    if last is None or last - now <= CLOCK_MAY_LAG:
        return None
    first, second = _apart(k, last, now)
    words = message("This machine's clock is behind the last entry ({last} / {now}).", last=first, now=second)
    return ClockTrouble(words, SET_IT, can_confirm=False)


def _set_meanwhile(k: Kitchen, now: datetime) -> ClockTrouble | None:
    """Return the trouble of a clock that was set by more than five minutes since it was last known to be right."""
    watch = k.clock
    if watch is None or abs(watch.jump(now)) <= MOST_JUMP or _was_confirmed(k, watch):
        return None
    jump = watch.jump(now)
    words = (
        message("This machine's clock was set back by {time} while the program ran.", time=_in_words(-jump))
        if jump < timedelta(0)
        else message("This machine's clock was set ahead by {time} while the program ran.", time=_in_words(jump))
    )
    return ClockTrouble(words, TYPE_TODAY, can_confirm=True)


def _was_confirmed(k: Kitchen, watch: ClockWatch) -> bool:
    """Return whether the clock was said to be right since, here or by a command; then what it shows is the measure."""
    said = [entry.seq for kind in ("clock_confirmed", "clock_corrected") for entry in k.file.book.of_kind(kind)]
    newest = max(said, default=0)
    if newest <= watch.confirmed:
        return False
    watch.begin_anew(newest)
    return True


def _after_long_silence(k: Kitchen, now: datetime) -> ClockTrouble | None:
    """Return the trouble of a book with nothing in it for a month: a clock that lost its time would not be noticed."""
    last = k.file.book.last_at()
    if k.clock is None or last is None or now - last <= MOST_SILENCE:
        return None
    days = plural("{number} day", "{number} days", (now - last).days)
    words = message("The last entry is {days} old, so this machine's clock is to be looked at first.", days=days)
    return ClockTrouble(words, TYPE_TODAY, can_confirm=True)


def _in_words(time: timedelta) -> Text:
    """Return how far a clock was set: in minutes, hours or days, the last one begun not counted."""
    minutes = int(time.total_seconds()) // 60
    if minutes < 120:
        return plural("{number} minute", "{number} minutes", minutes)
    if minutes < 2 * 1440:
        return plural("{number} hour", "{number} hours", minutes // 60)
    return plural("{number} day", "{number} days", minutes // 1440)


def _apart(k: Kitchen, last: datetime, now: datetime) -> tuple[Text, Text]:
    """Return two moments as short as tells them apart: two times of one day, or two days, with years at need."""
    zone = ZoneInfo(k.file.settings.timezone)
    first, second = last.astimezone(zone), now.astimezone(zone)
    if first.date() == second.date():
        return f"{first:%H:%M}", f"{second:%H:%M}"
    is_long = last - now > YEAR
    return in_short(first.date(), with_year=is_long), in_short(second.date(), with_year=is_long)


def keeps_away(deed: NewEntry) -> bool:
    """Return whether a deed takes a cook off a station, which no clock keeps out: a stop, or a standing down."""
    return deed.kind == "stood_down" or (deed.kind == "practical_watched" and deed.body.get("verdict") == "stopped")


def after_the_last(k: Kitchen, deed: NewEntry) -> NewEntry:
    """Return the deed, no earlier than the last entry: behind it, it takes that entry's moment.

    What keeps a cook away says then on which day it happened by the machine's own clock, and counts from that day.
    """
    last = k.file.book.last_at()
    if last is None or last <= deed.at:
        return deed
    own_day = day_in(k.file.settings.timezone, deed.at)
    is_claimed = keeps_away(deed) and own_day < k.today(last)
    return replace(deed, at=last, happened=own_day if is_claimed else deed.happened)
