"""Component lists: forms of files, headers, refs, words matched to parts, and every doubt told with its place."""

from __future__ import annotations

import contextlib
import io
import zipfile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.diagnostics import SpecError
from panelart.lists.account import Fate
from panelart.lists.columns import columns
from panelart.lists.listed import Weight
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list
from panelart.lists.refs import MAX_REFS, continued, expand
from panelart.lists.tables import Row
from panelart.messages import Message
from panelart.messages import component_lists as said
from panelart.messages.errors import said_by
from tests.effort import examples

MATCHER = Matcher()


def name_of(says: Message) -> str:
    """The name of a message in its module."""
    return says.id.rpartition(".")[2]


ROWS = [
    ["Ref", "Part", "Legend", "Qty"],
    ["S1", "toggle-12", "Power, main", "1"],
    ["J1-J3", "bnc", "In;Out;Störung", "3"],
]


def delimited(delimiter: str) -> str:
    return "\n".join(delimiter.join(f'"{cell}"' if delimiter in cell else cell for cell in row) for row in ROWS) + "\n"


def xlsx() -> bytes:
    import openpyxl

    book = openpyxl.Workbook()
    for row in ROWS:
        book.active.append([int(cell) if cell.isdecimal() else cell for cell in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def ods() -> bytes:
    """Written by odfpy, with an empty row that is repeated a million times, as spreadsheets do."""
    pytest.importorskip("odf", reason="odfpy writes the sheet here")
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    document = OpenDocumentSpreadsheet()
    table = Table(name="Parts")
    for values in ROWS:
        row = TableRow()
        for value in values:
            cell = TableCell(valuetype="string")
            cell.addElement(P(text=value))
            row.addElement(cell)
        row.addElement(TableCell(numbercolumnsrepeated=16000))
        table.addElement(row)
    rest = TableRow(numberrowsrepeated=1000000)
    rest.addElement(TableCell(numbercolumnsrepeated=16384))
    table.addElement(rest)
    document.spreadsheet.addElement(table)
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()


FILES = {
    "UTF-8, commas": delimited(",").encode(),
    "UTF-8, semicolons": delimited(";").encode(),
    "UTF-8, tabs": delimited("\t").encode(),
    "UTF-8, bars": delimited("|").encode(),
    "UTF-8 with byte order mark, semicolons": b"\xef\xbb\xbf" + delimited(";").encode(),
    "UTF-16, tabs": delimited("\t").encode("utf-16"),
    "UTF-16 without byte order mark, tabs": delimited("\t").encode("utf-16-le"),
    "Windows-1252, semicolons": delimited(";").replace("\n", "\r\n").encode("cp1252"),
    "XLSX, sheet 'Sheet'": xlsx(),
    "ODS, sheet 'Parts'": ods,
}


@pytest.mark.parametrize("form", FILES)
def test_one_list_in_every_form_reads_the_same(form: str) -> None:
    data = FILES[form]
    listed = read_list(data() if callable(data) else data, "parts", MATCHER)
    assert str(listed.form) == form
    assert [(item.ref, item.component, item.legend, item.row) for item in listed.items] == [
        ("S1", "toggle-12", "Power, main", 2),
        ("J1", "bnc", "In", 3),
        ("J2", "bnc", "Out", 3),
        ("J3", "bnc", "Störung", 3),
    ]
    assert not listed.remarks


def test_a_line_that_says_the_delimiter_is_no_row() -> None:
    listed = read_list(b"sep=;\nRef;Part\nS1;toggle-12\n", "parts.csv", MATCHER)
    assert [(item.ref, item.row) for item in listed.items] == [("S1", 3)]


def test_titles_above_the_headers_are_passed_over() -> None:
    listed = read_list(b"Bench supply,,\nrev B,,\nRef,Part,Legend\nS1,toggle-12,Power\n", "parts.csv", MATCHER)
    assert [(item.ref, item.legend, item.row) for item in listed.items] == [("S1", "Power", 4)]


@pytest.mark.parametrize(
    ("data", "message"),
    [
        pytest.param(b"", "headers-missing-in-empty-table", id="-no row of headers"),
        pytest.param(b"\n\n", "headers-missing-in-empty-table", id="\n\n-no row of headers"),
        pytest.param(b"1,2\n3,4\n", "headers-missing", id="numbers alone"),
        pytest.param(
            b"PK\x03\x04 not a zip at all",
            "file-damaged",
            id="PK\x03\x04 not a zip at all-damaged",
        ),
        pytest.param(b"\xd0\xcf\x11\xe0" + b"\0" * 100, "workbook-unreadable", id="data4-old binary form"),
        pytest.param(b"\0\0\0\x01" * 50, "not-a-table", id="data5-no text and no table"),
        pytest.param(b"Ref,Part\n" + b"S1,x\n" * 6000, "too-many-rows", id="data6-more than 5000 rows"),
        pytest.param(b"Ref,Part\nS1," + b"x" * 3000 + b"\n", "row-too-long", id="data7-too long"),
        pytest.param(b"x" * 5_000_001, "file-too-large", id="data8-5000001 bytes"),
        pytest.param(b"\xff\xfea", "encoding-invalid", id="\xff\xfea-UTF-16 and is not"),
    ],
)
def test_what_is_no_list(data: bytes, message: str) -> None:
    with pytest.raises(SpecError) as raised:
        read_list(data, "parts", MATCHER)
    assert [name_of(problem.says) for problem in raised.value.problems] == [message]


def test_a_packed_file_that_is_no_table() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("hello.txt", "hello")
    with pytest.raises(SpecError, match="does not contain a table"):
        read_list(out.getvalue(), "parts", MATCHER)


def test_entities_in_a_table_are_refused() -> None:
    """The document of laughs: each entity ten times the one before."""
    out = io.BytesIO()
    bomb = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "ha">]><x>&a;</x>'
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("content.xml", bomb)
    with pytest.raises(SpecError, match="document type"):
        read_list(out.getvalue(), "parts.ods", MATCHER)


@settings(max_examples=examples(150), deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_give_a_list_or_a_message(data: bytes) -> None:
    for lead in (b"", b"Ref,Part\n", b"\xff\xfe", b"PK\x03\x04"):
        with contextlib.suppress(SpecError):
            read_list(lead + data, "parts", MATCHER)


@settings(max_examples=examples(150), deadline=None)
@given(
    st.lists(
        st.lists(
            st.sampled_from(
                ["", "S1", "J1-J4", "3", "bnc", "x,y", "0-10 V", "front", "-", "1/2/3", "9999", "{n}", "é\t"]
            ),
            min_size=1,
            max_size=9,
        ),
        max_size=6,
    )
)
def test_any_cells_give_refs_that_are_there_once(rows: list[list[str]]) -> None:
    head = "ref;part;legend;quantity;group;side;scale;positions;knob\n"
    listed = read_list((head + "\n".join(";".join(row) for row in rows)).encode(), "parts.csv", MATCHER)
    refs = [item.ref for item in listed.items]
    assert len(refs) == len(set(refs))
    assert all(refs)
    assert all(remark.row >= 2 for remark in listed.remarks)


# --- headers


@pytest.mark.parametrize(
    ("heads", "below", "roles"),
    [
        (["Ref", "Part"], ["S1", "toggle"], ["ref", "part"]),
        (["Reference Designator", "QTY."], ["S1, S2", "2"], ["ref", "quantity"]),
        (["refernce", "component", "Price"], ["S1", "switch", "2.10"], ["ref", "part", "price"]),
        (["Panel legend (front)", "Ref"], ["Power", "S1"], ["legend", "ref"]),
        (["Ref", "Ref"], ["S1", "S2"], ["ref", ""]),
        (["Stück", "Bauteil", "#"], ["2", "Schalter", "1"], ["quantity", "part", "line"]),
        (["Item", "What", "How many"], ["1", "switch", "2"], ["line", "description", "quantity"]),
        (["Pos", "Bezeichnung"], ["S1", "Kippschalter"], ["ref", "description"]),
        (["Parts", "Value"], ["R1, R2", "10k"], ["ref", "value"]),
        (["Designation", "Ref"], ["Toggle switch", "S1"], ["description", "ref"]),
        (["Beschriftung EN", "BMK"], ["Power", "S1"], ["legend", "ref"]),
        (["Réf.", "Désignation", "Qté"], ["S1", "Interrupteur", "1"], ["ref", "description", "quantity"]),
    ],
)
def test_columns_are_what_their_cells_hold(heads: list[str], below: list[str], roles: list[str]) -> None:
    """Heads as people write them. Source: common practice; what the cells hold goes before the head."""
    rows = [Row(number=2, cells=tuple(below))]
    if "line" in roles:
        at = roles.index("line")
        rows += [Row(number=number + 1, cells=(*below[:at], str(number), *below[at + 1 :])) for number in (2, 3, 4)]
    assert [column.role for column in columns(heads, 1, rows, {}).columns] == roles


def test_a_column_that_is_asked_for_is_taken_as_it_is() -> None:
    text = b"Ref,Part,Remark\nS1,toggle-12,POWER\n"
    for which in ("C", "3", "remark"):
        (item,) = read_list(text, "list.csv", MATCHER, {"legend": which}).items
        assert item.legend == "POWER"


def test_a_column_that_no_sheet_has_is_refused_with_those_there_are() -> None:
    for which in ("Q", "9", "Text"):
        with pytest.raises(SpecError, match=f"No column '{which}' for legend") as raised:
            read_list(b"Ref,Part,Remark\nS1,toggle-12,POWER\n", "list.csv", MATCHER, {"legend": which})
        assert "'Ref', 'Part', 'Remark'" in str(raised.value) or "Ref, Part, Remark" in str(raised.value)


# Rows as board programs and shops export them. Source: common practice.
@pytest.mark.parametrize(
    ("header", "row", "part"),
    [
        ("Ref,Part Number,Description", "J1,DS-25,9-pin D-sub", "dsub-9"),  # an order number tells nothing
        ("Ref,Part Number,Description", "J1,toggle-mini,main switch", "toggle-mini"),  # unless it is a name
        ("Ref,Description,Footprint", "J1,OUT L,Jack_3.5mm_Vertical", "jack-35-board"),
        ("Ref,Description,Footprint", "D1,green,LED_D3.0mm", "led-3-board"),
        ("Ref,Description", "RV1,16mm pot 10k log M7", "pot-m7-16"),
        ("Ref,Description", "RV1,potentiometer 10k", None),  # ohms are no thread
        ("Ref,Description", "S1,big red button", None),
    ],
)
def test_what_a_row_says_tells_its_part(header: str, row: str, part: str | None) -> None:
    (item,) = read_list(f"{header}\n{row}\n".encode(), "list.csv", MATCHER).items
    assert item.component == part
    assert not [one for one in item.candidates if one.name.startswith("pot-m10") and part == "pot-m7-16"]


def test_parts_that_stay_on_the_board_are_left_out_and_told() -> None:
    text = "Ref,Description\nC1,100n\nR1,Resistor\nD1,Diode\nU1,timer IC\nR2,Drehpotentiometer M10\nS1,no idea\n"
    read = read_list(text.encode(), "list.csv", MATCHER)
    assert [item.ref for item in read.items] == ["R2", "S1"]
    assert read.account.kinds(Fate.BOARD) == (
        ("capacitors", 1), ("resistors", 1), ("diodes", 1), ("integrated circuits", 1),
    )  # fmt: skip


# --- refs


@pytest.mark.parametrize(
    ("text", "refs"),
    [
        ("S1", ["S1"]),
        ("J1-J4", ["J1", "J2", "J3", "J4"]),
        ("J1 - 3", ["J1", "J2", "J3"]),
        ("J1–J2", ["J1", "J2"]),
        ("R01..R03", ["R01", "R02", "R03"]),
        ("S1,S3", ["S1", "S3"]),
        ("S1 S2;S5 to S6 & S8/S9", ["S1", "S2", "S5", "S6", "S8", "S9"]),
        ("MAINS-IN", ["MAINS-IN"]),
        ("", []),
    ],
)
def test_refs(text: str, refs: list[str]) -> None:
    assert expand(text) == refs


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("J1-K4", said.range_of_two_letters(refs="J1-K4", first="J", last="K"), id="J1-K4-from J to K"),
        pytest.param("J4-J1", said.range_backwards(refs="J4-J1"), id="J4-J1-backwards"),
        pytest.param(
            "J1-J9999", said.range_too_long(refs="J1-J9999", count=9999, maximum=MAX_REFS), id="J1-J9999-at most"
        ),
    ],
)
def test_refs_that_cannot_be(text: str, message: Message) -> None:
    with pytest.raises(ValueError, match="Range") as raised:
        expand(text)
    assert said_by(raised.value) == message


