"""One cook's way to a station: the acts in the order a cook does them, and what keeps a clearance up afterwards."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from trainer.actions.watching import Watch
from trainer.demo.cast import Aim
from trainer.demo.story import Story
from trainer.kitchen.spans import months_later
from trainer.kitchen.technique import Station, Technique

KNOWN_BY = timedelta(days=6)  # from the reading on: a few questions a day, practice once where it is wanted
QUICK_DAYS, SLOW_DAYS = 4, 6
WEEK = timedelta(days=7)
APART = timedelta(days=2)  # between the beginnings of one technique and the next
QUIZ_LEAD, WATCH_LEAD = timedelta(days=14), timedelta(days=9)
FIRST_SHIFT = timedelta(days=8)  # after the last technique was begun
STAGES = ("read", "quiz failed", "quiz passed", "asked", "signed")
SAT_AGAIN = timedelta(days=3)  # from the reading on: two days after the fail, one more than the wait asks for
SLOW_START = 0.3  # share of quizzes failed once, and of practicals not yet, at a first try (made up)


@dataclass
class Path:
    """What one cook has been through so far, and the acts planned for them."""

    story: Story
    cook: str
    learnt: set[str] = field(default_factory=set)

    def go_for(self, aim: Aim) -> None:
        """Plan the way to a station: its techniques one after another, then the supervised shifts.

        Anyone who has asked to be watched has worked the shifts already: nothing but a practical is left.
        """
        station = self.story.kitchen.content.stations[aim.station]
        ahead = [self.story.kitchen.content.techniques[t] for t in station.techniques if t not in self.learnt]
        starts = self.story.moment(aim.last_begins) - max(len(ahead) - 1, 0) * APART
        for place, technique in enumerate(ahead):
            is_last = place == len(ahead) - 1
            self._learn(technique, station, starts + place * APART, aim.how_far if is_last else "signed", aim.keeps_up)
        if aim.how_far in ("one shift", "cleared"):
            wanted = station.supervised_shifts if aim.how_far == "cleared" else 1
            for nth in range(wanted):
                when = self.story.moment(aim.last_begins) + FIRST_SHIFT + timedelta(days=2 * nth, hours=7, minutes=40)
                self._plan_shift(station, when)
        if aim.how_far == "asked":
            for nth in range(station.supervised_shifts):
                self._plan_shift(station, self.story.moment(aim.last_begins) + timedelta(days=nth + 1, hours=7))

    def _learn(self, technique: Technique, station: Station, starts: datetime, how_far: str, keeps_up: bool) -> None:
        """Plan reading, the quiz, the request and the practical of one technique."""
        story, cook, name = self.story, self.cook, technique.id
        last = STAGES.index(how_far) if how_far in STAGES else len(STAGES) - 1
        self.learnt.add(name)
        story.at(starts, lambda at: story.read(cook, name, at))
        slow = how_far == "quiz failed" or story.rng.random() < SLOW_START
        if technique.knowledge:
            self._answer_questions(technique, starts + timedelta(hours=20), slow, last)
        elif slow and last >= 1:
            wrong = technique.asked - technique.need_right + 1
            story.at(starts + timedelta(days=1), lambda at: story.sit(cook, name, at, wrong=wrong))
        if last >= 2 and not technique.knowledge:
            again = SAT_AGAIN if slow else timedelta(days=1)
            story.at(starts + again + timedelta(hours=1), lambda at: self._pass(technique, at, keeps_up))
        if last >= 3:
            story.at(starts + KNOWN_BY, lambda at: story.ask(cook, name, at))
        if last >= 4:
            self._be_watched(technique, station, starts + KNOWN_BY + timedelta(hours=2), keeps_up)

    def keep_fresh(self, since: datetime) -> None:
        """Plan a few minutes a week for the questions that come again."""
        when = since + WEEK
        while when <= self.story.moment(1):
            self.story.at(when, lambda at: self.story.refresh(self.cook, at))
            when += WEEK

    def _answer_questions(self, technique: Technique, when: datetime, slow: bool, last: int) -> None:
        """Plan a few questions a day until all of a technique is known; a slow start wants practice in one skill."""
        story, cook, name = self.story, self.cook, technique.id
        if slow and last >= 1:
            story.at(when, lambda at: story.answer_all(cook, name, at, wrong=True))
            if last >= 2:
                story.at(when + timedelta(hours=1), lambda at: story.practise(cook, name, at))
        days = SLOW_DAYS if slow else QUICK_DAYS
        for nth in range(1 if slow else 0, days if last >= 2 else 0):
            story.at(when + timedelta(days=nth), lambda at: story.answer_all(cook, name, at))

    def _be_watched(self, technique: Technique, station: Station, when: datetime, keeps_up: bool) -> None:
        """Plan the practical; at a slow start the first one is not yet, and the cook asks again."""
        story, watch = self.story, Watch(self.cook, technique.id, station.id)
        if story.rng.random() < SLOW_START:
            critical = next(point.id for point in technique.checklist if point.critical)
            story.at(when, lambda at: story.watch(watch, at, missed=critical))
            if not technique.parts:  # of a divided checklist the request stays open for the parts nobody has watched
                story.at(when + timedelta(hours=1), lambda at: story.ask(self.cook, technique.id, at))
            when += timedelta(days=1)
        story.at(when, lambda at: self._sign(technique, watch, at, keeps_up))

    def _pass(self, technique: Technique, when: datetime, keeps_up: bool) -> None:
        """Sit the quiz and pass it; anyone who keeps it up sits again before it runs out."""
        slips = self.story.rng.randint(0, 1 if technique.plan else technique.asked - technique.need_right)
        self.story.sit(self.cook, technique.id, when, wrong=slips)
        if keeps_up:
            again = when + (months_later(when.date(), technique.quiz_months) - when.date()) - QUIZ_LEAD
            self.story.at(again, lambda at: self._pass(technique, at, keeps_up))

    def _sign(self, technique: Technique, watch: Watch, when: datetime, keeps_up: bool) -> None:
        """Be watched and signed off; anyone who keeps it up is watched again before it runs out.

        An edition that ends every sign-off is read when it begins, and shown the same day.
        """
        story = self.story
        story.watch(watch, when)
        if not keeps_up:
            return
        again = when + (months_later(when.date(), technique.sign_off_months) - when.date()) - WATCH_LEAD
        anew = self._shown_anew(technique, when)
        if anew is not None and anew < again + WATCH_LEAD:
            story.at(anew, lambda at: story.read(self.cook, technique.id, at))
            again = anew + timedelta(hours=3)
        story.at(again, lambda at: self._sign(technique, watch, at, keeps_up))

    def _shown_anew(self, technique: Technique, when: datetime) -> datetime | None:
        """Return when the cook reads the next edition that ends every sign-off; None where none comes.

        The second sous chef is watched on its first day by the one the stations were opened for, that one a day later,
        and everybody else after them.
        """
        today = when.astimezone(self.story.zone).date()
        ends = [one.since for one in technique.editions if one.since > today and not one.sign_offs_hold]
        if not ends:
            return None
        sous_chefs = list(self.story.assessors)
        later = 2 if self.cook not in sous_chefs else 1 - sous_chefs.index(self.cook)
        return self.story.moment((self.story.today - min(ends)).days - later, 11)

    def _plan_shift(self, station: Station, when: datetime) -> None:
        """Plan one supervised shift, written down late that evening."""
        guests = self.story.rng.randint(48, 70)
        self.story.at(when, lambda at: self.story.shift(self.cook, station.id, at, guests))
