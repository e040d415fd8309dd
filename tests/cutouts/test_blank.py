"""Blanks read back from their DXF by ezdxf, measured by shapely, and folded up again by matrices."""

from __future__ import annotations

import io
import math

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf import path as ezpath

from panelart.diagnostics import SpecError
from panelart.drawing.blanklayer import blank_layer
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from panelart.writers import dxf

HEAD = """\
panelart: 1
marking: {process: digital-print, ink: {name: white, colour: "#FFFFFF"}}
panel:
  title: Tray
  size: [200, 100]
  sheet: {material: aluminium, thickness: 1.5}
"""
TRAY = (
    HEAD
    + """\
  coat: {kind: powder, thickness: 0.08}
  bending: {radius: 2, k: 0.42, relief: {width: 2, depth: 1.8}}
  flanges:
    top:
      length: 22
      angle: 90
      holes: [{ref: T1, at: [30, 9], diameter: 4.5}]
      return: {length: 12, towards: in, holes: [{ref: T2, at: [60, 6.5], diameter: 3}]}
    bottom: {length: 18, corner: 4, holes: [{ref: B1, at: [150, 10], slot: [10, 4]}]}
    left: {length: 25, angle: 60, holes: [{ref: L1, at: [40, 14], diameter: 5}]}
    right: {length: 20, return: {length: 14, towards: out, angle: 90, holes: [{ref: R1, at: [45, 8], diameter: 4}]}}
parts:
  - {ref: S1, part: toggle-12, at: [60, 50]}
  - {ref: H1, part: screw-m3, at: [140, 40]}
"""
)
THICKNESS, RADIUS, K, FILM = 1.5, 2.0, 0.42, 0.08


def laid_out(text: str):
    return lay_out(panel_from_text(text, "tray.yaml"))


def read_back(layout) -> dict[str, list]:
    """The shapes of blank.dxf by layer: polygons for closed ones, pairs of ends for bends."""
    document = ezdxf.read(io.StringIO(dxf(blank_layer(layout, layout.blank)).decode()))
    found: dict[str, list] = {}
    for entity in document.modelspace():
        way = ezpath.make_path(entity)
        points = [(p.x, p.y) for p in way.flattening(0.0005)]
        closed = way.is_closed
        found.setdefault(entity.dxf.layer, []).append(shapely.Polygon(points) if closed else points)
    return found


# --- folding, written here from the bend lines of the file, the radius, the thickness and K alone


def matrix_of_turn(about: np.ndarray, axis: np.ndarray, deg: float) -> np.ndarray:
    """4 x 4: a turn about a line, by Rodrigues' formula."""
    axis = axis / np.linalg.norm(axis)
    x, y, z = axis
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    angle = math.radians(deg)
    turn = np.eye(3) + math.sin(angle) * cross + (1 - math.cos(angle)) * cross @ cross
    whole = np.eye(4)
    whole[:3, :3] = turn
    whole[:3, 3] = about - turn @ about
    return whole


def fold(ends, outwards: np.ndarray, deg: float, *, forward: bool = False) -> np.ndarray:
    """What carries the metal outside a bend to where the bend brings it, from flat: the metal of the bend is taken
    out, then what is left is turned about the bend's centre, which lies R + T below (or R above) the front face."""
    middle = np.array([*ends[0], 0.0])
    taken = math.radians(deg) * (RADIUS + K * THICKNESS)
    tangent = middle - outwards * taken / 2
    shift = np.eye(4)
    shift[:3, 3] = -outwards * taken
    height = RADIUS if forward else -(RADIUS + THICKNESS)
    centre = tangent + np.array([0, 0, height])
    axis = np.cross(outwards, np.array([0.0, 0.0, 1.0 if forward else -1.0]))
    return matrix_of_turn(centre, axis, deg) @ shift


OUT = {"top": (0, 1, 0), "bottom": (0, -1, 0), "left": (-1, 0, 0), "right": (1, 0, 0)}


def brought(point, *folds: np.ndarray) -> np.ndarray:
    """A point of the front of the flat, after the outer bend first and the inner one after it."""
    place = np.array([*point, 0.0, 1.0])
    for each in folds:
        place = each @ place
    return place[:3]


@pytest.fixture(scope="module")
def tray():
    layout = laid_out(TRAY)
    return layout, read_back(layout)


def bend_of(layout, found, name: str):
    """The line of the file that a bend is, by the middle of it."""
    wanted = next(bend for bend in layout.blank.bends if bend.name == name)
    middle = wanted.start.middle(wanted.end)
    lines = [*found["bends"], *found.get("bends-forward", [])]
    return min(lines, key=lambda ends: math.dist(np.mean(ends, axis=0), middle))


def hole(layout, name: str):
    return next(one.cut.bounds.centre for one in layout.blank.holes if one.name == name)


