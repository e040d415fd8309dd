"""Rows, columns, grids, rings, mirrors and distributions: gaps measured by shapely on what parts cover, places by hand.

What a part covers is taken from the envelopes and openings that the panel has in the end, walked point by point, and
not from what the layout reckons with.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.cutouts import cut, stand
from panelart.geometry import CHORD_TOLERANCE, Contour, vertices
from panelart.model.panel import Panel, Part, Place, Side
from panelart.spec.read import panel_from_text
from tests.effort import examples

HEAD = """\
panelart: 1
panel:
  title: T
  size: [2000, 1600]
  sheet: {{material: steel, thickness: 1.5}}
  datum: {datum}
marking:
  process: digital-print
  ink: {{name: white, colour: "#ffffff"}}
parts:
"""

LOPSIDED = (
    "{title: Lopsided, openings: [{role: body, circle: {diameter: 6}}],"
    " front: [{what: cover, rectangle: {width: 20, height: 8}, at: [5, -2], projection: 3}],"
    " rear: [{what: body, rectangle: {width: 12, height: 30}, at: [-4, 3], depth: 20}]}"
)
"""A part that covers more on its right and below than on its left and above, and otherwise behind."""

MEMBERS = {
    "lamp": "part: led-5",
    "toggle": "part: toggle-12",
    "pot": "part: pot-m10, knob: {diameter: 24, height: 16}",
    "socket": "part: dsub-9-front",
    "inlet": "part: iec-c14",
    "lopsided": f"part: {LOPSIDED}",
}

member_words = st.tuples(
    st.sampled_from(sorted(MEMBERS)), st.one_of(st.sampled_from([0, 90, 180, -90]), st.floats(-180, 180).map(round))
)
datums = st.sampled_from(["lower-left", "upper-right", "centre", "[100, 40]"])
gaps = st.floats(0, 30).map(lambda gap: round(gap, 3))


def written(members, indent: str = "      ") -> str:
    return "".join(
        f"{indent}- {{ref: P{number}, {MEMBERS[name]}, turn: {turn}}}\n" for number, (name, turn) in enumerate(members)
    )


def panel_of(body: str, datum: str = "[1000, 800]") -> Panel:
    return panel_from_text(HEAD.format(datum=datum) + body)


def area(contour: Contour) -> shapely.Geometry:
    points = vertices(contour, CHORD_TOLERANCE / 50, side="middle")
    return shapely.Polygon([(float(x), float(y)) for x, y in points])


def cover(panel: Panel, ref: str, side: Side = Side.FRONT) -> shapely.Geometry:
    """What one part covers in front, or takes behind."""
    shapes = [area(each.contour) for each in stand(panel) if each.ref == ref and each.side is side]
    if side is Side.FRONT:
        shapes += [area(each.finished) for each in cut(panel) if each.ref == ref]
    return shapely.union_all(shapes)


def spread(datum: str) -> tuple[float, float]:
    """The datum from the lower-left corner."""
    return {"lower-left": (0, 0), "upper-right": (2000, 1600), "centre": (1000, 800), "[100, 40]": (100, 40)}[datum]


NEAR = 2e-4  # the chords of shapely's circles


# --- rows and columns


@settings(max_examples=examples(40), deadline=None)
@given(st.lists(member_words, min_size=2, max_size=6), gaps, datums, st.sampled_from(["first", "middle", "last"]),
       st.sampled_from(["centres", "top", "bottom"]), st.sampled_from(["front", "rear"]))  # fmt: skip
def test_a_row_by_gaps_has_these_gaps(members, gap, datum, anchor, align, side) -> None:
    dx, dy = spread(datum)
    panel = panel_of(
        f"  - row: {{at: [{900 - dx}, {700 - dy}], gap: {gap}, anchor: {anchor}, align: {align}, envelopes: {side}}}\n"
        f"    parts:\n{written(members)}",
        datum,
    )
    shapes = [cover(panel, part.ref, Side(side)) for part in panel.parts]
    assert [part.turn for part in panel.parts] == [turn for _, turn in members]
    for one, other in pairwise(shapes):
        if not one.is_empty and not other.is_empty:
            assert other.bounds[0] - one.bounds[2] == pytest.approx(gap, abs=NEAR)
    if align == "centres":
        assert [part.at.y for part in panel.parts] == pytest.approx([700.0] * len(members))
    elif all(not shape.is_empty for shape in shapes):
        edge = 3 if align == "top" else 1
        assert [shape.bounds[edge] for shape in shapes] == pytest.approx(
            [shapes[0].bounds[edge]] * len(shapes), abs=NEAR
        )
    first, last = panel.parts[0], panel.parts[-1]
    if anchor == "first":
        assert tuple(first.at) == pytest.approx((900.0, 700.0))
    elif anchor == "last":
        assert last.at.x == pytest.approx(900.0)
    elif all(not shape.is_empty for shape in shapes):
        assert (shapes[0].bounds[0] + shapes[-1].bounds[2]) / 2 == pytest.approx(900.0, abs=NEAR)


@settings(max_examples=examples(25), deadline=None)
@given(st.lists(member_words, min_size=2, max_size=5), gaps, st.sampled_from(["centres", "left", "right"]))
def test_a_column_runs_down_and_has_these_gaps(members, gap, align) -> None:
    panel = panel_of(
        f"  - column: {{at: [0, 0], gap: {gap}, align: {align}}}\n    parts:\n{written(members)}", "[1000, 1500]"
    )
    shapes = [cover(panel, part.ref) for part in panel.parts]
    for one, other in pairwise(shapes):
        assert one.bounds[1] - other.bounds[3] == pytest.approx(gap, abs=NEAR)
    if align == "centres":
        assert [part.at.x for part in panel.parts] == pytest.approx([1000.0] * len(members))
    else:
        edge = 0 if align == "left" else 2
        assert [shape.bounds[edge] for shape in shapes] == pytest.approx(
            [shapes[0].bounds[edge]] * len(shapes), abs=NEAR
        )


@pytest.mark.parametrize(("anchor", "first"), [("first", 0.0), ("middle", -25.0), ("last", -50.0)])
def test_a_row_by_pitch(anchor: str, first: float) -> None:
    panel = panel_of(
        f"  - row: {{at: [0, 0], pitch: 25, anchor: {anchor}}}\n"
        '    parts: [{repeat: {count: 3, start: 7}, parts: [{ref: "S{n}", part: toggle-12, legend: "OUT {n}"}]}]\n'
    )
    assert [(part.ref, part.legend.text) for part in panel.parts if part.legend] == [
        ("S7", "OUT 7"), ("S8", "OUT 8"), ("S9", "OUT 9"),
    ]  # fmt: skip
    assert [part.at.x - 1000 for part in panel.parts] == pytest.approx([first, first + 25, first + 50])


def test_a_layout_in_a_repeat_moves_with_the_copy_and_layouts_nest() -> None:
    panel = panel_of("""\
  - repeat: {count: 2, step: [200, 10], as: bank}
    parts:
      - row: {at: [0, 0], pitch: 40}
        parts:
          - repeat: {count: 3, start: A}
            parts:
              - column: {pitch: 15}
                parts: [{ref: "J{bank}{n}", part: bnc}, {ref: "H{bank}{n}", part: led-5}]
      - {ref: "S{bank}", part: toggle-12, at: {from: "H{bank}B", by: [0, -20]}}
