"""Panels of odd forms from drawings, from the spec to the files: an L, a round panel, one with a notch and arcs."""

from __future__ import annotations

import io
import math
from pathlib import Path

import ezdxf
import pytest
import shapely

from panelart.diagnostics import SpecError
from panelart.geometry import Point, gap
from panelart.geometry.polygons import polygon
from panelart.pipeline import Bed, bed_jigs, build, lay_out, nested, read, write
from panelart.press.features import features
from tests.outlines.drawings import dxf, ell, loop
from tests.spec.samples import GOOD

SIZE = "  size: [260, 110]\n  corner: 3\n"
HEAD = """\
panelart: 1
panel:
  title: Corner console
  number: NW-1
  outline: {dxf: front.dxf, holes: openings}
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#2A2E33"}
marking:
  process: digital-print
  ink: {name: white, colour: "#F2F2EE"}
  lettering: {cap_height: 3.1}
"""
FREE = "parts: [{ref: S1, part: toggle-12, at: [30, 30], legend: PUMP}]\n"


def ell_with_holes(space) -> None:
    ell(space)
    for x, y in ((6, 6), (174, 6), (6, 114)):
        space.add_circle((x, y), 2.25)


def disc(space) -> None:
    space.add_circle((0, 0), 60)


def notched(space) -> None:
    """A half round at the right, a slot with a round bottom cut in from the top."""
    corners = [(0, 0, 0), (160, 0, 1), (160, 90, 0), (100, 90, 0), (100, 70, -1), (80, 70, 0), (80, 90, 0), (0, 90, 0)]
    space.add_lwpolyline(corners, format="xyb", close=True)


def panel_of(folder: Path, draw, text: str, **more):
    (folder / "front.dxf").write_bytes(dxf(draw, **more))
    (folder / "panel.yaml").write_text(text, "utf-8")
    return read(folder / "panel.yaml")


def rules_of(panel) -> set[str]:
    return {finding.rule for finding in build(panel).inspection.findings}


FACES = [
    ("L", ell_with_holes, 15600.0),
    ("round", disc, math.pi * 3600),
    ("notch", notched, 160 * 90 + math.pi * 45**2 / 2 - 20 * 20 - math.pi * 50),
]


@pytest.mark.few(1)
@pytest.mark.parametrize(("what", "draw", "area"), FACES, ids=[face[0] for face in FACES])
def test_every_file_of_an_odd_panel(tmp_path: Path, what: str, draw, area: float) -> None:
    """The cut file, read by ezdxf, is the outline drawn back by the film on every edge: shapely's own offset."""
    panel = panel_of(tmp_path, draw, HEAD + FREE.replace("[30, 30]", "[40, 40]"))
    assert panel.outline.area == pytest.approx(area), what
    built = build(panel)
    files = write(built)
    assert files.keys() >= {"artwork.pdf", "cutouts.dxf", "proof.pdf", "build-sheet.pdf", "panel.png"}
    cut = ezdxf.read(io.StringIO(files["cutouts.dxf"].decode()))
    (entity,) = cut.modelspace().query('*[layer=="outline"]')
    points = ezdxf.path.make_path(entity).flattening(1e-4)
    shape = shapely.Polygon([(point.x, point.y) for point in points])
    expected = polygon(panel.outline, 1e-4, side="middle").buffer(-0.08, join_style="mitre")
    assert shapely.hausdorff_distance(shape.exterior, expected.exterior, densify=0.01) < 0.02
    assert write(build(panel)) == files
    serious = [f.sentence for f in built.inspection.findings if f.severity.value != "note"]
    assert serious == []


def test_holes_are_openings_keepouts_or_nothing(tmp_path: Path) -> None:
    panel = panel_of(tmp_path, ell_with_holes, HEAD + FREE)
    assert [part.ref for part in panel.parts] == ["S1", "H1", "H2", "H3"]
    assert panel.by_ref["H1"].at == pytest.approx((6, 114))  # row by row from the top left
    layout = lay_out(panel)
    sizes = [2 * opening.cut.circle[1] for opening in layout.openings if opening.ref.startswith("H")]
    assert sizes == pytest.approx([4.5 + 2 * 0.08] * 3)  # finished as drawn, cut larger by the film
    kept = panel_of(tmp_path, ell_with_holes, HEAD.replace("openings", "keep-outs") + FREE)
    assert len(kept.parts) == 1
    assert [keepout.side.value for keepout in kept.keepouts] == ["front", "rear"] * 3
    none = panel_of(tmp_path, ell_with_holes, HEAD.replace("openings", "ignored") + FREE)
    assert (len(none.parts), none.keepouts) == (1, ())