def test_holes_of_flanges_come_where_they_were_asked_for(tray) -> None:
    """Folded back in space, each hole lies the distance asked for behind the finished front, and on its plane."""
    layout, found = tray
    up = np.array(OUT["top"], dtype=float)
    shift = np.array([layout.blank.shift.x, layout.blank.shift.y, 0.0])
    # The finished top is at y = 100, its metal 0.08 below; 9 behind the finished front is 8.92 behind the metal.
    place = brought(hole(layout, "T1"), fold(bend_of(layout, found, "top"), up, 90)) - shift
    assert place == pytest.approx([30, 100 - FILM, -(9 - FILM)], abs=1e-4)
    place = brought(hole(layout, "B1"), fold(bend_of(layout, found, "bottom"), -up, 90)) - shift
    assert place == pytest.approx([150, FILM, -(10 - FILM)], abs=1e-4)


def test_a_hole_of_a_slanted_flange(tray) -> None:
    """60 degrees: from the corner line of the outsides 14 - film along a plane that falls by 60."""
    layout, found = tray
    shift = np.array([layout.blank.shift.x, layout.blank.shift.y, 0.0])
    out = np.array(OUT["left"], dtype=float)
    place = brought(hole(layout, "L1"), fold(bend_of(layout, found, "left"), out, 60)) - shift
    along = 14 - FILM
    assert place == pytest.approx(
        [FILM - along * math.cos(math.radians(60)), 40, -along * math.sin(math.radians(60))], abs=1e-4
    )


def test_holes_of_returns(tray) -> None:
    """In: the outside of the return is 22 behind the front, metal 21.92; out: the outside of its bend is the inside of
    the flange, and the front surface of the return lies one thickness before its rear, which is 20 behind the front."""
    layout, found = tray
    shift = np.array([layout.blank.shift.x, layout.blank.shift.y, 0.0])
    up, right = np.array(OUT["top"], dtype=float), np.array(OUT["right"], dtype=float)
    place = (
        brought(
            hole(layout, "T2"),
            fold(bend_of(layout, found, "top return"), up, 90),
            fold(bend_of(layout, found, "top"), up, 90),
        )
        - shift
    )
    assert place == pytest.approx([60, 100 - FILM - (6.5 - FILM), -(22 - FILM) + FILM], abs=1e-4)
    place = (
        brought(
            hole(layout, "R1"),
            fold(bend_of(layout, found, "right return"), right, 90, forward=True),
            fold(bend_of(layout, found, "right"), right, 90),
        )
        - shift
    )
    metal = 20 - 2 * FILM
    assert place == pytest.approx([200 - FILM - THICKNESS + (8 - FILM), 45, -(metal - THICKNESS)], abs=1e-4)


def test_the_pictures_fold_agrees(tray) -> None:
    from panelart.cutouts.blank import bent
    from panelart.cutouts.folding import folded

    layout, found = tray
    flanges = {edge.value: bend for edge, bend in bent(layout.panel, layout.cut_outline).items()}
    box = layout.cut_outline.bounds
    shift = np.array([layout.blank.shift.x, layout.blank.shift.y, 0.0])
    for name, deg in (("top", 90), ("left", 60), ("right", 90)):
        out = np.array(OUT[name], dtype=float)
        bend = flanges[name]
        first = fold(bend_of(layout, found, name), out, deg)
        corner = {"top": (70, box.top), "left": (box.left, 70), "right": (box.right, 70)}[name]
        for w in (bend.length - bend.deduction - bend.second_setback - 1, bend.tip):
            flat = np.array([*corner, 0.0]) + out * w + shift
            folds = [first]
            if w == bend.tip and bend.flange.second is not None:
                forward = name == "right"
                folds.insert(0, fold(bend_of(layout, found, f"{name} return"), out, 90, forward=forward))
            place = brought(flat[:2], *folds) - shift
            assert folded(bend, box, 70, w) == pytest.approx(tuple(place), abs=1e-4)


# --- sizes


def test_flat_size_and_area(tray) -> None:
    """Flat sizes worked by hand; area by adding up rectangles; both to 0.01 mm (and per mm of edge)."""
    (outline,) = tray[1]["outline"]

    def taken(deg: float) -> float:
        return 2 * 3.5 * math.tan(math.radians(deg) / 2) - math.radians(deg) * (RADIUS + K * THICKNESS)

    left, right = 25 - 2 * FILM - taken(60), 20 + 14 - 4 * FILM - 2 * taken(90)
    top, bottom = 22 + 12 - 4 * FILM - 2 * taken(90), 18 - 2 * FILM - taken(90)
    width, height = 200 - 2 * FILM, 100 - 2 * FILM
    x0, y0, x1, y1 = outline.bounds
    assert x1 - x0 == pytest.approx(width + left + right, abs=0.01)
    assert y1 - y0 == pytest.approx(height + top + bottom, abs=0.01)
    # Flanges stop a setback and a relief short of each corner; the face loses that square there.
    at_left, at_rest = 3.5 * math.tan(math.radians(30)) + 1.8, 3.5 + 1.8
    cross = (width - at_left - at_rest) * (height + top + bottom) + (height - 2 * at_rest) * (left + right)
    body = (at_left + at_rest) * (height - 2 * at_rest)
    rounded = 2 * (1 - math.pi / 4) * 4**2
    assert outline.area == pytest.approx(cross + body - rounded, abs=0.01 * outline.length)


