"""Builds the demo kitchen: imports its roster, then plays eighteen months of its past."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.demo_door import DEMO_PASSPHRASE, DEMO_PIN
from trainer.actions.noticing import NoticeSeen, acknowledge_notice
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.paths import NewPath, start_path
from trainer.actions.publishing import publish_first
from trainer.actions.releasing import Release, release_stop
from trainer.actions.signing_in import set_secret
from trainer.actions.standing import Grant, TakenOff, open_station, take_off
from trainer.actions.teaching import Draft
from trainer.actions.watching import Watch
from trainer.demo.cast import CAST, GOALS, MANAGER, NOTICE_UNREAD, SOUS_CHEFS, STOOD_DOWN, STOPPED, CastMember, Goal
from trainer.demo.looked_again import plan_looks_again
from trainer.demo.nights import live_nights
from trainer.demo.path import Path as CookPath
from trainer.demo.roster import first_manager, join
from trainer.demo.story import Story
from trainer.kitchen.certificates import FOOD_PROTECTION_MANAGER
from trainer.kitchen.notices import HEALTH_REPORTING
from trainer.messages import translate
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

SEED = 20_261
PAST_DAYS = 545
GRANT_DAYS = 120
CARD_YEARS = timedelta(days=3 * 365)
CERTIFIED_YEARS, CERTIFIED_FOR = timedelta(days=5 * 365), timedelta(days=900)
QUERNSTONE = Settings(kitchen="", name="Quernstone", timezone="America/New_York", is_demo=True)


def build(folder: Path, draft: Draft, now: datetime) -> Kitchen:
    """Return the demo kitchen, made in *folder*, its past ending the day before *now*; `draft` is its only standard.

    A demo that could not be finished leaves nothing behind.
    """
    file = KitchenFile.create(folder, QUERNSTONE)
    kitchen = Kitchen(file, draft.content)
    try:
        with file.writing():
            Company(Story(kitchen, Random(SEED), kitchen.today(now), ZoneInfo(QUERNSTONE.timezone))).live(draft)  # noqa: S311
    except BaseException:
        file.close()
        file.path.unlink()
        raise
    return kitchen


@dataclass
class Company:
    """Everybody in the kitchen, and the plan of their past."""

    story: Story

    def live(self, draft: Draft) -> None:
        """Publish what is taught, then plan everybody's part and play it."""
        story = self.story
        self.manager = first_manager(story.kitchen, MANAGER, story.moment(PAST_DAYS, 9))
        begins = story.moment(PAST_DAYS, 9)
        story.must(publish_first(story.kitchen, draft=draft, by=self.manager, now=begins, key=story.key()))
        self._give_secret(self.manager, DEMO_PASSPHRASE)
        self.ids: dict[str, str] = {}
        for joins in sorted({part.joins for part in CAST}, reverse=True):
            arriving = {part.number for part in CAST if part.joins >= joins}
            story.at(story.moment(joins, 10), lambda at, who=arriving: self._arrive(who, at))  # type: ignore[misc]
        story.play()

    def _arrive(self, numbers: set[str], when: datetime) -> None:
        """Take everybody with these numbers onto the roster; plan the parts of those who are new."""
        ids: Mapping[str, str] = join(self.story.kitchen, numbers, self.manager, when)
        for part in CAST:
            if part.number in ids and part.number not in self.ids:
                self.ids[part.number] = ids[part.number]
                self._plan(part, ids[part.number], when)

    def _plan(self, part: CastMember, cook: str, when: datetime) -> None:
        """Plan one cook's part: papers, stations, and what befalls them."""
        story = self.story
        story.assessors = tuple(self.ids[n] for n in SOUS_CHEFS if n in self.ids)
        self._show_papers(part, cook, when)
        path = CookPath(story, cook)
        for aim in part.aims:
            path.go_for(aim)
        if any(aim.keeps_up for aim in part.aims):
            path.keep_fresh(when)
        if part.number == SOUS_CHEFS[0]:
            story.at(
                when + timedelta(hours=1), lambda at: self._open_stations(cook, at, set(story.kitchen.content.stations))
            )
            self._open_again(cook, when)
            live_nights(story, self.manager, cook)
        if part.number == SOUS_CHEFS[1]:
            plan_looks_again(story, cook)
        self._befall(part.number, cook)
        if part.number not in NOTICE_UNREAD:
            story.at(when + timedelta(hours=2), lambda at: self._read_notice(part.number, cook, at))
        for goal in GOALS:
            if goal.number == part.number:
                story.at(story.moment(goal.opened, 14), lambda at, one=goal: self._go_for(one, at))  # type: ignore[misc]
        self._give_secret(cook, DEMO_PIN)

    def _give_secret(self, person: str, secret: str) -> None:
        """Give a person the demo's secret, and keep that they are made up."""
        set_secret(self.story.kitchen, person=person, secret=secret)
        self.story.kitchen.file.demo_cast.add(person)

    def _show_papers(self, part: CastMember, cook: str, when: datetime) -> None:
        """Show the food handler card, a new one before it ends, and the machine induction where they have it."""
        story = self.story
        ends = story.today + timedelta(days=part.card_ends_in)
        self._show(Paper(cook, "food_handler", f"FH-{part.number}", ends - CARD_YEARS, ends), when)
        if part.inducted:
            issued = when.astimezone(story.zone).date()
            self._show(Paper(cook, "machine_induction", f"MI-{part.number}", issued, None), when)

        if part.number == SOUS_CHEFS[0]:
            ends = story.today + CERTIFIED_FOR
            paper = Paper(cook, FOOD_PROTECTION_MANAGER.id, f"FPM-{part.number}", ends - CERTIFIED_YEARS, ends)
            key = f"paper:{FOOD_PROTECTION_MANAGER.id}:{part.number}"
            story.must(show_certificate(story.kitchen, by=self.manager, paper=paper, now=when, key=key))

    def _read_notice(self, number: str, cook: str, when: datetime) -> None:
        """Read the notice on illness on the first day; its key is no draw of the story's."""
        notice, lines = HEALTH_REPORTING, [translate(text) for text in HEALTH_REPORTING.texts]
        seen = NoticeSeen(notice.id, notice.edition, "en", lines)
        key = f"notice:{number}"
        self.story.must(acknowledge_notice(self.story.kitchen, by=cook, seen=seen, now=when, key=key))

    def _show(self, paper: Paper, when: datetime) -> None:
        story = self.story
        story.must(show_certificate(story.kitchen, by=self.manager, paper=paper, now=when, key=story.key()))

    def _open_again(self, assessor: str, joined: datetime) -> None:
        """Plan to open stations on the first day of an edition that ends every sign-off: nobody is cleared then."""
        story, content = self.story, self.story.kitchen.content
        for technique in content.techniques.values():
            stations = {station.id for station in content.stations_asking_for(technique.id)}
            for edition in technique.editions[1:]:
                begins = story.moment((story.today - edition.since).days, 9)
                if not edition.sign_offs_hold and begins > joined:
                    story.at(begins, lambda at, where=stations: self._open_stations(assessor, at, where))  # type: ignore[misc]

    def _open_stations(self, assessor: str, when: datetime, stations: set[str]) -> None:
        """Open stations for the first sous chef, where nobody is cleared: at the beginning, all of them."""
        story = self.story
        until: date = when.astimezone(story.zone).date() + timedelta(days=GRANT_DAYS)
        for station in sorted(stations):
            grant = Grant(assessor, station, until, "Opened: nobody is cleared here.")
            story.must(open_station(story.kitchen, by=self.manager, grant=grant, now=when, key=story.key()))

    def _befall(self, number: str, cook: str) -> None:
        """Plan what happens to a few: stood down, stopped for safety and released, an entry voided."""
        story = self.story
        if number == STOOD_DOWN.number:
            off = TakenOff(cook, (STOOD_DOWN.station,), "seen", STOOD_DOWN.about)
            story.at(
                story.moment(STOOD_DOWN.days_ago, 23),
                lambda when: story.must(take_off(story.kitchen, by=self.manager, off=off, now=when, key=story.key())),
            )
        if number == STOPPED.number:
            watch = Watch(cook, STOPPED.about, STOPPED.station)
            story.at(story.moment(STOPPED.days_ago, 16), lambda when: self._stop(watch, when))

    def _go_for(self, goal: Goal, when: datetime) -> None:
        """Open a path; its key is no draw of the story's, so that with or without it the same things happen."""
        story, cook, mentor = self.story, self.ids[goal.number], self.ids.get(goal.mentor, "")
        path = NewPath(cook, goal.station, story.today + timedelta(days=goal.due_in), mentor)
        key = f"path:{goal.number}:{goal.station}"
        story.must(start_path(story.kitchen, by=mentor or cook, path=path, now=when, key=key))

    def _stop(self, watch: Watch, when: datetime) -> None:
        """Be stopped for safety, released by the manager the day after, and meet it two days after that."""
        story = self.story
        critical = next(p.id for p in story.kitchen.content.techniques[watch.technique].checklist if p.critical)
        story.watch(watch, when, missed=critical, unsafe=True)
        stop = story.kitchen.file.book.since(0)[-1]
        release = Release(stop.id, stop.by, "Shown again, slowly, with the whole knife roll.", 20)
        story.at(when + timedelta(hours=20), lambda at: self._release(release, at))
        story.at(when + timedelta(hours=46), lambda at: self._enter_twice(watch, at, critical))
        story.at(when + timedelta(days=3), lambda at: story.watch(watch, at))

    def _release(self, release: Release, when: datetime) -> None:
        """Let the manager release a stop."""
        story = self.story
        story.must(release_stop(story.kitchen, by=self.manager, release=release, now=when, key=story.key()))

    def _enter_twice(self, watch: Watch, when: datetime, missed: str) -> None:
        """Not be there yet, and have the entry that was written twice voided."""
        story = self.story
        story.watch(watch, when, missed=missed)
        story.watch(watch, when + timedelta(hours=1), missed=missed)
        twice = story.kitchen.file.book.since(0)[-1]
        correction = Correction(twice.id, "Entered twice: it was one run.")
        later = when + timedelta(hours=3)
        story.must(void_entry(story.kitchen, by=self.manager, correction=correction, now=later, key=story.key()))
