"""A second way to the answers of figures and choices: the drawing is measured, each line of a sum is worked out again.

Nothing here uses what a family drew: only the question as it stands on the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import atan2, degrees
from xml.etree import ElementTree as ET

from tests.kitchen.quiz.asking import Asked
from tests.kitchen.quiz.worked_by_hand import BY_HAND, number, pieces
from trainer.kitchen.quiz.material import PRACTICE, Material

SVG = "{http://www.w3.org/2000/svg}"
Element = ET.Element


def shapes(question: Asked, kind: str) -> list[Element]:
    """Return the shapes of one kind in a question's figure."""
    return list(ET.fromstring(question.figure).iter(SVG + kind))  # noqa: S314 - drawn by the program under test


def of(shape: Element, name: str) -> float:
    """Return a measure of a shape."""
    return float(shape.attrib[name])


def thick(question: Asked, width: str) -> Element:
    """Return the one line of this thickness."""
    (found,) = (line for line in shapes(question, "line") if line.attrib["stroke-width"] == width)
    return found


def read_scale(question: Asked) -> Fraction:
    """Measure the pointer's angle against those of the numbers."""
    pointer = thick(question, "3")
    turn = degrees(atan2(of(pointer, "x2") - of(pointer, "x1"), of(pointer, "y1") - of(pointer, "y2"))) % 360
    numbers = [int(text.text or "") for text in shapes(question, "text") if (text.text or "").isdigit()]
    around = max(numbers) + sorted(numbers)[1]
    mark = Fraction(around, len(shapes(question, "line")) - 1)
    return round(Fraction(turn) / 360 * around / mark) * mark


def read_balance(question: Asked) -> Fraction:
    """Read the display, and take off the bowl the text speaks of."""
    (shown,) = (text.text or "" for text in shapes(question, "text"))
    (bowl,) = pieces(r"bowl weighs ([\d.]+) (?:g|oz)\.", question.text)
    if shown.endswith(" kg"):
        return Fraction(shown.removesuffix(" kg")) * 1000 - int(bowl)
    pounds, ounces = pieces(r"(\d+) lb ([\d.]+) oz", shown)
    return 16 * int(pounds) + Fraction(ounces) - Fraction(bowl)


def read_thermometer(question: Asked) -> Fraction:
    """Measure the top of the column between the lowest and the highest number."""
    numbers = [text for text in shapes(question, "text") if (text.text or "").lstrip("-").isdigit()]
    low, high = (pick(numbers, key=lambda text: int(text.text or "")) for pick in (min, max))
    tops = {text.text: of(text, "y") - 5 for text in (low, high)}
    top, span = of(thick(question, "6"), "y2"), int(high.text or "") - int(low.text or "")
    share = (tops[low.text] - top) / (tops[low.text] - tops[high.text])
    return int(low.text or "") + Fraction(round(share * span * 2), 2)


SIDES = {"large dice": 19.05, "medium dice": 12.7, "small dice": 6.35, "brunoise": 3.175, "fine brunoise": 1.5875}
STICKS = {"batonnet": 6.35, "julienne": 3.175, "fine julienne": 1.5875}


def name_cut(question: Asked) -> str:
    """Measure both rectangles: 3/4, 1/2, 1/4, 1/8 and 1/16 in are 19.05, 12.7, 6.35, 3.175 and 1.5875 mm."""
    end, side = shapes(question, "rect")
    wide, high, long = of(end, "width"), of(end, "height"), of(side, "width")
    if long > 1.5 * wide:
        return min(STICKS, key=lambda name: abs(STICKS[name] - wide))
    return "paysanne" if wide > 1.5 * high else min(SIDES, key=lambda name: abs(SIDES[name] - wide))


