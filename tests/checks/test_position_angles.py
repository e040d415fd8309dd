"""Positions asked of catalogue parts: laid at the angles of the table, asked for, or refused.

The marks that are laid are read back from the artwork as it was written.
"""

from __future__ import annotations

import cmath
import math
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest
import yaml
from lxml import etree
from svgpathtools import parse_path

import panelart
from tests.svg_ink import SVG

TABLE = yaml.safe_load(Path(__file__).with_name("position_angles.yaml").read_text(encoding="utf-8"))
LISTS = TABLE["lists"]
AT = (150.0, 120.0)
SPEC = """\
panelart: 1
panel: {{title: Trial, size: [300, 240], sheet: {{material: aluminium 5754, thickness: 2}}}}
marking: {{process: screen-print, ink: {{name: black, colour: "#000000"}}, lettering: {{font: {{weight: light}}}}}}
parts: [{{ref: S1, part: {part}, at: [150, 120], turn: {turn}, legend: Range, positions: {positions}}}]
"""
ASKED = {f"spec-controls.angles-{why}" for why in ("differ", "held", "typical", "unknown")}
NAMES = {f"N{number}" for number in range(1, 33)}
REFUSED = ("more-positions-than-part", "position-off-angle")


def written(positions: dict[str, Any]) -> str:
    """The positions as a spec writes them."""
    if "count" not in positions:
        return "{" + ", ".join(f"{way}: N{number}" for way, number in positions.items()) + "}"
    texts = [f"N{number}" for number in range(1, positions["count"] + 1)]
    stated = {key: value for key, value in positions.items() if key != "count"}
    if not stated:
        return f"[{', '.join(texts)}]"
    return f"{{texts: [{', '.join(texts)}], {', '.join(f'{key}: {value}' for key, value in stated.items())}}}"


def verdict(one: dict[str, Any], folder: Path, turn: float = 0.0) -> object:
    """What the program does: `asked`, `refused`, or what it laid, read from the artwork."""
    spec = SPEC.format(part=one["part"], turn=turn, positions=written(one["positions"]))
    try:
        result = panelart.build(panelart.load(spec))
    except panelart.SpecError as error:
        return "asked" if {problem.says.id for problem in error.problems} <= ASKED else "refused"
    if any(finding.rule in REFUSED for finding in result.findings):
        return "refused"
    result.write(folder, only=["artwork.svg"])
    artwork = Artwork(folder / "artwork.svg")
    return artwork.angles() if "count" in one["positions"] else artwork.ways(level="left" in one["positions"])


class Artwork:
    """What is printed round the part, from its middle, y up."""

    def __init__(self, path: Path) -> None:
        root = etree.fromstring(path.read_bytes())
        self.paths = [(each.get("aria-label") or "", parse_path(each.get("d"))) for each in root.iter(f"{SVG}path")]
        (outline,) = (path for label, path in self.paths if label == "finished outline")
        left, _, _, bottom = outline.bbox()
        self.middle = complex(left + AT[0], bottom - AT[1])

    def angles(self) -> list[float]:
        """The angles of the marks, clockwise from straight up, in the order of their names.

        Every mark points at the shaft, and is nearest to its own name.
        """
        found, ends = [], []
        for label, line in self.paths:
            if label == "major-mark of S1":
                near, far = sorted(((end - self.middle).conjugate() for end in (line.start, line.end)), key=abs)
                assert cmath.phase(far / near) == pytest.approx(0.0, abs=1e-3)
                found.append(90.0 - math.degrees(cmath.phase(far)))
                ends.append(far)
        for number, far in enumerate(ends, start=1):
            assert min(self.names, key=lambda name: abs(name[1] - far))[0] == f"N{number}"
        return found

    @cached_property
    def names(self) -> list[tuple[str, complex]]:
        """The names with the middles of their letters."""
        found = []
        for label, letters in self.paths:
            if label in NAMES:
                left, right, low, high = letters.bbox()
                found.append((label, (complex(left + right, low + high) / 2 - self.middle).conjugate()))
        return found

    def ways(self, *, level: bool) -> list[str]:
        """Where each name lies along the throw, in the order of the names."""
        ends = ("left", "right") if level else ("down", "up")
        along = [(name, middle.real if level else middle.imag) for name, middle in sorted(self.names)]
        return ["centre" if abs(far) < 1.0 else ends[far > 0.0] for _, far in along]


def agrees(one: dict[str, Any], found: object, turn: float = 0.0) -> bool:
    """Whether what the program did is what the table says."""
    if not isinstance(found, list):
        return bool(one.get(str(found)))
    if "laid" not in one or len(found) != len(one["laid"]):
        return False
    pairs = zip(found, one["laid"], strict=True)
    return all(abs((a - b + turn + 180.0) % 360.0 - 180.0) < 0.01 if isinstance(a, float) else a == b for a, b in pairs)


def named(one: dict[str, Any]) -> str:
    return f"{one['part']} {written(one['positions'])}"


@pytest.mark.few(60)
@pytest.mark.parametrize("one", LISTS, ids=named)
def test_positions_are_laid_asked_for_or_refused(one: dict[str, Any], tmp_path: Path) -> None:
    found = verdict(one, tmp_path)
    assert agrees(one, found), f"{one}, by {TABLE['sources'][one['by']]}: {found}"


@pytest.mark.few(20)
@pytest.mark.parametrize("one", [one for one in LISTS if "laid" in one and "count" in one["positions"]], ids=named)
def test_marks_turn_with_the_part(one: dict[str, Any], tmp_path: Path) -> None:
    """A part is turned anticlockwise."""
    assert agrees(one, verdict(one, tmp_path, 30.0), 30.0)


def test_the_table_has_a_hundred_and_twenty_lists_and_each_verdict_in_plenty() -> None:
    assert len({named(one) for one in LISTS}) == len(LISTS) >= 120
    for which in ("laid", "asked", "refused"):
        assert sum(which in one for one in LISTS) >= 25
    assert all(sum(which in one for which in ("laid", "asked", "refused")) == 1 for one in LISTS)
