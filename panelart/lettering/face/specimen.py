"""The specimen sheets: every cut large and small, the alphabets, and the centre lines under the ink.

``write`` draws ``specimen.pdf`` from the built fonts, as outlines shaped and kerned by HarfBuzz, and renders both its
sheets to ``specimen.png`` with pdfium. Millimetres throughout; every size given is the height of the capitals.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pypdfium2
import uharfbuzz
from PIL import Image
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from panelart.canonical import Struct
from panelart.lettering import skeleton
from panelart.lettering.cuts import cut_named
from panelart.lettering.face import truetype
from panelart.lettering.face.curves import Arc, Line
from panelart.lettering.face.edges import UNITS

WIDTH, HEIGHT, MARGIN = 210.0, 297.0, 14.0
#: Dots per inch of the picture: a 3 mm capital is 18 dots high.
RESOLUTION = 150

WORDS = ("OUTPUT   INPUT   VOLTAGE", "PHANTOM +48 V   −10 dBV", "0.001 µF   Größe   ΔT   НАПРЯЖЕНИЕ")
LARGE = "Ra8"
SMALL = ("OUTPUT  8BD 0OQ  +48 V  −10 dBV", "Remote  3/8 5S 1Il  Điện áp  ВЫХОД")
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
        scale = cap_height / (skeleton.CAP_HEIGHT * UNITS) * mm
        buffer = uharfbuzz.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        uharfbuzz.shape(self.shaper, buffer, dict(features or {}))
        left, base = x * mm, y * mm
        for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            form = self._stored(canvas, info.codepoint)
            canvas.saveState()
            canvas.translate(left + position.x_offset * scale, base + position.y_offset * scale)
            canvas.scale(scale * UNITS / STORED, scale * UNITS / STORED)
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
            pen = _Pen(path, STORED / UNITS)
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
    """Draw the sheets from the fonts in ``folder/built``; returns the two files written."""
    fonts = {style: _Font.opened(style, folder / "built" / truetype.file_name(style)) for style in skeleton.STYLES}
    page = io.BytesIO()
    canvas = Canvas(page, pagesize=(WIDTH * mm, HEIGHT * mm), pageCompression=1, invariant=1)
    canvas.setTitle("Panelart Plain, specimen")
    canvas.setAuthor("panelart")
    _cuts(canvas, fonts)
    canvas.showPage()
    _letters(canvas, fonts)
    canvas.save()
    document, picture = folder / "specimen.pdf", folder / "specimen.png"
    document.write_bytes(page.getvalue())
    sheets = [
        sheet.render(scale=RESOLUTION / 72, grayscale=False).to_pil()
        for sheet in pypdfium2.PdfDocument(page.getvalue())
    ]
    both = Image.new("RGB", (sum(sheet.width for sheet in sheets), sheets[0].height))
    for number, sheet in enumerate(sheets):
        both.paste(sheet, (number * sheets[0].width, 0))
    both.quantize(32).save(picture, optimize=True)
    return document, picture


def _cuts(canvas: Canvas, fonts: Mapping[str, _Font]) -> None:
    """Every cut at 30 mm, at 6 and at 3, dark on light and light on dark."""
    y = HEIGHT - MARGIN - 8.0
    fonts["medium"].draw(canvas, "Panelart Plain", MARGIN, y, 8.0)
    y -= 5.0
    fonts["light"].draw(canvas, "One pen, weights from h/14 to h/6, widths from narrow to normal", MARGIN, y, 1.8)
    for style, font in fonts.items():
        y -= 43.0
        x = font.draw(canvas, LARGE, MARGIN, y, 30.0)
        right = WIDTH - MARGIN
        cut = cut_named(style)
        assert cut is not None, "every style is a cut"
        left = max(x + 4.0, 106.0)
        fonts["light"].draw(canvas, f"{style}: h/{cut.weight:g}, width {cut.width:g}", left, y + 28.2, 1.8)
        font.draw(canvas, "Größe m² ½ ⚠ ẵẪ", left, y + 18.4, 6.0)
        for row, words in enumerate(SMALL):
            font.draw(canvas, words, left, y + 11.4 - 4.7 * row, 3.0)
        canvas.setFillGray(0.13)
        canvas.rect(left * mm, (y - 5.6) * mm, (right - left) * mm, 9.6 * mm, stroke=0, fill=1)
        canvas.setFillGray(0.95)
        for row, words in enumerate(SMALL):
            font.draw(canvas, words, left + 1.6, y - 0.6 - 3.9 * row + 0.6, 3.0 if row == 0 else 2.5)
        canvas.setFillGray(0)


def _letters(canvas: Canvas, fonts: Mapping[str, _Font]) -> None:
    """The alphabets, words at panel sizes, forms of figures, and the centre lines under the ink."""
    medium, light = fonts["medium"], fonts["light"]
    y = HEIGHT - MARGIN - 4.4
    for line in ALPHABETS:
        medium.draw(canvas, line, MARGIN, y, 4.0)
        y -= 7.8
    y -= 2.0
    x = medium.draw(canvas, "0123456789", MARGIN, y, 4.4)
    x = medium.draw(canvas, "zero: 100 Ω", x + 6.0, y, 4.4, {"zero": 1})
    x = medium.draw(canvas, "100 Ω", x + 3.0, y, 4.4, {"zero": 2})
    medium.draw(canvas, "pnum: 2011.11", x + 6.0, y, 4.4, {"pnum": 1})
    y -= 11.0
    for size in (2.5, 3.0, 3.5):
        x = light.draw(canvas, f"{size:g} mm   ", MARGIN, y, 1.8)
        for style in fonts:
            if not style.endswith("narrow"):
                x = fonts[style].draw(canvas, "OUTPUT  −10 dBV    ", max(x, MARGIN + 13.0), y, size)
        y -= size * 1.9
    y -= 4.0
    for words in WORDS:
        medium.draw(canvas, words, MARGIN, y, 5.5)
        y -= 9.0
    y -= 20.0
    for style in ("light", "bold"):
        _centre_lines(canvas, fonts[style], style, "Øre 58 mA µΩ Ж", MARGIN, y, 16.0 if style == "light" else 14.5)
        y -= 26.0


def _centre_lines(canvas: Canvas, font: _Font, style: str, text: str, x: float, y: float, cap_height: float) -> None:
    """The ink in grey, and on it the paths that an engraver's cutter follows."""
    canvas.setFillGray(0.78)
    font.draw(canvas, text, x, y, cap_height)
    canvas.setFillGray(0)
    canvas.setStrokeColorRGB(0.75, 0.1, 0.1)
    canvas.setLineWidth(0.2 * mm)
    canvas.setLineCap(1)
    for stroke in skeleton.load(style).strokes(text, cap_height):
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