""")
    at = {part.ref: (part.at.x - 1000, part.at.y - 800) for part in panel.parts}
    assert at["J1A"] == pytest.approx((0, 0))
    assert at["H1C"] == pytest.approx((80, -15))
    assert at["H2B"] == pytest.approx((240, -5))
    assert at["S2"] == pytest.approx((240, -25))


def test_a_block_in_a_row_keeps_its_gap_with_all_it_holds() -> None:
    panel = panel_of("""\
  - row: {at: [0, 0], gap: 3}
    parts:
      - {ref: A, part: led-5}
      - column: {gap: 2, anchor: middle, align: right}
        parts: [{ref: B, part: iec-c14}, {ref: C, part: led-5}]
      - {ref: D, part: toggle-12}
""")
    a, b, c, d = (cover(panel, ref) for ref in "ABCD")
    block = shapely.union_all([b, c])
    assert block.bounds[0] - a.bounds[2] == pytest.approx(3, abs=NEAR)
    assert d.bounds[0] - block.bounds[2] == pytest.approx(3, abs=NEAR)
    assert (block.bounds[1] + block.bounds[3]) / 2 == pytest.approx(800.0, abs=NEAR)
    assert b.bounds[2] == pytest.approx(c.bounds[2], abs=NEAR)


# --- grids


@settings(max_examples=examples(25), deadline=None)
@given(st.lists(member_words, min_size=2, max_size=9), st.integers(1, 4), gaps, gaps, st.booleans())
def test_a_grid_by_gaps_has_these_between_its_widest_and_highest(members, columns, across, down, by_columns) -> None:
    order = "columns" if by_columns else "rows"
    rows = math.ceil(len(members) / columns)
    panel = panel_of(
        f"  - grid: {{at: [0, 0], columns: {columns}, gap: [{across}, {down}], order: {order}}}\n"
        f"    parts:\n{written(members)}"
    )
    cells = {}
    for number, part in enumerate(panel.parts):
        cells[part.ref] = (number // rows, number % rows) if by_columns else (number % columns, number // columns)
    for axis, gap in ((0, across), (1, down)):
        lines: dict[int, list] = {}
        for part in panel.parts:
            lines.setdefault(cells[part.ref][axis], []).append(part)
        for number, line in lines.items():
            centres = {round(part.at[axis], 6) for part in line}
            assert len(centres) == 1
            if number + 1 in lines:
                here = [cover(panel, part.ref).bounds for part in line]
                there = [cover(panel, part.ref).bounds for part in lines[number + 1]]
                clear = (
                    min(box[0] for box in there) - max(box[2] for box in here)
                    if axis == 0
                    else min(box[1] for box in here) - max(box[3] for box in there)
                )
                assert clear == pytest.approx(gap, abs=NEAR)


def test_names_along_the_sides_of_a_matrix_are_in_line_with_its_centres() -> None:
    panel = panel_of("""\
  - grid: {at: [0, 0], columns: 3, pitch: [12, 14], numbers: {columns: 1, rows: [IN, OUT], rows_side: both}}
    parts: [{repeat: {count: 6}, parts: [{ref: "H{n}", part: led-5}]}]
