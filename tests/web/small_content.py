"""A small invented content for page tests: two techniques, two stations, no files."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from types import MappingProxyType

from tests.kitchen.quiz.asking import WORDS
from trainer.kitchen.technique import (
    CertificateAsked,
    Content,
    Edition,
    Fault,
    Hazard,
    Limit,
    LocalCode,
    Point,
    QuestionSetting,
    Source,
    Station,
    Step,
    Technique,
    Word,
)
from trainer.recipe_math.quantity import Quantity

WEIGHT = Limit(
    "nest_weight",
    Quantity.of(Fraction("4.3"), "oz"),
    Quantity.of(Fraction("4.7"), "oz"),
    Quantity.of(Fraction("4.5"), "oz"),
    "house",
)
HEAT = Limit("hot_line", Quantity.of(57, "°C"), None, None, "house")
DIE = Hazard("die", "triangle", "hands_in_machine", "Keep fingers out of the die while it runs.")
HOT = Hazard("pot", "triangle", "hot_surface", "The pot is hot. Use dry cloths.")

NESTS = Technique(
    id="nests",
    title="Pasta nesting",
    goal="Catch and nest fresh strands so every plate weighs the same.",
    editions=(
        Edition(1, date(2025, 3, 1), "First edition.", True),
        Edition(2, date(2026, 1, 1), "A new weight.", True),
    ),
    words=(Word("nest", "One portion of strands, turned round the hand."),),
    standard=(WEIGHT, HEAT),
    standard_text=("One nest weighs 4.5 oz (128 g).", "Held at 57 °C (135 °F) or more."),
    tools=("Balance", "Tray with semolina"),
    steps=(
        Step(
            "catch",
            "do",
            "Catch the strands on your open hand.",
            "Feels dry and springy.",
            "",
            "",
            "",
            ("die",),
            name="Catch",
        ),
        Step(
            "weigh",
            "weigh",
            "Weigh each nest on the balance.",
            "",
            "So every plate is the same.",
            "",
            "",
            (),
            name="Weigh",
        ),
        Step(
            "boil",
            "time",
            "Boil one nest as a trial.",
            "Looks loose after a stir.",
            "",
            "",
            "",
            ("pot",),
            90,
            name="Boil one",
        ),
    ),
    faults=(Fault("clumped", "Strands stick together.", "Too little flour.", "Toss with semolina at once."),),
    hazards=(DIE, HOT),
    allergens=("wheat", "egg"),
    checklist=(
        Point("guard_on", "The guard is on.", True, "ticked", None),
        Point("weights", "Nests weigh the same.", True, "weighed", WEIGHT, 5, 4),
        Point("tray", "The tray is floured.", False, "ticked", None),
    ),
    scored_needed=1,
    questions=(
        QuestionSetting("scale_by_yield", MappingProxyType({}), MappingProxyType({}), 1),
        QuestionSetting("amount_to_buy", MappingProxyType({}), MappingProxyType({}), 2),
    ),
    need_right=2,
    quiz_months=12,
    sign_off_months=12,
    sources=("house",),
)
SAUCE = Technique(
    id="sauce",
    title="Butter sauce",
    goal="Mount a sauce that holds.",
    editions=(Edition(1, date(2025, 3, 1), "First edition.", True),),
    words=(),
    standard=(HEAT,),
    standard_text=("Held at 57 °C (135 °F) or more.",),
    tools=("Pan",),
    steps=(Step("melt", "do", "Melt the butter.", "", "", "", "", ("pot",), name="Melt"),),
    faults=(),
    hazards=(HOT,),
    allergens=("milk",),
    checklist=(Point("holds", "The sauce holds.", True, "ticked", None),),
    scored_needed=0,
    questions=(),
    need_right=0,
    quiz_months=12,
    sign_off_months=12,
    sources=("house",),
)
CONTENT = Content(
    techniques=MappingProxyType({"nests": NESTS, "sauce": SAUCE}),
    stations=MappingProxyType(
        {
            "pasta_room": Station("pasta_room", "Pasta room", ("nests",), (), None, "", 0),
            "saute": Station(
                "saute",
                "Sauté",
                ("sauce",),
                (CertificateAsked("food_handler", "Food handler", bars=False),),
                18,
                "Power-driven machines are for adults.",
                1,
            ),
        }
    ),
    code=LocalCode("invented", "An invented code", "2022", MappingProxyType({"hot_holding": HEAT})),
    sources=MappingProxyType({"house": Source("house", "House standard", "", "", "house")}),
    allergens=MappingProxyType({"wheat": "wheat", "egg": "egg", "milk": "milk"}),
    question_words=WORDS,
)
