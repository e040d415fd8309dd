"""Sheets of pieces as a PDF 1.6 file: every drawing is in the file once, and each piece is a use of it.

Pages are written as they come and forgotten, so that a run of thousands of pieces takes no more memory than one. The
operators are those of the page writer: layers as optional content, inks as Separations that overprint, outlines.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import BinaryIO, Final

from panelart.drawing.representation import Drawing, Layer, Paint, Step
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box
from panelart.lettering.outline import bounds
from panelart.writers.figures import decimal, rgb
from panelart.writers.pdf import MOST_MM, POINTS_PER_MM
from panelart.writers.pdf_objects import ObjectFile, name, text_string
from panelart.writers.pdf_paths import path_of
from panelart.writers.runs import runs
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
) -> int:
    """Write sheets to an open file as its pages and return how many there were.

    Raises ValueError when there is no sheet, a page is over 5080 mm, a sheet names a drawing that is not handed over,
    a plate has two colours or a layer two steps.
    """
    run = _Run(out, drawings)
    for sheet in sheets:
        run.page(sheet)
    return run.finish(title, note, date)


@dataclass(slots=True)
class _Book:
    """Layers, plates and opacities in the order in which they were first met."""

    layers: dict[str, Step | None] = field(default_factory=dict)
    plates: dict[str, str] = field(default_factory=dict)
    opacities: dict[float, int] = field(default_factory=dict)
    _layer_numbers: dict[str, int] = field(default_factory=dict)

    def layer(self, layer: Layer) -> str:
        step = self.layers.setdefault(layer.name, layer.step)
        if step is not layer.step:
            raise ValueError(f"layer {layer.name!r} stands for two processing steps: {step} and {layer.step}")
        return f"/L{self._layer_numbers.setdefault(layer.name, len(self._layer_numbers))}"

    def colour(self, paint: Paint, *, stroke: bool) -> str:
        """Sets a colour; whatever is on a plate overprints."""
        if paint.plate is None:
            red, green, blue = (decimal(share) for share in rgb(paint.colour))
            return f"{red} {green} {blue} {'RG' if stroke else 'rg'}"
        if not paint.plate or paint.plate in ("All", "None"):
            raise ValueError(f"a plate cannot be called {paint.plate!r}")
        colour = paint.colour.lower()
        if self.plates.setdefault(paint.plate, colour) != colour:
            raise ValueError(f"plate {paint.plate!r} has two colours: {self.plates[paint.plate]} and {colour}")
        number = list(self.plates).index(paint.plate)
        return f"/P{number} CS 1 SCN" if stroke else f"/P{number} cs 1 scn"

    def opacity(self, value: float) -> str:
        return f"/A{self.opacities.setdefault(value, len(self.opacities))} gs"


class _Run:
    """One file being written."""

    def __init__(self, out: BinaryIO, drawings: Mapping[str, Drawing]) -> None:
        self._file = ObjectFile(out)
        self._drawings = drawings
        self._book = _Book()
        self._forms: dict[str, int] = {}
        self._pages: list[int] = []
        self._tree, self._resources = self._file.reserve(), self._file.reserve()
        self._first: Sheet | None = None

    def page(self, sheet: Sheet) -> None:
        """Write one sheet as a page."""
        page = sheet.page
        if max(page.width, page.height) > MOST_MM:
            raise ValueError(f"{sheet.title!r}: a PDF page is at most {MOST_MM:.0f} mm on a side")
        self._first = self._first or sheet
        left, bottom = (f"{-side * POINTS_PER_MM:.6f}" for side in (page.left, page.bottom))
        content = [f"{POINTS_PER_MM:.12g} 0 0 {POINTS_PER_MM:.12g} {left} {bottom} cm", f"{_MITRE} M"]
        for placed in sheet.placed:
            content += self._piece(placed)
        for layer in sheet.layers:
            content += _painted(layer, self._book)
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
            self._forms[placed.drawing] = self._form(self._drawings[placed.drawing])
        yield f"q {matrix(placed.by)} cm /F{list(self._forms).index(placed.drawing)} Do"
        for layer in placed.own:
            yield from _painted(layer, self._book)
        yield "Q"

    def _form(self, drawing: Drawing) -> int:
        content = [line for layer in drawing.layers for line in _painted(layer, self._book)]
        box = _reach(drawing)
        bbox = " ".join(decimal(side) for side in (box.left, box.bottom, box.right, box.top))
        entries = f"/Type /XObject /Subtype /Form /BBox [{bbox}] /Resources {self._resources} 0 R"
        return self._file.stream(entries, "\n".join(content).encode("latin-1"))

    def finish(self, title: str, note: str, date: str | None) -> int:
        """Write what the pages share, and the end of the file."""
        if self._first is None:
            raise ValueError("a PDF has at least one page")
        file, book = self._file, self._book
        groups = [file.put(_group(layer, step)) for layer, step in book.layers.items()]
        spaces = [file.put(_separation(plate, colour)) for plate, colour in book.plates.items()]
        overprint = file.put("<< /Type /ExtGState /OP true /op true /OPM 1 >>")
        states = [f"/GO {overprint} 0 R"]
        states += [
            f"/A{number} << /ca {decimal(value)} /CA {decimal(value)} >>" for value, number in book.opacities.items()
        ]
        file.put(
            f"<< /Properties {_listed('L', groups)} /ColorSpace {_listed('P', spaces)}"
            f" /ExtGState << {' '.join(states)} >> /XObject {_listed('F', list(self._forms.values()))} >>",
            self._resources,
        )
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
        order = "[" + " ".join(f"{number} 0 R" for number in groups) + "]"
        day = None if date is None else dt.date.fromisoformat(date)
        packet = file.stream("/Type /Metadata /Subtype /XML", xmp(about, day).encode("utf-8"), plain=True)
        root = file.put(
            f"<< /Type /Catalog /Pages {self._tree} 0 R /Metadata {packet} 0 R"
            " /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>"
            f" /OCProperties << /OCGs {order} /D << /Name (Layers) /BaseState /ON /Order {order} /ON {order}"
            " /OFF [] >> >> >>"
        )
        info = [f"/Title {text_string(title)}", f"/Subject {text_string(about.note)}", "/Creator (panelart)"]
        info += ["/Producer (panelart)", "/Trapped /False"]
        if day is not None:
            info += [f"/{what} (D:{day:%Y%m%d})" for what in ("CreationDate", "ModDate")]
        file.close(root, file.put(f"<< {' '.join(info)} >>"))
        return len(self._pages)


def matrix(by: Affine) -> str:
    """The six figures of a `cm`, exact to a part in 10^10: a scale with few decimals would be wrong at the far end."""
    return " ".join(decimal(value, 10) for value in by.matrix)


def _painted(layer: Layer, book: _Book) -> Iterator[str]:
    yield f"/OC {book.layer(layer)} BDC"
    for style, items in runs(layer):
        yield "q"
        if style.fill:
            yield book.colour(style.fill, stroke=False)
        if style.stroke:
            yield f"{book.colour(style.stroke, stroke=True)} {decimal(style.width)} w"
        if style.dash:
            yield f"[{' '.join(map(decimal, style.dash))}] 0 d"
        paints = [paint for paint in (style.fill, style.stroke) if paint is not None]
        if any(paint.plate is not None for paint in paints):
            yield _OVERPRINT
        for opacity in {paint.opacity for paint in paints if paint.opacity < 1.0}:
            yield book.opacity(opacity)
        for item in items:
            path = "\n".join(path_of(item, words=True))
            for operator, paint in (("f", style.fill), ("S", style.stroke)):
                if paint is not None and path:
                    yield f"{path}\n{operator}"
        yield "Q"
    yield "EMC"


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
    return "<< " + " ".join(f"/{letter}{index} {number} 0 R" for index, number in enumerate(numbers)) + " >>"


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
