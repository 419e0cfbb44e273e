"""The readings of several pieces, kept one piece at a time; they are judged together once the last is taken."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical, draft_of, own_practical
from trainer.actions.watching import Look, not_to_be_seen, refused_point, with_asked
from trainer.kitchen.practical import AskBack, PointProblem, read_piece
from trainer.messages import message


def keep_piece(  # noqa: PLR0913 - who, what, and when
    k: Kitchen, *, by: str, practical: str, look: Look, piece: int, now: datetime
) -> Practical | Refused | AskBack:
    """Return the practical with the readings of one piece of a point (0 is the first), kept and not judged yet.

    What may not be looked at may not be read either; a reading no kitchen could show is asked back at once.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        point = found.point(look.point)
        if point is None or not 0 <= piece < point.pieces:
            return Refused(message("There is no such piece at this point."), "", "piece")
        refusal = not_to_be_seen(k, found, look, now)
        if refusal is not None:
            return refusal
        kept = read_piece(point.as_asked, piece, look.readings, k.file.settings.decimal_mark)
        if isinstance(kept, PointProblem):
            return refused_point(kept)
        if isinstance(kept, AskBack):
            k.file.drafts.put(draft_of(with_asked(found, kept, point.id)))
            return kept
        readings, first = list(point.readings_so_far), piece * len(kept)
        readings[first : first + len(kept)] = kept
        changed = found.with_point(replace(point, gathered=tuple(readings)))
        k.file.drafts.put(draft_of(changed))
        return changed
