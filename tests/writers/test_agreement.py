"""The same drawing from every writer: same points, same areas, same picture, same bytes every run."""

from __future__ import annotations

import io
import math
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pypdfium2
import pytest
import resvg_py
from msgspec.structs import replace
from PIL import Image
from shapely import LineString
from shapely import Point as Spot

from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Box, Point, Vector, polygon
from panelart.lettering.outline import shape_of
from panelart.writers import dxf, pdf, png, svg
from tests.readers import needs_ghostscript, needs_poppler
from tests.writers.readers import dxf_drawn, off_by, pdf_drawn, svg_drawn
from tests.writers.sample import CUTOUTS, OUTLINE, sample

Picture = npt.NDArray[np.uint8]
DPI = 300


def by_pdfium(data: bytes, dpi: float = DPI) -> Picture:
    return np.asarray(pypdfium2.PdfDocument(data)[0].render(scale=dpi / 72).to_pil().convert("RGB"))


def by_poppler(data: bytes, folder: Path) -> Picture:
    (folder / "p.pdf").write_bytes(data)
    subprocess.run(["pdftocairo", "-png", "-r", str(DPI), "-singlefile", "p.pdf", "p"], cwd=folder, check=True)
    return np.asarray(Image.open(folder / "p.png").convert("RGB"))


def by_resvg(drawing: Drawing, dpi: float = DPI) -> Picture:
    painted = resvg_py.svg_to_bytes(svg_string=svg(drawing).decode("utf-8"), dpi=dpi, background="white")
    return np.asarray(Image.open(io.BytesIO(bytes(painted))).convert("RGB"))


def share_apart(a: Picture, b: Picture) -> float:
    """The share of pixels of which a channel differs by more than 64 levels."""
    assert a.shape == b.shape
    return float((np.abs(a.astype(int) - b.astype(int)).max(axis=2) > 64).mean())


def test_pdf_and_svg_look_the_same() -> None:
    found = share_apart(by_pdfium(pdf([sample()])), by_resvg(sample()))
    assert found < 0.001, f"{found:.4%}"


def test_the_picture_is_that_of_the_svg() -> None:
    """Painted by another library from another file; lines below a pixel are drawn a pixel wide."""
    picture = np.asarray(Image.open(io.BytesIO(png(sample(), DPI))).convert("RGB"))
    assert share_apart(picture, by_resvg(sample())) < 0.001


@pytest.mark.few(3)
@pytest.mark.parametrize("layer", [layer.name for layer in sample().layers])
def test_every_layer_looks_the_same(layer: str) -> None:
    only = sample().only(layer)
    pdf_picture, svg_picture = by_pdfium(pdf([only])), by_resvg(only)
    assert (svg_picture < 250).any(), "something shows"
    # A layer covers less of the page than the whole, so it may differ in fewer pixels.
    assert share_apart(pdf_picture, svg_picture) < 0.0001


@pytest.mark.parametrize("apex", [10, 20, 40, 120])
def test_corners_of_thick_lines_look_the_same_however_sharp(apex: float) -> None:
    # 20 degrees lies between the two formats' own limits for mitred corners: 29 in SVG, 11.5 in PDF.
    half = math.radians(apex / 2)
    back = 70 - 20 * math.cos(half)
    points = [Point(70, 25), Point(back, 25 + 20 * math.sin(half)), Point(back, 25 - 20 * math.sin(half))]
    item = Item(shape=shape_of(polygon(points)), stroke=Paint(colour="#000000"), width=2.5)
    page = Box(0, 0, 101.6, 50.8)
    drawing = Drawing(title="T", note="N", page=page, trim=page, layers=(Layer(name="a", items=(item,)),))
    assert share_apart(by_pdfium(pdf([drawing])), by_resvg(drawing)) < 0.0001


@needs_poppler
def test_poppler_agrees(tmp_path: Path) -> None:
    assert share_apart(by_poppler(pdf([sample()]), tmp_path), by_resvg(sample())) < 0.001


def test_a_shape_moved_by_a_tenth_of_a_millimetre_would_be_seen() -> None:
    # The bound is only worth something if it is broken by what it is to find.
    moved = replace(sample(), page=replace(sample().page, left=-7.1, right=246.9))
    assert share_apart(by_pdfium(pdf([sample()])), by_resvg(moved)) > 0.001


