"""The line from a lamp to its name, and the triangle at pin 1: where they stand, by hand and by shapely."""

from __future__ import annotations

import pytest
import shapely

from panelart.geometry import Vector
from panelart.geometry.polygons import polygon
from panelart.legends.obstacles import ground
from panelart.model.panel import Place, Side
from panelart.pipeline import lay_out
from tests.panels import PRINT, SOCKET, component, envelope, opening, panel, part, rectangle, request


def mark_of(layout, ref: str, kind: str):
    (mark,) = [mark for mark in layout.marks if (mark.ref, mark.kind) == (ref, kind)]
    return mark


def named(ref: str, at: tuple[float, float], place: Place, guide: float = 6.0):
    made = part(ref, SOCKET, at)
    return type(made)(
        ref=ref, component=made.component, at=made.at, where=made.where,
        legend=request("FAULT", place=place, guide=guide),
    )  # fmt: skip


@pytest.mark.parametrize("place", [Place.ABOVE, Place.BELOW, Place.LEFT, Place.RIGHT])
def test_a_guide_leads_from_the_part_to_its_words(place: Place) -> None:
    layout = lay_out(panel(named("H1", (100, 50), place)))
    (words,) = layout.legends
    assert words.place is place
    line = ground(mark_of(layout, "H1", "guide"))
    covered = shapely.union_all([polygon(each.contour) for each in layout.envelopes if each.side is Side.FRONT])
    box = shapely.box(words.box.left, words.box.bottom, words.box.right, words.box.top)
    # Register 0.3 and bare face 0.5 to the part, within the polygons' chords; half a cap height to the words.
    assert line.distance(covered) == pytest.approx(0.3 + 0.5 - mark_of(layout, "H1", "guide").width / 2, abs=0.02)
    assert 0.5 * 3.0 - 0.2 <= line.distance(box) <= 0.5 * 3.0 + 0.01
    assert covered.distance(box) > 6.0


def test_no_guide_is_thinner_than_the_process_prints() -> None:
    width = mark_of(lay_out(panel(named("H1", (100, 50), Place.RIGHT), cap_height=2.0)), "H1", "guide").width
    assert width == PRINT.line_minimum.value == 0.25
    assert mark_of(lay_out(panel(named("H1", (100, 50), Place.RIGHT), cap_height=5.0)), "H1", "guide").width == 0.4


def test_guides_of_a_column_end_at_one_edge() -> None:
    small = component(opening(SOCKET.openings[0].contour), name="small")
    lower = part("H2", small, (100, 30))
    lower = type(lower)(
        ref="H2", component=small, at=lower.at, where=lower.where,
        legend=request("CHARGE", place=Place.RIGHT, guide=6.0),
    )  # fmt: skip
    layout = lay_out(panel(named("H1", (100, 60), Place.RIGHT), lower))
    ends = [mark_of(layout, ref, "guide").shape[0].curves[0].end.x for ref in ("H1", "H2")]
    starts = [mark_of(layout, ref, "guide").shape[0].curves[0].start.x for ref in ("H1", "H2")]
    lefts = [legend.box.left for legend in layout.legends]
    assert starts[0] > starts[1] + 1
    assert lefts[0] == pytest.approx(lefts[1], abs=0.02)
    assert ends[0] == pytest.approx(ends[1], abs=0.3)


CONNECTOR = component(opening(rectangle(20, 8)), name="connector", front=(envelope("flange", rectangle(30, 12), 3.0),))


@pytest.mark.parametrize(
    ("turn", "tip"),
    [
        (0, (-5.0, 1)),  # over the pin, above the flange
        (90, (-1, -5.0)),  # the same side of the part, which now looks left
        (180, (5.0, -1)),
        (-90, (1, 5.0)),
    ],
)
def test_the_triangle_at_pin_1_turns_with_its_part(turn: float, tip: tuple[float, float]) -> None:
    """By hand: a flange of 30 x 12, the pin 5 left of the middle and 2 up, so that the upper long side is nearest."""
    made = part("J1", CONNECTOR, (100, 50))
    made = type(made)(ref="J1", component=CONNECTOR, at=made.at, where=made.where, turn=turn, pin_1=Vector(-5.0, 2.0))
    shape = ground(mark_of(lay_out(panel(made)), "J1", "pin-1"))
    clear = 6.0 + 0.3 + 0.5
    upright = turn % 180 == 0
    expected = (100 + tip[0], 50 + tip[1] * clear) if upright else (100 + tip[0] * clear, 50 + tip[1])
    corners = list(shape.exterior.coords)[:-1]
    nearest = min(corners, key=lambda corner: abs(corner[1] - 50) if upright else abs(corner[0] - 100))
    assert nearest == pytest.approx(expected, abs=0.01)
