"""Codes for machines: modules against the process, bare zones against everything that may stand in them."""

from __future__ import annotations

import pytest

from panelart.checks import RULES
from panelart.checks.survey import survey
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text

SPEC = """\
panelart: 1
panel:
  title: Trial
  size: [120, 60]
  sheet: {{material: aluminium, thickness: 2}}
  coat: {{kind: none, colour: "#E8E8E8"}}
marking:
  process: digital-print
  ink: {{name: black, colour: "#000000"}}
  lettering: {{cap_height: 3}}
  viewing_distance: 500
parts:
  - {{ref: S1, part: toggle-12, at: [20, 30]}}
texts:
  - {{text: "WORDS", at: [90, 52]}}
art:
{codes}
"""


def found(rule: str, *codes: str):
    lines = "\n".join(f"  - {{code: {code}}}" for code in codes)
    seen = survey(lay_out(panel_from_text(SPEC.format(codes=lines))))
    return [(one.refs, one.measured, one.limit) for one in RULES[rule].check(seen)]


@pytest.mark.parametrize(("module", "told"), [(0.2, 1), (0.259999, 1), (0.26, 0), (0.5, 0)])
def test_modules_are_held_against_line_and_gap(module, told) -> None:
    """Digital print holds lines of 0.25 mm and gaps of 0.26 mm: the larger counts."""
    assert len(found("code-too-fine", f"qr, text: A, at: [70, 30], module: {module}")) == told


# A QR symbol of version 1 is 21 modules wide (ISO/IEC 18004): 10.5 mm at 0.5 mm, and needs 2 mm bare.
@pytest.mark.parametrize(
    ("at", "told", "measured"),
    [
        ("[70, 30]", 0, None),
        ("[112.749999, 30]", 0, None),  # 2 mm to the right edge, and a millionth
        ("[112.750001, 30]", 1, None),
        ("[112.8, 30]", 1, 1.95),
        ("[70, 7.3]", 0, None),
        ("[70, 6.5]", 1, 1.25),
        ("[95, 46]", 1, None),  # under the words
    ],
)
def test_the_bare_zone_of_a_qr_code(at, told, measured) -> None:
    seen = found("code-not-quiet", f"qr, text: A, at: {at}, module: 0.5")
    assert len(seen) == told
    if measured is not None:
        assert seen[0][1] == pytest.approx(measured)
        assert seen[0][2].value == 2.0


@pytest.mark.parametrize(("at", "told"), [("[37, 30]", 0), ("[35, 30]", 1)])
def test_parts_keep_out_of_it(at, told) -> None:
    assert len(found("code-not-quiet", f"qr, text: A, at: {at}, module: 0.5")) == told


def test_a_data_matrix_needs_one_module_only() -> None:
    """10 x 10 modules for a letter: at 0.5 mm its edge may stand 0.5 mm from the panel's."""
    assert not found("code-not-quiet", "data-matrix, text: A, at: [116.9, 30], module: 0.5")
    assert found("code-not-quiet", "data-matrix, text: A, at: [117.1, 30], module: 0.5")


def test_turned_codes_are_looked_at_where_they_stand() -> None:
    flat, turned = ("code-128, text: A, at: [112, 30], module: 0.3" + turn for turn in ("", ", turn: 90"))
    assert found("code-not-quiet", flat)
    assert not found("code-not-quiet", turned)


def test_two_codes_keep_their_distance() -> None:
    one, near = "qr, text: A, at: [70, 30], module: 0.5", "qr, text: B, at: [82, 30], module: 0.5"
    assert [refs for refs, _, _ in found("code-not-quiet", one, near)] == [("code 1", "code 2"), ("code 2", "code 1")]
    assert not found("code-not-quiet", one, "qr, text: B, at: [85, 30], module: 0.5")
