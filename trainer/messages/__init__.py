"""What the program has to say, kept as a value until a person reads it.

A `Message` is an English pattern with named values. It is no text: it is printed by `translate`, in the reader's
language, at the edge. A `Text` is either a message or a plain text that is in the reader's language already: a name,
a note, words of content.
"""

from trainer.messages.message import Message, Printable, Text, Value, counted, joined, message, plural, with_values
from trainer.messages.printing import ENGLISH, Translations, translate, translate_markup

__all__ = [
    "ENGLISH",
    "Message",
    "Printable",
    "Text",
    "Translations",
    "Value",
    "counted",
    "joined",
    "message",
    "plural",
    "translate",
    "translate_markup",
    "with_values",
]
