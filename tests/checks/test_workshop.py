"""Cutters, sheets and tolerances against their limits."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.geometry import circle, rectangle, slot
from panelart.geometry.corners import tightest_corner
from panelart.model.layout import Dimension
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


def toleranced(hole: float, own: tuple[float, float] | None, part: tuple[float, float] = (12.0, 12.0)):
    """A round hole with a tolerance of its own, and a bushing by its nominal and its largest diameter."""
    plain = b.opening("S1", b.disc(50, 50, hole), passes=b.disc(50, 50, part[0]))
    return replace(plain, dimensions=(Dimension(name="diameter", size=hole, tolerance=own, passes=part),))


@pytest.mark.parametrize(
    ("hole", "own", "short"),
    [
        (12.1, (-0.2, 0.2), [0.1]), (12.2, (-0.2, 0.2), []), (12.0, (-0.2, 0.2), [0.2]), (12.05, (0.0, 0.1), []),
        (12.05, (-0.06, 0.1), [0.01]),
    ],
)  # fmt: skip
def test_fit_lost_in_tolerances(hole: float, own: tuple[float, float], short: list[float]) -> None:
    """A hole by its own smallest size; a bushing of 12.0 has no tolerance here."""
    layout = made(toleranced(hole, own), making=Making())
    assert measured("fit-lost-in-tolerances", layout) == pytest.approx(short)


@pytest.mark.parametrize("grade", ["f", "m", "c", "v"])
def test_a_hole_without_a_tolerance_is_never_smaller_than_it_is_drawn(grade: str) -> None:
    """H classes begin at the nominal size (ISO 286-1), whatever their grade."""
    assert measured("fit-lost-in-tolerances", made(toleranced(12.0, None), making=Making(tolerance=grade))) == []


def test_the_thickest_film_counts_against_the_fit() -> None:
    """12.05 H13 - 2 x (0.12 - 0.08) = 11.97."""
    opening = b.opening("S1", b.disc(50, 50, 12.05), passes=b.disc(50, 50, 12.0))
    coat = Coat(kind="powder", thickness=0.08, minimum=0.04, maximum=0.12, colour="#101010")
    assert measured("fit-lost-in-tolerances", made(opening, making=Making(), coat=coat)) == pytest.approx([0.03])


def test_width_and_height_are_held_to_the_fit_each_by_its_own() -> None:
    """Made up: 92 +0.8/0 lets a body of 91.9 in, 45 -0.3/+0.6 is 44.7 at its smallest and a body 44.8 high."""
    window = replace(
        b.opening("M1", b.block(50, 50, 92, 45), passes=b.block(50, 50, 91.9, 44.8)),
        dimensions=(
            Dimension(name="width", size=92, tolerance=(0.0, 0.8), passes=(91.9, 91.9)),
            Dimension(name="height", size=45, tolerance=(-0.3, 0.6), passes=(44.8, 44.8)),
        ),
    )
    assert measured("fit-lost-in-tolerances", made(window, making=Making())) == pytest.approx([0.1])


def test_the_tolerance_of_the_part_counts_against_the_fit() -> None:
    """A bushing of 12.0 +0.25 in a hole of 12.2 H13: 12.25 - 12.2."""
    layout = made(toleranced(12.2, None, (12.0, 12.25)), making=Making())
    assert measured("fit-lost-in-tolerances", layout) == pytest.approx([0.05])


def test_the_register_counts_where_an_overlay_has_a_hole_of_its_own() -> None:
    """12.2 - 0.2 leaves 12.0, of which an overlay laid 0.3 askew covers 0.3; ink covers nothing."""
    opening = toleranced(12.2, (-0.2, 0.2))
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