def holds(line: str) -> bool:
    """Return whether a line's last result is what the sum before it comes to, to the places shown.

    One part in a million is left to a factor such as 3785.41 mL that is itself shown to two places.
    """
    before, _, after = line.rpartition("=")
    result = re.match(r" (?:about )?(\d+ \d+/\d+|[\d.]+\d|\d)", after)
    if result is None:
        return True
    worked = re.sub(r"(\d+) (\d+/\d+)", r"(\1 + \2)", before.rpartition(": ")[2].rpartition(", ")[2])
    worked = re.sub(r"[A-Za-z$%°]+", " ", worked).replace("×", "*").replace("about", "")
    value = eval(re.sub(r"[\d.]+", lambda found: f"Fraction('{found[0].strip('.')}')", worked), {"Fraction": Fraction})  # noqa: S307 - numbers and signs alone
    slack = Fraction(1, 200) + abs(Fraction(value)) / 1_000_000
    return abs(Fraction(value) - number(result[1])) <= slack


def spot_slip(question: Asked) -> str:
    """Work out each line again: one alone does not hold."""
    (slip,) = (choice.text for choice in question.choices if not holds(choice.text))
    return slip


MADE_FROM: Mapping[str, str] = {
    # What words on packets are made from: common practice. Gluten grains: Regulation (EU) 1169/2011, Annex II, point 1.
    "whey powder": "milk", "casein": "milk", "ghee": "milk", "curds": "milk", "albumen": "egg",
    "meringue powder": "egg", "mayonnaise": "egg", "anchovy paste": "fish", "bonito flakes": "fish", "cod roe": "fish",
    "prawn powder": "shellfish", "krill": "shellfish", "crayfish tails": "shellfish", "marzipan": "tree nuts",
    "praline": "tree nuts", "almond flour": "tree nuts", "cashew cream": "tree nuts", "semolina": "wheat",
    "bulgur": "wheat", "couscous": "wheat", "spelt": "wheat", "seitan": "wheat", "barley malt": "gluten grains",
    "rye flakes": "gluten grains", "groundnuts": "peanut", "groundnut paste": "peanut", "tofu": "soy", "tempeh": "soy",
    "edamame": "soy", "tahini": "sesame", "gomasio": "sesame", "benne seed": "sesame", "celeriac": "celery",
    "celery salt": "celery", "Dijon": "mustard", "metabisulfite": "sulfites", "lupini beans": "lupin",
    "squid ink": "mollusks", "cockles": "mollusks",
}  # fmt: skip


def find_allergen(question: Asked) -> str:
    """Look each word up in a list of what it is made from."""
    if "Choose every word" in question.text:
        (allergen,) = pieces(r"cannot have (.+?)\. Choose", question.text)
        return "|".join(choice.text for choice in question.choices if MADE_FROM.get(choice.text) == allergen)
    if "A guest cannot have" in question.text:
        (allergen,) = pieces(r"cannot have (.+?)\. At which", question.text)
        (word,) = (choice.text for choice in question.choices if MADE_FROM.get(choice.text) == allergen)
        return word
    (allergen,) = {made for word, made in MADE_FROM.items() if re.search(rf"\b{word}\b", question.text)}
    return allergen


def choose_fault(question: Asked, material: Material = PRACTICE) -> str:
    """Look the sign up among the faults."""
    (sign,) = pieces(r"You see this: (.+?) (?:What is behind|How do you put)", question.text)
    (fault,) = (fault for fault in material.faults if fault.shows.rstrip(".") == sign.rstrip("."))
    return fault.cure if "How do you" in question.text else fault.cause


def order_steps(question: Asked, material: Material = PRACTICE) -> str:
    """Look the steps up in their order."""
    steps = [step.text.rstrip(".!?") for step in material.steps]
    if "Which step comes next?" in question.text:
        (done,) = pieces(r"just done this: (.+?) Which step", question.text)
        return material.steps[steps.index(done.rstrip(".!?")) + 1].text
    lettered = dict(line.split(": ", 1) for line in question.text.split("\n")[1:])
    return ", ".join(sorted(lettered, key=lambda letter: steps.index(lettered[letter].rstrip(".!?"))))