def test_a_ref_goes_on_past_those_that_are_taken() -> None:
    assert continued("H1", 3, {"H2"}) == ["H1", "H3", "H4"]
    assert continued("H", 2, set()) == ["H1", "H2"]


# --- words


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("toggle-12", "toggle-12"),
        ("Toggle_12", "toggle-12"),
        ("toggle switch 12 mm", "toggle-12"),
        ("miniature toggle, three positions", "toggle-mini-3pos"),
        ("IEC C14 inlet", "iec-c14"),
        ("LED 5 mm bezel", "led-5-bezel"),
        ("potentiometer M10", "pot-m10"),
        ("4mm banana socket", "socket-4"),
        ("E-Stop", "emergency-stop-22"),
        ("push button 22 mm", "pushbutton-22"),
        ("D-sub 9", "dsub-9"),
        ("M4 screw", "screw-m4"),
        ("BNC socket", "bnc"),
    ],
)
def test_words_that_are_sure(words: str, name: str) -> None:
    match = MATCHER.match(words)
    assert match.name == name
    assert match.exact == (words.lower().replace("_", "-") == name)


@pytest.mark.parametrize(
    "words", ["switch", "LED", "potentiometer", "rotary switch", "flux capacitor", "", "??", "10k"]
)
def test_words_that_are_not_sure_are_no_guess(words: str) -> None:
    match = MATCHER.match(words)
    assert match.name is None
    assert all(0.3 <= one.confidence < 1.0 for one in match.candidates)


