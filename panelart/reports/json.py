"""Findings for programs. The form is described by `findings.schema.json` beside this module.

Numbers carry their unit in the key (`measured_mm`, `limit_arcmin`). Lengths are rounded to a millionth of a
millimetre. `version` rises when a key changes its meaning or goes away; keys may be added without that.
"""

from __future__ import annotations

import json
from typing import Any, Final

from panelart.checks import Finding, HouseChange, Inspection, Waived
from panelart.checks.replaced import ReplacedPart
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Point

VERSION: Final = 1


def json_report(inspection: Inspection) -> str:
    """The findings as JSON text that ends with a line end; the same bytes for the same findings."""
    return json.dumps(document(inspection), indent=2, ensure_ascii=False) + "\n"


def document(inspection: Inspection) -> dict[str, Any]:
    """The findings as plain dictionaries, lists, texts and numbers, in the order they are written.

    Places on the panel are in mm from its lower-left corner; `datum` says where the spec measures from.
    """
    panel = inspection.panel
    return {
        "version": VERSION,
        "panel": {
            "title": panel.title,
            "number": panel.number,
            "revision": panel.revision,
            "spec": panel.fingerprint,
            "datum": _point(panel.datum),
        },
        "counts": {
            **{severity.value: inspection.count(severity) for severity in Severity},
            "waived": len(inspection.waived),
            "known": len(inspection.known),
        },
        "findings": [
            {"number": number, **_finding(finding)} for number, finding in enumerate(inspection.findings, start=1)
        ],
        "waived": [_waived(waived) for waived in inspection.waived],
        "known": [_finding(finding) for finding in inspection.known],
        "house": [_house(change) for change in inspection.house],
        **({"replaced": [_replaced(part) for part in inspection.replaced]} if inspection.replaced else {}),
        **({"without": list(inspection.without)} if inspection.without else {}),
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": finding.severity.value,
        "sentence": finding.sentence,
        "fix": finding.fix,
        "refs": list(finding.refs),
        "subject": str(finding.subject),
        "other": str(finding.other),
        "spec": _where(finding.where),
        "place": _place(finding.place),
        **_figures(finding),
        **_each(finding),
    }


def _each(finding: Finding) -> dict[str, Any]:
    if not finding.each:
        return {}
    spots = [{"ref": spot.ref, "spec": _where(spot.where), "place": _place(spot.place)} for spot in finding.each]
    return {"each": spots}


def _figures(finding: Finding) -> dict[str, Any]:
    if finding.measured is None or finding.limit is None or finding.basis is None:
        return {}
    return {
        f"measured_{finding.unit}": _number(finding.measured),
        f"limit_{finding.unit}": _number(finding.limit),
        "bound": finding.bound.value,
        "limit_name": finding.limit_name,
        "source": finding.source,
        "known": finding.basis.value,
    }


def _waived(waived: Waived) -> dict[str, Any]:
    waiver = waived.waiver
    signed = {**({"by": waiver.by} if waiver.by else {}), **({"until": waiver.until} if waiver.until else {})}
    return {**_finding(waived.finding), "waiver": {"why": waiver.why, **signed, "spec": _where(waiver.where)}}


def _house(change: HouseChange) -> dict[str, Any]:
    return {
        "name": change.name,
        "was": change.was,
        "now": change.now,
        "why": change.why,
        "spec": _where(change.where),
    }


def _replaced(part: ReplacedPart) -> dict[str, Any]:
    return {"part": part.name, "file": part.file, "refs": list(part.refs)}


def _where(where: Where) -> dict[str, Any]:
    place = {"file": where.name, "line": where.line, "column": where.column}
    return {**place, "key": where.key} if where.key else place


def _place(place: Point | Box) -> dict[str, float]:
    if isinstance(place, Box):
        return {
            "left_mm": _number(place.left),
            "bottom_mm": _number(place.bottom),
            "right_mm": _number(place.right),
            "top_mm": _number(place.top),
        }
    return _point(place)


def _point(point: Point) -> dict[str, float]:
    return {"x_mm": _number(point.x), "y_mm": _number(point.y)}


def _number(value: float) -> float:
    # Adding 0.0 turns a rounded -0.0 into 0.0.
    return round(float(value), 6) + 0.0
