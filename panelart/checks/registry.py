"""All rules, by name. A module of rules that cannot be loaded stops the run; none can go missing unseen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType, ModuleType
from typing import Any, Final

from panelart.checks import (
    bending,
    boxes,
    brake,
    clearances,
    coating,
    codes,
    countersinks,
    cutting,
    emergency,
    enclosure,
    fit,
    frames,
    hanging,
    hardware,
    legends,
    lettering,
    marking,
    pads,
    parts,
    printing,
    racks,
    reading,
    waivers,
    wording,
    workshop,
)
from panelart.checks.rule import Rule
from panelart.checks.survey import Survey
from panelart.checks.waivers import Review


def _rules_of(*families: ModuleType) -> Iterator[Rule[Any]]:
    for family in families:
        yield from (thing for thing in vars(family).values() if isinstance(thing, Rule))


def _by_name(rules: Iterator[Rule[Any]]) -> Mapping[str, Rule[Any]]:
    """Rules by name, in the order of their modules. Raises ValueError for two rules of one name."""
    named: dict[str, Rule[Any]] = {}
    for rule in rules:
        if rule.name in named:
            raise ValueError(f"two rules are named {rule.name}")
        named[rule.name] = rule
    return MappingProxyType(named)


PANEL_RULES: Final[Mapping[str, Rule[Survey]]] = _by_name(
    _rules_of(
        parts,
        enclosure,
        boxes,
        cutting,
        fit,
        coating,
        countersinks,
        bending,
        brake,
        hanging,
        racks,
        hardware,
        clearances,
        emergency,
        legends,
        frames,
        marking,
        printing,
        pads,
        codes,
        lettering,
        reading,
        wording,
        workshop,
    )
)
"""Rules about the panel; a waiver can accept their findings."""

WAIVER_RULES: Final[Mapping[str, Rule[Review]]] = _by_name(_rules_of(waivers))
"""Rules about the waivers themselves; nothing can accept their findings."""

RULES: Final[Mapping[str, Rule[Any]]] = MappingProxyType({**PANEL_RULES, **WAIVER_RULES})
"""Every rule, for lists and manual pages."""
