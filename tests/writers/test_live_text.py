"""Text kept as text: where pdfium finds each letter, what poppler reads, and that all paint what outlines give."""

from __future__ import annotations

import base64
import ctypes
import io
import math
import re
import subprocess
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest
from PIL import Image

from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint
from panelart.geometry import Box, Point
from panelart.lettering.fonts import face_name, fonts_folder, open_font
from panelart.lettering.look import Look, Plate
from panelart.lettering.setting import set_words
from panelart.lettering.spans import Manner, Span
from panelart.pipeline import build, write
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, svg
from tests.lettering.builders import boxes
from tests.lettering.test_shaping import cff, dejavu  # noqa: F401  # fixtures
from tests.readers import needs_ghostscript, needs_poppler
from tests.spec.samples import GOOD

PAGE = Box(-10.0, -10.0, 90.0, 60.0)
BLACK = Paint(colour="#000000")


def drawing(*words: Lettered, paint: Paint = BLACK) -> Drawing:
    items = tuple(Item(shape=(), words=each, fill=paint, label=each.setting.text) for each in words)
    return Drawing(title="t", note="n", page=PAGE, trim=PAGE, layers=(Layer(name="legend", items=items),))


def live(*words: Lettered, **more) -> bytes:
    return pdf([drawing(*words, **more)], live=True)


def origins(data: bytes) -> list[tuple[str, float, float]]:
    """Every letter that pdfium finds and its origin in mm of the drawing."""
    page = pdfium.PdfDocument(data)[0].get_textpage()
    found = []
    for index in range(page.count_chars()):
        x, y = ctypes.c_double(), ctypes.c_double()
        pdfium.raw.FPDFText_GetCharOrigin(page.raw, index, ctypes.byref(x), ctypes.byref(y))
        letter = chr(pdfium.raw.FPDFText_GetUnicode(page.raw, index))
        if letter not in "\r\n\x00":
            found.append((letter, x.value / 72 * 25.4 + PAGE.left, y.value / 72 * 25.4 + PAGE.bottom))
    return found


def words(tmp_path: Path, data: bytes) -> str:
    file = tmp_path / "text.pdf"
    file.write_bytes(data)
    return subprocess.run(["pdftotext", "-layout", file, "-"], capture_output=True, text=True, check=True).stdout


@pytest.mark.few(6)
@pytest.mark.parametrize("turn", [0.0, 90.0, 33.0])
@pytest.mark.parametrize("scale", [1.0, 0.5])
@pytest.mark.parametrize("text", ["AVATAR 10 kHz", "Größe", "To.V−,"])
def test_letters_stand_where_they_are_set(text: str, scale: float, turn: float) -> None:
    setting = set_words(text, "plain-light", 4.0)
    set_ = Lettered(setting=setting, at=Point(20.0, 15.0), turn=turn, scale=scale)
    found = [each for each in origins(live(set_)) if each[0] != " "]
    expected = [letter for letter in setting.letters if letter.text != " "]
    assert "".join(letter for letter, _, _ in found) == text.replace(" ", "")
    for (_, x, y), letter in zip(found, expected, strict=True):
        a = math.radians(turn)
        wanted_x = 20.0 + scale * (letter.x * math.cos(a) - letter.y * math.sin(a))
        wanted_y = 15.0 + scale * (letter.x * math.sin(a) + letter.y * math.cos(a))
        assert (x, y) == pytest.approx((wanted_x, wanted_y), abs=0.01)


def test_spans_tracking_and_arcs_keep_their_places() -> None:
    text = "U2 RESET"
    spans = (Span(1, 2, Manner.SUPER), Span(3, 8, Manner.BAR))
    straight = set_words(text, "plain-light", 4.0, look=Look(tracking=0.2), spans=spans)
    for setting in (straight, straight.bent(25.0, 90.0)):
        found = [each for each in origins(live(Lettered(setting=setting, at=Point(40.0, 20.0)))) if each[0] != " "]
        letters = [letter for letter in setting.letters if letter.text != " "]
        assert len(found) == len(letters)
        for (_, x, y), letter in zip(found, letters, strict=True):
            assert (x, y) == pytest.approx((40.0 + letter.x, 20.0 + letter.y), abs=0.01)


