"""What is wrong with a font file is told, and whatever bytes a file has, it is opened or refused in a short time.

Good fonts are those of our own, those of Debian's packages where they are installed, and what fontTools makes.
"""

from __future__ import annotations

import contextlib
import io
import struct
import time
from pathlib import Path

import pytest
from fontTools.ttLib import TTCollection, TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.diagnostics import SpecError
from panelart.lettering.embedding import characters_alone
from panelart.lettering.font_file import fault_of
from panelart.lettering.fonts import Font, SeveralFontsError, UnknownFontError, face_name, fonts_folder, open_font
from panelart.lettering.measures import widths
from panelart.lettering.setting import set_words
from panelart.spec.read import panel_from_text
from tests.effort import examples
from tests.lettering.builders import FONTS, boxes, installed
from tests.spec.samples import GOOD

GOOD_FONT = (fonts_folder() / "built" / "PanelartPlain-Light.ttf").read_bytes()
LETTERING = "lettering: {cap_height: 3, case: upper}"


def without(tag: str) -> bytes:
    font = TTFont(io.BytesIO(GOOD_FONT))
    del font[tag]
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


def tables(data: bytes) -> dict[str, tuple[int, int, int]]:
    """By tag, the place of its entry in the directory, its start and its length."""
    found = {}
    for number in range(int.from_bytes(data[4:6], "big")):
        place = 12 + 16 * number
        tag, _, start, length = struct.unpack(">4sLLL", data[place : place + 16])
        found[tag.decode()] = (place, start, length)
    return found


def changed(tag: str, at: int, to: bytes, *, summed: bool) -> bytes:
    """A good font with some bytes of a table changed, its checksum corrected or left."""
    data = bytearray(GOOD_FONT)
    place, start, length = tables(GOOD_FONT)[tag]
    data[start + at : start + at + len(to)] = to
    if summed:
        content = bytearray(data[start : start + length])
        if tag == "head":
            content[8:12] = bytes(4)
        content += bytes(-len(content) % 4)
        total = sum(struct.unpack(f">{len(content) // 4}L", content)) & 0xFFFFFFFF
        data[place + 4 : place + 8] = struct.pack(">L", total)
    return bytes(data)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "is an empty file"),
        (b"PK\x03\x04" + bytes(40), "is a ZIP archive, not a TrueType or OpenType font"),
        (b"\r\n<!DOCTYPE html>\n<title>404</title>", "is a web page or XML file"),
        (b'<?xml version="1.0"?><svg/>', "is a web page or XML file"),
        (b"wOFF\x00\x01\x00\x00" + bytes(40), "is a compressed font for web pages (WOFF)"),
        (b"wOF2\x00\x01\x00\x00" + bytes(40), "is a compressed font for web pages (WOFF)"),
        (b"%!PS-AdobeFont-1.0: Invented", "is a PostScript Type 1 font"),
        (b"\x80\x01\x00\x10%!PS", "is a PostScript Type 1 font"),
        (b"%PDF-1.7\n", "is a PDF"),
        (b"\x1f\x8b\x08\x00" + bytes(20), "is a compressed file (gzip)"),
        (b"\x89PNG\r\n\x1a\n", "is an image"),
        (b"version https://git-lfs.github.com/spec/v1\n", "is a Git LFS pointer"),
        (bytes(5000), "contains only zeros"),
        (b"just words", "is not a TrueType or OpenType font"),
        (GOOD_FONT[:6], "is truncated: its table directory does not fit in the 6 bytes of the file"),
        (GOOD_FONT[:100], "does not fit in the 100 bytes of the file"),
        (GOOD_FONT[:20000], "is truncated: table 'GPOS' ends at byte"),
        (without("cmap"), "is not a complete font: missing tables: cmap"),
        (without("hmtx"), "missing tables: hmtx"),
        (without("glyf"), "has no outlines (no table 'glyf' or 'CFF')"),
        (changed("glyf", 500, b"\x55\xaa\x55", summed=False), "is damaged: table 'glyf' does not match its checksum"),
        (changed("head", 12, b"\0\0\0\0", summed=True), "is damaged: table 'head'"),
        (changed("maxp", 4, b"\0\0", summed=True), "has no glyphs"),
        (changed("cmap", 2, b"\0\0", summed=True), "has no H"),
    ],
)
def test_what_is_wrong_is_told(data: bytes, told: str) -> None:
    with pytest.raises(UnknownFontError) as caught:
        Font.from_bytes("house.ttf", data)
    assert str(caught.value).startswith("'house.ttf' ")
    assert told in str(caught.value)


def test_it_is_told_where_the_spec_names_the_file(tmp_path: Path) -> None:
    (tmp_path / "house.ttf").write_bytes(GOOD_FONT[:20000])
    text = GOOD.replace(LETTERING, "lettering: {font: house.ttf, cap_height: 3}")
    with pytest.raises(SpecError) as caught:
        panel_from_text(text, folder=tmp_path)
    (problem,) = caught.value.problems
    line = next(number for number, each in enumerate(text.splitlines(), start=1) if "house.ttf" in each)
    column = text.splitlines()[line - 1].index("house.ttf") + 1
    assert (problem.where.line, problem.where.column) == (line, column)
    assert "is truncated" in problem.message


@pytest.mark.parametrize("file", sorted(path.name for path in (fonts_folder() / "built").glob("*.ttf")))
def test_nothing_is_wrong_with_our_own(file: str) -> None:
    assert fault_of((fonts_folder() / "built" / file).read_bytes(), file) is None


def test_nothing_is_wrong_with_fonts_that_others_keep() -> None:
    """Whatever Debian's packages have installed here; single fonts of both kinds of outlines, and collections."""
    kept = sorted(path for path in FONTS.rglob("*") if path.suffix in {".ttf", ".otf", ".ttc"})
    if not kept:
        pytest.skip("no font packages are installed")
    for path in kept[::7]:
        assert fault_of(path.read_bytes(), path.name) is None, path


