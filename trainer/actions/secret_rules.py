"""Which secrets a person may choose: an 8-digit PIN that is not silly, or a passphrase of 15 characters or more.

Lengths: NIST SP 800-63B-4, section 3.1.1.2: 15 characters where a password is the only factor, 8 where it is one of
several (the enrolled device is the other). No rule of composition, no periodic change; a block-list instead.
"""

from __future__ import annotations

import secrets
import unicodedata
from collections.abc import Collection, Iterator
from datetime import date

from trainer.messages import Text, message

PIN_DIGITS = 8
PASSPHRASE_LEAST = 15
PASSPHRASE_MOST = 256
DIGITS = "0123456789"
UP = DIGITS * 3
DOWN = UP[::-1]
COMMON = (
    "password", "passphrase", "letmein", "welcome", "qwerty", "qwertyuiop", "asdfghjkl", "zxcvbnm", "iloveyou",
    "administrator", "kitchen", "restaurant", "changeme", "secret", "dragon", "monkey", "football", "baseball",
    "sunshine", "princess", "master", "abc", "abcdefghijklmnopqrstuvwxyz", "correcthorsebatterystaple",
)  # fmt: skip


def is_pin(secret: str) -> bool:
    """Return whether a secret is meant as a PIN: ASCII digits alone, fewer than a passphrase needs."""
    return secret.isascii() and secret.isdigit() and len(secret) < PASSPHRASE_LEAST


def random_code() -> str:
    """Return a random code of eight digits that is not a silly one: for a first sign-in, or a new device."""
    while True:
        code = f"{secrets.randbelow(10**PIN_DIGITS):0{PIN_DIGITS}d}"
        if not validate(code, None):
            return code


def without_gaps(secret: str) -> str:
    """Return digits written in groups, with blanks or hyphens between, as the PIN or code they are.

    Anything else comes back as it was typed: a passphrase keeps its blanks. Every PIN, first code and invitation that
    is typed, at whatever door, is read through here; figures of other scripts and full-width ones are figures too.

    >>> without_gaps("7028 1936"), without_gaps("12-34-56-78"), without_gaps("blue apron on the hook")
    ('70281936', '12345678', 'blue apron on the hook')
    """
    bare = "".join(str(unicodedata.digit(sign, sign)) for sign in secret if not _is_gap(sign))
    return bare if is_pin(bare) else secret


def _is_gap(sign: str) -> bool:
    """Return whether a sign only parts groups of digits: a blank, a dash, or one that is not seen at all."""
    return sign.isspace() or unicodedata.category(sign) in ("Pd", "Cf")


def validate(secret: str, born: date | None, names: Collection[str] = ()) -> Text:
    """Return why a secret may not be chosen, in one sentence; "" when it may.

    >>> validate("12345678", None)
    'A PIN of figures in a row is guessed first. Choose another.'
    >>> validate("70281936", None)
    ''
    """
    return _wrong_with_pin(secret, born) if is_pin(secret) else _wrong_with_passphrase(secret, names)


def _wrong_with_pin(pin: str, born: date | None) -> Text:
    """Return why a PIN may not be chosen, or ""."""
    if len(pin) != PIN_DIGITS:
        return message(
            "A PIN has {wanted} digits; this has {length}. Or choose a passphrase of {least} or more.",
            wanted=PIN_DIGITS,
            length=len(pin),
            least=PASSPHRASE_LEAST,
        )
    if pin in UP or pin in DOWN:
        return message("A PIN of figures in a row is guessed first. Choose another.")
    if len(set(pin)) <= 2 or pin[:4] == pin[4:]:
        return message("A PIN that repeats itself is guessed first. Choose another.")
    pairs = pin[::2]
    if pairs == pin[1::2] and (pairs in UP or pairs in DOWN):
        return message("A PIN of doubled figures in a row is guessed first. Choose another.")
    if born is not None and pin in _written(born):
        return message("A birth date is known to others. Choose another PIN.")
    return ""


def _written(day: date) -> Iterator[str]:
    """Yield the ways to write a day in eight digits."""
    return (day.strftime(form) for form in ("%d%m%Y", "%m%d%Y", "%Y%m%d", "%Y%d%m"))


def _wrong_with_passphrase(phrase: str, names: Collection[str]) -> Text:
    """Return why a passphrase may not be chosen, or ""."""
    text = unicodedata.normalize("NFKC", phrase)
    if len(text) < PASSPHRASE_LEAST:
        return message(
            "A passphrase has {least} characters or more; this has {length}. A PIN has 8 digits.",
            least=PASSPHRASE_LEAST,
            length=len(text),
        )
    if len(text) > PASSPHRASE_MOST:
        return message(
            "A passphrase has at most {most} characters; this has {length}.", most=PASSPHRASE_MOST, length=len(text)
        )
    bare = "".join(letter for letter in text.casefold() if letter.isalnum())
    if len(set(bare)) <= 3 or _is_one_piece_again(bare) or bare in UP or bare in DOWN:
        return message("A passphrase that repeats itself or counts is guessed first. Choose another.")
    left = bare
    for word in sorted({*COMMON, *(_bare(name) for name in names)}, key=len, reverse=True):
        left = left.replace(word, "") if len(word) > 2 else left
    if len(left.strip(DIGITS)) < 4:
        return message(
            "A passphrase of common words, or of your name or the kitchen's, is guessed first. Add words to it."
        )
    return ""


def _bare(name: str) -> str:
    """Return a name's letters and digits alone, case folded."""
    return "".join(letter for letter in unicodedata.normalize("NFKC", name).casefold() if letter.isalnum())


def _is_one_piece_again(text: str) -> bool:
    """Return whether a text is one piece of up to half its length, written again and again."""
    return bool(text) and text in (text + text)[1:-1]
