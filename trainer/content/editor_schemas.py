"""The format of content files as JSON Schema (draft 2020-12), for editors that complete keys and mark slips.

Closed lists come from the modules that read the files, and a test holds every key equal to what those ask for. What a
schema cannot say (that a line exists, that units are alike, that a station's technique is there) `content check` says.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from trainer.content.mixes import FOODS
from trainer.content.parts import FORMS, JUDGED, KINDS, MARKS
from trainer.content.quiz import LONGEST_WAIT
from trainer.content.schema import DAY, ID, LONG, SHORT, WHOLE
from trainer.kitchen.quiz.deciding import FEWEST, MOST
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import Range
from trainer.recipe_math.units import THINGS

Schema = dict[str, Any]
LASTS = "How long the timer runs: a line of the standard, or code.<id>."

DRAFT = "https://json-schema.org/draft/2020-12/schema"
OUTSIDE_BRACES = r"^([^0-9¼½¾⅐-⅞{}]|\{[^{}]*\})*$"
QUANTITY = "A number and a unit: 4.5 oz, 57 C, 2 h."


def technique_schema() -> Schema:
    """Return the schema of technique.yaml."""
    return _file(
        "technique.yaml: the structure of one technique",
        {
            "editions": _many(_edition(), 1),
            "steps": _many(_step(), 1),
            "checklist": _many(_point(), 1),
            "scored_needed": _whole(0, 100, "How many of the points that are not critical are needed."),
            "quiz": _quiz(),
            "sign_off_months": _whole(1, 120, "For how many months a sign-off is good."),
            "questions": _many(_question()),
        },
        {
            "allergens": _many(_id("An id of allergens.yaml.")),
            "standard": _standard(),
            "hazards": _many(_hazard()),
            "faults": _many(_id()),
            "sources": _many(_id("An id of sources.yaml.")),
        },
    )


def words_schema() -> Schema:
    """Return the schema of the words of a technique, in any language."""
    step = _block(
        "The words of one step.",
        {"do": _words("What to do.")},
        {
            "cue": _words("What it looks, feels, sounds or smells like when right."),
            "why": _words("Why it is done so."),
            "figure": _words("What the figure shows, in fifteen words or more."),
        },
    )
    fault = _block(
        "What goes wrong.",
        {"shows": _words("How it shows."), "cause": _words("Why it comes."), "cure": _words("How to put it right.")},
    )
    return _file(
        "en.yaml, es.yaml ...: the words of one technique",
        {
            "title": _words("", SHORT),
            "goal": _words("What somebody can do who has learned it."),
            "steps": _each(step),
            "checklist": _each(_words()),
        },
        {
            "words": {"type": "object", "description": "Words a cook needs first.", "additionalProperties": _words()},
            "standard": _each(_words("A sentence that names the line in braces.")),
            "tools": _many(_words("", SHORT)),
            "hazards": _each(_words("The caution.")),
            "faults": _each(fault),
            "questions": _questions_words(),
            "editions": _many(_words("What changed, for each edition; in other languages than English.")),
        },
    )


def recipe_schema() -> Schema:
    """Return the schema of recipe.yaml."""
    said = {
        "source": _id("An id of sources.yaml, or house."),
        "place": _text("Where in the source, or how it was found."),
    }
    ingredient = _block(
        "One ingredient; what is not a weight says what it weighs.",
        {"id": _id(), "amount": _text(QUANTITY)},
        {
            "weighs": _text("All of it, 500 g, or one: 50 g an egg, 244 g a cup."),
            "flour": _yes(),
            "water": _text("The share of it that is water: 76 %."),
            "edible": _text("The share of it that is left once trimmed: 90 %."),
            "allergens": _many(_id("An id of allergens.yaml.")),
            **said,
        },
    )
    place = {"place": said["place"]}
    pack = _block(
        "One kind of pack.",
        {"unit": _one_of(THINGS), "holds": _text(QUANTITY), "source": said["source"]},
        place,
    )
    schema = _file(
        "recipe.yaml: the structure of one recipe",
        {
            "source": _id("Where the amounts come from: an id of sources.yaml, or house."),
            "ingredients": _many(ingredient, 1),
            "method": _many(_id()),
        },
        {
            "portion": _block("What one portion weighs.", {"weight": _text(QUANTITY), "source": said["source"]}, place),
            "bath": _block(
                "In place of a portion: a pot of water that many portions share, filled again when it is spent.",
                {"takes": _id("A line: what goes in at one time."), "fills_last": _id("A line: batches a fill lasts.")},
                {},
            ),
            "buying": _each(_described(_many(pack, 1), "What an ingredient is bought in, whole.")),
            "loss": _block(
                "The share of a batch that is lost.", {"share": _text("2 %"), "source": said["source"]}, place
            ),
            "techniques": _many(_id("A folder of techniques.")),
            "standard": _standard(),
            "hazards": _many(_hazard()),
        },
    )
    schema["oneOf"] = [{"required": ["portion"]}, {"required": ["bath"]}]
    return schema


def recipe_words_schema() -> Schema:
    """Return the schema of the words of a recipe, in any language."""
    return _file(
        "en.yaml, es.yaml ...: the words of one recipe",
        {
            "title": _words("", SHORT),
            "makes": _words("", SHORT),
            "ingredients": _each(_words("", SHORT)),
            "method": _each(_words()),
        },
        {"loss": _words("What is lost, where a share of the batch is."), "hazards": _each(_words("The caution."))},
    )


def station_schema() -> Schema:
    """Return the schema of a station's file."""
    paper = _block(
        "A paper from outside.", {"id": _id(), "title": _text("", SHORT), "bars": _yes("Nobody works here without it.")}
    )
    schema = _file(
        "A station and what it asks for",
        {
            "title": _text("", SHORT),
            "techniques": _many(_id("A folder of techniques.")),
            "supervised_shifts": _whole(0, 60, "Shifts worked beside a cleared cook."),
        },
        {
            "certificates": _many(paper),
            "minimum_age": _whole(14, 99),
            "age_reason": _text("The law, or the house's reason."),
            "warn_days": _whole(1, 365, "How many days before a proof ends the cook is told."),
        },
    )
    schema["dependentRequired"] = {"minimum_age": ["age_reason"]}
    return schema


