"""What the quiz of a technique really does, for its author: how often it is wrong, and how long it takes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.kitchen.quiz.round_robin import safety_places
from trainer.kitchen.quiz.sequential_test import Plan, Rates, fixed_rates, rates_in_words, true_rates
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message


@dataclass(frozen=True, slots=True)
class QuizRates:
    """A technique's quiz: its rule in words, the plan it is judged by, its exact rates and those in words."""

    technique: str
    decides: bool
    rule: Text
    plan: Plan
    rates: Rates

    @property
    def words(self) -> Text:
        """Return the rates in words."""
        return rates_in_words(self.plan, self.rates)


def quiz_rates(technique: Technique) -> QuizRates:
    """Return the exact rates of a technique's quiz; a fixed one is judged for the two cooks of the usual plan."""
    rule, places = technique.quiz_rule, safety_places(technique)
    if any(places) and technique.safety_percent:
        percent = technique.safety_percent
        rule = message("{rule}, and {percent} % of those about safety", rule=rule, percent=percent)
    if technique.plan is None:
        plan = replace(Plan(), safety_percent=technique.safety_percent)
        rates = fixed_rates(technique.need_right, technique.asked, plan, sum(places))
        return QuizRates(technique.id, False, rule, plan, rates)
    return QuizRates(technique.id, True, rule, technique.plan, true_rates(technique.plan, places))
