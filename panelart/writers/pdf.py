"""Drawings as a PDF 1.6 file at 1:1: layers, printing plates and page boxes, letters as outlines or as text.

ReportLab writes the pages, boxes, graphics states and operators; what it cannot write (optional content,
Separation colours with a screen colour of their own, structure, XMP) is added with pikepdf.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from msgspec import field

from panelart.drawing.representation import Drawing, Item, Paint
from panelart.geometry import Box
from panelart.messages import writers as said
from panelart.writers.figures import decimal, rgb
from panelart.writers.pdf_colours import Colours, box_matrix, image, shading
from panelart.writers.pdf_met import Met
from panelart.writers.pdf_paths import path_of
from panelart.writers.pdf_x import NO_DAY, add_output_intent, conformity
from panelart.writers.runs import Style, runs
from panelart.writers.typefaces import Typefaces, can_be_text, embedded, text
from panelart.writers.xmp import xmp

if TYPE_CHECKING:
    import pikepdf

POINTS_PER_MM: Final = 72.0 / 25.4
BLEED: Final = 2.0
"""How far the BleedBox stands outside the trim in mm where the drawing does not say (common practice: 2 to 3)."""

MAX_MM: Final = 14400.0 / POINTS_PER_MM
"""The greatest side of a page, 14400 points (ISO 32000-1, annex C): 5080 mm."""

_MITRE: Final = 4.0
"""SVG's default, so that sharp corners look alike in both files (PDF's own is 10)."""


def pdf(pages: Sequence[Drawing], *, date: str | None = None, live: bool = False) -> bytes:
    """The drawings as pages of one file; title, number, revision and note are those of the first.

    A layer's name is that of an optional content group, shared by all pages that have it and marked with its
    processing step (ISO 19593-1). A paint with a plate is a Separation that overprints; without, DeviceRGB.
    A label is the structure text of what it names, so that it can be read aloud. Words are outlines; `live` writes
    them as text in embedded fonts, where a font allows it and they are not left out of a field. `date` is YYYY-MM-DD;
    without it the file carries none. Raises ValueError when there is no page, the date is not one, a trim
    lies outside its page or a page is over MOST_MM, a plate has two colours or a layer two steps, and for
    figures and styles that cannot be painted.
    """
    if not pages:
        raise ValueError("a PDF has at least one page")
    day = dt.date.fromisoformat(date) if date is not None else None
    book = _Book(live=live)
    written = _written(pages, book)
    return _completed(written, pages[0], book, day)


class _Book(Met, kw_only=True):
    """What the pages share, and the labels of each."""

    labels: list[list[str]] = field(default_factory=list)
    plain: bool = False
    live: bool = False
    faces: Typefaces = field(default_factory=Typefaces)

    def label(self, text: str) -> int:
        """The marked-content number of a label on the page being written."""
        self.labels[-1].append(text)
        return len(self.labels[-1]) - 1


def _written(pages: Sequence[Drawing], book: _Book) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    file = BytesIO()
    canvas = Canvas(file, pageCompression=0, invariant=1)
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    for drawing in pages:
        page, trim = drawing.page, drawing.trim
        if not page.contains(trim):
            raise ValueError(f"{drawing.title!r}: the trim lies outside the page")
        if max(page.width, page.height) > MAX_MM:
            raise ValueError(said.page_too_large(title=drawing.title, maximum=round(MAX_MM)))
        canvas.setPageSize((page.width * POINTS_PER_MM, page.height * POINTS_PER_MM))
        canvas.setCropBox(_points(page, page))
        canvas.setBleedBox(_points(_bleed(page, trim, BLEED if drawing.bleed is None else drawing.bleed), page))
        canvas.setTrimBox(_points(trim, page))
        book.labels.append([])
        # A scale with six decimals, as ReportLab's transform() writes it, would be out by 1 in 10^7.
        scale = f"{POINTS_PER_MM:.12g}"
        left, bottom = (f"{-side * POINTS_PER_MM:.6f}" for side in (page.left, page.bottom))
        canvas.addLiteral(f"{scale} 0 0 {scale} {left} {bottom} cm")
        canvas.setMiterLimit(_MITRE)
        for layer in drawing.layers:
            canvas.addLiteral(f"/OC /{book.layer(layer)} BDC")
            for style, items in runs(layer):
                _paint(canvas, style, items, book)
            canvas.addLiteral("EMC")
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _points(box: Box, page: Box) -> tuple[float, float, float, float]:
    """A box in points from the page's lower left corner."""
    return (
        (box.left - page.left) * POINTS_PER_MM,
        (box.bottom - page.bottom) * POINTS_PER_MM,
        (box.right - page.left) * POINTS_PER_MM,
        (box.top - page.bottom) * POINTS_PER_MM,
    )


