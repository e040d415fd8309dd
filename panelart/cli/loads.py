"""What every run on a printer's bed needs: how many of each panel, and the loads that they make."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from panelart.cli.usage import refuse
from panelart.messages import cli_press as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.model.layout import Layout
    from panelart.pipeline import Bed
    from panelart.press.bed import Nest


def laid_on_bed(specs: Sequence[Path], layouts: Sequence[Layout], counts: Sequence[int], job: Bed) -> Nest:
    """So many pieces of each panel, load by load. Raises Refused when a panel does not fit on the bed."""
    from panelart.pipeline import nested

    try:
        return nested(layouts, [spec.stem for spec in specs], counts, job)
    except ValueError as error:
        refuse("--bed", said_by(error))


def quantities(text: str, panels: int) -> list[int]:
    """One number for all panels, or one for each. Raises Refused."""
    try:
        counts = [int(each) for each in text.split(",")]
    except ValueError:
        refuse("--quantity", said.quantity_unknown(text), said.accepted_quantity())
    if len(counts) == 1:
        counts *= panels
    if len(counts) != panels:
        refuse("--quantity", said.quantity_count(len(counts), panels), said.accepted_quantity())
    if min(counts) < 1:
        refuse("--quantity", said.quantity_unknown(text), said.accepted_quantity())
    return counts
