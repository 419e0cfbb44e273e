"""The two faces, read from their packages and pressed once: text, its bold, and the marker on tape.

Tape is written in capitals alone, so the marker is served without its small letters: half the bytes. No face carries
the hints for screens of coarse dots, nor the names of its glyphs: a fifth of the bytes.
"""

from __future__ import annotations

import gzip
import struct
from collections.abc import Iterator
from functools import cache
from importlib import resources
from itertools import pairwise

FACES = {
    "text": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    "bold": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Bold.ttf"),
    "tape": ("fontpkg_permanent_marker", "PermanentMarker-Regular.ttf"),
}
HINTS = frozenset({"fpgm", "prep", "cvt ", "gasp", "DSIG"})
GOES_ON, IS_WORDS, HAS_SCALE, HAS_TWO_SCALES, HAS_MATRIX, HAS_HINTS = 0x20, 0x1, 0x8, 0x40, 0x80, 0x100


@cache
def face(name: str, *, pressed: bool) -> bytes:
    """Return a face's file, gzipped if *pressed*; KeyError for a name that is none of ours."""
    package, file = FACES[name]
    plain = without_hints(resources.files(package).joinpath("files", file).read_bytes())
    if name == "tape":
        plain = capitals_alone(plain)
    return gzip.compress(plain, 9, mtime=0) if pressed else plain


def capitals_alone(font: bytes) -> bytes:
    """Return a TrueType font with the outlines of letters that have a capital emptied, and no kerning table.

    Tables as in the OpenType specification 1.9.1: cmap format 4, loca, glyf. Every glyph keeps its number.
    """
    tables = _tables(font)
    letters = _letters(tables["cmap"])
    wanted = {0, *(glyph for code, glyph in letters.items() if ord(chr(code).upper()[0]) == code)}
    outlines = _outlines(tables)
    kept = _with_parts(wanted, outlines)
    drawn = [outline if glyph in kept else b"" for glyph, outline in enumerate(outlines)]
    return _redrawn(font, tables, drawn, {"kern", "DSIG"})


def without_hints(font: bytes) -> bytes:
    """Return a TrueType font without instructions for coarse screens and without glyph names; its outlines stay.

    Tables as in the OpenType specification 1.9.1: glyf, post version 3.
    """
    tables = _tables(font)
    tables["post"] = struct.pack(">I", 0x00030000) + tables["post"][4:32]
    return _redrawn(font, tables, [_unhinted(outline) for outline in _outlines(tables)], HINTS)


def _unhinted(outline: bytes) -> bytes:
    """Return a glyph's outline without its instructions."""
    if not outline:
        return outline
    if struct.unpack_from(">h", outline)[0] < 0:
        return _parts_unhinted(outline)
    at = 10 + 2 * struct.unpack_from(">h", outline)[0]
    length = struct.unpack_from(">H", outline, at)[0]
    bare = outline[:at] + b"\0\0" + outline[at + 2 + length :]
    return bare + b"\0" * (-len(bare) % 4)


def _parts_unhinted(outline: bytes) -> bytes:
    """Return a glyph put together from parts without the instructions behind its last part."""
    bare = bytearray(outline)
    at = 10
    for start, flags, _ in _each_part(outline):
        struct.pack_into(">H", bare, start, flags & ~HAS_HINTS)
        at = start + _length(flags)
    del bare[at:]
    return bytes(bare) + b"\0" * (-len(bare) % 4)


def _outlines(tables: dict[str, bytes]) -> list[bytes]:
    """Return the outline of every glyph, in their order."""
    is_long = struct.unpack_from(">h", tables["head"], 50)[0] == 1
    ends = struct.unpack(f">{len(tables['loca']) // (4 if is_long else 2)}{'I' if is_long else 'H'}", tables["loca"])
    size = 1 if is_long else 2
    return [tables["glyf"][a * size : b * size] for a, b in pairwise(ends)]


def _redrawn(font: bytes, tables: dict[str, bytes], outlines: list[bytes], without: frozenset[str] | set[str]) -> bytes:
    """Return the font with these outlines, and without some tables."""
    is_long = struct.unpack_from(">h", tables["head"], 50)[0] == 1
    size = 1 if is_long else 2
    starts = [0]
    for outline in outlines:
        starts.append(starts[-1] + len(outline) // size)
    tables["loca"] = struct.pack(f">{len(starts)}{'I' if is_long else 'H'}", *starts)
    tables["glyf"] = b"".join(outlines)
    return _joined(font[:4], {name: table for name, table in tables.items() if name not in without})


def _tables(font: bytes) -> dict[str, bytes]:
    count = struct.unpack_from(">H", font, 4)[0]
    found = {}
    for place in range(count):
        tag, _, start, length = struct.unpack_from(">4sIII", font, 12 + 16 * place)
        found[tag.decode()] = font[start : start + length]
    return found


def _letters(cmap: bytes) -> dict[int, int]:
    """Return code point → glyph from the first subtable of format 4."""
    starts = [struct.unpack_from(">I", cmap, 8 + 8 * n)[0] for n in range(struct.unpack_from(">H", cmap, 2)[0])]
    at = next(start for start in starts if struct.unpack_from(">H", cmap, start)[0] == 4)
    half = struct.unpack_from(">H", cmap, at + 6)[0] // 2
    rows = [struct.unpack_from(f">{half}H", cmap, at + 14 + 2 * half * n + (2 if n else 0)) for n in range(4)]
    found = {}
    for place, (end, start, delta, offset) in enumerate(zip(*rows, strict=True)):
        for code in range(start, min(end, 0xFFFE) + 1):
            spot = at + 16 + 6 * half + 2 * place + offset + 2 * (code - start)
            glyph = struct.unpack_from(">H", cmap, spot)[0] if offset else code
            found[code] = (glyph + delta) % 65536 if glyph or not offset else 0
    return found


def _with_parts(wanted: set[int], outlines: list[bytes]) -> set[int]:
    """Return the wanted glyphs and all glyphs they are put together from."""
    kept: set[int] = set()
    waiting = set(wanted)
    while waiting:
        glyph = waiting.pop()
        kept.add(glyph)
        waiting |= set(_parts(outlines[glyph])) - kept
    return kept


def _parts(outline: bytes) -> list[int]:
    if not outline or struct.unpack_from(">h", outline)[0] >= 0:
        return []
    return [glyph for _, _, glyph in _each_part(outline)]


def _each_part(outline: bytes) -> Iterator[tuple[int, int, int]]:
    """Yield where each part of a glyph stands, its flags and its own glyph."""
    at, flags = 10, GOES_ON
    while flags & GOES_ON:
        flags, glyph = struct.unpack_from(">HH", outline, at)
        yield at, flags, glyph
        at += _length(flags)


def _length(flags: int) -> int:
    """Return how long a part with these flags is."""
    scale = 2 if flags & HAS_SCALE else 4 if flags & HAS_TWO_SCALES else 8 if flags & HAS_MATRIX else 0
    return 4 + (4 if flags & IS_WORDS else 2) + scale


def _joined(version: bytes, tables: dict[str, bytes]) -> bytes:
    power = len(tables).bit_length() - 1
    head = version + struct.pack(">HHHH", len(tables), 16 << power, power, 16 * len(tables) - (16 << power))
    at, body = 12 + 16 * len(tables), b""
    for tag, table in sorted(tables.items()):
        padded = table + b"\0" * (-len(table) % 4)
        checksum = sum(struct.unpack(f">{len(padded) // 4}I", padded)) & 0xFFFFFFFF
        head += struct.pack(">4sIII", tag.encode(), checksum, at + len(body), len(table))
        body += padded
    return head + body
