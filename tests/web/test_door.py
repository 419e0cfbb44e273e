"""The door: enrolling a device, picking a name, the PIN, an own secret, signing out."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import PASSPHRASE, PIN, Clock
from tests.web.hands import Hands
from trainer.actions import signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.standing import Leaving, cook_leaves


def test_a_device_nobody_enrolled_sees_how_to(stranger: Hands) -> None:
    """A device not enrolled shows no name, and says who enrols it."""
    page = stranger.open("/")
    assert "manager" in page.work
    assert "Ana" not in page.work
    assert page.link("Enrol this device") == "/device"


def test_a_manager_enrols_a_device(stranger: Hands) -> None:
    """Name, passphrase and a name for the device enrol it; then the name tapes show."""
    stranger.open("/device")
    fill = {"Manager's name": "cleo mbeki", "Manager's passphrase": PASSPHRASE, "A name for this device": "Office"}
    page = stranger.press("Enrol this device", fill)
    assert page.heading == "Who are you?"
    assert "Ana Pardo" in page.work


def test_a_cook_cannot_enrol_a_device(stranger: Hands) -> None:
    """A cook's own right PIN enrols nothing, and the answer does not say whether the name exists."""
    stranger.open("/device")
    fill = {"Manager's name": "Ana Pardo", "Manager's passphrase": PIN, "A name for this device": "Office"}
    page = stranger.press("Enrol this device", fill)
    assert page.problems == ["That name and secret do not go together."]
    assert page.field("Manager's name")["value"] == "Ana Pardo"


def test_a_cook_picks_a_name_and_types_the_pin(at_tablet: Callable[[], Hands]) -> None:
    """Name tape, then PIN, then the own rail."""
    hands = at_tablet()
    hands.open("/")
    hands.follow("Ana Pardo")
    page = hands.press("Sign in", {"PIN, 8 figures": PIN})
    assert page.path == "/rail"
    assert page.heading == "Next on your rail"


def test_a_manager_types_a_passphrase(at_tablet: Callable[[], Hands]) -> None:
    """A manager is asked for a passphrase, without a keypad."""
    hands = at_tablet()
    page = hands.open("/names/cleo")
    assert not page.soup.select("[data-keypad]")
    assert hands.press("Sign in", {"Passphrase": PASSPHRASE}).path != "/names/cleo"


def test_a_wrong_pin_is_told_plainly(at_tablet: Callable[[], Hands]) -> None:
    """The sentence stands in its place, the field names it, the title starts with Error, nobody is signed in."""
    hands = at_tablet()
    hands.open("/names/ana")
    page = hands.press("Sign in", {"PIN, 8 figures": "11112222"})
    assert page.status == 400
    assert page.title.startswith("Error: ")
    assert page.problems == ["That name and secret do not go together."]
    said = page.soup.find(id=str(page.field("PIN, 8 figures")["aria-describedby"]))
    assert said is not None
    assert "do not go together" in said.get_text()
    assert hands.open("/rail").path != "/rail"


def test_five_wrong_pins_make_a_wait(at_tablet: Callable[[], Hands], clock: Clock) -> None:
    """After five wrong tries the page says how long to wait; after the wait the right PIN opens."""
    hands = at_tablet()
    hands.open("/names/ana")
    for _ in range(6):
        page = hands.press("Sign in", {"PIN, 8 figures": "11112222"})
    assert "Wait 30 seconds" in page.problems[0]
    clock.pass_by(seconds=31)
    assert hands.press("Sign in", {"PIN, 8 figures": PIN}).path == "/rail"


def test_the_way_back_leads_where_one_was_going(at_tablet: Callable[[], Hands]) -> None:
    """Anyone who is asked to sign in on the way to a technique arrives there."""
    hands = at_tablet()
    assert hands.open("/techniques/nests").heading == "Who are you?"
    hands.follow("Ana Pardo")
    assert hands.press("Sign in", {"PIN, 8 figures": PIN}).path == "/techniques/nests"


def test_the_way_back_never_leaves_the_site(at_tablet: Callable[[], Hands], named: Callable[[str], str]) -> None:
    """An address on another site given as the way back is not followed."""
    hands = at_tablet()
    for then in ("https://evil.example/", "//evil.example", "/\\evil.example", "\\\\evil.example"):
        page = hands.client.get("/names/ana", query_string={"then": then})
        assert page.status_code == 200
        token = hands.open("/names/ana").soup.find("input", {"name": "csrf_token"})["value"]  # type: ignore[index]
        answer = hands.client.post(
            "/names/ana", query_string={"then": then}, data={"csrf_token": token, "secret": PIN, "key": "k"}
        )
        assert answer.status_code == 303
        assert answer.location == "/"
        hands.client.delete_cookie(named("session"))


def test_signing_out_closes_the_session(ana: Hands, named: Callable[[str], str]) -> None:
    """After signing out the old session opens nothing, and the browser is told to clear what it kept."""
    page = ana.open("/rail")
    old = ana.client.get_cookie(named("session"))
    assert old is not None
    form = page.button("Sign out").find_parent("form")
    assert form is not None
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}
    answer = ana.client.post("/leave", data=data)
    assert "storage" in answer.headers["Clear-Site-Data"]
    ana.client.set_cookie(named("session"), old.value)
    assert ana.open("/rail").path == "/names"


