"""What speaks against who stood where at a service: not cleared, not here any more, at two stations at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from trainer.kitchen.nights import Disparity, Place
from trainer.kitchen.state_words import state_word
from trainer.kitchen.week import Need, is_joined
from trainer.messages import Text, message

NOT_ON_BOARD, NO_STATION, TWO_STATIONS, NO_SERVICE = "not on the board", "no such station", "two stations", "no service"
CLEARED = frozenset({"cleared", "due again"})
BARS_A_TRAIL = frozenset({"not allowed", "stood down"})
"""Who trails need not be cleared; who is off the station or barred from it may not be there at all."""
_WORDS: Mapping[str, Text] = {
    NOT_ON_BOARD: message("not on the board"),
    NO_STATION: message("no such station"),
    TWO_STATIONS: message("two stations that no need joins"),
    NO_SERVICE: message("a service that is not held that day"),
}
StateOf = Callable[[str, str], str]
"""The board's word for a cook at a station; `not on the board` and `no such station` where it has no such cell."""


def disparities(stood: Sequence[Place], state_of: StateOf, needs: Sequence[Need] | None) -> tuple[Disparity, ...]:
    """Return what speaks against who stood where, in the sequence of the places.

    *needs* are those of the service, None where the house does not hold it that day. Of the stations one cook ran at
    once, every one after the first that no need joins with those before it is a disparity.
    """
    found = [Disparity("", "", NO_SERVICE)] if needs is None else []
    for place in stood:
        state = state_of(place.cook, place.station)
        if state in (NOT_ON_BOARD, NO_STATION) or not _may(place, state):
            found.append(Disparity(place.cook, place.station, state))
    return (*found, *_two_at_once(stood, needs or ()))


def _may(place: Place, state: str) -> bool:
    return state in CLEARED if place.runs else state not in BARS_A_TRAIL


def _two_at_once(stood: Iterable[Place], needs: Sequence[Need]) -> Iterator[Disparity]:
    held: dict[str, list[str]] = {}
    for place in stood:
        if place.runs:
            before = held.setdefault(place.cook, [])
            before.append(place.station)
            if not is_joined(before, needs):
                yield Disparity(place.cook, place.station, TWO_STATIONS)


def disparity_word(state: str) -> Text:
    """Return what spoke against a place, in a few words."""
    return _WORDS.get(state) or state_word(state)
