"""Secrets as hashes: argon2id, with the cost OWASP's Password Storage Cheat Sheet names (19 MiB, 2 passes, 1 lane)."""

from __future__ import annotations

import threading
import unicodedata
from functools import cache

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

MEMORY_KIB, PASSES, LANES = 19456, 2, 1
AT_ONCE = 2  # hashes at the same time: each holds a core and 19 MiB
LONGEST = 1024

_hasher = PasswordHasher(time_cost=PASSES, memory_cost=MEMORY_KIB, parallelism=LANES)
_slots = threading.BoundedSemaphore(AT_ONCE)


def as_typed(secret: str) -> bytes:
    """Return a secret in Unicode form KC, so that two keyboards' spellings agree (NIST SP 800-63B-4, 3.1.1.2)."""
    return unicodedata.normalize("NFKC", secret[:LONGEST]).encode("utf-8", "surrogatepass")


def hash_secret(secret: str) -> str:
    """Return the hash to keep of a secret."""
    with _slots:
        return _hasher.hash(as_typed(secret))


def is_right(kept: str, secret: str) -> bool:
    """Return whether a secret is the one a hash was made of; with no hash it takes as long and says no.

    So that an unknown person, and one who has no secret yet, take the same time as a known one.
    """
    with _slots:
        try:
            return _hasher.verify(kept or _nobodys(), as_typed(secret)) and bool(kept)
        except (VerificationError, InvalidHashError):
            return False


@cache
def _nobodys() -> str:
    """Return a hash that belongs to nobody."""
    return _hasher.hash(b"a secret that nobody has")
