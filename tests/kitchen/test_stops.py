"""A stop for safety: off every station that asks for the technique, until a manager releases it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe
from tests.printed import all_english, english
from trainer.kitchen.book import moment_text
from trainer.kitchen.clearance import technique_standing

D = date
SIGNED, STOPPED, LATER = D(2026, 3, 2), D(2026, 4, 1), D(2026, 4, 5)
NOON = datetime(2026, 4, 1, 12, tzinfo=UTC)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe who has cleared Ada at all stations; cold side and grill ask for one technique."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.clears_for_pasta_room("ada", SIGNED)
    scribe.shows("ada", "first_aid", SIGNED, SIGNED, None)
    return scribe


def begun(at: datetime) -> dict[str, Any]:
    """Return the field that says when a practical was begun."""
    return {"started": moment_text(at)}


def stop(scribe: Scribe, at: datetime = NOON, **more: Any) -> str:
    """Stop Ada at cold sauces, the guard off, begun five minutes before."""
    points = [{"point": "guard_on", "seen": "unsafe", "readings": [], "note": ""}]
    said: dict[str, Any] = {"points": points, **begun(at - timedelta(minutes=5)), **more}
    return scribe.watched("ada", "cold_sauces", at, "stopped", **said)


def states(scribe: Scribe, on: date = STOPPED) -> list[str]:
    """Return Ada's states at the cold side, the grill and the pasta room."""
    return [scribe.clearance("ada", station, on).state for station in ("cold_side", "grill", "pasta_room")]


def test_a_stop_takes_off_every_station_that_asks_for_the_technique(scribe: Scribe) -> None:
    """At once, at all of them; a station that does not ask for it stays. The reason names the point."""
    assert states(scribe) == ["cleared", "cleared", "cleared"]
    stop(scribe)
    assert states(scribe) == ["stood down", "stood down", "cleared"]
    assert states(scribe, STOPPED - timedelta(days=1)) == ["cleared", "cleared", "cleared"]
    found = scribe.clearance("ada", "grill", STOPPED)
    assert english(found.reason) == "Cold sauces: stopped for safety on 1 April 2026 at “guard on before power”."
    assert [english(m.next_act) for m in found.missing] == [
        "A manager releases the stop, with a reason; then the cook is watched anew."
    ]


def test_a_stop_without_a_point_names_technique_and_day(scribe: Scribe) -> None:
    """The assessor's own word over the points."""
    stop(scribe, points=[])
    assert (
        english(scribe.clearance("ada", "grill", STOPPED).reason) == "Cold sauces: stopped for safety on 1 April 2026."
    )


def test_a_point_no_longer_taught_keeps_its_id(scribe: Scribe) -> None:
    """The stop stands whatever became of the checklist."""
    stop(scribe, points=[{"point": "old_guard", "seen": "unsafe", "readings": [], "note": ""}])
    assert english(scribe.clearance("ada", "grill", STOPPED).reason).endswith("1 April 2026 at “old_guard”.")


def test_nobody_never_watched_before_is_ready_to_show_after_a_stop() -> None:
    """Read, stopped at the first practical: off the station, not ready to show."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.reads("ada", "cold_sauces", SIGNED)
    assert scribe.clearance("ada", "cold_side", SIGNED).state == "ready to show"
    stop(scribe)
    assert scribe.clearance("ada", "cold_side", STOPPED).state == "stood down"


def test_no_sign_off_lifts_a_stop(scribe: Scribe) -> None:
    """Not one begun before it and signed a minute later, nor one of another day: only a release does."""
    stop(scribe)
    scribe.watched("ada", "cold_sauces", NOON + timedelta(minutes=1), **begun(NOON - timedelta(hours=1)))
    scribe.watched("ada", "cold_sauces", LATER, **begun(NOON + timedelta(days=3)))
    assert states(scribe, LATER)[:2] == ["stood down", "stood down"]


def test_a_released_stop_asks_for_a_new_sign_off(scribe: Scribe) -> None:
    """The one before the stop does not come back; one begun before the release does not count; the next one does."""
    stopped = stop(scribe)
    scribe.releases(stopped, NOON + timedelta(hours=2))
    assert states(scribe)[:2] == ["lapsed", "lapsed"]
    assert [english(m.text) for m in scribe.clearance("ada", "cold_side", STOPPED).missing] == [
        "Cold sauces: stopped for safety on 1 April 2026, to be watched anew."
    ]
    scribe.watched("ada", "cold_sauces", NOON + timedelta(hours=3), **begun(NOON + timedelta(hours=1)))
    assert states(scribe)[:2] == ["lapsed", "lapsed"]
    texts = [m.text for m in scribe.clearance("ada", "cold_side", STOPPED).missing]
    assert all_english(texts) == ["Cold sauces: sign-off of 2 March 2026 counted to 31 March 2026."]
    scribe.watched("ada", "cold_sauces", NOON + timedelta(hours=4), **begun(NOON + timedelta(hours=3)))
    assert states(scribe)[:2] == ["cleared", "cleared"]


def test_a_first_sign_off_begun_before_the_release_is_named() -> None:
    """Nothing else was ever signed: the words say why it counts for nothing."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.reads("ada", "cold_sauces", SIGNED)
    stopped = stop(scribe)
    scribe.releases(stopped, NOON + timedelta(hours=2))
    scribe.watched("ada", "cold_sauces", NOON + timedelta(hours=3), **begun(NOON))
    texts = [m.text for m in scribe.clearance("ada", "cold_side", STOPPED).missing]
    assert all_english(texts) == ["Cold sauces: the sign-off of 1 April 2026 was begun before a stop was released."]


