"""Which catalogue parts of a panel have figures of a part file of the designer's own, under the same name."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.cutouts.hardware import components
from panelart.model.panel import Panel


class ReplacedPart(Struct, frozen=True, kw_only=True):
    """A catalogue part, the part file that changes its figures, and where it is used."""

    name: str
    file: str
    refs: tuple[str, ...]


def replaced_parts(panel: Panel) -> tuple[ReplacedPart, ...]:
    """The parts, those of flanges too, in the order of the panel."""
    refs: dict[tuple[str, str], list[str]] = {}
    for ref, component, _ in components(panel):
        if component.changed_in:
            refs.setdefault((component.name, component.changed_in), []).append(ref)
    return tuple(ReplacedPart(name=name, file=file, refs=tuple(of)) for (name, file), of in refs.items())
