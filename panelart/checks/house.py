"""A house's own limits and severities: a file beside the spec, every entry with its reason.

limits:
  web.minimum: {value: 0.8, why: our laser holds it}
severities:
  parts-to-measure: {severity: warning, why: a wrong hole cost us a panel}
abbreviations: {values: [PSU, NW], why: in our style book}
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks.limits import Basis, Limit, Limits
from panelart.diagnostics import Severity, Where, did_you_mean
from panelart.messages import Message, Said
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.model.panel import HouseFile
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node
from panelart.source.problems import Problems
from panelart.source.schema import AnyNode, Choice, Field, ListOf, Number, Record, Text
from panelart.source.yaml import read as read_yaml

_VALUE = Field("value", Number(), required=True, doc="Limit, in the unit of the default limit.")
_WHY = Field("why", Text(maximum=500, prose=True), required=True, doc="Reason.")
_LIMIT = Record("a limit", (_VALUE, _WHY))
_SEVERITY = Field(
    "severity",
    Choice(tuple(severity.value for severity in Severity), "severities"),
    required=True,
    doc="Severity of the rule's findings.",
)
_RULE = Record("a severity", (_SEVERITY, _WHY))
_VALUES = Field(
    "values", ListOf(of=Text(maximum=40), what="abbreviations", minimum=1), required=True, doc="Abbreviations."
)
_WORDS = Record("abbreviations", (_VALUES, _WHY))
_LIMITS = Field("limits", AnyNode(of="limits by name", shape=MappingNode), doc="Limits by name.")
_SEVERITIES = Field("severities", AnyNode(of="severities by rule", shape=MappingNode), doc="Severities by rule.")
_ABBREVIATIONS = Field("abbreviations", _WORDS, doc="Abbreviations in addition to the default list.")
_FILE = Record("file of limits", (_LIMITS, _SEVERITIES, _ABBREVIATIONS))


class HouseChange(Struct, frozen=True, kw_only=True):
    """One thing that the house decides: its name, the default, what applies instead, and the reason."""

    name: str
    default: Said
    own: Said
    why: str
    where: Where

    @property
    def was(self) -> str:
        """The default, in the language that is spoken."""
        return str(self.default)

    @property
    def now(self) -> str:
        """What applies, in the language that is spoken."""
        return str(self.own)


class House(Struct, frozen=True, kw_only=True):
    """What a house changes: limits by name, severities by rule, abbreviations; `changes` in the file's order."""

    limits: Limits = field(default_factory=dict)
    severities: Mapping[str, Severity] = field(default_factory=dict)
    abbreviations: frozenset[str] = frozenset()
    changes: tuple[HouseChange, ...] = ()


def read(file: HouseFile | None, limits: Limits, rules: Mapping[str, Severity]) -> House:
    """What a house file changes of the default limits and severities.

    Raises SpecError with every error: an unknown limit or rule, a missing reason.
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
        default, changed = (was.value, was.unit), (value, was.unit)
        source = of_limits.house_limit(why=why, where=where.short, default=default, source=was.source)
        own[name] = replace(was, value=value, source=source, basis=Basis.GIVEN)
        changes.append(
            HouseChange(
                name=name,
                default=said.limit_value(value=default),
                own=said.limit_value(value=changed),
                why=why,
                where=where,
            )
        )

    def severity(name: str, where: Where, node: Node) -> None:
        parsed = _RULE.parse(node, problems)
        if parsed is None or parsed[_SEVERITY] is None or parsed[_WHY] is None:
            return
        severities[name] = Severity(parsed[_SEVERITY])
        changes.append(
            HouseChange(
                name=name,
                default=rules[name].value,
                own=severities[name].value,
                why=str(parsed[_WHY]),
                where=where,
            )
        )

    if fields is not None:
        _each(fields[_LIMITS], tuple(limits), _LIMIT_NAMES, problems, limit)
        _each(fields[_SEVERITIES], tuple(rules), _RULE_NAMES, problems, severity)
        known = fields[_ABBREVIATIONS]
        if known is not None and known[_VALUES] is not None and known[_WHY] is not None:
            words = frozenset(value.value.upper() for value in known[_VALUES] or ())
            changes.append(
                HouseChange(
                    name="abbreviations",
                    default=said.default_abbreviations(),
                    own=said.house_abbreviations(words=sorted(words)),
                    why=str(known[_WHY]),
                    where=fields.where(_ABBREVIATIONS),
                )
            )
    problems.raise_any()
    return House(limits=own, severities=severities, abbreviations=words, changes=tuple(changes))


class _Names(Struct, frozen=True):
    """What the names are of, and what is said of one that is not known."""

    what: Message
    unknown: Callable[[str], Message]


_LIMIT_NAMES = _Names(said.limits(), said.limit_unknown)
_RULE_NAMES = _Names(said.rules(), said.rule_unknown)


def _each(
    node: Node | None,
    known: Sequence[str],
    names: _Names,
    problems: Problems,
    take: Callable[[str, Where, Node], None],
) -> None:
    if not isinstance(node, MappingNode):
        return
    for entry in node.entries:
        name, where = entry.key.text, entry.key.where
        if name not in known:
            problems.add(where, names.unknown(name), did_you_mean(name, known, names.what))
            continue
        with problems.under(name):
            take(name, where, entry.value)
