"""Specs that hold several panels: all of them checked, or made into a folder each, with lists for the set."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.diagnostics import Problem
    from panelart.legends.choose import Accepted
    from panelart.model.panel import Panel
    from panelart.pipeline import Built


def build_set(spec: Path, names: tuple[str, ...], shop: Path | None, today: str, *, fresh: bool) -> dict[str, Built]:
    """Every panel of a spec, built, by name. Raises SpecError with the problems of all of them."""
    from panelart.diagnostics import SpecError
    from panelart.pipeline import build, read, read_placement

    panels: dict[str, tuple[Panel, Mapping[str, Accepted] | None]] = {}
    problems: dict[Problem, None] = {}
    for name in names:
        one = spec.with_name(f"{spec.name}#{name}")
        try:
            panels[name] = (read(one, shop), None if fresh else read_placement(one))
        except SpecError as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise SpecError(tuple(problems))
    return {name: build(panel, accepted, today=today) for name, (panel, accepted) in panels.items()}


def check_set(built: dict[str, Built]) -> bool:
    """Print the findings of every panel; whether any is at error level."""
    from panelart.cli.app import Format, print_findings

    for number, (name, one) in enumerate(built.items()):
        print(f"{'' if number == 0 else chr(10)}{name}: {one.layout.panel.title}")
        print_findings(one.inspection, Format.TEXT)
    return any(one.inspection.failed for one in built.values())


def write_set(built: dict[str, Built], folder: Path, date: str, *, rear: bool) -> None:
    """Write every panel into a folder of its name, and the lists of the set beside them; every file is made first."""
    from panelart.pipeline import write
    from panelart.sheets.sets import set_files
    from panelart.writers import write_all

    made = {folder / name: write(one, date=date, rear=rear) for name, one in built.items()}
    made[folder] = set_files({name: one.layout.panel for name, one in built.items()})
    for place, files in made.items():
        write_all(files, place)
        for name in files:
            print(place / name)
