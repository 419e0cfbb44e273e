"""A house's own service from its name to the file it comes back in: planned, covered, closed, signed, exported."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.actions.test_planning import DINNER, publish, set_week
from tests.printed import english
from trainer.actions.closing import Closing, close_service
from trainer.actions.covering import service_to_show, services_of
from trainer.actions.desk import shifts_to_sign
from trainer.actions.house_services import Change, Listing, change_services
from trainer.actions.inspecting import inspection
from trainer.actions.like_last_week import like_last_week
from trainer.actions.outcome import Outcome
from trainer.actions.roster import plan_import
from trainer.actions.watching import SupervisedShift, work_shift
from trainer.exports.asking import Asked
from trainer.exports.calendars import shift_events
from trainer.exports.plan import plan_tables
from trainer.exports.spreadsheet import csv_of
from trainer.imports.roster_plan import Choices, ShiftRow
from trainer.kitchen.book import LOCAL
from trainer.kitchen.own_services import ServiceWanted
from trainer.kitchen.services import THE_THREE
from trainer.messages import Text, translate
from trainer.store.catalogues import translations
from trainer.store.kitchen_file import KitchenFile
from trainer.store.shifts import PlannedShift

BRUNCH = ServiceWanted("", (("en", "Sunday brunch"), ("es", "Almuerzo tardío")), "10:00", "14:30")
HOURS = DINNER | {"weekday": 1, "service": "sunday_brunch", "opens": "10:30", "closes": "15:00"}
LEFT_OUT = frozenset({"From", "To", "How", "Beside", "In charge", "Desde", "Hasta", "Cómo", "Al lado de", "A cargo"})


def spanish(text: Text) -> str:
    """Return a text as it is printed in Spanish."""
    return translate(text, translations("es"))


def change(crew: Crew, *changes: Change, by: str = "mara", key: str = "") -> Outcome:
    """Change the services."""
    return change_services(crew.k, by=by, changes=changes, now=crew.now, key=key or crew.key())


@pytest.fixture
def brunch(crew: Crew) -> Crew:
    """Return the crew in a house with a brunch on Mondays, Sous at the cold side and Ada beside, at 16:00."""
    saved(change(crew, BRUNCH))
    saved(set_week(crew, weekly=[HOURS]))
    crew.k.file.shifts.add(PlannedShift(TODAY, "sunday_brunch", cook, "cold_side") for cook in ("sous", "ada"))
    saved(publish(crew))
    crew.later(hours=4)
    return crew


def test_a_name_is_an_entry_and_is_there_when_the_kitchen_opens_again(crew: Crew) -> None:
    """The list of ids as ever, beside it what each is called; sent twice it is one entry."""
    entry = saved(change(crew, BRUNCH, key="one"))
    assert saved(change(crew, BRUNCH, key="one")) == entry
    assert (entry.kind, entry.by) == ("kitchen_set", "mara")
    assert entry.body["services"] == ["breakfast", "sunday_brunch", "lunch", "dinner"]
    assert entry.body["services_called"][1] == {
        "id": "sunday_brunch",
        "names": {"en": "Sunday brunch", "es": "Almuerzo tardío"},
        "opens": "10:00",
        "closes": "14:30",
    }
    assert KitchenFile.open(crew.k.file.folder).settings.services == crew.k.services


def test_only_a_manager_or_the_machine_names_a_service(crew: Crew) -> None:
    """Anybody else is told who can; a house that names none keeps the three."""
    assert refused(change(crew, BRUNCH, by="sous")).who_can
    assert crew.k.services == THE_THREE
    saved(change(crew, BRUNCH, by=LOCAL))


def test_of_two_changes_one_wrong_changes_nothing(crew: Crew) -> None:
    """All of it or none."""
    end = crew.k.file.book.end()
    refused(change(crew, BRUNCH, Listing("tea", is_offered=False)))
    assert (crew.k.file.book.end(), crew.k.services) == (end, THE_THREE)


def test_it_is_covered_and_shown_as_the_house_calls_it(brunch: Crew) -> None:
    """With the hours of its weekday; the wall shows it while it runs."""
    (found,) = services_of(brunch.k, TODAY)
    assert (english(found.service.heading), spanish(found.service.title)) == ("Sunday brunch", "Almuerzo tardío")
    assert (found.opens.hour, found.opens.minute, found.closes.hour) == (10, 30, 15)
    shown, _ = service_to_show(brunch.k, TODAY, NOON)
    assert shown is not None
    assert shown.service.id == "sunday_brunch"


def test_it_is_closed_and_its_shift_signed(brunch: Crew) -> None:
    """The entries keep its id; the desk proposes it; the sheet of an inspector names it."""
    closing = Closing(TODAY, "sunday_brunch", as_planned=True)
    entry = saved(close_service(brunch.k, by="sous", closing=closing, now=brunch.now, key="close"))
    assert entry.body["service"] == "sunday_brunch"
    again = refused(close_service(brunch.k, by="sous", closing=closing, now=brunch.now, key="again"))
    assert english(again.reason).startswith("Sunday brunch on 2 March 2026 is closed already")
    (proposed,) = shifts_to_sign(brunch.k, by="sous", now=brunch.now - timedelta(hours=5))
    assert proposed.service == "sunday_brunch"
    shift = SupervisedShift("ada", "cold_side", TODAY, "sous", 40, "sunday_brunch")
    worked = saved(work_shift(brunch.k, by="sous", shift=shift, now=brunch.now, key="shift"))
    assert worked.body["sitting"] == "sunday_brunch"
    sheet = inspection(brunch.k, on=TODAY, now=brunch.now, service="sunday_brunch")
    assert sheet.service is not None
    assert english(sheet.service.heading) == "Sunday brunch"


def test_it_is_signed_from_when_it_opens_that_day(brunch: Crew) -> None:
    """Its usual hours would let it begin at eight; a week that opens it earlier counts too."""
    tomorrow = TODAY + timedelta(days=1)
    saved(set_week(brunch, weekly=[HOURS | {"weekday": 2, "opens": "06:00", "closes": "09:00"}]))
    shift = SupervisedShift("ada", "cold_side", tomorrow, "sous", 40, "sunday_brunch")
    night = brunch.later(hours=13, minutes=59)  # 05:59
    words = english(refused(work_shift(brunch.k, by="sous", shift=shift, now=night, key="early")).reason)
    assert (
        words == "It is 05:59 here, and Sunday brunch begins no earlier than 06:00. Sign the shift once it is worked."
    )
    saved(work_shift(brunch.k, by="sous", shift=shift, now=brunch.later(minutes=1), key="on time"))


@pytest.mark.parametrize(("say", "name"), [(english, "Sunday brunch"), (spanish, "Almuerzo tardío")])
def test_what_is_exported_comes_back_in_as_the_same_rows(brunch: Crew, say: Any, name: str) -> None:
    """The table of the plan in either language is a shift file with its columns left out; its calendar names it."""
    asked = Asked(brunch.k, brunch.k.content, TODAY)
    (table,) = plan_tables(asked, TODAY)
    text = "".join(csv_of(table, say))
    assert name in text
    plan = plan_import(brunch.k, text.encode(), Choices(columns_left_out=LEFT_OUT))
    assert not plan.problems
    assert {(row.sitting, row.cook) for row in plan.rows if isinstance(row, ShiftRow)} == {
        ("sunday_brunch", "ada"),
        ("sunday_brunch", "sous"),
    }
    assert all(name in say(one.title) for one in shift_events(asked, TODAY))


@pytest.mark.parametrize(
    "typed", ["sunday brunch", "SUNDAY  BRUNCH", "Sunday_Brunch", "almuerzo tardio", "Almuerzo Tardío"]
)
def test_a_shift_file_names_it_as_people_write_it(brunch: Crew, typed: str) -> None:
    """In either language, whatever the accents and capitals; the three as ever, in Spanish too."""
    text = f"fecha,servicio,nombre,estacion\r\n2026-03-09,{typed},Ben,cold side\r\n2026-03-09,cena,Ada,cold side\r\n"
    plan = plan_import(brunch.k, text.encode())
    assert [row.sitting for row in plan.rows if isinstance(row, ShiftRow)] == ["sunday_brunch", "dinner"]


def test_a_shift_file_that_names_none_is_told_the_houses_own(brunch: Crew) -> None:
    """The nearest name, else all of them; one that is off the list is none."""
    saved(change(brunch, Listing("lunch", is_offered=False)))
    text = "date,sitting,name,station\r\n2026-03-09,sunday brnch,Ben,cold side\r\n2026-03-09,comida,Ada,cold side\r\n"
    first, second = plan_import(brunch.k, text.encode()).problems
    assert english(first.hint) == "Did you mean “sunday brunch”?"
    assert (second.value, english(second.hint)) == ("comida", "There are: breakfast, Sunday brunch, dinner.")


def test_a_service_the_week_holds_stays_on_the_list(brunch: Crew) -> None:
    """It says on which weekdays and days; taken off those first, it goes, and its past goes on being read."""
    day = {"day": "2026-03-08", "service": "sunday_brunch", "needs": []}
    saved(set_week(brunch, weekly=[HOURS, HOURS | {"weekday": 7}], days=[day]))
    said = refused(change(brunch, Listing("sunday_brunch", is_offered=False)))
    assert english(said.reason) == "Sunday brunch is held: Mondays, Sundays, 8 March 2026."
    tomorrow = TODAY + timedelta(days=1)
    saved(set_week(brunch, since=f"{tomorrow}", weekly=[DINNER]))
    assert "Mondays" in english(refused(change(brunch, Listing("sunday_brunch", is_offered=False))).reason)
    brunch.later(days=1)
    saved(change(brunch, Listing("sunday_brunch", is_offered=False)))
    assert [english(one.service.heading) for one in services_of(brunch.k, TODAY)] == ["Sunday brunch"]
    closing = Closing(TODAY, "sunday_brunch", as_planned=True)
    saved(close_service(brunch.k, by="sous", closing=closing, now=brunch.now, key="close"))
    again = like_last_week(brunch.k, [TODAY + timedelta(days=7)], (), tomorrow)
    assert (again.places, len(again.left_out)) == ((), 2)
    assert english(again.left_out[0].reason) == "This service is off the house's list."
    told = refused(set_week(brunch, since=f"{tomorrow}", weekly=[HOURS]))
    assert "There are: breakfast, lunch, dinner." in english(told.reason)


def test_a_week_to_come_that_holds_it_counts_too(crew: Crew) -> None:
    """What is set from a later day on holds it as well."""
    saved(set_week(crew))
    saved(
        set_week(crew, since="2026-03-09", weekly=[DINNER | {"service": "lunch", "opens": "11:00", "closes": "15:00"}])
    )
    said = refused(change(crew, Listing("lunch", is_offered=False)))
    assert english(said.reason) == "Lunch is held: Tuesdays."
