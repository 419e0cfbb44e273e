"""A few scenes of boiling pasta, for a family that is tried out with no technique named. Common practice."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.scenes import Scene, SceneChoice, SceneDraw, SceneKey, ScenePicture
from trainer.kitchen.quiz.svg import At, circle, drawing, line
from trainer.recipe_math.quantity import Quantity


def _right(id: str, text: str) -> SceneChoice:
    return SceneChoice(id, text, is_right=True)


def _wrong(id: str, text: str, why: str) -> SceneChoice:
    return SceneChoice(id, text, is_right=False, wrong=why)


def _strand(core: float) -> str:
    """Return a cut strand with a white core so large."""
    shapes = [circle(At(60, 60), 44), *([circle(At(60, 60), core, is_filled=True)] if core else [])]
    return drawing(120, 120, [*shapes, line(At(10, 112), At(110, 112), 3)])


PRACTICE_SCENES = (
    Scene(
        "clumped", "what_now", "A minute after the drop, strands hang together in the pot.",
        "Loose strands come apart while the starch is still soft.",
        (
            _right("stir", "Stir down to the bottom"),
            _wrong("oil", "Pour oil on top", "Oil floats. It does not reach between strands."),
            _wrong("drain", "Drain them now", "They are raw, and stay in lumps."),
            _wrong("lid", "Put the lid on", "The pot boils over, and the lump stays."),
            _wrong("salt", "Add more salt", "Salt seasons. It parts nothing."),
            _wrong("cold", "Add cold water", "The boil stops, and that is what moved them."),
        ),
    ),
    Scene(
        "soft", "mark_all", "A batch broke when it was tossed.", "Time, rest and force each break a soft strand.",
        (
            _right("long", "It boiled too long"),
            _right("stood", "It stood hot after draining"),
            _right("tossed", "It was tossed hard"),
            _wrong("salted", "The water was salted", "Salt does not soften it."),
            _wrong("wide", "The pot was wide", "A wide pot is what it needs."),
        ),
    ),
    Scene(
        "nearly", "next_why", "The time is nearly up.", "A bite tells what a clock cannot.",
        (
            _right("taste", "Taste a strand"),
            _wrong("drain", "Drain it", "Nobody knows yet whether it is done."),
            _wrong("oil", "Oil the strands", "Sauce then slides off."),
        ),
        (
            _right("bite", "The bite tells when it is done"),
            _wrong("cool", "It has to cool first", "It cooks on while it waits."),
            _wrong("shine", "They should shine", "Shine comes from sauce."),
        ),
    ),
    Scene(
        "cores", "which_ready", "Three strands, cut across.", "The core shrinks until it is gone.",
        (_right("raw", "too early"), _right("ready", "right"), _right("over", "too late")),
        pictures=(
            ScenePicture("wide", _strand(22), "A cut strand with a large dark core.", "raw"),
            ScenePicture("dot", _strand(5), "A cut strand with a dark dot in the middle.", "ready"),
            ScenePicture("none", _strand(0), "A cut strand, one color all through.", "over"),
        ),
    ),
    Scene(
        "waits", "which_limit", "Cooked sauce waits in the steam well.", "A well holds food hot. It need not boil.",
        (
            _right("holding", "The line for holding hot"),
            _wrong("boiling", "A boil", "That is more than the line asks for, and the sauce catches."),
            _wrong("reheat", "The line for reheating", "That is for cold food, before it goes in."),
            _wrong("room", "Room warmth", "Germs grow there."),
        ),
    ),
    Scene(
        "kettle", "who_may", "A wide kettle is full and boiling. It has to be moved.",
        "Hot water burns who carries it.",
        (
            _right("empty", "Two cooks, once it is cool"),
            _wrong("two", "Two cooks, right now", "It slops over at the first step."),
            _wrong("strong", "The strongest cook", "Nobody carries boiling water."),
            _wrong("slow", "One cook, slowly", "Slow is no safer with a full kettle."),
        ),
    ),
    Scene(
        "asks", "tell_guest", "A guest at the window asks: is there egg in it?", "Only who has the sheet may answer.",
        (
            _right("fetch", "I will get the person who knows."),
            _wrong("no", "No, I made it.", "The flour may hold it, or the pot."),
            _wrong("little", "Just a little.", "A trace is enough."),
            _wrong("leave_off", "I can leave it off.", "Nobody knows yet where it is."),
        ),
    ),
    Scene(
        "minutes", "keyed", "The pot boils 25 minutes after it goes on, at {start}. It is {now}. Minutes left?",
        "What is left is the whole time, less what is gone.",
        draws=(
            SceneDraw("start", "clock", Fraction(600), Fraction(1200), Fraction(5)),
            SceneDraw("now", "after", Fraction(200), Fraction(2200), Fraction(100), Quantity.of(1, "min"), "start"),
        ),
        key=SceneKey("left", Quantity.of(25, "min"), ("start", "now"), "min", Quantity.of(35, "min")),
    ),
)  # fmt: skip
