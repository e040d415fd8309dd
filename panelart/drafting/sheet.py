"""The sheet that a first panel is drafted on: what most parts fit, and the variants of those that do not."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from panelart.catalogue.library import component, file_of, names
from panelart.messages import Said
from panelart.messages import component_lists as lists
from panelart.messages import drafting as said
from panelart.model.component import Component

SHEET: Final = 2.0
"""The sheet that is taken unless the parts ask for another, mm. Common practice for panels of instruments."""

THICKNESSES: Final = (2.0, 1.5, 3.0, 1.0, 2.5, 1.2, 4.0, 0.8, 1.6)
"""Sheets that are tried, in this order."""


def thickness_for(parts: Mapping[str, Component]) -> tuple[float, list[Said]]:
    """The sheet that most parts fit, by ref, and what is remarked: which parts force it, and which it does not suit."""
    best = min(THICKNESSES, key=lambda thickness: (len(_misfits(parts, thickness)), THICKNESSES.index(thickness)))
    remarks: list[Said] = []
    if best != SHEET:
        force = _misfits(parts, SHEET)
        remark = said.sheet_chosen(thickness=best, usual=SHEET, refs=force)
        remarks.append(said.panel_remark(weight=lists.note(), remark=remark))
        for name in dict.fromkeys(parts[ref].name for ref in force):
            remarks += _instead(name, [ref for ref in force if parts[ref].name == name])
    wrong = _misfits(parts, best)
    if wrong:
        remark = said.sheet_suits_not_all(thickness=best, refs=wrong)
        remarks.append(said.panel_remark(weight=lists.question(), remark=remark))
    return best, remarks


def _misfits(parts: Mapping[str, Component], thickness: float) -> list[str]:
    """The refs of the parts that a sheet does not suit."""
    return [ref for ref, part in parts.items() if not _fits(part, thickness)]


def _fits(part: Component, thickness: float) -> bool:
    return part.thickness is None or part.thickness[0] <= thickness <= part.thickness[1]


def _instead(name: str, refs: list[str]) -> list[Said]:
    """The variants of a part that the usual sheet suits, as a remark; none where the catalogue has none."""
    found = [other for other in _variants(name) if _fits(component(other), SHEET)]
    if not found:
        return []
    remark = said.sheet_variants(usual=SHEET, refs=refs, variants=found)
    return [said.panel_remark(weight=lists.note(), remark=remark)]


def _variants(name: str) -> list[str]:
    """The parts of the catalogue that are the same but for how they are fixed, by their names: `dsub-9-front`."""
    try:
        file = file_of(name)
    except KeyError:
        return []
    return [other for other in names() if other.startswith(f"{name}-") and file_of(other) == file]
