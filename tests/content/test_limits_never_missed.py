"""What the code demands is never missed with the verdict *meets it*, and is judged with its seconds.

Sections: FDA Food Code 2022, as each state code that adopts the text has it (Wash. Admin. Code 246-215, effective
2022-03-01, and others; which one, row by row, stands in the reference table the numbers were read from). Chlorine: 40
CFR 180.940(a), from memory, as the technique on sanitizing names it.
"""

from __future__ import annotations

from datetime import date

import pytest

from tests.store.older_content import older_content
from trainer.content.files import load_content
from trainer.kitchen.practical import PointSeen, judge_point
from trainer.kitchen.technique import Content, Point, Technique
from trainer.kitchen.verdicts import verdict

NEWER = date(2026, 11, 29)
LIMITS: list[tuple[str, str, str, str, str]] = [
    ("safe_holding", "first_stage", "2 h", "2.1 h", "§ 3-501.14(A)(1): 135 °F to 70 °F within 2 hours"),
    ("safe_holding", "both_stages", "6 h", "6.1 h", "§ 3-501.14(A)(2): 135 °F to 41 °F within 6 hours in all"),
    ("rendered_pork_base", "cooked", "155 F", "154.9 F", "§ 3-401.11(A)(2): injected meat, 155 °F"),
    ("rendered_pork_base", "cooked_kept", "17 s", "16 s", "§ 3-401.11(A)(2): for 17 seconds"),
    ("rendered_pork_base", "cooled", "2 h", "2.1 h", "§ 3-501.14(A)(1)"),
    ("rendered_pork_base", "cooled_through", "6 h", "6.1 h", "§ 3-501.14(A)(2)"),
    ("allergens", "bucket_strong", "50 ppm", "49 ppm", "§ 4-501.114(A), the middle row: 50 to 99 mg/L"),
    ("allergens", "bucket_strong", "200 ppm", "600 ppm", "40 CFR 180.940(a): at most 200 ppm where nothing is rinsed"),
    ("clean_hands", "water_warm", "85 F", "84 F", "§ 5-202.12: water at 85 °F or above"),
    ("sanitizer", "wash_hot", "110 F", "109 F", "§ 4-501.19: 110 °F, or what the label says"),
    ("sanitizer", "third_warm", "75 F", "74 F", "§ 4-501.114(A), the middle row, pH 8 or less: 75 °F"),
    ("station_opening", "hands_washed", "20 s", "19 s", "§ 2-301.12(A): 20 seconds"),
    ("knife_care", "hands_before_glove", "20 s", "19 s", "§ 2-301.12(A)"),
    ("extruder_safety", "cleaned_in_time", "4 h", "4.1 h", "§ 4-602.11(C): at least every 4 hours"),
    ("egg_tempering", "sauce_hot", "145 F", "144.9 F", "§ 3-401.11(A)(1): eggs for one order, 145 °F"),
    ("egg_tempering", "sauce_kept", "15 s", "14 s", "§ 3-401.11(A)(1): for 15 seconds"),
    ("pastry_custard", "cream_hot", "155 F", "154.9 F", "§ 3-401.11(A)(2): pooled eggs, 155 °F"),
    ("pastry_custard", "cream_kept", "17 s", "16 s", "§ 3-401.11(A)(2)"),
    ("pastry_custard", "first_stage", "2 h", "2.1 h", "§ 3-501.14(A)(1)"),
    ("pastry_custard", "both_stages", "6 h", "6.1 h", "§ 3-501.14(A)(2)"),
]
RESULTS = [
    ("egg_tempering", "smooth"),
    ("egg_tempering", "sauce_in_band"),
    ("pastry_custard", "smooth"),
    ("pastry_custard", "pour_in_band"),
    ("yolk_pasta_pickup", "smooth"),
    ("grill_doneness", "steak_to_word"),
]
"""What the house asks for always: no scraps, no custard off its band, no steak off its word."""


def point_of(technique: Technique, name: str) -> Point:
    """Return a point of the checklist."""
    return next(point for point in technique.checklist if point.id == name)


def judged(point: Point, reading: str) -> str:
    """Return what the readings say, each piece read the same."""
    found = judge_point(point, [reading] * point.pieces, None)
    assert isinstance(found, PointSeen), found
    return found.seen


