"""A baseline: the findings that a panel had when it was first checked, so that only new ones are reported.

A finding is identified by its rule, its refs and the English names of what it is about, not by its line or its numbers,
so that moving lines in the spec changes nothing. Of several alike, as many are known as the baseline counts.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Final, TypeAlias

from panelart.checks.findings import Finding
from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import checks as said
from panelart.messages import english

VERSION: Final = 1

Sign: TypeAlias = tuple[str, tuple[str, ...], str, str]
"""What identifies a finding: rule, refs, subject, other."""

Known: TypeAlias = Counter[Sign]
"""How many findings of each sign a baseline has."""


def sign(finding: Finding) -> Sign:
    """What identifies a finding."""
    return (finding.rule, finding.refs, english(finding.subject), english(finding.other))


def known_findings(
    findings: Sequence[Finding], baseline: Known | None
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings that are new, and those that the baseline knows; both in their order."""
    if not baseline:
        return tuple(findings), ()
    left = Counter(baseline)
    new: list[Finding] = []
    known: list[Finding] = []
    for finding in findings:
        if left[sign(finding)] > 0:
            left[sign(finding)] -= 1
            known.append(finding)
        else:
            new.append(finding)
    return tuple(new), tuple(known)


def baseline_text(findings: Iterable[Finding]) -> str:
    """A baseline of these findings, as JSON text that ends with a line end; sorted, so that it compares well."""
    counts = Counter(sign(finding) for finding in findings)
    entries = [
        {
            "rule": rule,
            "refs": list(refs),
            "subject": subject,
            "other": other,
            "count": counts[rule, refs, subject, other],
        }
        for rule, refs, subject, other in sorted(counts)
    ]
    return json.dumps({"version": VERSION, "findings": entries}, indent=2, ensure_ascii=False) + "\n"


def read_baseline(text: str, file: str) -> Known:
    """The baseline in a text that `baseline_text` wrote. Raises SpecError when it is not one."""
    try:
        written = json.loads(text)
        entries = {VERSION: written["findings"]}[written["version"]]  # KeyError for another version
        return Counter(
            {
                (str(entry["rule"]), tuple(map(str, entry["refs"])), str(entry["subject"]), str(entry["other"])): int(
                    entry["count"]
                )
                for entry in entries
            }
        )
    except (ValueError, KeyError, TypeError) as error:
        raise SpecError(
            [
                Problem(
                    where=Where(file, 1, 1),
                    says=said.baseline_invalid(),
                    accepts=said.baseline_accepted(),
                )
            ]
        ) from error
