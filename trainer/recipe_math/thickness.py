"""How a heating or cooling time changes with thickness: theory only, no published test found; an estimate, in floats.

Caution: a guess for when to begin checking, never a reason to stop. Whether food is cooked or cooled is read from a
thin probe in its thickest part, against the local code.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.messages import message
from trainer.recipe_math.estimates import above_zero


@dataclass(frozen=True, slots=True)
class ThicknessGuess:
    """Minutes by the rule of thumb, on what the rule rests, and what is not known."""

    minutes: float
    rests_on: str
    not_known: tuple[str, ...]


def guess_for_thickness(minutes: float, old_millimetres: float, new_millimetres: float) -> ThicknessGuess:
    """Return a guess for the time at another thickness: minutes x (new / old)^2. A rule of thumb, theory only.

    It holds for a slab heated or cooled through both faces, its surface at once at the temperature around it; thin or
    slowly heated pieces follow thickness more nearly in proportion. All above zero (QuantityProblem). No published
    worked example was found.

    >>> guess_for_thickness(20, old_millimetres=25, new_millimetres=50).minutes
    80.0
    """
    above_zero(minutes, message("a time in minutes"))
    times = above_zero(new_millimetres, message("a thickness in millimetres")) / above_zero(
        old_millimetres, "a thickness in millimetres"
    )
    return ThicknessGuess(
        minutes * times**2,
        "theory only: heat led through a flat slab, no published test",
        ("shape, bone, fat and air inside", "how well heat reaches the surface", "heat of melting, browning and steam"),
    )
