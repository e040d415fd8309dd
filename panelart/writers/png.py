"""A drawing as a PNG picture, painted by resvg from the SVG that is written as a file, its glyphs shared."""

from __future__ import annotations

import math
import struct
import zlib
from typing import Final

from panelart.drawing.representation import Drawing
from panelart.writers.svg import picture_svg

MOST_PIXELS: Final = 250_000_000
"""A larger picture would fill a small machine's memory (4 bytes a pixel, twice)."""

_MM_PER_INCH: Final = 25.4


def png(drawing: Drawing, dpi: float) -> bytes:
    """The page on white, `dpi` pixels an inch, which the file states as well so that it prints 1:1.

    No font is needed or looked for: letters are outlines. Raises ValueError when `dpi` is not a positive
    number or the picture would have more than MOST_PIXELS pixels, and as svg() does.
    """
    if not (math.isfinite(dpi) and dpi > 0.0):
        raise ValueError(f"a picture has more than 0 pixels an inch, not {dpi}")
    wide, high = (length / _MM_PER_INCH * dpi for length in (drawing.page.width, drawing.page.height))
    if wide * high > MOST_PIXELS:
        raise ValueError(f"{wide:.0f} x {high:.0f} pixels are too many; ask for fewer dpi")
    import resvg_py

    painted = resvg_py.svg_to_bytes(
        svg_string=picture_svg(drawing).decode("utf-8"), dpi=dpi, background="white", skip_system_fonts=True
    )
    return _with_resolution(bytes(painted), dpi)


def _with_resolution(picture: bytes, dpi: float) -> bytes:
    """The picture with a pHYs chunk (PNG, third edition, 11.3.4.3) after its header chunk."""
    per_metre = round(dpi / _MM_PER_INCH * 1000)
    body = b"pHYs" + struct.pack(">IIB", per_metre, per_metre, 1)
    chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
    header_end = 8 + 4 + 4 + 13 + 4  # signature; length, name, 13 bytes and check sum of IHDR
    return picture[:header_end] + chunk + picture[header_end:]
