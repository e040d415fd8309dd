"""Cutters, sheets and tolerances against their limits."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.geometry import circle, rectangle, slot
from panelart.geometry.corners import tightest_corner
from panelart.model.making import Cutting, Making, Punch, PunchForm
from panelart.model.panel import Coat, Sheet
from panelart.processes.process import LabelFilm
from tests.checks import builders as b
from tests.checks.cases import found, measured, refs


def round_punch(diameter: float) -> Punch:
    return Punch(form=PunchForm.ROUND, length=diameter, width=diameter)


def made(*things, making: Making, sheet: str = "mild steel", thickness: float = 2.0, coat: Coat | None = None):
    layout = b.layout(*things, thickness=thickness)
    panel = replace(layout.panel, making=making, sheet=Sheet(material=sheet, thickness=thickness))
    return replace(layout, panel=panel if coat is None else replace(panel, coat=coat))


@pytest.mark.parametrize(
    ("sheet", "cutting", "seen"),
    [("PVC foam board", Cutting.LASER, 1), ("PVC foam board", Cutting.MILL, 0), ("aluminium", Cutting.LASER, 0)],
)
def test_sheet_not_for_laser(sheet: str, cutting: Cutting, seen: int) -> None:
    """Laser-safety pages: never cut PVC."""
    assert len(found("sheet-not-for-laser", made(making=Making(cutting=cutting), sheet=sheet))) == seen


@pytest.mark.parametrize(
    ("cutting", "sheet", "diameter", "seen"),
    [
        (Cutting.LASER, "mild steel", 1.39, [1.39]), (Cutting.LASER, "mild steel", 1.4, []),  # 0.7 x 2
        (Cutting.PUNCH, "mild steel", 1.99, [1.99]), (Cutting.PUNCH, "mild steel", 2.0, []),  # 1.0 x 2
        (Cutting.PUNCH, "stainless steel", 3.99, [3.99]), (Cutting.PUNCH, "stainless steel", 4.0, []),  # 2.0 x 2
        (Cutting.MILL, "mild steel", 2.99, [2.99]), (Cutting.MILL, "mild steel", 3.0, []),  # the cutter
        (Cutting.HAND, "mild steel", 1.0, []),
    ],
)  # fmt: skip
def test_opening_too_narrow_to_cut(cutting: Cutting, sheet: str, diameter: float, seen: list[float]) -> None:
    layout = made(b.opening("H1", b.disc(50, 50, diameter)), making=Making(cutting=cutting, cutter=3), sheet=sheet)
    assert measured("opening-too-narrow-to-cut", layout) == pytest.approx(seen)


@pytest.mark.parametrize(
    ("contour", "radius"),
    [
        (rectangle(20, 10), 0.0), (rectangle(20, 10, corner=1.5), 1.5), (slot(20, 10), 5.0), (circle(8), 4.0),
        (rectangle(20, 10).reversed(), 0.0),
    ],
)  # fmt: skip
def test_the_tightest_corner_of_an_opening(contour, radius: float) -> None:
    assert tightest_corner(contour) == pytest.approx(radius)


@pytest.mark.parametrize(("corner", "seen"), [(0.0, [0.0]), (1.49, [1.49]), (1.499999, [1.499999]), (1.5, [])])
def test_corner_sharper_than_cutter(corner: float, seen: list[float]) -> None:
    hole = b.opening("M1", b.block(50, 50, 30, 20, corner))
    milled = made(hole, making=Making(cutting=Cutting.MILL, cutter=3))
    assert measured("corner-sharper-than-cutter", milled) == pytest.approx(seen)
    assert measured("corner-sharper-than-cutter", made(hole, making=Making())) == []


def test_opening_nibbled() -> None:
    layout = made(
        b.opening("H1", b.disc(30, 50, 3.2)),
        b.opening("H2", b.disc(60, 50, 4.5)),
        b.opening("M1", b.block(100, 50, 20, 10)),
        making=Making(cutting=Cutting.PUNCH, punches=(round_punch(3.2), round_punch(6.0))),
    )
    assert refs("opening-nibbled", layout) == [("H2", "M1")]


@pytest.mark.parametrize(("hole", "short"), [(12.1, [0.1]), (12.2, []), (12.0, [0.2])])
def test_fit_lost_in_tolerances(hole: float, short: list[float]) -> None:
    """ISO 2768-m leaves a hole of 12 +-0.2; a bushing of 12.0 has no tolerance here."""
    opening = b.opening("S1", b.disc(50, 50, hole), passes=b.disc(50, 50, 12.0))
    assert measured("fit-lost-in-tolerances", made(opening, making=Making())) == pytest.approx(short)


def test_the_thickest_film_counts_against_the_fit() -> None:
    """12.2 - 0.2 - 2 x (0.12 - 0.08) = 11.92."""
    opening = b.opening("S1", b.disc(50, 50, 12.2), passes=b.disc(50, 50, 12.0))
    coat = Coat(kind="powder", thickness=0.08, minimum=0.04, maximum=0.12, colour="#101010")
    assert measured("fit-lost-in-tolerances", made(opening, making=Making(), coat=coat)) == pytest.approx([0.08])


def test_a_hole_with_its_own_tolerance_is_held_to_that() -> None:
    opening = replace(b.opening("S1", b.disc(50, 50, 12.05), passes=b.disc(50, 50, 12.0)), tolerance=(0.0, 0.1))
    assert measured("fit-lost-in-tolerances", made(opening, making=Making())) == []


def test_the_tolerance_of_the_part_counts_against_the_fit() -> None:
    """A bushing of 12.0 +0.05 in a hole of 12.2 +-0.2: 12.05 - 12.0."""
    bushing = b.component()
    figures = tuple(
        replace(figure, tolerance=(-0.1, 0.05)) if figure.name == "passes_diameter" else figure
        for figure in bushing.openings[0].figures
    )
    bushing = replace(bushing, openings=(replace(bushing.openings[0], figures=figures),))
    opening = b.opening("S1", b.disc(50, 50, 12.2), passes=b.disc(50, 50, 12.0))
    layout = made(b.part("S1", bushing), opening, making=Making())
    assert measured("fit-lost-in-tolerances", layout) == pytest.approx([0.05])


def test_the_register_counts_where_an_overlay_has_a_hole_of_its_own() -> None:
    """12.2 - 0.2 leaves 12.0, of which an overlay laid 0.3 askew covers 0.3; ink covers nothing."""
    opening = b.opening("S1", b.disc(50, 50, 12.2), passes=b.disc(50, 50, 12.0))
    printed = made(opening, making=Making())
    assert measured("fit-lost-in-tolerances", printed) == []
    process = replace(b.PROCESS, outputs=(LabelFilm(file="film"),))
    marking = replace(printed.panel.marking, process=process, register=0.3)
    layout = replace(printed, panel=replace(printed.panel, marking=marking))
    assert measured("fit-lost-in-tolerances", layout) == pytest.approx([0.3])


def test_punches_of_other_forms() -> None:
    """A slot of 12 x 5 is one stroke of a slotting punch whichever way it lies; rounded rectangles are nibbled."""
    punches = (
        Punch(form=PunchForm.SLOT, length=12, width=5),
        Punch(form=PunchForm.RECTANGLE, length=20, width=10),
        round_punch(6),
    )
    shapes = {
        "A": slot(12, 5), "B": slot(5, 12), "C": rectangle(10, 20),
        "D": rectangle(10, 20, corner=1), "E": circle(6.04), "F": circle(6.2),
    }  # fmt: skip
    parts = [b.opening(name, shape) for name, shape in shapes.items()]
    (finding,) = found("opening-nibbled", made(*parts, making=Making(cutting=Cutting.PUNCH, punches=punches)))
    assert finding.refs == ("D", "F")
