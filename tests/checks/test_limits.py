"""Limits are data with a standing; what is only remembered may warn, never fail."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panelart.checks import inspect
from panelart.checks.limits import Basis, read, standard
from panelart.diagnostics import Severity, SpecError
from tests.checks.builders import disc, layout, opening
from tests.checks.cases import found

ONE = """
web.least:
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
    limit = read(ONE, "house.yaml")["web.least"]
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
    limits = {**standard(), "web.least": replace(standard()["web.least"], basis=basis)}
    assert [finding.severity for finding in found("openings-too-close", THIN, limits)] == [severity]


def test_a_rule_that_warns_is_not_raised_by_a_sure_limit():
    one_part = layout(opening("J1", disc(50, 50, 12), number=1), opening("J1", disc(63, 50, 12), number=2))
    assert [finding.severity for finding in found("thin-web-in-cutout", one_part)] == [Severity.WARNING]


def test_a_house_limit_takes_the_place_of_the_programs():
    house = {**standard(), **read(ONE.replace("1.5", "0.4"), "house.yaml")}
    assert [finding.rule for finding in inspect(THIN).findings] == ["openings-too-close"]
    assert inspect(THIN, house).findings == ()
