"""Chance that notes, by id, what it took, so that a question can be asked again exactly as it was."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random


class Picks:
    """Picks by chance among ids; `taken` lists all it took, pick by pick."""

    is_kept = False
    """Whether these are picks made before: what was in reach then is not asked again."""

    def __init__(self, rng: Random) -> None:
        self._rng = rng
        self.taken: list[tuple[str, ...]] = []

    def several(self, ids: Sequence[str], count: int) -> tuple[str, ...]:
        """Return so many different ids, in a random order."""
        self.taken.append(tuple(self._rng.sample(ids, count)))
        return self.taken[-1]

    def one(self, ids: Sequence[str]) -> str:
        """Return one of the ids."""
        return self.several(ids, 1)[0]

    def mixed(self, ids: Sequence[str]) -> tuple[str, ...]:
        """Return all the ids in a random order."""
        return self.several(ids, len(ids))


class KeptPicks(Picks):
    """Takes again what was taken before, whatever is in reach now; LookupError where no more was taken."""

    is_kept = True

    def __init__(self, taken: Sequence[tuple[str, ...]]) -> None:
        super().__init__(Random(0))  # noqa: S311 - never asked
        self._kept = tuple(taken)

    def several(self, ids: Sequence[str], count: int) -> tuple[str, ...]:
        """Return what was taken at this pick."""
        del ids, count
        self.taken.append(self._kept[len(self.taken)])
        return self.taken[-1]
