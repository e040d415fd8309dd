"""Sheets of pieces as a PDF 1.6 file: every drawing is in the file once, and each piece is a use of it.

Pages are written as they come and forgotten, so that a run of thousands of pieces takes no more memory than one. The
operators are those of the page writer: layers as optional content, inks as Separations that overprint, outlines.
"""

from __future__ import annotations

import datetime as dt
import zlib
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import BinaryIO, Final

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing, Layer, Lettered, Paint, Step
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box, Vector, direction
from panelart.lettering.fonts import open_font
from panelart.lettering.outline import bounds
from panelart.messages import writers as said
from panelart.writers.figures import decimal, rgb
from panelart.writers.pdf import MAX_MM, POINTS_PER_MM
from panelart.writers.pdf_colours import box_matrix
from panelart.writers.pdf_met import Met
from panelart.writers.pdf_objects import ObjectFile, name, text_string
from panelart.writers.pdf_paths import loop_operators, path_of
from panelart.writers.runs import Style, runs
from panelart.writers.sheet_colours import put_picture, put_ramp
from panelart.writers.xmp import xmp

_MITRE: Final = 4
_OVERPRINT: Final = "/GO gs"


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


class _Book(Met, kw_only=True):
    """What the pages share, opacities too."""

    opacities: dict[float, int] = field(default_factory=dict)

    def colour(self, paint: Paint, *, stroke: bool) -> str:
        """Sets a colour; whatever is on a plate overprints."""
        if paint.plate is None:
            red, green, blue = (decimal(share) for share in rgb(paint.shown))
            return f"{red} {green} {blue} {'RG' if stroke else 'rg'}"
        name, tint = self.plate(paint), decimal(paint.tint)
        return f"/{name} CS {tint} SCN" if stroke else f"/{name} cs {tint} scn"

    def copy(self) -> _Book:
        return _Book(
            layers=dict(self.layers),
            plates=dict(self.plates),
            opacities=dict(self.opacities),
            ramps=list(self.ramps),
            pictures=list(self.pictures),
        )

    def opacity(self, value: float) -> str:
        return f"/A{self.opacities.setdefault(value, len(self.opacities))} gs"


class _Form(Struct, frozen=True):
    """A drawing as it is written: its box, its deflated operators, and what had been met when it was."""

    box: str
    deflated: bytes
    book: _Book


Forms = dict[tuple[str, tuple[str, ...], tuple[str, ...], tuple[float, ...]], _Form]
"""Drawings as they were written, by name and by what was met before them."""


