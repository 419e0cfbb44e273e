"""Looking at a sign-off again: nothing of the first is seen before the second is saved; then what a manager reads."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.web.conftest import PIN
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import sign, study, write
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.kitchen.technique import PointChoice


@pytest.fixture
def first(kitchen: Kitchen) -> Entry:
    """Return the sign-off of Ana by Dev, with weights and a note; Bo and Dev are cleared there by each other."""
    for who, by in (("bo", "dev"), ("dev", "bo")):
        study(kitchen, who)
        sign(kitchen, who, by=by)
    study(kitchen, "ana")
    return sign(kitchen, "ana")


def _starts(page: Seen, words: str) -> str:
    """Return the whole words of the first link that starts so."""
    return next(found for found in page.items("main a") if found.startswith(words))


def judge(bo: Hands, first: Entry, **changes: str) -> Seen:
    """Let Bo judge it again."""
    bo.open(f"/look-again/{first.id}")
    return bo.press("Sign", None, secret=PIN, **changes)


def test_the_first_is_shown_only_after_the_second_is_saved(bo: Hands, first: Entry) -> None:
    """Neither its weights nor its note nor its signer, in all of the page; then all of it."""
    drawn = bo.open("/look-again")
    before = bo.follow(_starts(drawn, "Look again:"))
    assert "Ana Pardo" in before.work
    for page in (drawn, before):
        source = page.response.get_data(as_text=True)
        assert not [words for words in ("4.5, 4.4", "Neat.", "Dev Karim") if words in source]
    after = bo.press("Sign", secret=PIN, found="same")
    assert after.heading == "Looked at again: as it should be"
    for words in ("4.5, 4.4", "Neat.", "Dev Karim", "Every point was seen the same both times."):
        assert words in after.work


def test_the_case_is_told_in_the_readers_words(bo: Hands, first: Entry, kitchen: Kitchen) -> None:
    """As it is taught now; a part that is taught no more stays as the book has it."""
    body = {**first.body, "case": ["rack", "On the rack"], "part": ["blade", "The blade"], "divided": ["blade"]}
    again = write(kitchen, "practical_watched", "ana", body, by="dev", days=0)
    nests = replace(kitchen.content.techniques["nests"], cases=(PointChoice("rack", "On a rack of two"),))
    kitchen.content = replace(kitchen.content, techniques={**kitchen.content.techniques, "nests": nests})
    work = bo.open(f"/look-again/{again.id}").work
    assert "On a rack of two" in work
    assert "The blade" in work


def test_what_is_saved_is_not_drawn_again(bo: Hands, first: Entry, kitchen: Kitchen) -> None:
    """Its page leads to what is drawn, and the form sent twice is saved once."""
    before = bo.open(f"/look-again/{first.id}")
    after = bo.press("Sign", secret=PIN, found="same")
    bo.page = before
    assert bo.press("Sign", secret=PIN, found="same").path == after.path
    assert len(kitchen.file.book.of_kind("rechecked")) == 1
    assert bo.open(f"/look-again/{first.id}").path == "/look-again"
    assert "Nothing is left for you to look at again." in bo.page.work


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ({"found": ""}, "Choose what you found: as it should be, or not yet."),
        ({"found": "not yet"}, "Write what was not there yet. It stays in the book."),
        ({"found": "same", "points": "salt"}, "There is no point “salt” on this checklist."),
        ({"found": "same", "note": "x" * 501}, "This is 501 characters long. At most 500 are taken."),
        ({"found": "same", "secret": "1"}, "That is not your PIN or passphrase. Nothing was saved yet."),
    ],
)
def test_what_is_wrong_is_told_and_what_was_typed_is_kept(
    bo: Hands, first: Entry, kitchen: Kitchen, typed: dict[str, str], problem: str
) -> None:
    """Nothing is saved, and nothing of the first is shown."""
    bo.open(f"/look-again/{first.id}")
    page = bo.press("Sign", None, **{"secret": PIN, "points": "tray", **typed})
    assert (page.status, page.problems) == (400, [problem])
    assert "Dev Karim" not in page.response.get_data(as_text=True)
    assert kitchen.file.book.of_kind("rechecked") == []
    ticked = [str(one["value"]) for one in page.soup.select("input[name=points][checked]")]
    assert ticked == ([] if typed.get("points") else ["tray"])
    assert page.field("Note").get_text().strip() == typed.get("note", "")


def test_voided_meanwhile_is_told_and_the_note_kept(bo: Hands, first: Entry, kitchen: Kitchen) -> None:
    """What was typed is still there to be read."""
    bo.open(f"/look-again/{first.id}")
    write(kitchen, "entry_voided", "ana", {"entry": first.id, "reason": "Wrong cook."}, by="cleo", days=0)
    page = bo.press("Sign", secret=PIN, found="not yet", note="Too loose.")
    assert page.problems == ["That sign-off is voided: there is nothing left to look at again. Take the next."]
    assert page.field("Note").get_text().strip() == "Too loose."


def test_a_not_yet_says_what_to_do_and_the_board_tells_a_manager(
    bo: Hands, cleo: Hands, first: Entry, kitchen: Kitchen
) -> None:
    """The clearance stands; watching it again, taking off the station, voiding: each one link away."""
    page = judge(bo, first, found="not yet", note="Too loose.", points="tray")
    assert page.heading == "Looked at again: not yet"
    for words in (
        "The clearance stands until somebody acts. Have it watched again, by: Bo Lind.",
        "Too loose.",
        "Seen otherwise the first time",
        "Managers read of it on the board.",
    ):
        assert words in page.work
    assert page.link(_starts(page, "Take off the station")) == "/off/ana?station=pasta_room"
    assert bo.follow(_starts(page, "Watch it again")).path == "/practicals/new"
    assert [one["value"] for one in bo.page.soup.select("option[selected]")] == ["ana", "nests"]
    board = cleo.open("/board")
    most = cleo.open(board.link("1 sign-off looked at again did not hold."))
    assert "Looked at again: 1 of 3 sign-offs of the last 365 days. The same: 0." in most.work
    assert "10 more are needed to say something." in most.work
    assert "Of 100 sign-offs" not in most.work
    assert "Signed by Dev Karim: 1 looked at again, the same: 0." in most.work
    assert cleo.follow(_starts(most, "Void the sign-off")).path == f"/book/{first.id}/void"
    sign(kitchen, "ana", by="bo", days=-0.01)
    assert "did not hold" not in cleo.open("/board").work


@pytest.mark.parametrize(
    ("again", "told"),
    [(10, "1 more is needed to say something."), (11, "Of 100 sign-offs, between 5 and 48 would not hold.")],
)
def test_a_share_is_told_from_eleven_on(kitchen: Kitchen, cleo: Hands, first: Entry, again: int, told: str) -> None:
    """Wilson at 95 percent, by hand with z 1.96: 2 of 11 is 5.1 to 47.7 in 100."""
    for number in range(again):
        one = sign(kitchen, "ana", days=5)
        body: dict[str, Any] = {
            "practical": one.id,
            "found": "not yet" if number < 2 else "same",
            "points": [],
            "note": "x",
        }
        write(kitchen, "rechecked", "ana", body, by="bo", days=4)
    page = cleo.open("/most-wrong")
    assert f"Looked at again: {again} of " in page.work
    assert told in page.work
    assert ("Of 100 sign-offs" in page.work) == (again >= 11)


def test_a_sous_chef_reads_no_counts_of_signers(bo: Hands, first: Entry) -> None:
    """They are a manager's; the way to look again is everybody's who may."""
    page = bo.open("/most-wrong")
    assert "Looked at again:" not in page.work
    assert bo.follow("Look at a sign-off again").path == "/look-again"
    assert bo.open("/ready").link("Look at a sign-off again") == "/look-again"


def test_a_cook_is_turned_away(ana: Hands, first: Entry, bo: Hands) -> None:
    """And what was found is for who found it and for managers."""
    assert ana.open("/look-again").status == 403
    assert ana.open(f"/look-again/{first.id}").status == 403
    assert bo.open("/look-again/nothing").path == "/look-again"
    assert bo.open("/look-again/kept/nothing").status == 404
    assert bo.open(f"/look-again/kept/{first.id}").status == 404


def test_the_book_and_the_cooks_record_say_it_in_words(bo: Hands, cleo: Hands, ana: Hands, first: Entry) -> None:
    """Which sign-off, what was found, the points by their words, the note, and how it was signed."""
    judge(bo, first, found="not yet", note="Too loose.", points="tray")
    page = cleo.open("/book?cook=ana")
    for words in (
        "Sign-off looked at again",
        f"signed off in entry {first.seq} by Dev Karim",
        "Found: not yet",
        "Not as it should be:",
        "Note: Too loose.",
        "Signed by Bo Lind",
    ):
        assert words in page.work
    written = ana.open("/record/written")
    assert "Sign-off looked at again" in written.work


def test_a_note_is_asked_for_before_the_secret(bo: Hands, first: Entry) -> None:
    """Nobody types their PIN twice for a note that was not written."""
    bo.open(f"/look-again/{first.id}")
    page = bo.press("Sign", found="not yet")
    assert page.problems == ["Write what was not there yet. It stays in the book."]