# --- refs and quantities


DISAGREES = "{}: Quantity {} does not agree with the refs; placed: {}"


def refs_of(rows: str) -> tuple[list[str], list[str]]:
    """The refs of a list, and what is told of its quantities, each with the row."""
    listed = read_list(f"Ref,Qty,Description\n{rows}".encode(), "parts.csv", MATCHER)
    told = [f"{one.row}: {one.message}" for one in listed.remarks if one.column in ("Qty", "Ref")]
    return [item.ref for item in listed.items], told


@pytest.mark.parametrize(
    ("rows", "refs", "told"),
    [
        ('"S1,S2",3,toggle switch 12 mm\n', ["S1", "S2"], [DISAGREES.format(2, 3, "S1, S2")]),
        ("J1-J4,2,BNC socket\n", ["J1", "J2", "J3", "J4"], [DISAGREES.format(2, 2, "J1-J4")]),
        ("J1,3,BNC socket\nJ2,1,BNC socket\n", ["J1", "J3", "J4", "J2"], ["2: J1 has quantity 3; placed: J1, J3, J4"]),
        (
            '"S1,S2",10,toggle switch 12 mm\nJ1,5,BNC socket\n"R1,R2,R3",15,10k 0603\n', ["S1", "S2", "J1"],
            ["1: Every quantity is 5 times the refs of its row, as for 5 sets; each ref is placed once"],
        ),
    ],
)  # fmt: skip
def test_a_quantity_that_disagrees_with_the_refs_is_told_with_what_is_placed(
    rows: str, refs: list[str], told: list[str]
) -> None:
    assert refs_of(rows) == (refs, told)


