"""Drawings as a PDF 1.6 file at 1:1: layers, printing plates and page boxes, letters as outlines or as text."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from io import BytesIO
from typing import Final

from msgspec.structs import replace

from panelart.drawing.representation import Drawing
from panelart.geometry import Box
from panelart.writers.pdf_document import Document, points
from panelart.writers.pdf_painting import Painter
from panelart.writers.typefaces import Typefaces

BLEED: Final = 2.0
"""How far the BleedBox stands outside the trim in mm where the drawing does not say (common practice: 2 to 3)."""


def pdf(pages: Sequence[Drawing], *, date: str | None = None, live: bool = False) -> bytes:
    """The drawings as pages of one file; title, number, revision and note are those of the first.

    A layer's name is that of an optional content group, shared by all pages that have it and marked with its
    processing step (ISO 19593-1). A paint with a plate is a Separation that overprints; without, DeviceRGB.
    A label is the structure text of what it names, so that it can be read aloud. Words are outlines; `live` writes
    them as text in embedded fonts, where a font allows it and they are not left out of a field. `date` is YYYY-MM-DD;
    without it the file carries none. Raises ValueError when there is no page, the date is not one, a trim
    lies outside its page or a page is over 5080 mm, a plate has two colours or a layer two steps, and for
    figures and styles that cannot be painted.
    """
    if not pages:
        raise ValueError("a PDF has at least one page")
    day = dt.date.fromisoformat(date) if date is not None else None
    out = BytesIO()
    document = Document(out)
    faces = Typefaces()
    for drawing in pages:
        _put_page(document, drawing, faces if live else None)
    first = replace(pages[0], title=title_of([page.title for page in pages]))
    document.finish(first, day, forms={}, fonts=faces.put(document.file))
    return out.getvalue()


def title_of(titles: Sequence[str]) -> str:
    """The title of a file of several pages: what theirs have in common, without the number of the page."""
    whole = {title.rpartition(", ")[0] for title in titles}
    return whole.pop() if len(titles) > 1 and len(whole) == 1 and "" not in whole else titles[0]


def _put_page(document: Document, drawing: Drawing, faces: Typefaces | None) -> None:
    page, trim = drawing.page, drawing.trim
    if not page.contains(trim):
        raise ValueError(f"{drawing.title!r}: the trim lies outside the page")
    content = document.content(page, drawing.title)
    labels: list[str] = []
    Painter(content, document.book, faces, labels).paint(drawing.layers)
    bleed = _bleed(page, trim, BLEED if drawing.bleed is None else drawing.bleed)
    boxes = {"MediaBox": page, "CropBox": page, "BleedBox": bleed, "TrimBox": trim}
    document.page(content, {name: _sides(box, page) for name, box in boxes.items()}, labels)


def _sides(box: Box, page: Box) -> Sequence[float]:
    """A box in points, to the seven figures that readers in single precision keep."""
    return [float(f"{side:.7g}") for side in points(box, page)]


def _bleed(page: Box, trim: Box, by: float) -> Box:
    wide = trim.grown(by)
    return Box(
        max(wide.left, page.left),
        max(wide.bottom, page.bottom),
        min(wide.right, page.right),
        min(wide.top, page.top),
    )
