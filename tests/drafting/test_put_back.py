"""Parts that are put back: where a row, a column, a like part or a corner says; and always where they fit."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from panelart.diagnostics import Severity, SpecError
from panelart.drafting.arrange import Request
from panelart.drafting.tried import arranged_larger, arranged_well
from panelart.geometry import Point
from panelart.pipeline import build
from panelart.source import edit
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text

DEMO = Path(__file__).parents[2] / "demo"

HEAD = """\
panelart: 1
panel: {{title: Trial, size: [{width}, {height}], sheet: {{material: aluminium, thickness: 2}}}}
marking: {{process: digital-print, ink: {{name: black, colour: "#101010"}}, lettering: {{cap_height: 3.5}}}}
parts:
"""


def spec(*parts: str, width: float = 200, height: float = 100, more: str = "") -> str:
    return HEAD.format(width=width, height=height) + "".join(f"  - {{{part}}}\n" for part in parts) + more


def place(text: str, ref: str) -> Point:
    return arranged_well(text, "trial.yaml", DEMO, Request())[0].built.layout.panel.by_ref[ref].at


ROW = [f"ref: S{n}, part: toggle-12, at: [{20 + 30 * n}, 50], legend: Way {n}" for n in range(1, 6)]


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
def test_a_row_gets_its_gap_and_its_ends_filled(number: int) -> None:
    """The pitch of the row is 30 mm, so there is one place only that keeps it."""
    at = f"at: [{20 + 30 * number}, 50], "
    assert place(spec(*ROW).replace(at, ""), f"S{number}") == (20 + 30 * number, 50)


def test_a_part_stands_to_its_lamp_as_its_like_do() -> None:
    """Three switches 30 mm below their lamps, 40, 55 and 45 mm apart: the second has only its lamp to go by."""
    xs = (30, 70, 125, 170)
    lamps = [f"ref: H{n}, part: led-5-bezel, at: [{x}, 70], legend: L{n}" for n, x in enumerate(xs, start=1)]
    switches = [f"ref: S{n}, part: toggle-12, at: [{x}, 40]" for n, x in enumerate(xs, start=1)]
    assert place(spec(*lamps, *switches).replace("at: [125, 40]", "turn: 0"), "S3") == (125, 40)


@pytest.mark.parametrize("corner", [(7, 7), (193, 7), (7, 93), (193, 93)])
def test_a_screw_goes_to_the_corner_that_has_none(corner: tuple[int, int]) -> None:
    corners = [(7, 7), (193, 7), (7, 93), (193, 93)]
    screws = [f"ref: H{n}, part: screw-m4, at: [{x}, {y}]" for n, (x, y) in enumerate(corners, start=1)]
    text = spec(*screws, "ref: S1, part: toggle-12, at: [100, 50], legend: Power")
    ref = f"H{corners.index(corner) + 1}"
    assert place(text.replace(f", at: [{corner[0]}, {corner[1]}]", ""), ref) == corner


def test_a_part_goes_into_its_frame() -> None:
    parts = [
        "ref: J1, part: bnc, at: [40, 40], legend: In",
        "ref: J2, part: bnc, legend: Out",
        "ref: J3, part: bnc, at: [100, 40], legend: Trigger",
        "ref: J4, part: bnc, at: [160, 40], legend: Gate",
    ]
    at = place(spec(*parts, more="frames:\n  - {around: [J1, J2, J3], title: Signals}\n"), "J2")
    assert at == (70, 40)


# The designer's own place within 0.5 mm; parts of the demos that a row, a column or a corner decides.
DECIDED = [
    ("bench-supply.yaml", ("M1",)),
    ("bench-supply.yaml", ("RV2",)),
    ("bench-supply.yaml", ("DS3",)),
    ("bench-supply.yaml", ("S2",)),
    ("bench-supply.yaml", ("H4",)),
    ("climate-chamber.yaml", ("S2",)),
    ("climate-chamber.yaml", ("DS1", "H3")),
    ("pump-station.yaml", ("S1",)),
    ("valve-stand.yaml", ("H2",)),
]


@pytest.mark.few(4)
@pytest.mark.parametrize(("demo", "refs"), DECIDED)
def test_parts_of_demos_are_back_where_their_designer_had_them(demo: str, refs: tuple[str, ...]) -> None:
    path = DEMO / demo
    text = bare = path.read_text(encoding="utf-8")
    for ref in refs:
        bare = edit.remove(bare, (*paths_of_parts(bare)[ref], "at"))
    right = panel_from_text(text, path.as_posix(), DEMO)
    found = arranged_well(bare, path.as_posix(), DEMO, Request())[0]
    for ref in refs:
        assert found.built.layout.panel.by_ref[ref].at.distance(right.by_ref[ref].at) <= 0.5
    assert found.errors == 0


# --- never refused what fits


def fits(width: float, height: float, standing: list[tuple[float, float]]) -> bool:
    """Oracle: every place on a grid of 1 mm is tried by the rules."""
    parts = [f"ref: S{n}, part: toggle-12, at: [{x}, {y}]" for n, (x, y) in enumerate(standing, start=1)]
    for x in np.arange(8, width - 7, 1.0):
        for y in np.arange(14, height - 13, 1.0):
            text = spec(*parts, f"ref: S9, part: toggle-12, at: [{x:g}, {y:g}]", width=width, height=height)
            findings = build(panel_from_text(text, "trial.yaml")).inspection.findings
            if not any(one.severity is Severity.ERROR and "S9" in one.refs for one in findings):
                return True
    return False


SMALL = [
    (60.0, 32.0, [(15.0, 16.0), (35.0, 16.0)]),  # 15.9 mm behind the second, 9.1 to the edge: 0.1 mm too narrow
    (62.5, 32.0, [(15.0, 16.0), (34.0, 16.0)]),  # 28.5 mm right of the second: fits
    (74.0, 32.0, [(15.0, 16.0), (52.0, 16.0)]),  # 37 mm between the two: fits in the middle only
    (70.0, 32.0, [(18.0, 16.0), (52.0, 16.0)]),  # 34 mm between, 18 outside: nowhere
]


@pytest.mark.few(2)
@pytest.mark.parametrize(("width", "height", "standing"), SMALL)
def test_what_fits_is_never_refused_and_nothing_else_is_placed(
    width: float, height: float, standing: list[tuple[float, float]]
) -> None:
    parts = [f"ref: S{n}, part: toggle-12, at: [{x}, {y}]" for n, (x, y) in enumerate(standing, start=1)]
    text = spec(*parts, "ref: S9, part: toggle-12", width=width, height=height)
    if fits(width, height, standing):
        found = arranged_well(text, "trial.yaml", DEMO, Request())[0]
        named = [one for one in found.built.inspection.findings if "S9" in one.refs]
        assert [one for one in named if one.severity is Severity.ERROR] == []
    else:
        with pytest.raises(SpecError, match="No space for S9: S1, S2 and the edge"):
            arranged_well(text, "trial.yaml", DEMO, Request())


def test_the_panel_is_enlarged_by_the_least_step_that_does() -> None:
    """Two switches on 42 mm leave no room for a third; 42 + 5 n mm wide the first that has it is taken."""
    parts = [
        "ref: S1, part: toggle-12, at: [10, 16]",
        "ref: S2, part: toggle-12, at: [30, 16]",
        "ref: S3, part: toggle-12",
    ]
    text = spec(*parts, width=42, height=32)
    panel = arranged_larger(text, "trial.yaml", DEMO, Request())[0].built.layout.panel
    width, height = panel.size
    assert height == 32
    with pytest.raises(SpecError):
        arranged_well(text.replace("[42, 32]", f"[{width - 5:g}, 32]"), "trial.yaml", DEMO, Request())
    assert 30 + 18 < panel.by_ref["S3"].at.x <= width - 9
    assert panel.by_ref["S2"].at == (30, 16)
