"""The limits that rules measure against: numbers as data, each with its unit, its source and its standing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from functools import cache
from types import MappingProxyType
from typing import Final, TypeAlias

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.figure import Figure, Known
from panelart.messages import Said
from panelart.messages import checks_limits as said
from panelart.reprs import brief, mm
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Fields, Number, Record, Text
from panelart.source.yaml import read as read_yaml


class Basis(Enum):
    """The standing of a limit; one from memory may warn, never fail."""

    LOOKED_UP = "looked-up"  # in the named source
    COMMON_PRACTICE = "common-practice"  # a fact of the trade, in no standard
    MEMORY = "memory"  # from memory, not seen
    GIVEN = "given"  # the designer's own, from the spec or a house file


BASES: Final = {
    Known.PROVED: Basis.GIVEN,
    Known.LOOKED_UP: Basis.LOOKED_UP,
    Known.TYPICAL: Basis.COMMON_PRACTICE,
    Known.MEMORY: Basis.MEMORY,
    Known.GIVEN: Basis.GIVEN,
}
"""The standing of a limit that is a figure of a part or of a process."""


class Limit(Struct, frozen=True, kw_only=True):
    """One number to measure against. `what` is what it limits, `name` its key in the table."""

    name: str
    what: Said
    value: float
    unit: str
    source: Said
    basis: Basis

    def times(self, length: float, size: Said) -> Limit:
        """A limit in millimetres from one given as a multiple of a size, which the source then states."""
        source = said.times_size(factor=self.value, size=size, length=length, source=self.source)
        return replace(self, value=self.value * length, unit="mm", source=source)

    def __repr__(self) -> str:
        return brief("Limit", self.name, f"{mm(self.value)} {self.unit}", self.basis.value)


def limit_of_part(title: str, figure: Figure, what: Said, value: float) -> Limit:
    """A limit that is a figure of a part, by its title, in the figure's unit; `value` may be an end of its span."""
    return Limit(
        name="",
        what=what,
        value=value,
        unit=figure.unit,
        source=said.figure_of(title=title, source=figure.source),
        basis=BASES[figure.known],
    )


Limits: TypeAlias = Mapping[str, Limit]
"""Limits by name. A house's own come later in a merge: `{**standard(), **house}`."""

_WHAT = Field("what", Text(), required=True, doc="What is limited.")
_VALUE = Field("value", Number(), required=True, doc="Limit, in its unit.")
_UNIT = Field("unit", Choice(("mm", "ratio", "arcmin", "deg", "percent", "count"), "units"), required=True, doc="Unit.")
_SOURCE = Field("source", Text(), required=True, doc="Source of the limit.")
_KNOWN = Field(
    "known", Choice(tuple(basis.value for basis in Basis), "standings"), required=True, doc="Standing of the limit."
)
_LIMIT = Record("a limit", (_WHAT, _VALUE, _UNIT, _SOURCE, _KNOWN))


@cache
def standard() -> Limits:
    """The limits that come with the program."""
    kept: tuple[Limit, ...] | None = BUILT.get("limits")
    return MappingProxyType(_of_file() if kept is None else {limit.name: limit for limit in kept})


def _of_file() -> dict[str, Limit]:
    return read((PACKAGE / _FILE).read_text(encoding="utf-8"), "limits.yaml")


def _rows() -> Iterator[Row]:
    yield "limits", _FILE, tuple(_of_file().values())


_FILE: Final = "checks/limits.yaml"

BUILT: Final = Table(
    name="limits",
    type=tuple[Limit, ...],
    code=("checks/limits.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)


def read(text: str, file: str) -> dict[str, Limit]:
    """Limits from YAML text, a mapping of name to what, value, unit, source and known.

    Raises SpecError with every slip found.
    """
    problems = Problems()
    found: dict[str, Limit] = {}
    for entry in read_yaml(text, file).entries:
        with problems.under(entry.key.text):
            fields = _LIMIT.parse(entry.value, problems)
        if fields is not None:
            found[entry.key.text] = _limit(entry.key.text, fields)
    problems.raise_any()
    return found


def _limit(name: str, fields: Fields) -> Limit:
    # A field is None only where it has a problem, and then nothing of this file is handed out.
    return Limit(
        name=name,
        what=fields[_WHAT] or "",
        value=fields[_VALUE] or 0.0,
        unit=fields[_UNIT] or "",
        source=fields[_SOURCE] or "",
        basis=Basis(fields[_KNOWN] or Basis.MEMORY.value),
    )
