"""A house's own limits and severities: a file beside the spec, every entry with its reason.

limits:
  web.minimum: {value: 0.8, why: our laser holds it}
severities:
  opening-size-uncertain: {severity: warning, why: a wrong hole cost us a panel}
abbreviations: {values: [PSU, NW], why: in our style book}
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from panelart.checks.limits import Basis, Limit, Limits
from panelart.diagnostics import Severity, Where, did_you_mean
from panelart.model.panel import HouseFile
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node
from panelart.source.problems import Problems
from panelart.source.schema import AnyNode, Choice, Field, ListOf, Number, Record, Text
from panelart.source.yaml import read as read_yaml

_VALUE = Field("value", Number(), required=True, doc="The house's limit, in the unit of the program's.")
_WHY = Field("why", Text(maximum=500, prose=True), required=True, doc="The reason, for those who come after.")
_LIMIT = Record("a limit", (_VALUE, _WHY))
_SEVERITY = Field(
    "severity",
    Choice(tuple(severity.value for severity in Severity), "severities"),
    required=True,
    doc="What a finding of the rule counts as.",
)
_RULE = Record("a severity", (_SEVERITY, _WHY))
_VALUES = Field("values", ListOf(of=Text(maximum=40), what="abbreviations", minimum=1), required=True, doc="The words.")
_WORDS = Record("abbreviations", (_VALUES, _WHY))
_LIMITS = Field("limits", AnyNode(of="limits by name", shape=MappingNode), doc="Limits by name.")
_SEVERITIES = Field("severities", AnyNode(of="severities by rule", shape=MappingNode), doc="Severities by rule.")
_ABBREVIATIONS = Field("abbreviations", _WORDS, doc="Abbreviations that the house's readers know.")
_FILE = Record("file of limits", (_LIMITS, _SEVERITIES, _ABBREVIATIONS))


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseChange:
    """One thing that the house decides: its name, what the program would have said, what holds, and the reason."""

    name: str
    was: str
    now: str
    why: str
    where: Where


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """What a house changes: limits by name, severities by rule, abbreviations; `changes` in the file's order."""

    limits: Limits = field(default_factory=dict)
    severities: Mapping[str, Severity] = field(default_factory=dict)
    abbreviations: frozenset[str] = frozenset()
    changes: tuple[HouseChange, ...] = ()


def read(file: HouseFile | None, limits: Limits, rules: Mapping[str, Severity]) -> House:
    """What a house file changes of the limits and the rules there are.

    Raises SpecError with every slip: an unknown limit or rule, a missing reason.
    """
    if file is None:
        return House()
    problems = Problems()
    fields = _FILE.parse(read_yaml(file.data, file.file), problems)
    own: dict[str, Limit] = {}
    severities: dict[str, Severity] = {}
    changes: list[HouseChange] = []
    words: frozenset[str] = frozenset()

    def limit(name: str, where: Where, node: Node) -> None:
        parsed = _LIMIT.parse(node, problems)
        if parsed is None or parsed[_VALUE] is None or parsed[_WHY] is None:
            return
        was, value, why = limits[name], float(parsed[_VALUE] or 0.0), str(parsed[_WHY])
        source = f"{why} ({where.short}); the program's own is {was.value:g} {was.unit}: {was.source}"
        own[name] = replace(was, value=value, source=source, basis=Basis.GIVEN)
        changes.append(
            HouseChange(name=name, was=f"{was.value:g} {was.unit}", now=f"{value:g} {was.unit}", why=why, where=where)
        )

    def severity(name: str, where: Where, node: Node) -> None:
        parsed = _RULE.parse(node, problems)
        if parsed is None or parsed[_SEVERITY] is None or parsed[_WHY] is None:
            return
        severities[name] = Severity(parsed[_SEVERITY])
        changes.append(
            HouseChange(
                name=name,
                was=rules[name].value,
                now=severities[name].value,
                why=str(parsed[_WHY]),
                where=where,
            )
        )

    if fields is not None:
        _each(fields[_LIMITS], tuple(limits), "limits", problems, limit)
        _each(fields[_SEVERITIES], tuple(rules), "rules", problems, severity)
        known = fields[_ABBREVIATIONS]
        if known is not None and known[_VALUES] is not None and known[_WHY] is not None:
            words = frozenset(value.value.upper() for value in known[_VALUES] or ())
            changes.append(
                HouseChange(
                    name="abbreviations",
                    was="the program's list",
                    now=f"also {', '.join(sorted(words))}",
                    why=str(known[_WHY]),
                    where=fields.where(_ABBREVIATIONS),
                )
            )
    problems.raise_any()
    return House(limits=own, severities=severities, abbreviations=words, changes=tuple(changes))


def _each(
    node: Node | None,
    known: Sequence[str],
    what: str,
    problems: Problems,
    take: Callable[[str, Where, Node], None],
) -> None:
    if not isinstance(node, MappingNode):
        return
    for entry in node.entries:
        name, where = entry.key.text, entry.key.where
        if name not in known:
            problems.add(where, f"there are no {what} of the name '{name}'", did_you_mean(name, known, what))
            continue
        with problems.under(name):
            take(name, where, entry.value)
