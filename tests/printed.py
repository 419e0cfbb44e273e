"""What a person reads of a text: tests compare the printed sentence, and the program compares none."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, is_dataclass, replace
from typing import Any

from trainer.messages import Message, Printable, Text, translate


def english(text: Text | Printable) -> str:
    """Return a text as it is printed in English."""
    return translate(text if isinstance(text, str) or not isinstance(text, Printable) else text.as_text())


def all_english(texts: Iterable[Text | Printable]) -> list[str]:
    """Return several texts as they are printed in English."""
    return [english(text) for text in texts]


def in_english(record: Any) -> Any:
    """Return a record, or a list or tuple of them, with every text in it as it is printed in English."""
    if isinstance(record, Message):
        return translate(record)
    if isinstance(record, tuple | list):
        return type(record)(map(in_english, record))
    if is_dataclass(record) and not isinstance(record, type):
        return replace(record, **{field.name: in_english(getattr(record, field.name)) for field in fields(record)})
    return record
