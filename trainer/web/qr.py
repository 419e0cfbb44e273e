"""QR symbols (ISO/IEC 18004) of this kitchen's own addresses."""

from __future__ import annotations

import segno
from markupsafe import Markup


def qr_of(address: str) -> Markup:
    """Return an address as a QR symbol, drawn in black on nothing, as wide as it is given room."""
    drawing = segno.make(address, error="m", micro=False).svg_inline(
        border=4, dark="#000", light=None, svgclass=None, lineclass=None, omitsize=True
    )
    return Markup(drawing)  # noqa: S704 - drawn by us from our own address
