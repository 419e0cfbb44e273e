"""Ids, tokens and moments as the tables keep them."""

from __future__ import annotations

import hashlib
import secrets
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

SALT_BYTES = 16
TOKEN_BYTES = 32  # 256 bits; OWASP ASVS 5.0.0, 7.2.3 asks for 128 at least


def new_id(at: datetime) -> str:
    """Return an id never used before, in order of time: 48 bits of milliseconds and 80 random bits, as 32 hex digits.

    The layout is that of RFC 9562, section 5.7 (UUID version 7), with no hyphens.
    """
    milliseconds = int(at.timestamp() * 1000) & 0xFFFFFFFFFFFF
    high, low = secrets.randbits(12), secrets.randbits(62)
    return f"{milliseconds:012x}{0x7000 | high:04x}{0x8000000000000000 | low:016x}"


def new_salt() -> str:
    """Return 16 random bytes as hexadecimal signs, for a text of which only the digest may be known."""
    return secrets.token_hex(SALT_BYTES)


def new_token() -> str:
    """Return a secret of 256 bits, safe in a cookie."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def token_hash(token: str) -> str:
    """Return the SHA-256 of a token as hex: the only form of it that is kept."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()


def moment(text: str) -> datetime:
    """Return a kept moment as an aware UTC datetime."""
    return datetime.fromisoformat(text).astimezone(UTC)


def day_or_none(text: str | None) -> date | None:
    """Return a kept day, or None."""
    return date.fromisoformat(text) if text else None


def day_in(timezone: str, at: datetime) -> date:
    """Return the day a moment falls on in a zone (an IANA name)."""
    return at.astimezone(ZoneInfo(timezone)).date()
