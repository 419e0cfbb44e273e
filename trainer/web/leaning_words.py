"""What a page says of an entry that leans on a voided one: it counts on, marked, until a manager decides."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.actions.leaning import marked
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.messages import Text, message
from trainer.web.filters import weekday

Leaning = Mapping[str, tuple[Text, ...]]
"""By the id of an entry, a sentence for each void it leans on."""


def leaning_words(k: Kitchen) -> Leaning:
    """Return what is said of every entry that leans on a void, of which nobody has said that it stands."""
    return {entry: tuple(leans_words(k, void) for void in voids) for entry, voids in marked(k).items()}


def leans_words(k: Kitchen, void: Entry) -> Text:
    """Return on which voided entry another leans, and since when."""
    voided = k.file.book.find(void.body["entry"])
    return message(
        "Leans on entry {seq}, voided on {day}. It counts on until a manager voids it.",
        seq=voided.seq if voided else "",
        day=weekday(void.day),
    )