class _Run:
    """One file being written."""

    def __init__(self, out: BinaryIO, drawings: Mapping[str, Drawing], kept: Forms) -> None:
        self._file = ObjectFile(out)
        self._kept = kept
        self._drawings = drawings
        self._book = _Book()
        self._forms: dict[str, int] = {}
        self._glyphs: Glyphs = {}
        self._pages: list[int] = []
        self._tree, self._resources = self._file.reserve(), self._file.reserve()
        self._first: Sheet | None = None

    def page(self, sheet: Sheet) -> None:
        """Write one sheet as a page."""
        page = sheet.page
        if max(page.width, page.height) > MAX_MM:
            raise ValueError(said.page_too_large(title=sheet.title, maximum=round(MAX_MM)))
        self._first = self._first or sheet
        left, bottom = (f"{-side * POINTS_PER_MM:.6f}" for side in (page.left, page.bottom))
        content = [f"{POINTS_PER_MM:.12g} 0 0 {POINTS_PER_MM:.12g} {left} {bottom} cm", f"{_MITRE} M"]
        for placed in sheet.placed:
            content += self._piece(placed)
        for layer in sheet.layers:
            content += _painted(layer, self._book, self._glyphs)
        written = self._file.stream("", "\n".join(content).encode("latin-1"))
        box = f"[0 0 {_points(page.width)} {_points(page.height)}]"
        self._pages.append(
            self._file.put(
                f"<< /Type /Page /Parent {self._tree} 0 R /MediaBox {box} /CropBox {box} /TrimBox {box}"
                f" /Resources {self._resources} 0 R /Contents {written} 0 R >>"
            )
        )

    def _piece(self, placed: Placed) -> Iterator[str]:
        if placed.drawing not in self._drawings:
            raise ValueError(f"there is no drawing {placed.drawing!r}")
        if placed.drawing not in self._forms:
            self._forms[placed.drawing] = self._form(placed.drawing)
        yield f"q {matrix(placed.by)} cm /F{list(self._forms).index(placed.drawing)} Do"
        for layer in placed.own:
            yield from _painted(layer, self._book, self._glyphs)
        yield "Q"

    def _form(self, name: str) -> int:
        # What a drawing comes to depends on the layers and plates that were met before it.
        key = (name, tuple(self._book.layers), tuple(self._book.plates), tuple(self._book.opacities))
        if key not in self._kept:
            drawing = self._drawings[name]
            content = "\n".join(line for layer in drawing.layers for line in _painted(layer, self._book))
            box = _reach(drawing)
            bbox = " ".join(decimal(side) for side in (box.left, box.bottom, box.right, box.top))
            self._kept[key] = _Form(bbox, zlib.compress(content.encode("latin-1"), 6), self._book.copy())
        form = self._kept[key]
        self._book = form.book.copy()
        entries = f"/Type /XObject /Subtype /Form /BBox [{form.box}] /Resources {self._resources} 0 R"
        return self._file.stream(f"{entries} /Filter /FlateDecode", form.deflated, plain=True)

    def _glyph(self, font: str, number: int) -> int:
        """A letter in the units of its font, painted with what is set where it is used."""
        box, content = _glyph_operators(font, number)
        return self._file.stream(f"/Type /XObject /Subtype /Form /BBox [{box}]", content)

    def finish(self, title: str, note: str, date: str | None) -> int:
        """Write what the pages share, and the end of the file."""
        if self._first is None:
            raise ValueError("a PDF has at least one page")
        file = self._file
        groups = [file.put(_group(layer, step)) for layer, step in self._book.layers.items()]
        self._put_resources(groups)
        kids = " ".join(f"{number} 0 R" for number in self._pages)
        file.put(f"<< /Type /Pages /Kids [{kids}] /Count {len(self._pages)} >>", self._tree)
        first = self._first
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
        root = self._put_catalog(about, groups, day)
        file.close(root, file.put(_information(about, day)))
        return len(self._pages)

    def _put_resources(self, groups: list[int]) -> None:
        """Layers, colours, states, pieces, letters and pictures, by the names that pages use."""
        file, book = self._file, self._book
        spaces = {plate: file.put(_separation(plate, colour)) for plate, colour in book.plates.items()}
        ramps = [put_ramp(file, ramp, spaces, book.plates) for ramp in book.ramps]
        pictures = [put_picture(file, picture, spaces) for picture in book.pictures]
        objects = [f"/F{index} {number} 0 R" for index, number in enumerate(self._forms.values())]
        objects += [f"/G{index} {self._glyph(*glyph)} 0 R" for glyph, index in self._glyphs.items()]
        objects += [f"/I{index} {number} 0 R" for index, number in enumerate(pictures)]
        overprint = file.put("<< /Type /ExtGState /OP true /op true /OPM 1 >>")
        states = [f"/GO {overprint} 0 R"]
        states += [
            f"/A{number} << /ca {decimal(value)} /CA {decimal(value)} >>" for value, number in book.opacities.items()
        ]
        file.put(
            f"<< /Properties {_listed('L', groups)} /ColorSpace {_listed('P', list(spaces.values()))}"
            f" /Shading {_listed('S', ramps)} /ExtGState << {' '.join(states)} >>"
            f" /XObject << {' '.join(objects)} >> >>",
            self._resources,
        )

    def _put_catalog(self, about: Drawing, groups: list[int], day: dt.date | None) -> int:
        """The root of the file with its metadata and layers; its number."""
        file = self._file
        order = "[" + " ".join(f"{number} 0 R" for number in groups) + "]"
        packet = file.stream("/Type /Metadata /Subtype /XML", xmp(about, day).encode("utf-8"), plain=True)
        return file.put(
            f"<< /Type /Catalog /Pages {self._tree} 0 R /Metadata {packet} 0 R"
            " /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>"
            f" /OCProperties << /OCGs {order} /D << /Name (Layers) /BaseState /ON /Order {order} /ON {order}"
            " /OFF [] >> >> >>"
        )


def _information(about: Drawing, day: dt.date | None) -> str:
    """The document information dictionary."""
    info = [f"/Title {text_string(about.title)}", f"/Subject {text_string(about.note)}", "/Creator (panelart)"]
    info += ["/Producer (panelart)", "/Trapped /False"]
    if day is not None:
        info += [f"/{what} (D:{day:%Y%m%d})" for what in ("CreationDate", "ModDate")]
    return f"<< {' '.join(info)} >>"


def matrix(by: Affine) -> str:
    """The six figures of a `cm`, exact to a part in 10^10: a scale with few decimals would be wrong at the far end."""
    return " ".join(decimal(value, 10) for value in by.matrix)


