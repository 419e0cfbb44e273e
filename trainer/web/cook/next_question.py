"""The one act after an answer or a practice: practice, the next question, or back."""

from __future__ import annotations

from typing import NamedTuple

from flask import url_for

from trainer.actions import asking_skills, practising
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.cook import tasks


class NextStep(NamedTuple):
    """What an act is called and where it leads."""

    words: Text
    url: str


def next_after(technique: str, skill: str) -> NextStep:
    """Return what comes after an answer in a skill of a technique, or after its practice."""
    k, me, day = guard.kitchen(), guard.person().id, guard.kitchen().day(guard.today())
    found, asked = k.content.techniques.get(technique), k.content.skills.get(skill)
    home = NextStep(message("Back to my page"), url_for("cook.rail"))
    if found is None or asked is None:
        return home
    standing = practising.standing_in(me, asked, day).skill
    if standing.by_person:
        return home
    if standing.stage == "drill":
        url = url_for("practice.practise", technique=found.id, skill=asked.id, part=2)
        return NextStep(message("Practice this kind"), url)
    if asking_skills.next_skill(k, cook=me, technique=found, day=day):
        return NextStep(message("Next question"), url_for("questions.ask", technique=found.id))
    if tasks.may_ask_to_be_watched(found):
        return NextStep(message("On to what is next"), url_for("cook.technique", technique=found.id))
    return home
