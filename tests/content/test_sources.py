"""A source that was read can be found again, by date, author or address; what has none is common practice."""

from __future__ import annotations

import re

from tests.content.measured import line
from trainer.kitchen.technique import Content, LocalCode, Source

YEAR = re.compile(r"\b(?:19|20)\d\d\b")
ADDRESS = re.compile(r"\b[\w-]+\.(?:org|gov|com|au)\b")
AUTHOR = re.compile(r"[A-Z]\w+, ")
NAME = re.compile(r"\b(?:[A-Z][\w'é]+|[A-Z]{2,})\b")


def can_be_found(source: Source) -> bool:
    """Return whether a source has a year, an address, a section of law, or the names of who publishes it."""
    dated = YEAR.search(source.edition) or ADDRESS.search(source.place + source.title) or "§" in source.place
    return bool(dated) or bool(AUTHOR.match(source.title)) or len(NAME.findall(source.title)) >= 2


def test_a_source_nobody_can_find_is_no_source(content: Content) -> None:
    """An undated page of nobody says what the trade does, at best."""
    lost = [key for key, source in content.sources.items() if source.known == "read" and not can_be_found(source)]
    assert lost == []


def test_the_check_above_can_fail() -> None:
    """A page without a name, a date and an address is not found; one with an address is."""
    page = Source("page", "Home page on a yolk sauce", "undated", "Where it thickens", "read")
    assert not can_be_found(page)
    assert can_be_found(Source("page", "Page", "undated", "allergy.org.au, positioning", "read"))


def test_yields_stand_on_the_card_they_are_printed_on(content: Content) -> None:
    """Armed Forces Recipe Service, TM 10-412: the factors E.P. to A.P. are card A-6, boiled pasta is card E-4."""
    place = content.sources["armed_forces_recipes"].place
    assert "A-6" in place
    assert "E-4" in place
    assert not re.search(r"A-2\b|A-32", place)
    factors = [
        line(content.techniques["blanching"], name) for name in ("asparagus_factor", "florets_factor", "beans_factor")
    ]
    assert all("Card A-6" in factor.place for factor in factors)


def test_one_source_has_one_name(content: Content) -> None:
    """Two entries with one title and one edition are one source, unless each names another place in it."""
    seen = [(source.title, source.edition, source.place) for source in content.sources.values()]
    assert len(set(seen)) == len(seen)
    assert (
        len([source for source in content.sources.values() if source.title.startswith("Teaching slides on cer")]) == 1
    )


def test_the_day_without_symptoms_is_told_as_recalled(content: Content, food_code: LocalCode) -> None:
    """§ 2-201.13(A)(1): 24 h; the wording was not at hand, so it is from memory."""
    source = food_code.limits["symptom_free"].source
    assert content.sources[source].known == "from memory"


def test_how_often_a_sick_cook_is_part_of_it_is_told_by_study(content: Content) -> None:
    """MMWR 68(SS-1): 58.6 % of US outbreaks with a known factor, 2014 to 2016; MMWR 72(SS-6): about 40 % (memory)."""
    technique = content.techniques["clean_hands"]
    shares = [line(technique, name).target for name in ("sick_part", "sick_part_later")]
    assert [float(share.base) if share else None for share in shares] == [0.586, 0.4]
    step = next(step for step in technique.steps if step.id == "come_well")
    assert "most outbreaks" not in step.why
    assert "58.6 %" in step.why
