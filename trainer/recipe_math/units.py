"""The units a kitchen uses, each an exact fraction of its base: g, mL, mm, °C, s, one piece, one of the money.

Sources: the exact definitions of the Unified Code for Units of Measure (ucum-essence.xml) and NIST Special Publication
811, Appendix B: pound 453.59237 g, inch 25.4 mm, US gallon 231 cubic inches, imperial gallon 4.54609 L. US label
measures: 21 CFR 101.9(b)(5)(viii). Three systems share names (cup, pint): `system` says which one is meant.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import Message, Text, counted, message, plural
from trainer.recipe_math.quantity import COUNT, TEMPERATURE, TEMPERATURE_DIFFERENCE, QuantityProblem, Unit

POUND = Fraction("453.59237")
INCH = Fraction("25.4")
GALLON = 231 * INCH**3 / 1000
IMPERIAL_GALLON = Fraction("4546.09")
PREFERRED_SYSTEMS = MappingProxyType({"us": "us_exact", "us_label": "us_label", "imperial": "imperial"})


class UnknownUnit(QuantityProblem):
    """No unit goes by this name."""


def _of(dimension: str, system: str, **factors: Fraction | int | str) -> list[Unit]:
    return [Unit(name.replace("_", " "), dimension, Fraction(f), system=system) for name, f in factors.items()]


def _mass() -> list[Unit]:
    return [
        *_of("mass", "metric", g=1, kg=1000, mg=Fraction(1, 1000)),
        *_of("mass", "customary", lb=POUND, oz=POUND / 16, grain=POUND / 7000),
        *_of("mass", "us_label", label_oz=28),
    ]


def _volume() -> list[Unit]:
    us, imp = GALLON, IMPERIAL_GALLON
    return [
        *_of("volume", "metric", mL=1, L=1000, cL=10, dL=100, hL=100_000),
        *_of("volume", "customary", cu_in=INCH**3 / 1000),
        *_of("volume", "us_exact", gal=us, qt=us / 4, pt=us / 8, cup=us / 16, gill=us / 32, fl_oz=us / 128),
        *_of("volume", "us_exact", Tbsp=us / 256, tsp=us / 768),
        *_of("volume", "us_exact", dry_pt="550.6104713575", dry_qt="1101.220942715"),
        *_of("volume", "us_label", label_cup=240, label_fl_oz=30, label_Tbsp=15, label_tsp=5),
        *_of("volume", "imperial", imperial_gal=imp, imperial_qt=imp / 4, imperial_pt=imp / 8),
        *_of("volume", "imperial", imperial_gill=imp / 32, imperial_fl_oz=imp / 160),
    ]


def _temperature() -> list[Unit]:
    per_degree = Fraction(5, 9)
    return [
        Unit("°C", TEMPERATURE, Fraction(1)),
        Unit("°F", TEMPERATURE, per_degree, Fraction(-32), "customary"),
        Unit("°C difference", TEMPERATURE_DIFFERENCE, Fraction(1)),
        Unit("°F difference", TEMPERATURE_DIFFERENCE, per_degree, system="customary"),
    ]


def _others() -> list[Unit]:
    return [
        *_of("length", "metric", mm=1, cm=10, m=1000),
        *_of("length", "customary", ft=12 * INCH),
        Unit("in", "length", INCH, system="customary"),
        *_of("duration", "metric", s=1, min=60, h=3600, days=86_400, weeks=604_800),
        *_of("share", "metric", times=1),
        Unit("%", "share", Fraction(1, 100)),
        Unit("ppm", "share", Fraction(1, 1_000_000)),
        Unit("$", "money:USD", Fraction(1)),
        Unit("¢", "money:USD", Fraction(1, 100)),
        Unit("€", "money:EUR", Fraction(1)),
        Unit("£", "money:GBP", Fraction(1)),
    ]


_THINGS = {
    "can": plural("can", "cans", 1), "jar": plural("jar", "jars", 1), "tin": plural("tin", "tins", 1),
    "bag": plural("bag", "bags", 1), "box": plural("box", "boxes", 1), "case": plural("case", "cases", 1),
    "carton": plural("carton", "cartons", 1),
    "pack": plural("pack", "packs", 1), "bottle": plural("bottle", "bottles", 1), "tray": plural("tray", "trays", 1),
    "pan": plural("pan", "pans", 1), "egg": plural("egg", "eggs", 1), "portion": plural("portion", "portions", 1),
    "batch": plural("batch", "batches", 1), "guest": plural("guest", "guests", 1),
    "nest": plural("nest", "nests", 1), "ball": plural("ball", "balls", 1), "sheet": plural("sheet", "sheets", 1),
    "ladle": plural("ladle", "ladles", 1),
}  # fmt: skip
THINGS = tuple(_THINGS)
_WORDS: Mapping[str, Message] = {
    **_THINGS,
    "piece": plural("piece", "pieces", 1),
    "cup": plural("cup", "cups", 1),
    "label cup": plural("label cup", "label cups", 1),
    "days": plural("day", "days", 1),
    "weeks": plural("week", "weeks", 1),
    "times": plural("time", "times", 1),
    "m": plural("meter", "meters", 1),
    "Tbsp": message("Tbsp"),
    "tsp": message("tsp"),
    "fl oz": message("fl oz"),
    "each": message("each"),
    "dozen": message("dozen"),
    "dozen eggs": message("dozen eggs"),
    "°C difference": message("°C difference"),
    "°F difference": message("°F difference"),
}


def _counts() -> list[Unit]:
    return [
        *_of(COUNT, "metric", each=1, dozen=12),
        *(Unit(thing, f"{COUNT}:{thing}", Fraction(1)) for thing in THINGS),
        Unit("dozen eggs", f"{COUNT}:egg", Fraction(12)),
    ]


UNITS: Mapping[str, Unit] = MappingProxyType(
    {made.symbol: made for made in [*_mass(), *_volume(), *_temperature(), *_others(), *_counts()]}
)
"""Every unit by its symbol."""

_SHARED_NAMES = {
    "gal": "gallon gallons", "qt": "qts quart quarts", "pt": "pts pint pints", "cup": "c cups",
    "gill": "gills", "fl oz": "floz fl.oz|fluid ounce|fluid ounces|fl ounce|fl ounces",
    "Tbsp": "T tbsp tbsps tbs tb tablespoon tablespoons", "tsp": "t tsps teaspoon teaspoons",
    "oz": "ozs ounce ounces",
}  # fmt: skip
_NAMES = {
    "g": "gm gms gram grams gramme grammes", "kg": "kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "mg": "milligram milligrams", "lb": "lbs pound pounds #", "grain": "grains",
    "mL": "ml cc cm3 milliliter milliliters millilitre millilitres|cubic centimeters|cubic centimetres",
    "L": "l ltr liter liters litre litres", "cL": "cl centiliter centiliters centilitre centilitres",
    "dL": "dl deciliter deciliters decilitre decilitres", "hL": "hl hectoliter hectoliters hectolitre hectolitres",
    "cu in": "in3|cubic inch|cubic inches", "dry pt": "|dry pint|dry pints", "dry qt": "|dry quart|dry quarts",
    "mm": "millimeter millimeters millimetre millimetres", "m": "meter meters metre metres",
    "cm": "centimeter centimeters centimetre centimetres", "in": 'inch inches "', "ft": "foot feet",
    "s": "sec secs second seconds", "min": "mins minute minutes", "h": "hr hrs hour hours",
    "days": "d day", "weeks": "wk wks week",
    "°C": "C degC celsius|° C|deg C|degree C|degrees C|degrees celsius|degree celsius",
    "°F": "F degF fahrenheit|° F|deg F|degree F|degrees F|degrees fahrenheit|degree fahrenheit",
    "°C difference": "|C difference|degrees C difference|degrees celsius difference",
    "°F difference": "|F difference|degrees F difference|degrees fahrenheit difference",
    "%": "percent|per cent", "ppm": "|parts per million|part per million", "times": "time",
    "$": "USD dollar dollars", "¢": "cent cents", "€": "EUR euro euros", "£": "GBP",
    "each": "ea piece pieces pc pcs", "dozen": "doz dz dozens", "dozen eggs": "|doz eggs",
    "portion": "serving servings", "pack": "packet packets package packages pkg",
}  # fmt: skip
_IN_SPANISH = {
    "g": "gramo gramos grs", "kg": "kilogramo kilogramos", "mg": "miligramo miligramos", "lb": "libra libras",
    "mL": "mililitro mililitros", "L": "litro litros lt lts",
    "cL": "centilitro centilitros", "dL": "decilitro decilitros",
    "mm": "milímetro milímetros milimetro milimetros", "cm": "centímetro centímetros centimetro centimetros",
    "m": "metro metros", "in": "pulgada pulgadas pulg", "ft": "pie pies",
    "s": "segundo segundos seg", "min": "minuto minutos", "h": "hora horas", "days": "día días dia dias",
    "weeks": "semana semanas", "°C": "centígrados|grados C|grados celsius|grado celsius|grados centígrados",
    "°F": "|grados F|grados fahrenheit|grado fahrenheit", "%": "|por ciento", "times": "vez veces",
    "$": "dólar dólares dolar dolares", "each": "pieza piezas pza pzas", "dozen": "docena docenas",
    "can": "lata latas", "jar": "frasco frascos", "bag": "bolsa bolsas", "case": "caja cajas",
    "carton": "cartón cartones carton", "pack": "paquete paquetes", "bottle": "botella botellas",
    "tray": "charola charolas bandeja bandejas", "egg": "huevo huevos",
    "portion": "porción porciones porcion", "batch": "tanda tandas", "guest": "comensal comensales",
    "nest": "nido nidos", "ball": "bola bolas", "sheet": "lámina láminas lamina laminas",
    "ladle": "cucharón cucharones cucharon",
}  # fmt: skip
_SHARED_IN_SPANISH = {
    "gal": "galón galones galon", "qt": "|cuarto de galón|cuartos de galón", "pt": "pinta pintas", "cup": "taza tazas",
    "fl oz": "|onza líquida|onzas líquidas|onza liquida|onzas liquidas", "oz": "onza onzas",
    "Tbsp": "cda cdas cucharada cucharadas", "tsp": "cdta cdtas cdita cditas cucharadita cucharaditas",
}  # fmt: skip
"""As cooks write them in Spanish, with and without the accent a phone makes hard to type (common practice)."""
CASE_MATTERS = frozenset({"t", "T", "c", "C", "M", "G", "Mg"})
"""Names that say something else, or nothing sure, in the other case: 2 T is tablespoons, 2 t teaspoons."""


def word_of(symbol: str, count: int) -> Text:
    """Return the word of a unit after a whole number, in any language; a symbol that is no word as it is.

    After a fraction the next whole number decides: 1/2 cup, 1 1/2 cups.

    >>> from trainer.messages import translate
    >>> translate(word_of("case", 2)), translate(word_of("case", 1)), word_of("kg", 2)
    ('cases', 'case', 'kg')
    """
    word = _WORDS.get(symbol, symbol)
    return counted(word, count) if isinstance(word, Message) else word


def _names_of(symbol: str, names: str) -> list[str]:
    words, *phrases = names.split("|")
    return [symbol, *words.split(), *phrases]


def _spoken_names() -> dict[str, str]:
    every = (*_NAMES.items(), *_IN_SPANISH.items())
    named = {name: symbol for symbol, names in every for name in _names_of(symbol, names)}
    for thing in THINGS:
        named |= dict.fromkeys((thing, _THINGS[thing].many), thing)
    named |= dict.fromkeys(("serving", "servings"), "portion")
    return {symbol: symbol for symbol in UNITS} | named


def _names_in(system: str) -> dict[str, Unit]:
    """Return every name a unit goes by in one system: shared names mean that system's own measure where it has one."""
    prefix = {"us_exact": "", "us_label": "label ", "imperial": "imperial "}[system]
    named = {name: UNITS[symbol] for name, symbol in _spoken_names().items()}
    for symbol, names in (*_SHARED_NAMES.items(), *_SHARED_IN_SPANISH.items()):
        for name in _names_of(symbol, names):
            for own in ("label ", "imperial "):
                if own + symbol in UNITS:
                    named[own + name] = UNITS[own + symbol]
            named["US " + name] = UNITS[symbol]
            own_symbol = prefix + symbol
            if own_symbol in UNITS:
                named[name] = UNITS[own_symbol]
            elif symbol == "oz":
                named[name] = UNITS[symbol]
            else:
                named.pop(name, None)
    lowered = {name.lower(): made for name, made in named.items() if name not in CASE_MATTERS}
    return lowered | named


