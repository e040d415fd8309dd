"""All rules, by name: those of this package and those that other packages bring.

A module of rules that cannot be loaded stops the run; none can go missing unseen. Rules of another package are named by
it: `house-rules/two-lamps`, as SARIF writes names in levels (2.1.0, 3.5.4), so that no two packages can clash.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fnmatch import filter as matching
from importlib import import_module
from types import MappingProxyType, ModuleType
from typing import Any, Final

from msgspec.structs import replace

from panelart import extensions
from panelart.checks import waivers
from panelart.checks.limits import Limit, Limits, standard
from panelart.checks.rule import Rule
from panelart.checks.survey import Survey
from panelart.checks.waivers import Review
from panelart.extensions import Entry, ExtensionError, RefusedError
from panelart.messages import extensions as said

GROUP: Final = "panelart.rules"
"""The group of entry points; each names a module of rules, or one rule."""

OF_PROCESS: Final = "process."
"""Before the name of a figure of the marking process, where a rule declares what it reads."""

FAMILIES: Final = (
    "parts",
    "enclosure",
    "ratings",
    "boxes",
    "boards",
    "cutting",
    "fit",
    "coating",
    "countersinks",
    "bending",
    "brake",
    "hanging",
    "racks",
    "hardware",
    "clearances",
    "cables",
    "emergency",
    "legends",
    "frames",
    "marking",
    "printing",
    "pads",
    "codes",
    "lettering",
    "reading",
    "ownership",
    "registering",
    "legibility",
    "wording",
    "positions",
    "turning",
    "sliding",
    "scales",
    "dials",
    "numerals",
    "signs",
    "workshop",
)
"""The modules of rules, in the order of their pages."""


class Rules:
    """The rules of a run by name, and the limits that they bring themselves.

    A waiver can accept the findings of `panel`; those of `waivers` are about the waivers themselves, and nothing can
    accept them. `every` holds both. Raises RefusedError where two rules have one name, or two limits, those `known`
    included.
    """

    def __init__(self, panel: Iterable[Rule[Any]], about_waivers: Iterable[Rule[Any]], known: Limits) -> None:
        self.panel: Mapping[str, Rule[Survey]] = by_name(panel)
        self.waivers: Mapping[str, Rule[Review]] = by_name(about_waivers)
        self.every: Mapping[str, Rule[Any]] = by_name((*self.panel.values(), *self.waivers.values()))
        self.limits: Limits = limits_of(self.every.values(), known)

    @property
    def canonical(self) -> tuple[tuple[str, str, str], ...]:
        """What tells these rules from others: names, severities and what they find."""
        return tuple((rule.name, rule.severity.value, rule.doc) for rule in self.every.values())

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Rules) and (self is other or self.canonical == other.canonical)

    def __hash__(self) -> int:
        return hash(tuple(self.every))

    def __reduce__(self) -> str | tuple[Callable[[frozenset[str]], Rules], tuple[frozenset[str]]]:
        # Rules are code: a copy, and what another process reads, finds the same rules where they are installed.
        if self is BUILT_IN:
            return "BUILT_IN"
        return _found_again, (frozenset(rule.extension for rule in self.every.values() if rule.extension),)

    def __repr__(self) -> str:
        return f"<{len(self.every)} rules>"


def rules_of(module: ModuleType) -> tuple[Rule[Any], ...]:
    """The rules that a module defines, in their order; not those that it imports."""
    return tuple(
        thing
        for thing in vars(module).values()
        if isinstance(thing, Rule) and thing.check.__module__ == module.__name__
    )


def by_name(rules: Iterable[Rule[Any]]) -> Mapping[str, Rule[Any]]:
    """Rules by name, in their order. Raises RefusedError for two rules of one name."""
    named: dict[str, Rule[Any]] = {}
    for rule in rules:
        if rule.name in named:
            raise RefusedError(said.two_rules(rule=rule.name))
        named[rule.name] = rule
    return MappingProxyType(named)


def limits_of(rules: Iterable[Rule[Any]], known: Limits) -> Limits:
    """The limits that rules bring themselves. Raises RefusedError for two limits of one name."""
    found: dict[str, Limit] = {}
    for limit in (limit for rule in rules for limit in rule.limits if isinstance(limit, Limit)):
        if limit.name in known or found.setdefault(limit.name, limit) != limit:
            raise RefusedError(said.two_limits(limit=limit.name))
    return MappingProxyType(found)


def _built_in() -> Iterator[Rule[Any]]:
    for family in FAMILIES:
        yield from rules_of(import_module(f"panelart.checks.{family}"))


BUILT_IN: Final = Rules(_built_in(), rules_of(waivers), {})
"""The rules of this package."""

PANEL_RULES: Final = BUILT_IN.panel
WAIVER_RULES: Final = BUILT_IN.waivers
RULES: Final = BUILT_IN.every


def installed(without: frozenset[str] | None = None) -> Rules:
    """The rules of this package and of all extensions but those `without`, by default those that are left out.

    Raises ExtensionError where one cannot be loaded, or two rules or limits of them have one name.
    """
    brought = extensions.load(GROUP, _brought, without=without).objects
    if not brought:
        return BUILT_IN
    # One rule may be offered twice: by itself and with its module.
    rules = {id(rule.check): (entry, rule) for entry, found in brought for rule in found}
    known = {**standard(), **BUILT_IN.limits}
    taken: list[Rule[Any]] = []
    for entry, rule in rules.values():
        try:
            by_name((*taken, rule))
            limits_of((*taken, rule), known)
        except RefusedError as error:
            raise ExtensionError([entry.problem(error.args[0])]) from None
        taken.append(rule)
    return Rules((*BUILT_IN.panel.values(), *taken), BUILT_IN.waivers.values(), standard())


def _found_again(names: frozenset[str]) -> Rules:
    """The rules of a copied or stored inspection: those of this package and of the named extensions.

    Raises LookupError where one of these is not installed here.
    """
    known = frozenset(extensions.known())
    if names - known:
        raise LookupError(f"the rules of {', '.join(sorted(names - known))} are not installed here")
    return installed(known - names)


def _brought(entry: Entry, found: object) -> tuple[Entry, tuple[Rule[Any], ...]]:
    """The rules that an entry point names, with the names that they have here. Raises RefusedError."""
    rules: tuple[Rule[Any], ...]
    if isinstance(found, Rule):
        rules = (found,)
    elif isinstance(found, ModuleType):
        rules = rules_of(found)
        if not rules:
            raise RefusedError(said.no_rule_in_module(module=found.__name__))
    else:
        raise RefusedError(said.not_a_rule(found=type(found).__name__))
    return entry, tuple(_renamed(rule, entry.extension) for rule in rules)


def _renamed(rule: Rule[Any], extension: str) -> Rule[Any]:
    own = replace(rule, name=f"{extension}/{rule.name}", extension=extension)
    words = dict.fromkeys(("subject", "other", "measured", "limit"), "")
    own.says.written(words)  # a slip in the braces is met here, not when the first finding is reported
    own.fix.written(words)
    for name in own.limits:
        if isinstance(name, str) and not name.startswith(OF_PROCESS) and not matching(standard(), name):
            raise RefusedError(said.limit_unknown(rule=own.name, limit=name))
    return own
