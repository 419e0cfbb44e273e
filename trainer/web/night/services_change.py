"""A change of the week's services on a page: the hands typed, what the change does in words, then the entry."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from wtforms import HiddenField

from trainer.actions.outcome import Refused
from trainer.actions.planning import set_services
from trainer.actions.services_preview import NotHeld, ServicesPreview, change_mark, services_preview
from trainer.actions.weeks_set import week_in_force, weeks_after
from trainer.kitchen.book import Entry
from trainer.kitchen.spans import in_words
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
from trainer.web.manager.cover_view import Called, bands
from trainer.web.night_words import hours_line, one_day_line

Body = Mapping[str, Any]
ASKED = {"weekly": (("weekday", "service"), hours_line), "days": (("day", "service"), one_day_line)}
"""What a body lists: by what a line is found again, and how it reads."""


class ChangeForm(KitchenForm):
    """A change of the services, with the mark of it as it was shown."""

    seen = HiddenField()


@dataclass(frozen=True, slots=True)
class Shown:
    """What became of a change that was sent: the entry, or else what it does, line by line."""

    entry: Entry | None
    changes: tuple[Text, ...] = ()


def shown_of(form: ChangeForm, told_by: Callable[[Body], Body | Refused], day: Callable[[], date | None]) -> Shown:
    """Return what became of a form that was sent or not: a change of the week in force on the *day* typed, else today.

    *told_by* returns the week as the form asks for it, from the one in force, or what is wrong with that.
    """
    if not form.is_sent_right():
        form.seen.data = ""
        return Shown(None)
    before = week_in_force(guard.kitchen(), day() or guard.today())
    return _asked_of(form, before, told_by(before))


def _asked_of(form: ChangeForm, before: Body, told: Body | Refused) -> Shown:
    """Save a change that was shown; else say what it does, or put on the form what is wrong with it."""
    k, shown = guard.kitchen(), form.seen.data
    form.seen.data = ""
    there = k.file.book.find_key(str(form.key.data))
    if there is not None and there.kind == "services_set":
        return Shown(there)
    if isinstance(told, Refused):
        form.refuse(told)
        return Shown(None)
    later = weeks_after(k, date.fromisoformat(told["since"]))
    mark = change_mark(before, told, later)
    if shown == mark:
        outcome = set_services(k, by=guard.person().id, told=told, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return Shown(outcome.entry)
        form.refuse(outcome)
        return Shown(None)
    if shown:
        form.refuse(message("This is not the change that was shown. Look at it, then save it."))
    form.seen.data = mark
    return Shown(None, tuple(_told(before, told, later)))


def day_in(text: str) -> date | None:
    """Return the day an address names; None where it names none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def over_already(day: date, field: str) -> Refused | None:
    """Return the refusal of a day that is over."""
    if day >= guard.today():
        return None
    words = message("{day} is over: services are set from today or a later day on.", day=in_words(day))
    return Refused(words, "", field)


def hands_typed(text: str) -> list[dict[str, Any]] | Refused:
    """Return the needs typed, one a line: stations joined by a plus, then a number; or the first line that is none."""
    found: list[dict[str, Any]] = []
    for line in filter(None, (line.strip() for line in text.splitlines())):
        stations, _, hands = line.rpartition(" ")
        if not hands.isascii() or not hands.isdigit() or not stations.strip():
            title = next(iter(reading.content().stations.values())).title
            words = message(
                "“{line}”: write stations, then how many hands, like “{title} 2”.", line=line[:60], title=title
            )
            return Refused(words, "", "hands")
        names = _ids(stations.split("+"))
        unknown = next((name for name in names if name not in reading.content().stations), None)
        if unknown is not None:
            words = message("There is no station “{typed}”. There are: {known}.", typed=unknown[:40], known=_titles())
            return Refused(words, "", "hands")
        found.append({"stations": names, "hands": int(hands[:6])})
    return found


def hands_text(needs: Iterable[Body]) -> str:
    """Return needs as they are typed."""
    stations = reading.content().stations
    return "\n".join(
        f"{' + '.join(stations[id].title if id in stations else id for id in need['stations'])} {need['hands']}"
        for need in needs
    )


def hands_hint() -> Text:
    """Return how needs are typed, with every station."""
    return message(
        "One line a need: stations, joined by + where one hand holds all, and how many. Stations: {titles}.",
        titles=_titles(),
    )


def _titles() -> Text:
    return joined([one.title for one in reading.content().stations.values()], ", ")


