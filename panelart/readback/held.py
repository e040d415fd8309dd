"""Every file of a panel read by a reader that did not write it, and held against the model."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Final

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import readback as said
from panelart.messages.errors import said_by
from panelart.readback.cut_contours import contours_told
from panelart.readback.dxf_tags import dxf_loops
from panelart.readback.lists import lists_told
from panelart.readback.loops import Loop
from panelart.readback.pdf_paths import pdf_loops, pdf_pages
from panelart.readback.plate_areas import plates_told
from panelart.readback.svg_paths import svg_loops, svg_size
from panelart.writers.states import State, state_of

if TYPE_CHECKING:
    from panelart.checks import Inspection
    from panelart.model.layout import Layout

PAPERS: Final = ("proof.pdf", "build-sheet.pdf")

_READERS: Final[Mapping[str, Callable[[bytes], list[Loop]]]] = {"dxf": dxf_loops, "svg": svg_loops, "pdf": pdf_loops}

SIDES: Final = (210.0, 297.0, 420.0, 594.0, 841.0)
"""Sides of the sheets A4 to A1 of ISO 216, mm."""

ROUND: Final = 0.5
"""How far a page may be off its paper, mm: PDFs count in points."""


class Disagreement(Struct, frozen=True, kw_only=True):
    """What one file says otherwise than the model."""

    file: str
    says: Message


def read_back(layout: Layout, inspection: Inspection, files: Mapping[str, bytes]) -> tuple[Disagreement, ...]:
    """What disagrees, file by file; nothing where all agree."""
    return tuple(
        Disagreement(file=name, says=says)
        for name, data in files.items()
        for says in _of_file(name, data, layout, inspection)
    )


def _of_file(name: str, data: bytes, layout: Layout, inspection: Inspection) -> Iterator[Message]:
    """What disagrees in one file; what its reader cannot read is told as that."""
    try:
        yield from _state(name, data, layout)
        yield from _content(name, data, layout, inspection)
    except Exception as error:  # noqa: BLE001  # whatever a reader stumbles over is what is told
        yield said.unreadable(reason=said_by(error) or type(error).__name__)


def _state(name: str, data: bytes, layout: Layout) -> Iterator[Message]:
    """Number, revision and fingerprint, where a format has them."""
    found, panel = state_of(name, data), layout.panel
    if panel.fingerprint and found is not None:
        wanted = State(number=panel.number, revision=panel.revision, spec=panel.fingerprint)
        if found.spec != wanted.spec or found.revision != wanted.revision:
            yield said.state_differs(found=str(found), wanted=str(wanted))


def _content(name: str, data: bytes, layout: Layout, inspection: Inspection) -> Iterator[Message]:
    stem, _, ending = name.rpartition(".")
    if ending in ("csv", "json"):
        yield from lists_told(name, data, layout, len(inspection.findings))
    elif stem == ("cutouts" if layout.blank is None else "blank"):
        machine = layout.panel.marking.printing.machine if ending == "dxf" else None
        yield from contours_told(layout, _READERS[ending](data), machine)
    elif name == "artwork.pdf":
        yield from _plates(data, layout)
    elif name in PAPERS:
        yield from _paper(data)
    elif ending == "png":
        yield from _pixels(name, data, layout)
    elif ending in _OPENED:
        _OPENED[ending](data)


_OPENED: Final[Mapping[str, Callable[[bytes], object]]] = {"pdf": pdf_pages, "svg": svg_size, "dxf": dxf_loops}
"""What is read of files that are held by their state alone: that they can be."""


def _plates(data: bytes, layout: Layout) -> Iterator[Message]:
    from panelart.marking.separation import separations

    if layout.panel.marking.process.lays_ink:
        yield from plates_told(separations(layout), pdf_loops(data))
    else:
        pdf_pages(data)


def _paper(data: bytes) -> Iterator[Message]:
    """Pages are sheets of ISO 216."""
    for number, page in enumerate(pdf_pages(data), start=1):
        if not all(any(abs(side - known) <= ROUND for known in SIDES) for side in page):
            yield said.page_size(page=number, size=page)


def _pixels(name: str, data: bytes, layout: Layout) -> Iterator[Message]:
    """The picture of the panel has the panel's proportions, with the paper round it."""
    from PIL import Image

    with Image.open(io.BytesIO(data)) as image:
        image.load()
        wide, high = image.size
    if name == "panel.png":
        from panelart.sheets.picture import MARGIN

        box = layout.panel.outline.bounds.grown(MARGIN)
        if abs(wide / high - box.width / box.height) > 2.0 / min(wide, high) * max(1.0, wide / high):
            yield said.picture_size(width=wide, height=high)
