"""Sheets of pieces as a PDF 1.6 file: every drawing is in the file once, and each piece is a use of it.

Pages are written as they come and forgotten, so that a run of thousands of pieces takes no more memory than one.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import BinaryIO

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing, Lettered
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box, Vector, direction
from panelart.lettering.fonts import open_font
from panelart.lettering.outline import bounds
from panelart.writers.pdf_book import Book
from panelart.writers.pdf_content import Content, path
from panelart.writers.pdf_document import Document, points
from panelart.writers.pdf_objects import Entries, Name, ObjectFile, Ref, deflated
from panelart.writers.pdf_painting import Painter


def sheets_pdf(
    out: BinaryIO,
    drawings: Mapping[str, Drawing],
    sheets: Iterable[Sheet],
    *,
    title: str,
    note: str = "",
    date: str | None = None,
    forms: Forms | None = None,
) -> int:
    """Write sheets to an open file as its pages and return how many there were.

    `forms` keeps what the drawings came to, for the next file with the same ones.

    Raises ValueError when there is no sheet, a page is over 5080 mm, a sheet names a drawing that is not handed over,
    a plate has two colours or a layer two steps.
    """
    run = _Run(out, drawings, {} if forms is None else forms)
    for sheet in sheets:
        run.page(sheet)
    return run.finish(title, note, date)


class _Form(Struct, frozen=True):
    """A drawing as it is written: its box, its deflated operators, and what had been met when it was."""

    box: Box
    deflated: bytes
    book: Book


Forms = dict[tuple[object, ...], _Form]
"""Drawings as they were written, by name and by what was met before them."""


class _Glyphs(Struct):
    """Letters that are in the file once, by font and number, each with its index among them."""

    met: dict[tuple[str, int], int] = field(default_factory=dict)

    def takes(self, words: Lettered) -> bool:
        """Words that are left out of a field are a path with it."""
        return words.setting.plate is None

    def write(self, words: Lettered, content: Content) -> None:
        """Every letter that leaves ink, as a use of its glyph."""
        for letter in words.setting.letters:
            if not open_font(letter.font).outline(letter.number):
                continue
            index = self.met.setdefault((letter.font, letter.number), len(self.met))
            way = direction(words.turn + letter.turn).scaled(letter.scale * words.scale)
            at = words.at.moved(Vector(letter.x, letter.y).scaled(words.scale).turned(words.turn))
            content.use(f"G{index}", Affine(way.x, way.y, -way.y, way.x, at.x, at.y))

    def put(self, file: ObjectFile) -> Entries:
        """The letters in the units of their fonts, painted with what is set where they are used."""
        return {f"G{index}": _put_glyph(file, font, number) for (font, number), index in self.met.items()}


class _Run:
    """One file being written."""

    def __init__(self, out: BinaryIO, drawings: Mapping[str, Drawing], kept: Forms) -> None:
        self._document = Document(out)
        self._kept = kept
        self._drawings = drawings
        self._forms: dict[str, Ref] = {}
        self._glyphs = _Glyphs()
        self._first: Sheet | None = None

    def page(self, sheet: Sheet) -> None:
        """Write one sheet as a page."""
        content = self._document.content(sheet.page, sheet.title)
        self._first = self._first or sheet
        for placed in sheet.placed:
            self._piece(placed, content)
        self._painter(content).paint(sheet.layers)
        whole = points(sheet.page, sheet.page)
        self._document.page(content, {"MediaBox": whole, "CropBox": whole, "TrimBox": whole})

    def _piece(self, placed: Placed, content: Content) -> None:
        if placed.drawing not in self._drawings:
            raise ValueError(f"there is no drawing {placed.drawing!r}")
        if placed.drawing not in self._forms:
            self._forms[placed.drawing] = self._put_form(placed.drawing)
        content.save()
        content.map(placed.by)
        content.form(f"F{list(self._forms).index(placed.drawing)}")
        self._painter(content).paint(placed.own)
        content.restore()

    def _painter(self, content: Content) -> Painter:
        return Painter(content, self._document.book, self._glyphs)

    def _put_form(self, name: str) -> Ref:
        document = self._document
        # What a drawing comes to depends on what was met before it.
        key = (name, *document.book.met)
        if key not in self._kept:
            drawing, content = self._drawings[name], Content()
            Painter(content, document.book).paint(drawing.layers)
            self._kept[key] = _Form(_reach(drawing), deflated(bytes(content)), document.book.copy())
        form = self._kept[key]
        document.book = form.book.copy()
        return document.file.coded(
            form.deflated,
            {**_form_of(form.box), "Resources": document.resources, "Filter": Name("FlateDecode")},
        )

    def finish(self, title: str, note: str, date: str | None) -> int:
        """Write what the pages share, and the end of the file."""
        document, first = self._document, self._first
        if first is None:
            raise ValueError("a PDF has at least one page")
        about = Drawing(
            title=title,
            note=note or first.note,
            page=first.page,
            trim=first.page,
            layers=(),
            number=first.number,
            revision=first.revision,
            spec=first.spec,
        )
        day = None if date is None else dt.date.fromisoformat(date)
        forms: Entries = {f"F{index}": ref for index, ref in enumerate(self._forms.values())}
        document.finish(about, day, forms={**forms, **self._glyphs.put(document.file)}, fonts={})
        return len(document.pages)


def _put_glyph(file: ObjectFile, font: str, number: int) -> Ref:
    box, content = _glyph(font, number)
    return file.stream(content, _form_of(box))


@lru_cache(maxsize=1024)
def _glyph(font: str, number: int) -> tuple[Box, bytes]:
    shape = open_font(font).outline(number)
    content = Content()
    content.fill(path(shape))
    return bounds(shape).grown(1.0), bytes(content)


def _form_of(box: Box) -> Entries:
    sides = (box.left, box.bottom, box.right, box.top)
    return {"Type": Name("XObject"), "Subtype": Name("Form"), "BBox": sides}


def _reach(drawing: Drawing) -> Box:
    """All that a drawing paints, and its page: a form shows nothing outside its box."""
    box = drawing.page
    for layer in drawing.layers:
        for item in layer.items:
            if outline := item.outline:
                box = box.union(bounds(outline).grown(item.width))
    return box.grown(1.0)
