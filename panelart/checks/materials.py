"""Sheets by name: minimum bend radii and what must not be cut by laser; figures as data."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Final

from panelart.canonical import Struct
from panelart.checks.limits import Basis, Limit
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.problems import Problems
from panelart.source.schema import Choice, Field, Flag, ListOf, Number, Record, Text, pair
from panelart.source.yaml import read as read_yaml


class Material(Struct, frozen=True, kw_only=True):
    """A kind of sheet. `bend` has (sheet up to mm, radius over thickness) in order, `bend_minimum` a radius in mm.

    `laser` says why it must not be cut by laser, '' where it may; `hard` that punches need larger holes.
    """

    name: str
    words: tuple[str, ...]
    bend: tuple[tuple[float, float], ...]
    bend_minimum: float
    source: Said
    basis: Basis
    laser: str = ""
    hard: bool = False

    def minimum_radius(self, thickness: float) -> Limit:
        """The minimum inside radius of a bend in sheet of a thickness."""
        share = next((share for maximum, share in self.bend if thickness <= maximum), self.bend[-1][1])
        return Limit(
            name="",
            what=of_limits.bend_radius(),
            value=max(share * thickness, self.bend_minimum),
            unit="mm",
            source=self.source,
            basis=self.basis,
        )


UNKNOWN = Material(
    name="",
    words=(),
    bend=((50.0, 1.0),),
    bend_minimum=0.0,
    source=of_limits.thickness_by_practice(),
    basis=Basis.MEMORY,
)


def material(text: str) -> Material:
    """The kind of sheet that a text names: 'aluminium 5754', 'mild steel'."""
    low = text.lower()
    return next((kind for kind in _materials() if all(word in low for word in kind.words)), UNKNOWN)


_WORDS = Field(
    "words",
    ListOf(of=Text(), what="words", minimum=1),
    required=True,
    doc="Words that all occur in the name of the sheet.",
)
_BEND = Field(
    "bend",
    ListOf(of=pair(Number(minimum=0), "sheet up to", "radius over thickness"), what="pairs", minimum=1),
    required=True,
    doc="Minimum inside radius by sheet thickness.",
)
_BEND_MIN = Field("bend_minimum", Number(minimum=0), default=0.0, doc="Minimum inside radius in mm.")
_SOURCE = Field("source", Text(), required=True, doc="Source of the radii.")
_KNOWN = Field(
    "known", Choice(tuple(basis.value for basis in Basis), "standings"), required=True, doc="Standing of the radii."
)
_LASER = Field("laser", Text(), default="", doc="Why the sheet must not be cut by laser.")
_HARD = Field("hard", Flag(), default=False, doc="Whether punches need larger holes.")
_MATERIAL = Record("a material", (_WORDS, _BEND, _BEND_MIN, _SOURCE, _KNOWN, _LASER, _HARD))


@cache
def _materials() -> tuple[Material, ...]:
    kept: tuple[Material, ...] | None = BUILT.get("materials")
    return _of_file() if kept is None else kept


def _of_file() -> tuple[Material, ...]:
    text = (PACKAGE / _FILE).read_text(encoding="utf-8")
    problems = Problems()
    made: list[Material] = []
    for entry in read_yaml(text, "materials.yaml").entries:
        fields = _MATERIAL.parse(entry.value, problems)
        if fields is not None:
            made.append(
                Material(
                    name=entry.key.text,
                    words=tuple(word.value.lower() for word in fields[_WORDS] or ()),
                    bend=tuple((step.value[0], step.value[1]) for step in fields[_BEND] or ()),
                    bend_minimum=fields[_BEND_MIN] or 0.0,
                    source=fields[_SOURCE] or "",
                    basis=Basis(fields[_KNOWN] or Basis.MEMORY.value),
                    laser=fields[_LASER] or "",
                    hard=bool(fields[_HARD]),
                )
            )
    problems.raise_any()
    return tuple(made)


def _rows() -> Iterator[Row]:
    yield "materials", _FILE, _of_file()


_FILE: Final = "checks/materials.yaml"

BUILT: Final = Table(
    name="materials",
    type=tuple[Material, ...],
    code=("checks/materials.py", "source/schema.py", "source/yaml.py"),
    make=_rows,
)
