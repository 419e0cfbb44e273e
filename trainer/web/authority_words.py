"""Entries about authority, second persons and voids in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from trainer.kitchen.authority import Scope, scope_of
from trainer.messages import Text, joined, message, plural
from trainer.web import guard
from trainer.web.filters import moment, weekday

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "authority_given": message("Authority to sign given"),
    "authority_ended": message("Authority to sign ended"),
    "technique_taught": message("Technique shown"),
}
MAY_WORDS: Mapping[str, Text] = {
    "sign": message("sign practicals"),
    "beside": message("sign supervised shifts"),
    "recheck": message("check sign-offs again"),
}


def _authority(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what an authority covers, for which acts, and its first and last day."""
    since, until = (weekday(date.fromisoformat(body[name])) for name in ("from", "until"))
    acts = joined((MAY_WORDS.get(act, act) for act in body["may"]), ", ")
    return [
        scope_told(scope_of(body["scope"]), naming),
        acts,
        message("From {since} to {until}", since=since, until=until),
    ]


def scope_told(scope: Scope, naming: Naming) -> Text:
    """Return what an authority covers, in words."""
    if scope.everything:
        return message("Every station")
    stations = [naming.station(station) for station in scope.stations]
    return joined(stations or [naming.technique(technique) for technique in scope.techniques], ", ")


def _authority_ended(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which authority ended, and why."""
    del naming
    ended = message("Ends the authority of entry {entry}", entry=body["authority"])
    return [ended, message("Reason: {reason}", reason=body["reason"])]


def second_told(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the second person's word in an entry, or since when it was asked for by a manager who was alone."""
    second = body.get("second")
    if second:
        why = [message("Reason: {reason}", reason=second["reason"])] if second.get("reason") else []
        return [message("Second person: {name}", name=naming.person(second["by"])), *why]
    if body.get("asked"):
        when = moment(datetime.fromisoformat(body["asked"]))
        return [message("Asked for {when} by the only manager, and waited a day", when=when)]
    return []


def signature_told(body: Mapping[str, Any]) -> tuple[Text, ...]:
    """Return how near the signer of a practical was to the cook's training; nothing where they were not."""
    book = guard.kitchen().file.book
    found = [book.find(entry) for entry in body.get("taught_by", ())]
    kinds = {entry.kind for entry in found if entry is not None}
    told = {
        "technique_taught": message("Taught by the signer."),
        "shift_worked": message("The signer stood beside on most shifts there."),
    }
    return tuple(words for kind, words in told.items() if kind in kinds)


def _taught(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which technique was shown, for how long, and what, where that was written."""
    minutes = plural("{number} minute", "{number} minutes", body["minutes"])
    line = message("{technique}, {minutes}", technique=naming.technique(body["technique"]), minutes=minutes)
    return [line, *([body["what"]] if body["what"] else [])]


def release_told(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return who showed what before a stop was released, and from when the cook may be watched again."""
    if "taught" not in body:
        return [message("Reason: {reason}", reason=body["reason"])]
    taught, day = body["taught"], weekday(date.fromisoformat(body["retry_from"]))
    minutes = plural("{number} minute", "{number} minutes", taught["minutes"])
    return [
        message(
            "Shown by {name}, {minutes}: {what}",
            name=naming.person(taught["by"]),
            minutes=minutes,
            what=taught["what"],
        ),
        message("To be watched again from {day}", day=day),
    ]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "authority_given": _authority,
    "authority_ended": _authority_ended,
    "technique_taught": _taught,
}
