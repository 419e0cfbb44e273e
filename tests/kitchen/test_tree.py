"""The tree over a book's entries, against the published roots of a transparency log."""

from __future__ import annotations

from hashlib import sha256

import pytest

from trainer.kitchen.tree import as_bytes, from_bytes, leaf, leaf_of, peaks_of, root_of, with_leaf

LEAVES = ("", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")
ROOTS = (
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
)
"""Leaves and roots of the test data of the open-source library transparency-dev/merkle (RFC 6962 hashing)."""


@pytest.mark.parametrize("size", range(9))
def test_roots_are_those_published(size: int) -> None:
    """Sizes 0 to 8: the empty tree, full ones and ragged ones."""
    peaks: tuple[bytes, ...] = ()
    for place in range(size):
        peaks = with_leaf(peaks, place, leaf(bytes.fromhex(LEAVES[place])))
    assert root_of(peaks).hex() == ROOTS[size]
    assert len(peaks) == size.bit_count()


def test_peaks_come_back_as_they_were_kept() -> None:
    """A tree goes on from its peaks alone, as if it had been made in one go."""
    hashes = [sha256(bytes([number])).hexdigest() for number in range(20)]
    halfway = from_bytes(as_bytes(peaks_of(map(leaf_of, hashes[:13]))))
    for place in range(13, 20):
        halfway = with_leaf(halfway, place, leaf_of(hashes[place]))
    assert halfway == peaks_of(map(leaf_of, hashes))