def inked(picture: Picture, paint: tuple[int, int, int], dpi: float) -> float:
    """Square mm covered by a paint on white, edge pixels by their share, from the channel it darkens most."""
    channel = int(np.argmin(paint))
    share = (255.0 - picture[:, :, channel].astype(float)) / (255 - paint[channel])
    return float(share.sum()) * (25.4 / dpi) ** 2


@pytest.mark.few(1)
@pytest.mark.parametrize("reader", ["pdfium", "resvg"])
def test_painted_areas_are_those_of_the_shapes(reader: str) -> None:
    def picture(layer: str) -> Picture:
        only = sample().only(layer)
        return by_pdfium(pdf([only]), 600) if reader == "pdfium" else by_resvg(only, 600)

    turned = LineString([(0, 0), (22, 0)]).buffer(4, quad_segs=512).area
    assert inked(picture("legend-red"), (0xC8, 0x20, 0x1A), 600) == pytest.approx(turned, rel=0.002)
    corner = Spot(0, 0).buffer(5, quad_segs=512).area
    base = 80 * 40 - (100 - corner)
    assert inked(picture("base"), (0xE9, 0xE9, 0xE4), 600) == pytest.approx(base, rel=0.002)


def test_artwork_and_cutouts_agree_to_a_micrometre_in_all_three_formats() -> None:
    drawing = sample().only("cutouts", "outline")
    corner = Vector(drawing.page.left, drawing.page.bottom)

    def on_the_panel(loop: list[Point]) -> list[Point]:
        return [point.moved(corner) for point in loop]

    files = {
        "PDF": [on_the_panel(found.loops[0]) for found in pdf_drawn(pdf([drawing]))],
        "SVG": [on_the_panel(found.loops[0]) for found in svg_drawn(svg(drawing))],
        "DXF": [found.loops[0] for found in dxf_drawn(dxf(drawing))],
    }
    for loops in files.values():
        assert len(loops) == len(CUTOUTS) + 1
        for contour in (*CUTOUTS, OUTLINE):
            assert [off_by(loop, contour) < 0.001 for loop in loops].count(True) == 1


SCRIPT = """
import hashlib
from panelart.writers import dxf, pdf, png, svg
from tests.writers.sample import sample
d = sample()
cut = d.only("cutouts", "outline")
for data in (svg(d), pdf([d, d.only("base")], date="2031-02-03"), pdf([d]), dxf(cut), png(d, 100)):
    print(hashlib.sha256(data).hexdigest())
"""


def test_the_same_bytes_in_other_surroundings() -> None:
    root = Path(__file__).parents[2]
    surroundings = [
        {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
        {
            "PYTHONHASHSEED": "4711",
            "TZ": "Pacific/Auckland",
            "LC_ALL": "de_DE.UTF-8",
            "SOURCE_DATE_EPOCH": "1000000000",
        },
    ]
    runs = []
    for added in surroundings:
        environment = {**os.environ, **added, "PYTHONPATH": os.pathsep.join(sys.path)}
        told = subprocess.run(
            [sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True, env=environment, cwd=root
        )
        runs.append(told.stdout.split())
    assert len(runs[0]) == 5
    assert runs[0] == runs[1]


def test_importing_the_writers_loads_no_library() -> None:
    script = (
        "import sys, panelart.writers\n"
        "heavy = {'reportlab', 'pikepdf', 'svgwrite', 'ezdxf', 'resvg_py', 'shapely', 'numpy', 'xml'}\n"
        "print(*heavy & set(sys.modules))"
    )
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=environment)
    assert told.stdout.split() == []


@needs_ghostscript
def test_ghostscript_agrees_about_the_cut_layers(tmp_path: Path) -> None:
    only = sample().only("cutouts", "outline")
    (tmp_path / "p.pdf").write_bytes(pdf([only]))
    command = f"gs -q -dNOPAUSE -dBATCH -dSAFER -sDEVICE=png16m -dGraphicsAlphaBits=4 -r{DPI} -o p.png p.pdf"
    subprocess.run(command.split(), cwd=tmp_path, check=True)
    picture = np.asarray(Image.open(tmp_path / "p.png").convert("RGB"))
    assert share_apart(picture, by_resvg(only)) < 0.003