def test_of_two_stops_each_has_its_release(scribe: Scribe) -> None:
    """One released, the other stands, and both are told while both stand."""
    first, second = stop(scribe), stop(scribe, NOON + timedelta(minutes=10), points=[])
    assert english(scribe.clearance("ada", "grill", STOPPED).reason) == (
        "Cold sauces: stopped for safety on 1 April 2026 at “guard on before power”. "
        "Cold sauces: stopped for safety on 1 April 2026."
    )
    scribe.releases(first, LATER)
    assert states(scribe, LATER)[0] == "stood down"
    scribe.releases(second, LATER)
    assert states(scribe, LATER)[0] == "lapsed"


def test_a_release_that_is_voided_releases_nothing(scribe: Scribe) -> None:
    """From the day of the void the stop stands again; a stop that is voided never was."""
    stopped = stop(scribe)
    scribe.voids(scribe.releases(stopped, LATER), LATER + timedelta(days=1))
    assert states(scribe, LATER)[0] == "lapsed"
    assert states(scribe, LATER + timedelta(days=1))[0] == "stood down"
    scribe.voids(stopped, LATER + timedelta(days=2))
    assert states(scribe, LATER + timedelta(days=2))[0] == "cleared"


@pytest.mark.parametrize(("hours", "state"), [(1, "stood down"), (24, "cleared")])
def test_a_stop_of_an_older_program_ended_with_a_sign_off_on_a_later_day(
    scribe: Scribe, hours: int, state: str
) -> None:
    """That program knew no release, and no moment of beginning: a later day's sign-off of its own counts, as it did."""
    scribe.watched("ada", "cold_sauces", NOON, "stopped")
    scribe.watched("ada", "cold_sauces", NOON + timedelta(hours=hours))
    assert states(scribe, LATER)[0] == state


def test_a_stop_of_an_older_program_is_not_lifted_by_a_sign_off_of_this_one(scribe: Scribe) -> None:
    """Now there is a release, and it is asked for."""
    scribe.watched("ada", "cold_sauces", NOON, "stopped")
    scribe.watched("ada", "cold_sauces", LATER, **begun(NOON + timedelta(days=3)))
    assert states(scribe, LATER)[0] == "stood down"


def test_a_stopped_technique_is_not_to_be_watched(scribe: Scribe) -> None:
    """Off the station as long as the stop stands, then ready to show again."""
    sauces = scribe.content.techniques["cold_sauces"]
    stopped = stop(scribe)
    standing = technique_standing("ada", sauces, scribe.progress(), STOPPED)
    assert (standing.state, standing.is_stopped, standing.may_be_watched) == ("stood down", True, False)
    scribe.releases(stopped, LATER)
    standing = technique_standing("ada", sauces, scribe.progress(), LATER)
    assert (standing.state, standing.is_stopped, standing.may_be_watched) == ("ready to show", False, True)


def test_a_stop_and_a_standing_down_count_from_the_day_they_happened(scribe: Scribe) -> None:
    """Written behind an entry whose clock ran ahead, both name their own day, and hold from it."""
    ahead = D(2027, 2, 2)
    scribe.write("stood_down", "ada", ahead, {"station": "pasta_room", "reason": "x", "happened": "2026-04-01"})
    stop(scribe, datetime(2027, 2, 2, 12, tzinfo=UTC), happened="2026-04-01")
    assert states(scribe) == ["stood down", "stood down", "stood down"]
    assert states(scribe, STOPPED - timedelta(days=1)) == ["cleared", "cleared", "cleared"]
