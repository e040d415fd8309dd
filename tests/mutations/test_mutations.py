"""Each known fault put into a clean demo: the right rule names the right part, and nothing else appears.

The faults of `faults.py` are put into one demo each. The kinds of `kinds.py` look for their own place and are put into
every demo that has one.
"""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from panelart.checks import RULES, inspect
from panelart.checks.rule import Case
from panelart.model.layout import Layout
from tests.checks.making import laid_out
from tests.mutations.faults import DEMO, FAULTS, Fault, Found, clean
from tests.mutations.kinds import KINDS, Kind, Made

DEMOS = tuple(
    sorted(path.stem for path in DEMO.glob("*.yaml") if path.read_text(encoding="utf-8").find("\npanel:") > 0)
)


OF_THE_PANEL = {"parts-to-measure"}
"""Rules that have one finding for all parts of a panel, where each part has it by itself."""


def signs(layout: Layout, today: str) -> Counter[tuple[str, tuple[str, ...]]]:
    """Rule and refs of each finding; what is one finding of a panel for all its parts, once for each of them."""
    return Counter(
        (finding.rule, refs)
        for finding in inspect(layout, today=today).findings
        for refs in (
            [(spot.ref,) for spot in finding.each] if finding.rule in OF_THE_PANEL else [tuple(sorted(finding.refs))]
        )
    )


@cache
def signs_of_clean(demo: str, today: str) -> Counter[tuple[str, tuple[str, ...]]]:
    return signs(clean(demo), today)


def appeared(demo: str, changed: Layout, today: str) -> set[tuple[str, tuple[str, ...]]]:
    """Rule and refs of the findings that the clean demo does not have, or not as often."""
    return set(signs(changed, today) - signs_of_clean(demo, today))


def expected(fault: Fault) -> set[tuple[str, tuple[str, ...]]]:
    return {(rule, tuple(sorted(refs))) for rule, refs in fault.found}


@pytest.mark.few(66)
@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.what)
def test_the_right_rule_names_the_right_part_and_nothing_else_appears(fault):
    assert appeared(fault.demo, fault.change(clean(fault.demo)), fault.today) == expected(fault)


@cache
def places(demo: str) -> dict[str, Made]:
    """The kinds of fault that a demo has a place for, each as it is made there."""
    made = {kind.what: kind.inject(clean(demo)) for kind in KINDS}
    return {what: one for what, one in made.items() if one is not None}


@cache
def came_of(what: str, demo: str) -> Found:
    """What appears when a kind of fault is put into a demo that has a place for it."""
    (kind,) = (kind for kind in KINDS if kind.what == what)
    return appeared(demo, places(demo)[what][0](clean(demo)), kind.today)


@pytest.mark.few(40)
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.what)
def test_a_kind_of_fault_is_found_in_the_first_demo_that_has_a_place_for_it(kind: Kind):
    demo = next(demo for demo in DEMOS if kind.what in places(demo))
    assert came_of(kind.what, demo) == places(demo)[kind.what][1]


@pytest.mark.full
@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.what)
def test_a_kind_of_fault_is_found_in_every_second_demo_that_has_a_place_for_it(kind: Kind, demo: str):
    """The demos of even numbers with one kind, those of odd numbers with the next."""
    if (KINDS.index(kind) + DEMOS.index(demo)) % 2 or kind.what not in places(demo):
        return  # how often that may be so is counted below
    assert came_of(kind.what, demo) == places(demo)[kind.what][1]


def test_every_kind_has_its_place_and_most_demos_take_most_kinds():
    taken = {kind.what: [demo for demo in DEMOS if kind.what in places(demo)] for kind in KINDS}
    assert [what for what, demos in taken.items() if not demos] == []
    assert min(sum(demo in demos for demos in taken.values()) for demo in DEMOS) >= 25
    assert sum(map(len, taken.values())) > 350


def test_there_are_more_than_sixty_and_each_is_another():
    assert len(FAULTS) > 60
    assert len(KINDS) > 60
    for names in ({fault.what for fault in FAULTS}, {kind.what for kind in KINDS}):
        assert len(names) in (len(FAULTS), len(KINDS))


def alone(case: Case) -> set[str]:
    """The rules whose findings the failing panel of a case has and the passing one has not."""
    failing, passing = (
        {finding.rule for finding in inspect(laid_out(text), today=case.today).findings}
        for text in (case.failing, case.passing)
    )
    return failing - passing


def without_fault(tried: set[str]) -> list[str]:
    """The rules that no fault was tried for, nor have a case that brings their finding and no other."""
    assert tried <= set(RULES)
    return [
        name
        for name, rule in RULES.items()
        if name not in tried and not any(alone(case) == {name} for case in rule.examples)
    ]


def test_every_rule_has_a_fault():
    tried = {rule for fault in FAULTS for rule, _ in fault.found}
    tried |= {rule for demo in DEMOS for _, found in places(demo).values() for rule, _ in found}
    assert without_fault(tried) == []


def test_every_rule_has_a_fault_in_the_quick_run():
    tried = {rule for fault in FAULTS for rule, _ in fault.found}
    for kind in KINDS:
        tried |= {rule for rule, _ in next(places(demo)[kind.what][1] for demo in DEMOS if kind.what in places(demo))}
    assert without_fault(tried) == []


def test_a_rule_with_neither_is_found_out():
    assert without_fault(set(RULES) - {"waiver-expired"}) == ["waiver-expired"]
    assert without_fault(set(RULES) - {"openings-too-close"}) == []
