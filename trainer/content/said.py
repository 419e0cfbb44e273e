"""The words the loader itself puts around a number, in every language content is written in: one small table.

English is used for a language that is not here.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

ENGLISH = "en"

_SAID: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        ENGLISH: {
            "room": "{target}, give or take {room}",
            "span": "from {lowest} to {highest}",
            "warmest": "at or below {highest}",
            "coldest": "at or above {lowest}",
            "most": "at most {highest}",
            "least": "at least {lowest}",
            "within": "within {highest}",
            "instead": "{name}: {line}, in place of {published} ({place}). {reason}",
            "day": "day|days",
            "hour": "hour|hours",
            "minute": "minute|minutes",
            "second": "second|seconds",
        },
        "es": {
            "room": "{target}, más o menos {room}",
            "span": "de {lowest} a {highest}",
            "warmest": "{highest} o menos",
            "coldest": "{lowest} o más",
            "most": "como máximo {highest}",
            "least": "al menos {lowest}",
            "within": "con diferencia de hasta {highest}",
            "instead": "{name}: {line}, en lugar de {published} ({place}). {reason}",
            "day": "día|días",
            "hour": "hora|horas",
            "minute": "minuto|minutos",
            "second": "segundo|segundos",
        },
    }
)
_MEASURES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "es": {
            "cup": "taza", "cups": "tazas", "Tbsp": "cda", "tsp": "cdta", "fl oz": "oz fl", "dozen": "docenas",
            "dozen eggs": "docenas de huevos", "each": "piezas", "days": "días", "times": "veces",
            "can": "lata", "cans": "latas", "jar": "frasco", "jars": "frascos", "tin": "lata", "tins": "latas",
            "bag": "bolsa", "bags": "bolsas", "box": "caja", "boxes": "cajas", "case": "caja", "cases": "cajas",
            "pack": "paquete", "packs": "paquetes", "bottle": "botella", "bottles": "botellas", "tray": "bandeja",
            "trays": "bandejas", "pan": "sartén", "pans": "sartenes", "egg": "huevo", "eggs": "huevos",
            "portion": "porción", "portions": "porciones", "batch": "tanda", "batches": "tandas",
            "guest": "comensal", "guests": "comensales", "nest": "nido", "nests": "nidos", "ball": "bola",
            "balls": "bolas", "sheet": "lámina", "sheets": "láminas",
        },
    }
)  # fmt: skip
"""Measures that are words; symbols such as oz, g and °F are the same in every language."""
_WORD = re.compile(r"(?<=\d )(?:dozen eggs|fl oz|[A-Za-z]+)")


def said(language: str, key: str, **values: str) -> str:
    """Return a phrase of the table in a language, its braces filled in.

    >>> said("en", "span", lowest="1 h", highest="2 h"), said("es", "span", lowest="1 h", highest="2 h")
    ('from 1 h to 2 h', 'de 1 h a 2 h')
    """
    return _SAID.get(language, _SAID[ENGLISH])[key].format(**values)


def said_counted(language: str, key: str, number: str) -> str:
    """Return a number with its word, which is in the plural for anything but one.

    >>> said_counted("es", "hour", "1"), said_counted("es", "hour", "2")
    ('1 hora', '2 horas')
    """
    one, many = _SAID.get(language, _SAID[ENGLISH])[key].split("|")
    return f"{number} {one if number == '1' else many}"


def measures_said(language: str, text: str) -> str:
    """Return a printed amount with the measures that are words in another language.

    >>> measures_said("es", "2 1/2 cups (592 mL)"), measures_said("es", "2 fl oz (59 mL)")
    ('2 1/2 tazas (592 mL)', '2 oz fl (59 mL)')
    """
    words = _MEASURES.get(language, {})
    return _WORD.sub(lambda found: words.get(found[0], found[0]), text) if words else text
