"""Each person's own language, units and light: how pages are told to them, and nothing that decides anything."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.messages import message
from trainer.store.catalogues import languages

Units = Literal["us", "metric", ""]
Look = Literal["day", "night", ""]


def keep_own_language(k: Kitchen, *, person: str, language: str, units: Units, look: Look = "") -> Refused | None:
    """Keep how a person reads, and return why it was not kept; "" is the kitchen's units, the system's light."""
    with k.file.writing():
        who = k.file.people.find(person)
        if who is None:
            return Refused(message("There is no such person here any more."))
        if language not in languages():
            return Refused(message("Pages are not told in “{language}”.", language=language), field="language")
        if units not in ("us", "metric", ""):
            return Refused(message("Units come first as US or metric, not as “{units}”.", units=units), field="units")
        if look not in ("day", "night", ""):
            return Refused(message("Pages come by day or by night, not by “{look}”.", look=look), field="look")
        k.file.people.change(replace(who, language=language, units=units, look=look))
        return None
