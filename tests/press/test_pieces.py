"""Pieces that differ: counters, tables, codes that other readers read, and what does not fit named by its row."""

from __future__ import annotations

import random
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest

from panelart.diagnostics import SpecError
from panelart.geometry import Box, Point
from panelart.lettering.codes import CodeKind, code_shape, code_size, modules, quiet_box
from panelart.model.variables import Check, Counter, check_digits
from panelart.pipeline import Bed, nested, read, run_loads, varying
from panelart.press.pieces import rows_counted, rows_of_table

SPEC = """\
panelart: 1
panel:
  title: Rating plate
  number: NW-300-02
  size: [160, 60]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#2B3036"}
marking:
  process: digital-print
  ink: {name: white, colour: "#F1F1EC"}
  lettering: {font: plain, cap_height: 3, case: upper}
  viewing_distance: 500
variables:
  serial: {counter: {first: 1, digits: 5, before: "BS-", check: luhn}}
  owner: {example: Hall 4}
  date: {example: 2026-01-31}
parts:
  - {ref: DS1, part: led-5-bezel, at: [58, 40], legend: "{owner}"}
texts:
  - {text: "Serial {serial}", at: [76, 10]}
  - {text: "{date}", at: [76, 18]}
art:
  - {code: qr, text: "NW-300-02/{serial}", at: [140, 38]}
  - {code: data-matrix, text: "{serial}", at: [108, 42], module: 0.6}
"""
BED = Bed(page=Box(0, 0, 600, 400), gap=15, margin=15, turn=True, clearance=0.15, pin=4, cutter=3)


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "plate.yaml"
    path.write_text(SPEC, encoding="utf-8")
    return path


def table(*owners: str) -> bytes:
    return ("owner\n" + "\n".join(owners) + "\n").encode()


# --- counters


@pytest.mark.parametrize(
    ("figures", "check", "digits"),
    [
        ("7992739871", Check.LUHN, "3"),  # the usual worked example of ISO/IEC 7812-1, annex B (from memory)
        ("794", Check.MOD_97, "44"),  # ISO/IEC 7064's own example for MOD 97-10: 79444 (from memory)
        ("12345", Check.NONE, ""),
    ],
)
def test_check_digits_are_the_standards(figures, check, digits) -> None:
    assert check_digits(figures, check) == digits


@pytest.mark.parametrize("check", [Check.LUHN, Check.MOD_97])
def test_every_single_slip_is_found(check) -> None:
    rng = random.Random(4)
    for _ in range(300):
        figures = f"{rng.randrange(10**6):06d}"
        place, other = rng.randrange(6), rng.randrange(10)
        slip = figures[:place] + str(other) + figures[place + 1 :]
        assert slip == figures or check_digits(slip, check) != check_digits(figures, check)


def test_counters_are_padded_and_step() -> None:
    counter = Counter(first=98, step=2, digits=4, before="A-", after="/B")
    assert [counter.value(piece) for piece in range(3)] == ["A-0098/B", "A-0100/B", "A-0102/B"]


# --- codes


def drawn(shape, box, scale=24) -> np.ndarray:
    from PIL import Image, ImageDraw

    size = round(box.width * scale), round(box.height * scale)
    ink = np.zeros(size[::-1], dtype=bool)
    for loop in shape:
        one = Image.new("1", size)
        corners = [((c.start.x - box.left) * scale, (box.top - c.start.y) * scale) for c in loop.curves]
        ImageDraw.Draw(one).polygon(corners, fill=1)
        ink ^= np.array(one)
    return ink


