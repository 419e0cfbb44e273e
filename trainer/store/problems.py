"""What can go wrong with a kitchen's files, each in words a person can be shown as they are."""

from __future__ import annotations

from trainer.messages import Text, translate


class CannotSave(OSError):
    """The disk would not take it (full, read only, failing, or busy too long). Nothing was half-written."""


class ReadingOnly(CannotSave):
    """The file is no longer the one this program opened, or is damaged: nothing more is written to it.

    `reason` says which, in one sentence for anyone who looks at a page.
    """

    def __init__(self, reason: Text) -> None:
        super().__init__(translate(reason))
        self.reason = reason


class KitchenProblem(Exception):
    """A kitchen's folder that cannot be used; the message says why and what to do."""


class NotAKitchen(KitchenProblem):
    """There is no kitchen in this folder, or there is one already where a new one was asked for."""


class DamagedKitchen(KitchenProblem):
    """The kitchen's file is there but cannot be read: cut short, overwritten, or changed on the disk."""


class BadCopy(KitchenProblem):
    """A file that is no whole copy of a kitchen, or not of this one; nothing was changed."""


class KeyReused(ValueError):
    """The key of an earlier entry was sent again with other content; a key names one deed and no other."""


class BookRefuses(ValueError):
    """The book will not take an entry: it is not plain, not at the end, or breaks a rule kept in the database."""


class NumberTaken(ValueError):
    """The staff number belongs to another person."""