""")
    at = panel.by_ref
    told = [(text.request.text, text.of, text.at) for text in panel.texts]
    assert [(words, ref) for words, ref, _ in told] == [
        ("1", "H1"), ("2", "H2"), ("3", "H3"), ("IN", "H1"), ("OUT", "H4"), ("IN", "H3"), ("OUT", "H6"),
    ]  # fmt: skip
    height = panel.marking.styles["numeral"].cap_height
    for words, ref, place in told[:3]:
        assert place.x == pytest.approx(at[ref].at.x), words
        assert place.y > cover(panel, "H1").bounds[3]
    for words, ref, place in told[3:]:
        assert place.y + height / 2 == pytest.approx(at[ref].at.y), words
    assert told[3][2].x < cover(panel, "H1").bounds[0]
    assert told[5][2].x > cover(panel, "H3").bounds[2]


def test_names_of_a_matrix_in_a_mirror_stand_on_the_other_side() -> None:
    panel = panel_of("""\
  - mirror: {x: 100, names: [L, R]}
    parts:
      - grid: {at: [0, 0], columns: 2, pitch: [12, 14], numbers: {rows: A}}
        parts: [{repeat: {count: 4, as: k}, parts: [{ref: "H{n}{k}", part: led-5}]}]
""")
    left, right = panel.texts[0], panel.texts[2]
    assert (left.request.text, right.request.text) == ("A", "A")
    assert left.at.x < panel.by_ref["HL1"].at.x
    assert right.at.x > panel.by_ref["HR1"].at.x
    assert (left.at.x + right.at.x) / 2 == pytest.approx(1100)


# --- rings


@pytest.mark.parametrize("direction", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize(
    ("sweep", "start", "degs"),
    [
        ("360", "", [90, 18, -54, -126, -198]),
        ("360", ", start: 0", [0, -72, -144, -216, -288]),
        ("180", "", [180, 135, 90, 45, 0]),
        ("180", ", start: 90", [90, 45, 0, -45, -90]),
    ],
)
@pytest.mark.parametrize("facing", ["up", "out", "in"])
def test_the_angles_of_a_ring(sweep: str, start: str, degs: list[float], direction: str, facing: str) -> None:
    panel = panel_of(
        f"  - ring: {{at: [5, 7], diameter: 80, sweep: {sweep}{start}, direction: {direction}, facing: {facing}}}\n"
        '    parts: [{repeat: {count: 5}, parts: [{ref: "S{n}", part: toggle-12, turn: 30}]}]\n'
    )
    if direction == "counter-clockwise":
        first = degs[0] if start or sweep == "360" else 180 - degs[0]
        degs = [first + (degs[0] - deg) for deg in degs]
    for part, deg in zip(panel.parts, degs, strict=True):
        assert part.at.x == pytest.approx(1005 + 40 * math.cos(math.radians(deg)))
        assert part.at.y == pytest.approx(807 + 40 * math.sin(math.radians(deg)))
        turned = {"up": 0, "out": deg - 90, "in": deg + 90}[facing]
        assert (part.turn - 30 - turned) % 360 == pytest.approx(0, abs=1e-9) or (
            part.turn - 30 - turned
        ) % 360 == pytest.approx(360, abs=1e-9)


@settings(max_examples=examples(20), deadline=None)
@given(st.lists(member_words, min_size=2, max_size=6), st.floats(0.5, 20).map(lambda gap: round(gap, 2)),
       st.sampled_from([360, 200]), st.sampled_from(["up", "out"]))  # fmt: skip
def test_a_ring_by_gap_is_the_smallest_that_has_it(members, gap, sweep, facing) -> None:
    panel = panel_of(
        f"  - ring: {{at: [0, 0], gap: {gap}, sweep: {sweep}, facing: {facing}}}\n    parts:\n{written(members)}"
    )
    shapes = [cover(panel, part.ref) for part in panel.parts]
    pairs = list(pairwise(shapes))
    if sweep == 360 and len(shapes) > 2:
        pairs.append((shapes[-1], shapes[0]))
    assert min(one.distance(other) for one, other in pairs) == pytest.approx(gap, abs=5e-4)


# --- mirrors


@settings(max_examples=examples(30), deadline=None)
@given(st.lists(member_words, min_size=1, max_size=4), st.floats(-300, 300), datums, st.booleans())
def test_mirrored_parts_are_where_reflection_puts_them(members, axis, datum, upright) -> None:
    dx, dy = spread(datum)
    axis = round(axis, 3)
    key = "x" if upright else "y"
    items = "".join(
        f'      - {{ref: "P{number}{{n}}", {MEMBERS[name]}, turn: {turn},'
        f" at: [{800 + 50 * number - dx}, {650 + 30 * number - dy}]}}\n"
        for number, (name, turn) in enumerate(members)
    )
    line = 1000 + axis if upright else 800 + axis
    panel = panel_of(f"  - mirror: {{{key}: {line - (dx if upright else dy)}}}\n    parts:\n{items}", datum)
    for number, (_, turn) in enumerate(members):
        one, other = panel.by_ref[f"P{number}1"], panel.by_ref[f"P{number}2"]
        across = (one.at.x + other.at.x) / 2 if upright else (one.at.y + other.at.y) / 2
        assert across == pytest.approx(line)
        assert (one.at.y if upright else one.at.x) == pytest.approx(other.at.y if upright else other.at.x)
        assert (one.turn, other.turn) == (turn, -turn)


def openings(panel: Panel, part: Part) -> list[tuple[float, float, float]]:
    """The holes of a part about its centre, and their areas."""
    holes = [area(each.finished) for each in cut(panel) if each.ref == part.ref]
    return sorted(
        (round(h.centroid.x - part.at.x, 4), round(h.centroid.y - part.at.y, 4), round(h.area, 3)) for h in holes
    )


def test_a_handed_pattern_stays_right_in_a_mirror() -> None:
    """The three holes of a part that has a left and a right hand: by hand, as seen from the front, in both copies."""
    handed = (
        "{title: Handed, openings: [{role: body, circle: {diameter: 12}},"
        " {role: fixing, circle: {diameter: 3}, at: [10, 4]}]}"
    )
    panel = panel_of(
        f'  - mirror: {{x: 0}}\n    parts: [{{ref: "J{{n}}", part: {handed}, at: [-60, 0]}},'
        f' {{ref: "K{{n}}", part: {handed}, at: [-60, 50], turn: 90}}]\n'
    )
    small = round(math.pi * 1.5**2, 1)
    for ref, place in {"J1": (10, 4), "J2": (10, 4), "K1": (-4, 10), "K2": (4, -10)}.items():
        (hole,) = [hole for hole in openings(panel, panel.by_ref[ref]) if round(hole[2], 1) == small]
        assert hole[:2] == pytest.approx(place, abs=1e-3), ref
    assert panel.by_ref["J2"].at.x == pytest.approx(1060)


def test_sides_ends_and_places_of_legends_are_those_of_the_mirror() -> None:
    panel = panel_of("""\
  - mirror: {x: {from: middle}, names: [L, R]}
    parts:
      - {ref: "A{n}", part: led-5, at: [-50, 0], legend: {text: "{n}", place: above-left, offset: [2, 1]}}
      - {ref: "B{n}", part: led-5, at: [-50, 40], legend: {text: "{n}", at: [-80, 40], align: left}}
      - {ref: "F{n}", part: fader-30, at: [-50, 90], scale: {from: 0, to: 10, major: 5, length: 30, side: left}}
      - {ref: "C{n}", part: led-5, at: {from: "A{n}", by: [-10, 0]}}
