"""Tools of the brake and the press, the grain, hanging and racks: cases on both sides of each limit."""

from __future__ import annotations

import math

import pytest

from panelart.checks import inspect
from panelart.cutouts.hanging import hooks
from panelart.pipeline import lay_out
from panelart.sheets.stations import stations
from panelart.spec.read import panel_from_text
from tests.checks.cases import found, measured, refs

SPEC = """\
panelart: 1
panel:
  title: Tray
  size: {size}
  sheet: {{material: mild steel, thickness: 2}}
  coat: {coat}
{more}
marking: {{process: digital-print, ink: {{name: white, colour: "#FFFFFF"}}}}
making: {making}
{parts}
"""


def laid_out(*, size="[200, 60]", coat="{kind: none}", more="", making="{quantity: 1}", parts=""):
    return lay_out(
        panel_from_text(
            SPEC.format(size=size, coat=coat, more=more, making=making, parts=parts and f"parts:\n{parts}"), "tray.yaml"
        )
    )


def channel(top: str, bottom: str) -> str:
    return f"  flanges: {{top: {top}, bottom: {bottom}}}"


@pytest.mark.parametrize(
    ("top", "bottom", "seen"),
    [
        # Both legs rise by 45 degrees: (60 - 50) / sqrt 2 = 7.07 to the middle of the punch, 10 are due.
        ("50", "50", [10 / math.sqrt(2)]),
        ("45", "55", []),  # the lower is bent first: (60 - 45) / sqrt 2 = 10.6
        ("{length: 30, return: {length: 18}}", "{length: 31, return: {length: 18}}", [12 / math.sqrt(2)]),
        ("{length: 30, return: {length: 15}}", "{length: 31, return: {length: 15}}", []),
        ("20", "20", []),
    ],
)
def test_flange_meets_punch(top: str, bottom: str, seen: list[float]) -> None:
    assert measured("flange-meets-punch", laid_out(more=channel(top, bottom))) == pytest.approx(seen)


UNDER = "  flanges: {top: 60, bottom: {length: 25, return: {length: 20}}}"
NUT = "  - {{ref: N1, part: {part}, at: [100, {y}]}}"


def test_hardware_under_a_return_is_pressed_in_before_bending() -> None:
    layout = laid_out(size="[200, 160]", more=UNDER, parts=NUT.format(part="press-nut-m3", y=24))
    names = [str(station.name) for station in stations(layout)]
    assert names.index("Press in hardware, before bending") < names.index("Bend")
    assert refs("hardware-out-of-reach", layout) == []
    free = laid_out(size="[200, 160]", more=UNDER, parts=NUT.format(part="press-nut-m3", y=28))
    assert [str(station.name) for station in stations(free)][2:4] == ["Bend", "Press in hardware"]


@pytest.mark.parametrize(("y", "seen"), [(24, [4.01]), (27.98, [7.99]), (28, [])])
def test_what_is_pressed_after_the_coat_must_be_reached(y: float, seen: list[float]) -> None:
    """An anodised tray is bent long before. The return reaches 19.98 over the face, whose metal begins at 0.01; 8 are
    due beside it."""
    coat = "{kind: anodise, thickness: 0.02}"
    layout = laid_out(size="[200, 160]", more=UNDER, coat=coat, parts=NUT.format(part="press-nut-m3", y=y))
    assert measured("hardware-out-of-reach", layout) == pytest.approx(seen)


@pytest.mark.parametrize(("y", "seen"), [(24, [("N1",)]), (40, [])])
def test_tall_hardware_meets_the_punch(y: float, seen: list[tuple[str]]) -> None:
    layout = laid_out(
        size="[200, 160]",
        more="  flanges: {bottom: {length: 25, return: {length: 38}}}",
        parts=NUT.format(part="press-standoff-m3", y=y),
    )
    assert refs("hardware-meets-punch", layout) == seen


@pytest.mark.parametrize(("grain", "seen"), [("along", [1.5]), ("across", [])])
def test_bend_along_grain(grain: str, seen: list[float]) -> None:
    """Mild steel of 2 bears R1 across the grain, and twice that along it."""
    layout = laid_out(
        more="  flanges: {top: 20}\n  bending: {radius: 1.5}", making=f"{{grain: {grain}}}", size="[200, 100]"
    )
    assert measured("bend-along-grain", layout) == seen


# --- hanging

POWDER = "{kind: powder, thickness: 0.08}"


