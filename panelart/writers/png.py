"""A drawing as a PNG picture, painted by resvg from the SVG that is written as a file, its glyphs shared."""

from __future__ import annotations

import math
import struct
from collections.abc import Iterator
from typing import Final

from panelart.drawing.representation import Drawing
from panelart.messages import writers as said
from panelart.writers.png_file import chunk, png_file
from panelart.writers.svg import picture_svg

MAX_PIXELS: Final = 250_000_000
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
    if wide * high > MAX_PIXELS:
        raise ValueError(said.too_many_pixels(width=round(wide), height=round(high)))
    import resvg_py

    painted = resvg_py.svg_to_bytes(
        svg_string=picture_svg(drawing).decode("utf-8"), dpi=dpi, background="white", skip_system_fonts=True
    )
    return _with(bytes(painted), *_told(drawing, dpi))


def dots(drawing: Drawing, dpi: float) -> bytes:
    """The page as a PNG of black dots on white, one bit a dot, `dpi` of them an inch, which the file states as well.

    A dot is black where the drawing covers it by half or more. Raises ValueError as png() does.
    """
    from io import BytesIO

    from PIL import Image

    with Image.open(BytesIO(png(drawing, dpi))) as painted:
        grey = painted.convert("L")
    width, height = grey.size
    # One bit a dot, the first of a row in the highest bit; every row begins with the byte that says "no filter".
    bits = grey.point([255 * (value >= 128) for value in range(256)]).convert("1", dither=Image.Dither.NONE).tobytes()
    stride = (width + 7) // 8
    rows = b"".join(b"\0" + bits[row * stride : (row + 1) * stride] for row in range(height))
    return _with(png_file(width, height, rows, bits=1, kind=0), *_told(drawing, dpi))


def _told(drawing: Drawing, dpi: float) -> Iterator[bytes]:
    """The chunks that say how large a picture is and what it shows."""
    yield _resolution(dpi)
    told = {"Title": drawing.title, "Number": drawing.number, "Revision": drawing.revision, "Spec": drawing.spec}
    yield from (_text(keyword, said) for keyword, said in told.items() if said)


def _with(picture: bytes, *chunks: bytes) -> bytes:
    """A picture with chunks after its header chunk."""
    header_end = 8 + 4 + 4 + 13 + 4  # signature; length, name, 13 bytes and check sum of IHDR
    return picture[:header_end] + b"".join(chunks) + picture[header_end:]


def _resolution(dpi: float) -> bytes:
    """A pHYs chunk (PNG, third edition, 11.3.4.3)."""
    per_metre = round(dpi / _MM_PER_INCH * 1000)
    return chunk(b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1))


def _text(keyword: str, said: str) -> bytes:
    """An iTXt chunk (PNG, third edition, 11.3.3.4): words in UTF-8 under a keyword, not compressed."""
    return chunk(b"iTXt", keyword.encode("latin-1") + b"\0\0\0\0\0" + said.replace("\0", "").encode("utf-8"))
