"""Specs that hold several panels: all of them built."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.diagnostics import Problem
    from panelart.legends.choose import Accepted
    from panelart.model.panel import Panel
    from panelart.pipeline import Built


def build_set(
    spec: Path, names: tuple[str, ...], shop: Path | None, today: str, *, ignore_placement: bool
) -> dict[str, Built]:
    """Every panel of a spec, built, by name. Raises SpecError with the problems of all of them."""
    from panelart.diagnostics import SpecError
    from panelart.pipeline import build, read, read_placement
    from panelart.stages import Memory, remembering

    panels: dict[str, tuple[Panel, Mapping[str, Accepted] | None]] = {}
    problems: dict[Problem, None] = {}
    for name in names:
        one = spec.with_name(f"{spec.name}#{name}")
        try:
            panels[name] = (read(one, shop), None if ignore_placement else read_placement(one))
        except SpecError as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise SpecError(tuple(problems))
    with remembering(Memory()):
        return {name: build(panel, saved, today=today) for name, (panel, saved) in panels.items()}
