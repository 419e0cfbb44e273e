"""Entries about devices, secrets and the clock in words: what happened at the door."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from trainer.kitchen.currency import USD
from trainer.kitchen.own_services import services_of_house
from trainer.kitchen.services import HouseServices, services_in_words
from trainer.messages import Text, joined, message, plural
from trainer.web import guard
from trainer.web.authority_words import second_told
from trainer.web.filters import moment, weekday

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "kitchen_set": message("Kitchen set up"),
    "first_code_given": message("First code given"),
    "secret_changed": message("PIN or passphrase set"),
    "recovery_used": message("Recovery sheet"),
    "locked_out": message("Locked out after wrong tries"),
    "device_enrolled": message("Device enrolled"),
    "device_revoked": message("Device revoked"),
    "phone_made_own": message("Own phone"),
    "phone_shared": message("Own phone shared again"),
    "clock_confirmed": message("Clock confirmed"),
    "clock_corrected": message("Clock corrected"),
}
SECRET_WORDS: Mapping[str, Text] = {
    "pin": message("a PIN"),
    "passphrase": message("a passphrase"),
    "first_code": message("a first code"),
    "none": message("nothing"),
}
UNITS_WORDS: Mapping[str, Text] = {
    "us": message("pounds, cups and °F first"),
    "metric": message("grams, liters and °C first"),
}
INDEPENDENCE_WORDS: Mapping[str, Text] = {
    "reason": message("A signer who trained the cook gives a reason"),
    "strict": message("With a signer who trained the cook, a second assessor signs"),
}
OPENS_WORDS: Mapping[str, Text] = {
    "nothing": message("nothing once it is idle"),
    "study": message("studying"),
    "asking": message("studying and asking to be watched"),
}
WAY_WORDS: Mapping[str, Text] = {
    "invitation": message("with a code made on an enrolled device"),
    "local": message("with a code made on the machine itself"),
}


def device_name(device: str) -> str:
    """Return what a device is called, or its id."""
    devices = {one.id: one.name for one in guard.kitchen().file.devices.all()}
    return devices.get(device, device)


def _secret(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which kind of secret took the place of which, and what was closed by it."""
    del naming
    before, after = (SECRET_WORDS.get(body[name], body[name]) for name in ("from", "to"))
    closed = plural("{number} sign-in closed", "{number} sign-ins closed", body["sessions_closed"])
    return [message("{before} → {after}, {closed}", before=before, after=after, closed=closed)]


def _kitchen_set(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the kitchen's name and zone, and how it writes numbers."""
    del naming
    units = UNITS_WORDS.get(body["units_first"], body["units_first"])
    lines = [joined([body["name"], body["zone"], units, body.get("currency", USD)], ", ")]
    if asked := INDEPENDENCE_WORDS.get(body.get("independence", "shown")):
        lines.append(asked)
    if "own_phone" in body:
        opens = OPENS_WORDS.get(body["own_phone"], body["own_phone"])
        lines.append(
            message("On own phones the PIN opens {opens}, for {hours} hours", opens=opens, hours=body["pin_hours"])
        )
    if "services_called" in body:
        lines.append(_services_called(services_of_house(body["services_called"])))
    return lines


def _services_called(house: HouseServices) -> Text:
    """Return the services of a house as they were called from then on."""
    told = message("Services: {services}", services=house.in_words())
    off = [one for one in house.known if not one.is_offered]
    return joined([told, message("off the list: {services}", services=services_in_words(off))], "; ") if off else told


def _code_given(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return until when the code was good, and who was the second where it took two."""
    good = message("Good until {until}", until=moment(datetime.fromisoformat(body["until"])))
    return [good, *second_told(body, naming)]


RECOVERED_WORDS: Mapping[str, Text] = {
    "secret": message("Used to set a new PIN or passphrase"),
    "second": message("Used as the second person for what waited"),
    "sheet": message("A new one was made on the machine itself"),
}


def _recovered(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what the sheet was used for, and when the one that is good since was made."""
    del naming
    made = moment(datetime.fromisoformat(body["new_sheet"]))
    return [RECOVERED_WORDS.get(body["for"], body["for"]), message("The next sheet was made {when}", when=made)]


def _locked(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return after how many wrong tries, on which device."""
    del naming
    return [message("{wrong} wrong tries on {device}", wrong=body["wrong"], device=device_name(body["device"]))]


def _enrolled(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which device, and by what it was let in."""
    del naming
    return [body["name"], WAY_WORDS.get(body["way"], body["way"])]


def _which(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which device."""
    del naming
    return [device_name(body["device"])]


def _clock_confirmed(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the date that was typed."""
    del naming
    return [message("Today's date was typed: {day}", day=weekday(date.fromisoformat(body["day"])))]


def _clock_corrected(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entries count from which day."""
    del naming
    first, last, day = body["first"], body["last"], weekday(date.fromisoformat(body["day"]))
    return [message("Entries {first} to {last} count from {day}", first=first, last=last, day=day)]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "kitchen_set": _kitchen_set,
    "first_code_given": _code_given,
    "secret_changed": _secret,
    "recovery_used": _recovered,
    "locked_out": _locked,
    "device_enrolled": _enrolled,
    "device_revoked": _which,
    "phone_made_own": _which,
    "phone_shared": _which,
    "clock_confirmed": _clock_confirmed,
    "clock_corrected": _clock_corrected,
}
