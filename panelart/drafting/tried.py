"""Arrangements built and inspected before they are handed over; where a rule is broken, once more with more white."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Severity, SpecError
from panelart.drafting.arrange import Arranged
from panelart.pipeline import Built, build
from panelart.spec.read import panel_from_text

WHITES: Final = (3.0, 4.0, 5.5)
"""White between legends that is tried, mm: first what looks right at 3 to 4 mm capitals, then more."""


class Tried(Struct, frozen=True, kw_only=True):
    """An arrangement with the panel built from it."""

    arranged: Arranged
    built: Built

    @property
    def errors(self) -> int:
        """Findings at error level."""
        return sum(finding.severity is Severity.ERROR for finding in self.built.inspection.findings)

    @property
    def crowded(self) -> int:
        """Findings that more room would cure: something measured between two parts, at error or warning level."""
        return sum(
            finding.severity is not Severity.NOTE and len(finding.refs) > 1 and finding.measured is not None
            for finding in self.built.inspection.findings
        )


def tried(make: Callable[[float], list[Arranged]], file: str, folder: Path, before: int = 0) -> list[Tried]:
    """Arrangements by `make`, which is given the white between legends, built.

    The first that needs no more room is taken, else the one with fewest errors.
    `before` is how many errors the spec has anyway. Raises SpecError as `make` does for the least white.
    """
    best: list[Tried] = []
    for white in WHITES:
        try:
            made = make(white)
        except SpecError:
            if best:
                break
            raise
        now = [_built(one, file, folder) for one in made]
        if best and (now[0].errors, now[0].crowded) >= (best[0].errors, best[0].crowded):
            break  # more white is no cure
        best = now
        if best[0].errors <= before and not best[0].crowded:
            break
    return best


def _built(arranged: Arranged, file: str, folder: Path) -> Tried:
    return Tried(arranged=arranged, built=build(panel_from_text(arranged.text, file, folder)))