def test_a_drawing_whose_origin_is_the_datum(tmp_path: Path) -> None:
    text = HEAD.replace("  sheet", "  datum: drawing\n  sheet") + FREE.replace("[30, 30]", "[0, 0]")
    panel = panel_of(tmp_path, disc, text)
    assert panel.by_ref["S1"].at == pytest.approx((60, 60))


def test_our_own_cut_file_comes_back(tmp_path: Path) -> None:
    (tmp_path / "first.yaml").write_text(GOOD.replace("kind: powder, thickness: 0.08", "kind: none"), "utf-8")
    first = lay_out(read(tmp_path / "first.yaml"))
    files = write(build(first.panel))
    outline = "outline: {dxf: front.dxf, layer: [outline, cutouts], holes: openings}"
    text = HEAD.replace("outline: {dxf: front.dxf, holes: openings}", outline).replace(
        "kind: powder, thickness: 0.08", "kind: none"
    )
    for name, kind in (("cutouts.dxf", "dxf"), ("cutouts.svg", "svg")):
        (tmp_path / f"front.{kind}").write_bytes(files[name])
        taken = text.replace("dxf: front.dxf", f"{kind}: front.{kind}")
        (tmp_path / "panel.yaml").write_text(taken + FREE.replace("[30, 30]", "[235, 85]"), "utf-8")
        again = lay_out(read(tmp_path / "panel.yaml"))
        assert gap(again.cut_outline, first.cut_outline).distance < 1e-5
        assert again.cut_outline.area == pytest.approx(first.cut_outline.area, abs=0.01)
        one = shapely.union_all([polygon(opening.cut, 1e-4) for opening in again.openings if opening.ref != "S1"])
        two = shapely.union_all([polygon(opening.cut, 1e-4) for opening in first.openings])
        assert len(again.openings) == len(first.openings) + 1
        assert shapely.symmetric_difference(one, two).area < 0.05


# --- the box round an L is not its face


def test_a_part_in_the_notch_is_outside(tmp_path: Path) -> None:
    with pytest.raises(SpecError, match="outside the panel"):
        panel_of(tmp_path, ell, HEAD + FREE.replace("[30, 30]", "[130, 90]"))
    keepout = "keepouts: [{area: {rectangle: [100, 80, 20, 20]}, side: rear, why: bracket}]\n"
    with pytest.raises(SpecError, match="The keep-out is outside"):
        panel_of(tmp_path, ell, HEAD + FREE + keepout)


@pytest.mark.parametrize(("x", "near"), [(74.0, {"body-over-edge", "opening-near-edge"}), (30.0, set())])
def test_a_part_near_the_edge_of_the_notch(tmp_path: Path, x: float, near: set[str]) -> None:
    panel = panel_of(tmp_path, ell, HEAD + FREE.replace("[30, 30]", f"[{x}, 90]").replace("toggle-12", "pot-m10"))
    assert {"body-over-edge", "opening-near-edge", "opening-over-edge"} & rules_of(panel) == near


def test_words_over_the_notch_are_off_the_panel(tmp_path: Path) -> None:
    """Both ends of the words stand on the panel; the slot that they span does not."""
    words = "texts: [{text: WWWWWWWWWWWWWWWWWWWW, at: [60, 75]}]\n"
    over = panel_of(tmp_path, notched, HEAD + FREE + words)
    assert "legend-off-printable-area" in rules_of(over)
    below = panel_of(tmp_path, notched, HEAD + FREE + words.replace("75", "48"))
    assert "legend-off-printable-area" not in rules_of(below)


def test_legends_and_lines_keep_to_the_face(tmp_path: Path) -> None:
    text = HEAD + (
        "parts:\n"
        "  - {ref: S1, part: toggle-12, at: [40, 100], legend: ON}\n"
        "  - {ref: S2, part: toggle-12, at: [150, 30], legend: OFF}\n"
        "lines: [{from: S1, to: S2, leave: right}]\n"
    )
    layout = lay_out(panel_of(tmp_path, ell, text))
    assert layout.unplaced == ()
    face = polygon(layout.panel.outline)
    for legend in layout.legends:
        assert face.covers(shapely.box(legend.box.left, legend.box.bottom, legend.box.right, legend.box.top))
    (line,) = [mark for mark in layout.marks if mark.kind == "flow-line"]
    for loop_ in line.shape:
        for curve in loop_.curves:
            assert face.covers(shapely.LineString([curve.start, curve.end]))


def test_a_corner_that_is_cut_away_is_not_measured_on_the_bed(tmp_path: Path) -> None:
    known = features(lay_out(panel_of(tmp_path, ell, HEAD + FREE)))
    assert "upper-right" not in known
    assert {"lower-left", "lower-right", "upper-left"} <= known.keys()


