"""The files of one panel against each other and against readers written elsewhere."""

from __future__ import annotations

import io
import math
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import ezdxf
import numpy as np
import pikepdf
import pypdfium2
import pytest
from lxml import etree

from panelart.pipeline import build, panel_files, read, write
from panelart.spec.read import panel_from_text

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "demo" / "bench-supply.yaml"
SVG = "{http://www.w3.org/2000/svg}"

HEAD = """\
panelart: 1
panel:
  title: Trial
  size: [120, 60]
  sheet: {{material: aluminium, thickness: 2}}
  coat: {{kind: powder, thickness: {film}, colour: "#E8E8E8"}}
marking:
  process: digital-print
  ink: {{name: black, colour: "#000000"}}
  lettering: {{cap_height: {cap}}}
  viewing_distance: 500
"""


def panel(parts: str = "", *, film: float = 0.0, cap: float = 3.0, more: str = ""):
    text = HEAD.format(film=film, cap=cap) + (f"parts:\n{parts}" if parts else "") + more
    return panel_from_text(text)


def circles_in_dxf(data: bytes) -> list[tuple[float, float, float]]:
    """Every CIRCLE on the layer of the cutouts, by ezdxf."""
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    assert document.units == ezdxf.units.MM
    assert not document.audit().errors
    return sorted(
        (round(c.dxf.center.x, 6), round(c.dxf.center.y, 6), round(c.dxf.radius, 6))
        for c in document.modelspace().query("CIRCLE[layer=='cutouts']")
    )


def circles_in_svg(data: bytes, page_left: float, page_bottom: float) -> list[tuple[float, float, float]]:
    """Every <circle> of the layer of the cutouts, by lxml, turned to panel coordinates."""
    root = etree.fromstring(data)
    page_top = page_bottom + float(root.get("viewBox").split()[3])
    (group,) = [g for g in root.iter(f"{SVG}g") if g.get("id") == "cutouts"]
    return sorted(
        (float(c.get("cx")) + page_left, page_top - float(c.get("cy")), float(c.get("r")))
        for c in group.iter(f"{SVG}circle")
    )


def subpaths_in_pdf(data: bytes, layer: str) -> Iterator[np.ndarray]:
    """The end points of every subpath on one layer, in mm from the trim box's corner, by walking the operators."""
    file = pikepdf.open(io.BytesIO(data))
    page = file.pages[0]
    corner = np.array([float(page.trimbox[0]), float(page.trimbox[1])])
    groups = {str(name): str(group.Name) for name, group in page.Resources.Properties.items()}
    matrix, stack, marked = np.eye(3), [], []
    subpaths: list[list[tuple[float, float, float]]] = []
    for operands, operator in pikepdf.parse_content_stream(page):
        match str(operator):
            case "q":
                stack.append(matrix)
            case "Q":
                matrix = stack.pop()
            case "cm":
                a, b, c, d, e, f = map(float, operands)
                matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
            case "BDC":
                marked.append(groups.get(str(operands[1]), "") if str(operands[0]) == "/OC" else "")
            case "BMC":
                marked.append("")
            case "EMC":
                marked.pop()
            case "m":
                subpaths.append([(float(operands[0]), float(operands[1]), 1.0)])
            case "l" | "c":
                subpaths[-1].append((float(operands[-2]), float(operands[-1]), 1.0))
            case "S" | "s" | "f" | "f*" | "B" | "b" | "n":
                if layer in marked:
                    for subpath in subpaths:
                        yield ((np.array(subpath) @ matrix)[:, :2] - corner) * 25.4 / 72
                subpaths = []


def circles_in_pdf(data: bytes) -> list[tuple[float, float, float]]:
    """Subpaths of eight points and more, all of them equally far from their middle."""
    found = []
    for points in subpaths_in_pdf(data, "cutouts"):
        middle = (points.min(axis=0) + points.max(axis=0)) / 2
        far = np.hypot(*(points - middle).T)
        if len(points) >= 8 and np.ptp(far) < 0.002:
            found.append((float(middle[0]), float(middle[1]), float(far.mean())))
    return sorted(found, key=lambda circle: tuple(round(figure, 2) for figure in circle))


@pytest.fixture(scope="module")
def demo() -> dict[str, bytes]:
    return write(build(read(DEMO)))