@settings(max_examples=examples(120), deadline=None)
@given(data=st.data())
def test_a_font_with_wrong_bytes_is_opened_or_refused_in_a_moment(data: st.DataObject) -> None:
    """Cut off, or changed with a right checksum, so that nothing but what is read of the tables can notice."""
    if data.draw(st.booleans(), "cut"):
        wrong = GOOD_FONT[: data.draw(st.integers(0, len(GOOD_FONT) - 1), "size")]
    else:
        tag = data.draw(st.sampled_from(["glyf", "loca", "cmap", "head", "hhea", "hmtx", "maxp"]), "table")
        _, _, length = tables(GOOD_FONT)[tag]
        noise = data.draw(st.binary(min_size=1, max_size=min(64, length)), "bytes")
        wrong = changed(tag, data.draw(st.integers(0, length - len(noise)), "at"), noise, summed=True)
    begun = time.process_time()
    try:
        font = Font.from_bytes("house.ttf", wrong)
    except UnknownFontError as refused:
        told = str(refused)
    else:
        told = font.name
        for number in range(0, min(font.face.face.glyph_count, 2000), 5):
            font.box(number)
        glyphs, _ = font.shaped("HAMBURG 0123")
        assert len(glyphs) > 0
        assert font.axes == ()
        font.embedding.words  # noqa: B018  # reads OS/2
        characters_alone(font, "HAMBURG")
    assert "house.ttf" in told
    assert time.process_time() - begun < 5


@settings(max_examples=examples(12), deadline=None)
@given(noise=st.binary(min_size=4, max_size=400), share=st.floats(0, 0.98))
def test_wrong_outlines_are_measured_or_refused_in_a_moment(tmp_path_factory, noise: bytes, share: float) -> None:
    _, _, length = tables(GOOD_FONT)["glyf"]
    folder = tmp_path_factory.mktemp("noise")
    (folder / "house.ttf").write_bytes(changed("glyf", int(share * (length - len(noise))), noise, summed=True))
    begun = time.process_time()
    with contextlib.suppress(UnknownFontError):
        widths(set_words("HAMBURGEFONSTIV 0123456789", str(folder / "house.ttf"), 3.0))
    assert time.process_time() - begun < 20


def collection(*fonts: bytes) -> bytes:
    made = TTCollection()
    made.fonts = [TTFont(io.BytesIO(font)) for font in fonts]
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def test_a_font_of_a_collection_is_asked_for_by_its_index(tmp_path: Path) -> None:
    file = tmp_path / "two.ttc"
    file.write_bytes(collection(boxes({"H": (100, 0, 300, 700)}), boxes({"H": (100, 0, 500, 700)})))
    widths_of = [set_words("H", face_name(str(file), {}, index), 7.0).box.width for index in (0, 1)]
    assert widths_of == pytest.approx([2.0, 4.0])
    with pytest.raises(UnknownFontError, match="has no font with index 2; its indexes are 0 to 1"):
        open_font(face_name(str(file), {}, 2))
    with pytest.raises(SeveralFontsError, match=r"is a collection of several fonts: 0 .*, 1 "):
        open_font(str(file))
    with pytest.raises(UnknownFontError, match="is a single font"):
        Font.from_bytes("one.ttf", boxes({"H": (100, 0, 300, 700)}), index=0)
    alone = tmp_path / "alone.ttc"
    alone.write_bytes(collection(boxes({"H": (100, 0, 300, 700)})))
    assert open_font(str(alone)).cap_units == 700


def test_a_spec_says_which_font_of_a_collection(tmp_path: Path) -> None:
    (tmp_path / "two.ttc").write_bytes(collection(*(boxes(dict.fromkeys("HA", (0, 0, w, 700))) for w in (200, 400))))
    text = GOOD.split("parts:\n")[0] + "texts:\n  - {text: HA, at: [60, 60]}\n"
    named = text.replace(LETTERING, "lettering: {font: {file: two.ttc, index: 1}, cap_height: 3}")
    assert " index=1" in panel_from_text(named, folder=tmp_path).marking.styles["name"].font
    with pytest.raises(SpecError) as caught:
        panel_from_text(text.replace(LETTERING, "lettering: {font: two.ttc, cap_height: 3}"), folder=tmp_path)
    assert "index: 2" in caught.value.problems[0].hint


@pytest.mark.parametrize(
    ("path", "package", "letter", "index"),
    [
        ("truetype/tlwg/Garuda.ttf", "fonts-tlwg-garuda-ttf", "ก", None),
        ("opentype/noto/NotoSansCJK-Regular.ttc", "fonts-noto-cjk", "H", 2),
        ("truetype/noto/NotoSansThai-Regular.ttf", "fonts-noto-core", "ก", None),
        ("truetype/noto/NotoSansGeorgian-Regular.ttf", "fonts-noto-core", "Ⴀ", None),
        ("truetype/noto/NotoSansEthiopic-Regular.ttf", "fonts-noto-core", "ሀ", None),
    ],
)
def test_fonts_are_measured_by_what_they_have(path: str, package: str, letter: str, index: int | None) -> None:
    """FreeType: the box of the letter that stands for the capitals, in font units."""
    import freetype

    file = installed(path, package)
    font = open_font(face_name(file, {}, index))
    face = freetype.Face(file, index or 0)
    if font.has("H"):
        letter = "H"
    face.load_char(letter, freetype.FT_LOAD_NO_SCALE)
    box = face.glyph.outline.get_bbox()
    assert font.cap_units == pytest.approx(box.yMax - box.yMin, abs=1.5)
