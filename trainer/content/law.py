"""Where a checklist or a line of the house asks for less than the code: told, and held to the code all the same.

What is told here leaves nothing out. A kitchen's own files did not change when the program got newer: a station that
went for it would help nobody, and a limit of the code that may be missed can hurt a guest.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from trainer.content.limits import asks_no_less, has_ends, is_same_kind, limit_text
from trainer.content.nodes import Diagnostics
from trainer.kitchen.technique import Limit, Point

Code = Mapping[str, Limit]

CRITICAL_HINT = "Write `critical: yes`, and ask for one scored point less. Until then it is judged so all the same."
PIECES_HINT = "Take pieces_inside out. Until then every piece is judged all the same."
LAXER_HINT = "Write it as strict as the code, or stricter. Until then the code's line stands in its place."


def lines_held(
    lines: Mapping[str, Limit], code: Code, at: Mapping[str, int], diagnostics: Diagnostics
) -> dict[str, Limit]:
    """Return the measured lines of a file, the code's own in place of one that goes by its name and is laxer."""
    held = dict(lines)
    for key, line in lines.items():
        published = _limit_by_that_name(line, code)
        if published is not None and not _is_held(line, published):
            problem = f"{key} is laxer than the code's line of that name ({limit_text(published)}, {published.place})."
            diagnostics.warn(at[key], problem, LAXER_HINT)
            held[key] = published
    return held


def points_held(points: Sequence[tuple[Point, int]], code: Code, diagnostics: Diagnostics) -> tuple[Point, ...]:
    """Return the points, each of which comes with its line: one judged by a limit of the code is critical, and whole.

    A heat limit whose seconds the code names is judged by those as well: where no point is, that is told.
    """
    judged = {point.limit.id for point, _ in points if point.limit and _limit_by_that_name(point.limit, code)}
    held = []
    for point, line in points:
        law = point.limit and _limit_by_that_name(point.limit, code)
        held.append(_held(point, line, diagnostics) if law else point)
        seconds = f"{law.id}_time" if law else ""
        if seconds in code and has_ends(code[seconds]) and seconds not in judged:
            diagnostics.warn(line, *_without_seconds(point, seconds, code))
    return tuple(held)


def made_critical(typed: Iterable[Point], held: Iterable[Point]) -> int:
    """Return how many points are critical by the code alone: so many fewer of the others can be asked for."""
    return sum(point.critical for point in held) - sum(point.critical for point in typed)


def _limit_by_that_name(line: Limit, code: Code) -> Limit | None:
    """Return the code's limit that goes by a line's name and measures the same; a target alone limits nothing."""
    published = code.get(line.id)
    if published is None or not has_ends(published) or not is_same_kind(line, published):
        return None
    return published


def _is_held(line: Limit, published: Limit) -> bool:
    """Return whether a line asks for no less than the code's; a number that is only named lies inside it."""
    if has_ends(line) or line.target is None:
        return asks_no_less(line, published)
    return published.admits(line.target)


def _held(point: Point, line: int, diagnostics: Diagnostics) -> Point:
    """Return a point as the code asks for it, what it left open told."""
    name = point.limit.id if point.limit else ""
    if not point.critical:
        diagnostics.warn(
            line, f"{point.id} is judged by {name}, a limit of the code, and can be missed.", CRITICAL_HINT
        )
    if point.pieces_inside < point.pieces:
        told = f"{point.id} lets {point.pieces - point.pieces_inside} of {point.pieces} pieces miss {name},"
        diagnostics.warn(line, f"{told} a limit of the code.", PIECES_HINT)
    return replace(point, critical=True, pieces_inside=point.pieces)


def _without_seconds(point: Point, seconds: str, code: Code) -> tuple[str, str]:
    """Return what is wrong with a heat limit judged without its seconds, and how to fix it."""
    name, time = point.limit.id if point.limit else "", limit_text(code[seconds])
    problem = f"{point.id} is judged by {name}, and no point by {seconds}, which goes with it: {time}."
    hint = f"Right after it, add a point with its words: `judged: timed, limit: code.{seconds}, critical: yes`."
    return problem, hint