SCHEMAS: Mapping[str, Callable[[], Schema]] = MappingProxyType(
    {
        "technique": technique_schema,
        "words": words_schema,
        "recipe": recipe_schema,
        "recipe_words": recipe_words_schema,
        "station": station_schema,
    }
)
"""Every kind of file that has a schema, by the name to ask for it."""


def _edition() -> Schema:
    """Return the schema of an edition."""
    return _block(
        "One edition; numbered from 1 without a gap.",
        {
            "number": _whole(1, 999),
            "since": _day(),
            "changed": _text("What changed, in a sentence."),
            "sign_offs_hold": _yes(),
        },
        {"unless_missed": _many(_id("A point: who missed it and was signed off before shows it again."))},
    )


def _step() -> Schema:
    """Return the schema of a step; one that is timed says how long it lasts."""
    step = _block(
        "One thing to do, one screen.",
        {"id": _id(), "kind": _one_of(KINDS)},
        {
            "hazards": _many(_id("Cautions that stand above this step.")),
            "figure": _text("An .svg file in this folder.", SHORT),
            "lasts": {"anyOf": [_line_name(LASTS), _described(_many(_line_name(""), 2), "A timer for each line.")]},
        },
    )
    step["if"] = {"properties": {"kind": {"const": "time"}}}
    step["then"] = {"required": ["lasts"]}
    return step


def _point() -> Schema:
    """Return the schema of a point of the checklist."""
    return _block(
        "One line of the checklist.",
        {"id": _id(), "judged": _one_of(JUDGED)},
        {
            "critical": _yes("Missed, it means not yet, whatever else was right."),
            "limit": _line_name("What it is judged by: a line of the standard, or code.<id>."),
            "pieces": _whole(1, 100, "How many readings are taken."),
            "pieces_inside": _whole(1, 100, "How many of them must be inside."),
        },
    )


def _standard() -> Schema:
    """Return the schema of measured lines: typed with a source, or worked out."""
    one = {"anyOf": [_id(), _many(_id(), 1)]}
    room = {"in": _text("A unit the sum is told in, such as fl oz."), "give_or_take": _text(QUANTITY), "source": _id()}
    part = _block("A part of the mix.", {"food": _one_of(FOODS), "amount": _id("A line."), "at": _id("A line.")})
    typed = _block("A measured line.", {"source": _id("An id of sources.yaml, or house.")}, _measures())
    typed["anyOf"] = [{"required": [name]} for name in ("target", "lowest", "highest", "within")]
    kinds = [
        typed,
        _block("All of them together.", {"sum": _many(_id(), 2)}, room),
        _block("What is left.", {"take": one, "from": one}, room),
        _block("So many times.", {"times": one, "by": {"type": ["number", "string", "array"]}}, room),
        _block("One as a percentage of another.", {"share": one, "of": one}, room),
        _block("How warm they come out together.", {"mix": _many(part, 2)}, room),
        _block("A line of a recipe.", {"recipe": _text("A recipe and its line: durum_dough.boil.", SHORT)}, {}),
    ]
    for kind in kinds[1:-1]:
        kind["dependentRequired"] = {"source": ["give_or_take"], "give_or_take": ["source"]}
    return _each({"oneOf": kinds}, "Measured lines by id: typed with their source, or worked out.")


def _measures() -> Schema:
    """Return what a typed line may say."""
    names = ("target", "give_or_take", "lowest", "highest", "within")
    return {**{name: _text(QUANTITY) for name in names}, "place": _text("Where in the source, or how it was found.")}


def _hazard() -> Schema:
    """Return the schema of a hazard."""
    return _block("What can hurt somebody.", {"id": _id(), "form": _one_of(FORMS), "mark": _one_of(MARKS)})


