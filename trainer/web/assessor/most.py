"""What the kitchen gets wrong most, as bars with their counts: wrong methods across cooks, and first tries missed.

A count is true however few the cooks are; a share stands only where enough of them were asked for it to say something.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for
from markupsafe import Markup

from trainer.kitchen.first_tries import FEWEST_COOKS, FirstTries, first_tries, teaching_fails
from trainer.kitchen.skills.fold import Happening
from trainer.messages import Text, joined, message, plural
from trainer.recipe_math.figures import number_text
from trainer.web import guard, reading
from trainer.web.assessor.again_view import AgainWords, again_words
from trainer.web.assessor.desk_talk import DAYS, TalkLine, all_talk_lines
from trainer.web.page import Page, show

pages = Blueprint("most", __name__, url_prefix="/most-wrong")
WIDTH, HEIGHT, LETTER = 280, 30, 18
MOST = 10
"""So many kinds of question stand on bars."""


@dataclass(frozen=True, slots=True)
class MethodBar:
    """A wrong method with its bar: as long as its answers are many."""

    svg: Markup
    line: TalkLine


@dataclass(frozen=True, slots=True)
class SkillBar:
    """A kind of question with its bar: how many cooks missed the first, of all asked; what that says, if enough.

    `asked_by` names the techniques that ask for it: it is their steps and words that teach it.
    """

    svg: Markup
    title: str
    asked_by: str
    words: Text
    says: Text
    fails: bool


@dataclass(frozen=True, kw_only=True)
class MostPage(Page):
    """Wrong methods of the last days, the kinds of question that are missed at first, sign-offs looked at again."""

    template: ClassVar[str] = "assessor/most.html"
    days: int
    methods: tuple[MethodBar, ...]
    skills: tuple[SkillBar, ...]
    never_missed: Text
    again: AgainWords | None
    back: str
    back_words: Text


@pages.get("")
@guard.needs("assessor or manager")
def wrong() -> Response:
    """Show what is got wrong most, for whoever teaches."""
    is_manager = guard.is_manager()
    lines = all_talk_lines(guard.kitchen())
    most = max((line.times for line in lines), default=1)
    found = _first_tries()
    missed = [one for one in found if one.missed]
    shown = missed[:MOST]
    page = MostPage(
        title=message("What the kitchen gets wrong most"),
        days=DAYS,
        methods=tuple(MethodBar(bar_drawn(line.times, line.times, most), line) for line in lines),
        skills=tuple(_skill_bar(one, found) for one in shown),
        never_missed=_rest(len(missed) - len(shown), len(found) - len(missed)),
        again=again_words(),
        back=url_for("board.tonight") if is_manager else url_for("assessor.waiting"),
        back_words=message("Back to the board") if is_manager else message("Back to my desk"),
    )
    return show(page)


def bar_drawn(count: int, of: int, most: int) -> Markup:
    """Return a bar: black as long as the count, open to all of those it is out of, on the scale of the most there are.

    The number stands at its end. It is silent: the words beside it say the same.
    """
    room = WIDTH - 44
    full, whole = (round(max(room * number / most, 2), 1) for number in (count, of))
    return Markup(
        '<svg class="bar-drawn" viewBox="0 0 {width} {height}" aria-hidden="true" focusable="false" '
        'font-size="{letter}" fill="currentColor"><path d="M1 3H{whole}V27H1z" fill="none" stroke="currentColor" '
        'stroke-width="2"/><path d="M1 3H{full}V27H1z"/><text x="{at}" y="21" font-weight="700">{count}</text></svg>'
    ).format(width=WIDTH, height=HEIGHT, letter=LETTER, whole=whole, full=full, at=whole + 8, count=count)


def _first_tries() -> tuple[FirstTries, ...]:
    progress, on, known = guard.kitchen().progress(), guard.today(), reading.content().skills
    cooks = progress.at_stations_on(on)
    answers: Mapping[str, tuple[Happening, ...]] = {cook: progress.record(cook).as_of(on).skills for cook in cooks}
    return tuple(one for one in first_tries(answers) if one.skill in known)


def _skill_bar(one: FirstTries, every: tuple[FirstTries, ...]) -> SkillBar:
    is_fault, content = teaching_fails(one, every), reading.content()
    asked_by = [each.title for each in content.techniques.values() if one.skill in {s.id for s in each.knowledge}]
    return SkillBar(
        svg=bar_drawn(one.missed, one.cooks, max(each.cooks for each in every)),
        title=content.skills[one.skill].title,
        asked_by=", ".join(asked_by),
        words=plural("{missed} of {number} cook", "{missed} of {number} cooks", one.cooks, missed=one.missed),
        says=_says(one, is_fault=is_fault),
        fails=is_fault,
    )


def _says(one: FirstTries, *, is_fault: bool) -> Text:
    """Return what the share says, from enough cooks on; before, how many are wanting."""
    if not one.is_enough:
        return message("Too few to say more: {number} of {enough} cooks.", number=one.cooks, enough=FEWEST_COOKS)
    low, high = (number_text(100 * end, 0) for end in (one.likely.low, one.likely.high))
    words = message("Of 100 cooks, between {low} and {high} would miss it.", low=low, high=high)
    if not is_fault:
        return joined([words, message("That is no more than elsewhere.")])
    return joined([words, message("More than elsewhere: look at its steps and words first, not at the cooks.")])


def _rest(more: int, never: int) -> Text:
    """Return how many kinds of question stand on no bar: missed by fewer, and missed by nobody."""
    fewer = plural("{number} more kind of question was missed.", "{number} more kinds of question were missed.", more)
    nobody = plural("{number} kind of question nobody missed.", "{number} kinds of question nobody missed.", never)
    return joined(words for words, count in ((fewer, more), (nobody, never)) if count)
