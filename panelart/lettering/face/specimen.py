"""The specimen sheet: panel words at panel sizes, the alphabets, and the centre lines under the ink.

``write`` draws ``specimen.pdf`` from the built fonts, as outlines shaped and kerned by HarfBuzz, and renders it to
``specimen.png`` with pdfium. Millimetres throughout; every size given is the height of the capitals.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pypdfium2
import uharfbuzz
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from panelart.canonical import Struct
from panelart.lettering import skeleton
from panelart.lettering.face import truetype
from panelart.lettering.face.curves import Arc, Line

WIDTH, HEIGHT, MARGIN = 210.0, 297.0, 14.0
#: Dots per inch of the picture: a 3 mm capital is 18 dots high.
RESOLUTION = 150

WORDS = ("OUTPUT   INPUT   VOLTAGE", "PHANTOM +48 V   −10 dBV", "0.001 µF   Größe   ΔT   НАПРЯЖЕНИЕ")
ALPHABETS = (
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ ÆØŒÞẞ",
    "abcdefghijklmnopqrstuvwxyz æøœþß",
    "0123456789  ½ ¼ ¾  m² 10⁻³ H₂O  €£¥¢",
    "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ",
    "αβγδεζηθικλμνξοπρςστυφχψω",
    "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ",
    "абвгдежзийклмнопрстуфхцчшщъыьэюя",
    "±×÷=≠≈≤≥−·…–—√∞∆Ω°∅ &@§#%!?()[]{}«»",
    "←↑→↓↔↕ ⏻⏼⏽⭘⏚⚠⎓∿ ▲▼◀▶●■ ⏩⏪⏸⊕⊗ ÅÇÉÍÑÖŠŮŻ åçéíñöšůż",
    "Điện áp ắc quy ẤẰỄỖỢỮỴ ấằễỗợữỵ  ӘҒҚҢӨҰҮҺ әғқңөұүһ  “m²” ‘10⁻³’",
)


#: Points to a d in the stored glyphs, near their size on the page so that no placing factor is very small.
STORED = 2.0


class _Font(Struct):
    """An opened font of ours: its style and the shaper's view of it."""

    style: str
    shaper: uharfbuzz.Font

    @staticmethod
    def opened(style: str, path: Path) -> _Font:
        return _Font(style, uharfbuzz.Font(uharfbuzz.Face(path.read_bytes())))

    def draw(
        self,
        canvas: Canvas,
        text: str,
        x: float,
        y: float,
        cap_height: float,
        features: Mapping[str, int] | None = None,
    ) -> float:
        """Fill a line of text from ``x`` on the base line ``y``; returns where it ends."""
        scale = cap_height / (skeleton.CAP_HEIGHT * truetype.UNITS) * mm
        buffer = uharfbuzz.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        uharfbuzz.shape(self.shaper, buffer, dict(features or {}))
        left, base = x * mm, y * mm
        for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            form = self._stored(canvas, info.codepoint)
            canvas.saveState()
            canvas.translate(left + position.x_offset * scale, base + position.y_offset * scale)
            canvas.scale(scale * truetype.UNITS / STORED, scale * truetype.UNITS / STORED)
            canvas.doForm(form)
            canvas.restoreState()
            left += position.x_advance * scale
        return float(left / mm)

    def _stored(self, canvas: Canvas, glyph: int) -> str:
        """The glyph as a form of the document, drawn once."""
        name = f"{self.style}-{glyph}"
        if not canvas.hasForm(name):
            reach = 30 * STORED
            canvas.beginForm(name, lowerx=-reach, lowery=-reach, upperx=reach, uppery=reach)
            path = canvas.beginPath()
            pen = _Pen(path, STORED / truetype.UNITS)
            self.shaper.draw_glyph(glyph, pen.functions, pen)
            canvas.drawPath(path, stroke=0, fill=1)
            canvas.endForm()
        return name


class _Pen:
    """Writes a glyph's curves into a page; quadratics become cubics exactly."""

    def __init__(self, path: object, scale: float) -> None:
        self.path, self.scale = path, scale
        self.here = (0.0, 0.0)
        self.functions = uharfbuzz.DrawFuncs()
        self.functions.set_move_to_func(lambda x, y, pen: pen.go("moveTo", x, y))
        self.functions.set_line_to_func(lambda x, y, pen: pen.go("lineTo", x, y))
        self.functions.set_quadratic_to_func(lambda cx, cy, x, y, pen: pen.bend(cx, cy, x, y))
        self.functions.set_close_path_func(lambda pen: pen.path.close())

    def go(self, movement: str, x: float, y: float) -> None:
        move: Callable[[float, float], None] = getattr(self.path, movement)
        move(round(x * self.scale, 3), round(y * self.scale, 3))
        self.here = (x, y)

    def bend(self, cx: float, cy: float, x: float, y: float) -> None:
        from_x, from_y = self.here
        curve: Callable[..., None] = self.path.curveTo  # type: ignore[attr-defined]  # reportlab has no types
        first = from_x + (cx - from_x) * 2 / 3, from_y + (cy - from_y) * 2 / 3
        second = x + (cx - x) * 2 / 3, y + (cy - y) * 2 / 3
        curve(*(round(value * self.scale, 3) for value in (*first, *second, x, y)))
        self.here = (x, y)