def test_a_flat_panel_without_covered_openings_has_nowhere_to_hang() -> None:
    bare = "  - {ref: X1, part: {openings: [{role: body, circle: {diameter: 10}}]}, at: [100, 30]}"
    assert len(found("nowhere-to-hang", laid_out(coat=POWDER, parts=bare))) == 1
    assert found("nowhere-to-hang", laid_out(parts=bare)) == []
    covered = "  - {ref: S1, part: toggle-12, at: [100, 30]}"
    layout = laid_out(coat=POWDER, parts=covered)
    assert found("nowhere-to-hang", layout) == []
    assert hooks(layout).names == ("S1",)


def test_a_hook_where_it_is_seen() -> None:
    bare = "  - {ref: X1, part: {openings: [{role: body, circle: {diameter: 10}}]}, at: [100, 30]}"
    layout = laid_out(coat=POWDER, parts=bare, making="{hanging: {by: [X1]}}")
    assert refs("hook-mark-seen", layout) == [("X1",)]
    coated = next(station for station in stations(layout) if str(station.name) == "Powder-coat")
    assert "sheets-stations.hang-as-specified" in [step.id for step in coated.steps]


def test_holes_to_hang_by_are_cut_into_the_flange() -> None:
    """Sheet 2, R2: flat from 2 + 2 + 5 + 2.5 to 30 - 3 - 2.5 behind the front; a quarter in from the ends, off F1."""
    layout = laid_out(
        coat=POWDER,
        size="[200, 100]",
        more="  flanges: {top: {length: 30, holes: [{ref: F1, at: [50, 18], diameter: 6}]}}",
        making="{hanging: {on: top}}",
    )
    holes = [hole for hole in layout.panel.flanges[0].holes if hole.hanging]
    assert [(hole.ref, hole.at.y) for hole in holes] == [("HANG1", 18.0), ("HANG2", 18.0)]
    assert abs(holes[0].at.x - 50) >= 3 + 2.5 + 5
    assert holes[1].at.x == 150
    assert {"HANG1", "HANG2"} <= {hole.name for hole in layout.blank.holes}
    assert hooks(layout).names == ("HANG1", "HANG2")
    assert [one.rule for one in inspect(layout).findings if "hole" in one.rule or "opening" in one.rule] == []


# --- racks and subracks


def test_sizes_of_racks_and_subracks() -> None:
    """IEC 60297-3-100: N x 44.45 - 0.79; -3-101: 3U is 128.55 high, 28 HP 28 x 5.08 - 0.3 wide."""
    assert laid_out(size="{rack: 3}").panel.size == pytest.approx((482.6, 132.56))
    assert laid_out(size="{subrack: 3, hp: 28}").panel.size == pytest.approx((141.94, 128.55))
    assert laid_out(size="{subrack: 6, hp: 8}").panel.size == pytest.approx((40.34, 261.9))


@pytest.mark.parametrize(("x", "seen"), [(22, [("S1",)]), (40, [])])
def test_a_body_among_the_rails_of_a_rack(x: float, seen: list[tuple[str]]) -> None:
    part = f"  - {{ref: S1, part: toggle-12, at: [{x}, 44]}}\n"
    layout = laid_out(size="{rack: 2}", parts=part)
    assert refs("part-in-rail-zone", layout) == seen
    fixed = laid_out(size="{rack: 2}", parts=part + "  - {ref: R, part: rack-slots-2u, at: [241.3, 44.055]}")
    assert found("rack-fixing-missing", fixed) == []
    assert len(refs("parts-collide-behind", fixed)) == len(seen)


def test_a_body_among_the_rails_of_a_subrack() -> None:
    """128.55 - 112 leaves strips of 8.275 at top and bottom."""
    layout = laid_out(
        size="{subrack: 3, hp: 28}",
        parts="  - {ref: D1, part: toggle-12, at: [70, 12]}",
    )
    assert refs("part-in-rail-zone", layout) == [("D1",)]


def test_a_rack_panel_needs_its_slots_in_the_middle() -> None:
    assert len(found("rack-fixing-missing", laid_out(size="{rack: 2}"))) == 1
    aside = laid_out(size="{rack: 2}", parts="  - {ref: R, part: rack-slots-2u, at: [240, 44]}")
    assert len(found("rack-fixing-missing", aside)) == 1
    assert found("rack-fixing-missing", laid_out(size="[482.6, 88.11]")) == []
