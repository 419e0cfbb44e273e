"""One's own phone: the name stands there, a PIN once in a shift opens what is studied; nothing is signed by it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from flask import Flask

from tests.web.conftest import PASSPHRASE, PIN, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import ask, clear
from tests.web.test_assessor import start_watching
from trainer.actions import enrolling, giving_codes
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.standing import Leaving, cook_leaves
from trainer.kitchen.book import NewEntry
from trainer.store.settings import OwnPhone
from trainer.web import guard
from trainer.web.app import create_app
from trainer.web.remembering import ASKING, OPEN, STUDY


def own_phone(hands: Hands, kitchen: Kitchen, person: str, secret: str = PIN) -> Hands:
    """Let a person sign in on a device and say that it is their phone."""
    hands.open(f"/names/{person}")
    hands.press("Sign in", {"PIN, 8 figures" if secret == PIN else "Passphrase": secret}, mine="y")
    assert person in [one.owner for one in kitchen.file.devices.all()]
    return hands


@pytest.fixture
def phone(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> Hands:
    """Return Ana at her own phone, signed in."""
    return own_phone(at_tablet(), kitchen, "ana")


def test_a_person_says_it_is_their_phone_with_one_tick(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """On the page of the PIN; without the tick the device is shared."""
    hands = at_tablet()
    hands.open("/names/ana")
    hands.press("Sign in", {"PIN, 8 figures": PIN})
    assert [one.owner for one in kitchen.file.devices.all()] == [""]
    own_phone(hands, kitchen, "ana")


def test_it_may_be_said_while_the_phone_is_enrolled(stranger: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The tick stands there already when the PIN is typed, through the names and the search."""
    made = enrolling.invite_device(kitchen, by="cleo", now=clock())
    assert isinstance(made, enrolling.Invited)
    stranger.open("/device")
    stranger.press("Enrol this device", {"Code, 8 figures": made.code, "A name for this device": "Mine"}, mine="y")
    stranger.follow("Ana Pardo")
    assert stranger.page.field("PIN, 8 figures")
    ticked = stranger.page.soup.select_one("input[name=mine]")
    assert ticked is not None
    assert ticked.has_attr("checked")


@pytest.mark.parametrize("typed", ["12 34", "11112222"])
def test_a_wrong_pin_keeps_the_tick(at_tablet: Callable[[], Hands], typed: str) -> None:
    """Nothing that was chosen is lost."""
    hands = at_tablet()
    hands.open("/names/ana")
    page = hands.press("Sign in", {"PIN, 8 figures": typed}, mine="y")
    ticked = page.soup.select_one("input[name=mine]")
    assert ticked is not None
    assert ticked.has_attr("checked")


def test_after_the_idle_time_reading_needs_no_pin(phone: Hands, clock: Clock) -> None:
    """For as long as the shift, from the page itself, without a tap."""
    for _ in range(4):
        clock.pass_by(hours=2)
        assert phone.open("/techniques/nests").path == "/techniques/nests"
    assert phone.open("/record").path == "/record"
    assert phone.open("/questions").status == 200


