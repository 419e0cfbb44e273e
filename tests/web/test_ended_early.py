"""A practical that ends early: stopped from any page, ended after a miss, and a signature taken back."""

from __future__ import annotations

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands
from tests.web.test_assessor import start_watching
from trainer.actions.open_kitchen import Kitchen


def to_the_second_point(bo: Hands, kitchen: Kitchen, first: str = "Meets it") -> Hands:
    """Let Bo judge the first point, the guard, which is critical."""
    start_watching(bo, kitchen)
    bo.press(first)
    return bo


def test_the_stop_is_there_before_the_first_point_and_at_signing(bo: Hands, kitchen: Kitchen) -> None:
    """At the same place; there it asks at which point, the last one looked at already picked."""
    to_the_second_point(bo, kitchen)
    address = bo.address.rsplit("/", 1)[0]
    for path in (address, f"{address}/record"):
        page = bo.open(path)
        (stop,) = page.soup.select("header a.stop")
        page = bo.open(str(stop["href"]))
        assert "What was unsafe?" in page.work
    (picked,) = page.soup.select("select[name=point] option[selected]")
    assert picked["value"] == "guard_on"
    page = bo.press("Yes, it was unsafe", cause="sharp")
    assert "Verdict: Stopped" in page.work
    assert page.soup.select("header .stop") == []
    assert bo.open(f"{address}/stop").heading == "The record as it will be kept"
    page = bo.press("Sign the stop", {"Your PIN": PIN})
    assert "Unsafe: A blade or a sharp edge." in page.work
    assert page.link("Who is next")
    assert bo.open(page.link("Off the floor now")).path == "/off/ana"


def test_a_stop_is_taken_without_a_cause_or_with_one_nobody_knows(bo: Hands, kitchen: Kitchen) -> None:
    """A stop waits for no word; what is no cause is not kept as one."""
    to_the_second_point(bo, kitchen)
    bo.press("Stop: unsafe")
    bo.press("Yes, it was unsafe", cause="bad mood")
    (draft,) = kitchen.file.drafts.list("practical")
    (look,) = draft.body["points"][1]["looks"]
    assert (look["seen"], "cause" in look) == ("unsafe", False)


def test_after_a_miss_it_can_end_here(bo: Hands, kitchen: Kitchen) -> None:
    """What nobody came to is written as not looked at, and the cook is told what is missing."""
    page = to_the_second_point(bo, kitchen, "Not yet").page
    page = bo.open(page.link("End here and sign what I saw"))
    assert "Verdict: Not yet" in page.work
    page = bo.press("Sign", {"Your PIN": PIN})
    points = [" ".join(point.get_text(" ").split()) for point in page.soup.select(".kept-points li")]
    assert [("Not looked at" in point) for point in points] == [False, True, True]
    (entry,) = (e for e in kitchen.file.book.since(0) if e.kind == "practical_watched" and e.cook == "ana")
    assert [bool(point["looks"]) for point in entry.body["points"]] == [True, False, False]
    assert entry.body["verdict"] == "not yet"


def test_nobody_ends_it_before_something_was_missed(bo: Hands, kitchen: Kitchen) -> None:
    """There is nothing to sign early while it may still be met."""
    assert "End here" not in to_the_second_point(bo, kitchen).page.work


def test_a_signature_is_undone_within_ten_minutes(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The sign page says until when; after asking once it counts for no day; later a manager alone can void it."""
    to_the_second_point(bo, kitchen, "Not yet")
    page = bo.open(bo.page.link("End here and sign what I saw"))
    assert "Undo until 12:10, then a manager can void it." in page.work
    page = bo.press("Sign", {"Your PIN": PIN})
    kept = bo.address
    assert bo.follow("Undo").heading == "Undo the signature"
    bo.press("Undo")
    page = bo.open(kept)
    assert "Undone: it counts for no day." in page.work
    assert "A manager can void it" not in page.work


def test_after_ten_minutes_nobody_undoes(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The link is gone, and the page of before refuses."""
    to_the_second_point(bo, kitchen, "Not yet")
    bo.open(bo.page.link("End here and sign what I saw"))
    bo.press("Sign", {"Your PIN": PIN})
    kept = bo.address
    bo.follow("Undo")
    clock.pass_by(minutes=11)
    assert "after that a manager can" in bo.press("Undo").problems[0]
    page = bo.open(kept)
    assert "A manager can void it." in page.work
    assert [a for a in page.soup.select("main a") if a.get_text() == "Undo"] == []
