"""Limits are data with a standing; what is only remembered may warn, never fail."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.checks.limits import Basis, read, standard
from panelart.diagnostics import Severity, SpecError
from tests.checks.builders import block, disc, frame, front, keepout, knob, layout, legend, mark, opening, rear
from tests.checks.cases import found

ONE = """
web.minimum:
  what: metal left
  value: 1.5
  unit: ratio
  source: our own shop
  known: given
"""


def test_every_limit_says_where_it_comes_from():
    for limit in standard().values():
        assert limit.what
        assert len(limit.source) > 10


def test_a_limits_file_is_read():
    limit = read(ONE, "house.yaml")["web.minimum"]
    assert (limit.value, limit.unit, limit.source, limit.basis) == (1.5, "ratio", "our own shop", Basis.GIVEN)


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("value: 1.5", "value: nan", 4),
        ("value: 1.5", "value: thick", 4),
        ("known: given", "known: hearsay", 7),
        ("unit: ratio", "unit: furlong", 5),
        ("source: our own shop", "sauce: our own shop", 6),
        ("  what: metal left\n", "", 3),
    ],
)
def test_slips_in_a_limits_file_are_told_with_their_line(old, new, line):
    with pytest.raises(SpecError) as error:
        read(ONE.replace(old, new), "house.yaml")
    assert line in [problem.where.line for problem in error.value.problems]


def test_all_slips_are_told_at_once():
    with pytest.raises(SpecError) as error:
        read(ONE.replace("1.5", "x").replace("given", "y"), "house.yaml")
    assert len(error.value.problems) == 2


THIN = layout(opening("J1", disc(50, 50, 12)), opening("J2", disc(63, 50, 12)))


@pytest.mark.parametrize(
    ("basis", "severity"),
    [
        (Basis.LOOKED_UP, Severity.ERROR),
        (Basis.COMMON_PRACTICE, Severity.ERROR),
        (Basis.GIVEN, Severity.ERROR),
        (Basis.MEMORY, Severity.WARNING),
    ],
)
def test_a_limit_from_memory_warns(basis, severity):
    limits = {**standard(), "web.minimum": replace(standard()["web.minimum"], basis=basis)}
    assert [finding.severity for finding in found("openings-too-close", THIN, limits)] == [severity]


def test_a_rule_that_warns_is_not_raised_by_a_sure_limit():
    one_part = layout(opening("J1", disc(50, 50, 12), number=1), opening("J1", disc(63, 50, 12), number=2))
    assert [finding.severity for finding in found("thin-web-in-cutout", one_part)] == [Severity.WARNING]


@pytest.mark.parametrize(
    ("rule", "name", "things"),
    [
        ("parts-collide", "overlap.maximum", (knob("A1", 50, 50, 24), knob("A2", 73, 50, 24))),
        ("parts-collide-behind", "overlap.maximum", (rear("A1", disc(50, 50, 24)), rear("A2", disc(73, 50, 24)))),
        ("opening-under-part", "overlap.maximum", (knob("A1", 50, 50, 24), opening("A2", disc(63, 50, 4)))),
        ("openings-collide", "overlap.maximum", (opening("A1", disc(50, 50, 12)), opening("A2", disc(61, 50, 12)))),
        ("part-over-edge", "beyond_edge.maximum", (knob("A1", 11, 50, 24),)),
        ("opening-over-edge", "beyond_edge.maximum", (opening("A1", disc(5, 50, 12)),)),
        ("legend-under-knob", "covered.maximum", (knob("A1", 50, 50, 24), legend("A1", "G", (48, 61, 52, 64)))),
        ("legend-under-part", "covered.maximum", (front("A1", disc(50, 50, 24)), legend("A1", "G", (48, 61, 52, 64)))),
        (
            "legend-over-opening",
            "covered.maximum",
            (opening("A1", disc(50, 50, 24)), legend("A1", "G", (48, 61, 52, 64))),
        ),
        (
            "legends-collide",
            "marking_overlap.maximum",
            (legend("A1", "G", (0, 0, 9, 9)), legend("A2", "G", (8, 0, 17, 9))),
        ),
        (
            "legend-on-mark",
            "marking_overlap.maximum",
            (mark("A1", (50, 50), (50, 58), 3), legend("A1", "G", (48, 57, 52, 60))),
        ),
        (
            "legend-on-frame",
            "marking_overlap.maximum",
            (frame("frame 1", (20, 20, 80, 60), 2), legend("A1", "G", (50, 60, 60, 63))),
        ),
        (
            "frame-under-part",
            "covered.maximum",
            (frame("frame 1", (20, 20, 80, 60), 2), front("A1", block(50, 65, 10, 10))),
        ),
        (
            "frame-over-opening",
            "covered.maximum",
            (frame("frame 1", (20, 20, 80, 60), 2), opening("A1", block(50, 65, 10, 10))),
        ),
        (
            "frames-collide",
            "marking_overlap.maximum",
            (frame("frame 1", (20, 20, 80, 60), 2), frame("frame 2", (81, 20, 99, 60), 2)),
        ),
    ],
)
def test_rules_of_overlap_keep_to_the_limit_in_the_table(rule, name, things):
    # Each case overlaps by 1 mm.
    panel = layout(*things)
    (finding,) = found(rule, panel)
    assert (finding.limit_name, finding.measured) == (name, pytest.approx(1.0, abs=0.01))
    for allowed, count in ((0.9, 1), (1.1, 0)):
        limits = {**standard(), name: replace(standard()[name], value=allowed)}
        assert len(found(rule, panel, limits)) == count


def test_the_limit_of_a_keepout_is_its_line_in_the_spec():
    panel = layout(front("S1", block(50, 50, 20, 20)), keepout(block(69, 50, 20, 20)))
    (finding,) = found("part-in-keepout", panel)
    assert (finding.limit, finding.basis) == (0.0, Basis.GIVEN)
    assert "front.yaml:30:5" in finding.source


def test_a_remedy_is_rounded_to_the_safe_side():
    # Needed 3.0543 mm: rounding to the nearest would say 3.05, which is still too small.
    panel = layout(legend("RV1", "GAIN", (50, 50, 60, 53)), viewing_distance=700)
    (finding,) = found("legend-too-small", panel)
    assert "3.06 mm" in finding.fix
    assert "3.05 mm" in finding.sentence
    # 0.0043 mm: shown to the digit that says something, and rounded up.
    panel = layout(knob("A1", 50, 50, 24), knob("A2", 73.9957, 50, 24))
    (finding,) = found("parts-collide", panel)
    assert "0.004 mm" in finding.sentence
    assert "0.005 mm" in finding.fix


def test_a_house_limit_takes_the_place_of_the_programs():
    house = {**standard(), **read(ONE.replace("1.5", "0.4"), "house.yaml")}
    assert [finding.rule for finding in inspect(THIN).findings] == ["openings-too-close"]
    assert inspect(THIN, house).findings == ()
