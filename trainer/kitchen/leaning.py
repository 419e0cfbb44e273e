"""What leans on an entry: whoever signed by what it entitled them to, and so on from signature to signature."""

from __future__ import annotations

from collections.abc import Iterable, Mapping


def leaning_on(entry: str, entitled_by: Mapping[str, Iterable[str]]) -> tuple[str, ...]:
    """Return the signed entries that lean on an entry, in the order given: `entitled_by` reaches it, step by step.

    Assessors who signed for each other make a loop; an entry never leans on itself.

    >>> leaning_on("a", {"b": ["a"], "c": ["b"], "d": []})
    ('b', 'c')
    """
    on: dict[str, list[str]] = {}
    for signed, reasons in entitled_by.items():
        for reason in reasons:
            on.setdefault(reason, []).append(signed)
    found, ahead = {entry}, [entry]
    while ahead:
        for signed in on.get(ahead.pop(), ()):
            if signed not in found:
                found.add(signed)
                ahead.append(signed)
    return tuple(signed for signed in entitled_by if signed in found and signed != entry)