# --- what is told


def asked(text: str) -> list[tuple[str, int, Message]]:
    listed = read_list(text.encode(), "parts.csv", MATCHER)
    return [
        (remark.column, remark.row, remark.message) for remark in listed.remarks if remark.weight is Weight.QUESTION
    ]


@pytest.mark.parametrize(
    ("line", "column", "message"),
    [
        pytest.param(
            "S1,flux thing,,,,,",
            "part",
            "part-unknown",
            id="S1,flux thing,,,,,-part-'flux thing' is no part",
        ),
        pytest.param(
            "S1-R4,toggle-12,,,,,",
            "ref",
            "range-of-two-letters",
            id="S1-R4,toggle-12,,,,,-ref-from S to R",
        ),
        pytest.param(
            "S1,toggle-12,x,,,,",
            "qty",
            "quantity-not-a-number",
            id="S1,toggle-12,x,,,,-qty-'x' is no whole number",
        ),
        pytest.param(
            "S1 S2,toggle-12,3,,,,",
            "qty",
            "quantity-contradicts-refs",
            id="S1 S2,toggle-12,3,,,,-qty-2 refs and a quantity of 3",
        ),
        pytest.param(
            "S1,toggle-12,,,,,inside",
            "side",
            "side-unknown",
            id="S1,toggle-12,,,,,top-side-neither front nor rear",
        ),
        pytest.param(
            "S1,toggle-12,,A/B/C,,,",
            "positions",
            "positions-miscounted",
            id="S1,toggle-12,,A/B/C,,,-positions-3 names for the positions",
        ),
        pytest.param(
            "J1,bnc,,on/off,,,",
            "positions",
            "positions-of-fixed-part",
            id="J1,bnc,,on/off,,,-positions-no positions",
        ),
        pytest.param(
            "S1,toggle-12,,,0-10 V,,",
            "scale",
            "scale-of-fixed-part",
            id="S1,toggle-12,,,0-10 V,,-scale-neither turned nor slid",
        ),
        pytest.param(
            "RV1,pot-m10,,,ten,,",
            "scale",
            "scale-unreadable",
            id="RV1,pot-m10,,,ten,,-scale-'ten' is no scale",
        ),
        pytest.param(
            "RV1,pot-m10,,,9-3,,",
            "scale",
            "scale-backwards",
            id="RV1,pot-m10,,,9-3,,-scale-does not run upwards",
        ),
        pytest.param("J1,bnc,,,,22,", "knob", "knob-without-shaft", id="J1,bnc,,,,22,-knob-no shaft"),
        pytest.param(
            "RV1,pot-m10,,,,huge,",
            "knob",
            "knob-unknown",
            id="RV1,pot-m10,,,,huge,-knob-'huge' is no knob",
        ),
    ],
)
def test_each_fault_is_told_with_row_and_column(line: str, column: str, message: str) -> None:
    ((header, row, says),) = asked(f"ref,part,qty,positions,scale,knob,side\n{line}\n")
    assert (header, row, name_of(says)) == (column, 2, message)
    assert str(says)


