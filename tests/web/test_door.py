"""The door: enrolling a device, picking a name, the PIN, an own secret, signing out."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import PASSPHRASE, PIN, Clock
from tests.web.hands import Hands
from trainer.actions import enrolling, giving_codes
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.standing import Leaving, cook_leaves


def test_a_device_nobody_enrolled_sees_how_to(stranger: Hands) -> None:
    """A device not enrolled shows no name, and says who enrols it."""
    page = stranger.open("/")
    assert "manager" in page.work
    assert "Ana" not in page.work
    assert page.link("Enrol this device") == "/device"


def code_from(hands: Hands) -> str:
    """Return a code a manager made on an enrolled device, as it is shown."""
    hands.open("/devices")
    hands.follow("New device")
    shown = hands.press("Make the code", {"Your PIN or passphrase": PASSPHRASE}).soup.select_one("main .big")
    assert shown
    return " ".join(shown.get_text().split())


def test_a_code_from_an_enrolled_device_enrols_one_more(stranger: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """The code and a name; then the name tapes show. The entry says who invited it, and comes from the new device."""
    code = code_from(cleo)
    stranger.open("/device")
    page = stranger.press("Enrol this device", {"Code, 8 figures": code, "A name for this device": "Office"})
    assert page.heading == "Who are you?"
    assert "Ana Pardo" in page.work
    entry = kitchen.file.book.of_kind("device_enrolled")[-1]
    assert (entry.by, entry.body["name"], entry.body["way"]) == ("cleo", "Office", "invitation")
    assert entry.device == entry.body["device"]


def test_a_stranger_is_asked_for_no_name_and_no_passphrase(stranger: Hands) -> None:
    """Nothing that could be guessed by anyone who knows the manager; what is typed is kept but for nothing."""
    page = stranger.open("/device")
    assert not page.soup.select("input[type=password]")
    page = stranger.press("Enrol this device", {"Code, 8 figures": "7028 1936", "A name for this device": "Mine"})
    assert page.problems == ["That code does not open this. It is good for ten minutes, and once."]
    assert page.field("A name for this device")["value"] == "Mine"


def test_what_is_done_on_a_tablet_is_entered_as_from_it(ana: Hands, kitchen: Kitchen) -> None:
    """The entry names the device."""
    ana.go_through("sauce")
    ana.press("I have read edition 1")
    entry = kitchen.file.book.of_kind("technique_read")[-1]
    assert entry.device in {device.id for device in kitchen.file.devices.all()}


def test_a_cook_picks_a_name_and_types_the_pin(at_tablet: Callable[[], Hands]) -> None:
    """Name tape, then PIN, then the own page."""
    hands = at_tablet()
    hands.open("/")
    hands.follow("Ana Pardo")
    page = hands.press("Sign in", {"PIN, 8 figures": PIN})
    assert page.path == "/rail"
    assert page.heading == "What is next"


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
    code = giving_codes.first_code(kitchen, by="cleo", cook="ana", now=clock())
    assert isinstance(code, giving_codes.FirstCode)
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
    """Let a stranger type wrong codes, each time as soon as it may be."""
    stranger.open("/device")
    for _ in range(times):
        page = stranger.press("Enrol this device", {"Code, 8 figures": "11112222", "A name for this device": "Mine"})
        assert "does not open this" in page.problems[0]
        clock.pass_by(minutes=15)


def test_the_door_waits_for_an_address_and_is_never_closed(stranger: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """After a hundred wrong codes the right one enrols from elsewhere at once, and from there after a quarter hour."""
    guess_at_the_door(stranger, 99, clock)
    clock.pass_by(minutes=-15)
    for address, after in (("127.0.0.1", "Wait 15 minutes"), ("192.0.2.7", ""), ("127.0.0.1", "")):
        invited = enrolling.invite_device(kitchen, by="local", now=clock())
        assert isinstance(invited, enrolling.Invited)
        stranger.client.environ_base["REMOTE_ADDR"] = address
        stranger.client.delete_cookie(f"device-{kitchen.file.settings.kitchen[:8]}")
        stranger.open("/device")
        page = stranger.press("Enrol this device", {"Code, 8 figures": invited.code, "A name for this device": "Mine"})
        assert after in page.problems[0] if after else page.heading == "Who are you?"
        clock.pass_by(minutes=0 if after else 15)


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
