"""A signature in words: who signed, when, what it means, and how they had proved who they are.

21 CFR 11.50(a): a signed record shows the printed name of the signer, the date and time of the signature, and its
meaning. How it was proved comes on top; that the secret is new is always said for a day after it was set.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from trainer.kitchen.book import Entry
from trainer.kitchen.practical import WORDS
from trainer.kitchen.proof import Proof, proof_in
from trainer.messages import Text, joined, message
from trainer.store.acting import LOCAL_DEVICE
from trainer.web import guard
from trainer.web.door_words import device_name
from trainer.web.filters import clock_time, local, moment

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

HOW_WORDS: Mapping[str, Text] = {
    "pin": message("PIN"),
    "passphrase": message("Passphrase"),
    "first_code": message("First code"),
    "local": message("A command"),
    "recovery_sheet": message("Recovery sheet"),
}


def signed_told(entry: Entry, naming: Naming, meaning: Text) -> list[Text]:
    """Return the line of a signature; nothing for an entry that keeps no proof."""
    proof = proof_in(entry.body)
    if proof is None:
        return []
    return [
        message(
            "Signed by {name}, {when} {zone}. It means: {meaning}. {how}",
            name=naming.person(entry.by),
            when=moment(entry.at),
            zone=f"{local(entry.at):%Z}",
            meaning=_meaning(entry, naming) or meaning,
            how=_how_told(entry.by, proof, naming),
        )
    ]


def _meaning(entry: Entry, naming: Naming) -> Text:
    """Return what the signature of a practical says; nothing of other kinds, whose name says it."""
    if entry.kind != "practical_watched":
        return ""
    body, kept = entry.body, entry.body.get("titles", {})
    return message(
        "{verdict} ({technique}, edition {edition})",
        verdict=WORDS.get(body["verdict"], body["verdict"]),
        technique=kept.get("technique") or naming.technique(body["technique"]),
        edition=body["edition"],
    )


def _how_told(person: str, proof: Proof, naming: Naming) -> Text:
    """Return by what it was proved, on which device; where the secret was less than a day old, since when."""
    how = HOW_WORDS.get(proof.how, proof.how)
    where = message("this machine") if proof.device == LOCAL_DEVICE else device_name(proof.device)
    proved = message("{how} on {device}", how=how, device=where)
    if not proof.is_new or proof.secret_since is None:
        return proved
    since = message("new since {time}", time=clock_time(proof.secret_since))
    return joined([proved, joined([since, *_code_before(person, proof, naming)], ", ")], "; ")


def _code_before(person: str, proof: Proof, naming: Naming) -> list[Text]:
    """Return who gave the code with which a new secret was chosen, where one was given."""
    k = guard.kitchen()
    lines = [line.entry for line in k.progress().record(person).noted if line.kind == "first_code_given"]
    given = [entry for entry in map(k.file.book.find, lines) if entry is not None]
    before = [entry for entry in given if proof.secret_since is not None and entry.at <= proof.secret_since]
    return [message("code by {name}", name=naming.person(before[-1].by))] if before else []
