"""Photographs are known by their content, bounded before they are decoded, and kept as nothing but the picture.

Sizes of phone pictures and the risk of a picture that unpacks to gigabytes: common practice (OWASP, File Upload Cheat
Sheet: check the content, rewrite images, limit the size; from memory).
"""

from __future__ import annotations

import io
import struct
import tracemalloc
import zipfile
import zlib

import pytest
from PIL import Image

from trainer.content.photographs import LONGEST_SIDE, MOST_BYTES, RefusedPhotograph, photograph
from trainer.messages import translate


def picture(kind: str = "JPEG", size: tuple[int, int] = (400, 300), **more: object) -> bytes:
    """Return a picture of a kind."""
    out = io.BytesIO()
    Image.new("RGB", size, (200, 120, 40)).save(out, kind, **more)
    return out.getvalue()


def refused(data: bytes) -> str:
    """Return why a file is refused."""
    with pytest.raises(RefusedPhotograph) as caught:
        photograph(data)
    return translate(caught.value.told)


def huge() -> bytes:
    """Return a PNG of a few bytes whose head says 20,000 by 10,000 pixels."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    head = struct.pack(">IIBBBBB", 20_000, 10_000, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photograph_is_kept_as_a_jpeg_of_at_most_1600_pixels(kind: str) -> None:
    """Whatever it came as."""
    kept = Image.open(io.BytesIO(photograph(picture(kind, (4000, 3000)))))
    assert kept.format == "JPEG"
    assert kept.size == (LONGEST_SIDE, 1200)


def test_a_small_one_is_not_blown_up() -> None:
    """It stays as large as it is."""
    assert Image.open(io.BytesIO(photograph(picture(size=(400, 300))))).size == (400, 300)


def test_where_and_with_what_it_was_taken_is_stripped_and_it_stands_upright() -> None:
    """Exif 2.32: tag 0x0112 is the orientation (6: turn right), 0x010F the maker, 0x8825 the place."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "A maker"
    exif.get_ifd(0x8825)[1] = "N"
    sent = picture(exif=exif.tobytes(), comment=b"taken at home", icc_profile=b"x" * 200)
    assert b"A maker" in sent
    kept = Image.open(io.BytesIO(photograph(sent)))
    assert kept.size == (300, 400)
    assert dict(kept.getexif()) == {}
    assert "comment" not in kept.info
    assert "icc_profile" not in kept.info


def test_what_shines_through_is_white() -> None:
    """A picture cut out of its ground stands on white, as on paper."""
    out = io.BytesIO()
    Image.new("RGBA", (60, 60), (0, 0, 0, 0)).save(out, "PNG")
    red, green, blue = Image.open(io.BytesIO(photograph(out.getvalue()))).getpixel((30, 30))  # type: ignore[misc]
    assert min(red, green, blue) > 250


def test_a_picture_of_200_million_pixels_is_refused_without_decoding() -> None:
    """Its head says so: no memory is taken for it."""
    tracemalloc.start()
    assert "more than 64 million pixels" in refused(huge())
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 20_000_000


def test_a_file_of_too_many_bytes_is_refused() -> None:
    """10 MB is more than a phone's picture has."""
    assert "more than 10 MB" in refused(b"\xff\xd8\xff" + bytes(MOST_BYTES))


@pytest.mark.parametrize(
    "data",
    [
        b"GIF89a" + bytes(40),
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"BM" + bytes(60),
        b"RIFF\0\0\0\0WAVE",
        b"MZ",
    ],
)
def test_a_file_that_is_no_picture_we_take_is_refused_whatever_it_is_called(data: bytes) -> None:
    """It is known by its first bytes; the name is never looked at."""
    assert "no JPEG, PNG or WebP picture, whatever its name says" in refused(data)


def test_a_picture_that_lies_about_its_kind_is_refused() -> None:
    """The start of one kind and the rest of another."""
    assert "breaks off, or is damaged" in refused(b"\xff\xd8\xff" + picture("PNG")[3:])
    assert "breaks off, or is damaged" in refused(b"\x89PNG\r\n\x1a\n" + picture("JPEG"))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_that_breaks_off_is_refused(kind: str) -> None:
    """Half a picture is no picture."""
    out = io.BytesIO()
    Image.effect_noise((400, 300), 90).convert("RGB").save(out, kind)
    whole = out.getvalue()
    assert "breaks off, or is damaged" in refused(whole[: len(whole) // 2])


def zipped() -> bytes:
    """Return an archive."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("a.txt", "a")
    return out.getvalue()


@pytest.mark.parametrize("other", [zipped(), b"%PDF-1.7\n", b"<script>alert(1)</script>", b"<HTML>", b"<?php echo 1;"])
def test_a_picture_that_is_another_file_as_well_is_refused(other: bytes) -> None:
    """An archive, a document or a script behind a picture, or within it."""
    assert "Another file is hidden in this picture" in refused(picture() + other)
    assert "Another file is hidden in this picture" in refused(picture(comment=b"%PDF-1.7"))


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_a_picture_that_moves_is_refused(kind: str) -> None:
    """A step shows one still photograph."""
    out = io.BytesIO()
    frames = [Image.new("RGB", (60, 60), (shade, 0, 0)) for shade in (0, 128, 255)]
    frames[0].save(out, kind, save_all=True, append_images=frames[1:], duration=100)
    assert "This picture moves" in refused(out.getvalue())


def test_a_phones_jpeg_with_a_second_view_is_taken_by_its_first() -> None:
    """Multi-picture files (CIPA DC-007) are what many phones write: the first is the photograph."""
    out = io.BytesIO()
    first, second = Image.new("RGB", (80, 60), "red"), Image.new("RGB", (40, 30), "blue")
    first.save(out, "MPO", save_all=True, append_images=[second])
    kept = Image.open(io.BytesIO(photograph(out.getvalue())))
    assert (kept.format, kept.size) == ("JPEG", (80, 60))


def test_nothing_is_told_to_be_chosen_first() -> None:
    """An empty file."""
    assert refused(b"") == "Choose a photograph first."