def _quiz() -> Schema:
    """Return the schema of how a quiz is passed: so many right, or asked until the answers decide."""
    share = {"type": ["number", "string"], "description": "A share between 0 and 1, or in percent."}
    months = {"months": _whole(1, 120, "For how many months it is good.")}
    either = {
        "safety_percent": _whole(0, 100, "How many in a hundred of the questions with a caution must be right."),
        "waits": _described(_many(_whole(0, LONGEST_WAIT)), "Days before the next try, after each fail: [1, 3, 14]."),
    }
    fixed = _block(
        "So many right of a fixed number.",
        {**months, "need_right": _whole(1, 100)},
        {"decides": {"enum": ["no", False]}, **either},
    )
    deciding = _block(
        "Asked until the answers decide.",
        {**months, "decides": {"enum": ["yes", True]}},
        {
            **dict.fromkeys(("from", "to", "false_pass", "false_fail"), share),
            "at_most": _whole(FEWEST, MOST, "The most questions it may ask."),
            **either,
        },
    )
    return {"oneOf": [fixed, deciding]}


def _range(usual: Range) -> Schema:
    """Return the schema of a range: what it means, and how one is written."""
    return {"type": "string", "description": f"The {usual.means}: 8 to 16 step 1/2, or a limit, code.<id>."}


def _question() -> Schema:
    """Return the schema of a question family as it is set; each family knows its own ranges."""
    question = _block(
        "A question family.",
        {"family": _one_of(FAMILIES), "count": _whole(1, 50, "How often it is asked in a sitting or a round.")},
        {"ranges": {"type": "object"}},
    )
    question["allOf"] = [
        {
            "if": {"properties": {"family": {"const": name}}},
            "then": {
                "properties": {
                    "ranges": {
                        "properties": {key: _range(each) for key, each in family.ranges.items()},
                        "additionalProperties": False,
                    }
                }
            },
        }
        for name, family in FAMILIES.items()
    ]
    return question


def _questions_words() -> Schema:
    """Return the schema of the words questions use, each family its own."""
    alternatives = _words("Things a question may draw, with | between them.")
    families = {
        name: {"type": "object", "properties": dict.fromkeys(family.words, alternatives), "additionalProperties": False}
        for name, family in FAMILIES.items()
    }
    return {"type": "object", "properties": families, "additionalProperties": False}


def _file(title: str, needed: Schema, besides: Schema) -> Schema:
    """Return the schema of a whole file."""
    return {"$schema": DRAFT, "title": title, **_block("", needed, besides)}


def _block(description: str, needed: Schema, besides: Schema | None = None) -> Schema:
    """Return the schema of a block with closed keys."""
    block: Schema = {"type": "object", "properties": {**needed, **(besides or {})}, "additionalProperties": False}
    return _described({**block, "required": list(needed)}, description)


def _each(schema: Schema, description: str = "") -> Schema:
    """Return the schema of a block whose keys are ids."""
    block = {"type": "object", "propertyNames": {"pattern": f"^{ID.pattern}$"}, "additionalProperties": schema}
    return _described(block, description)


def _many(schema: Schema, fewest: int = 0) -> Schema:
    """Return the schema of a list."""
    return {"type": "array", "items": schema, **({"minItems": fewest} if fewest else {})}


def _id(description: str = "") -> Schema:
    """Return the schema of an id."""
    return _described({"type": "string", "pattern": f"^{ID.pattern}$"}, description)


def _line_name(description: str) -> Schema:
    """Return the schema of the name of a line, of the file or of the local code."""
    return {"type": "string", "pattern": rf"^(code\.)?{ID.pattern}$", "description": description}


def _text(description: str = "", longest: int = LONG) -> Schema:
    """Return the schema of a text; a bare number is one too, since files are read as they were typed."""
    return _described({"type": ["string", "number"], "minLength": 1, "maxLength": longest}, description)


def _words(description: str = "", longest: int = LONG) -> Schema:
    """Return the schema of words: no figure outside braces."""
    return _described({"type": "string", "minLength": 1, "pattern": OUTSIDE_BRACES, "maxLength": longest}, description)


def _whole(lowest: int, highest: int, description: str = "") -> Schema:
    """Return the schema of a whole number."""
    number = {"type": ["integer", "string"], "minimum": lowest, "maximum": highest, "pattern": f"^{WHOLE.pattern}$"}
    return _described(number, description)


def _day() -> Schema:
    """Return the schema of a date."""
    return {"type": "string", "pattern": f"^{DAY.pattern}$", "description": "Year-month-day: 2025-03-01."}


def _yes(description: str = "") -> Schema:
    """Return the schema of yes or no, which some editors read as true and false."""
    return _described({"enum": ["yes", "no", True, False]}, description)


def _one_of(known: Any) -> Schema:  # noqa: ANN401 - any closed list of words
    """Return the schema of a word out of a closed list."""
    return {"enum": list(known)}


def _described(schema: Schema, description: str) -> Schema:
    """Return a schema with what an editor shows beside it."""
    return {**schema, "description": description} if description else schema
