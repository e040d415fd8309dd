"""Values in lists: lengths tell the size of a part, ohms, volts and watts never do; cells that hold amounts."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lists.amounts import counted, counted_first, ends, sides
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list
from panelart.lists.spoken import read
from tests.effort import examples

MATCHER = Matcher()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("LED 5 mm", "led-5"),
        ("jack 6.3 mm", "jack-635"),  # 6.35 mm as people round it
        ("jack 1/4 in", "jack-635"),
        ("potentiometer 10kΩ M7", "pot-m7"),
        ("fuse holder 5x20 6.3A", "fuse-5x20"),
        ("pilot lamp 22 mm 24V", "pilot-22"),
        ("push button 16 V 22 mm", "pushbutton-22"),
        ("60mm 12V DC fan", "fan-60"),
        ("LED 12V 8mm", "lamp-8"),
        ("toggle switch M12", "toggle-12"),
    ],
)
def test_a_length_tells_the_size_and_no_other_value_does(words: str, part: str) -> None:
    assert MATCHER.match(words).name == part


@pytest.mark.parametrize(
    "words",
    ["potentiometer 10k", "lamp 12V", "lamp 22V", "fuse 2A T", "switch M12", "R 4k7", "resistor 10 ohm 5 W",
     "relay 10A", "12V socket", "pot 22 ohm", "48 V 10 A switching power supply 480 W"],
)  # fmt: skip
def test_what_no_length_tells_is_left_to_the_designer(words: str) -> None:
    assert MATCHER.match(words).name is None


@pytest.mark.parametrize("words", ["potentiometer 10k", "potentiometer 16k", "potentiometer 7 W", "potentiometer 12 V"])
def test_a_value_changes_nothing_between_sizes(words: str) -> None:
    sizes = {one.confidence for one in MATCHER.match(words).candidates if one.name in ("pot-m7", "pot-m8", "pot-m9")}
    assert len(sizes) == 1


@settings(max_examples=examples(40), deadline=None)
@given(st.integers(1, 99), st.sampled_from(["V", "mA", "A", "kΩ", "W", "Hz", "µF", "k", "k7"]))
def test_no_value_makes_a_lamp_a_size(value: int, unit: str) -> None:
    assert MATCHER.match(f"lamp {value}{unit}").name is None


@pytest.mark.parametrize(
    ("cell", "wanted"),
    [
        ("0-10 V", (0.0, 10.0, "V")),
        ("−12…+12 dB", (-12.0, 12.0, "dB")),
        ("0 V to 10", (0.0, 10.0, "V")),
        ("0 % - 100 %", (0.0, 100.0, "%")),
        ("0,5-5 A", (0.5, 5.0, "A")),
        ("0/10 V", (0.0, 10.0, "V")),
        ("1-10k", (1.0, 10.0, "k")),
        ("0-10 uF", (0.0, 10.0, "uF")),  # as it is written
        ("9-3", (9.0, 3.0, "")),
        ("1-0", (1.0, 0.0, "")),
        ("100 mA - 1 A", None),  # two units are no scale
        ("10 20", None),
        ("1-2-3", None),
        ("ten", None),
        ("5", None),
        ("", None),
    ],
)
def test_the_ends_of_a_scale(cell: str, wanted: object) -> None:
    assert ends(cell) == wanted


@pytest.mark.parametrize(
    ("cell", "wanted"),
    [
        ("22", (22.0, None)),
        ("Ø22", (22.0, None)),
        ("22x16", (22.0, 16.0)),
        ("20 mm x 15 mm", (20.0, 15.0)),
        ("20 / 15", (20.0, 15.0)),
        ("3/4 in", (19.05, None)),
        ("12 V", (0.0, None)),
        ("20 red", (0.0, None)),
        ("1x2x3", (0.0, None)),
    ],
)
def test_the_sides_of_a_knob(cell: str, wanted: object) -> None:
    assert sides(cell) == wanted


@pytest.mark.parametrize(
    ("cell", "wanted"), [("4", 4), ("4 pcs.", 4), ("x4", 4), ("4,00", 4), ("2 Stk", 2), ("4,5", None), ("many", None)]
)
def test_how_many(cell: str, wanted: int | None) -> None:
    assert counted(cell) == wanted


@settings(max_examples=examples(200), deadline=None)
@given(st.text(alphabet="0123456789 -+.,/xV%kmto…", max_size=12))
def test_no_cell_fails(cell: str) -> None:
    for read_cell in (ends, sides, counted):
        read_cell(cell)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("three", 3), ("a pair of", 2), ("two pairs", 4), ("three more", 3), ("ein Paar", 2), ("noch zwei", 2),
        ("deux", 2), ("une douzaine", 12), ("dos", 2), ("una coppia", 2), ("een paar", 2), ("trzy", 3), ("um par", 2),
        ("två", 2), ("pět", 5), ("on", None), ("front", None), ("two position", None), ("", None),
    ],
)  # fmt: skip
def test_a_quantity_may_be_written_out(text: str, count: int | None) -> None:
    """The numerals of the languages that lists are read in: from memory."""
    assert counted(text) == count


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("three more of the same round rockers", 3),
        ("a pair of XLR sockets", 2),
        ("zwei Taster 22 mm", 2),
        ("deux embases XLR", 2),
        ("2x toggle switch", 2),
        ("3 pcs toggle switch", 3),
        ("ten segment bar graph", None),  # what has ten segments is one
        ("two position toggle switch", None),
        ("two pole toggle switches", None),
        ("4 mm socket", None),
        ("12 way rotary switch", None),
    ],
)
def test_a_count_before_the_part_is_told_from_a_number_of_its_own(text: str, count: int | None) -> None:
    assert counted_first(text, read(text).named) == count


def test_a_list_without_quantities_counts_by_its_words() -> None:
    listed = read_list(
        b"what,where\ntwo toggle switches 12 mm,left\nten segment bar graph,right\n", "list.csv", MATCHER
    )
    assert [(row.row, row.parts) for row in listed.account.rows if row.parts] == [(2, 2), (3, 1)]
