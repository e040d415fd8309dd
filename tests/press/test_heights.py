"""Heights on the bed: what holds the face up, what the head meets, what is fitted afterwards.

Figures are added up from the spec and from the catalogue: a blind rivet of 3.2 has a head of 0.9 mm in front, a stud of
12 mm behind, a toggle's lever is the highest of what is fitted later. That hardware is set before the face is marked is
the order of the stations, which `tests/sheets/test_build.py` holds.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pypdfium2
import pytest

from panelart import catalogue
from panelart.lettering.documents import LOWEST
from panelart.pipeline import lay_out
from panelart.press.heights import heights, heights_told
from panelart.spec.read import panel_from_text
from tests.commands import run

SPEC = """\
panelart: 1
panel:
  title: Tray
  number: NW-1
  size: [160, 90]
  sheet: {{material: aluminium 5754, thickness: 2}}
  coat: {{kind: none, colour: "#E8E8E8"}}
{flanges}
marking:
  process: digital-print
  ink: {{name: black, colour: "#000000"}}
  lettering: {{cap_height: 3.5}}
  viewing_distance: 500
{shop}
parts:
  - {{ref: S1, part: toggle-12, at: [40, 50], legend: Power, positions: {{up: On, down: Off}}}}
{parts}
"""
STUD = "  - {ref: B1, part: press-stud-m4, at: [100, 20]}\n"
RIVET = "  - {ref: N1, part: blind-rivet-3.2, at: [120, 60]}\n"


def found(*, flanges: str = "", parts: str = "", shop: str = ""):
    spec = SPEC.format(flanges=flanges, parts=parts, shop="  shop: shop.yaml" if shop else "")
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "shop.yaml").write_text(shop, encoding="utf-8")
        return lay_out(panel_from_text(spec, "tray.yaml", folder=Path(folder)))


def shop(clearance: float) -> str:
    return f"panelart-shop: 1\nshop: Trial\nhead_clearance: {clearance:g}\n"


@pytest.mark.parametrize(
    ("flanges", "parts", "face"),
    [
        ("", "", 2.0),  # the sheet alone
        ("", STUD, 14.0),  # its studs stand on the bed
        ("  flanges: {top: {length: 20}}", STUD, 20.0),
        ("  flanges: {top: {length: 13}}", STUD, 14.0),
    ],
)
def test_what_holds_the_face_up(flanges: str, parts: str, face: float) -> None:
    assert heights(found(flanges=flanges, parts=parts)).face == pytest.approx(face)


@pytest.mark.parametrize(("clearance", "hit"), [(0.5, ["N1"]), (0.899, ["N1"]), (0.9, []), (2.0, [])])
def test_what_the_head_meets(clearance: float, hit: list[str]) -> None:
    assert list(heights(found(parts=RIVET + STUD, shop=shop(clearance))).hits) == hit


def test_what_is_fitted_afterwards_is_as_high_as_its_lever() -> None:
    later = heights(found(parts=RIVET + STUD)).waits
    assert later == {"S1": pytest.approx(max(one.height for one in catalogue.component("toggle-12").front))}
    assert heights(found(shop=shop(100.0))).waits == {}


def test_plugs_are_not_in_while_a_panel_is_printed() -> None:
    parts = "  - {ref: J1, part: bnc, at: [100, 20], legend: Out}\n"
    plug = max(one.height for one in catalogue.component("bnc").front)
    assert heights(found(parts=parts)).waits["J1"] < plug


def test_words_tell_the_heights() -> None:
    told = [line.english for line in heights_told([found(parts=RIVET, shop=shop(0.5))])]
    assert any("higher than the head clearance (0.5 mm): N1 0.9 mm" in line for line in told)
    told = [line.english for line in heights_told([found(parts=STUD)])]
    assert any("head_clearance" in line for line in told)
    assert not any("B1" in line for line in told)  # its head is flush


def test_they_stand_on_the_paper_of_the_jig(tmp_path: Path) -> None:
    """pdfium sees ink below the plate, of as many lines as are told, each as high as words on paper must be."""
    demo = Path(__file__).parents[2] / "demo" / "relay-tray.yaml"
    done = run("bed", demo, "--bed", "600x400", "-o", "out", cwd=tmp_path)
    lines = [line for line in done.stdout.splitlines() if line.startswith("NW-340-02: ")]
    assert len(lines) == 3
    page = pypdfium2.PdfDocument(tmp_path / "out" / "jig-1.pdf")[0]
    scale = 10.0
    pixels = page.render(scale=scale * 25.4 / 72).to_numpy()
    below = (pixels.min(axis=(1, 2)) < 128)[round((5.0 + 400.0 + 1.0) * scale) :]
    starts = [row for row in range(1, len(below)) if below[row] and not below[row - 1]]
    ends = [row for row in range(1, len(below)) if not below[row] and below[row - 1]]
    assert len(starts) == len(lines)
    assert all((end - start) / scale >= LOWEST for start, end in zip(starts, ends, strict=True))