def test_a_second_line_of_one_ref_is_asked_about_and_the_same_line_left_out() -> None:
    text = "ref,part\nS1,toggle-12\nS1,toggle-12\nS1,toggle-mini\n"
    assert asked(text) == [("ref", 4, said.ref_repeated(ref="S1"))]
    assert [item.component for item in read_list(text.encode(), "a", MATCHER).items] == ["toggle-12"]


def test_quantities_make_refs_and_number_legends() -> None:
    listed = read_list(b"ref,part,qty,legend\nH,screw-m4,2,\n,bnc,2,In\nX1,bnc,0,\n", "a", MATCHER)
    assert [(item.ref, item.legend) for item in listed.items] == [
        ("H1", ""),
        ("H2", ""),
        ("J1", "In 1"),
        ("J2", "In 2"),
    ]


def test_scales_and_knobs() -> None:
    listed = read_list(
        b"ref;part;scale;knob\nRV1;pot-m10;-20 to 20 dB;22x16\nRV2;pot-m10;0,5-5 A;knob-21\n", "a", MATCHER
    )
    first, second = listed.items
    assert (first.scale.low, first.scale.high, first.scale.unit) == (-20.0, 20.0, "dB")
    assert (first.knob.diameter, first.knob.height) == (22.0, 16.0)
    assert (second.scale.low, second.scale.high, second.scale.unit) == (0.5, 5.0, "A")
    assert second.knob.name == "knob-21"


def test_a_colour_that_a_part_is_not_sold_in_is_noted() -> None:
    text = 'Ref,Part\nH1,"Pilot light 22 mm, violet"\nH2,"Pilot light 22 mm, red"\n'
    notes = [
        one for one in read_list(text.encode(), "list.csv", MATCHER).remarks if name_of(one.message) == "not-sold-in"
    ]
    assert [(one.row, one.weight) for one in notes] == [(2, Weight.NOTE)]
    assert "pilot-22 is not sold in violet; it is sold in amber, blue" in str(notes[0].message)