def test_the_cut_layer_is_the_same_in_dxf_svg_and_pdf(demo) -> None:
    """Read back by ezdxf, lxml and pikepdf: every round hole to 0.001 mm."""
    dxf = circles_in_dxf(demo["cutouts.dxf"])
    # The cut outline is smaller than the finished face by the film of 0.08 on every edge; 10 mm of paper round it.
    svg = circles_in_svg(demo["cutouts.svg"], 0.08 - 10.0, 0.08 - 10.0)
    pdf = [(x + 0.08, y + 0.08, r) for x, y, r in circles_in_pdf(demo["cutouts.pdf"])]
    assert len(dxf) == 14
    assert np.allclose(dxf, svg, atol=1e-3)
    assert np.allclose(dxf, pdf, atol=1e-3)


def test_artwork_has_the_same_holes_at_finished_size(demo) -> None:
    """The same middles to 0.001 mm in both artworks and the cut layer; radii differ by the film of 0.08."""
    cut = np.array(circles_in_dxf(demo["cutouts.dxf"]))
    svg = np.array(circles_in_svg(demo["artwork.svg"], -10.0, -10.0))
    pdf = np.array(circles_in_pdf(demo["artwork.pdf"]))
    for finished in (svg, pdf):
        assert np.allclose(finished[:, :2], cut[:, :2], atol=1e-3)
        assert np.allclose(finished[:, 2] + 0.08, cut[:, 2], atol=1e-3)


def test_the_trim_box_is_the_finished_face(demo) -> None:
    page = pypdfium2.PdfDocument(demo["artwork.pdf"])[0]
    left, bottom, right, top = page.get_trimbox()
    assert ((right - left) * 25.4 / 72, (top - bottom) * 25.4 / 72) == pytest.approx((260, 110), abs=1e-3)


def test_inks_are_separations_and_layers_are_named(demo) -> None:
    pdf = pikepdf.open(io.BytesIO(demo["artwork.pdf"]))
    spaces = [space for space in pdf.pages[0].Resources.ColorSpace.values() if str(space[0]) == "/Separation"]
    assert {str(space[1]) for space in spaces} == {"/ground", "/base", "/white", "/amber", "/cut"}
    assert {str(group.Name) for group in pdf.Root.OCProperties.OCGs} == {
        "ground", "base", "legend-white", "legend-amber", "cutouts", "outline", "notes",
    }  # fmt: skip
    off = [str(group.Name) for group in pdf.Root.OCProperties.OCGs if "/Usage" in group]
    assert off == ["ground", "notes"], "shown and not printed"


@pytest.mark.few(1)
@pytest.mark.parametrize("cap", [2.5, 3.0, 5.0])
def test_capitals_are_as_high_on_the_raster_as_was_asked(cap: float) -> None:
    """pdfium draws the artwork at 1200 dpi; the rows with ink of a row of flat capitals are counted."""
    made = panel(more=f"texts:\n  - {{text: HEFT, at: [20, 30], cap_height: {cap}}}\n")
    art = panel_files(build(made))["artwork.pdf"]
    page = pypdfium2.PdfDocument(art)[0]
    px = 1200 / 25.4
    grey = np.asarray(page.render(scale=1200 / 72).to_pil().convert("L"), dtype=float)
    slug = 10.0  # round the trim, mm
    rows, columns = (
        slice(int((slug + 60 - 30 - cap - 1) * px), int((slug + 60 - 30 + 1) * px)),
        slice(int((slug + 19) * px), int((slug + 20 + 4 * cap) * px)),
    )
    inked = np.flatnonzero((grey[rows, columns] < 128).any(axis=1))
    assert (inked[-1] - inked[0] + 1) / px == pytest.approx(cap, abs=0.05)


def test_scale_numerals_stand_on_their_true_angles(demo) -> None:
    """RV1 of the demo: 0 to 30 V over the 270 degrees of its part about (87, 34). Marks read from the PDF, by atan2."""
    centre = np.array([87.0, 34.0])
    angles = []
    for points in subpaths_in_pdf(demo["artwork.pdf"], "legend-white"):
        if len(points) != 2:
            continue
        far = np.hypot(*(points - centre).T)
        if far.max() < 17.0 and far.min() > 11.0:
            angles.append(math.degrees(math.atan2(*(points[far.argmax()] - centre)[::-1])) % 360)
    expected = {(225 - 9 * volt) % 360 for volt in range(31)}
    assert len(angles) == 31
    assert {round(angle) % 360 for angle in angles} == expected
    assert all(abs(angle - round(angle)) < 0.02 for angle in angles)


