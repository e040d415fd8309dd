"""Scales on skirts and discs: angles and radii measured on the written files, by readers that are not ours."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest
import shapely
from lxml import etree
from svgpathtools import parse_path

from panelart.drawing.layers import ground_of
from panelart.drawing.representation import Step
from panelart.marking.areas import area_of
from panelart.pipeline import lay_out
from panelart.press.dials import dial_artwork, dial_paths
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, svg
from panelart.writers.dxf import dxf
from tests.writers.readers import pdf_drawn

SPEC = """
panelart: 1
panel: {title: Dials, size: [200, 120], sheet: {material: aluminium, thickness: 2}}
marking: {process: digital-print, lettering: {cap_height: 3}, ink: {name: black, colour: "#000000"}}
parts:
  - ref: RV1
    part: %s
    at: [70, 55]
    %s
    knob: {diameter: %s, height: 16}
    scale: {from: 0, to: 10, major: 1, subdivide: false, sweep: 300, %s}
"""

SKIRT = "skirt: {grip: 20%s}"
DISC = "disc: {diameter: 80, window: [40, 10], depth: 4%s}"


def laid_out(scale: str, *, part="pot-m10", knob=40, turn="turn: 0"):
    return lay_out(panel_from_text(SPEC % (part, turn, knob, scale), "test"))


def on_skirt(more=""):
    return laid_out(SKIRT % more)


def on_disc(more=""):
    return laid_out(DISC % more, part="pot-9-shaft-board", knob=20)


def angle(one: float, other: float) -> float:
    """The difference of two directions, in degrees."""
    return abs((one - other + 180) % 360 - 180)


def lines_of_dxf(layout) -> list[tuple[float, float, float]]:
    """Direction, nearest and farthest radius of every straight line from or to the shaft in the file of the dial."""
    (drawing,) = dial_paths(layout).values()
    document = ezdxf.read(io.StringIO(dxf(drawing, in_order=True).decode()))
    found = []
    for entity in document.modelspace():
        if not entity.dxf.layer.startswith("line-") or entity.dxftype() not in ("LINE", "LWPOLYLINE"):
            continue
        ends = [entity.dxf.start, entity.dxf.end] if entity.dxftype() == "LINE" else list(entity.vertices())
        (ax, ay), (bx, by) = (tuple(end)[:2] for end in (ends[0], ends[-1]))
        near, far = sorted((math.hypot(ax, ay), math.hypot(bx, by)))
        if (
            len(ends) == 2
            and far > 15
            and angle(math.degrees(math.atan2(ay, ax)), math.degrees(math.atan2(by, bx))) < 1e-3
        ):
            found.append((math.degrees(math.atan2(by, bx)), near, far))
    return found


def is_direction(measured: float, expected: float) -> bool:
    return angle(measured, expected) < 0.01


@pytest.mark.parametrize(("layout", "outer"), [(on_skirt(), 19.5), (on_disc(), math.sqrt(38**2 - 20**2) - 0.5)])
def test_values_run_anticlockwise_on_the_dial_that_is_turned_clockwise(layout, outer: float) -> None:
    """Plane geometry: what is at the mark after a turn by a clockwise was a anticlockwise from it before. Ten steps of
    300 degrees, the mark straight up. Marks end 0.5 mm within the rim, or the end of the window."""
    marks = [(deg, near, far) for deg, near, far in lines_of_dxf(layout) if abs(far - outer) < 0.01]
    assert len(marks) == 11
    for step in range(11):
        assert any(is_direction(deg, 90 + 30 * step) for deg, _, _ in marks)


@pytest.mark.parametrize("index", [0, 90, -90, 180, 35])
@pytest.mark.parametrize("turn", [0, 20])
def test_every_numeral_is_level_at_the_mark(index: int, turn: int) -> None:
    """Written as SVG and read again: the ink of the numeral turned back to the mark by the turn of its value is the
    ink of the same words set level, wherever the mark is."""
    layout = laid_out(SKIRT % f", index: {index}", turn=f"turn: {turn}")
    (dial,) = layout.dials
    mark = 90 - index + turn
    for value, legend in enumerate(dial.legends):
        assert legend.text == str(value)
        assert angle(legend.turn, 30 * value) < 1e-6
        points = [
            (p.x - 70, p.y - 55) for loop in legend.shape for curve in loop.curves for p in (curve.start, curve.end)
        ]
        middle = shapely.MultiPoint(points).envelope.centroid
        if abs(math.sin(math.radians(30 * value))) < 1e-9:  # the box of what lies level or on its head is its own
            assert angle(math.degrees(math.atan2(middle.y, middle.x)), mark + 30 * value) < 1.5


def test_the_index_is_on_the_panel_and_points_to_the_shaft() -> None:
    layout = laid_out(SKIRT % ", index: 90", turn="turn: 0")
    (index,) = [mark for mark in layout.marks if mark.kind == "index-mark"]
    assert {mark.kind for mark in layout.marks} == {"index-mark"}
    corners = [curve.start for loop in index.shape for curve in loop.curves]
    tip = min(corners, key=lambda corner: math.dist(corner, (70, 55)))
    # Right of the shaft: the knob of 40 mm, register 0.3 and bare face 0.5 for digital print.
    assert tuple(tip) == pytest.approx((70 + 20 + 0.3 + 0.5, 55))


def test_the_panel_has_the_window_and_the_disc_closes_it() -> None:
    layout = on_disc()
    (window,) = [opening for opening in layout.openings if opening.role.value == "aperture"]
    box = window.finished.bounds
    assert (box.width, box.height) == pytest.approx((40, 10))
    # The corners are 2 mm within the rim of the disc of 80 mm.
    assert math.hypot(box.right - 70, box.top - 55) == pytest.approx(38)
    (disc,) = [envelope for envelope in layout.envelopes if envelope.what == "disc"]
    assert (disc.side.value, disc.height, disc.contour.circle[1]) == ("rear", 4, 40)


def test_a_window_at_the_side_is_turned_with_the_mark() -> None:
    (window,) = [each for each in on_disc(", index: -90").openings if each.role.value == "aperture"]
    box = window.finished.bounds
    assert (box.width, box.height) == pytest.approx((10, 40))
    assert box.right < 70
    assert box.centre.y == pytest.approx(55)


def test_the_artwork_of_a_disc_in_pdf_and_svg() -> None:
    """The same marks in all three files: direction and length, the rim as a circle of 80 mm about the shaft."""
    layout = on_disc()
    (drawing,) = dial_artwork(layout).values()
    expected = [90 + 30 * step for step in range(11)]
    shown = []
    for drawn in pdf_drawn(pdf([drawing])):
        if drawn.layer.startswith("legend") and drawn.operator == "S":
            for loop in drawn.loops:
                x, y = loop[-1][0] + drawing.page.left, loop[-1][1] + drawing.page.bottom
                shown.append(math.degrees(math.atan2(y, x)) % 360)
    assert len(shown) == 11
    assert all(any(angle(one, other) < 0.02 for other in shown) for one in expected)
    page = etree.fromstring(svg(drawing))
    (rim,) = page.xpath("//*[@id='outline']/descendant-or-self::*[local-name()='path' or local-name()='circle']")
    if rim.get("d") is None:
        assert float(rim.get("r")) == pytest.approx(40)
    else:
        left, right, _, _ = parse_path(rim.get("d")).bbox()
        assert right - left == pytest.approx(80, abs=0.01)


def test_a_knob_that_is_turned_anticlockwise_has_its_values_clockwise() -> None:
    (back,) = laid_out("direction: counter-clockwise, skirt: {grip: 20}").dials
    assert [round(legend.turn) for legend in back.legends[:3]] == [0, -30, -60]


@pytest.mark.parametrize(
    ("scale", "found"),
    [
        ("skirt: {grip: 40}", "Grip diameter 40 mm is not less than the knob diameter 40 mm"),
        ("skirt: {grip: 20}, disc: {diameter: 80, window: [40, 10], depth: 4}", "both 'skirt' and 'disc'"),
        ("skirt: {grip: 20, height: 16}", "Height of the skirt 16 mm is not less than that of the knob 16 mm"),
        ("skirt: {grip: 20}, start: 40", "turns with the knob, but 'start' is given"),
        ("disc: {diameter: 40, window: [50, 10], depth: 4}", "is too small for a window of 50 × 10 mm"),
    ],
)
def test_what_does_not_fit_is_refused(scale: str, found: str) -> None:
    from panelart.diagnostics import SpecError

    with pytest.raises(SpecError) as error:
        laid_out(scale)
    assert found in str(error.value)


# --- verniers


def vernier(clockwise: str = "clockwise"):
    more = f"direction: {clockwise}, skirt: {{grip: 20, vernier: true}}"
    text = (SPEC % ("pot-m10", "turn: 0", 60, more)).replace("subdivide: false", "minor: 0.2")
    return lay_out(panel_from_text(text, "test"))


@pytest.mark.parametrize(("direction", "way"), [("clockwise", 1), ("counter-clockwise", -1)])
def test_the_tenth_that_is_read_is_the_line_that_meets_one_of_the_dial(direction: str, way: int) -> None:
    """The principle of the vernier: ten divisions as long as nine. With the knob turned by n steps and k tenths of one,
    of the eleven lines on the panel the k-th meets a line of the dial, and no other from 0 to 9."""
    layout = vernier(direction)
    (dial,) = layout.dials
    lines = [m for m in layout.marks if m.kind in ("major-mark", "minor-mark")]
    panel = [
        (math.degrees(math.atan2(c.end.y - 55, c.end.x - 70)) - 90) * way for m in lines for c in m.shape[0].curves
    ]
    on_dial = [
        (math.degrees(math.atan2(c.end.y - 55, c.end.x - 70)) - 90) * way for m in dial.marks for c in m.shape[0].curves
    ]
    step = 0.2 / 10 * 300
    for tenth in range(10):
        turned = (3 + tenth / 10) * step
        met = [
            number
            for number, line in enumerate(sorted(each % 360 for each in panel)[:10])
            if any(angle(line, mark - turned) < 0.01 for mark in on_dial)
        ]
        assert met == [tenth]


def test_a_vernier_needs_equal_steps() -> None:
    from panelart.diagnostics import SpecError

    with pytest.raises(SpecError, match="divides equal short steps"):
        laid_out("skirt: {grip: 20, vernier: true}")
    text = SPEC % ("pot-m10", "turn: 0", 60, "skirt: {grip: 20, vernier: true}")
    with pytest.raises(SpecError, match="The vernier takes 270"):
        panel_from_text(text.replace("subdivide: false", "minor: 1"), "test")


def test_a_low_skirt_hides_little_and_only_the_grip_is_high() -> None:
    fronts = [e for e in on_skirt(", height: 3").envelopes if e.what in ("knob", "skirt")]
    assert [(e.what, e.height, e.contour.circle[1]) for e in fronts] == [("skirt", 3, 20), ("knob", 16, 10)]


# --- papers


def test_the_disc_is_bought_and_set_to_its_mark() -> None:
    from panelart.sheets.purchasing import bought

    layout = on_disc()
    (disc,) = [each for each in bought(layout.panel) if each.kind == "disc"]
    assert (disc.refs, disc.title) == (("RV1",), "Disc with scale, diameter 80 mm, made from its own file")
    assert [each for each in bought(on_skirt().panel) if each.kind == "disc"] == []


def test_a_dial_shows_the_colour_that_it_is_printed_on() -> None:
    """White ink on white paper is not seen: the ring outside the grip is in the colour of the face, below all inks."""
    layout = on_skirt()
    (drawing,) = dial_artwork(layout).values()
    (ground,) = drawing.layers[0].items
    assert (drawing.layers[0].name, drawing.layers[0].step) == ("ground", Step.LEGEND)
    assert ground.fill == ground_of(layout.panel)
    (dial,) = layout.dials
    ring = math.pi / 4 * (dial.scale.diameter**2 - dial.scale.inner**2)
    assert area_of(ground.shape).area == pytest.approx(ring, rel=0.01)
