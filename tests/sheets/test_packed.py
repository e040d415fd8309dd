"""Tables beside each other: rows of one hole stay together, and nothing is lost or changes its order."""

from __future__ import annotations

from itertools import chain, groupby

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.lettering.outline import bounds
from panelart.pipeline import build
from panelart.sheets.packed import packed
from panelart.sheets.paper import ROW
from panelart.sheets.proof import Proof, proof
from panelart.spec.read import panel_from_text
from tests.effort import examples


def first(row: tuple[int, int]) -> int:
    return row[0]


GROUPS = st.lists(st.integers(1, 4), max_size=40).map(
    lambda sizes: [(number, row) for number, size in enumerate(sizes) for row in range(size)]
)


@settings(max_examples=examples(60))
@given(GROUPS, st.integers(4, 30), st.integers(1, 4))
def test_rows_of_one_hole_are_in_one_table_and_all_come_in_order(rows, deepest, across) -> None:
    given_, pages = list(rows), []
    while rows:
        tables, rows = packed(rows, first, deepest, across)
        assert 1 <= len(tables) <= across
        assert all(1 <= len(table) <= deepest for table in tables)
        pages.append(tables)
    assert list(chain.from_iterable(chain.from_iterable(pages))) == given_
    for page in pages:
        for table in page:
            assert all(len(list(group)) == sum(one[0] == key for one in given_) for key, group in groupby(table, first))


def test_a_group_longer_than_a_table_is_parted_and_only_that() -> None:
    rows = [(0, 0), *((1, row) for row in range(7)), (2, 0)]
    tables, left = packed(rows, first, 5, 3)
    assert [len(table) for table in tables] == [1, 5, 3]
    assert left == []


@pytest.mark.parametrize(("count", "across", "sizes"), [(9, 3, [3, 3, 3]), (7, 2, [4, 3]), (2, 3, [1, 1])])
def test_tables_without_groups_are_even(count: int, across: int, sizes: list[int]) -> None:
    rows = [(number, 0) for number in range(count)]
    assert [len(table) for table in packed(rows, first, 10, across)[0]] == sizes


def test_the_tolerances_of_a_hole_stand_under_it_on_the_proof() -> None:
    """A meter's opening has two unlike tolerances (DIN 43700: +0.8/0 and +0.6/0), in two rows of the table."""
    parts = "\n".join(f"  - {{ref: M{n}, part: meter-96x48, at: [{70 + 110 * n}, 60]}}" for n in range(9))
    text = (
        "panelart: 1\n"
        "panel: {title: Meters, size: [1100, 120], sheet: {material: aluminium, thickness: 2}}\n"
        'marking: {process: screen-print, ink: {name: black, colour: "#000000"}}\n'
        f"parts:\n{parts}\n"
    )
    built = build(panel_from_text(text, "meters.yaml"))
    pages = proof(Proof(layout=built.layout, inspection=built.inspection, date="", made_by="test"))
    for ref in (f"M{n}" for n in range(9)):
        cells = [
            (number, round(box.left, 2), box.bottom)
            for number, page in enumerate(pages)
            for layer in page.layers
            for item in layer.items
            if item.words is not None and item.label == ref
            for box in (bounds(item.outline),)
        ]
        together = [
            (one, two)
            for one in cells
            for two in cells
            if one[:2] == two[:2] and one[2] - two[2] == pytest.approx(ROW, abs=0.01)
        ]
        assert together, ref
