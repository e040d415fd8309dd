"""Arrangements built and inspected before they are handed over; where a rule is broken, once more with more white."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import islice
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Severity, SpecError
from panelart.drafting.arrange import Arranged, Request, arranged, put_back, put_over, puts_back
from panelart.drafting.enlarging import enlarged, with_size, written_size
from panelart.pipeline import Built, build
from panelart.spec.read import panel_from_text
from panelart.stages import remembering_at_least

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


MAX_SEATINGS: Final = 6
"""Ways to put parts back that are built."""


def arranged_well(text: str, file: str, folder: Path, request: Request) -> list[Tried]:
    """The parts without place put where a person would, else arranged anew in the room there is, built; best first.

    Raises SpecError when the spec cannot be read or the parts do not fit.
    """
    if request.maximum == 1 and puts_back(text, file, folder):
        return [_first_sound(put_back(text, file, folder), file, folder)]
    try:
        return tried(lambda white: arranged(text, file, folder, replace(request, white=white)), file, folder)
    except SpecError:
        return [_first_sound(put_back(text, file, folder), file, folder)]


def arranged_larger(text: str, file: str, folder: Path, request: Request) -> list[Tried]:
    """The same on a panel that is larger by the least, which fits: wider or higher in steps of 5 mm.

    Raises SpecError where the size is not written as two numbers, or nothing of up to twice the size does.
    """
    size = written_size(text, file)
    for wider in enlarged(size):
        larger = with_size(text, file, wider)
        try:
            return arranged_well(larger, file, folder, request)
        except SpecError:
            continue
    return arranged_well(text, file, folder, request)


def arranged_over(text: str, file: str, folder: Path) -> list[Tried]:
    """The parts without place where they should be, though others are in the way, which are then moved."""
    return [_built(put_over(text, file, folder), file, folder)]


def _first_sound(ways: Iterable[Arranged], file: str, folder: Path) -> Tried:
    """The first way that needs no more room, else the one with fewest findings."""
    best: Tried | None = None
    with remembering_at_least():  # each way moves a few parts
        for way in islice(ways, MAX_SEATINGS):
            now = _built(way, file, folder)
            if best is None or (now.errors, now.crowded) < (best.errors, best.crowded):
                best = now
            if not best.errors and not best.crowded:
                break
    assert best is not None  # no way at all is an error of its own
    return best


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