_BY_SYSTEM: Mapping[str, Mapping[str, Unit]] = MappingProxyType(
    {short: MappingProxyType(_names_in(system)) for short, system in PREFERRED_SYSTEMS.items()}
)


def names_in(system: str) -> Mapping[str, Unit]:
    """Return every written name of a unit as read in a system: "us", "us_label" or "imperial".

    >>> names_in("imperial")["pint"].symbol
    'imperial pt'
    """
    try:
        return _BY_SYSTEM[system]
    except KeyError:
        raise UnknownUnit(
            message(
                "{system} is not a system of measures: there are {systems}.",
                system=repr(system),
                systems=", ".join(_BY_SYSTEM),
            )
        ) from None


def unit(name: str, system: str = "us") -> Unit:
    """Return the unit that goes by a symbol or a name, in a system where the name is shared.

    Capitals matter only where they tell two units apart (T and t, C and c). Raises UnknownUnit, which names the text.

    >>> unit("tablespoons") is unit("T"), unit("t").symbol, unit("pint", "imperial").symbol
    (True, 'tsp', 'imperial pt')
    """
    names = names_in(system)
    plain = " ".join(name[:60].replace(".", " ").split())
    found = names.get(plain)
    if found is None and plain not in CASE_MATTERS:
        found = names.get(plain.lower())
    if found is None:
        raise UnknownUnit(message("{unit} is not a unit this kitchen knows.", unit=repr(name[:60])))
    return found