def ink(data: bytes, reader: str, tmp_path: Path) -> np.ndarray:
    """How dark each pixel is at 200 dpi, 0 to 1."""
    file = tmp_path / "page.pdf"
    file.write_bytes(data)
    if reader == "pdfium":
        image = pdfium.PdfDocument(data)[0].render(scale=200 / 72).to_pil()
    elif reader == "poppler":
        shown = subprocess.run(["pdftoppm", "-r", "200", "-png", file], capture_output=True, check=True).stdout
        image = Image.open(io.BytesIO(shown))
    else:
        command = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dTextAlphaBits=4", "-dGraphicsAlphaBits=4", "-sDEVICE=png16m"]
        out = tmp_path / "gs.png"
        subprocess.run([*command, "-r200", "-o", out, file], check=True)
        image = Image.open(out)
    return 1.0 - np.asarray(image.convert("L"), dtype=float) / 255.0


@pytest.mark.few(6)
@pytest.mark.parametrize(
    "reader",
    ["pdfium", pytest.param("poppler", marks=needs_poppler), pytest.param("ghostscript", marks=needs_ghostscript)],
)
@pytest.mark.parametrize("kind", ["own", "truetype", "cff", "variable"])
def test_text_looks_as_its_outlines_do(kind: str, reader: str, request, tmp_path: Path) -> None:
    font = {"own": lambda: "plain-bold", "truetype": lambda: request.getfixturevalue("dejavu"),
            "cff": lambda: request.getfixturevalue("cff"), "variable": lambda: variable(tmp_path)}[kind]()  # fmt: skip
    text = "HH" if kind == "variable" else "RESET &8ag"
    set_ = Lettered(setting=set_words(text, font, 8.0), at=Point(0.0, 20.0), turn=10.0)
    as_text, as_outlines = ink(live(set_), reader, tmp_path), ink(pdf([drawing(set_)]), reader, tmp_path)
    assert as_outlines.sum() > 500
    # Readers place glyphs on pixels more coarsely than paths, so edges differ; whole strokes do not.
    assert as_text.sum() == pytest.approx(as_outlines.sum(), rel=0.06)
    assert np.abs(as_text - as_outlines).sum() < 0.25 * as_outlines.sum()


def variable(tmp_path: Path) -> str:
    file = tmp_path / "var.ttf"
    file.write_bytes(boxes({"H": (100, 0, 300, 700)}, wide=True))
    return face_name(str(file), {"wght": 900})


def test_a_variable_font_is_embedded_at_its_instance(tmp_path: Path) -> None:
    setting = set_words("H", variable(tmp_path), 7.0)
    with pikepdf.open(io.BytesIO(live(Lettered(setting=setting, at=Point(0, 0))))) as file:
        (font,) = file.pages[0].Resources.Font.values()
        data = bytes(font.DescendantFonts[0].FontDescriptor.FontFile2.read_bytes())
    from fontTools.ttLib import TTFont

    kept = TTFont(io.BytesIO(data))
    assert "fvar" not in kept
    glyph = kept["glyf"][kept.getGlyphOrder()[setting.letters[0].number]]
    assert glyph.xMax - glyph.xMin == 400  # 200 wide at the default, 400 at its boldest


def test_only_the_glyphs_used_are_embedded() -> None:
    data = live(Lettered(setting=set_words("ABBA", "plain-light", 4.0), at=Point(0, 0)))
    with pikepdf.open(io.BytesIO(data)) as file:
        (font,) = file.pages[0].Resources.Font.values()
        assert len(font.DescendantFonts[0].FontDescriptor.FontFile2.read_bytes()) < 8000
    assert len(data) < 20000


@pytest.mark.parametrize(("bits", "text"), [(0, True), (4, True), (8, True), (2, False), (0x200, False)])
def test_the_makers_wishes_are_kept(bits: int, tmp_path: Path, *, text: bool) -> None:
    file = tmp_path / f"font-{bits}.ttf"
    file.write_bytes(boxes({"H": (100, 0, 300, 700)}, fs_type=bits))
    data = live(Lettered(setting=set_words("HH", str(file), 5.0), at=Point(0, 0)))
    with pikepdf.open(io.BytesIO(data)) as read:
        assert ("/Font" in read.pages[0].Resources) is text


