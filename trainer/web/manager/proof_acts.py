"""What a manager may do next about one cell of the board."""

from __future__ import annotations

from dataclasses import dataclass

from flask import url_for

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.open_paths import may_end_path
from trainer.kitchen.progress import Person
from trainer.kitchen.requirements import AGE_UNKNOWN
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.manager import acts
from trainer.web.path_words import move_href


@dataclass(frozen=True, slots=True)
class Act:
    """Something the reader may do next from here."""

    words: Text
    href: str


def acts_on(found: Clearance, who: Person) -> tuple[Act, ...]:
    """Return what a manager may do about this cell: anyone who is off the station is put back by what took them off."""
    cook, station, missing = found.cook, found.station, {one.what for one in found.missing}
    standing = (
        Act(message("Put back on this station"), url_for("manager.acts.put_back", cook=cook, station=station))
        if "stood down" in missing
        else take_off_act(cook, station)
    )
    releases = tuple(
        Act(message("Release the stop"), url_for("manager.acts.release_stop", cook=cook, stop=line.entry))
        for line, _ in acts.stops_in_words(who, reading.content())
        if f"stopped:{line.technique}" in missing and cook != guard.person().id
    )
    age_asked = AGE_UNKNOWN in missing and cook != guard.person().id
    age = (Act(message("Write down a proof of age"), url_for("manager.identity.age", cook=cook)),) if age_asked else ()
    paper = Act(message("Write down a certificate"), url_for("manager.acts.certificate", cook=cook))
    return (*releases, *age, *_path_acts(found), standing, paper)


def take_off_act(cook: str, station: str) -> Act:
    """Return the way to take somebody off a station at once."""
    return Act(message("Take off the station"), url_for("off.take", cook=cook, station=station))


def acts_of_assessor(found: Clearance) -> tuple[Act, ...]:
    """Return what an assessor who is no manager may do about this cell: take somebody else off."""
    is_off = any(one.what == "stood down" for one in found.missing)
    return () if is_off or found.cook == guard.person().id else (take_off_act(found.cook, found.station),)


def _path_acts(found: Clearance) -> tuple[Act, ...]:
    """Return the way to open a path, or to move or close the one that is open; nothing where the cook is cleared."""
    path, day = found.path, guard.kitchen().day(guard.today())
    if path is None:
        href = url_for("paths.new", cook=found.cook, station=found.station)
        return () if found.is_cleared else (Act(message("Open a path"), href),)
    if not may_end_path(guard.person().id, found.cook, path, day).may:
        return ()
    close = Act(message("Close the path"), url_for("paths.close", entry=path.entry))
    move = Act(message("Another day or mentor"), move_href(found.cook, path))
    return (close,) if found.is_cleared else (move, close)
