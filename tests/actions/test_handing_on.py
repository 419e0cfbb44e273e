"""An open practical handed to another assessor: every look by whoever saw it and was entitled then; the last signs.

DOE-HDBK-1074-95, Appendix C (from memory): the evaluator who signs has the whole list before them, and each item names
who saw it.
"""

from __future__ import annotations

import pytest

from tests.actions.crew import EVERY_POINT, Crew, refused, saved
from tests.printed import english
from trainer.actions.handing_on import hand_on
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, Practical, Watch, find_practical, see_point, start_practical


@pytest.fixture
def two(crew: Crew) -> Crew:
    """Return the crew with Nils, who may sign on the cold side too."""
    crew.clears("nils")
    return crew


def hands(
    crew: Crew, practical: Practical, to: str = "nils", by: str = "sous", coached: bool = False
) -> Practical | Refused:
    """Hand a practical on."""
    return hand_on(crew.k, by=by, practical=practical.id, to=to, now=crew.now, coached=coached)


def handed(crew: Crew, practical: Practical, coached: bool = False) -> Practical:
    """Return it in Nils' hands."""
    found = hands(crew, practical, coached=coached)
    assert isinstance(found, Practical), found
    return found


def test_each_look_stays_with_who_saw_it_and_the_last_signs(two: Crew) -> None:
    """Two points by Sous, two by Nils the day after; the entry is Nils'."""
    practical = two.begins_practical()
    two.sees(practical, *EVERY_POINT[:2])
    mine = handed(two, practical)
    two.later(days=1)
    two.sees(mine, *EVERY_POINT[2:])
    entry = saved(two.signs(mine))
    assert (entry.by, entry.body["verdict"]) == ("nils", "meets it")
    looks = {point["point"]: point["looks"][-1]["by"] for point in entry.body["points"]}
    assert looks == {"guard_on": "sous", "weights": "sous", "boil": "nils", "told": "nils"}
    cleared = [two.k.file.book.numbered(number) for number in entry.body["entitled_by"]]
    assert {one.cook for one in cleared if one is not None} == {"nils"}


def test_who_handed_it_on_has_it_no_more(two: Crew) -> None:
    """Neither a look nor a signature nor handing it on again."""
    practical = two.begins_practical()
    handed(two, practical)
    look = see_point(two.k, by="sous", practical=practical.id, look=EVERY_POINT[0], now=two.now)
    assert english(refused(look).reason) == "Somebody else is watching this practical."
    refused(two.signs(practical))
    refused(hands(two, practical))


@pytest.mark.parametrize(
    ("to", "words"),
    [
        ("sous", "It is in your hands already. Choose somebody else."),
        ("ben", "Ben is no assessor."),
        ("ada", "Nobody signs their own work."),
        ("nobody", "nobody is not on the roster."),
    ],
)
def test_only_somebody_entitled_takes_it(two: Crew, to: str, words: str) -> None:
    """Each refusal names the person; the practical stays where it is."""
    practical = two.begins_practical()
    found = refused(hands(two, practical, to))
    assert (english(found.reason), found.field) == (words, "to")
    kept = find_practical(two.k, practical.id)
    assert kept is not None
    assert kept.by == "sous"


def test_a_stop_is_signed_by_who_saw_it(two: Crew) -> None:
    """It is not handed on."""
    practical = two.begins_practical()
    two.sees(practical, Look("guard_on", "unsafe", note="Guard off."))
    assert "Sign the stop" in english(refused(hands(two, practical)).reason)
    assert saved(two.signs(practical)).body["verdict"] == "stopped"


def test_help_of_the_first_lowers_the_verdict_of_the_second(two: Crew) -> None:
    """Not yet at most, whoever signs, and after a second handing on too."""
    practical = two.begins_practical()
    mine = handed(two, practical, coached=True)
    back = hands(two, mine, to="sous", by="nils")
    assert isinstance(back, Practical)
    two.sees(back)
    entry = saved(two.signs(back))
    assert (entry.body["verdict"], entry.body["coached"]) == ("not yet", True)


def test_after_fourteen_days_it_is_watched_anew(two: Crew) -> None:
    """On the 14th day it can be handed on and signed, on the 15th neither."""
    practical = two.begins_practical()
    two.sees(practical)
    two.later(days=14)
    mine = handed(two, practical)
    two.later(days=1)
    refused(hands(two, mine, to="sous", by="nils"))
    refused(two.signs(mine))


def test_a_second_one_open_loses_to_the_first_that_is_signed(two: Crew) -> None:
    """Nils had begun one of his own: handed on and signed, Sous' wins, and his own is refused by whom and when."""
    practical = two.begins_practical()
    own = start_practical(two.k, by="nils", watch=Watch("ada", "cold_sauces", "cold_side"), now=two.now, key="own")
    assert isinstance(own, Practical)
    mine = handed(two, practical)
    two.sees(mine)
    saved(two.signs(mine))
    two.sees(own)
    assert english(refused(two.signs(own)).reason).startswith("Nils signed a practical of Ada in this technique on")
