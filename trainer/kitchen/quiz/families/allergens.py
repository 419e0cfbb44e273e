"""Words on a packet that carry an allergen of the law: which one hides, and which word to stop at."""

from __future__ import annotations

from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.choices import mixed_up
from trainer.kitchen.quiz.family import Choosing, Drawn, Posed, span
from trainer.kitchen.quiz.question import Choice

GLUTEN = "gluten grains"


class Carrier(NamedTuple):
    """A word on a packet and the allergen it carries; what it may carry besides is never asked beside it."""

    word: str
    allergen: str
    besides: tuple[str, ...] = ()


CARRIERS = (
    Carrier("whey powder", "milk"), Carrier("casein", "milk"), Carrier("ghee", "milk"), Carrier("curds", "milk"),
    Carrier("albumen", "egg"), Carrier("meringue powder", "egg"), Carrier("mayonnaise", "egg", ("mustard",)),
    Carrier("anchovy paste", "fish"), Carrier("bonito flakes", "fish"), Carrier("cod roe", "fish"),
    Carrier("prawn powder", "shellfish"), Carrier("krill", "shellfish"), Carrier("crayfish tails", "shellfish"),
    Carrier("marzipan", "tree nuts", ("egg",)), Carrier("praline", "tree nuts", ("milk", "peanut")),
    Carrier("almond flour", "tree nuts"), Carrier("cashew cream", "tree nuts"),
    Carrier("semolina", "wheat", (GLUTEN,)), Carrier("bulgur", "wheat", (GLUTEN,)),
    Carrier("couscous", "wheat", (GLUTEN,)), Carrier("spelt", "wheat", (GLUTEN,)),
    Carrier("seitan", "wheat", (GLUTEN, "soy")), Carrier("barley malt", GLUTEN), Carrier("rye flakes", GLUTEN),
    Carrier("groundnuts", "peanut"), Carrier("groundnut paste", "peanut"),
    Carrier("tofu", "soy"), Carrier("tempeh", "soy"), Carrier("edamame", "soy"),
    Carrier("tahini", "sesame"), Carrier("gomasio", "sesame"), Carrier("benne seed", "sesame"),
    Carrier("celeriac", "celery"), Carrier("celery salt", "celery"),
    Carrier("Dijon", "mustard", ("sulfites",)), Carrier("metabisulfite", "sulfites"),
    Carrier("lupini beans", "lupin"), Carrier("squid ink", "mollusks"), Carrier("cockles", "mollusks"),
)  # fmt: skip
PLAIN = (
    "sugar", "salt", "rice flour", "corn starch", "sunflower oil", "tomato paste", "onion powder", "garlic powder",
    "black pepper", "paprika", "potato starch", "olive oil", "bay leaf", "oregano", "cane syrup", "tapioca starch",
    "basil", "cumin", "thyme", "rosemary", "chili flakes", "carrots", "rice", "chickpeas", "black beans", "coffee",
    "cinnamon", "ginger", "turmeric", "maple syrup",
)  # fmt: skip
ALLERGENS = tuple(dict.fromkeys(carrier.allergen for carrier in CARRIERS))
CHOICES = 4
READ_ON = "Makers change what goes in, so read the packet in your hand."


def _listed(words: list[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _which_allergen(rng: Random, carrier: Carrier) -> Posed:
    """Return a question that shows a list and asks for the allergen."""
    plain = rng.sample(PLAIN, 3)
    words = [*plain, carrier.word]
    rng.shuffle(words)
    others = [name for name in ALLERGENS if name not in {carrier.allergen, *carrier.besides}]
    wrong = [
        Choice("", name, is_right=False, name="another_allergen", says=f"No word here carries {name}.")
        for name in rng.sample(others, CHOICES - 1)
    ]
    return Posed(
        f"A packet lists {_listed(words)}. One allergen of the law is in it. Which one?",
        mixed_up(rng, Choice("", carrier.allergen, is_right=True), wrong),
        (
            f"Take word by word: {_listed(plain)} carry none that the law lists. {READ_ON}",
            f"That leaves {carrier.word}. It carries {carrier.allergen}.",
        ),
    )


def _which_word(rng: Random, carrier: Carrier) -> Posed:
    """Return a question that names an allergen and asks for the word to stop at."""
    others = [
        other for other in CARRIERS if carrier.allergen not in {other.allergen, *other.besides}
    ]  # fmt: skip
    strangers = rng.sample(others, rng.randint(1, 2))
    plain = rng.sample(PLAIN, CHOICES - 1 - len(strangers))
    wrong = [
        *(Choice("", other.word, is_right=False, name="word_of_another",
                 says=f"It carries {other.allergen}, which this guest did not name.") for other in strangers),
        *(Choice("", word, is_right=False, name="plain_word", says="It carries none that the law lists.")
          for word in plain),
    ]  # fmt: skip
    told = [f"{other.word} carries {other.allergen}" for other in strangers]
    return Posed(
        f"A guest cannot have {carrier.allergen}. At which word on the packet do you stop?",
        mixed_up(rng, Choice("", carrier.word, is_right=True), wrong),
        (
            f"Take word by word: {'; '.join([*told, *(f'{word} carries none' for word in plain)])}. {READ_ON}",
            f"That leaves {carrier.word}. It carries {carrier.allergen}.",
        ),
    )


def _choose(draw: Drawn) -> Posed:
    """Return a question about one word, asked one way or the other."""
    carrier = CARRIERS[int(draw.numbers["word"]) - 1]
    return (_which_allergen if draw.numbers["asks"] == 1 else _which_word)(draw.rng, carrier)


FIND_ALLERGEN = Choosing(
    name="find_allergen",
    title="Which allergen hides behind a word",
    level="one step",
    unit="",
    ranges={
        "word": span(1, len(CARRIERS), 1, "which word, in the order of the list"),
        "asks": span(1, 2, 1, "what is asked: 1 the allergen behind a word, 2 the word behind an allergen"),
    },
    words={},
    formula="the allergen whose food the word is made from",
    checked_against="The groups: 21 U.S.C. 321(qq) and Regulation (EU) 1169/2011, Annex II. What a word is made from: "
    "common practice.",
    choose=_choose,
    tells={
        "another_allergen": "Takes a word for another allergen than it carries.",
        "word_of_another": "Finds an allergen, but not the one that was named.",
        "plain_word": "Stops at a word that carries no listed allergen.",
    },
    advises={
        "another_allergen": "You named an allergen that no word here carries. Ask of each word: what is it made from?",
        "word_of_another": "You found an allergen, but not the guest's. Keep the guest's word before you as you read.",
        "plain_word": "You stopped at a word that carries none. Ask of each word: what is it made from?",
    },
)
