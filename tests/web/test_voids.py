"""The page of a void, what leans on it, and the pages on which a cook contests and a manager decides."""

from __future__ import annotations

from tests.web.hands import Hands
from tests.web.kitchen_people import clear, sign, study
from trainer.actions.open_kitchen import Kitchen


def test_a_void_shows_what_leans_on_it_before_it_is_done(cleo: Hands, kitchen: Kitchen) -> None:
    """Bo signed Ana by a sign-off that is voided: named before, marked after, until it is said to stand."""
    of_bo = clear(kitchen, "bo")
    of_ana = sign(kitchen, "ana", by="bo", days=1)
    page = cleo.open(f"/book/{of_bo.id}/void")
    assert f"Entry {of_ana.seq}: Practical watched, Ana Pardo" in page.work
    page = cleo.press("Void the entry", {"Reason": "Another cook was meant."}, counts="never")
    assert "It counts for no day." in page.work
    assert "1 entry leans on it" in page.work
    marked = f"Leans on entry {of_bo.seq}, voided on Tue 3 Nov 2026. It counts on until a manager voids it."
    assert marked in page.work
    study(kitchen, "ana")
    proof = f"Entry {of_ana.seq}: {marked}"
    assert proof in cleo.open("/board/ana/pasta_room").work
    cleo.open("/book")
    cleo.follow(f"It stands entry {of_ana.seq}")
    page = cleo.press("Say that it stands", {"Reason": "I saw it too."})
    assert marked not in page.work
    assert marked not in cleo.open("/board/ana/pasta_room").work
    cleo.open("/book")
    assert f"Entry {of_ana.seq} stands" in page.work
    assert cleo.open(f"/book/{of_ana.id}/stands/{of_ana.id}").status == 404


def test_a_cook_contests_and_the_manager_decides(ana: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """From the cook's own record; only what others wrote is listed, and only of the last 14 days."""
    clear(kitchen, "bo")
    entry = sign(kitchen, "ana", by="bo", days=1)
    ana.open("/record")
    page = ana.follow("Written about me lately")
    assert "Practical watched" in page.work
    assert "Joined the roster" not in page.work
    ana.open(f"/record/written/{entry.id}")
    assert ana.press("Contest this entry").problems == ["Write what is wrong."]
    ana.press("Contest this entry", {"What is wrong?": "That was Dev."})
    assert ana.open("/record/written/nothing").status == 404
    cleo.open("/contests")
    assert "That was Dev." in cleo.page.work
    cleo.follow("Decide: Ana Pardo")
    page = cleo.press("Decide", {"Reason": "Bo was sure."}, outcome="stands")
    assert "Nothing is contested." in page.work
    assert "The entry stands." in cleo.open("/book").work


def test_the_only_manager_stands_in_on_own_word(cleo: Hands, kitchen: Kitchen) -> None:
    """The pages of an assessor open to them; without a station it is refused and the words stay."""
    assert cleo.open("/ready").status == 403
    cleo.open("/own-word")
    page = cleo.press(
        "Stand in on own word", {"In your own words: what you can do there": "I built this line."}, stations=[]
    )
    assert page.problems[0] == "Choose the stations."
    fill = {"In your own words: what you can do there": "I built this line."}
    cleo.press("Stand in on own word", fill, stations=["pasta_room"])
    assert "Cleo Mbeki , to" in cleo.open("/signers").work
    assert cleo.open("/ready").status == 200
