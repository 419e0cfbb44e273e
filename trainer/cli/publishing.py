"""Publishing at the command line: the cost in words or as JSON, a question, the entry."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.publishing import Preview, Publishing, preview, publish
from trainer.cli.clearance import named
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import draft_of
from trainer.kitchen.book import LOCAL, Entry
from trainer.kitchen.spans import in_words
from trainer.kitchen.standard_cost import cost_words
from trainer.messages import Text, joined, message, plural, translate


def look_and_publish(kitchen: Kitchen, *, only_look: bool, since: date | None, as_json: bool) -> None:
    """Print what publishing the files would cost; then publish them, after a yes where anybody is there to say it."""
    draft = draft_of(kitchen)
    found = preview(kitchen, draft=draft, since=since, now=clock.now())
    if isinstance(found, Refused):
        raise _refused(found)
    if not as_json:
        for line in preview_lines(kitchen, found):
            click.echo(translate(named(kitchen, line)))
    entry = None if only_look else _published(kitchen, Publishing(draft, found.since, found.digest), asks=not as_json)
    if as_json:
        click.echo(json.dumps(preview_record(found, entry), ensure_ascii=False))
    elif entry:
        click.echo(f"Published standard {found.number}, from {found.since.isoformat()} on. Entry {entry.seq}.")


def _published(kitchen: Kitchen, publishing: Publishing, *, asks: bool) -> Entry:
    """Return the entry of what was published, after a yes where there is somebody to ask."""
    if asks and not click.confirm("Publish it?"):
        raise CommandError("Nothing was published.", REFUSED)
    outcome = publish(kitchen, by=LOCAL, publishing=publishing, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise _refused(outcome)
    return outcome.entry


def _refused(outcome: Refused) -> CommandError:
    return CommandError(translate(joined([outcome.reason, outcome.who_can])), REFUSED)


def preview_lines(kitchen: Kitchen, found: Preview) -> Iterator[Text]:
    """Yield a preview, a line each thing."""
    day = in_words(found.since)
    yield message("Standard {number}, from {day} on.", number=found.number, day=day)
    yield plural("{number} file differs from what is published.", "{number} files differ.", len(found.paths))
    if found.is_words_only:
        yield message("Only words and drawings change: nobody loses a clearance.")
        return
    yield cost_words(found.cost, found.since)
    names, content = kitchen.people(), kitchen.content
    for loss in found.cost.losses:
        station = content.stations.get(loss.station)
        yield message(
            "{name}, {station}: {missing}",
            name=names[loss.cook].name if loss.cook in names else loss.cook,
            station=station.title if station else loss.station,
            missing=joined([each.text for each in loss.missing]) or message("the station is no more"),
        )


def preview_record(found: Preview, entry: Entry | None) -> dict[str, Any]:
    """Return a preview, and what was published, as JSON."""
    cost = found.cost
    return {
        "number": found.number,
        "since": found.since.isoformat(),
        "cost": dict(cost.counts),
        "losses": [
            {"cook": loss.cook, "station": loss.station, "missing": [each.what for each in loss.missing]}
            for loss in cost.losses
        ],
        "asks": [dict(each) for each in found.asks],
        "changed": list(found.paths),
        "words_only": found.is_words_only,
        "previewed": found.digest,
        "published": {"entry": entry.id, "seq": entry.seq} if entry else None,
    }
