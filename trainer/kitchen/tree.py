"""The tree over a book's entries, so that one value stands for all of them (RFC 6962, section 2.1).

Pure: leaves and nodes are 32 bytes; the text of RFC 9162, section 2.1.1, says the same of them.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence

EMPTY = hashlib.sha256(b"").digest()
Peaks = tuple[bytes, ...]
"""The roots of the full subtrees a tree is made of, largest first: as many as its size has ones in base two."""


def leaf(data: bytes) -> bytes:
    """Return the value of a leaf: SHA-256 of a zero byte and the data."""
    return hashlib.sha256(b"\x00" + data).digest()


def node(left: bytes, right: bytes) -> bytes:
    """Return the value above two others: SHA-256 of a one byte and both."""
    return hashlib.sha256(b"\x01" + left + right).digest()


def leaf_of(entry_hash: str) -> bytes:
    """Return the leaf of an entry, from its hash in 64 hexadecimal signs."""
    return leaf(bytes.fromhex(entry_hash))


def with_leaf(peaks: Peaks, size: int, new: bytes) -> Peaks:
    """Return the peaks of a tree of *size* leaves once another one is at its end."""
    kept, top = list(peaks), new
    while size & 1:
        top, size = node(kept.pop(), top), size >> 1
    return (*kept, top)


def root_of(peaks: Sequence[bytes]) -> bytes:
    """Return the one value of the whole tree; SHA-256 of nothing for a tree without leaves.

    >>> root_of(()).hex()[:16]
    'e3b0c44298fc1c14'
    """
    if not peaks:
        return EMPTY
    root = peaks[-1]
    for peak in reversed(peaks[:-1]):
        root = node(peak, root)
    return root


def peaks_of(leaves: Iterable[bytes]) -> Peaks:
    """Return the peaks of the tree over leaves in order, made level by level."""
    level, peaks = list(leaves), []
    while level:
        if len(level) & 1:
            peaks.append(level.pop())
        pairs = zip(level[::2], level[1::2], strict=True)
        level = [hashlib.sha256(b"\x01" + left + right).digest() for left, right in pairs]
    return tuple(reversed(peaks))


def as_bytes(peaks: Sequence[bytes]) -> bytes:
    """Return peaks one after the other, as they are kept."""
    return b"".join(peaks)


def from_bytes(kept: bytes) -> Peaks:
    """Return peaks as they were kept."""
    return tuple(kept[place : place + 32] for place in range(0, len(kept), 32))