@pytest.mark.few(3)
@pytest.mark.parametrize("kind", list(CodeKind))
@pytest.mark.parametrize("left_out", [False, True])
def test_codes_are_read_back(kind, left_out) -> None:
    zxing = pytest.importorskip("zxingcpp")
    rng = random.Random(kind.value)
    for length in (1, 4, 9, 17, 25):
        text = "".join(rng.choice("ABCDEFGHJK0123456789-/:. abc") for _ in range(length)).strip() or "A"
        shape = code_shape(kind, text, 0.5, Point(3, 2), left_out=left_out)
        wide, high = code_size(kind, text, 0.5)
        quiet = quiet_box(kind, text, 0.5)
        page = Box(3 + quiet.left - 2, 2 + quiet.bottom - 2, 3 + quiet.right + 2, 2 + quiet.top + 2)
        ink = drawn(shape, page)
        grey = np.where(ink == left_out, 255, 0).astype(np.uint8)
        assert [found.text for found in zxing.read_barcodes(grey)] == [text]
        dark = sum(map(sum, modules(kind, text)))
        area = sum((c.start.x * c.end.y - c.end.x * c.start.y) / 2 for loop in shape for c in loop.curves)
        expected = dark * 0.5 * (high if kind is CodeKind.CODE_128 else 0.5)
        assert area == pytest.approx(quiet.width * quiet.height - expected if left_out else expected)
        assert wide + 2 * kind.quiet * 0.5 == pytest.approx(quiet.width)


@pytest.mark.parametrize(
    ("kind", "text"),
    [(CodeKind.QR, "x" * 4000), (CodeKind.DATA_MATRIX, "x" * 4000), (CodeKind.CODE_128, "Größe"), (CodeKind.QR, "")],
)
def test_what_no_symbol_holds_is_refused(kind, text) -> None:
    with pytest.raises(ValueError, match=r"holds|without text"):
        modules(kind, text)


# --- rows


@pytest.mark.parametrize(
    ("data", "line", "says"),
    [
        (b"", 1, "no column 'owner'"),
        (b"ownr\nHall\n", 1, "no column 'owner'"),
        (b"owner\n", 1, "no rows"),
        (b"owner,note\nHall,\n,x\n", 3, "'owner' is empty"),
        pytest.param(b"owner,owner\na,b\n", 1, "Duplicate column", id="owner,owner\na,b\n-1-two columns"),
        (b'owner\n"Ha\nll"\n', 2, "line breaks"),
        pytest.param(
            b"owner,serial\na,BS-1\nb,BS-1\n",
            3,
            "already in line 2",
            id="owner,serial\na,BS-1\nb,BS-1\n-3-as in line 2",
        ),
        pytest.param(b"\xff\xfe", 1, "not a table in UTF-8", id="\xff\xfe-1-no table in UTF-8"),
    ],
)
def test_a_table_that_cannot_be_used_names_its_line(spec, data, line, says) -> None:
    with pytest.raises(SpecError) as raised:
        rows_of_table(data, "rows.csv", read(spec).variables, "2026-11-25")
    assert any(problem.where.line == line and says in problem.message for problem in raised.value.problems)


def test_a_variable_without_values_says_where_they_come_from(spec) -> None:
    with pytest.raises(SpecError) as raised:
        rows_counted(read(spec), 3, "")
    hints = [problem.hint for problem in raised.value.problems]
    assert any("--rows" in hint for hint in hints)
    assert any("--date" in hint for hint in hints)


def test_the_row_that_does_not_fit_is_named(spec) -> None:
    """The widest is laid out; a value with more of a code than its example is not wider, and still has no room."""
    text = SPEC.replace('text: "NW-300-02/{serial}"', 'text: "{owner}"').replace('legend: "{owner}"', "legend: Ready")
    spec.write_text(text, encoding="utf-8")
    panel = read(spec)
    narrow, wide = "i" * 70, "M" * 45
    rows = rows_of_table(table("Hall 1", narrow, wide), "rows.csv", panel.variables, "2026-11-25")
    with pytest.raises(SpecError) as raised:
        varying(spec, panel, rows)
    assert [problem.where.line for problem in raised.value.problems] == [3]


# --- a run


def a_run(spec: Path, count: int):
    panel = read(spec)
    owners = [f"Hall {number % 9 + 1}" for number in range(count)]
    rows = rows_of_table(table(*owners), "rows.csv", panel.variables, "2026-11-25")
    run = [varying(spec, panel, rows)]
    packed = nested([run[0].built.layout], ["plate"], [count], BED)
    return run, packed


