"""Specs that hold several panels: all of them built."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from panelart.diagnostics import Problem
    from panelart.pipeline import Built

Read = TypeVar("Read")


def of_each(spec: Path, names: Iterable[str], read: Callable[[Path], Read]) -> dict[str, Read]:
    """What is read of every panel of a spec, by name. Raises SpecError with the problems of all of them."""
    from panelart.diagnostics import SpecError

    found: dict[str, Read] = {}
    problems: dict[Problem, None] = {}
    for name in names:
        try:
            found[name] = read(spec.with_name(f"{spec.name}#{name}"))
        except SpecError as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise SpecError(tuple(problems))
    return found


def build_set(
    spec: Path, names: tuple[str, ...], shop: Path | None, today: str, *, ignore_placement: bool
) -> dict[str, Built]:
    """Every panel of a spec, built, by name. Raises SpecError with the problems of all of them."""
    from panelart.pipeline import build, read, read_placement
    from panelart.stages import Memory, remembering

    panels = of_each(spec, names, lambda one: (read(one, shop), None if ignore_placement else read_placement(one)))
    with remembering(Memory()):
        return {name: build(panel, saved, today=today) for name, (panel, saved) in panels.items()}
