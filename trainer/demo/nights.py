"""The demo kitchen's services: the week it holds, the plan of the days about today, and the last services closed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta

from trainer.actions.closing import Closing, against, close_service, planned_places
from trainer.actions.planning import PlanWanted, publish_plan, set_services
from trainer.demo.roster import plan_shifts
from trainer.demo.story import Story

PLANNED_BACK, PLANNED_AHEAD = 3, 13  # days; the newest cook joined that long ago
DINNER, LUNCH = "dinner", "lunch"
WEEK = {DINNER: (range(1, 8), "17:30", "22:30", 70, 23), LUNCH: (range(6, 8), "12:00", "15:00", 46, 15)}
"""By service: its weekdays (Monday is 1), its hours, its guests, and the hour after which it is closed."""
MONDAY, PASTRY = 1, "pastry"
AWAY_FROM, AWAY_DAYS = 12, 2
"""The first sous chef is away so many days after the first one of the shift file, for so many days."""
WHY_ALL_THE_SAME = "The sous chef stood close by and looked at every plate."


def live_nights(story: Story, manager: str, in_charge: str) -> None:
    """Plan how the week is set, the shifts taken in and the plan published, and how each service since is closed."""
    begins = story.today - timedelta(days=PLANNED_BACK)
    story.at(story.moment(PLANNED_BACK, 11), lambda at: _publish(story, manager, in_charge, begins, at))
    for back in range(PLANNED_BACK, 0, -1):
        for service, (_, _, _, guests, hour) in WEEK.items():
            closing = Closing(story.today - timedelta(days=back), service, as_planned=True, guests=guests - 4 * back)
            story.at(
                story.moment(back, hour, 20),
                lambda at, one=closing: _close(story, in_charge, one, at),  # type: ignore[misc]
            )


def _publish(story: Story, manager: str, in_charge: str, begins: date, when: datetime) -> None:
    """Set the week, take the shift file in and publish it as the plan.

    No key is a draw of the story's, so that with or without a plan the same things happen.
    """
    k = story.kitchen
    told = {"since": begins.isoformat(), "weekly": list(_hours(k.content.stations)), "days": []}
    story.must(set_services(k, by=manager, told=told, now=when, key="services"))
    away = plan_shifts(k, manager, begins, when) + timedelta(days=AWAY_FROM)
    free = ((in_charge, away, away + timedelta(days=AWAY_DAYS - 1)),)
    wanted = PlanWanted(begins, story.today + timedelta(days=PLANNED_AHEAD), in_charge, free)
    story.must(publish_plan(k, by=manager, wanted=wanted, now=when, key="plan"))


def _hours(stations: Iterable[str]) -> Iterator[dict[str, object]]:
    """Yield every service of the week, one pair of hands at each station; the pastry section rests at some."""
    named = list(stations)
    for service, (weekdays, opens, closes, guests, _) in WEEK.items():
        for weekday in weekdays:
            rests = {PASTRY} if service == LUNCH or weekday == MONDAY else set()
            needs = [{"stations": [station], "hands": 1} for station in named if station not in rests]
            hours = {"opens": opens, "closes": closes, "guests": guests, "needs": needs}
            yield {"weekday": weekday, "service": service, **hours}


def _close(story: Story, by: str, closing: Closing, when: datetime) -> None:
    """Close a service that was planned as it was planned; where something speaks against that, say why."""
    k = story.kitchen
    stood = planned_places(k, closing.day, closing.service, closing.day)
    if not stood:
        return
    told = {one[:3]: WHY_ALL_THE_SAME for one in against(k, closing.day, closing.service, stood)}
    key = f"closed:{closing.day}:{closing.service}"
    story.must(close_service(k, by=by, closing=replace(closing, reasons=told), now=when, key=key))
