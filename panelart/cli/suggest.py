"""`panelart check --suggest`: edits of the spec that were tested and fix a finding."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from panelart.messages import cli as said

if TYPE_CHECKING:
    from panelart.checks import Inspection


def print_suggestions(spec: Path, inspection: Inspection, today: str) -> None:
    """Print, by the number of its finding, each edit that was found, as file:line:column: old -> new."""
    from panelart.pipeline import build
    from panelart.spec.read import panel_from_text
    from panelart.suggestions import suggestions

    text = spec.read_text(encoding="utf-8")
    file = spec.as_posix()

    def inspected(changed: str) -> Inspection:
        return build(panel_from_text(changed, file, spec.parent), today=today).inspection

    found = suggestions(text, inspection, inspected)
    offered = [(number, one) for number, one in enumerate(found, start=1) if one is not None]
    if not offered:
        print(f"\n{said.no_suggestions()}")
        return
    print(f"\n{said.suggestions(len(offered))}\n")
    for number, one in offered:
        print(f"  {said.suggestion(number, one.finding.rule, one.says)}")
        for edit in one.edits:
            print(f"    {said.suggested_edit(edit.where, edit.old, edit.new)}")
