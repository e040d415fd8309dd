"""The sheet that a panel is cut from: its material, and its thickness in mm or by gauge."""

from __future__ import annotations

from typing import Final

from panelart.messages import diagnostics
from panelart.messages import spec as said
from panelart.model.panel import Sheet
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.units import INCH

_GAUGES: Final = {
    # gauge: inches of steel, stainless, galvanised, aluminium
    10: (0.1345, 0.1406, 0.1382, 0.1019),
    11: (0.1196, 0.1250, 0.1233, 0.0907),
    12: (0.1046, 0.1094, 0.1084, 0.0808),
    14: (0.0747, 0.0781, 0.0785, 0.0641),
    16: (0.0598, 0.0625, 0.0635, 0.0508),
    18: (0.0478, 0.0500, 0.0516, 0.0403),
    20: (0.0359, 0.0375, 0.0396, 0.0320),
    22: (0.0299, 0.0312, 0.0336, 0.0253),
    24: (0.0239, 0.0250, 0.0276, 0.0201),
}
"""Sheet gauges: manufacturers' standard for steel, and those of stainless, galvanised and (Brown and Sharpe) aluminium;
three charts that agree."""

_COLUMNS: Final = (("stainless", 1), ("galvan", 2), ("alumin", 3), ("steel", 0))
"""Words in a material's name, in the order they are looked for, and the column that is theirs."""


def read_sheet(panel: language.Panel, problems: Problems) -> Sheet:
    """The sheet; of thickness 0 when its problem has been told."""
    fields = panel.sheet
    if fields is None:
        return Sheet(material="", thickness=0.0)
    material = fields.material or ""
    thickness = fields.thickness
    if not fields.written(language.Sheet.gauge):
        if not fields.written(language.Sheet.thickness):
            problems.add(fields.begins, said.sheet_without_thickness(), said.thickness_or_gauge())
        return Sheet(material=material, thickness=thickness or 0.0)
    if fields.written(language.Sheet.thickness):
        problems.add(
            fields.key_where(language.Sheet.gauge),
            said.thickness_and_gauge(),
            said.one_of_two(),
        )
    gauge = fields.gauge
    if gauge is None or not material:
        return Sheet(material=material, thickness=0.0)
    return Sheet(material=material, thickness=_by_gauge(fields, gauge, material, problems))


def _by_gauge(fields: language.Sheet, gauge: int, material: str, problems: Problems) -> float:
    column = next((number for word, number in _COLUMNS if word in material.casefold()), None)
    if column is None:
        problems.add(
            fields.where(language.Sheet.gauge),
            said.gauge_of_material_unknown(material),
            said.materials_with_gauge(),
        )
        return 0.0
    if gauge not in _GAUGES:
        where = fields.where(language.Sheet.gauge)
        problems.add(where, said.unknown_gauge(gauge), diagnostics.accepted(list(_GAUGES)))
        return 0.0
    return round(_GAUGES[gauge][column] * INCH, 4)
