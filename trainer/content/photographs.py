"""A kitchen's own photographs, made safe to keep: known by what is in them, never by their name, and drawn anew.

What is kept is a JPEG of at most 1600 pixels a side with nothing in it but the picture: no place, no camera, no day, no
second file behind it.
"""

from __future__ import annotations

import io
import zipfile

from PIL import Image, ImageOps

from trainer.messages import Message, message

MOST_BYTES = 10 * 1024 * 1024
MOST_PIXELS = 64_000_000
LONGEST_SIDE = 1600
QUALITY = 82
STARTS = {"JPEG": (b"\xff\xd8\xff",), "PNG": (b"\x89PNG\r\n\x1a\n",), "WEBP": (b"RIFF",)}
OTHER_FILES = (b"%PDF-", b"<script", b"<html", b"<svg", b"<?php", b"<!DOCTYPE")
"""What begins another kind of file: a picture that is one as well is no photograph of a step."""


class RefusedPhotograph(ValueError):
    """A file that is not kept as a photograph; `told` says why and what to do."""

    def __init__(self, told: Message) -> None:
        super().__init__(told.pattern)
        self.told = told


def photograph(data: bytes) -> bytes:
    """Return a picture as it is kept: upright, at most 1600 pixels a side, without what a camera wrote beside it.

    RefusedPhotograph for what is no JPEG, PNG or WebP by its content, is too large in bytes or in pixels (found before
    anything is decoded), moves, breaks off, or holds another file.
    """
    kind = _kind_of(data)
    try:
        with Image.open(io.BytesIO(data), formats=[kind]) as found:
            _check(found, kind)
            return _drawn_anew(found)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise RefusedPhotograph(_too_many_pixels()) from None
    except (OSError, ValueError, SyntaxError, EOFError) as problem:
        if isinstance(problem, RefusedPhotograph):
            raise
        words = message("This picture breaks off, or is damaged. Take it once more, or send it again.")
        raise RefusedPhotograph(words) from problem


def _kind_of(data: bytes) -> str:
    """Return what kind of picture a file is by its first bytes; RefusedPhotograph where it is none we take."""
    if not data:
        raise RefusedPhotograph(message("Choose a photograph first."))
    if len(data) > MOST_BYTES:
        words = message("This photograph has more than {most} MB. Send a smaller one.", most=MOST_BYTES >> 20)
        raise RefusedPhotograph(words)
    kind = next((kind for kind, starts in STARTS.items() if data.startswith(starts)), "")
    if not kind or (kind == "WEBP" and data[8:12] != b"WEBP"):
        raise RefusedPhotograph(
            message(
                "This file is no JPEG, PNG or WebP picture, whatever its name says. On a phone, choose the format that "
                "most devices read, and take it again."
            )
        )
    lower = data.lower()
    if any(each.lower() in lower for each in OTHER_FILES) or zipfile.is_zipfile(io.BytesIO(data)):
        raise RefusedPhotograph(message("Another file is hidden in this picture. Take the photograph anew."))
    return kind


def _check(found: Image.Image, kind: str) -> None:
    """Refuse a picture that is too large to decode, or that moves; a phone's JPEG may hold a second, smaller view."""
    width, height = found.size
    if width * height > MOST_PIXELS:
        raise RefusedPhotograph(_too_many_pixels())
    if kind != "JPEG" and getattr(found, "is_animated", False):
        raise RefusedPhotograph(message("This picture moves. A step shows one still photograph."))


def _too_many_pixels() -> Message:
    return message(
        "This picture has more than {most} million pixels. Send a smaller one.", most=MOST_PIXELS // 1_000_000
    )


def _drawn_anew(found: Image.Image) -> bytes:
    """Return the picture decoded, turned upright, made smaller and written again by itself."""
    found.load()
    upright = ImageOps.exif_transpose(found)
    if upright.mode in ("RGBA", "LA", "PA") or "transparency" in upright.info:
        seen = upright.convert("RGBA")
        upright = Image.new("RGB", seen.size, "white")
        upright.paste(seen, mask=seen.getchannel("A"))
    plain = upright.convert("RGB")
    plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    bare = Image.new("RGB", plain.size)
    bare.paste(plain)
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()