def test_every_opening_is_on_the_blank(tray) -> None:
    """Openings of the face move by the shift alone; each hole of the file is one asked for, at its cut size."""
    layout, found = tray
    holes = found["cutouts"]
    assert len(holes) == len(layout.openings) + 5
    shift = layout.blank.shift
    for opening in layout.openings:
        middle = opening.cut.bounds.centre.moved(shift)
        nearest = min(holes, key=lambda each: each.centroid.distance(shapely.Point(middle)))
        assert (nearest.centroid.x, nearest.centroid.y) == pytest.approx(tuple(middle), abs=0.01)
        assert nearest.area == pytest.approx(abs(opening.cut.area), abs=0.05)
    (outline,) = found["outline"]
    assert all(outline.contains(each) for each in holes)


def test_bend_lines_end_at_the_outline(tray) -> None:
    layout, found = tray
    (outline,) = found["outline"]
    lines = [*found["bends"], *found["bends-forward"]]
    assert len(lines) == len(layout.blank.bends) == 6
    for ends in lines:
        for end in ends:
            assert outline.exterior.distance(shapely.Point(end)) < 1e-3
    assert len(found["bends-forward"]) == 1


def test_returns_are_bent_before_flanges(tray) -> None:
    steps = {bend.name: bend.step for bend in tray[0].blank.bends}
    assert max(steps["top return"], steps["right return"]) < min(steps["top"], steps["right"])
    assert sorted(steps.values()) == [1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize(
    ("inset", "corners", "area"),
    [
        # No inset: the sides run straight into the flange.
        ("0", 4, 0.0),
        # 10 at each end: a slot of 1.5 beside the flange, from the edge to 1.5 past the bend.
        ("10", 12, 2 * (10 * 12.0 + 1.5 * (1.5 + 3.0))),
        # As wide as the slot: the corner goes with it.
        ("1.5", 8, 2 * (1.5 * 12.0 + 1.5 * (1.5 + 3.0))),
    ],
)
def test_reliefs_beside_a_flange(inset: str, corners: int, area: float) -> None:
    """Bare sheet of 1.5, R 1.5, tested deduction 3, length 15: the flange stands 12 out on the flat."""
    layout = laid_out(
        HEAD + "  bending: {tested: [{radius: 1.5, deduction: 3}]}\n"
        f"  flanges: {{top: {{length: 15, inset: {inset}}}}}\n"
    )
    assert len(layout.blank.outline.segments) == corners
    assert layout.blank.outline.area == pytest.approx(200 * 112 - area)


@pytest.mark.parametrize(
    ("shape", "cut_out"),
    [
        ("square", 1.5 * (1.5 + 3.0)),
        # The end is half a round as wide as the slot.
        ("round", 1.5 * (1.5 + 3.0) - 2 * (1 - math.pi / 4) * 0.75**2),
        # Nothing is cut out of the face.
        ("tear", 0.0),
    ],
)
def test_shapes_of_reliefs(shape: str, cut_out: float) -> None:
    """As above, inset 10 at both ends: the flange is 180 long and stands 12 out."""
    layout = laid_out(
        HEAD + f"  bending: {{tested: [{{radius: 1.5, deduction: 3}}], relief: {{shape: {shape}}}}}\n"
        "  flanges: {top: {length: 15, inset: 10}}\n"
    )
    assert layout.blank.outline.area == pytest.approx(200 * 100 + 180 * 12 - 2 * cut_out)


def test_corner_reliefs_are_round_or_square_and_as_deep_as_asked() -> None:
    """Two flanges round one corner, each 4 out on the flat: a notch of setback 3 and depth 2 from both bends, in the
    round one filled by a corner of that radius, up to where the bends begin."""
    areas = {}
    for shape in ("square", "round"):
        layout = laid_out(
            HEAD + "  bending: {tested: [{radius: 1.5, deduction: 11}], relief: {depth: 1},"
            f" corner_relief: {{shape: {shape}, depth: 2}}}}\n  flanges: {{top: 15, right: 15}}\n"
        )
        areas[shape] = layout.blank.outline.area
    assert areas["square"] == pytest.approx(200 * 100 + (200 - 5) * 4 + (100 - 5) * 4 - 5 * 5)
    assert areas["round"] - areas["square"] == pytest.approx((1 - math.pi / 4) * 2**2)


def test_a_flat_panel_has_no_blank() -> None:
    assert laid_out(HEAD).blank is None


def test_a_flange_round_a_corner_needs_no_inset_of_its_own() -> None:
    layout = laid_out(HEAD + "  flanges: {top: 15, right: {length: 15}}\n")
    assert layout.blank.outline.area < 200 * 100 + 200 * 15 + 100 * 15


def test_overlapping_flanges_are_told_at_their_place() -> None:
    with pytest.raises(SpecError, match="crosses itself"):
        laid_out(HEAD + "  flanges: {top: {length: 15, inset: 0}, right: {length: 15, inset: 0}}\n")