def write(folder: Path) -> tuple[Path, Path]:
    """Draw the sheet from the fonts in ``folder/built``; returns the two files written."""
    fonts = {style: _Font.opened(style, folder / "built" / truetype.file_name(style)) for style in skeleton.STYLES}
    page = io.BytesIO()
    canvas = Canvas(page, pagesize=(WIDTH * mm, HEIGHT * mm), pageCompression=1, invariant=1)
    canvas.setTitle("Panelart Plain, specimen")
    canvas.setAuthor("panelart")
    _sheet(canvas, fonts)
    canvas.save()
    document, picture = folder / "specimen.pdf", folder / "specimen.png"
    document.write_bytes(page.getvalue())
    image = pypdfium2.PdfDocument(page.getvalue())[0].render(scale=RESOLUTION / 72, grayscale=False).to_pil()
    image.quantize(32).save(picture, optimize=True)
    return document, picture


def _sheet(canvas: Canvas, fonts: Mapping[str, _Font]) -> None:
    regular = fonts["regular"]
    y = HEIGHT - MARGIN - 11.0
    regular.draw(canvas, "Panelart Plain", MARGIN, y, 11.0)
    y -= 7.0
    regular.draw(
        canvas,
        "Single-stroke panel lettering on the proportions of ISO 3098-0 type B: "
        "stroke d = h/10, lower case 7 d, tails 3 d, line pitch 19 d",
        MARGIN,
        y,
        1.8,
    )
    y -= 13.0
    for style in skeleton.STYLES:
        for words in WORDS:
            fonts[style].draw(canvas, words, MARGIN, y, 6.0)
            y -= 9.6
        y -= 2.0
    for size in (2.5, 3.0, 3.5):
        x = regular.draw(canvas, f"{size:g} mm   ", MARGIN, y, 1.8)
        for style in skeleton.STYLES:
            x = fonts[style].draw(canvas, "OUTPUT  −10 dBV  Größe    ", max(x, MARGIN + 13.0), y, size)
        y -= size * 1.9
    y -= 5.0
    for line in ALPHABETS:
        regular.draw(canvas, line, MARGIN, y, 4.4)
        y -= 8.2
    y -= 4.0
    x = regular.draw(canvas, "0123456789", MARGIN, y, 4.4)
    x = regular.draw(canvas, "zero: 100 Ω", x + 6.0, y, 4.4, {"zero": 1})
    x = regular.draw(canvas, "100 Ω", x + 3.0, y, 4.4, {"zero": 2})
    regular.draw(canvas, "pnum: 2011.11", x + 6.0, y, 4.4, {"pnum": 1})
    y -= 27.0
    _centre_lines(canvas, regular, "Øre 58 mA µΩ Ж", MARGIN, y, 18.0)


def _centre_lines(canvas: Canvas, font: _Font, text: str, x: float, y: float, cap_height: float) -> None:
    """The ink in grey, and on it the paths that an engraver's cutter follows."""
    canvas.setFillGray(0.78)
    font.draw(canvas, text, x, y, cap_height)
    canvas.setFillGray(0)
    canvas.setStrokeColorRGB(0.75, 0.1, 0.1)
    canvas.setLineWidth(0.2 * mm)
    canvas.setLineCap(1)
    for stroke in skeleton.load("regular").strokes(text, cap_height):
        path = canvas.beginPath()
        first = stroke.pieces[0].at(0.0)
        path.moveTo((x + first.x) * mm, (y + first.y) * mm)
        for piece in stroke.pieces:
            match piece:
                case Line(end=end):
                    path.lineTo((x + end.x) * mm, (y + end.y) * mm)
                case Arc(centre=centre, radius=radius, start_deg=start, sweep_deg=sweep):
                    left, low = (x + centre.x - radius) * mm, (y + centre.y - radius) * mm
                    path.arcTo(left, low, left + 2 * radius * mm, low + 2 * radius * mm, start, sweep)
        canvas.drawPath(path, stroke=1, fill=0)
