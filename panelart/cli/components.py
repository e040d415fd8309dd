"""`panelart check --components`: a panel, or those of a set, compared with a component list."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from panelart.cli.tables import read_list_file
from panelart.messages import cli as said

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from panelart.lists.compare import Difference
    from panelart.lists.listed import ComponentList
    from panelart.model.panel import Panel


def print_differences(panels: Mapping[str, Panel], components: Path, side: str, answers: Sequence[Path]) -> bool:
    """Print how a panel differs from a list, or those of a set by their names; whether they do.

    `side` is that of one panel, '' for the one that shares most refs; `answers` are files of answers to the list.
    """
    from panelart.lists.compare import differences, set_differences

    listed = _listed(panels, components, answers)
    found: tuple[Difference, ...]
    if len(panels) == 1:
        found = differences(next(iter(panels.values())), listed, side)
    else:
        found = set_differences(panels, listed)
    for one in found:
        print(one)
    count = sum(len(panel.parts) for panel in panels.values())
    file = components.name
    print(said.list_differs(len(found), file) if found else said.list_agrees(count, file))
    return bool(found)


def _listed(panels: Mapping[str, Panel], components: Path, answers: Sequence[Path]) -> ComponentList:
    """The list, read with the parts of the panels that are none of the catalogue."""
    from panelart.catalogue import names
    from panelart.lists.answers import read_answers
    from panelart.lists.matching import Matcher
    from panelart.lists.read import read_list

    built_in = frozenset(names())
    parts = [part.component for panel in panels.values() for part in panel.parts]
    own = {one.name: one for one in parts if one.name not in built_in}
    given = read_answers([(read_list_file(path), path.as_posix()) for path in answers], (*names(), *own))
    return read_list(read_list_file(components), components.as_posix(), Matcher(own), answers=given)
