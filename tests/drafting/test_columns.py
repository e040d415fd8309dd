"""Columns of groups: a face that one stack does not fit is filled all the same, and nothing overlaps."""

from __future__ import annotations

import itertools
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.drafting.arrange import Request
from panelart.drafting.columns import Columns
from panelart.drafting.draft import Heading, drafts
from panelart.drafting.shelves import Group, Shelving, between
from panelart.drafting.sizes import size_wish
from panelart.drafting.spread import spread
from panelart.geometry import ORIGIN, Box
from panelart.lists.read import read_list
from panelart.pipeline import build
from panelart.spec.read import panel_from_text
from tests.drafting.cases import MATCHER
from tests.drafting.test_shelves import SPACING, groups
from tests.effort import examples

LAYOUTS = Path(__file__).parents[1] / "benchmarks" / "layouts"


@settings(max_examples=examples(60), deadline=None)
@given(groups(), st.sampled_from([150.0, 240.0]), st.sampled_from([70.0, 120.0, 200.0]))
def test_columns_are_inside_their_face_and_apart(some: list[Group], width: float, height: float) -> None:
    found = Columns(Shelving(some, SPACING), SPACING).fitting(width, height)
    if found is None:
        return
    placed: list[tuple[Group, Box]] = []
    for column in found.columns:
        area = Box(column.left, 0.0, column.left + column.width, height)
        assert area.right <= width + 1e-6
        places = spread(column.stack, area, SPACING)
        for one in column.stack.shelves:
            placed += [
                (group, block.face.moved(places[block.ref].minus(ORIGIN)))
                for group in one.groups
                for block in group.blocks
            ]
    assert len(placed) == sum(len(group.blocks) for group in some)
    for (group, one), (other, two) in itertools.combinations(placed, 2):
        apart = max(one.left - two.right, two.left - one.right, one.bottom - two.top, two.bottom - one.top)
        # half a step of the grid on either side is lost where a middle is rounded to it
        assert apart >= (2.5 if group is other else between(group, other) - SPACING.grid)


def test_a_face_that_a_person_fills_is_not_refused() -> None:
    """The same parts fit on 260 x 100 mm by hand, with the fan as high as two groups beside it."""
    by_hand = panel_from_text((LAYOUTS / "logger-rear.yaml").read_text(encoding="utf-8"))
    listed = read_list((LAYOUTS / "logger-rear.csv").read_bytes(), "logger-rear.csv", MATCHER)
    (made,) = drafts(listed, Heading(title="Logger"), Request(wish=size_wish("260x100")), LAYOUTS, MATCHER)
    built = build(panel_from_text(made.arranged.text))
    assert built.layout.panel.size == by_hand.size
    assert {part.ref for part in built.layout.panel.parts} == {part.ref for part in by_hand.parts}
    assert not [finding for finding in built.inspection.findings if finding.severity.value == "error"]
