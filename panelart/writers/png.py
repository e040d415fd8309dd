"""A drawing as a PNG picture, for the eye or for a laser.

Pictures for the eye are painted by pdfium from the page that is written as a file, which takes a third of the time of
painting its SVG; no line is thinner there than a pixel. What a laser burns is painted by resvg from the SVG, its glyphs
shared: a dot is as dark as it is covered, and nothing is helped to be seen.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Iterator
from threading import Lock
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from panelart.drawing.representation import Drawing
from panelart.messages import writers as said
from panelart.writers.png_file import chunk, png_file
from panelart.writers.svg import picture_svg

if TYPE_CHECKING:
    from PIL.Image import Image

MAX_PIXELS: Final = 250_000_000
"""A larger picture would fill a small machine's memory (4 bytes a pixel, twice)."""

_MM_PER_INCH: Final = 25.4
_POINTS_PER_INCH: Final = 72.0
_WHITE: Final = 0xFFFFFFFF
_EFFORT: Final = 4
"""Of zlib's 1 to 9: 6 takes half as long again for a file a tenth smaller."""

_PDFIUM: Final = Lock()
"""pdfium works for one thread at a time."""


def png(drawing: Drawing, dpi: float) -> bytes:
    """The page on white, `dpi` pixels an inch, which the file states as well so that it prints 1:1.

    No font of the machine is needed or looked for. Raises ValueError when `dpi` is not a positive number or the picture
    would have more than MAX_PIXELS pixels, and as pdf() does.
    """
    from io import BytesIO

    data = BytesIO()
    _painted(drawing, dpi).save(data, "PNG", compress_level=_EFFORT)
    return _with(data.getvalue(), *_told(drawing, dpi))


def _pixels(drawing: Drawing, dpi: float) -> tuple[int, int]:
    """The size of a page in pixels. Raises ValueError as png() does."""
    if not (math.isfinite(dpi) and dpi > 0.0):
        raise ValueError(f"a picture has more than 0 pixels an inch, not {dpi}")
    wide, high = (length / _MM_PER_INCH * dpi for length in (drawing.page.width, drawing.page.height))
    if wide * high > MAX_PIXELS:
        raise ValueError(said.too_many_pixels(width=round(wide), height=round(high)))
    return max(1, round(wide)), max(1, round(high))


def _painted(drawing: Drawing, dpi: float) -> Image:
    """The page on white from its upper left corner, exactly to scale. Raises ValueError as png() does."""
    import pypdfium2
    from pypdfium2 import raw

    from panelart.writers.pdf import pdf

    width, height = _pixels(drawing, dpi)
    scale = dpi / _POINTS_PER_INCH
    data = pdf([replace(drawing, trim=drawing.page)], live=True)  # a part of a page has its trim elsewhere
    with _PDFIUM:
        document = pypdfium2.PdfDocument(data)
        page = document[0]
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, raw.FPDFBitmap_BGR)
        raw.FPDFBitmap_FillRect(bitmap.raw, 0, 0, width, height, _WHITE)
        matrix, all_of_it = raw.FS_MATRIX(scale, 0, 0, scale, 0, 0), raw.FS_RECTF(0, 0, width, height)
        raw.FPDF_RenderPageBitmapWithMatrix(bitmap.raw, page.raw, matrix, all_of_it, 0)
        picture: Image = bitmap.to_pil().convert("RGB")  # a copy, as the bitmap is closed
        bitmap.close()
        page.close()
        document.close()
    return picture


def dots(drawing: Drawing, dpi: float) -> bytes:
    """The page as a PNG of black dots on white, one bit a dot, `dpi` of them an inch, which the file states as well.

    A dot is black where the drawing covers it by half or more. Raises ValueError as png() does.
    """
    from io import BytesIO

    import resvg_py
    from PIL import Image

    _pixels(drawing, dpi)
    painted = resvg_py.svg_to_bytes(
        svg_string=picture_svg(drawing).decode("utf-8"), dpi=dpi, background="white", skip_system_fonts=True
    )
    with Image.open(BytesIO(bytes(painted))) as picture:
        grey = picture.convert("L")
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