DECIDED: Mapping[str, str] = {
    # Boiling pasta, common practice: what each scene of the stand-in asks for, said once more.
    "strands hang together": "Stir down to the bottom",
    "broke when it was tossed": "It boiled too long|It stood hot after draining|It was tossed hard",
    "in the steam well": "The line for holding hot",
    "full and boiling": "Two cooks, once it is cool",
    "is there egg": "I will get the person who knows.",
    "nearly up": "Taste a strand|The bite tells when it is done",
}
CORES = {"44": "too late", "22": "too early", "5": "right"}


def decide(question: Asked) -> str:
    """Say what the scene asks for; look into each strand; work out the minutes."""
    if question.pictures:
        dots = [float(each.attrib["r"]) for each in shapes(question, "circle")]
        cores = [CORES[f"{min(dots[at : at + 2]):g}" if dots[at + 1 : at + 2] != [44] else "44"] for at in starts(dots)]
        return "|".join(cores)
    if not question.choices:
        start, now = pieces(r"at (\d+:\d+)\. It is (\d+:\d+)", question.text)
        return str(25 - (in_minutes(now) - in_minutes(start)))
    return next(right for sign, right in DECIDED.items() if sign in question.text)


def starts(dots: list[float]) -> list[int]:
    """Return where each strand begins: its rim is drawn first."""
    return [place for place, size in enumerate(dots) if size == 44]


def in_minutes(time: str) -> int:
    """Return a time of day in minutes."""
    hour, minute = time.split(":")
    return int(hour) * 60 + int(minute)


def egg_state(question: Asked) -> str:
    """Work out the mix by its heat, and hold it to the band in the text."""
    m1, t1, m2, t2 = pieces(r"whisk (\d+) g .*? at ([\d.]+) °C into (\d+) g .*? at ([\d.]+) °C", question.text)
    hot, egg = pieces(r"as 1, the .*? holds ([\d.]+) of heat and the egg ([\d.]+)\.", question.text)
    thickens, sets = pieces(r"thicken at ([\d.]+) °C\. At ([\d.]+) °C it has set", question.text)
    parts = (int(m1) * Fraction(hot), int(m2) * Fraction(egg))
    mix = Fraction(t2) + (Fraction(t1) - Fraction(t2)) * parts[0] / sum(parts)
    if mix >= Fraction(sets):
        return "It has set"
    return "It has begun to thicken" if mix >= Fraction(thickens) else "It is still smooth"


BY_EYE: Mapping[str, Callable[[Asked], Fraction]] = {
    rule.__name__: rule for rule in (read_scale, read_balance, read_thermometer)
}
BY_CHOICE: Mapping[str, Callable[[Asked], str]] = {
    rule.__name__: rule for rule in (name_cut, find_allergen, spot_slip, choose_fault, order_steps, decide, egg_state)
}

ESTIMATED = {"portion_spread", "cooling_time", "thickness_time", "log_reduction", "d_at_other_temperature"}
"""Families whose key comes from an estimate or a root, kept to six decimals or more."""


def agrees(question: Asked) -> bool:
    """Return whether the key is what a person finds who has the question and nothing else."""
    if question.family in BY_CHOICE:
        wanted = BY_CHOICE[question.family](question)
        if question.pictures:
            return "|".join(question.choices[int(each.right) - 1].text for each in question.pictures) == wanted
        if question.answering == "number":
            return str(question.answer.value) == wanted
        if question.answering != "one":
            return {each.text for each in question.every_choice if each.is_right} == set(wanted.split("|"))
        right = [choice for choice in question.choices if choice.text == wanted]
        return len(right) == 1 and right[0].is_right and question.answer.value == Fraction(right[0].key)
    if question.family in BY_EYE:
        return question.answer.value == BY_EYE[question.family](question)
    by_hand = BY_HAND[question.family](question.text)
    within = Fraction(1, 100_000) if question.family in ESTIMATED else Fraction(0)
    return abs(question.answer.value - by_hand) <= within
