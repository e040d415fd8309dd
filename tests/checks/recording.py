"""What limits a rule reads: tables of limits and of process figures that note the names they are asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from msgspec.structs import replace

from panelart.checks.limits import standard
from panelart.checks.marking import process_limits
from panelart.checks.registry import BUILT_IN, OF_PROCESS, PANEL_RULES
from panelart.checks.survey import Survey, survey
from panelart.model.component import Figure
from panelart.model.layout import Layout


class Noting(Mapping[str, Any]):
    """A table that notes what is looked up in it and there."""

    def __init__(self, table: Mapping[str, Any], before: str, noted: set[str]) -> None:
        self._table, self._before, self._noted = table, before, noted

    def __getitem__(self, name: str) -> Any:
        found = self._table[name]
        self._noted.add(self._before + name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._table)

    def __len__(self) -> int:
        return len(self._table)


class NotingProcess:
    """A marking process that notes which of its figures are read."""

    def __init__(self, process: Any, noted: set[str]) -> None:
        self._process, self._noted = process, noted

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._process, name)
        if name == "own":
            return Noting(found, OF_PROCESS, self._noted)
        if isinstance(found, Figure):
            self._noted.add(OF_PROCESS + name)
        return found


def noting(layout: Layout, noted: set[str]) -> Survey:
    """The survey of a layout whose limits are noted when they are read."""
    panel = layout.panel
    process = panel.marking.process
    limits = {**standard(), **BUILT_IN.limits, **process_limits(process)}
    proxy: Any = NotingProcess(process, noted)
    marked = replace(panel, marking=replace(panel.marking, process=proxy))
    return survey(replace(layout, panel=marked), Noting(limits, "", noted))


def read_by_rules(layout: Layout, *names: str) -> dict[str, set[str]]:
    """The limits that rules read when they look at a layout, by rule: those named, else all that a waiver can accept.

    A limit of the process is read by its name there (`digital-print.line_minimum`) or from the process; both are noted
    as `process.line_minimum`.
    """
    noted: set[str] = set()
    looked = noting(layout, noted)
    before = f"{layout.panel.marking.process.name}."
    found: dict[str, set[str]] = {}
    for name in names or PANEL_RULES:
        noted.clear()
        list(PANEL_RULES[name].findings(looked))
        found[name] = {OF_PROCESS + one.removeprefix(before) if one.startswith(before) else one for one in noted}
    return found
