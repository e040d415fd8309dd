"""Dashes as legends, decided by what else their column has."""

from __future__ import annotations

import pytest

from panelart.lists.matching import Matcher
from panelart.lists.read import read_list

MATCHER = Matcher()


@pytest.mark.parametrize(
    ("rows", "legends"),
    [
        pytest.param("S1,toggle-12,-\nS2,toggle-12,Power\nS3,toggle-12,-", ["", "Power", ""], id="fills"),
        pytest.param("S1,toggle-12,–\nS2,toggle-12,Power", ["", "Power"], id="en dash fills"),
        pytest.param("J1,socket-4,-", [""], id="alone"),
        pytest.param("S1,toggle-12,\nJ1,socket-4,+\nJ2,socket-4,-", ["", "+", "-"], id="beside a plus"),
        pytest.param("S1,toggle-12,\nJ1,bnc,-\nJ2,socket-4,+\nJ3,socket-4,-", ["", "", "+", "-"], id="unlike part"),
        pytest.param(
            "S1,toggle-12,-\nJ1,4 mm socket red,+\nJ2,4 mm socket black,-\nS3,toggle-12,-",
            ["", "+", "-", ""], id="fills, and a pair of terminals"),
        pytest.param("J1,socket-4,+\nJ2,socket-4,0\nJ3,socket-4,-\nS1,toggle-12,", ["+", "0", "-", ""], id="figures"),
        pytest.param("J1,socket-4,+5 V\nJ2,socket-4,-\nS1,toggle-12,", ["+5 V", "-", ""], id="figure with a unit"),
        pytest.param("S1,toggle-12,POWER\nS2,toggle-12,-\nS3,toggle-12,", ["POWER", "", ""], id="hyphen among words"),
        pytest.param("S1,toggle-12,POWER\nS2,toggle-12,–\nS3,toggle-12,", ["POWER", "–", ""], id="dash among words"),
        pytest.param("RV1,pot-m7,±\nS1,toggle-12,", ["±", ""], id="plus-minus"),
    ],
)  # fmt: skip
def test_a_dash_is_a_legend_by_its_column(rows: str, legends: list[str]) -> None:
    listed = read_list(f"Ref,Part,Legend\n{rows}\n".encode(), "list.csv", MATCHER)
    assert [item.legend for item in listed.items] == legends


def test_how_dashes_are_taken_is_told_with_their_rows() -> None:
    rows = "S1,toggle-12,-\nJ1,socket-4,+\nJ2,socket-4,-\nS3,toggle-12,-\n"
    listed = read_list(f"Ref,Part,Legend\n{rows}".encode(), "list.csv", MATCHER)
    told = [str(remark) for remark in listed.remarks if "Dashes" in str(remark.message)]
    assert told == [
        "list.csv, row 4, column 'Legend': note: Dashes taken as legends in rows 4",
        "list.csv, row 2, column 'Legend': note: Dashes taken as no legend in rows 2, 5",
    ]