def word(technique: Technique, *missed: str) -> str:
    """Return the verdict over a practical with these points missed and all others met."""
    looks = (PointSeen(point.id, "not yet" if point.id in missed else "meets it") for point in technique.checklist)
    return verdict(technique, looks).word


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit[0]} {limit[1]} {limit[3]}")
def test_the_code_decides_at_its_own_number(content: Content, limit: tuple[str, str, str, str, str]) -> None:
    """The number the code prints meets it, one step past does not; and the one point missed makes it *not yet*."""
    name, point, inside, outside, section = limit
    technique = content.techniques[name]
    assert judged(point_of(technique, point), inside) == "meets it", section
    assert judged(point_of(technique, point), outside) == "not yet", section
    assert word(technique, point) == "not yet"
    assert word(technique) == "meets it"


@pytest.mark.parametrize(("name", "point"), RESULTS)
def test_a_dish_that_failed_is_never_let_pass(content: Content, name: str, point: str) -> None:
    """One result missed, all else met: not yet. Common practice in any kitchen; the house's own rule here."""
    assert word(content.techniques[name], point) == "not yet"


def test_a_sauce_is_judged_by_heat_then_seconds_then_its_top(content: Content) -> None:
    """§ 3-401.11(A)(1); 145 °F as a cook reads it is inside the band, and so is its upper end, 154 °F."""
    technique = content.techniques["egg_tempering"]
    ids = [point.id for point in technique.checklist]
    at = ids.index("sauce_hot")
    assert ids[at : at + 3] == ["sauce_hot", "sauce_kept", "sauce_in_band"]
    band = point_of(technique, "sauce_in_band")
    assert [judged(band, text) for text in ("144 F", "145 F", "154 F", "155 F")] == [
        "not yet",
        "meets it",
        "meets it",
        "not yet",
    ]


def test_one_steak_off_its_word_is_one_too_many(content: Content) -> None:
    """Two are asked for; the second wrong makes the point not met."""
    point = point_of(content.techniques["grill_doneness"], "steak_to_word")
    assert point.pieces == point.pieces_inside == 2


def test_every_limit_of_the_code_on_a_checklist_is_critical(content: Content) -> None:
    """And where the code names seconds beside a heat, a point of the same checklist is judged by them."""
    for technique in content.techniques.values():
        by_line = {point.limit.id: point for point in technique.checklist if point.limit}
        for line, point in by_line.items():
            assert line not in content.code.limits or point.critical, (technique.id, point.id)
            seconds = f"{line}_time"
            assert seconds not in content.code.limits or seconds in by_line, (technique.id, point.id)


@pytest.fixture(scope="module")
def older(tmp_path_factory: pytest.TempPathFactory) -> Content:
    """Return the content of the day before."""
    content, _ = load_content(older_content(tmp_path_factory.mktemp("older")))
    assert content is not None
    return content


def test_nothing_became_laxer(content: Content, older: Content) -> None:
    """No point that was critical is less now, and no fewer of the other points that are left may be missed."""
    for name, before in older.techniques.items():
        after = content.techniques[name]
        now = {point.id: point for point in after.checklist}
        assert all(now[p.id].critical for p in before.checklist if p.critical and p.id in now), name
        scored = sum(not point.critical for point in after.checklist)
        was_scored = sum(not point.critical for point in before.checklist)
        assert scored - after.scored_needed <= was_scored - before.scored_needed, name


def test_the_newer_edition_keeps_every_other_sign_off(content: Content, older: Content) -> None:
    """One edition more, from 29 November 2026; of the results those of heat end a sign-off: sauce, custard, steak."""
    named = {}
    for name, before in older.techniques.items():
        later = [each for each in content.techniques[name].editions if each.number > len(before.editions)]
        assert [(each.since, each.sign_offs_hold) for each in later[:1]] == [(NEWER, True)][: len(later)], name
        named[name] = later[0].unless_missed if later else ()
    assert [named[name] for name in ("egg_tempering", "pastry_custard", "grill_doneness", "yolk_pasta_pickup")] == [
        ("sauce_in_band",),
        ("pour_in_band",),
        ("steak_to_word",),
        (),
    ]


def test_the_edition_of_each_of_the_ten_names_its_point(content: Content) -> None:
    """Who was signed off with one of these missed shows it again."""
    ten = {
        "safe_holding": ("first_stage", "both_stages"),
        "rendered_pork_base": ("cooled",),
        "allergens": ("bucket_strong",),
        "clean_hands": ("water_warm",),
        "sanitizer": ("wash_hot", "third_warm"),
        "station_opening": ("hands_washed",),
        "knife_care": ("hands_before_glove",),
        "extruder_safety": ("cleaned_in_time",),
    }
    for name, points in ten.items():
        edition = next(each for each in content.techniques[name].editions if each.since == NEWER)
        assert edition.unless_missed == points, name