def test_words_out_of_a_field_stay_outlines_and_are_read_aloud_all_the_same() -> None:
    setting = set_words("OUT", "plain-light", 5.0, look=Look(plate=Plate()))
    data = live(Lettered(setting=setting, at=Point(0, 0)))
    with pikepdf.open(io.BytesIO(data)) as file:
        assert "/Font" not in file.pages[0].Resources
        assert [str(each.ActualText) for each in file.Root.StructTreeRoot.K.K] == ["OUT"]


@needs_poppler
def test_words_are_found_in_every_script(dejavu: str, tmp_path: Path) -> None:  # noqa: F811
    settings = [set_words("НАПРЯЖЕНИЕ", "plain-light", 4.0), set_words("ΔT 5 µF", "plain-light", 4.0),
                set_words("مخرج", dejavu, 4.0)]  # fmt: skip
    read = words(tmp_path, live(*(Lettered(setting=s, at=Point(5, 8.0 * n)) for n, s in enumerate(settings))))
    assert "НАПРЯЖЕНИЕ" in read
    assert "ΔT 5 µF" in read
    assert "مخرج" in read.replace("\u202b", "").replace("\u202c", "")


def test_the_same_words_give_the_same_bytes() -> None:
    set_ = Lettered(setting=set_words("SAME", "plain-light", 4.0), at=Point(0, 0))
    assert live(set_) == live(set_)


@needs_poppler
def test_a_proof_can_be_searched_and_artwork_has_no_fonts_unless_asked(tmp_path: Path) -> None:
    spec = GOOD.replace("case: upper", "case: upper, text: {}")
    for said, fonts in (("outlines", False), ("live", True)):
        files = write(build(panel_from_text(spec.replace("text: {}", f"text: {said}"))))
        proof = words(tmp_path, files["proof.pdf"])
        assert "PRECISION SUPPLY" in proof
        assert "from the datum" in proof
        artwork = files["artwork.pdf"]
        with pikepdf.open(io.BytesIO(artwork)) as file:
            assert ("/Font" in file.pages[0].Resources) is fonts
        assert ("OUTPUT" in words(tmp_path, artwork)) is fonts
        assert b"font" not in files["cutouts.pdf"].lower()


def test_live_text_keeps_its_plate_and_overprints() -> None:
    setting = set_words("OUT", "plain-light", 5.0)
    data = live(Lettered(setting=setting, at=Point(0, 0)), paint=Paint(colour="#F0F0F0", plate="white"))
    with pikepdf.open(io.BytesIO(data)) as file:
        content = file.pages[0].Contents.read_bytes()
        assert b"/P0 cs 1 scn" in content
        assert content.index(b"/P0 cs 1 scn") < content.index(b"BT")
        assert open_font("plain-light").number("O") is not None


# --- SVG


def svg_texts(data: bytes) -> list[tuple[str, list[tuple[float, float]], float]]:
    """Each text element's characters, their places in mm of the drawing (y up), and its font size."""
    from lxml import etree

    space = {"s": "http://www.w3.org/2000/svg"}
    found = []
    for element in etree.fromstring(data).iterfind(".//s:text", space):
        move = re.fullmatch(r"translate\((\S+) (\S+)\)(?: rotate\((\S+)\))?", element.get("transform"))
        x, y, turn = float(move[1]), float(move[2]), math.radians(float(move[3] or 0))
        places = [
            (PAGE.left + x + along * math.cos(turn), PAGE.top - (y + along * math.sin(turn)))
            for along in map(float, element.get("x").split())
        ]
        found.append((element.text, places, float(element.get("font-size"))))
    return found