""")
    a, b = panel.by_ref["AR"].legend, panel.by_ref["BR"].legend
    assert a is not None
    assert (a.text, a.place, tuple(a.offset or ())) == ("R", Place.ABOVE_RIGHT, (-2.0, 1.0))
    assert b is not None
    assert b.at == (1080.0, 840.0)
    assert b.align is not None
    assert b.align.value == "right"
    scale = panel.by_ref["FR"].scale
    assert scale is not None
    assert scale.straight is not None
    assert scale.straight.side is Place.RIGHT
    assert panel.by_ref["CR"].at.x == pytest.approx(1060.0)


def test_mirrors_and_repeats_nest() -> None:
    panel = panel_of("""\
  - repeat: {count: 2, step: [0, -100], as: bank}
    parts:
      - {ref: "M{bank}", part: led-5, at: [10, 200]}
      - mirror: {x: {from: "M{bank}"}, as: side}
        parts:
          - mirror: {y: 170}
            parts: [{ref: "P{bank}{side}{n}", part: led-5, at: [0, 160]}]
""")
    at = {part.ref: (part.at.x - 1000, part.at.y - 800) for part in panel.parts}
    assert at["P111"] == pytest.approx((0, 160))
    assert at["P121"] == pytest.approx((20, 160))
    assert at["P112"] == pytest.approx((0, 180))
    assert at["P222"] == pytest.approx((20, 80))


# --- in line, and between


@pytest.mark.parametrize(
    ("x", "edge", "of", "gap"),
    [
        ("{right_of: Q, gap: 4}", 0, 2, 4),
        ("{left_of: Q, gap: 2.5}", 2, 0, -2.5),
        ("{right_of: Q}", 0, 2, 0),
    ],
)
@pytest.mark.parametrize("turn", [0, 30, 90])
def test_a_part_stands_clear_beside_another(x: str, edge: int, of: int, gap: float, turn: int) -> None:
    panel = panel_of(
        f"  - {{ref: P, part: {LOPSIDED}, at: {{x: {x}, y: {{from: Q, by: 1}}}}, turn: {turn}}}\n"
        f"  - {{ref: Q, part: {LOPSIDED}, at: [30, 10], turn: -20}}\n"
    )
    assert cover(panel, "P").bounds[edge] - cover(panel, "Q").bounds[of] == pytest.approx(gap, abs=NEAR)
    assert panel.by_ref["P"].at.y == pytest.approx(811)


@pytest.mark.parametrize("datum", ["lower-left", "centre"])
def test_a_layout_stands_clear_of_the_edges(datum: str) -> None:
    panel = panel_of(
        "  - row: {at: {x: {left_of: right-edge, gap: 12}, y: {below: top-edge, gap: 8}}, gap: 5, anchor: middle}\n"
        f"    parts:\n{written([('lopsided', 90), ('inlet', 0), ('pot', 0)])}",
        datum,
    )
    whole = shapely.union_all([cover(panel, part.ref) for part in panel.parts])
    assert whole.bounds[2] == pytest.approx(2000 - 12, abs=NEAR)
    assert whole.bounds[3] == pytest.approx(1600 - 8, abs=NEAR)


def test_the_middle_of_the_face() -> None:
    panel = panel_of(
        "  - {ref: P, part: led-5, at: {x: {from: middle}, y: {from: bottom-edge, by: 12}}}\n", "lower-left"
    )
    assert panel.by_ref["P"].at == (1000.0, 12.0)


@settings(max_examples=examples(25), deadline=None)
@given(st.lists(member_words, min_size=1, max_size=4), st.tuples(st.integers(-400, 400), st.integers(-300, 300)))
def test_parts_between_two_others_are_even(members, end) -> None:
    length = math.hypot(*end)
    if length < 300:
        return
    ends = (
        f"  - {{ref: A, {MEMBERS['lopsided']}, at: [0, 0], turn: 40}}\n  - {{ref: B, part: iec-c14, at: {list(end)}}}\n"
    )
    even = panel_of(f"{ends}  - distribute: {{between: [A, B]}}\n    parts:\n{written(members)}")
    for number in range(len(members)):
        share = (number + 1) / (len(members) + 1)
        assert tuple(even.by_ref[f"P{number}"].at) == pytest.approx((1000 + share * end[0], 800 + share * end[1]))
    clear = panel_of(f"{ends}  - distribute: {{between: [A, B], by: gaps}}\n    parts:\n{written(members)}")
    deg = math.degrees(math.atan2(end[1], end[0]))
    refs = ["A", *(f"P{number}" for number in range(len(members))), "B"]
    level = [shapely.affinity.rotate(cover(clear, ref), -deg, origin=(1000, 800)).bounds for ref in refs]
    between = [other[0] - one[2] for one, other in pairwise(level)]
    assert between == pytest.approx([between[0]] * len(between), abs=1e-3)
    assert all(gap >= -NEAR for gap in between)


def test_names_of_copies_may_be_letters() -> None:
    panel = panel_of(
        '  - {repeat: {count: 3, step: [20, 0], start: C}, parts: [{ref: "J{n}", part: bnc, at: [0, 0]}]}\n'
    )
    assert [part.ref for part in panel.parts] == ["JC", "JD", "JE"]


def test_lines_and_frames_take_parts_of_layouts_as_any_other() -> None:
    panel = panel_of("""\
  - row: {at: [0, 0], pitch: 30}
    parts: [{ref: A, part: led-5}, {ref: B, part: led-5}]
frames: [{around: [A, B]}, {around: ["*"]}]
lines: [{from: A, to: B}]
art: [{mark: dot, at: {from: B, by: [5, 5]}}]
""")
    assert panel.frames[0].around == panel.frames[1].around == ("A", "B")
    assert panel.lines[0].end == "B"