def test_fifteen_idle_minutes_sign_a_cook_out(ana: Hands, clock: Clock) -> None:
    """A cook who does nothing for 15 minutes is asked again."""
    assert ana.open("/rail").path == "/rail"
    clock.pass_by(minutes=15)
    assert ana.open("/rail").path == "/names"


def test_a_first_code_must_be_changed(at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """Anyone who comes in with a first code sees no page before choosing an own PIN."""
    code = signing_in.first_code(kitchen, by="cleo", cook="ana", now=clock())
    assert isinstance(code, signing_in.FirstCode)
    hands = at_tablet()
    hands.open("/names/ana")
    page = hands.press("Sign in", {"PIN, 8 figures": code.code})
    assert page.path == "/own-secret"
    page = hands.press("Keep it", {"New PIN, 8 figures": "59173026", "The same once more": "59173027"})
    assert page.problems == ["The two are not the same. Type the same one twice."]
    page = hands.press("Keep it", {"New PIN, 8 figures": "12345678", "The same once more": "12345678"})
    assert "guessed first" in page.problems[0]
    page = hands.press("Keep it", {"New PIN, 8 figures": "59173026", "The same once more": "59173026"})
    assert page.path == "/rail"


def test_somebody_who_left_is_signed_out_at_once(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Taking a person off the roster closes every page to them with the next press."""
    assert ana.open("/rail").path == "/rail"
    cook_leaves(kitchen, by="cleo", leaving=Leaving("ana", "Moved away"), now=clock(), key="left-1")
    assert ana.open("/rail").path == "/names"


def guess_at_the_door(stranger: Hands, times: int, clock: Clock) -> None:
    """Let a stranger type the manager's name with a wrong secret, each time as soon as it may be."""
    stranger.open("/device")
    fill = {"Manager's name": "Cleo Mbeki", "Manager's passphrase": "11112222", "A name for this device": "Mine"}
    for _ in range(times):
        page = stranger.press("Enrol this device", fill)
        assert page.problems == ["That name and secret do not go together."]
        clock.pass_by(minutes=15)


def test_a_stranger_locks_no_manager_out_of_the_kitchen(
    stranger: Hands, at_tablet: Callable[[], Hands], clock: Clock
) -> None:
    """A hundred wrong passphrases for the only manager, from a phone nobody enrolled: the tablet opens to her."""
    guess_at_the_door(stranger, 100, clock)
    hands = at_tablet()
    hands.open("/names/cleo")
    assert hands.press("Sign in", {"Passphrase": PASSPHRASE}).path != "/names/cleo"


def test_the_passphrase_door_waits_for_an_address_and_is_never_closed(stranger: Hands, clock: Clock) -> None:
    """After a hundred wrong ones the right one enrols from elsewhere at once, and from there after a quarter hour."""
    guess_at_the_door(stranger, 99, clock)
    right = {"Manager's name": "Cleo Mbeki", "Manager's passphrase": PASSPHRASE, "A name for this device": "Office"}
    clock.pass_by(minutes=-15)
    assert "Wait 15 minutes" in stranger.press("Enrol this device", right).problems[0]
    stranger.client.environ_base["REMOTE_ADDR"] = "192.0.2.7"
    stranger.open("/device")
    assert stranger.press("Enrol this device", right).heading == "Who are you?"
    stranger.client.environ_base["REMOTE_ADDR"] = "127.0.0.1"
    stranger.client.delete_cookie("device")
    clock.pass_by(minutes=15)
    stranger.open("/device")
    assert stranger.press("Enrol this device", right).heading == "Who are you?"


def test_five_wrong_pins_for_a_name_leave_the_tablet_to_everybody_else(
    at_tablet: Callable[[], Hands], bo: Hands
) -> None:
    """A person guesses Ana's PIN; Dev takes the same tablet and signs in."""
    hands = at_tablet()
    hands.open("/names/ana")
    for _ in range(6):
        hands.press("Sign in", {"PIN, 8 figures": "11112222"})
    hands.open("/names/dev")
    assert hands.press("Sign in", {"PIN, 8 figures": PIN}).path == "/rail"


def test_a_first_code_is_typed_as_it_is_shown(at_tablet: Callable[[], Hands], cleo: Hands, kitchen: Kitchen) -> None:
    """In two groups of four, at the name and as an own PIN typed twice in two ways."""
    cleo.open("/cooks/ana/first-code")
    shown = cleo.press("Make the code", {"Your PIN or passphrase": PASSPHRASE}).soup.select_one("main .big")
    assert shown
    digits = "".join(shown.get_text().split())
    hands = at_tablet()
    hands.open("/names/ana")
    page = hands.press("Sign in", {"PIN, 8 figures": f"{digits[:4]} {digits[4:]}"})
    assert page.path == "/own-secret"
    page = hands.press("Keep it", {"New PIN, 8 figures": "5917 3026", "The same once more": "59173026"})
    assert page.path == "/rail"


def test_names_say_so_where_the_clock_is_behind(at_tablet: Callable[[], Hands], clock: Clock) -> None:
    """A machine that starts in another year: the page says so, and what to do; the names are there all the same."""
    hands = at_tablet()
    clock.pass_by(days=-900)
    page = hands.open("/names")
    assert "This machine's clock is behind the last entry" in page.work
    assert "Set the clock right" in page.work
    assert "Ana Pardo" in page.work