def _bleed(page: Box, trim: Box, by: float) -> Box:
    wide = trim.grown(by)
    return Box(
        max(wide.left, page.left),
        max(wide.bottom, page.bottom),
        min(wide.right, page.right),
        min(wide.top, page.top),
    )


def _paint(canvas: Any, style: Style, items: Sequence[Item], book: _Book) -> None:
    canvas.saveState()
    _set_style(canvas, style, book)
    for item in items:
        canvas.addLiteral(_painted(item, style, book))
    canvas.restoreState()


def _set_style(canvas: Any, style: Style, book: _Book) -> None:
    """Colours, width and dashes; whatever is on a plate overprints, ramps and pictures as fills."""
    if style.fill:
        _set_fill(canvas, style.fill, book)
    if style.stroke:
        _set_stroke(canvas, style.stroke, book)
        canvas.setLineWidth(style.width)
    if style.dash:
        canvas.setDash(list(style.dash))
    if any(paint.plate is not None for paint in style.paints):
        canvas.setOverprintMask(1)
    if (style.ramp is not None and style.ramp.stops) or (style.picture is not None and style.picture.ink is not None):
        canvas.setFillOverprint(True)


def _painted(item: Item, style: Style, book: _Book) -> str:
    """The operators of one item, marked with its label."""
    as_text = book.live and style.stroke is None and item.words is not None and can_be_text(item.words)
    path = "\n".join(path_of(item, words=not as_text))
    # Filled, then stroked: the operator that does both at once blends otherwise than SVG where it is
    # not opaque (ISO 32000-1, 11.7.4.4).
    operators = [operator for operator, paint in (("f", style.fill), ("S", style.stroke)) if paint and path]
    painted = "\n".join([*_seen_through(path, style, book), *(f"{path}\n{operator}" for operator in operators)])
    if as_text and item.words is not None:
        painted = "\n".join((*text(item.words, book.faces), *([painted] if painted else [])))
    if item.label:
        painted = f"/Span <</MCID {book.label(item.label)}>> BDC\n{painted}\nEMC"
    return painted


def _seen_through(path: str, style: Style, book: _Book) -> Iterator[str]:
    """A run of colour or a picture, clipped to the path."""
    if style.ramp is not None and path:
        yield f"q\n{path}\nW n\n/{book.ramp(style.ramp)} sh\nQ"
    if style.picture is not None and path:
        yield f"q\n{path}\nW n\n{box_matrix(style.picture.box)} cm\n/{book.picture(style.picture)} Do\nQ"


def _set_fill(canvas: Any, paint: Paint, book: _Book) -> None:
    if paint.plate is None:
        book.plain = True
        canvas.setFillColorRGB(*rgb(paint.shown))
    else:
        canvas.setFillOverprint(True)
        canvas.addLiteral(f"/{book.plate(paint)} cs {decimal(paint.tint)} scn")
    if paint.opacity < 1.0:
        canvas.setFillAlpha(paint.opacity)


def _set_stroke(canvas: Any, paint: Paint, book: _Book) -> None:
    if paint.plate is None:
        book.plain = True
        canvas.setStrokeColorRGB(*rgb(paint.shown))
    else:
        canvas.setStrokeOverprint(True)
        canvas.addLiteral(f"/{book.plate(paint)} CS {decimal(paint.tint)} SCN")
    if paint.opacity < 1.0:
        canvas.setStrokeAlpha(paint.opacity)


def _completed(written: bytes, first: Drawing, book: _Book, day: dt.date | None) -> bytes:
    import pikepdf

    with pikepdf.open(BytesIO(written)) as file:
        groups = _groups(file, book)
        colours = Colours.of(file, book.plates, managed=first.output is not None)
        spaces = {f"/P{index}": space for index, space in enumerate(colours.spaces.values())}
        ramps = {f"/S{index}": shading(file, ramp, colours) for index, ramp in enumerate(book.ramps)}
        images = {f"/I{index}": image(file, picture, colours) for index, picture in enumerate(book.pictures)}
        fonts = embedded(file, book.faces)
        for page in file.pages:
            _tidy(file, page)
            page.Resources.Properties = pikepdf.Dictionary(groups)
            page.Resources.ColorSpace = pikepdf.Dictionary(spaces)
            if ramps:
                page.Resources.Shading = pikepdf.Dictionary(ramps)
            if images:
                page.Resources.XObject = pikepdf.Dictionary(images)
            if fonts:
                page.Resources.Font = pikepdf.Dictionary(fonts)
        order = pikepdf.Array(list(groups.values()))
        file.Root.OCProperties = pikepdf.Dictionary(
            OCGs=order,
            D=pikepdf.Dictionary(
                Name=pikepdf.String("Layers"),
                BaseState=pikepdf.Name.ON,
                Order=order,
                ON=order,
                OFF=pikepdf.Array(),
            ),
        )
        _add_structure(file, book)
        x4 = first.output is not None and conformity(plain=book.plain, alpha=_has_alpha(file))
        if first.output is not None:
            add_output_intent(file, first.output)
        _add_metadata(file, first, day, x4=x4)
        done = BytesIO()
        file.save(
            done,
            deterministic_id=True,
            force_version="1.6",
            object_stream_mode=pikepdf.ObjectStreamMode.disable,
            compress_streams=True,
            recompress_flate=False,
        )
    return done.getvalue()


