"""The letters on a page of PDF, as pdfium reads them back: what they are, how high, in which face, where."""

from __future__ import annotations

import ctypes
import math
from collections.abc import Iterator
from typing import NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium

from panelart.geometry import Box

MM = 25.4 / 72.0


class Letter(NamedTuple):
    """One letter: its ink on the page, mm from the lower left, and its height along its own upright, mm."""

    text: str
    page: int
    face: str
    box: Box
    height: float


def letters(data: bytes) -> Iterator[Letter]:
    """Every letter of a document that is written as text."""
    document = pypdfium2.PdfDocument(data)
    for number, page in enumerate(document, start=1):
        words = page.get_textpage()
        for place in range(words.count_chars()):
            text = chr(pdfium.FPDFText_GetUnicode(words, place))
            if text.isspace():
                continue
            left, bottom, right, top = (value * MM for value in words.get_charbox(place))
            lying = abs(math.cos(pdfium.FPDFText_GetCharAngle(words, place))) < math.sqrt(0.5)
            yield Letter(
                text,
                number,
                _face(words, place),
                Box(left, bottom, right, top),
                right - left if lying else top - bottom,
            )


def pages(data: bytes) -> list[tuple[float, float]]:
    """Width and height of every page, mm."""
    return [(page.get_width() * MM, page.get_height() * MM) for page in pypdfium2.PdfDocument(data)]


def _face(words: pypdfium2.PdfTextPage, place: int) -> str:
    name = ctypes.create_string_buffer(256)
    flags = ctypes.c_int()
    pdfium.FPDFText_GetFontInfo(words, place, name, len(name), ctypes.byref(flags))
    return name.value.decode("utf-8")
