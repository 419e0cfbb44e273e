"""Whether whoever signs has trained the cook: shown beside the signature, never a reason to refuse it.

ISO/IEC 17024:2012, 5.2 and 6.2.2 (from memory): training must not compromise the judgement. DOE-STD-1012-92, Figure 2:
who trained and who tested are both on the record.
"""

from __future__ import annotations

from trainer.kitchen.record import CookRecord


def taught_by(signer: str, record: CookRecord, technique: str, station: str) -> tuple[str, ...]:
    """Return the entries by which a signer has trained a cook, of the record as it stands that day.

    What the signer taught of the technique; and the supervised shifts beside the signer, where they are most of all
    this cook worked at the station.
    """
    taught = [line.entry for line in record.taught if line.technique == technique and line.by == signer]
    shifts = [line for line in record.shifts if line.station == station]
    beside = [line.entry for line in shifts if line.beside == signer]
    return (*taught, *(beside if 2 * len(beside) > len(shifts) else ()))