def test_same_spec_same_bytes_whatever_the_machine_is_set_to(tmp_path) -> None:
    """Two processes with different hash seeds, locales, time zones and working folders."""
    script = (
        "import sys, hashlib; from pathlib import Path; from panelart.pipeline import *\n"
        "files = write(build(read(Path(sys.argv[1]))), date='2026-01-31', rear=True)\n"
        "print(*(f'{n} {hashlib.sha256(d).hexdigest()}' for n, d in files.items()), sep='\\n')"
    )
    runs = []
    for seed, zone, locale, folder, spec in (
        ("1", "UTC", "C.UTF-8", tmp_path, str(DEMO)),
        ("4242", "Asia/Kolkata", "C", DEMO.parent, DEMO.name),
    ):
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": locale, "PYTHONPATH": str(ROOT)}
        run = subprocess.run(
            [sys.executable, "-c", script, spec], env=env, cwd=folder, capture_output=True, text=True, check=True
        )
        runs.append(run.stdout)
    assert runs[0] == runs[1]
    assert {"cutouts.dxf", "proof.pdf", "panel.json"} <= {line.split()[0] for line in runs[0].splitlines()}


def test_from_the_rear_left_and_right_change_places() -> None:
    """The handed screw holes of the XLR flange (19 x 24 apart, IEC 61076-2-103 and common practice)."""
    files = write(build(panel("  - {ref: J1, part: xlr, at: [30, 30]}")), rear=True)
    front, rear = (circles_in_dxf(files[name]) for name in ("cutouts.dxf", "cutouts-from-rear.dxf"))
    assert front != rear
    assert sorted((round(120 - x, 6), y, r) for x, y, r in front) == rear
    assert b"Seen from the rear" in files["cutouts-from-rear.svg"]
    assert b"Seen from the rear" in files["cutouts-from-rear.dxf"]


HOLES = [
    # part, x from the part's middle, y, diameter: figures of the standards named, not read from the catalogue
    ("screw-m3", 0, 0, 3.4, "ISO 273:1979, medium series, M3"),
    ("screw-m4", 0, 0, 4.5, "ISO 273:1979, medium series, M4"),
    ("screw-m3-fine", 0, 0, 3.2, "ISO 273:1979, fine series, M3"),
    ("pushbutton-22", 0, 0, 22.3, "IEC 60947-5-1, D22: 22.3 +0.4"),
    ("dsub-9", 12.495, 0, 3.1, "IEC 60807-2, shell E: fixing pitch 24.99"),
    ("dsub-25", 23.52, 0, 3.1, "IEC 60807-2, shell B: fixing pitch 47.04"),
    ("dsub-15", 16.66, 0, 3.1, "IEC 60807-2, shell A: fixing pitch 33.32"),
]


@pytest.mark.few(2)
@pytest.mark.parametrize(("part", "x", "y", "diameter", "source"), HOLES, ids=[hole[0] for hole in HOLES])
def test_standard_holes_are_cut_where_the_standard_has_them(part, x, y, diameter, source) -> None:
    film = 0.1
    files = write(build(panel(f"  - {{ref: X1, part: {part}, at: [60, 30]}}", film=film)))
    assert any(
        (cx, cy, 2 * r) == pytest.approx((60 + x, 30 + y, diameter + 2 * film), abs=1e-3)
        for cx, cy, r in circles_in_dxf(files["cutouts.dxf"])
    ), source


def test_a_96_mm_meter_is_cut_92_square() -> None:
    """IEC 61554:1999: a 96 x 96 bezel takes a cutout of 92 +0.8/0; read from the DXF by ezdxf."""
    text = HEAD.format(film=0.0, cap=3.0).replace("[120, 60]", "[120, 110]")
    made = panel_from_text(text + "parts:\n  - {ref: M1, part: meter-96x96, at: [60, 55]}\n")
    files = write(build(made))
    document = ezdxf.read(io.StringIO(files["cutouts.dxf"].decode("utf-8")))
    (square,) = document.modelspace().query("LWPOLYLINE[layer=='cutouts']")
    xs, ys = zip(*((x, y) for x, y, *_ in square.get_points()), strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((92, 92))


@pytest.mark.few(1)
@pytest.mark.parametrize(("units", "height"), [(1, 43.66), (2, 88.11), (3, 132.56)])
def test_a_rack_panel_is_as_high_as_the_standard_has_it(units: int, height: float) -> None:
    """IEC 60297-3-100: 482.6 wide, 44.45 n - 0.79 high; the written outline measured by ezdxf."""
    text = HEAD.format(film=0.0, cap=3.0).replace("[120, 60]", f"{{rack: {units}}}")
    files = write(build(panel_from_text(text)))
    document = ezdxf.read(io.StringIO(files["cutouts.dxf"].decode("utf-8")))
    (outline,) = document.modelspace().query("LWPOLYLINE[layer=='outline']")
    xs, ys = zip(*((x, y) for x, y, *_ in outline.get_points()), strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((482.6, height), abs=1e-6)
