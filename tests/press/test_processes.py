"""What each process is given: films, cutter paths, burnt lines, the label film; by other readers, and measured."""

from __future__ import annotations

import io
import math
import re
import shutil
import subprocess
from functools import cache
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pikepdf
import pypdfium2
import pytest
import shapely
from PIL import Image

from panelart.lettering.flat import flattened
from panelart.marking.areas import area_of, grown, mark_area, pen_area, square_cm, united
from panelart.marking.burning import burn_plan
from panelart.marking.engraving import ONE_PASS, cutter_for, engraving_plan
from panelart.marking.overlay import adhesive_area, bridges, overlay_area, overlay_outline, windows
from panelart.model.layout import Layout
from panelart.model.printing import Filling
from panelart.pipeline import Built, build, lay_out, write
from panelart.sheets.purchasing import bought
from panelart.sheets.stations import stations
from panelart.spec.read import panel_from_text
from tests.readers import needs_ghostscript, needs_poppler

HEAD = """
panelart: 1
panel:
  title: Try
  number: NW-8
  size: [80, 50]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: anodise, thickness: 0.02, colour: "#22262B"}
marking:
"""
REST = """
parts:
  - {ref: S1, part: toggle-12, at: [25, 25], legend: Power}
  - {ref: J1, part: socket-4, at: [58, 22], legend: OUT}
texts:
  - {text: "{bar RUN}", at: [8, 8], cap_height: 4}
  - {text: ARC, at: [58, 22], arc: {radius: 14}, cap_height: 3}
"""


def fresh(marking: str) -> Built:
    return build(panel_from_text(HEAD + marking + REST))


built = cache(fresh)


def layout(marking: str) -> Layout:
    return built(marking).layout


@cache
def files(marking: str) -> dict[str, bytes]:
    return write(built(marking))


# --- screen print

SCREEN = (
    '  process: screen-print\n  inks: [{name: white, colour: "#FFFFFF"}, {name: signal red, colour: "#B02020"}]\n'
    "  lettering: {cap_height: 4, styles: {title: {ink: signal red}}}\n"
)


def pixels(data: bytes, dpi: float = 254) -> np.ndarray:
    page = pypdfium2.PdfDocument(data)[0]
    return np.asarray(page.render(scale=dpi / 72).to_pil().convert("L"), dtype=int)


def strangers(one: np.ndarray, other: np.ndarray) -> int:
    """Dots of one view that are neither black nor beside black in the other."""
    padded = np.pad(other, 1)
    height, width = other.shape
    near = np.any([padded[y : y + height, x : x + width] for y in range(3) for x in range(3)], axis=0)
    return int((one & ~near).sum())


def test_there_is_one_film_an_ink_and_the_station_names_them() -> None:
    made = files(SCREEN)
    films = [name for name in made if name.startswith("film-")]
    assert films == ["film-base.pdf", "film-white.pdf", "film-signal-red.pdf"]
    station = next(s for s in stations(layout(SCREEN)) if s.name == "Screen print")
    assert station.files[: len(films)] == tuple(films)
    assert set(station.files) <= set(made)


def test_every_film_is_a_screen_to_be_bought() -> None:
    panel = layout(SCREEN + "  varnish: inks\n").panel
    screens = [one.title for one in bought(panel) if one.kind == "legend plate"]
    assert screens == ["Screen, base", "Screen, ink white", "Screen, ink signal red", "Screen, varnish"]


def test_an_ink_of_any_name_has_a_film() -> None:
    odd = SCREEN.replace("signal red", "a/b*1")
    assert "film-a-2f-b-2a-1.pdf" in files(odd)


def test_a_film_is_solid_black_on_the_black_plate_alone() -> None:
    with pikepdf.open(io.BytesIO(files(SCREEN)["film-signal-red.pdf"])) as file:
        spaces = [str(space[1]) for space in file.pages[0].Resources.ColorSpace.values()]
        names = [str(group.Name) for group in file.Root.OCProperties.OCGs]
    assert spaces == ["/Black"]
    assert names == ["legend-signal-red", "register", "notes"]
    grey = pixels(files(SCREEN)["film-signal-red.pdf"], 508)
    assert grey.min() == 0


