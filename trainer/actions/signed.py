"""What makes an entry a signature: it carries how the signer had proved who they are."""

from __future__ import annotations

from dataclasses import replace

from trainer.kitchen.book import NewEntry
from trainer.kitchen.proof import is_signature
from trainer.store.acting import acting_proof


def with_proof(deed: NewEntry) -> NewEntry:
    """Return a deed that is a signature with the proof given for it; any other as it is.

    21 CFR 11.50(a) asks a signed record for the signer's printed name, the date and time, and the meaning of the
    signature: these are the entry's `by`, `at` and kind. That the signer had proved themselves comes on top.
    """
    proof = acting_proof()
    if proof is None or not is_signature(deed.kind, deed.body):
        return deed
    return replace(deed, body={**deed.body, "proof": proof.body()})