@pytest.mark.full
def test_every_piece_of_a_run_reads_back_its_own_codes(spec) -> None:
    zxing, pdfium = pytest.importorskip("zxingcpp"), pytest.importorskip("pypdfium2")
    run, packed = a_run(spec, 20)
    found = []
    for (_, data, count), load in zip(run_loads(run, packed, BED), packed.loads, strict=True):
        page = pdfium.PdfDocument(data)[0]
        # White ink on a page that pdfium shows white: the colours are turned over to see it.
        grey = np.array(page.render(scale=5.0).to_pil().convert("L")).astype(int)
        seen = np.where(grey < 250, 255, 0).astype(np.uint8)
        assert count == len(load.spots)
        found += [code.text for code in zxing.read_barcodes(seen)]
    serials = [row.values["serial"] for row in run[0].rows]
    assert len(set(serials)) == 20
    # A reader of a whole sheet may miss single codes; none may be wrong, and nearly all are found.
    assert set(found) <= {*serials, *(f"NW-300-02/{serial}" for serial in serials)}
    assert len(set(found)) >= 36


def test_a_run_is_the_same_bytes_and_keeps_what_is_fixed_once(spec) -> None:
    pikepdf = pytest.importorskip("pikepdf")
    one = list(run_loads(*a_run(spec, 18), BED))
    two = list(run_loads(*a_run(spec, 18), BED))
    assert one == two
    with pikepdf.open(BytesIO(one[0][1])) as pdf:
        assert not pdf.check_pdf_syntax()
        names = list(pdf.pages[0].Resources.XObject.keys())
        assert sum(name.startswith("/F") for name in names) == 1
        assert sum(name.startswith("/G") for name in names) < 45


def test_a_load_that_is_there_is_passed_over(spec) -> None:
    run, packed = a_run(spec, 18)
    whole = list(run_loads(run, packed, BED))
    rest = list(run_loads(run, packed, BED, skip=lambda name: name == "bed-1.pdf"))
    assert rest[0] == ("bed-1.pdf", b"", 16)
    assert rest[1] == whole[1]


def test_words_grow_from_the_end_that_stands_at_the_part(spec) -> None:
    run, _ = a_run(spec, 12)
    pieces, layout = run[0].pieces, run[0].built.layout
    (laid,) = [legend for legend in layout.legends if legend.ref == "DS1"]
    (layer,) = [layer for layer in pieces.own({**run[0].rows[0].values, "owner": "I"}) if "white" in layer.name]
    (item,) = [item for item in layer.items if item.label == "I"]
    assert item.words is not None
    assert item.words.at.x + item.words.setting.box.centre.x == pytest.approx(laid.box.centre.x)
    assert item.words.at.y == laid.baseline.y
    assert not any("SERIAL" in item.label for layer in pieces.fixed.layers for item in layer.items)


# --- nothing is made up, nothing dropped


@pytest.mark.parametrize(
    ("rows", "line", "column", "says"),
    [
        ("serial,owner\nBS-000018,Hall 1\n,Hall 2\n", 3, 1, "Row 3 has no value in column 'serial'"),
        ("owner,serial\nHall 1,BS-000018\nHall 2\n", 3, 2, "Row 3 has no value in column 'serial'"),
        ("owner,note\nHall 1,x\n , \nHall 2,y\n", 3, 1, "Row 3 has only empty cells"),
        ("owner\nHall 1\n中\nHall 3\n", 3, 1, "no font that the spec names has '中'"),
    ],
)
def test_a_row_that_lacks_something_is_named(spec: Path, rows: str, line: int, column: int, says: str) -> None:
    panel = read(spec)
    with pytest.raises(SpecError) as caught:
        varying(spec, panel, rows_of_table(rows.encode(), "rows.csv", panel.variables, "2026-01-31"))
    (problem,) = caught.value.problems
    assert (problem.where.line, problem.where.column) == (line, column)
    assert says in str(problem)


def test_the_number_that_may_be_written_is_offered(spec: Path) -> None:
    """The second piece of a count from 1 with five digits and the check digit of ISO/IEC 7812-1: 00002 and 6."""
    with pytest.raises(SpecError, match="Write 'BS-000026'"):
        rows_of_table(b"serial,owner\nBS-000018,Hall 1\n,Hall 2\n", "rows.csv", read(spec).variables, "2026-01-31")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_may_end_as_any_system_ends_them(spec: Path, end: str) -> None:
    data = end.join(["owner", "Hall 1", "Hall 2", ""]).encode()
    rows = rows_of_table(data, "rows.csv", read(spec).variables, "2026-01-31")
    assert [row.values["owner"] for row in rows] == ["Hall 1", "Hall 2"]