def test_what_is_read_meanwhile_is_entered(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The entry is the cook's own, from their phone."""
    phone.go_through("sauce")
    clock.pass_by(minutes=40)
    phone.press("I have read edition 1")
    entry = kitchen.file.book.of_kind("technique_read")[-1]
    assert (entry.by, entry.device) == ("ana", kitchen.file.devices.all()[-1].id)


def test_after_the_shift_the_pin_pad_alone_stands_there(phone: Hands, clock: Clock) -> None:
    """Their name, no list of names; after the PIN the page that was left."""
    phone.open("/techniques/nests/steps/1")
    clock.pass_by(hours=12)
    page = phone.open("/")
    assert page.path == "/names/ana"
    assert page.heading == "Ana Pardo"
    assert "Dev Karim" not in page.soup.get_text()
    assert page.soup.select("[data-keypad]")
    assert phone.press("Go on", {"PIN, 8 figures": PIN}).path == "/techniques/nests/steps/1"


def test_coming_back_costs_two_taps_beside_the_pin(phone: Hands, clock: Clock) -> None:
    """After the shift: the address is opened, the PIN typed, Go on pressed. Within it: nothing is pressed at all."""
    phone.open("/techniques/nests/steps/2")
    clock.pass_by(minutes=16)
    within = phone.open("/")
    assert within.path == "/techniques/nests/steps/2"
    clock.pass_by(hours=12)
    phone.open("/")
    taps = ["Go on"]
    for words in taps:
        phone.press(words, {"PIN, 8 figures": PIN})
    assert phone.page.path == "/techniques/nests/steps/2"
    assert len(taps) <= 2


def test_the_next_step_pressed_after_the_shift_is_where_it_opens(phone: Hands, clock: Clock) -> None:
    """Not the home, and not the step before."""
    phone.open("/techniques/nests/steps/1")
    clock.pass_by(hours=13)
    assert phone.open("/techniques/nests/steps/2").path == "/names/ana"
    assert phone.press("Go on", {"PIN, 8 figures": PIN}).path == "/techniques/nests/steps/2"


def test_what_was_sent_after_the_shift_is_told_as_not_saved(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The PIN leads back to the page it was sent from."""
    phone.go_through("sauce")
    form = phone.page.button("I have read edition 1").find_parent("form")
    assert form is not None
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}
    clock.pass_by(hours=13)
    page = phone.client.post(
        "/techniques/sauce/after",
        data=data,
        follow_redirects=True,
        headers={"Referer": "http://localhost/techniques/sauce/after"},
    )
    assert "not saved" in page.get_data(as_text=True)
    assert not kitchen.file.book.of_kind("technique_read")
    phone.open(page.request.full_path)
    assert phone.press("Go on", {"PIN, 8 figures": PIN}).path == "/techniques/sauce/after"


def test_asking_to_be_watched_is_open_where_the_kitchen_says_so(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Else the PIN is asked for."""
    clock.pass_by(minutes=16)
    cases: tuple[tuple[OwnPhone, bool], ...] = (("study", True), ("asking", False), ("nothing", True))
    for opens, asks in cases:
        kitchen.file.change_settings(replace(kitchen.file.settings, own_phone=opens))
        answer = phone.client.post("/techniques/nests/ask")
        assert ("/names/ana" in answer.headers.get("Location", "")) is asks, opens


def test_a_kitchen_that_opens_nothing_asks_after_fifteen_minutes(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The name stands there all the same, and the page that was left opens."""
    kitchen.file.change_settings(replace(kitchen.file.settings, own_phone="nothing"))
    phone.open("/techniques/nests")
    clock.pass_by(minutes=16)
    assert phone.open("/techniques/nests").path == "/names/ana"
    assert phone.press("Go on", {"PIN, 8 figures": PIN}).path == "/techniques/nests"


def test_no_page_but_the_named_ones_is_open_to_somebody_idle(app: Flask, kitchen: Kitchen, clock: Clock) -> None:
    """Every other guarded route, by GET and POST, leads an idle owner to their PIN, whatever roles they hold."""
    every = [rule for rule in app.url_map.iter_rules() if rule.endpoint != "static"]
    assert {rule.endpoint for rule in every} >= STUDY | ASKING
    kitchen.file.book.append(
        NewEntry("cook_changed", clock(), "bo", "cleo", {"roles": ["cook", "assessor", "manager"]}, "all-roles")
    )
    _, cookie = kitchen.file.devices.enrol("Bo's phone", "cleo", clock())
    client = app.test_client()
    client.set_cookie(f"device-{kitchen.file.settings.kitchen[:8]}", cookie)
    own_phone(Hands(client), kitchen, "bo")
    clock.pass_by(minutes=31)
    checked = 0
    for rule in every:
        need = getattr(app.view_functions[rule.endpoint], "needs", "nobody")
        if need in ("nobody", "device") or rule.endpoint in OPEN["study"]:
            continue
        values = dict.fromkeys(rule.arguments, "1")
        address = str(rule.build(values, append_unknown=False)[1])  # type: ignore[index]
        for method in sorted((rule.methods or set()) & {"GET", "POST"}):
            answer = client.open(address, method=method)
            assert answer.status_code == 303, (rule.rule, method, answer.status_code)
            assert answer.location.startswith("/names/bo"), rule.rule
            checked += 1
    assert checked > 80


def test_what_is_open_to_somebody_idle_is_the_cooks_own() -> None:
    """None of it is an assessor's or a manager's page, a plan, a proof or a secret."""
    rooms = {endpoint.split(".", maxsplit=1)[0] for endpoint in STUDY | ASKING}
    assert rooms <= {"cook", "study", "questions", "quiz", "bench", "sheets", "photographs", "screen", "language"} | {
        "practice",
        "rehearsing",
        "clocks",
    } | {"offline"}


def test_signing_asks_on_ones_own_phone_too(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """Bo gave the PIN a minute ago; the practical is signed with it once more, or not at all."""
    bo = own_phone(at_tablet(), kitchen, "bo")
    start_watching(bo, kitchen)
    bo.open(bo.page.path.rsplit("/", 1)[0] + "/record")
    page = bo.press("Sign", {"Your PIN": ""})
    assert page.status == 400
    assert not [one for one in kitchen.file.book.of_kind("practical_watched") if one.cook == "ana"]


def test_a_session_of_another_device_opens_nothing(
    phone: Hands, at_tablet: Callable[[], Hands], named: Callable[[str], str], clock: Clock
) -> None:
    """Somebody took the cookie of Ana's session to another enrolled device, or to one nobody enrolled."""
    taken = phone.client.get_cookie(named(guard.SESSION))
    assert taken is not None
    for minutes in (0, 20):
        clock.pass_by(minutes=minutes)
        thief = at_tablet()
        thief.client.set_cookie(named(guard.SESSION), taken.value)
        assert thief.open("/rail").path == "/names"
        thief.client.delete_cookie(named(guard.DEVICE))
        thief.client.set_cookie(named(guard.SESSION), taken.value)
        assert thief.open("/rail").path != "/rail"
    clock.pass_by(minutes=-20)
    assert phone.open("/rail").path == "/rail"


def test_the_cookie_of_another_phone_gives_no_name_but_its_own(
    phone: Hands, at_tablet: Callable[[], Hands], kitchen: Kitchen, named: Callable[[str], str], clock: Clock
) -> None:
    """Ana's session with Dev's phone: Dev's PIN is asked for."""
    devs = own_phone(at_tablet(), kitchen, "dev")
    cookie = devs.client.get_cookie(named(guard.DEVICE))
    assert cookie is not None
    clock.pass_by(minutes=20)
    phone.client.set_cookie(named(guard.DEVICE), cookie.value)
    assert phone.open("/rail").path == "/names/dev"


def test_a_lost_phone_opens_nothing_once_it_is_revoked(
    phone: Hands, cleo: Hands, kitchen: Kitchen, clock: Clock
) -> None:
    """The manager sees whose it is, and ends it; the next press on it finds a device nobody enrolled."""
    clock.pass_by(minutes=20)
    assert phone.open("/rail").path == "/rail"
    page = cleo.open("/names/cleo")
    page = cleo.press("Sign in", {"Passphrase": PASSPHRASE})
    assert "Own phone of Ana Pardo" in cleo.open("/devices").work
    device = next(one.id for one in kitchen.file.devices.all() if one.owner == "ana")
    cleo.open(f"/devices/{device}/revoke")
    cleo.press("Revoke the device", {"Your PIN or passphrase": PASSPHRASE})
    page = phone.open("/rail")
    assert "Ana" not in page.soup.get_text()
    assert page.heading == "This device is new here"


def test_a_manager_lets_a_phone_be_shared_again(phone: Hands, cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """From then on it remembers nobody; it takes the manager's secret."""
    device = next(one.id for one in kitchen.file.devices.all() if one.owner == "ana")
    cleo.open(f"/devices/{device}/share")
    assert cleo.press("Share it again", {"Your PIN or passphrase": "wrong wrong wrong"}).status == 400
    page = cleo.press("Share it again", {"Your PIN or passphrase": PASSPHRASE})
    assert "Own phone of Ana Pardo" not in page.work
    clock.pass_by(minutes=16)
    assert phone.open("/rail").path == "/names"


def test_its_owner_lets_it_be_shared_again(phone: Hands, clock: Clock) -> None:
    """From the page of language and units, by one button, and back."""
    phone.open("/language")
    phone.follow("This phone")
    assert "your own phone" in phone.page.work
    phone.press("Make it shared again")
    assert "This device is shared" in phone.page.work
    phone.press("This is my phone")
    assert "your own phone" in phone.page.work
    phone.press("Make it shared again")
    clock.pass_by(minutes=16)
    assert phone.open("/rail").path == "/names"


def test_a_tablet_others_use_is_not_offered_as_a_phone(at_tablet: Callable[[], Hands]) -> None:
    """Dev signed in here before Ana: no tick for her, and the page of this phone refuses with the reason."""
    hands = at_tablet()
    hands.open("/names/dev")
    hands.press("Sign in", {"PIN, 8 figures": PIN})
    page = hands.open("/names/ana")
    assert page.soup.select("input[name=mine]") == []
    hands.press("Sign in", {"PIN, 8 figures": PIN}, mine="y")
    hands.open("/this-phone")
    page = hands.press("This is my phone")
    assert "it stays shared" in page.problems[0]


def test_the_session_is_another_one_after_the_pin(phone: Hands, named: Callable[[str], str], clock: Clock) -> None:
    """The token before opens nothing any more, even on the same phone (OWASP ASVS 5.0.0, 7.2.4, from memory)."""
    before = phone.client.get_cookie(named(guard.SESSION))
    clock.pass_by(minutes=16)
    phone.open("/names/ana")
    phone.press("Go on", {"PIN, 8 figures": PIN})
    after = phone.client.get_cookie(named(guard.SESSION))
    assert before is not None
    assert after is not None
    assert before.value != after.value
    phone.client.set_cookie(named(guard.SESSION), before.value)
    assert phone.open("/rail").path == "/names/ana"


def test_wrong_pins_wait_on_the_phone_alone(phone: Hands, at_tablet: Callable[[], Hands], clock: Clock) -> None:
    """A person on a device, as everywhere; the tablet lets Ana in meanwhile."""
    clock.pass_by(hours=13)
    phone.open("/")
    for _ in range(6):
        page = phone.press("Go on", {"PIN, 8 figures": "11112222"})
    assert "Wait 30 seconds" in page.problems[0]
    tablet = at_tablet()
    tablet.open("/names/ana")
    assert tablet.press("Sign in", {"PIN, 8 figures": PIN}).path == "/rail"


def test_a_role_gained_opens_nothing_while_idle(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Ana becomes an assessor while her phone lies there: her rail opens, whom to watch asks for the PIN."""
    clock.pass_by(minutes=16)
    roles = {"roles": ["cook", "assessor"]}
    kitchen.file.book.append(NewEntry("cook_changed", clock(), "ana", "cleo", roles, "promoted"))
    assert phone.open("/rail").path == "/rail"
    assert phone.open("/ready").path == "/names/ana"


def test_a_role_lost_closes_its_pages_at_once(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Ana is no cook any more: what a cook reads is refused, idle or not."""
    clock.pass_by(minutes=16)
    kitchen.file.book.append(NewEntry("cook_changed", clock(), "ana", "cleo", {"roles": ["assessor"]}, "moved"))
    assert phone.open("/rail").status == 403


def test_who_left_is_remembered_no_more(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The phone shows the names then, and theirs is not among them."""
    clock.pass_by(minutes=16)
    cook_leaves(kitchen, by="cleo", leaving=Leaving("ana", "Moved away"), now=clock(), key="left-1")
    page = phone.open("/rail")
    assert page.path == "/names"
    assert "Ana Pardo" not in page.work


def test_signing_out_ends_the_memory_of_the_shift(phone: Hands, clock: Clock) -> None:
    """Idle or not: the PIN is asked for, and the home is where it leads; the name stays."""
    phone.open("/techniques/nests")
    clock.pass_by(minutes=16)
    phone.open("/rail")
    page = phone.press("Sign out")
    assert page.path == "/names/ana"
    assert phone.press("Go on", {"PIN, 8 figures": PIN}).path == "/rail"


def test_a_new_pin_ends_the_memory_elsewhere(phone: Hands, at_tablet: Callable[[], Hands], clock: Clock) -> None:
    """Ana chooses another PIN on the tablet: her phone asks for it."""
    tablet = at_tablet()
    tablet.open("/names/ana")
    tablet.press("Sign in", {"PIN, 8 figures": PIN})
    tablet.open("/own-secret")
    new = {"The one you use now": PIN, "New PIN, 8 figures": "5917 3026", "The same once more": "5917-3026"}
    tablet.press("Keep it", new)
    clock.pass_by(minutes=16)
    assert phone.open("/rail").path == "/names/ana"


def test_somebody_else_signs_in_on_it_as_on_any_device(phone: Hands, clock: Clock) -> None:
    """Dev borrows the phone: the names, the PIN; after an idle time Ana's name stands there, and Dev is forgotten."""
    clock.pass_by(minutes=16)
    phone.open("/names/ana")
    phone.follow("Not me")
    phone.follow("Dev Karim")
    assert phone.page.soup.select("input[name=mine]") == []
    assert phone.press("Sign in", {"PIN, 8 figures": PIN}).path == "/rail"
    clock.pass_by(minutes=16)
    assert phone.open("/rail").path == "/names/ana"


def test_no_phone_is_remembered_where_others_read_along(kitchen: Kitchen, clock: Clock) -> None:
    """Over plain HTTP the tick is absent and the page says so; over HTTPS, and on the machine itself, it is there."""
    _, cookie = kitchen.file.devices.enrol("Ana's phone", "cleo", clock())
    for https, base, is_offered in (
        (False, "http://192.168.1.5", False),
        (False, "http://127.0.0.1:8070", True),
        (False, "http://[::1]:8070", True),
        (True, "https://192.168.1.5", True),
    ):
        client = create_app(kitchen, clock=clock, https=https).test_client(use_cookies=False)
        name = f"{'__Host-' if https else ''}device-{kitchen.file.settings.kitchen[:8]}"
        page = client.get("/names/ana", base_url=base, headers={"Cookie": f"{name}={cookie}"}).get_data(as_text=True)
        assert ('name="mine"' in page) is is_offered, base
        assert ("No phone is remembered over plain HTTP." in page) is not is_offered, base


def test_what_was_remembered_over_https_is_not_over_plain_http(
    phone: Hands, kitchen: Kitchen, clock: Clock, named: Callable[[str], str]
) -> None:
    """The house turned HTTPS off: the same phone asks for name and PIN, and has no name on it."""
    clock.pass_by(minutes=16)
    cookies = {name: phone.client.get_cookie(named(name)) for name in (guard.DEVICE, guard.SESSION)}
    header = "; ".join(f"{named(name)}={cookie.value}" for name, cookie in cookies.items() if cookie is not None)
    client = create_app(kitchen, clock=clock).test_client(use_cookies=False)
    answer = client.get("/rail", base_url="http://192.168.1.5", headers={"Cookie": header})
    assert answer.location.startswith("/names?")


def test_the_page_left_is_kept_out_of_reach(phone: Hands) -> None:
    """HttpOnly and SameSite=Lax like the others, and an address elsewhere in it leads nowhere."""
    answer = phone.client.get("/techniques/nests")
    (kept,) = [each for each in answer.headers.getlist("Set-Cookie") if each.startswith("left-")]
    assert "HttpOnly" in kept
    assert "SameSite=Lax" in kept


def test_an_address_elsewhere_in_its_place_is_not_followed(
    phone: Hands, named: Callable[[str], str], clock: Clock
) -> None:
    """It is a cookie: whoever wrote it may not send anybody off the site."""
    clock.pass_by(hours=13)
    for away in ("https://evil.example/", "//evil.example", "/\\evil.example"):
        phone.client.set_cookie(named("left"), away)
        phone.open("/names/ana")
        form = phone.page.soup.find("form", id="sign-in")
        assert form is not None
        data = {str(i["name"]): str(i.get("value", "")) for i in form.find_all("input") if i.get("name") != "mine"}
        answer = phone.client.post("/names/ana", data={**data, "secret": PIN})
        assert answer.location == "/"
        phone.client.delete_cookie(named("session"))


def test_the_name_at_the_door_is_read_in_its_owners_language(phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Ana reads Spanish; the browser asks for English; the PIN page and a page that is not there are in Spanish."""
    keep_own_language(kitchen, person="ana", language="es", units="")
    clock.pass_by(hours=13)
    for path in ("/", "/no-such-page"):
        answer = phone.client.get(path, headers={"Accept-Language": "en-US,en;q=0.9"}, follow_redirects=True)
        assert '<html lang="es">' in answer.get_data(as_text=True)


def test_a_manager_has_an_own_phone_with_a_passphrase(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Idle for half an hour, the board asks for the passphrase, and opens."""
    cleo = own_phone(at_tablet(), kitchen, "cleo", PASSPHRASE)
    assert cleo.open("/cooks").status == 200
    clock.pass_by(minutes=31)
    assert cleo.open("/cooks").path == "/names/cleo"
    assert cleo.press("Go on", {"Passphrase": PASSPHRASE}).path == "/cooks"


def test_a_new_hire_enrols_with_a_first_code_on_their_own_phone(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """The phone is theirs with the first code already; the PIN they choose opens it from then on."""
    code = giving_codes.first_code(kitchen, by="cleo", cook="ana", now=clock())
    assert isinstance(code, giving_codes.FirstCode)
    ana = own_phone_by_code(at_tablet(), code.code)
    ana.press("Keep it", {"New PIN, 8 figures": "59173026", "The same once more": "59 17 30 26"})
    clock.pass_by(hours=13)
    ana.open("/")
    assert ana.press("Go on", {"PIN, 8 figures": "59-17-30-26"}).path == "/rail"


def own_phone_by_code(hands: Hands, code: str) -> Hands:
    """Let Ana come in with a first code, typed with hyphens, on her own phone."""
    hands.open("/names/ana")
    hands.press("Sign in", {"PIN, 8 figures": f"{code[:4]}-{code[4:]}"}, mine="y")
    assert hands.page.path == "/own-secret"
    return hands


def test_the_desk_of_an_assessor_asks_again(at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """Bo was idle: whom to watch, which names other people, takes the PIN, and opens after it."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo = own_phone(at_tablet(), kitchen, "bo")
    clock.pass_by(minutes=16)
    assert bo.open("/ready").path == "/names/bo"
    assert bo.press("Go on", {"PIN, 8 figures": PIN}).path == "/ready"


def test_a_manager_sets_what_own_phones_open(cleo: Hands, phone: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """With the secret, since it changes what others may do; it is an entry, and holds at once."""
    cleo.open("/devices")
    cleo.follow("People's own phones")
    clock.pass_by(minutes=5)
    page = cleo.press("Save", opens="nothing", hours="8")
    assert "Your PIN or passphrase" in page.work
    assert kitchen.file.settings.own_phone == "study"
    cleo.press("Save", {"Your PIN or passphrase": PASSPHRASE}, opens="nothing", hours="8")
    assert (kitchen.file.settings.own_phone, kitchen.file.settings.pin_hours) == ("nothing", 8)
    entry = kitchen.file.book.of_kind("kitchen_set")[-1]
    assert (entry.by, entry.body["own_phone"], entry.body["pin_hours"]) == ("cleo", "nothing", 8)
    clock.pass_by(minutes=11)
    assert phone.open("/rail").path == "/names/ana"


@pytest.mark.parametrize(("hours", "words"), [("0", "0 hours"), ("13", "13 hours"), ("long", "“long”"), ("", "Write")])
def test_hours_no_shift_has_are_refused(cleo: Hands, kitchen: Kitchen, hours: str, words: str) -> None:
    """With what was typed, which stays there."""
    cleo.open("/devices/own-phones")
    page = cleo.press("Save", {"For how many hours after the PIN": hours}, opens="asking")
    assert words in page.problems[0]
    assert page.field("For how many hours after the PIN")["value"] == hours
    assert kitchen.file.settings.own_phone == "study"
