"""The demo kitchen's sign-offs looked at again by the second sous chef: as the book drew them, one did not hold."""

from __future__ import annotations

from datetime import datetime

from trainer.actions.rechecking import Recheck, look_again, offered_to
from trainer.demo.story import Story

LOOKS = ((33, "same"), (19, "same"), (4, "not yet"))
"""How many days ago, and what was found."""
WHY_NOT_YET = "The first try was right, the second was not: it was hurried at the end."


def plan_looks_again(story: Story, by: str) -> None:
    """Plan each look again, in the quiet hour before dinner."""
    for days_ago, found in LOOKS:
        story.at(
            story.moment(days_ago, 16, 10),
            lambda at, what=found, key=f"again:{days_ago}": _look(story, by, what, at, key),  # type: ignore[misc]
        )


def _look(story: Story, by: str, found: str, when: datetime, key: str) -> None:
    """Look at the first that is drawn; its key is no draw of the story's, so that the same things happen without it."""
    k = story.kitchen
    for one in offered_to(k, by, k.day(k.today(when)))[:1]:
        first = k.file.book.find(one.line.entry)
        points = first.body["points"][-1:] if first is not None and found == "not yet" else []
        recheck = Recheck(one.line.entry, found, tuple(p["point"] for p in points), WHY_NOT_YET if points else "")
        story.must(look_again(k, by=by, recheck=recheck, now=when, key=key))