def test_all_films_have_their_marks_at_the_same_places() -> None:
    made = files(SCREEN)
    pages = []
    for name in ("film-base.pdf", "film-white.pdf", "film-signal-red.pdf"):
        with pikepdf.open(io.BytesIO(made[name])) as file:
            page = file.pages[0]
            left, bottom = (float(v) for v in page.TrimBox[:2])
            content = page.Contents.read_bytes().decode("latin-1")
            matrix = [float(v) for v in re.search(r"([-\d. ]+) cm", content).group(1).split()]
            register = content.split("/OC /L")[2]
            numbers = re.findall(r"(-?[\d.]+) (-?[\d.]+) m", register)
            pages.append(
                (numbers, round((matrix[4] - left) / matrix[0], 3), round((matrix[5] - bottom) / matrix[3], 3))
            )
    assert len(pages[0][0]) > 8
    assert pages[0] == pages[1] == pages[2]


def long_runs(row: np.ndarray) -> list[tuple[int, int]]:
    """Where a row of dots is dark for more than 10 mm at 508 dpi."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(int), [0])))).tolist()
    return [(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 200]


@pytest.mark.parametrize("side", ["up", "down"])
def test_films_are_punched_for_the_pins_of_the_shop(tmp_path: Path, side: str) -> None:
    """On the raster of pdfium: the level lines of the two crosses, on every film in the same columns of the page."""
    shop = "panelart-shop: 1\nshop: Haldon Marking\npins: {diameter: 6, apart: 120}\n"
    (tmp_path / "haldon.yaml").write_text(shop, encoding="utf-8")
    marking = SCREEN + f"  emulsion: {side}\n  shop: haldon.yaml\n"
    made = write(build(panel_from_text(HEAD + marking + REST, folder=tmp_path)), only=["film"])
    found = set()
    for data in made.values():
        dark = pixels(data, 508) < 128
        level = {row: runs for row in range(len(dark)) if len(runs := long_runs(dark[row])) == 2}
        row = max(level)
        assert [b - a for a, b in level[row]] == pytest.approx([12.0 * 20] * 2, abs=3)
        found.add((row, *level[row]))
    assert len(made) == 3
    assert len(found) == 1
    ((_, left, right),) = found
    assert (sum(right) - sum(left)) / 2 / 20 == pytest.approx(120.0, abs=0.05)


def test_emulsion_down_is_the_mirror_image_and_says_so() -> None:
    up, down = (files(SCREEN + f"  emulsion: {side}\n") for side in ("up", "down"))
    one, other = pixels(up["film-white.pdf"]), pixels(down["film-white.pdf"])

    def face(data: bytes, grey: np.ndarray) -> np.ndarray:
        """What lies within the trim, at 10 pixels a mm."""
        with pikepdf.open(io.BytesIO(data)) as file:
            left, bottom, right, top = (float(v) / 72 * 254 for v in file.pages[0].TrimBox)
            height = float(file.pages[0].MediaBox[3]) / 72 * 254
        return grey[round(height - top) : round(height - bottom), round(left) : round(right)] < 128

    straight, mirrored = face(up["film-white.pdf"], one), face(down["film-white.pdf"], other)
    assert straight.sum() > 1000
    assert strangers(straight[:, ::-1], mirrored) == 0
    assert strangers(straight, mirrored) > 500
    with pikepdf.open(io.BytesIO(down["film-white.pdf"])) as file:
        assert "emulsion down (mirrored)" in str(file.docinfo["/Subject"])
    station = next(s for s in stations(layout(SCREEN + "  emulsion: down\n")) if s.name == "Screen print")
    assert "emulsion down, mirrored" in " ".join(map(str, station.steps))


# --- engraving

ENGRAVED = '  process: engraving\n  ink: {name: white, colour: "#FFFFFF"}\n  lettering: {cap_height: 4}\n'


def swept(marking: str) -> tuple[shapely.Geometry, shapely.Geometry]:
    """The metal that the cutters take, and the marking as it is drawn."""
    found = layout(marking)
    plan = engraving_plan(found, found.panel.marking.printing.engraving)
    taken = united(pen_area(path, cut.cutter) for cut in plan.cuts for path in cut.paths)
    drawn = united([*(area_of(legend.shape) for legend in found.legends), *(mark_area(mark) for mark in found.marks)])
    return taken, drawn


@pytest.mark.few(1)
@pytest.mark.parametrize("more", [
    "  engraving: {cutters: [0.4]}\n",  # as wide as the pen: one pass is the letter itself
    "  engraving: {cutters: [0.1], fill: contour}\n",
    "  engraving: {cutters: [0.1], fill: hatch, angle: 30}\n",
])  # fmt: skip
def test_what_the_cutter_takes_is_the_lettering(more: str) -> None:
    taken, drawn = swept(ENGRAVED + more)
    # The 3.2 mm texts of the arc have a pen of 0.3, which a cutter of 0.4 makes wider by 0.05 on either side.
    slack = 0.06 if "0.4" in more else 0.01
    assert shapely.difference(taken, grown(drawn, slack)).area < 0.002 * drawn.area
    assert shapely.difference(drawn, grown(taken, 0.03)).area < 0.002 * drawn.area


def test_own_letters_are_followed_along_the_pen_with_arcs() -> None:
    found = layout(ENGRAVED)
    plan = engraving_plan(found, found.panel.marking.printing.engraving)
    curves = [curve for cut in plan.cuts for path in cut.paths for curve in path.curves]
    assert any(type(curve).__name__ == "Arc" for curve in curves)
    assert not any(type(curve).__name__ == "Cubic" for curve in curves)
    assert plan.uncut == 0


@pytest.mark.parametrize(("width", "cutter"), [(0.4, 0.4), (0.39, 0.3), (0.2, 0.2), (0.19, 0.2), (5.0, 1.0)])
def test_the_widest_cutter_that_is_no_wider(width: float, cutter: float) -> None:
    assert cutter_for(width, (0.2, 0.3, 0.4, 1.0)) == cutter


def test_a_line_much_wider_than_the_cutter_takes_more_passes() -> None:
    one = engraving_plan(
        layout(ENGRAVED + "  cutter: 0.3\n"), layout(ENGRAVED + "  cutter: 0.3\n").panel.marking.printing.engraving
    )
    two = engraving_plan(
        layout(ENGRAVED + "  cutter: 0.25\n"), layout(ENGRAVED + "  cutter: 0.25\n").panel.marking.printing.engraving
    )
    assert 0.25 < ONE_PASS * 0.4 == pytest.approx(0.3)
    assert math.fsum(cut.length for cut in two.cuts) > 1.5 * math.fsum(cut.length for cut in one.cuts)


def test_the_dxf_keeps_the_cutting_order_and_two_readers_accept_it(tmp_path: Path) -> None:
    made = files(ENGRAVED)
    (tmp_path / "e.dxf").write_bytes(made["engraving.dxf"])
    document = ezdxf.readfile(tmp_path / "e.dxf")
    assert document.audit().errors == []
    found = layout(ENGRAVED)
    plan = engraving_plan(found, found.panel.marking.printing.engraving)
    wanted = [(path.curves[0].start.x, path.curves[0].start.y) for cut in plan.cuts for path in cut.paths]
    lines = [e for e in document.modelspace() if e.dxf.layer.startswith("engrave-") and e.dxftype() == "LWPOLYLINE"]
    starts = [tuple(line.get_points("xy")[0]) for line in lines]
    kept = [start for start in wanted if any(math.dist(start, other) < 1e-5 for other in starts)]
    assert [tuple(round(v, 4) for v in start) for start in starts] == [
        tuple(round(v, 4) for v in start) for start in kept
    ]
    assert {e.dxf.layer for e in document.modelspace()} >= {"engrave-0.4", "edge"}


def test_travel_is_told_and_shorter_than_as_drawn() -> None:
    found = layout(ENGRAVED)
    plan = engraving_plan(found, found.panel.marking.printing.engraving)
    assert sum(cut.travel for cut in plan.cuts) < sum(cut.unordered for cut in plan.cuts)
    text = files(ENGRAVED)["engraving.svg"].decode()
    assert f"{plan.cuts[0].travel / 1000:.2f} m travel" in text
    assert "Depth 0.2 mm" in text


def test_another_fonts_letters_are_cleared_as_areas(tmp_path: Path) -> None:
    other = next(iter(sorted(Path("/usr/share/fonts").rglob("*.ttf"))), None)
    if other is None:
        pytest.skip("there is no other font here")
    shutil.copy(other, tmp_path / "other.ttf")
    text = (
        HEAD
        + ENGRAVED.replace("cap_height: 4", "font: other.ttf, cap_height: 8")
        + "  cutter: 0.2\ntexts: [{text: HI, at: [10, 10]}]\n"
    )
    found = lay_out(panel_from_text(text, folder=tmp_path))
    plan = engraving_plan(found, found.panel.marking.printing.engraving)
    taken = united(pen_area(path, cut.cutter) for cut in plan.cuts for path in cut.paths)
    drawn = united(area_of(legend.shape) for legend in found.legends)
    assert taken.area == pytest.approx(drawn.area, rel=0.02)


# --- laser

BURNT = '  process: laser-marking\n  ink: {name: burnt, colour: "#202020"}\n  lettering: {cap_height: 4}\n'


@pytest.mark.parametrize("angle", [0, 37])
def test_lines_fill_the_marking_at_their_distance(angle: float) -> None:
    found = layout(BURNT + f"  laser: {{spacing: 0.1, beam: 0.1, angle: {angle}}}\n")
    plan = burn_plan(found, found.panel.marking.printing.laser)
    burnt = united(pen_area(path, 0.1) for path in plan.paths)
    drawn = united([*(area_of(legend.shape) for legend in found.legends), *(mark_area(mark) for mark in found.marks)])
    assert shapely.difference(burnt, grown(drawn, 0.005)).area < 0.002 * drawn.area
    assert burnt.area == pytest.approx(drawn.area, rel=0.03)
    rows = sorted({
        round(line.start.y * math.cos(math.radians(angle)) - line.start.x * math.sin(math.radians(angle)), 4)
        for path in plan.paths if not path.closed for line in path.curves
    })  # fmt: skip
    steps = {round((b - a) / 0.1, 3) for a, b in pairwise(rows)}
    assert all(step == int(step) for step in steps)
    assert plan.travel < plan.unordered


def test_the_raster_has_the_dots_and_their_size() -> None:
    made = files(BURNT + "  laser: {fill: raster, spacing: 0.05}\n")
    found = layout(BURNT + "  laser: {fill: raster, spacing: 0.05}\n")
    with Image.open(io.BytesIO(made["laser.png"])) as picture:
        assert picture.mode == "1"
        assert picture.size == (1600, 1000)
        assert picture.info["dpi"][0] == pytest.approx(508, abs=0.02)
        black = (~np.asarray(picture)).sum()
    drawn = united([*(area_of(legend.shape) for legend in found.legends), *(mark_area(mark) for mark in found.marks)])
    # A dot that is covered by just a half is black: strokes whose edges lie on half dots come out a little wider.
    assert black * 0.05**2 == pytest.approx(drawn.area, rel=0.02)
    assert found.panel.marking.printing.laser.filling is Filling.RASTER


# --- overlay

FILM = (
    '  process: overlay\n  inks: [{name: black, colour: "#101010"}]\n'
    "  backgrounds: [{ink: black, area: {rectangle: [0, 0, 80, 8]}}]\n"
    "  overlay: {inset: 1, corner: 4, nut_margin: 0.8, window_margin: 0.3, adhesive_margin: 0.7,"
    " adhesive_free: [{circle: [70, 40, 6]}], colour: '#E8E8E8'MORE}\n"
)


def film(more: str = "") -> str:
    return FILM.replace("MORE", more)


def test_the_film_lies_inside_the_panel_with_round_corners() -> None:
    found = layout(film())
    outline = overlay_outline(found, found.panel.marking.printing.overlay)
    assert outline.bounds == found.panel.outline.bounds.grown(-1)
    assert area_of((_loop(outline),)).area == pytest.approx(78 * 48 - (4 - math.pi) * 16, rel=1e-4)


def test_the_film_follows_a_face_of_another_form() -> None:
    from msgspec.structs import replace

    from panelart.geometry import Point, polygon

    found = layout(film())
    corners = [Point(0, 0), Point(80, 0), Point(80, 30), Point(60, 50), Point(0, 50)]
    panel = replace(found.panel, outline=polygon(corners, 3.0))
    outline = overlay_outline(replace(found, panel=panel), panel.marking.printing.overlay)
    face = shapely.Polygon(flattened(_loop(panel.outline)))
    edge = shapely.Polygon(flattened(_loop(outline)))
    assert shapely.symmetric_difference(edge, face.buffer(-1, quad_segs=64)).area < 0.001 * edge.area


def _loop(contour):
    from panelart.lettering.outline import Loop

    return Loop(contour.segments)


def test_windows_clear_what_turns_and_openings_by_their_margins() -> None:
    found = layout(film())
    overlay = found.panel.marking.printing.overlay
    cut = {window.name: window for window in windows(found, overlay)}
    ring = next(e for e in found.envelopes if e.ref == "S1" and e.what == "locking ring")
    window = shapely.Polygon(flattened(_loop(cut["S1 locking ring"].contour)))
    inner = shapely.Polygon(flattened(_loop(ring.contour)))
    # The window holds the ring grown by its margin, and no more.
    assert shapely.symmetric_difference(window, inner.buffer(0.8, quad_segs=64)).area < 0.001 * window.area
    opening = next(o for o in found.openings if o.ref == "J1").finished
    assert cut["J1"].contour.bounds.width == pytest.approx(opening.bounds.width + 0.6, abs=1e-6)
    # The switch's nut and opening lie in that window and have none of their own.
    assert [name for name in cut if name.startswith("S1")] == ["S1 locking ring"]


def test_adhesive_stops_short_and_leaves_out_what_is_free() -> None:
    found = layout(film())
    overlay = found.panel.marking.printing.overlay
    glue, whole = adhesive_area(found, overlay), overlay_area(found, overlay)
    assert shapely.distance(shapely.boundary(glue), shapely.boundary(whole)) == pytest.approx(0.7, abs=0.002)
    assert not shapely.intersects(glue, shapely.Point(70, 40).buffer(2.99))
    assert square_cm(glue) < square_cm(whole)


def test_the_kiss_cut_is_a_partial_cut_and_the_edge_comes_last(tmp_path: Path) -> None:
    made = files(film())
    with pikepdf.open(io.BytesIO(made["overlay.pdf"])) as file:
        steps = {
            str(g.Name): (str(g.GTS_Metadata.GTS_ProcStepsGroup), str(g.GTS_Metadata.get("/GTS_ProcStepsType", "")))
            for g in file.Root.OCProperties.OCGs
            if "/GTS_Metadata" in g
        }
    assert steps["kiss-cut"] == ("/Structural", "/PartialCutting")
    assert steps["adhesive"] == ("/Structural", "/Gluing")
    (tmp_path / "k.dxf").write_bytes(made["overlay-cut.dxf"])
    document = ezdxf.readfile(tmp_path / "k.dxf")
    assert document.audit().errors == []
    last = list(document.modelspace())[-1]
    xs = [x for x, _ in last.get_points("xy")]
    assert (min(xs), max(xs)) == pytest.approx((1, 79))


def test_reverse_print_is_mirrored() -> None:
    plain, reverse = files(film()), files(film(", reverse: true"))

    def face(data: bytes) -> np.ndarray:
        """The label film alone, so that its dots do not depend on where it is on the page, lines in their middles."""
        cropped = io.BytesIO()
        margin = 0.45 * 72 / 127  # half a dot, less what would make a dot more of a sum
        with pikepdf.open(io.BytesIO(data)) as file:
            left, bottom, right, top = map(float, file.pages[0].TrimBox)
            file.pages[0].MediaBox = pikepdf.Array([left - margin, bottom - margin, right + margin, top + margin])
            file.save(cropped)
        return pixels(cropped.getvalue(), 127) < 128

    straight, mirrored = face(plain["overlay.pdf"]), face(reverse["overlay.pdf"])
    assert strangers(straight[:, ::-1], mirrored) < 20  # hairlines of the cut may miss their pixel
    assert strangers(straight, mirrored) > 500
    with pikepdf.open(io.BytesIO(reverse["overlay.pdf"])) as file:
        assert "mirrored, seen from the rear" in str(file.docinfo["/Subject"])


def test_narrow_bridges_of_film_are_found() -> None:
    found = layout(film())
    overlay = found.panel.marking.printing.overlay
    assert bridges(found, overlay, 2.0) == ()
    wide = bridges(found, overlay, 30.0)
    pair = next(bridge for bridge in wide if {"S1", "J1"} == set(bridge.refs))
    a, b = (shapely.Polygon(flattened(_loop(w.contour))) for w in windows(found, overlay))
    assert pair.width == pytest.approx(shapely.distance(a, b), abs=0.005)


# --- every file by two readers


@needs_poppler
@needs_ghostscript
@pytest.mark.few(1)
@pytest.mark.parametrize("marking", [SCREEN, ENGRAVED, BURNT, film()], ids=["screen", "engraving", "laser", "overlay"])
def test_every_print_file_opens_in_two_readers_without_a_warning(tmp_path: Path, marking: str) -> None:
    found = files(marking)
    prints = [name for name in found if name.endswith(".pdf") and name.startswith(("film-", "overlay", "artwork"))]
    for name in prints:
        (tmp_path / name).write_bytes(found[name])
        for run in (["pdftoppm", "-r", "40", "-png", "-singlefile", name, "x"],
                    ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=nullpage", name]):  # fmt: skip
            done = subprocess.run(run, cwd=tmp_path, capture_output=True, text=True, check=True)
            assert done.stdout + done.stderr == "", (name, run[0])
        with pikepdf.open(io.BytesIO(found[name])) as file:
            assert file.check_pdf_syntax() == []
    assert write(fresh(marking)) == found