Glyphs = dict[tuple[str, int], int]
"""Letters that are in the file once, by font and number, each with its index among them."""


@lru_cache(maxsize=1024)
def _glyph_operators(font: str, number: int) -> tuple[str, bytes]:
    shape = open_font(font).outline(number)
    box = bounds(shape).grown(1.0)
    corners = " ".join(decimal(side) for side in (box.left, box.bottom, box.right, box.top))
    return corners, ("\n".join(line for loop in shape for line in loop_operators(loop)) + "\nf").encode("latin-1")


def _letters(words: Lettered, glyphs: Glyphs) -> Iterator[str]:
    """Every letter of words that leaves ink, as a use of its glyph."""
    for letter in words.setting.letters:
        if not open_font(letter.font).outline(letter.number):
            continue
        index = glyphs.setdefault((letter.font, letter.number), len(glyphs))
        way = direction(words.turn + letter.turn).scaled(letter.scale * words.scale)
        at = words.at.moved(Vector(letter.x, letter.y).scaled(words.scale).turned(words.turn))
        yield f"q {matrix(Affine(way.x, way.y, -way.y, way.x, at.x, at.y))} cm /G{index} Do Q"


def _painted(layer: Layer, book: _Book, glyphs: Glyphs | None = None) -> Iterator[str]:
    """The operators of a layer; with `glyphs` words are uses of letters that the file has once."""
    yield f"/OC /{book.layer(layer)} BDC"
    for style, items in runs(layer):
        yield "q"
        yield from _set_style(style, book)
        for item in items:
            words = item.words
            apart = words is not None and style.stroke is None and words.setting.plate is None
            if apart and words is not None and glyphs is not None:
                yield from _letters(words, glyphs)
            yield from _drawn("\n".join(path_of(item, words=not apart or glyphs is None)), style, book)
        yield "Q"
    yield "EMC"


def _set_style(style: Style, book: _Book) -> Iterator[str]:
    """Sets colours, width, dashes and opacity; whatever is on a plate overprints."""
    if style.fill:
        yield book.colour(style.fill, stroke=False)
    if style.stroke:
        yield f"{book.colour(style.stroke, stroke=True)} {decimal(style.width)} w"
    if style.dash:
        yield f"[{' '.join(map(decimal, style.dash))}] 0 d"
    if any(paint.plate is not None for paint in style.paints):
        yield _OVERPRINT
    for opacity in {paint.opacity for paint in style.paints if paint.opacity < 1.0}:
        yield book.opacity(opacity)


def _drawn(path: str, style: Style, book: _Book) -> Iterator[str]:
    """A path painted in a style: what is seen through it, then filled, then stroked."""
    if not path:
        return
    if style.ramp is not None:
        yield f"q\n{path}\nW n\n/{book.ramp(style.ramp)} sh\nQ"
    if style.picture is not None:
        yield f"q\n{path}\nW n\n{box_matrix(style.picture.box)} cm\n/{book.picture(style.picture)} Do\nQ"
    if style.fill is not None:
        yield f"{path}\nf"
    if style.stroke is not None:
        yield f"{path}\nS"


def _reach(drawing: Drawing) -> Box:
    """All that a drawing paints, and its page: a form shows nothing outside its box."""
    box = drawing.page
    for layer in drawing.layers:
        for item in layer.items:
            if outline := item.outline:
                box = box.union(bounds(outline).grown(item.width))
    return box.grown(1.0)


def _points(mm: float) -> str:
    return f"{mm * POINTS_PER_MM:.6f}".rstrip("0").rstrip(".")


def _listed(letter: str, numbers: list[int]) -> str:
    return f"<< {_named(letter, numbers)} >>"


def _named(letter: str, numbers: list[int]) -> str:
    return " ".join(f"/{letter}{index} {number} 0 R" for index, number in enumerate(numbers))


def _group(layer: str, step: Step | None) -> str:
    if step is None:
        return f"<< /Type /OCG /Name {text_string(layer)} >>"
    what, kind = step.value
    more = f" /GTS_ProcStepsType /{kind}" if kind is not None else ""
    return f"<< /Type /OCG /Name {text_string(layer)} /GTS_Metadata << /GTS_ProcStepsGroup /{what}{more} >> >>"


def _separation(plate: str, colour: str) -> str:
    shares = " ".join(decimal(share, 6) for share in rgb(colour))
    tint = f"<< /FunctionType 2 /Domain [0 1] /C0 [1 1 1] /C1 [{shares}] /N 1 >>"
    return f"[/Separation {name(plate)} /DeviceRGB {tint}]"
