"""Words on a packet that carry an allergen of the law: which one hides, and which word to stop at."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.choices import mixed_up
from trainer.kitchen.quiz.family import Choosing, Drawn, Posed, span
from trainer.kitchen.quiz.question import Choice
from trainer.kitchen.quiz.wording import alternatives, any_of
from trainer.recipe_math.saying import Saying, joined, say

GLUTEN = say("gluten grains")


class Carrier(NamedTuple):
    """A word on a packet and the allergen it carries; what it may carry besides is never asked beside it."""

    word: str
    allergen: str
    besides: tuple[str, ...] = ()


BESIDES: Mapping[str, tuple[str, ...]] = {
    "mayonnaise": ("mustard",),
    "marzipan": ("egg",),
    "praline": ("milk", "peanut"),
    **dict.fromkeys(("semolina", "bulgur", "couscous", "spelt"), (GLUTEN,)),
    "seitan": (GLUTEN, "soy"),
    "Dijon": ("sulfites",),
}


def _carrying(allergen: str, words: str) -> list[Carrier]:
    return [Carrier(word, allergen, BESIDES.get(word, ())) for word in alternatives(words)]


CARRIERS = (
    *_carrying(say("milk"), any_of("whey powder|casein|ghee|curds")),
    *_carrying(say("egg"), any_of("albumen|meringue powder|mayonnaise")),
    *_carrying(say("fish"), any_of("anchovy paste|bonito flakes|cod roe")),
    *_carrying(say("shellfish"), any_of("prawn powder|krill|crayfish tails")),
    *_carrying(say("tree nuts"), any_of("marzipan|praline|almond flour|cashew cream")),
    *_carrying(say("wheat"), any_of("semolina|bulgur|couscous|spelt|seitan")),
    *_carrying(GLUTEN, any_of("barley malt|rye flakes")),
    *_carrying(say("peanut"), any_of("groundnuts|groundnut paste")),
    *_carrying(say("soy"), any_of("tofu|tempeh|edamame")),
    *_carrying(say("sesame"), any_of("tahini|gomasio|benne seed")),
    *_carrying(say("celery"), any_of("celeriac|celery salt")),
    *_carrying(say("mustard"), any_of("Dijon")),
    *_carrying(say("sulfites"), any_of("metabisulfite")),
    *_carrying(say("lupin"), any_of("lupini beans")),
    *_carrying(say("mollusks"), any_of("squid ink|cockles")),
)
PLAIN = alternatives(
    any_of(
        "sugar|salt|rice flour|corn starch|sunflower oil|tomato paste|onion powder|garlic powder|black pepper|"
        "paprika|potato starch|olive oil|bay leaf|oregano|cane syrup|tapioca starch|basil|cumin|thyme|rosemary|"
        "chili flakes|carrots|rice|chickpeas|black beans|coffee|cinnamon|ginger|turmeric|maple syrup"
    )
)
ALLERGENS = tuple(dict.fromkeys(carrier.allergen for carrier in CARRIERS))
CHOICES = 4
READ_ON = say("Makers change what goes in, so read the packet in your hand.")


def _listed(words: list[str]) -> Saying:
    return say("{first} and {last}", first=joined(words[:-1], ", "), last=words[-1])


def _which_allergen(rng: Random, carrier: Carrier) -> Posed:
    """Return a question that shows a list and asks for the allergen."""
    plain = rng.sample(PLAIN, 3)
    words = [*plain, carrier.word]
    rng.shuffle(words)
    others = [name for name in ALLERGENS if name not in {carrier.allergen, *carrier.besides}]
    wrong = [
        Choice(
            "",
            name,
            is_right=False,
            name="another_allergen",
            says=say("No word here carries {allergen}.", allergen=name),
        )
        for name in rng.sample(others, CHOICES - 1)
    ]
    return Posed(
        say("A packet lists {words}. One allergen of the law is in it. Which one?", words=_listed(words)),
        mixed_up(rng, Choice("", carrier.allergen, is_right=True), wrong),
        (
            joined([say("Take word by word: {words} carry none that the law lists.", words=_listed(plain)), READ_ON]),
            _left(carrier),
        ),
    )


def _left(carrier: Carrier) -> Saying:
    return say("That leaves {word}. It carries {allergen}.", word=carrier.word, allergen=carrier.allergen)


def _which_word(rng: Random, carrier: Carrier) -> Posed:
    """Return a question that names an allergen and asks for the word to stop at."""
    others = [
        other for other in CARRIERS if carrier.allergen not in {other.allergen, *other.besides}
    ]  # fmt: skip
    strangers = rng.sample(others, rng.randint(1, 2))
    plain = rng.sample(PLAIN, CHOICES - 1 - len(strangers))
    wrong = [
        *(Choice("", other.word, is_right=False, name="word_of_another",
                 says=say("It carries {allergen}, which this guest did not name.", allergen=other.allergen))
          for other in strangers),
        *(Choice("", word, is_right=False, name="plain_word", says=say("It carries none that the law lists."))
          for word in plain),
    ]  # fmt: skip
    told = [say("{word} carries {allergen}", word=other.word, allergen=other.allergen) for other in strangers]
    each = joined([*told, *(say("{word} carries none", word=word) for word in plain)], "; ")
    return Posed(
        say("A guest cannot have {allergen}. At which word on the packet do you stop?", allergen=carrier.allergen),
        mixed_up(rng, Choice("", carrier.word, is_right=True), wrong),
        (
            joined([say("Take word by word: {words}.", words=each), READ_ON]),
            _left(carrier),
        ),
    )


def _choose(draw: Drawn) -> Posed:
    """Return a question about one word, asked one way or the other."""
    carrier = CARRIERS[int(draw.numbers["word"]) - 1]
    return (_which_allergen if draw.numbers["asks"] == 1 else _which_word)(draw.rng, carrier)


FIND_ALLERGEN = Choosing(
    name="find_allergen",
    title=say("Which allergen hides behind a word"),
    level="one step",
    unit="",
    ranges={
        "word": span(1, len(CARRIERS), 1, "which word, in the order of the list"),
        "asks": span(1, 2, 1, "what is asked: 1 the allergen behind a word, 2 the word behind an allergen"),
    },
    words={},
    caution=say("A trace can kill: read the packet in your hand, ask, and never guess."),
    formula="the allergen whose food the word is made from",
    checked_against="The groups: 21 U.S.C. 321(qq) and Regulation (EU) 1169/2011, Annex II. What a word is made from: "
    "common practice.",
    choose=_choose,
    tells={
        "another_allergen": say("Takes a word for another allergen than it carries."),
        "word_of_another": say("Finds an allergen, but not the one that was named."),
        "plain_word": say("Stops at a word that carries no listed allergen."),
    },
    advises={
        "another_allergen": say(
            "You named an allergen that no word here carries. Ask of each word: what is it made from?"
        ),
        "word_of_another": say(
            "You found an allergen, but not the guest's. Keep the guest's word before you as you read."
        ),
        "plain_word": say("You stopped at a word that carries none. Ask of each word: what is it made from?"),
    },
)
