"""Findings as SARIF 2.1.0, the form that code-review systems read (OASIS standard of 27 March 2020).

One run, one result a finding. Places in the spec are regions of lines and columns, counted in Unicode code points.
Waived findings are results with a suppression, those of the baseline results with the baseline state `unchanged`.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from pathlib import PurePath
from typing import Any, Final
from urllib.parse import quote

from panelart import __version__
from panelart.checks import Finding, Inspection, Rule, Waived
from panelart.checks.baseline import sign
from panelart.diagnostics import Severity, Where
from panelart.messages import extensions
from panelart.messages import reports as said

SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

_LEVELS: Final = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}


def sarif_report(inspection: Inspection) -> str:
    """The findings as SARIF text that ends with a line end; the same bytes for the same findings."""
    return json.dumps(document(inspection), indent=2, ensure_ascii=False) + "\n"


def document(inspection: Inspection) -> dict[str, Any]:
    """The findings as a SARIF log: plain dictionaries, lists, texts and numbers."""
    names = list(inspection.rules.every)
    results = [_result(finding, names) for finding in inspection.findings]
    results += [
        {**_result(waived.finding, names), "suppressions": [_suppression(waived)]} for waived in inspection.waived
    ]
    if inspection.known:
        results = [{**result, "baselineState": "new"} for result in results]
        results += [{**_result(finding, names), "baselineState": "unchanged"} for finding in inspection.known]
    return {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "panelart",
                        "version": __version__,
                        "rules": [_rule(rule) for rule in inspection.rules.every.values()],
                    }
                },
                **_without(inspection),
                "columnKind": "unicodeCodePoints",
                "results": results,
            }
        ],
    }


def _without(inspection: Inspection) -> dict[str, Any]:
    """What was not run, as a notification of the tool (SARIF 3.20.21: about conditions of the run)."""
    if not inspection.without:
        return {}
    text = str(extensions.checked_without(inspection.without))
    notification = {"level": "warning", "message": {"text": text}, "properties": {"without": list(inspection.without)}}
    return {"invocations": [{"executionSuccessful": True, "toolConfigurationNotifications": [notification]}]}


def _rule(rule: Rule[Any]) -> dict[str, Any]:
    first, _, rest = rule.doc.partition("\n")
    return {
        "id": rule.name,
        "shortDescription": {"text": first},
        "fullDescription": {"text": rest.strip() or first},
        "help": {"text": rule.doc},
        "defaultConfiguration": {"level": _LEVELS[rule.severity]},
    }


def _result(finding: Finding, names: Sequence[str]) -> dict[str, Any]:
    properties: dict[str, Any] = {"refs": list(finding.refs)}
    if finding.measured is not None and finding.limit is not None:
        properties |= {
            f"measured_{finding.unit}": round(finding.measured, 6) + 0.0,
            f"limit_{finding.unit}": round(finding.limit, 6) + 0.0,
            "bound": finding.bound.value,
            "source": finding.source,
        }
    return {
        "ruleId": finding.rule,
        "ruleIndex": names.index(finding.rule),
        "level": _LEVELS[finding.severity],
        "message": {"text": str(said.finding_with_fix(finding.sentence, finding.fix))},
        "locations": [location(finding.where)],
        "partialFingerprints": {"panelart/v1": _fingerprint(finding)},
        "properties": properties,
    }


def _suppression(waived: Waived) -> dict[str, Any]:
    return {
        "kind": "inSource",
        "status": "accepted",
        "justification": waived.waiver.why,
        "location": location(waived.waiver.where),
    }


def location(where: Where) -> dict[str, Any]:
    """A place in a file as SARIF has it."""
    path = PurePath(where.file).as_posix()
    uri = quote(path)
    if path.startswith("/"):
        uri = f"file://{uri}"
    return {
        "physicalLocation": {
            "artifactLocation": {"uri": uri},
            "region": {"startLine": where.line, "startColumn": where.column},
        }
    }


def _fingerprint(finding: Finding) -> str:
    """What a finding is known again by after lines of the spec have moved."""
    rule, refs, subject, other = sign(finding)
    return hashlib.sha256("\n".join((rule, *refs, subject, other)).encode()).hexdigest()