def _ids(parts: Iterable[str]) -> list[str]:
    """Return the ids of stations typed by their titles or ids; what is neither as it stands."""
    stations = reading.content().stations.values()
    ids = {name.casefold(): one.id for one in stations for name in (one.id, one.title)}
    return [ids.get(part.strip().casefold(), part.strip()) for part in parts]


def _told(before: Body, told: Body, later: Sequence[Body]) -> Iterator[Text]:
    """Yield in words what a change changes, how long it counts, and what it does to the services to come."""
    k, content = guard.kitchen(), reading.content()
    naming = Naming(k.people(), content)
    yield message("From {day} on", day=weekday(date.fromisoformat(told["since"])))
    for name in ASKED:
        yield from changed_lines(name, before, told, naming)
    if later and told["weekly"] != before.get("weekly", ()):
        yield from _counts_until(before, told, later, naming)
    yield from _does(services_preview(k, told, guard.today(), content), naming)


def _counts_until(before: Body, told: Body, later: Sequence[Body], naming: Naming) -> Iterator[Text]:
    """Yield to which day a change of the week counts, and what is set for later of the services it changes."""
    since = date.fromisoformat(later[0]["since"])
    yield message(
        "It counts to {last}: the week set from {day} on stays as it is.",
        last=weekday(since - timedelta(days=1)),
        day=weekday(since),
    )
    old, new = _by_service(before), _by_service(told)
    changed = [key for key in {**old, **new} if old.get(key) != new.get(key)]
    otherwise = False
    for body in later:
        day, there = weekday(date.fromisoformat(body["since"])), _by_service(body)
        for key in (key for key in changed if there.get(key) != new.get(key)):
            otherwise = True
            if key in there:
                yield message("From {day} on, as set before: {line}", day=day, line=hours_line(there[key], naming))
            else:
                line = hours_line(new[key], naming)
                yield message("From {day} on not held, as set before: {line}", day=day, line=line)
    if otherwise:
        yield message("To change it there too, set it once more with that day under “From”.")


def _by_service(body: Body) -> dict[tuple[int, str], Body]:
    """Return the lines of a week by weekday and service."""
    return {(one["weekday"], one["service"]): one for one in body.get("weekly", ())}


def changed_lines(name: str, before: Body, told: Body, naming: Naming) -> Iterator[Text]:
    """Yield the lines that are new, otherwise than before, or gone."""
    keys, words = ASKED[name]
    old, new = ({tuple(one[key] for key in keys): one for one in body.get(name, ())} for body in (before, told))
    for key, one in new.items():
        if key not in old:
            yield message("New: {line}", line=words(one, naming))
        elif old[key] != one:
            yield message("{before} → {after}", before=words(old[key], naming), after=words(one, naming))
    for key, one in old.items():
        if key not in new:
            yield message("No longer: {line}", line=words(one, naming))


def _does(found: ServicesPreview, naming: Naming) -> Iterator[Text]:
    """Yield what becomes of the services to come."""
    called = Called({id: person.name for id, person in naming.people.items()}, _station_titles())
    for one in found.not_held:
        yield _not_held(one, called)
    for service, band in zip(found.no_longer, bands(found.no_longer, called), strict=True):
        yield message("{day}: would no longer hold. {words}", day=weekday(service.on), words=band.words)
    for service, band in zip(found.then, bands(found.then, called), strict=True):
        yield message("{day}: would hold then. {words}", day=weekday(service.on), words=band.words)
    if found.nobody_for:
        places, day = called.places(found.nobody_for), weekday(found.first)
        yield message("On {day} nobody is cleared for: {stations}.", day=day, stations=places)
    if not (found.not_held or found.no_longer):
        yield message("No planned service stops holding, and no plan names one that goes.")


def _not_held(one: NotHeld, called: Called) -> Text:
    """Return that a service is no longer held though somebody is planned, and by which plan."""
    counted = {
        "day": weekday(one.on),
        "service": guard.kitchen().services.word(one.service),
        "cooks": called.everybody(dict.fromkeys(planned.cook for planned in one.planned)),
    }
    if one.plan is None:
        return message("{day}, {service}: not held any more. Planned there: {cooks}.", **counted)
    return message(
        "{day}, {service}: not held any more. The plan of entry {seq} names it, with {cooks}.",
        **counted,
        seq=one.plan.seq,
    )


def _station_titles() -> dict[str, str]:
    return {station.id: station.title for station in reading.content().stations.values()}
