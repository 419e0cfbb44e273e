"""What is open on one's own phone while its owner is idle: the pages named here, and no other."""

from __future__ import annotations

from trainer.store.settings import OwnPhone

ALWAYS = frozenset({"door.leave"})
"""Signing out takes nothing but the wish to."""

STUDY = frozenset(
    {
        "cook.rail",
        "cook.record",
        "cook.contest.written",
        "cook.technique",
        "cook.step_list",
        "cook.step",
        "cook.after",
        "study.clock",
        "study.try_one",
        "questions.today",
        "questions.ask",
        "questions.answered",
        "practice.practise",
        "practice.done",
        "rehearsing.rehearse",
        "clocks.listed",
        "clocks.stop",
        "quiz.start",
        "quiz.sitting",
        "quiz.question",
        "quiz.hand_in",
        "quiz.result",
        "quiz.drill",
        "bench.tools",
        "bench.batch",
        "bench.bakeware.pans",
        "bench.cooling.cooling",
        "bench.dough.dough",
        "bench.holds.holds",
        "bench.measures.measures",
        "bench.portions.portions",
        "bench.reduction.reduction",
        "bench.tempering.tempering",
        "bench.tonight.tonight",
        "sheets.station",
        "sheets.sheet",
        "sheets.by_code",
        "sheets.type_code",
        "photographs.photograph",
        "screen.measure",
        "language.choose",
        "offline.kept",
        "offline.unsent",
    }
)
"""Reading, answering and one's own record: nothing of another person, and nothing that is signed, given or lifted."""

ASKING = frozenset({"cook.ask", "cook.helping.ask", "cook.helping.undo"})
"""Asking to be watched, or for help with a question."""

OPEN: dict[OwnPhone, frozenset[str]] = {
    "nothing": frozenset(),
    "study": ALWAYS | STUDY,
    "asking": ALWAYS | STUDY | ASKING,
}


def is_open_when_idle(endpoint: str | None, opens: OwnPhone) -> bool:
    """Return whether a page is open to the owner of a phone who was idle, by what the kitchen has set."""
    return endpoint in OPEN[opens]