@pytest.mark.parametrize(("turn", "scale"), [(0.0, 1.0), (33.0, 0.5)])
def test_svg_text_stands_where_it_is_set(turn: float, scale: float) -> None:
    setting = set_words("AVATAR 10 kHz", "plain-light", 4.0)
    set_ = Lettered(setting=setting, at=Point(20, 15), turn=turn, scale=scale)
    ((text, places, size),) = svg_texts(svg(drawing(set_), live=True))
    assert text == "AVATAR 10 kHz"
    a = math.radians(turn)
    for (x, y), letter in zip(places, setting.letters, strict=True):
        assert x == pytest.approx(20 + scale * letter.x * math.cos(a), abs=0.01)
        assert y == pytest.approx(15 + scale * letter.x * math.sin(a), abs=0.01)
    # The em in mm: the H of 4 mm has 1440 of 2048 units.
    assert size == pytest.approx(scale * 4.0 / 1440 * 2048, abs=1e-5)


def test_svg_carries_the_characters_and_nothing_else() -> None:
    from fontTools.ttLib import TTFont

    data = svg(drawing(Lettered(setting=set_words("Größe", "plain-light", 4.0), at=Point(0, 0))), live=True).decode()
    kept = TTFont(io.BytesIO(base64.b64decode(re.search(r"base64,([^\"&]+)", data)[1])))
    assert set("Größe") <= {chr(code) for code in kept.getBestCmap()}
    assert len(kept.getBestCmap()) < 12
    original = TTFont(fonts_folder() / "built" / "PanelartPlain-Light.ttf")
    for letter in "Größe":
        new, old = (font["hmtx"][font.getBestCmap()[ord(letter)]][0] for font in (kept, original))
        assert new == old


@pytest.mark.parametrize("case", ["arabic", "field", "fraction", "view only", "outlines"])
def test_what_a_reader_could_change_stays_outlines_in_svg(case: str, request, tmp_path: Path) -> None:
    match case:
        case "arabic":
            setting = set_words("مخرج", request.getfixturevalue("dejavu"), 4.0)
        case "field":
            setting = set_words("OUT", "plain-light", 4.0, look=Look(plate=Plate()))
        case "fraction":
            setting = set_words("1/2", "plain-light", 4.0, spans=(Span(0, 3, Manner.FRACTION),))
        case "view only":
            file = tmp_path / "view.ttf"
            file.write_bytes(boxes({"H": (100, 0, 300, 700)}, fs_type=4))
            setting = set_words("H", str(file), 4.0)
        case _:
            setting = set_words("OUT", "plain-light", 4.0)
    data = svg(drawing(Lettered(setting=setting, at=Point(0, 0))), live=case != "outlines")
    assert svg_texts(data) == []
    assert b"font-face" not in data
    assert b"<path" in data


def test_bars_of_live_words_are_paths_beside_the_text() -> None:
    setting = set_words("RESET", "plain-light", 4.0, spans=(Span(0, 5, Manner.BAR),))
    data = svg(drawing(Lettered(setting=setting, at=Point(0, 0))), live=True)
    assert [text for text, _, _ in svg_texts(data)] == ["RESET"]
    assert data.count(b"<path") == 1


# --- the height of capitals on paper


@needs_poppler
@pytest.mark.few(4)
@pytest.mark.parametrize("font", ["own", "truetype", "cff"])
@pytest.mark.parametrize("cap_height", [2.5, 5.0])
@pytest.mark.parametrize("form", ["outlines", "text"])
def test_capitals_are_as_high_on_paper_as_was_asked(font: str, cap_height: float, form: str, request, tmp_path) -> None:
    """Measured on what poppler paints at 600 dpi, by how much of each row is inked as fully as the uprights are."""
    name = {"own": lambda: "plain-light", "truetype": lambda: request.getfixturevalue("dejavu"),
            "cff": lambda: request.getfixturevalue("cff")}[font]()  # fmt: skip
    words_ = Lettered(setting=set_words("EEEE", name, cap_height), at=Point(5.0, 20.0))
    file = tmp_path / "h.pdf"
    file.write_bytes(pdf([drawing(words_)], live=form == "text"))
    shown = subprocess.run(["pdftoppm", "-r", "600", "-gray", "-png", file], capture_output=True, check=True).stdout
    dark = 1.0 - np.asarray(Image.open(io.BytesIO(shown)).convert("L"), dtype=float) / 255.0
    rows = dark.sum(axis=1)
    high = rows.clip(max=np.median(rows[rows > 0])) / np.median(rows[rows > 0])
    assert high.sum() * 25.4 / 600 == pytest.approx(cap_height, abs=0.05)
