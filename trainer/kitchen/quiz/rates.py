"""What the quiz of a technique really does, for its author: how often it is wrong, and how long it takes."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.quiz.deciding import Plan, Rates, fixed_rates, rates_in_words, true_rates
from trainer.kitchen.quiz.in_turn import safety_places
from trainer.kitchen.technique import Technique


@dataclass(frozen=True, slots=True)
class QuizRates:
    """A technique's quiz: its rule in words, the plan it is judged by, its exact rates and those in words."""

    technique: str
    decides: bool
    rule: str
    plan: Plan
    rates: Rates

    @property
    def words(self) -> str:
        """Return the rates in words."""
        return rates_in_words(self.plan, self.rates)


def quiz_rates(technique: Technique) -> QuizRates:
    """Return the exact rates of a technique's quiz; a fixed one is judged for the two cooks of the usual plan."""
    if technique.plan is None:
        rates = fixed_rates(technique.need_right, technique.asked, Plan())
        return QuizRates(technique.id, False, technique.quiz_rule, Plan(), rates)
    rates = true_rates(technique.plan, safety_places(technique))
    return QuizRates(technique.id, True, technique.quiz_rule, technique.plan, rates)
