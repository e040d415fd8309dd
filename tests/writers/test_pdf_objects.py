"""Objects and operators of PDF, read back by qpdf (pikepdf); shapes against ReportLab's own drawing of them."""

from __future__ import annotations

import io
import math
import tracemalloc
from collections.abc import Iterator
from decimal import Decimal

import numpy as np
import pikepdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box, Line, Point, Vector, circle
from panelart.lettering.outline import Cubic, Loop, shape_of
from panelart.lettering.setting import set_words
from panelart.writers import pdf
from panelart.writers.pdf_content import Content, path
from panelart.writers.pdf_objects import Name, ObjectFile, Ref, Value, written
from panelart.writers.sheet_pdf import sheets_pdf
from tests.effort import examples

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
NUMBERS = st.floats(-1e6, 1e6) | st.integers(-(2**31), 2**31)


def only(value: Value) -> object:
    with pikepdf.open(io.BytesIO(file_with(value))) as opened:
        assert opened.check_pdf_syntax() == []
        return plain(opened.Root.Held[0])


def file_with(value: Value) -> bytes:
    """A file whose root holds a value."""
    out = io.BytesIO()
    file = ObjectFile(out)
    file.close(file.put({"Type": Name("Catalog"), "Pages": put_page(file), "Held": [value]}), file.put({}))
    return out.getvalue()


def put_page(file: ObjectFile) -> Ref:
    """An empty page and the list of it, without which no file is one."""
    tree = file.reserve()
    page = file.put({"Type": Name("Page"), "Parent": tree, "MediaBox": [0, 0, 9, 9], "Resources": {}})
    return file.put({"Type": Name("Pages"), "Kids": [page], "Count": 1}, tree)


def plain(thing: object) -> object:
    """What qpdf read, in Python's own types; names with their slash."""
    if isinstance(thing, pikepdf.Dictionary):
        return {key: plain(one) for key, one in thing.items()}
    if isinstance(thing, pikepdf.Array):
        return [plain(one) for one in thing]  # type: ignore[attr-defined]
    return str(thing) if isinstance(thing, pikepdf.Name | pikepdf.String) else thing


@given(TEXTS)
@settings(max_examples=examples(300), deadline=None)
def test_every_text_is_read_back(text: str) -> None:
    assert only(text) == text


@pytest.mark.parametrize(
    "text", ["", "(a) \\ b", "10 µm – Ω", "þÿ is no mark", "soft\xadhyphen", "\x7f\x9f", "two\nlines\r", "\N{WATCH}"]
)
def test_texts_that_strings_could_be_mistaken_for(text: str) -> None:
    assert only(text) == text


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), min_size=1, max_size=12))
@settings(max_examples=examples(200), deadline=None)
def test_every_name_is_read_back_as_value_and_as_key(text: str) -> None:
    assert only({text: Name(text)}) == {f"/{text}": f"/{text}"}


@given(NUMBERS)
@settings(max_examples=examples(300), deadline=None)
def test_numbers_are_true_to_six_decimals_and_have_no_exponent(number: float) -> None:
    found = only(number)
    assert isinstance(found, int | Decimal)
    assert abs(found - Decimal(number)) <= Decimal("0.0000005")
    assert b"e" not in written(number).lower()


def test_values_within_values() -> None:
    value: Value = {"A": [1, -0.25, True, b"\x00\xff"], "B": {"C": Name("D"), "E": []}}
    assert written(value) == b"<< /A [1 -0.25 true <00ff>] /B << /C /D /E [] >> >>"
    assert written(Ref(7)) == b"7 0 R"


