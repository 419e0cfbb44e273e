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
    "founder_stands": message("Signs on own word"),
    "entry_upheld": message("Entry said to stand"),
    "entry_contested": message("Entry contested"),
    "contest_decided": message("Contest decided"),
}
MAY_WORDS: Mapping[str, Text] = {
    "sign": message("sign practicals"),
    "beside": message("sign supervised shifts"),
    "recheck": message("look at sign-offs again"),
}


PROVED_BY: Mapping[str, Text] = {"pin": message("PIN"), "passphrase": message("Passphrase")}


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
    ended = message("Ends the authority of entry {entry}", entry=naming.entry(body["authority"]))
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
    entitled = [book.numbered(number) for number in body.get("entitled_by", ())]
    kinds |= {entry.kind for entry in entitled if entry is not None and entry.kind == "founder_stands"}
    told = {
        "founder_stands": message("On own word, sole assessor."),
        "technique_taught": message("Taught by the signer."),
        "shift_worked": message("The signer stood beside on most shifts there."),
    }
    why = body.get("independence", {}).get("reason")
    reason = (message("Why the trainer signed: {reason}", reason=why),) if why else ()
    return (*(words for kind, words in told.items() if kind in kinds), *reason)


def second_signed(body: Mapping[str, Any], naming: Naming) -> tuple[Text, ...]:
    """Return who signed a practical with its signer, and by what they proved themselves; nothing where nobody did."""
    second = body.get("second")
    if not second:
        return ()
    how = PROVED_BY.get(second["proof"].get("how", ""), "")
    return (message("Signed with them: {name} ({how})", name=naming.person(second["by"]), how=how),)


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


def _founder(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return at which stations, to which day, and what was said to it."""
    stations = joined((naming.station(station) for station in body["stations"]), ", ")
    until = weekday(date.fromisoformat(body["until"]))
    return [message("{station}, to {until}", station=stations, until=until), body["words"]]


def _upheld(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entry stands in spite of which void, and why."""
    entry, void = naming.entry(body["entry"]), naming.entry(body["void"])
    words = message("Entry {entry} stands, though it leans on void {void}", entry=entry, void=void)
    return [words, message("Reason: {reason}", reason=body["reason"])]


def _contested(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entry is contested, and in which words."""
    return [message("Contests entry {entry}", entry=naming.entry(body["entry"])), body["words"]]


OUTCOMES: Mapping[str, Text] = {"stands": message("The entry stands."), "wrong": message("The entry is wrong.")}


def _decided(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what came of a contest, and whether the only manager decided about their own entry."""
    alone = [message("Decided by the only manager, who wrote the entry.")] if body.get("alone") else []
    contest = message("Decides the contest in entry {entry}", entry=naming.entry(body["contest"]))
    outcome = OUTCOMES.get(body["outcome"], body["outcome"])
    return [contest, outcome, *alone, message("Reason: {reason}", reason=body["reason"])]


def void_told(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return from when an entry counts no longer, how many lean on it, and the second person's word."""
    counts = [message("It counts for no day.")] if body.get("counts") == "never" else []
    number = len(body.get("leaning", ()))
    leaning = [plural("{number} entry leans on it", "{number} entries lean on it", number)] if number else []
    return [*counts, *leaning, *second_told(body, naming)]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "authority_given": _authority,
    "authority_ended": _authority_ended,
    "technique_taught": _taught,
    "founder_stands": _founder,
    "entry_upheld": _upheld,
    "entry_contested": _contested,
    "contest_decided": _decided,
}
