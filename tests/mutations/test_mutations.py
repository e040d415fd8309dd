"""Each known fault put into a clean demo: the right rule names the right part, and nothing else appears."""

from __future__ import annotations

import pytest

from panelart.checks import RULES, inspect
from tests.mutations.faults import FAULTS, Fault, clean


def appeared(fault: Fault) -> set[tuple[str, tuple[str, ...]]]:
    """Rule and refs of the findings that the clean demo does not have."""
    before, after = (
        {(finding.rule, finding.refs) for finding in inspect(layout, today=fault.today).findings}
        for layout in (clean(fault.demo), fault.change(clean(fault.demo)))
    )
    return after - before


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.what)
def test_the_right_rule_names_the_right_part_and_nothing_else_appears(fault):
    assert appeared(fault) == fault.found


def test_there_are_more_than_sixty_and_each_is_another():
    assert len(FAULTS) > 60
    assert len({fault.what for fault in FAULTS}) == len(FAULTS)
    assert {rule for fault in FAULTS for rule, _ in fault.found} <= set(RULES)