@pytest.mark.parametrize("number", [math.inf, -math.inf, math.nan])
def test_a_number_that_is_none_is_refused(number: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        written(number)


def test_an_object_is_written_once_and_none_is_only_promised() -> None:
    file = ObjectFile(io.BytesIO())
    one, other = file.reserve(), file.reserve()
    file.put({}, one)
    with pytest.raises(ValueError, match="written before"):
        file.put({}, one)
    with pytest.raises(ValueError, match=r"\[2\] were promised"):
        file.close(one, other)


def test_streams_are_what_went_in() -> None:
    data = bytes(range(256)) * 40
    out = io.BytesIO()
    file = ObjectFile(out)
    streams = [file.stream(data, {"Kind": Name("A")}), file.coded(data, {})]
    file.close(file.put({"Type": Name("Catalog"), "Pages": put_page(file), "Held": streams}), file.put({}))
    with pikepdf.open(io.BytesIO(out.getvalue())) as opened:
        assert [stream.read_bytes() for stream in opened.Root.Held] == [data, data]
        assert opened.Root.Held[0].Kind == "/A"


# --- operators


def test_every_operator_is_one_that_qpdf_knows_the_operands_of() -> None:
    box, way = Box(1, 2, 3, 4), Affine(2, 0, 0, 2, 1, 1)
    line = path([Loop((Line(Point(0, 0), Point(1, 1)),), closed=False)])
    content = Content()
    content.save()
    content.map(way)
    content.mitre(4)
    content.width(0.25)
    content.dash((3, 1.5))
    content.state("E0")
    content.plain_colour((0.2, 1 / 3, 1), stroke=False)
    content.plain_colour((0, 0, 0), stroke=True)
    content.ink("P0", 0.5, stroke=False)
    content.ink("P1", 1, stroke=True)
    content.begin_layer("L0")
    content.begin_label(3)
    content.fill(line)
    content.stroke(line)
    content.end()
    content.shade(line, "S0")
    content.picture(line, box, "I0")
    content.use("G0", way)
    content.form("F0")
    content.begin_text()
    content.face("F1")
    content.text_place(Point(1, 1), Vector(2, 0))
    content.show(["0001", -12.5, "00020003"])
    content.end_text()
    content.end()
    content.restore()
    with pikepdf.new() as file:
        found = pikepdf.parse_content_stream(file.make_stream(bytes(content)))
    counts = [(str(operator), len(operands)) for operands, operator in found]
    clip = [("q", 0), ("m", 2), ("l", 2), ("W", 0), ("n", 0)]
    assert counts == [
        *(("q", 0), ("cm", 6), ("M", 1), ("w", 1), ("d", 2), ("gs", 1), ("rg", 3), ("RG", 3)),
        *(("cs", 1), ("scn", 1), ("CS", 1), ("SCN", 1), ("BDC", 2), ("BDC", 2)),
        *(("m", 2), ("l", 2), ("f", 0), ("m", 2), ("l", 2), ("S", 0), ("EMC", 0)),
        *(*clip, ("sh", 1), ("Q", 0), *clip, ("cm", 6), ("Do", 1), ("Q", 0)),
        *(("q", 0), ("cm", 6), ("Do", 1), ("Q", 0), ("Do", 1)),
        *(("BT", 0), ("Tf", 2), ("Tm", 6), ("TJ", 1), ("ET", 0), ("EMC", 0), ("Q", 0)),
    ]


def test_a_page_looks_as_reportlab_draws_it() -> None:
    """Lines, cubics, a circle, dashes and colours, drawn by the two programs and compared dot by dot."""
    canvas = pytest.importorskip("reportlab.pdfgen.canvas")
    heart = (
        Cubic(Point(10, 30), Point(10, 50), Point(40, 50), Point(40, 30)),
        Line(Point(40, 30), Point(25, 5)),
        Line(Point(25, 5), Point(10, 30)),
    )
    red, blue = Paint(colour="#CC2211"), Paint(colour="#1133AA", opacity=0.5)
    items = (
        Item(shape=(Loop(heart),), fill=red, stroke=blue, width=3),
        Item(shape=shape_of(circle(30, Point(65, 30))), stroke=blue, width=1.5, dash=(4, 2)),
        Item(shape=(Loop((Line(Point(0, 0), Point(90, 60)),), closed=False),), stroke=red, width=0.5),
    )
    page = Box(0, 0, 100, 60)
    layer = Layer(name="a", items=items)
    ours = pdf([Drawing(title="T", note="", page=page, trim=page, layers=(layer,))])

    out = io.BytesIO()
    theirs = canvas.Canvas(out, pagesize=(100 / 25.4 * 72, 60 / 25.4 * 72))
    theirs.scale(72 / 25.4, 72 / 25.4)
    theirs.setMiterLimit(4)
    theirs.setFillColorRGB(0xCC / 255, 0x22 / 255, 0x11 / 255)
    theirs.setStrokeColorRGB(0x11 / 255, 0x33 / 255, 0xAA / 255)
    theirs.setStrokeAlpha(0.5)
    theirs.setLineWidth(3)
    for fill, stroke in ((1, 0), (0, 1)):
        drawn = theirs.beginPath()
        drawn.moveTo(10, 30)
        drawn.curveTo(10, 50, 40, 50, 40, 30)
        drawn.lineTo(25, 5)
        drawn.lineTo(10, 30)
        drawn.close()
        theirs.drawPath(drawn, fill=fill, stroke=stroke)
    theirs.setLineWidth(1.5)
    theirs.setDash([4, 2])
    theirs.circle(65, 30, 15)
    theirs.setDash()
    theirs.setStrokeAlpha(1)
    theirs.setStrokeColorRGB(0xCC / 255, 0x22 / 255, 0x11 / 255)
    theirs.setLineWidth(0.5)
    theirs.line(0, 0, 90, 60)
    theirs.save()

    one, other = (picture(data) for data in (ours, out.getvalue()))
    assert one.shape == other.shape
    assert (one < 250).any(axis=2).mean() > 0.1
    # Dots on the rim may differ: ReportLab's circle is of four cubics, and 2.7e-4 of its radius out.
    assert (np.abs(one - other) > 24).any(axis=2).mean() < 0.0005


def picture(data: bytes) -> np.ndarray:
    return np.asarray(pypdfium2.PdfDocument(data)[0].render(scale=4).to_pil().convert("RGB"), dtype=int)


# --- runs


class Sink(io.RawIOBase):
    """A file that forgets what is written to it, and counts it."""

    size = 0

    def write(self, data: bytes) -> int:  # type: ignore[override]
        self.size += len(data)
        return len(data)


def run(count: int) -> Iterator[Sheet]:
    for number in range(count):
        words = Lettered(setting=set_words(f"No. {number:05}", "plain-light", 4.0), at=Point(10, 10))
        own = Layer(name="own", items=(Item(shape=(), words=words, fill=INK),))
        yield Sheet(title="Run", note="", page=PAGE, placed=(Placed(drawing="plate", by=Affine(), own=(own,)),))


PAGE = Box(0, 0, 120, 60)
INK = Paint(colour="#101010", plate="Black")
PLATE = Drawing(
    title="Plate",
    note="",
    page=PAGE,
    trim=PAGE,
    layers=(Layer(name="fixed", items=(Item(shape=shape_of(circle(20, Point(60, 30))), fill=INK),)),),
)


def peak(count: int) -> tuple[int, int]:
    """The most bytes that a run of pages took at once, and the bytes it came to."""
    sink = Sink()
    tracemalloc.start()
    try:
        assert sheets_pdf(sink, {"plate": PLATE}, run(count), title="Run") == count  # type: ignore[arg-type]
        return tracemalloc.get_traced_memory()[1], sink.size
    finally:
        tracemalloc.stop()


def test_a_run_of_pages_takes_no_more_memory_than_a_few() -> None:
    peak(400)  # fonts are read and bounded stores of what comes again are filled
    few, short = peak(40)
    many, long = peak(400)
    assert long > 5 * short
    # What grows is the table of where objects are: 1200 numbers and the references to 400 pages.
    assert many - few < 100_000
