"""A kitchen of one technique and one station, in as few lines as the format needs, to be broken in tests."""

from __future__ import annotations

from pathlib import Path

SOURCES = """\
town_code: {title: Code of an invented town, edition: "1", place: Part 1, known: read}
house: {title: The house, edition: as set, place: Decided here, known: house}
"""
ALLERGENS = """\
egg: {title: Egg, lists: [us, eu]}
"""
KITCHEN_CODE = """\
code: town
overrides:
  hot_holding: {lowest: 140 F, source: house, reason: The window is drafty.}
"""
TOWN = """\
title: Code of an invented town
edition: "1"
limits:
  hot_holding: {lowest: 135 F, source: town_code, place: Part 1}
  cold_holding: {highest: 41 F, source: town_code, place: Part 2}
  cooling_start: {target: 135 F, source: town_code, place: Part 3}
  pause: {target: 90 s, source: town_code, place: Part 4}
"""
STATION = """\
title: Bench
techniques: [rolling]
certificates:
  - {id: food_handler, title: Food handler card, bars: no}
minimum_age: 16
age_reason: An invented rule.
supervised_shifts: 2
"""
STRUCTURE = """\
editions:
  - {number: 1, since: 2025-03-01, changed: First edition., sign_offs_hold: yes}
  - {number: 2, since: 2025-09-01, changed: A new pin., sign_offs_hold: no}
allergens: [egg]
standard:
  sheet_weight: {target: 4 oz, give_or_take: 0.2 oz, source: house}
  rest: {lowest: 30 min, highest: 2 h, source: house}
  bench: {target: 68 F, source: house}
steps:
  - {id: roll, kind: do, hazards: [rollers], figure: roll.svg}
  - {id: wait, kind: time, lasts: code.pause}
hazards:
  - {id: rollers, form: triangle, mark: hands_in_machine}
faults: [torn]
checklist:
  - {id: guard_on, judged: ticked, critical: yes}
  - {id: weights, judged: weighed, limit: sheet_weight, pieces: 5, pieces_inside: 4}
  - {id: kept_hot, judged: measured, limit: code.hot_holding, critical: yes}
scored_needed: 1
quiz: {need_right: 3, months: 12}
sign_off_months: 12
questions:
  - {family: scale_by_yield, count: 3}
sources: [town_code, house]
"""
WORDS = """\
title: Rolling
goal: An even sheet that does not tear.
words:
  sheet: Dough rolled flat.
standard:
  sheet_weight: "One sheet weighs {sheet_weight}."
  rest: "It rests {rest}."
  bench: "The bench is about {bench}."
tools: [Rolling pin, Scale]
steps:
  roll:
    do: Roll from the middle.
    cue: It looks smooth.
    why: An uneven sheet cooks unevenly.
    figure: A pair of hands rolls a sheet of dough from the middle outwards on a floured wooden bench.
  wait: {do: "Wait {seconds}."}
hazards:
  rollers: Keep fingers away from the rollers.
faults:
  torn: {shows: A hole., cause: Too dry., cure: Cover the dough.}
checklist:
  guard_on: The guard is on.
  weights: "{pieces_inside} of {pieces} sheets weigh {sheet_weight}."
  kept_hot: "The sauce stands {code.hot_holding}."
"""
FILES = {
    "sources.yaml": SOURCES,
    "allergens.yaml": ALLERGENS,
    "kitchen_code.yaml": KITCHEN_CODE,
    "local_code/town.yaml": TOWN,
    "stations/bench.yaml": STATION,
    "techniques/rolling/technique.yaml": STRUCTURE,
    "techniques/rolling/en.yaml": WORDS,
    "techniques/rolling/roll.svg": "<svg/>",
}


def small_kitchen(folder: Path) -> Path:
    """Return a folder of content without a fault."""
    for name, text in FILES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def change(folder: Path, file: str, old: str, new: str) -> int:
    """Put *new* in place of *old*, which stands once, in a file; return the line it stands on."""
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1
