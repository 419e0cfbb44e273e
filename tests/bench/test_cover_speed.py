"""How long a large night takes to seat, with its reasons."""

from __future__ import annotations

from random import Random
from time import process_time

import pytest

from trainer.kitchen.cover import cover

SLOTS, COOKS, NIGHTS = 40, 60, 50


@pytest.mark.bench
@pytest.mark.parametrize("chance", [0.02, 0.05, 0.2, 0.6])
def test_forty_places_and_sixty_cooks(chance: float, capsys: pytest.CaptureFixture[str]) -> None:
    """Forty places and sixty cooks, cleared more or less widely: 10 ms a night is wanted; printed, not judged."""
    rng, took, short = Random(SLOTS), [], 0  # noqa: S311 - a kept seed
    stations = [f"s{place}" for place in range(SLOTS)]
    for _ in range(NIGHTS):
        cleared = {f"c{c}": frozenset(s for s in stations if rng.random() < chance) for c in range(COOKS)}
        planned = {cook: rng.choice(stations) for cook in cleared}
        start = process_time()
        found = cover(dict.fromkeys(stations, 1), cleared, planned)
        took.append((process_time() - start) * 1000)
        short += not found.holds
    with capsys.disabled():
        print(
            f"\ncover of {SLOTS} places, {COOKS} cooks, cleared for {chance:.0%}: "
            f"median {sorted(took)[NIGHTS // 2]:.1f} ms, longest {max(took):.1f} ms, {short} of {NIGHTS} short"
        )
    assert took
