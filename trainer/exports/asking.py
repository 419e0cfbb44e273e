"""What a hand-out is made of: the kitchen, the day it is of, and what is taught in the words of whom it is for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Content, ContentName
from trainer.messages import Message, Printable, Text, Value, with_values


@dataclass(frozen=True, slots=True)
class Asked:
    """What is handed out is of this kitchen on this day, told in the words of *content*."""

    k: Kitchen
    content: Content
    on: date

    def named(self, words: Text) -> Text:
        """Return words in which everything taught is called as *content* calls it."""

        def name(value: Printable) -> Value:
            return self.content.name_of(value) if isinstance(value, ContentName) else value

        return with_values(words, name) if isinstance(words, Message) else words

    def person(self, cook: str) -> str:
        """Return a person's name; the id of one who is not known any more."""
        found = self.k.people().get(cook)
        return str(found.name) if found else cook

    def station(self, station: str) -> str:
        """Return a station's title; its id where it is not there any more."""
        found = self.content.stations.get(station)
        return found.title if found else station

    def technique(self, technique: str) -> str:
        """Return a technique's title; its id where it is not taught any more."""
        found = self.content.techniques.get(technique)
        return found.title if found else technique
