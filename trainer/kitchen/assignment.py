"""The assignment problem: one column for each row, at the least cost in all.

The Hungarian method with potentials, a row at a time along a shortest augmenting path (Kuhn 1955, Munkres 1957; from
memory). Exact, and quick enough in pure Python for a kitchen: no solver is needed at run time.
"""

from __future__ import annotations

from collections.abc import Sequence

NOBODY = -1


class _Table:
    """The costs, what each row and column has been given so far, and the potentials that keep every step short."""

    def __init__(self, costs: Sequence[Sequence[int]]) -> None:
        self.costs = costs
        self.columns = range(len(costs[0]))
        self.row_of = [NOBODY] * len(self.columns)
        self.of_row = [0] * len(costs)
        self.of_column = [0] * len(self.columns)

    def give(self, row: int) -> None:
        """Give a row its column: the shortest path to a free column moves the rows on the way on by one."""
        first = self.of_row[row]
        distance = [cost - first - of for cost, of in zip(self.costs[row], self.of_column, strict=True)]
        came_from = [NOBODY] * len(self.columns)
        left, seen = set(self.columns), []
        nearest = distance.index(min(distance))
        while self.row_of[nearest] != NOBODY:
            left.discard(nearest)
            seen.append(nearest)
            nearest = self._look_on(nearest, left, distance, came_from)
        self._keep_short(row, distance[nearest], seen, distance)
        self._take(row, nearest, came_from)

    def _look_on(self, column: int, left: set[int], distance: list[int], came_from: list[int]) -> int:
        """Shorten the distances to the columns left by going through the row that has this one; return the nearest."""
        row, of_column = self.row_of[column], self.of_column
        costs, so_far = self.costs[row], distance[column] - self.of_row[row]
        nearest, least = NOBODY, 0
        for other in left:
            through = so_far + costs[other] - of_column[other]
            if through < distance[other]:
                distance[other], came_from[other] = through, column
            if nearest == NOBODY or distance[other] < least:
                nearest, least = other, distance[other]
        return nearest

    def _keep_short(self, row: int, length: int, seen: Sequence[int], distance: Sequence[int]) -> None:
        """Move the potentials, so that no reduced cost falls below zero."""
        self.of_row[row] += length
        for column in seen:
            self.of_row[self.row_of[column]] += length - distance[column]
            self.of_column[column] -= length - distance[column]

    def _take(self, row: int, column: int, came_from: Sequence[int]) -> None:
        """Hand the columns of the path on, from its end back to the row it began with."""
        while came_from[column] != NOBODY:
            self.row_of[column] = self.row_of[came_from[column]]
            column = came_from[column]
        self.row_of[column] = row


def cheapest(costs: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Return the column given to each row so that the sum of the costs is the least; rows are no more than columns.

    The same costs give the same columns each time.

    >>> cheapest([[4, 1, 3], [2, 0, 5], [3, 2, 2]])
    (1, 0, 2)
    """
    if not costs:
        return ()
    table = _Table(costs)
    for row in range(len(costs)):
        table.give(row)
    found = {row: column for column, row in enumerate(table.row_of)}
    return tuple(found[row] for row in range(len(costs)))
