"""What words say against a part: it is asked about. Beside each the same words without it, which are taken.

Which of the two is right is common practice of the trade; the catalogue's own titles and openings say the rest.
"""

from __future__ import annotations

import pytest

from panelart.lists.footprints import Mount, mount
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list

MATCHER = Matcher()


@pytest.mark.parametrize(
    ("taken", "part", "asked"),
    [
        ("panel meter 48x48", "meter-48x48", "panel meter 45 mm round"),  # bezels of IEC 61554 are square
        ("panel meter 48x48", "meter-48x48", "panel meter selector switch 48x48"),
        ("toggle switch miniature on-off-on", "toggle-mini-3pos", "toggle switch sub miniature on-off-on"),
        ("push button 22 mm", "pushbutton-22", "Drehschalter-Taster 22 mm"),
        ("aardbout M4", "earth-stud-m4", "aardbus 4 mm"),
        ("mains outlet sheet F", "iec-f-outlet", "mains outlet 29 mm hole"),
        ("9 mm potentiometer, bare shaft, pcb", "pot-9-shaft-board", "9 mm pot, D shaft, bushing M10, pcb"),
    ],
)
def test_what_a_part_is_not_is_asked(taken: str, part: str, asked: str) -> None:
    assert MATCHER.match(taken, mount([taken], "")).name == part
    assert MATCHER.match(asked, mount([asked], "")).name is None


def test_a_part_on_a_board_is_not_taken_for_one_on_the_panel() -> None:
    assert MATCHER.match("usb b receptacle", Mount.EDGE).name == "usb-b"
    assert MATCHER.match("usb b receptacle", Mount.PANEL).name is None


def _rows(text: str) -> dict[int, str]:
    """What became of each row of a list."""
    return {row.row: row.fate.value for row in read_list(text.encode(), "list.csv", MATCHER).account.rows}


@pytest.mark.parametrize(
    ("aside", "part"),
    [
        ("contactor, DIN rail", "toggle switch 12 mm on-off"),
        ("timer, Hutschiene", "timer 48x48 panel"),
        ("BNC jack, mates with J1", "BNC jack, insulated"),
        ("roller inductor", "roller switch 19x13 rocker, sheet 1 mm"),
        ("thermostat", "thermostat 72 x 36, panel"),
        ("20 screws M3", "DIN 41524 socket, 2 screws"),
    ],
)
def test_what_is_behind_the_panel_is_put_aside(aside: str, part: str) -> None:
    rows = _rows(f'description;quantity\n"{aside}";1\n"{part}";1\n')
    assert rows[2] in ("aside", "board")
    assert rows[3] in ("taken", "asked")


def test_a_section_names_the_parts_below_it() -> None:
    listed = read_list(
        b"part,type,quantity\nPOTENTIOMETERS,,\nTIME,16 mm right angle PCB,1\nMIX,16 mm right angle PCB,1\n",
        "list.csv", MATCHER,
    )  # fmt: skip
    assert [item.component for item in listed.items] == ["pot-16-board", "pot-16-board"]


def test_a_column_that_names_parts_is_read_under_a_head_that_nobody_knows() -> None:
    listed = read_list(
        b"gizmos;zahl\nWippschalter 19x13 Blech 1 mm;2\nLED 3 mm Clip;1\nBNC isoliert;1\n", "list.csv", MATCHER
    )
    assert [item.component for item in listed.items] == ["rocker-19x13"] * 2 + ["led-3-clip", "bnc-isolated"]


def test_the_code_page_is_that_in_which_words_are_known() -> None:
    text = "nazwa;ilość\nprzełącznik dźwigniowy 12 mm dwupozycyjny;1\ngniazdo BNC izolowane;1\n"
    listed = read_list(text.encode("cp1250"), "list.csv", MATCHER)
    assert listed.items[0].words.startswith("przełącznik")
    western = "Bezeichnung;Menge\nDrucktaster 22 mm grün;1\nSchlüsselschalter 22 mm;1\n"
    assert read_list(western.encode("cp1252"), "list.csv", MATCHER).items[0].words.endswith("grün")


def test_refs_may_have_the_sign_of_iec_81346() -> None:
    text = (
        "ref;description;quantity\n-S1;push button 22 mm;1\n-P1...-P3;pilot light 22 mm;3\n-S2, -S3;selector 22 mm;2\n"
    )
    listed = read_list(text.encode(), "list.csv", MATCHER)
    assert [item.ref for item in listed.items] == ["S1", "P1", "P2", "P3", "S2", "S3"]
