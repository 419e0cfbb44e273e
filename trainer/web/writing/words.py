"""How the parts and the choices of a content file are called on a page; what has no word here is shown as it stands."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.content.form_fields import helps
from trainer.content.written import WHOLE
from trainer.messages import Message, Text, message

PARTS: Mapping[str, Text] = MappingProxyType(
    {
        WHOLE: message("Name, goal and what is asked"),
        "editions": message("Editions"),
        "standard": message("Lines of the standard"),
        "steps": message("Steps"),
        "hazards": message("Hazards"),
        "faults": message("What goes wrong"),
        "checklist": message("Checklist"),
        "cases": message("Cases"),
        "parts": message("Parts of a long checklist"),
        "judged_in": message("Watched in another technique"),
        "answer_sets": message("Answers that scenes share"),
        "scenes": message("Scenes to decide in"),
        "questions": message("What a quiz asks"),
    }
)
ONE_MORE: Mapping[str, Text] = MappingProxyType(
    {
        "editions": message("Add an edition"),
        "standard": message("Add a line"),
        "steps": message("Add a step"),
        "hazards": message("Add a hazard"),
        "faults": message("Add a fault"),
        "checklist": message("Add a point"),
    }
)
CHOICES: Mapping[str, Text] = MappingProxyType(
    {
        "yes": message("Yes"),
        "no": message("No"),
        "do": message("Do something"),
        "check": message("Look and check"),
        "weigh": message("Weigh"),
        "time": message("Wait for a clock"),
        "tell": message("Tell somebody"),
        "stop": message("Stop and check"),
        "triangle": message("Warning: something can hurt"),
        "barred": message("Forbidden: never do this"),
        "disc": message("Must: always do this"),
        "hot_surface": message("Hot"),
        "sharp": message("Sharp"),
        "hands_in_machine": message("Hands in a machine"),
        "electricity": message("Electricity"),
        "unplug": message("Pull the plug"),
        "chemical": message("Chemical"),
        "slippery": message("Slippery"),
        "flame": message("Flame"),
        "germs": message("Germs"),
        "wear_gloves": message("Wear gloves"),
        "wash_hands": message("Wash hands"),
        "raw_egg": message("Raw egg"),
        "allergen": message("Allergen"),
        "ticked": message("Ticked: it was seen"),
        "weighed": message("Weighed"),
        "measured": message("Measured"),
        "timed": message("Timed"),
        "says": message("The cook says it"),
        "tasted": message("Tasted"),
        "pictures": message("Held against pictures"),
        "pair": message("Two readings that go together"),
        "law": message("Law: a limit or a rule of the code, always needed"),
        "result": message("Result: the dish itself, always needed"),
        "craft": message("Craft: so many of these are needed"),
        "all": message("All of them"),
    }
)


def part_word(name: str) -> Text:
    """Return what a part of a technique is called."""
    return PARTS.get(name, name.replace("_", " "))


def one_more(name: str) -> Text:
    """Return the words of the button that adds an entry to a part."""
    return ONE_MORE.get(name, message("Add one"))


def choice_word(value: str) -> Text:
    """Return a word of a closed list as a person says it."""
    return CHOICES.get(value, value.replace("_", " "))


def help_word(help: str, name: str) -> Text:
    """Return what is to be filled in, in the declaration's own words; without any, the key."""
    return Message(help, {}) if help in helps() else help or name.replace("_", " ")
