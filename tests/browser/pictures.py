"""Makes the README's three pictures from the demo kitchen of a fixed day: `python -m tests.browser.pictures`."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.browser import engine
from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import PHONE, PHONE_AT_NIGHT, Screen
from tests.browser.journeys import TICK, person_id, readings_of, ready_to_show, step_in
from tests.browser.somebody import Somebody
from trainer.actions.teaching import draft_in
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.demo.build import build
from trainer.kitchen.technique import Technique

PICTURES = Path(__file__).parents[2] / ".pictures"
WIDE = Screen("wide", 1280, 820)
TO_SHOW = "safe_holding"


def main() -> None:
    """Draw all three."""
    content, problems = load_content(shipped("content"))
    assert content is not None, problems
    PICTURES.mkdir(exist_ok=True)
    with TemporaryDirectory() as room, engine.running_browser() as browser:
        folder = Path(room) / "kitchen"
        build(folder, draft_in(shipped("content"), "us"), FRIDAY_AT_SIX).file.close()
        with engine.serving(folder, content, FRIDAY_AT_SIX) as served:
            technique = content.techniques[TO_SHOW]
            ready_to_show(served, person_id(served, "New hire"), technique)
            for name, role, screen in (
                ("cook", "New hire", PHONE),
                ("assessor", "Sous chef", PHONE_AT_NIGHT),
                ("manager", "Manager", WIDE),
            ):
                who = Somebody(browser, served.address, screen)
                step_in(who, served, role)
                if name == "assessor":
                    to_a_measured_point(who, technique)
                keep(who, PICTURES / f"{name}.png")
                who.leave()


def to_a_measured_point(who: Somebody, technique: Technique) -> None:
    """Go on to a point with a line to meet, and key a reading in."""
    who.press_starting("Watch Noor")
    who.next_act()
    for point in technique.checklist:
        if point.limit is not None and point.pieces == 1:
            readings_of(who, point, lambda _: "32")
            who.page.evaluate("() => window.scrollTo(0, 0)")
            return
        who.press(TICK)


def keep(who: Somebody, path: Path) -> None:
    """Write the page on screen as a picture of at most 256 colours."""
    who.page.evaluate("() => document.fonts.ready")
    who.page.mouse.move(0, 0)
    path.write_bytes(fewer_colours(who.page.screenshot()))
    print(f"{path.name}: {path.stat().st_size} bytes")


def fewer_colours(png: bytes) -> bytes:
    """Return a picture with a palette of its 256 commonest colours, each other dot in the nearest of them.

    Takes the 8-bit RGB or RGBA pictures a browser makes. Layout as in Portable Network Graphics, third edition (W3C).
    """
    width, height, channels, raw = _unpacked(png)
    dots = _unfiltered(raw, width, height, channels)
    counts: dict[bytes, int] = {}
    for at in range(0, len(dots), channels):
        colour = dots[at : at + 3]
        counts[colour] = counts.get(colour, 0) + 1
    palette = sorted(counts, key=lambda colour: -counts[colour])[:256]
    places = {colour: place for place, colour in enumerate(palette)}
    for colour in counts:
        if colour not in places:
            places[colour] = min(range(len(palette)), key=lambda place: _apart(palette[place], colour))
    rows = bytearray()
    for row in range(height):
        rows.append(0)
        start = row * width * channels
        rows += bytes(places[dots[at : at + 3]] for at in range(start, start + width * channels, channels))
    head = struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"PLTE", b"".join(palette)), (b"IDAT", zlib.compress(bytes(rows), 9)), (b"IEND", b""))
    return png[:8] + b"".join(_chunk(name, body) for name, body in chunks)


def _apart(one: bytes, other: bytes) -> int:
    return sum((a - b) ** 2 for a, b in zip(one, other, strict=True))


def _chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def _unpacked(png: bytes) -> tuple[int, int, int, bytes]:
    """Return width, height, channels a dot and the filtered rows."""
    width, height, depth, kind = struct.unpack_from(">IIBB", png, 16)
    assert depth == 8
    assert kind in (2, 6)
    at, packed = 8, b""
    while at < len(png):
        length, name = struct.unpack_from(">I4s", png, at)
        packed += png[at + 8 : at + 8 + length] if name == b"IDAT" else b""
        at += 12 + length
    return width, height, 4 if kind == 6 else 3, zlib.decompress(packed)


def _unfiltered(raw: bytes, width: int, height: int, channels: int) -> bytes:
    """Return the dots of all rows, each row's filter taken off."""
    length, done = width * channels, bytearray()
    before = bytes(length)
    for row in range(height):
        kind, line = raw[row * (length + 1)], bytearray(raw[row * (length + 1) + 1 : (row + 1) * (length + 1)])
        for at in range(length):
            left = line[at - channels] if at >= channels else 0
            corner = before[at - channels] if at >= channels else 0
            line[at] = (line[at] + _guess(kind, left, before[at], corner)) & 255
        done += line
        before = bytes(line)
    return bytes(done)


def _guess(kind: int, left: int, up: int, corner: int) -> int:
    """Return what a PNG filter took off a byte: none, left, up, mean, or the nearest of three (section 9.2)."""
    if kind == 4:
        guess = left + up - corner
        return min((left, up, corner), key=lambda each: abs(guess - each))
    return (0, left, up, (left + up) // 2)[kind]


if __name__ == "__main__":
    main()