def _groups(file: pikepdf.Pdf, book: _Book) -> dict[str, pikepdf.Object]:
    """Optional content groups by resource name. All are on: a group that is off is not printed."""
    import pikepdf

    found: dict[str, pikepdf.Object] = {}
    for index, (name, step) in enumerate(book.layers.items()):
        group = pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(name))
        if step is not None:
            what, kind = step.value
            group.GTS_Metadata = pikepdf.Dictionary(GTS_ProcStepsGroup=pikepdf.Name(f"/{what}"))
            if kind is not None:
                group.GTS_Metadata.GTS_ProcStepsType = pikepdf.Name(f"/{kind}")
        found[f"/L{index}"] = file.make_indirect(group)
    return found


def _has_alpha(file: pikepdf.Pdf) -> bool:
    """Whether anything is painted that is not opaque."""
    states = [state for page in file.pages for state in page.Resources.get("/ExtGState", {}).values()]
    return any(float(state.get(key, 1)) < 1.0 for state in states for key in ("/ca", "/CA"))


def _tidy(file: pikepdf.Pdf, page: pikepdf.Page) -> None:
    """Takes out the font that ReportLab selects at the top of every page, and what only it needs."""
    content = page.Contents.read_bytes()
    start, selected, rest = content.partition(b" 12 Tf 14.4 TL ET\n")
    if not selected or b"\n" in start:
        raise RuntimeError("ReportLab no longer begins a page by selecting a font")
    page.Contents = file.make_stream(rest)
    del page.Resources.Font, page.Resources.ProcSet, page.obj.Trans, page.obj.Rotate


def _add_structure(file: pikepdf.Pdf, book: _Book) -> None:
    """A structure tree that holds every label, page by page, in the order of painting."""
    import pikepdf

    if not any(book.labels):
        return
    root = file.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
    document = file.make_indirect(
        pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.Document, P=root, K=[])
    )
    parents: list[Any] = []
    for index, (page, labels) in enumerate(zip(file.pages, book.labels, strict=True)):
        elements = pikepdf.Array()
        for number, label in enumerate(labels):
            element = file.make_indirect(
                pikepdf.Dictionary(
                    Type=pikepdf.Name.StructElem,
                    S=pikepdf.Name.Span,
                    P=document,
                    Pg=page.obj,
                    K=number,
                    ActualText=pikepdf.String(label),
                )
            )
            document.K.append(element)
            elements.append(element)
        page.obj.StructParents = index
        parents.extend([index, file.make_indirect(elements)])
    root.K = document
    root.ParentTree = file.make_indirect(pikepdf.Dictionary(Nums=pikepdf.Array(parents)))
    root.ParentTreeNextKey = len(book.labels)
    file.Root.StructTreeRoot = root
    file.Root.MarkInfo = pikepdf.Dictionary(Marked=True)


def _add_metadata(file: pikepdf.Pdf, first: Drawing, day: dt.date | None, *, x4: bool) -> None:
    import pikepdf

    about = {"/Title": first.title, "/Subject": first.note, "/Creator": "panelart"}
    about["/Producer"] = "panelart, with ReportLab and pikepdf"
    if first.number:
        about["/Number"] = first.number
    if first.revision:
        about["/Revision"] = first.revision
    if first.spec:
        about["/Spec"] = first.spec
    day = NO_DAY if x4 and day is None else day
    if day is not None:
        about["/CreationDate"] = about["/ModDate"] = f"D:{day:%Y%m%d}"
    info = pikepdf.Dictionary({key: pikepdf.String(value) for key, value in about.items()})
    info.Trapped = pikepdf.Name("/False")
    file.trailer.Info = file.make_indirect(info)
    del file.trailer.ID
    packet = file.make_stream(xmp(first, day, x4=x4).encode("utf-8"))
    packet.Type, packet.Subtype = pikepdf.Name.Metadata, pikepdf.Name.XML
    file.Root.Metadata = packet
