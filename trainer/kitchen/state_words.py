"""The word of every state a cook can be in, at a station or with a technique."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.messages import Text, message

STATES: Mapping[str, Text] = {
    "not started": message("not started"),
    "studying": message("studying"),
    "ready to show": message("ready to show"),
    "supervised": message("supervised"),
    "cleared": message("cleared"),
    "due again": message("due again"),
    "lapsed": message("lapsed"),
    "stood down": message("stood down"),
    "not allowed": message("not allowed"),
    "signed": message("signed"),
}


def state_word(state: str) -> Text:
    """Return the word of a state, to be said in any language; what is no state as it is."""
    return STATES.get(state, state)