def test_the_jig_of_an_odd_panel_follows_its_outline(tmp_path: Path) -> None:
    layout = lay_out(panel_of(tmp_path, ell, HEAD + FREE))
    from panelart.geometry import Box

    bed = Bed(page=Box(0, 0, 300, 200), gap=15, margin=15, turn=False, clearance=0.15, pin=4, cutter=3)
    nest = nested([layout], ["front"], [1], bed)
    plate = ezdxf.read(io.StringIO(bed_jigs([layout], nest, bed, "")["jig-1.dxf"].decode()))
    (pocket,) = plate.modelspace().query('LWPOLYLINE[layer=="pockets"]')
    shape = shapely.Polygon([(x, y) for x, y in pocket.get_points("xy")])
    grown = polygon(layout.panel.outline).buffer(0.15, join_style="mitre")
    assert shape.area == pytest.approx(grown.area, abs=0.01)
    assert (
        len(plate.modelspace().query('CIRCLE[layer=="pockets"]')) == 5
    )  # the corners that stand out, not the inner one
    assert "pins" not in plate.layers


# --- what the spec may not say


# what | how the outline stands there | message
BAD = [
    ("both", "size: [260, 110]\n  outline: {dxf: front.dxf}", "both 'size' and 'outline'"),
    ("corner", "outline: {dxf: front.dxf, holes: ignored}\n  corner: 3", "'corner' is given for an outline"),
    ("two files", "outline: {dxf: front.dxf, svg: a.svg}", "both 'dxf' and 'svg'"),
    ("no file", "outline: {unit: mm}", "The outline has no file"),
    ("absent", "outline: {dxf: none.dxf}", "Cannot read the drawing 'none.dxf'"),
    ("absolute", "outline: {dxf: /etc/passwd}", "File name '/etc/passwd' is not relative"),
    ("silent on holes", "outline: {dxf: front.dxf}", "has 3 holes, but the outline has no 'holes'"),
    ("layer", "outline: {dxf: front.dxf, layer: cut, holes: openings}", "Nothing on layer 'cut'"),
    ("unit", "outline: {dxf: front.dxf, unit: in, holes: openings}", "'unit' is in, but"),
    ("flanges", "outline: {dxf: front.dxf, holes: ignored}\n  flanges: {top: 15}", "face that is not a rectangle"),
    ("refs", "outline: {dxf: front.dxf, holes: openings, refs: S}", "Ref 'S1' is used by a part and by an opening"),
]


@pytest.mark.parametrize(("what", "outline", "message"), BAD, ids=[case[0] for case in BAD])
def test_refused(tmp_path: Path, what: str, outline: str, message: str) -> None:
    text = HEAD.replace("outline: {dxf: front.dxf, holes: openings}", outline) + FREE
    with pytest.raises(SpecError) as caught:
        panel_of(tmp_path, ell_with_holes, text)
    assert [problem.message for problem in caught.value.problems if message in problem.message], what


def test_a_datum_of_a_drawing_that_is_not_there(tmp_path: Path) -> None:
    (tmp_path / "panel.yaml").write_text(GOOD.replace(SIZE, SIZE + "  datum: drawing\n"), "utf-8")
    with pytest.raises(SpecError, match="The datum is 'drawing'"):
        read(tmp_path / "panel.yaml")


def test_a_neck_that_the_film_eats_up_is_told(tmp_path: Path) -> None:
    def neck(space) -> None:
        loop(space, [(0, 0), (80, 0), (80, 40), (80.1, 40), (80.1, 0), (160, 0), (160, 90), (0, 90)])

    panel = panel_of(tmp_path, neck, HEAD + FREE.replace("[30, 30]", "[30, 60]"))
    assert panel.outline.contains(Point(40, 60))

    def strip(space) -> None:
        loop(space, [(0, 0), (80, 0), (80, 40), (81, 40), (81, 0), (160, 0), (160, 90), (82, 90), (82, 40.1),
                     (79, 40.1), (79, 90), (0, 90)])  # fmt: skip

    panel = panel_of(tmp_path, strip, HEAD + FREE.replace("[30, 30]", "[30, 60]"))
    with pytest.raises(SpecError, match="leaves no single contour"):
        lay_out(panel)


def test_a_drawn_rectangle_may_have_flanges(tmp_path: Path) -> None:
    text = HEAD.replace("  sheet", "  flanges: {top: 15}\n  sheet") + FREE
    panel = panel_of(tmp_path, lambda s: loop(s, [(0, 0), (160, 0), (160, 90), (0, 90)]), text)
    assert lay_out(panel).blank is not None
