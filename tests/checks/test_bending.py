"""Bent panels against their limits: a hair's breadth on either side of each."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.checks.materials import material
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from tests.checks.cases import found, measured, refs


def laid_out(flanges: str, parts: str = "", *, material: str = "mild steel", thickness: float = 2, more: str = ""):
    return lay_out(
        panel_from_text(
            f"""\
panelart: 1
marking: {{process: digital-print, ink: {{name: white, colour: "#FFFFFF"}}}}
panel:
  title: Bent
  size: [200, 100]
  sheet: {{material: {material}, thickness: {thickness}}}
{more}
  flanges: {{{flanges}}}
parts:
  - {{ref: X1, part: {{openings: [{{role: body, circle: {{diameter: 10}}}}]}}, at: [100, 50]}}
{parts}
""",
            "bent.yaml",
        )
    )


def hole(y: float, d: float = 10.0) -> str:
    return f"  - {{ref: X2, part: {{openings: [{{role: body, circle: {{diameter: {d}}}}}]}}, at: [60, {y}]}}"


@pytest.mark.parametrize(
    ("y", "seen"),
    [
        # Sheet 2, R2: the inside of the flange is at y = 98; 2.5 x 2 + 2 = 7 leaves the hole's edge at 91.
        (86.01, [6.99]), (86.0, []), (50.0, []), (95.0, [0.0]),
    ],
)  # fmt: skip
def test_hole_near_bend(y: float, seen: list[float]) -> None:
    assert measured("hole-near-bend", laid_out("top: 20", hole(y))) == pytest.approx(seen)


def test_a_hole_beside_a_bend_is_one_finding() -> None:
    layout = laid_out("top: 20", hole(90.0))
    assert [finding.rule for finding in inspect(layout).findings] == ["hole-near-bend"]


@pytest.mark.parametrize(("back", "seen"), [(10.5, [6.5]), (11.0, [])])
def test_hole_of_a_flange_near_its_bend(back: float, seen: list[float]) -> None:
    """A hole of 4: its edge is 2 nearer, the inside of the face 2 behind the front: back - 2 - 2 at least 7."""
    layout = laid_out(f"top: {{length: 20, holes: [{{ref: F1, at: [50, {back}], diameter: 4}}]}}")
    assert measured("hole-near-bend", layout) == pytest.approx(seen)


@pytest.mark.parametrize(("back", "seen"), [(15.1, [2.9]), (15.0, [])])
def test_flange_hole_near_edge(back: float, seen: list[float]) -> None:
    """1.5 x 2 mm is due between a hole of 4 and the end of a flange of 20."""
    layout = laid_out(f"top: {{length: 20, holes: [{{ref: F1, at: [50, {back}], diameter: 4}}]}}")
    assert measured("flange-hole-near-edge", layout) == pytest.approx(seen)


@pytest.mark.parametrize(("length", "seen"), [(7.9, [7.9]), (8.0, [])])
def test_flange_too_short(length: float, seen: list[float]) -> None:
    """3 T + R with T = R = 2."""
    assert measured("flange-too-short", laid_out(f"top: {length}")) == pytest.approx(seen)


@pytest.mark.parametrize(("die", "seen"), [(16, [11.0]), (15, [])])
def test_flange_too_short_for_the_die(die: float, seen: list[float]) -> None:
    """0.7 of a die of 16 is 11.2, of 15 is 10.5; only recalled, so a warning."""
    layout = laid_out("top: 11", more=f"  bending: {{die: {die}}}")
    short = found("flange-too-short", layout)
    assert [finding.measured for finding in short] == seen
    assert all(finding.severity.value == "warning" for finding in short)


@pytest.mark.parametrize(
    ("name", "thickness", "radius", "seen"),
    [
        # Design-office table: 6061-T6 of 1/16 in at 1.5 T; 5052-H32 of 1/16 in at 1 T. Steel: 0.5 T, at least 0.8.
        ("aluminium 6061-T6", 1.6, 2.39, [2.39]), ("aluminium 6061-T6", 1.6, 2.4, []),
        ("aluminium 6061-T6", 1.6, 2.399999, [2.399999]),
        ("aluminium 5052-H32", 1.6, 1.59, [1.59]), ("aluminium 5052-H32", 1.6, 1.6, []),
        ("mild steel", 1.0, 0.79, [0.79]), ("mild steel", 1.0, 0.8, []), ("mild steel", 3.0, 1.49, [1.49]),
    ],
)  # fmt: skip
def test_bend_radius_too_small(name: str, thickness: float, radius: float, seen: list[float]) -> None:
    layout = laid_out("top: 30", material=name, thickness=thickness, more=f"  bending: {{radius: {radius}}}")
    assert measured("bend-radius-too-small", layout) == seen


def test_the_words_of_a_sheet_find_it() -> None:
    assert material("Aluminium 6061-T6").name == "aluminium-6061-t6"
    assert material("stainless steel 1.4301").name == "stainless"
    assert material("galvanised steel").name == "steel"
    assert material("oak").name == ""


def body(y: float, depth: float = 10.0) -> str:
    return (
        "  - {ref: B1, part: {rear: [{what: body, rectangle: {width: 20, height: 20}, "
        f"depth: {depth}}}]}}, at: [60, {y}]}}"
    )


@pytest.mark.parametrize(("y", "seen"), [(88.5, [0.5]), (88.0, []), (87.0, [])])
def test_part_in_flange(y: float, seen: list[float]) -> None:
    """The flange takes the last 2 mm below y = 100; the body reaches 10 above its middle."""
    assert measured("part-in-flange", laid_out("top: 20", body(y))) == pytest.approx(seen)


@pytest.mark.parametrize(("depth", "seen"), [(15.9, []), (16.1, [4.0])])
def test_part_under_a_return(depth: float, seen: list[float]) -> None:
    """A return of 14 on a flange of 20 stands from 18 behind the front; a body as deep as that meets it."""
    layout = laid_out("top: {length: 20, return: {length: 14}}", body(80.0, depth))
    assert measured("part-in-flange", layout) == pytest.approx(seen)


@pytest.mark.parametrize(("top", "seen"), [(97.0, [1.0]), (96.0, []), (90.0, [])])
def test_legend_on_bend(top: float, seen: list[float]) -> None:
    """The flat ends a setback of 4 below the edge at 100."""
    from tests.checks.builders import legend

    layout = replace(laid_out("top: 20"), legends=(legend("X1", "TOP", (40, top - 3, 60, top)),))
    assert measured("legend-on-bend", layout) == pytest.approx(seen)


@pytest.mark.parametrize(("second", "seen"), [(20.5, [20.5]), (20.000001, [20.000001]), (20, [])])
def test_return_too_long_for_tool(second: float, seen: list[float]) -> None:
    layout = laid_out(f"top: {{length: 20, return: {{length: {second}}}}}")
    assert measured("return-too-long-for-tool", layout) == seen


@pytest.mark.parametrize(("second", "seen"), [(50.5, [1.0]), (50, [])])
def test_returns_collide_across(second: float, seen: list[float]) -> None:
    edge = f"{{length: 60, return: {{length: {second}}}}}"
    assert measured("returns-collide", laid_out(f"top: {edge}, bottom: {edge}")) == pytest.approx(seen)


@pytest.mark.parametrize(("second", "seen"), [(12.5, [0.5]), (12, [])])
def test_returns_collide_round_a_corner(second: float, seen: list[float]) -> None:
    one = f"{{length: 20, inset: [12, 0], return: {{length: {second}}}}}"
    two = f"{{length: 20, inset: [0, 12], return: {{length: {second}}}}}"
    assert measured("returns-collide", laid_out(f"top: {one}, left: {two}")) == pytest.approx(seen)


# --- hardware


@pytest.mark.parametrize(("x", "seen"), [(7.19, [7.19]), (7.199999, [7.199999]), (7.2, [])])
def test_hardware_near_edge(x: float, seen: list[float]) -> None:
    """Self-clinch stud M4: 7.2 from centre to edge (two suppliers' tables)."""
    layout = laid_out("top: 20", f"  - {{ref: B1, part: press-stud-m4, at: [{x}, 40]}}")
    assert measured("hardware-near-edge", layout) == pytest.approx(seen)


def test_hardware_near_a_bend() -> None:
    """The inside of the flange is at 98: a stud M5 at 91 is 7 from it and wants 7.2."""
    layout = laid_out("top: 20", "  - {ref: B1, part: press-stud-m5, at: [100, 91]}")
    assert refs("hardware-near-edge", layout) == [("B1",)]
    assert measured("hardware-near-edge", layout) == pytest.approx([7.0])
