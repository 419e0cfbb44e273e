"""The format of content files as JSON Schema (draft 2020-12), for editors that complete keys and mark slips.

What a schema cannot say (that a line exists, that units are alike, that a station's technique is there) `content check`
says.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from types import MappingProxyType

from trainer.content import kinds
from trainer.content.foods import FOODS
from trainer.content.instruments import INSTRUMENTS
from trainer.content.kinds import Kind, Schema
from trainer.content.kitchen import ALLERGENS, SOURCES, KitchenCodeFile, LocalCodeFile, StationFile
from trainer.content.question_words import FOOD_NAMES, families_file
from trainer.content.recipes import RecipeFile, RecipeWords
from trainer.content.skills import SkillFile, SkillWords
from trainer.content.techniques import TechniqueFile, TechniqueWords

DRAFT = "https://json-schema.org/draft/2020-12/schema"
FILES: Mapping[str, tuple[str, Kind]] = MappingProxyType(
    {
        "technique": ("technique.yaml: the structure of one technique", kinds.nested(TechniqueFile)),
        "words": ("en.yaml, es.yaml ...: the words of one technique", kinds.nested(TechniqueWords)),
        "recipe": ("recipe.yaml: the structure of one recipe", kinds.nested(RecipeFile)),
        "recipe_words": ("en.yaml, es.yaml ...: the words of one recipe", kinds.nested(RecipeWords)),
        "foods": ("foods.yaml: what is the same thing in every recipe", FOODS),
        "skill": ("skill.yaml: one thing a cook is asked", kinds.nested(SkillFile)),
        "skill_words": ("en.yaml, es.yaml ...: the words of one skill", kinds.nested(SkillWords)),
        "question_words": ("questions/<group>/en.yaml, es.yaml ...: the words of question families", families_file()),
        "food_names": ("questions/foods/en.yaml, es.yaml ...: what questions call foods", FOOD_NAMES),
        "station": ("stations/<id>.yaml: a station and what it asks for", kinds.nested(StationFile)),
        "sources": ("sources.yaml: where numbers and rules come from", SOURCES),
        "instruments": ("instruments.yaml: what readings are taken with", INSTRUMENTS),
        "allergens": ("allergens.yaml: the allergens a technique may name", ALLERGENS),
        "kitchen_code": ("kitchen_code.yaml: the local code, and the house's own lines", kinds.nested(KitchenCodeFile)),
        "local_code": ("local_code/<id>.yaml: a local code as published", kinds.nested(LocalCodeFile)),
    }
)
"""Every kind of file: its title and what it holds, by the name to ask for its schema."""


def _schema(title: str, kind: Kind) -> Schema:
    """Return the schema of a whole file."""
    return {"$schema": DRAFT, **kind.schema, "title": title}


SCHEMAS: Mapping[str, Callable[[], Schema]] = MappingProxyType(
    {name: partial(_schema, title, kind) for name, (title, kind) in FILES.items()}
)
