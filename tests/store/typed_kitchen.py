"""A kitchen with one technique whose points are law, result and craft, each kind once, to be broken in tests."""

from __future__ import annotations

from pathlib import Path

from tests.store.small_kitchen import change, small_kitchen

STRUCTURE = "techniques/sauce/technique.yaml"
WORDS = "techniques/sauce/en.yaml"
SPANISH = "techniques/sauce/es.yaml"
INSTRUMENTS = """\
thin_probe: {title: Thin probe, step: 0.1 F, true_within: 2 F}
surface_probe: {title: Surface probe, step: 1 F, true_within: 5 F}
stopwatch: {title: Stopwatch, step: 1 s}
kitchen_clock: {title: Kitchen clock, step: 1 min}
scale: {title: Scale, step: 0.1 oz}
strip: {title: Strip, steps: [0 ppm, 10 ppm, 50 ppm, 100 ppm, 200 ppm]}
"""
TYPED = """\
editions:
  - {number: 1, since: 2025-03-01, changed: First edition., sign_offs_hold: yes}
allergens: [egg, milk]
standard:
  band: {lowest: 160 F, highest: 170 F, source: house}
  portion: {target: 4 oz, give_or_take: 0.5 oz, source: house}
  rare: {lowest: 120 F, highest: 129 F, source: house}
  medium: {lowest: 140 F, highest: 149 F, source: house}
  well: {lowest: 160 F, highest: 175 F, source: house}
steps:
  - {id: heat, kind: do, hazards: [scald]}
  - {id: coat, kind: check}
hazards:
  - {id: scald, form: triangle, mark: hot_surface}
faults: [grains]
cases: [raw, pasteurized]
checklist:
  - {id: says_limit, type: law, judged: says, expects: [code.egg_pooled, code.egg_pooled_time], cases: [raw]}
  - {id: at_risk, type: law, judged: says, expects: [pasteurized, other_dish], need: 1}
  - {id: says_words, type: law, judged: says, expects: [{below: code.egg_pooled, of: [rare, medium, well]}]}
  - id: heat_raw
    type: law
    judged: pair
    limit: [code.egg_pooled, code.egg_pooled_time]
    with: [thin_probe, stopwatch]
    cases: [raw]
  - {id: heat_past, type: result, judged: measured, limit: band, with: [thin_probe], cases: [pasteurized]}
  - {id: line_open, type: result, judged: pictures, step: coat, tries: 2}
  - {id: weighed, type: craft, judged: weighed, limit: portion, with: [scale]}
  - {id: taste, type: craft, judged: tasted}
  - {id: allergens, type: law, judged: says, expects: [allergens]}
  - {id: spoon, type: craft, judged: ticked}
finish: {within: 25 min, type: craft, with: [kitchen_clock], source: house}
craft_needed: 3
quiz: {need_right: 3, months: 12}
sign_off_months: 12
questions:
  - {family: scale_by_yield, count: 3}
sources: [town_code, house]
"""
ENGLISH = """\
title: Sauce
goal: A sauce that holds.
standard:
  band: "The sauce stands {band}."
  portion: "A portion weighs {portion}."
  rare: "Rare is {rare}."
  medium: "Medium is {medium}."
  well: "Well is {well}."
steps:
  heat: {do: Heat it slowly.}
  coat: {do: Draw a finger over the spoon.}
hazards:
  scald: The pot is hot.
faults:
  grains: {shows: Grains., cause: Too hot., cure: Strain it.}
checklist:
  says_limit: Says the line for these eggs
  at_risk: {act: Says what guests at risk get, expects: {pasteurized: Pasteurized yolk, other_dish: Another dish}}
  says_words: {act: Names the words below the line, expects: {rare: rare, medium: medium, well: well done}}
  heat_raw: Heats the middle of the sauce
  heat_past: Brings the sauce into its band
  line_open: {act: The finger line stays open, under: it runs over, right: it stays open, over: it has grains}
  weighed: Ladles a portion
  taste: {act: Tastes and names it, under: thin, right: milky, over: scorched}
  allergens: Says what is in it
  spoon: Never lets the spoon stand
  finish: From the first egg to the bowl
cases: {raw: Raw shell eggs, pasteurized: Pasteurized yolk}
"""
IN_SPANISH = """\
title: Salsa
goal: Una salsa que aguanta.
standard:
  band: "La salsa está {band}."
  portion: "Una porción pesa {portion}."
  rare: "Roja es {rare}."
  medium: "A término medio es {medium}."
  well: "Bien cocida es {well}."
steps:
  heat: {do: Calienta poco a poco.}
  coat: {do: Pasa un dedo por la cuchara.}
hazards:
  scald: La olla está caliente.
faults:
  grains: {shows: Granos., cause: Muy caliente., cure: Cuélala.}
editions: [Primera edición.]
checklist:
  says_limit: Dice la línea de estos huevos
  at_risk:
    act: Dice qué reciben los comensales en riesgo
    expects: {pasteurized: Yema pasteurizada, other_dish: Otro plato}
  says_words: {act: Nombra los términos bajo la línea, expects: {rare: roja, medium: medio, well: bien cocida}}
  heat_raw: Calienta el centro de la salsa
  heat_past: Lleva la salsa a su punto
  line_open: {act: La raya del dedo queda abierta, under: se cierra, right: queda abierta, over: tiene granos}
  weighed: Sirve una porción
  taste: {act: Prueba y lo nombra, under: aguada, right: lechosa, over: quemada}
  allergens: Dice qué lleva
  spoon: Nunca deja quieta la cuchara
  finish: Del primer huevo al tazón
cases: {raw: Huevos crudos, pasteurized: Yema pasteurizada}
"""
HOUSE_SPANISH = """\
allergens: {egg: Huevo, milk: Leche}
instruments: {thin_probe: Sonda delgada, stopwatch: Cronómetro}
"""


def typed_kitchen(folder: Path) -> Path:
    """Return a folder of content without a fault, with the technique `sauce` beside the small kitchen's own."""
    small_kitchen(folder)
    change(folder, "allergens.yaml", "egg:", "milk: {title: Milk, lists: [us, eu]}\negg:")
    change(
        folder,
        "local_code/town.yaml",
        "  pause:",
        "  egg_pooled: {lowest: 155 F, source: town_code, place: Part 5}\n"
        "  egg_pooled_time: {lowest: 17 s, source: town_code, place: Part 5}\n  pause:",
    )
    change(folder, "stations/bench.yaml", "[rolling]", "[rolling, sauce]")
    files = {STRUCTURE: TYPED, WORDS: ENGLISH, SPANISH: IN_SPANISH}
    for name, text in {**files, "instruments.yaml": INSTRUMENTS, "es.yaml": HOUSE_SPANISH}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder
