"""Print files by readers that are not ours: Ghostscript parts them into plates, poppler and pdfium show them.

Areas of plates are counted on Ghostscript's rasters (`tiffsep`, ISO 32000 separations) and held against the areas of
the geometry to 1 %; choke, trap and margins are measured on rasters at 1200 dpi to 0.02 mm.
"""

from __future__ import annotations

import io
import subprocess
from functools import cache
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from PIL import Image

from panelart.drawing.artwork import artwork
from panelart.drawing.representation import Drawing
from panelart.marking.areas import square_cm
from panelart.marking.separation import Separations, separations
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from panelart.writers import pdf, svg
from tests.readers import CHROMIUM, needs_chromium, needs_ghostscript, needs_poppler

Image.MAX_IMAGE_PIXELS = None
MM = 25.4

SPEC = """
panelart: 1
panel:
  title: Plates
  number: NW-9
  revision: C
  size: [60, 40]
  sheet: {{material: aluminium, thickness: 2}}
  coat: {{kind: powder, thickness: 0.08, colour: "#20242A"}}
marking:
  process: {process}
  inks:
    - {{name: white, colour: "#F4F4F0"}}
    - {{name: amber, colour: "#F2A53A"}}
    - {{name: deep blue, colour: "#1D3F8E"}}
  lettering: {{font: {{weight: light}}, cap_height: 4}}
{more}
parts:
  - {{ref: J1, part: socket-4, at: [45, 20], legend: {{text: OUT, at: [45, 32], ink: amber}}}}
texts:
  - {{text: LEFT, at: [6, 28], ink: amber}}
  - {{text: HB, at: [8, 8], ink: white, cap_height: 8}}
"""
GROUND = "  backgrounds: [{ink: deep blue, area: {rectangle: [4, 4, 26, 16]}}]\n"


def spec(process: str = "digital-print", more: str = "") -> str:
    return SPEC.format(process=process, more=more)


@cache
def plates(process: str = "digital-print", more: str = "") -> Separations:
    return separations(lay_out(panel_from_text(spec(process, more))))


def made(found: Separations) -> bytes:
    return pdf([artwork(found.layout, found)])


def parted(data: bytes, folder: Path, dpi: int) -> dict[str, np.ndarray]:
    """Every plate as shares of ink, 0 to 1, rows from the top."""
    return {name: 1.0 - plate.astype(np.float64) / 255.0 for name, plate in bare(data, folder, dpi).items()}


def bare(data: bytes, folder: Path, dpi: int) -> dict[str, np.ndarray]:
    """What every plate leaves of white, 0 to 255; painted at twice the resolution, so edges are grey."""
    (folder / "a.pdf").write_bytes(data)
    run = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", f"-r{2 * dpi}", "-sOutputFile=p.tif",
           "-dDownScaleFactor=2", "a.pdf"]  # fmt: skip
    done = subprocess.run(run, cwd=folder, capture_output=True, text=True, check=True)
    assert done.stdout + done.stderr == ""
    found = {}
    for file in sorted(folder.glob("p(*).tif")):
        name = file.name[2:-5]
        found[name] = np.asarray(Image.open(file).convert("L"))
        file.unlink()
    return found


def areas(data: bytes, folder: Path) -> dict[str, float]:
    """The ink on every plate in cm2.

    Ghostscript paints each pixel that a shape touches, so that an area comes out larger by its edge times half a
    pixel; from two resolutions, one twice the other, that is taken off.
    """
    coarse, fine = (
        {
            name: (plate.size - int(plate.sum(dtype=np.int64)) / 255.0) * (MM / dpi) ** 2 / 100.0
            for name, plate in bare(data, folder, dpi).items()
        }
        for dpi in (800, 1600)
    )
    return {name: 2 * fine[name] - coarse[name] for name in fine}


@pytest.mark.few(1)
@needs_ghostscript
@pytest.mark.parametrize("more", ["", GROUND, "  varnish: face\n" + GROUND])
def test_each_plate_carries_the_ink_that_was_reckoned(tmp_path: Path, more: str) -> None:
    found = plates(more=more)
    shown = areas(made(found), tmp_path)
    for plate in found.inks:
        if plate.ink.name in shown:
            assert shown[plate.ink.name] == pytest.approx(found.coverage(plate.ink.name), rel=0.01)
        else:
            assert found.coverage(plate.ink.name) == 0
    assert shown["base"] == pytest.approx(square_cm(found.laid_base.ground), rel=0.01)
    if "varnish" in more:
        assert shown["varnish"] == pytest.approx(square_cm(found.varnish), rel=0.01)
    # Nothing is on the process plates: every ink is a plate of its own.
    assert [shown[name] for name in ("Cyan", "Magenta", "Yellow", "Black")] == [0, 0, 0, 0]


@pytest.mark.few(1)
@needs_ghostscript
@pytest.mark.parametrize("run", [
    "{ink: deep blue, to: {ink: amber, tint: 60}, run: 30, area: {rectangle: [4, 4, 26, 16]}}",
    "{ink: amber, tint: 90, to: {tint: 10}, round: true, area: {circle: [18, 20, 22]}}",
    "{ink: deep blue, tint: 35, area: {rectangle: [4, 4, 26, 16]}}",
])  # fmt: skip
def test_tints_and_gradients_take_the_ink_that_was_reckoned(tmp_path: Path, run: str) -> None:
    found = plates(more=f"  base: false\n  backgrounds: [{run}]\n")
    shown = areas(made(found), tmp_path)
    for plate in found.inks:
        if found.coverage(plate.ink.name):
            assert shown[plate.ink.name] == pytest.approx(found.coverage(plate.ink.name), rel=0.01)


def edges(row: np.ndarray, dpi: int) -> list[float]:
    """Where a row of pixels changes between bare and inked, in mm from its start."""
    changes = np.flatnonzero(np.diff((row > 0.5).astype(int)))
    # Pixels stand for their middles; between two the share of ink runs in a straight line.
    return [(at + 0.5 + (0.5 - row[at]) / (row[at + 1] - row[at])) * MM / dpi for at in changes.tolist()]


@needs_ghostscript
@pytest.mark.full
def test_choke_trap_and_margins_at_1200_dpi(tmp_path: Path) -> None:
    """A blue field with a white 8 mm H in it, and a socket beside it: every distance measured on the plates."""
    choke, trap = 0.15, 0.25
    more = (
        f"  base: {{choke: {choke}}}\n  trap: {trap}\n"
        "  backgrounds: [{ink: deep blue, area: {rectangle: [4, 4, 54, 30]}}]\n"
    )
    found = plates(more=more)
    dpi = 1200
    shown = parted(made(found), tmp_path, dpi)
    slug = 12.0  # page round the trim: 10 mm, and the 2 mm of bleed
    height = 40.0

    def row(plate: str, y: float) -> list[float]:
        at = round((slug + height - y) * dpi / MM)
        return [edge - slug for edge in edges(shown[plate][at], dpi)]

    blue, base, white = row("deep blue", 5.0), row("base", 5.0), row("white", 14.0)
    # Base is drawn in from the field's left edge.
    assert blue[0] == pytest.approx(4.0, abs=0.02)
    assert base[0] - blue[0] == pytest.approx(choke, abs=0.02)
    # The H: white spreads into the blue by the trap, on both sides of its left stem.
    hole = [edge for edge in row("deep blue", 14.0) if 7 < edge < 12]
    stem = [edge for edge in white if 7 < edge < 12]
    assert hole[0] - stem[0] == pytest.approx(trap, abs=0.02)
    assert stem[1] - hole[1] == pytest.approx(trap, abs=0.02)
    # The field keeps off the socket's opening by the process's 0.5 mm.
    opening = next(opening for opening in found.layout.openings if opening.ref == "J1").finished.bounds
    level = row("deep blue", 20.0)
    assert opening.left - max(edge for edge in level if edge < opening.left) == pytest.approx(0.5, abs=0.02)
    assert min(edge for edge in level if edge > opening.right) - opening.right == pytest.approx(0.5, abs=0.02)
    # And it runs 2 mm past the edge where it is asked to: to the right the area ends inside it.
    assert level[-1] == pytest.approx(58.0, abs=0.02)


@needs_ghostscript
def test_colour_bleeds_past_the_edge_or_stops_short_of_it(tmp_path: Path) -> None:
    dpi = 600
    for more, left in (("edge: bleed, bleed: 1.5", -1.5), ("edge: short", 2.0)):
        found = plates(more=f"  backgrounds: [{{ink: deep blue, {more}}}]\n")
        shown = parted(made(found), tmp_path, dpi)["deep blue"]
        slug = 11.5 if "1.5" in more else 10.0
        row = shown[round((slug + 38) * dpi / MM)] if left < 0 else shown[round((slug + 37) * dpi / MM)]
        assert edges(row, dpi)[0] - slug == pytest.approx(left, abs=0.05)


def strangers(one: np.ndarray, other: np.ndarray) -> int:
    """Pixels of one view that show what the other shows neither there nor next to it, to 32 of 255.

    Readers smooth edges each in its own way, by less than a pixel; anything else is a difference.
    """
    one, other = one.astype(np.int16), np.pad(other.astype(np.int16), ((1, 1), (1, 1), (0, 0)), mode="edge")
    least, most = other, other
    for axis in (0, 1):
        least, most = _of_three(np.minimum, least, axis), _of_three(np.maximum, most, axis)
    return int(((one < least - 32) | (one > most + 32)).any(axis=2).sum())


def _of_three(least: np.ufunc, view: np.ndarray, axis: int) -> np.ndarray:
    """The least or the most of each pixel and its two neighbours along an axis, without the outer ones."""
    end = view.shape[axis]
    first, second, third = (np.take(view, range(at, end - 2 + at), axis=axis) for at in range(3))
    return least(least(first, second), third)


def inks_of(found: Separations) -> Drawing:
    drawing = artwork(found.layout, found)
    return drawing.only(*(layer.name for layer in drawing.layers if layer.name not in ("cutouts", "outline")))


@pytest.mark.few(1)
@needs_poppler
@pytest.mark.parametrize("more", ["", GROUND])
def test_poppler_pdfium_and_resvg_show_the_same(tmp_path: Path, more: str) -> None:
    """The inks, without the hairlines of cuts, which each reader widens as it likes."""
    import resvg_py

    found = plates(more=more)
    drawing = inks_of(found)
    data, dpi = pdf([drawing]), 254
    (tmp_path / "a.pdf").write_bytes(data)
    done = subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-png", "-singlefile", "a.pdf", "a"], cwd=tmp_path, capture_output=True, check=True
    )
    assert done.stderr == b""
    poppler = np.asarray(Image.open(tmp_path / "a.png").convert("RGB"), dtype=int)
    pdfium = np.asarray(pypdfium2.PdfDocument(data)[0].render(scale=dpi / 72).to_pil().convert("RGB"), dtype=int)
    painted = resvg_py.svg_to_bytes(svg_string=svg(drawing).decode(), dpi=dpi, background="white")
    resvg = np.asarray(Image.open(io.BytesIO(bytes(painted))).convert("RGB"), dtype=int)
    height, width = (min(sizes) for sizes in zip(poppler.shape[:2], pdfium.shape[:2], resvg.shape[:2], strict=True))
    views = [view[:height, :width] for view in (poppler, pdfium, resvg)]
    for one, other in ((0, 1), (0, 2), (1, 2)):
        assert strangers(views[one], views[other]) == 0


@needs_chromium
def test_chromium_shows_the_svg_as_pdfium_the_pdf(tmp_path: Path) -> None:
    """Gradient and ground included; a page of 80 x 60 mm at 4 pixels a mm."""
    run = "{ink: deep blue, to: {ink: amber}, area: {rectangle: [4, 4, 52, 32]}, edge: short}"
    more = f"  base: false\n  backgrounds: [{run}]\n"
    found = plates(more=more)
    drawing = inks_of(found)
    (tmp_path / "a.svg").write_bytes(svg(drawing))
    (tmp_path / "a.html").write_text(
        "<style>body{margin:0}img{width:320px;height:240px;display:block}</style><img src='a.svg'>", encoding="utf-8"
    )
    run = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--window-size=320,240",
           f"--screenshot={tmp_path / 'a.png'}", (tmp_path / "a.html").as_uri()]  # fmt: skip
    try:
        subprocess.run(run, cwd=tmp_path, capture_output=True, check=True, timeout=90)
    except (subprocess.TimeoutExpired, subprocess.CalledProcessError):
        pytest.skip("Chromium did not start here")
    seen = np.asarray(Image.open(tmp_path / "a.png").convert("RGB"), dtype=int)[:240, :320]
    page = pypdfium2.PdfDocument(pdf([drawing]))[0]
    pdfium = np.asarray(page.render(scale=4 * MM / 72).to_pil().convert("RGB"), dtype=int)[:240, :320]
    assert strangers(seen, pdfium) == 0


def test_layers_say_their_processing_step_and_white_comes_first() -> None:
    with pikepdf.open(io.BytesIO(made(plates(more="  varnish: inks\n" + GROUND)))) as file:
        groups = file.Root.OCProperties.OCGs
        names = [str(group.Name) for group in groups]
        steps = {str(g.Name): str(g.GTS_Metadata.GTS_ProcStepsGroup) for g in groups if "/GTS_Metadata" in g}
        # What white spreads under the blue ground is painted before it.
        assert names[:4] == ["base", "varnish", "legend-white", "background"]
        assert steps == {
            "base": "/White", "varnish": "/Varnish", "cutouts": "/Structural", "outline": "/Structural",
        }  # fmt: skip


def test_the_metadata_knows_number_revision_and_fingerprint() -> None:
    found = plates()
    with pikepdf.open(io.BytesIO(made(found))) as file:
        packet = file.Root.Metadata.read_bytes().decode()
        for text in ("NW-9", ">C<", found.layout.panel.fingerprint):
            assert text in packet
        assert str(file.docinfo["/Spec"]) == found.layout.panel.fingerprint


def test_same_plates_same_bytes() -> None:
    one, two = (separations(lay_out(panel_from_text(spec(more=GROUND)))) for _ in range(2))
    assert made(one) == made(two)


# --- placed art


def art_files(folder: Path) -> None:
    """A picture of 40 x 20 pixels, black and half grey, with a hole of 10 x 10 pixels in it; and a drawing."""
    picture = Image.new("RGBA", (40, 20), (0, 0, 0, 255))
    picture.paste((128, 128, 128, 255), (20, 0, 40, 20))
    picture.paste((0, 0, 0, 0), (5, 5, 15, 15))
    picture.save(folder / "a.png")
    (folder / "a.svg").write_text(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'><path d='M0 0H10V10H0ZM2 2V8H8V2Z'/></svg>",
        encoding="utf-8",
    )


def placed(folder: Path, background: str, **more: str) -> Separations:
    art_files(folder)
    text = spec(more=f"  base: {{choke: 0.2, under: [deep blue]}}\n  backgrounds: [{background}]\n", **more)
    return separations(lay_out(panel_from_text(text[: text.index("texts:")], folder=folder)))


@pytest.mark.full
@needs_ghostscript
def test_a_picture_in_one_ink_is_on_that_plate_alone(tmp_path: Path) -> None:
    found = placed(tmp_path, "{picture: a.png, box: [6, 6, 20, 10], ink: deep blue}")
    shown = areas(made(found), tmp_path)
    # 10 x 10 mm less a hole of 5 x 5 in black, 10 x 10 mm in half grey (127 of 255).
    assert shown["deep blue"] == pytest.approx((75 + 100 * 127 / 255) / 100, rel=0.01)
    assert [shown[name] for name in ("Cyan", "Magenta", "Yellow", "Black")] == [0, 0, 0, 0]
    # Base lies under all that is covered, drawn in round the edge and round the hole.
    assert shown["base"] == pytest.approx((19.6 * 9.6 - 5.4 * 5.4) / 100, rel=0.01)


@pytest.mark.full
@needs_ghostscript
def test_a_picture_in_the_presss_own_colours_is_on_the_process_plates(tmp_path: Path) -> None:
    found = placed(tmp_path, "{picture: a.png, box: [6, 6, 20, 10]}")
    shown = areas(made(found), tmp_path)
    assert shown["Black"] + shown["Cyan"] + shown["Magenta"] + shown["Yellow"] > 0.5
    assert shown.get("deep blue", 0.0) == 0.0


@pytest.mark.full
@needs_ghostscript
def test_a_drawing_fits_its_box_and_keeps_its_hole(tmp_path: Path) -> None:
    found = placed(tmp_path, "{drawing: a.svg, box: [6, 6, 30, 12], ink: deep blue}")
    shown = areas(made(found), tmp_path)
    assert shown["deep blue"] == pytest.approx((12 * 12 - 7.2 * 7.2) / 100, rel=0.01)
    assert found.coverage("deep blue") == pytest.approx((12 * 12 - 7.2 * 7.2) / 100, rel=0.001)


def test_art_looks_the_same_in_pdf_and_svg(tmp_path: Path) -> None:
    import resvg_py

    for number, background in enumerate((
        "{picture: a.png, box: [6, 6, 20, 10], ink: deep blue}", "{picture: a.png, box: [6, 6, 20, 10]}",
    )):  # fmt: skip
        folder = tmp_path / str(number)
        folder.mkdir()
        drawing = inks_of(placed(folder, background)).only("background")
        dpi = 508
        pdfium = pypdfium2.PdfDocument(pdf([drawing]))[0].render(scale=dpi / 72).to_pil().convert("RGB")
        painted = resvg_py.svg_to_bytes(svg_string=svg(drawing).decode(), dpi=dpi, background="white")
        views = [
            np.asarray(view, dtype=int) for view in (pdfium, Image.open(io.BytesIO(bytes(painted))).convert("RGB"))
        ]
        height, width = (min(sizes) for sizes in zip(*(view.shape[:2] for view in views), strict=True))
        # Readers smooth large pixels each in its own way, over a pixel of the picture (10 of the view).
        apart = np.abs(views[0][:height, :width] - views[1][:height, :width]).max(axis=2) > 64
        assert apart.mean() < 0.01
