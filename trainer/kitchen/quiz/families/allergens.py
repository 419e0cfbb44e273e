"""Words on a packet that carry an allergen of the law: which one hides, and which word to stop at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, Draw, Option, mixed_up, span
from trainer.kitchen.quiz.picks import Picks
from trainer.kitchen.quiz.sentences import Sentence, Series, sentence

BESIDES: Mapping[str, tuple[str, ...]] = {
    "mayonnaise": ("mustard",),
    "marzipan": ("egg",),
    "praline": ("milk", "peanut"),
    **dict.fromkeys(("semolina", "bulgur", "couscous", "spelt"), ("gluten_grains",)),
    "seitan": ("gluten_grains", "soy"),
    "dijon": ("sulfites",),
}
"""What a word may carry besides: it is never asked beside it."""
CARRIED: Mapping[str, tuple[str, ...]] = {
    "milk": ("whey_powder", "casein", "ghee", "curds"),
    "egg": ("albumen", "meringue_powder", "mayonnaise"),
    "fish": ("anchovy_paste", "bonito_flakes", "cod_roe"),
    "shellfish": ("prawn_powder", "krill", "crayfish_tails"),
    "tree_nuts": ("marzipan", "praline", "almond_flour", "cashew_cream"),
    "wheat": ("semolina", "bulgur", "couscous", "spelt", "seitan"),
    "gluten_grains": ("barley_malt", "rye_flakes"),
    "peanut": ("groundnuts", "groundnut_paste"),
    "soy": ("tofu", "tempeh", "edamame"),
    "sesame": ("tahini", "gomasio", "benne_seed"),
    "celery": ("celeriac", "celery_salt"),
    "mustard": ("dijon",),
    "sulfites": ("metabisulfite",),
    "lupin": ("lupini_beans",),
    "mollusks": ("squid_ink", "cockles"),
}
"""The allergens of the law, each with words that carry it."""
PLAIN = (
    "sugar", "salt", "rice_flour", "corn_starch", "sunflower_oil", "tomato_paste", "onion_powder", "garlic_powder",
    "black_pepper", "paprika", "potato_starch", "olive_oil", "bay_leaf", "oregano", "cane_syrup", "tapioca_starch",
    "basil", "cumin", "thyme", "rosemary", "chili_flakes", "carrots", "rice", "chickpeas", "black_beans", "coffee",
    "cinnamon", "ginger", "turmeric", "maple_syrup",
)  # fmt: skip
CHOICES = 6
MOST_KIN = 2
"""So many words more than one carry the allergen on a whole label, where it has so many."""


class Carrier(NamedTuple):
    """A word on a packet and the allergen it carries."""

    word: str
    allergen: str

    @property
    def carries(self) -> frozenset[str]:
        """Return all it carries or may carry."""
        return frozenset({self.allergen, *BESIDES.get(self.word, ())})


CARRIERS = tuple(Carrier(word, allergen) for allergen, words in CARRIED.items() for word in words)


def _word(name: str) -> Sentence:
    return sentence(f"word_{name}")


def _allergen(name: str) -> Sentence:
    return sentence(f"allergen_{name}")


def _listed(words: Sequence[str]) -> Sentence:
    return sentence("first_and_last", first=Series(tuple(map(_word, words[:-1])), ", "), last=_word(words[-1]))


def _left(carrier: Carrier) -> Sentence:
    return sentence("that_leaves", word=_word(carrier.word), allergen=_allergen(carrier.allergen))


def _which_allergen(picks: Picks, carrier: Carrier) -> ChoiceItem:
    """Return a question that shows a list and asks for the allergen."""
    plain = picks.several(PLAIN, 3)
    words = picks.mixed([*plain, carrier.word])
    others = [name for name in CARRIED if name not in carrier.carries]
    wrong = [
        Option(name, _allergen(name), "another_allergen", sentence("no_word_carries", allergen=_allergen(name)))
        for name in picks.several(others, CHOICES - 1)
    ]
    return ChoiceItem(
        sentence("ask_allergen", words=_listed(words)),
        mixed_up(picks, [Option(carrier.allergen, _allergen(carrier.allergen)), *wrong]),
        (Series((sentence("words_carry_none", words=_listed(plain)), sentence("read_on"))), _left(carrier)),
        hints=1,
    )


def _which_word(picks: Picks, carrier: Carrier) -> ChoiceItem:
    """Return a question that names an allergen and asks for the word to stop at."""
    by_word = {other.word: other for other in CARRIERS}
    others = [other.word for other in CARRIERS if carrier.allergen not in other.carries]
    count = picks.one(["1", "2"])
    strangers = [by_word[word] for word in picks.several(others, int(count))]
    plain = picks.several(PLAIN, CHOICES - 1 - len(strangers))
    wrong = [
        *(Option(other.word, _word(other.word), "word_of_another",
                 sentence("carries_another", allergen=_allergen(other.allergen))) for other in strangers),
        *(Option(word, _word(word), "plain_word", sentence("carries_none_listed")) for word in plain),
    ]  # fmt: skip
    told = [sentence("word_carries", word=_word(each.word), allergen=_allergen(each.allergen)) for each in strangers]
    each = Series((*told, *(sentence("word_carries_none", word=_word(word)) for word in plain)), "; ")
    return ChoiceItem(
        sentence("ask_word", allergen=_allergen(carrier.allergen)),
        mixed_up(picks, [Option(carrier.word, _word(carrier.word)), *wrong]),
        (Series((sentence("word_by_word", words=each), sentence("read_on"))), _left(carrier)),
        hints=1,
    )


def _whole_label(picks: Picks, carrier: Carrier) -> ChoiceItem:
    """Return a question that shows a whole label: every word that carries the allergen is to be marked."""
    by_word = {other.word: other for other in CARRIERS}
    kin = [word for word in CARRIED[carrier.allergen] if word != carrier.word]
    others = [other.word for other in CARRIERS if carrier.allergen not in other.carries]
    more = int(picks.one([str(count) for count in range(min(len(kin), MOST_KIN) + 1)]))
    right = [carrier.word, *(picks.several(kin, more) if more else ())]
    strangers = [by_word[word] for word in picks.several(others, 2)]
    plain = picks.several(PLAIN, CHOICES - len(right) - len(strangers))
    options = [
        *(Option(word, _word(word)) for word in right),
        *(Option(other.word, _word(other.word), "word_of_another",
                 sentence("carries_another", allergen=_allergen(other.allergen))) for other in strangers),
        *(Option(word, _word(word), "plain_word", sentence("carries_none_listed")) for word in plain),
    ]  # fmt: skip
    each = Series(tuple(sentence("word_carries", word=_word(other.word), allergen=_allergen(other.allergen))
                        for other in (*(by_word[word] for word in right), *strangers)), "; ")  # fmt: skip
    return ChoiceItem(
        sentence("ask_label", allergen=_allergen(carrier.allergen)),
        mixed_up(picks, options),
        (
            Series((sentence("word_by_word", words=each), sentence("read_on"))),
            sentence("stop_at", words=Series(tuple(map(_word, right)), ", "), allergen=_allergen(carrier.allergen)),
        ),
        marks_all=True,
    )


ASKED = (_which_allergen, _which_word, _whole_label)


def _choose(draw: Draw) -> ChoiceItem:
    """Return a question about one word, asked one way or another."""
    carrier = CARRIERS[int(draw.numbers["word"]) - 1]
    return ASKED[int(draw.numbers["asks"]) - 1](draw.picks, carrier)


FIND_ALLERGEN = ChoiceFamily(
    name="find_allergen",
    level="one step",
    unit="",
    ranges={
        "word": span(1, len(CARRIERS), 1, "which word, in the order of the list"),
        "asks": span(
            1, 3, 1, "what is asked: 1 the allergen behind a word, 2 the word behind an allergen, 3 a whole label"
        ),
    },
    words=(),
    safety=True,
    formula="the allergen whose food the word is made from",
    checked_against="The groups: 21 U.S.C. 321(qq) and Regulation (EU) 1169/2011, Annex II. What a word is made from: "
    "common practice.",
    choose=_choose,
    slips=("another_allergen", "word_of_another", "plain_word", "left_out"),
)
