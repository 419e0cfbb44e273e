"""What passes one sitting, as it stood when the sitting began: a fixed need, or a plan that decides."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.kitchen.quiz.sequential_test import Plan, SequentialState, decided, kept, plan_kept, standing
from trainer.kitchen.quiz.sitting import Result, Tally, result
from trainer.kitchen.technique import Technique


@dataclass(frozen=True, slots=True)
class SittingRules:
    """With a `plan` the answers decide; else so many right pass, and so many percent of those about safety."""

    plan: Plan | None
    need_right: int
    safety_percent: int

    def standing_of(self, count: Tally) -> SequentialState | None:
        """Return how a sitting that decides stands; None for one of fixed length."""
        return None if self.plan is None else standing(self.plan, count)

    def result_of(self, count: Tally) -> Result:
        """Return what a finished sitting comes to."""
        return decided(self.plan, count) if self.plan else result(count, self.need_right, self.safety_percent)

    def kept(self) -> dict[str, Any]:
        """Return the rules as a draft keeps them."""
        return {"need_right": self.need_right, **self.judged()}

    def judged(self) -> dict[str, Any]:
        """Return what the book keeps of them beside the need: the plan, or the floor about safety."""
        return {"plan": kept(self.plan)} if self.plan else {"safety_percent": self.safety_percent}


def rules_of(technique: Technique) -> SittingRules:
    """Return what passes the quiz of a technique today."""
    return SittingRules(technique.plan, technique.need_right, technique.safety_percent)


def rules_kept(body: Mapping[str, Any]) -> SittingRules:
    """Return the rules that a draft keeps."""
    plan = plan_kept(body["plan"]) if body.get("plan") else None
    return SittingRules(plan, body["need_right"], plan.safety_percent if plan else body["safety_percent"])
