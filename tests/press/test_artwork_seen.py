"""The artwork shows one thing in every format: SVG in Chromium and resvg, PDF in poppler and pdfium, plates in gs.

What an ink spreads under a darker one (the trap) is on its plate and is seen in no format. Inks alone are compared,
without the hairlines of cuts and the colour of the face, which each format shows in its own way.
"""

from __future__ import annotations

import io
import subprocess
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
import resvg_py
from PIL import Image

from panelart.drawing.artwork import artwork, without_traps
from panelart.drawing.representation import Drawing
from panelart.marking.separation import Separations, separations
from panelart.pipeline import lay_out, read
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, svg
from tests.press.test_plates import GROUND, parted, spec, strangers
from tests.readers import CHROMIUM, needs_chromium, needs_ghostscript, needs_poppler

ROOT = Path(__file__).parents[2]
DEMOS = sorted(path for path in (ROOT / "demo").glob("*.yaml") if b"panelart-" not in path.read_bytes()[:400])
DPI = 254
WORDS = "  backgrounds: [{ink: deep blue}]\n"


def inks(found: Separations) -> Drawing:
    drawing = artwork(found.layout, found)
    return drawing.only(*(layer.name for layer in drawing.layers if layer.name not in ("cutouts", "outline")))


def in_poppler(data: bytes, folder: Path) -> np.ndarray:
    (folder / "a.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-singlefile", "-png", "a.pdf", "a"], cwd=folder, check=True)
    return np.asarray(Image.open(folder / "a.png").convert("RGB"))


def in_pdfium(data: bytes) -> np.ndarray:
    page = pypdfium2.PdfDocument(data)[0]
    return np.asarray(page.render(scale=DPI / 72).to_pil().convert("RGB"))


def in_resvg(data: bytes) -> np.ndarray:
    shown = resvg_py.svg_to_bytes(svg_string=data.decode(), dpi=DPI, background="white")
    return np.asarray(Image.open(io.BytesIO(bytes(shown))).convert("RGB"))


def in_chromium(data: bytes, folder: Path, size: tuple[int, int]) -> np.ndarray:
    (folder / "a.svg").write_bytes(data)
    style = f"body{{margin:0}}img{{width:{size[0]}px;height:{size[1]}px;display:block}}"
    (folder / "a.html").write_text(f"<style>{style}</style><img src='a.svg'>", "utf-8")
    run = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
           f"--window-size={size[0]},{size[1]}", f"--screenshot={folder / 'c.png'}",
           (folder / "a.html").as_uri()]  # fmt: skip
    try:
        subprocess.run(run, cwd=folder, capture_output=True, check=True, timeout=120)
    except (subprocess.TimeoutExpired, subprocess.CalledProcessError):
        pytest.skip("Chromium did not start here")
    return np.asarray(Image.open(folder / "c.png").convert("RGB"))


def alike(one: np.ndarray, other: np.ndarray) -> int:
    height, width = (min(a, b) for a, b in zip(one.shape[:2], other.shape[:2], strict=True))
    return strangers(one[:height, :width], other[:height, :width])


@needs_poppler
@pytest.mark.parametrize("more", [GROUND, WORDS])
def test_what_spreads_is_seen_nowhere(tmp_path: Path, more: str) -> None:
    found = separations(lay_out(panel_from_text(spec(more=more))))
    assert any(not plate.spread.is_empty for plate in found.inks)
    drawing = inks(found)
    flat = in_resvg(svg(without_traps(drawing)))
    data = pdf([drawing])
    assert alike(flat, in_poppler(data, tmp_path)) == 0
    assert alike(flat, in_pdfium(data)) == 0


@needs_ghostscript
def test_letters_are_as_heavy_as_where_the_darker_plate_leaves_them_bare(tmp_path: Path) -> None:
    """White letters on blue: what is white in the SVG is what the blue plate leaves out, to the edges' half pixels."""
    found = separations(lay_out(panel_from_text(spec(more=WORDS))))
    drawing = inks(found)
    blue = parted(pdf([drawing]), tmp_path, DPI)["deep blue"]
    shown = in_resvg(svg(without_traps(drawing)))[..., 2]
    height, width = (min(a, b) for a, b in zip(blue.shape, shown.shape, strict=True))
    box = slice(height // 4, 3 * height // 4), slice(width // 4, 3 * width // 4)
    bare, white = (blue[box] < 0.5).sum(), (shown[box] > 196).sum()
    assert bare > 0
    assert white == pytest.approx(bare, rel=0.1)


@pytest.mark.full
@needs_poppler
@needs_chromium
@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_every_demo_is_the_same_in_every_reader(tmp_path: Path, demo: Path) -> None:
    drawing = inks(separations(lay_out(read(demo))))
    data, flat = pdf([drawing]), svg(without_traps(drawing))
    resvg = in_resvg(flat)
    views = {"poppler": in_poppler(data, tmp_path), "pdfium": in_pdfium(data)}
    views["chromium"] = in_chromium(flat, tmp_path, resvg.shape[1::-1])
    for name, view in views.items():
        assert alike(resvg, view) <= 0.0001 * view.shape[0] * view.shape[1], name
        assert alike(view, resvg) <= 0.0001 * view.shape[0] * view.shape[1], name
