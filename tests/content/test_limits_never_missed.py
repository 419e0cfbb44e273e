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
    ("rendered_pork_base", "cooked", "155 F / 17 s", "154.9 F / 17 s", "§ 3-401.11(A)(2): injected meat, 155 °F"),
    ("rendered_pork_base", "cooked", "155 F / 17 s", "155 F / 16 s", "§ 3-401.11(A)(2): for 17 seconds"),
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
    ("yolk_pan_sauce", "sauce_hot", "145 F / 15 s", "144.9 F / 15 s", "§ 3-401.11(A)(1): eggs for one order, 145 °F"),
    ("yolk_pan_sauce", "sauce_hot", "145 F / 15 s", "145 F / 14 s", "§ 3-401.11(A)(1): for 15 seconds"),
    ("pastry_custard", "cream_hot", "155 F / 17 s", "154.9 F / 17 s", "§ 3-401.11(A)(2): pooled eggs, 155 °F"),
    ("pastry_custard", "cream_hot", "155 F / 17 s", "155 F / 16 s", "§ 3-401.11(A)(2)"),
    ("pastry_custard", "first_stage", "2 h", "2.1 h", "§ 3-501.14(A)(1)"),
    ("pastry_custard", "both_stages", "6 h", "6.1 h", "§ 3-501.14(A)(2)"),
]
RESULTS = [
    ("egg_tempering", "smooth"),
    ("yolk_pan_sauce", "no_scraps"),
    ("pastry_custard", "smooth"),
    ("pastry_custard", "pour_in_band"),
    ("yolk_pasta_pickup", "smooth"),
    ("yolk_pasta_pickup", "still_moves"),
    ("egg_tempering", "line_open"),
    ("pastry_custard", "cream_boiled"),
    ("pasta_water", "bite_right"),
    ("rendered_pork_base", "crisp"),
    ("grill_doneness", "steak_to_word"),
]
"""What the house asks for always: no scraps, no custard off its band, no steak off its word."""


def point_of(technique: Technique, name: str) -> Point:
    """Return a point of the checklist."""
    return next(point for point in technique.checklist if point.id == name)


def judged(point: Point, reading: str) -> str:
    """Return what the readings say, each piece read the same; of a pair the heat, then its time."""
    found = judge_point(point, reading.split(" / ") * point.pieces, None)
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


def test_a_sauce_is_judged_by_heat_with_its_seconds_then_by_its_look(content: Content) -> None:
    """§ 3-401.11(A)(1): 145 °F as a cook reads it meets it; what got too hot shows as scraps, which never pass."""
    technique = content.techniques["yolk_pan_sauce"]
    heat = point_of(technique, "sauce_hot")
    read = ("144 F / 15 s", "145 F / 15 s", "154 F / 20 s", "154 F / 14 s")
    assert [judged(heat, text) for text in read] == ["not yet", "meets it", "meets it", "not yet"]
    assert (heat.type, point_of(technique, "no_scraps").type) == ("law", "result")


def test_two_words_are_cooked_one_on_each_side_of_the_line(content: Content) -> None:
    """§ 3-401.11(A)(1), 145 °F: in each case one word begins below it and one does not, and each steak is a result."""
    technique = content.techniques["grill_doneness"]
    line = content.code.limits["fish_and_whole_meat"].lowest
    assert line is not None
    for case in technique.cases:
        asked = [point for point in technique.checklist if point.cases == (case.id,)]
        assert [point.type for point in asked] == ["result", "result"], case
        begins = [point.limit.lowest for point in asked if point.limit and point.limit.lowest]
        assert sorted(begin >= line for begin in begins) == [False, True], case


def test_every_limit_of_the_code_on_a_checklist_is_critical(content: Content) -> None:
    """And where the code names seconds beside a heat, a point of the same checklist is judged by them."""
    for technique in content.techniques.values():
        by_line = {limit.id: point for point in technique.checklist for limit in point.lines}
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
    """No point that was critical is less now, and no fewer of the other points that are left may be missed.

    A list with types is another list, of more points: of it the first holds.
    """
    for name, before in older.techniques.items():
        after = content.techniques[name]
        now = {point.id: point for point in after.checklist}
        assert all(now[p.id].critical for p in before.checklist if p.critical and p.id in now), name
        if any(point.type for point in after.checklist):
            continue
        scored = sum(not point.critical for point in after.checklist)
        was_scored = sum(not point.critical for point in before.checklist)
        assert scored - after.scored_needed <= was_scored - before.scored_needed, name


def test_the_newer_edition_keeps_every_other_sign_off(content: Content, older: Content) -> None:
    """One edition more on 29 November 2026; of the results those of heat end a sign-off: custard, steak."""
    named = {}
    for name, before in older.techniques.items():
        later = [
            each
            for each in content.techniques[name].editions
            if each.number > len(before.editions) and each.since == NEWER
        ]
        assert [(each.since, each.sign_offs_hold) for each in later[:1]] == [(NEWER, True)][: len(later)], name
        named[name] = later[0].unless_missed if later else ()
    assert [named[name] for name in ("egg_tempering", "pastry_custard", "grill_doneness", "yolk_pasta_pickup")] == [
        (),
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
