"""`panelart check --components`: the panel compared with a component list."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from panelart.messages import cli as said

if TYPE_CHECKING:
    from panelart.model.panel import Panel


def print_differences(panel: Panel, components: Path, side: str) -> bool:
    """Print how a panel differs from a list; whether it does."""
    from panelart.catalogue import names
    from panelart.cli.tables import read_list_file
    from panelart.lists.compare import differences
    from panelart.lists.matching import Matcher
    from panelart.lists.read import read_list

    built_in = frozenset(names())
    own = {part.component.name: part.component for part in panel.parts if part.component.name not in built_in}
    listed = read_list(read_list_file(components), components.as_posix(), Matcher(own))
    found = differences(panel, listed, side)
    for one in found:
        print(one)
    file = components.name
    print(said.list_differs(len(found), file) if found else said.list_agrees(len(panel.parts), file))
    return bool(found)
