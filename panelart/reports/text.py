"""Findings for people: grouped, most serious first, each with its place, its number, its source and its remedy."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Final

from panelart.checks import Basis, Finding, HouseChange, Inspection, Waived
from panelart.diagnostics import Severity
from panelart.geometry import Box, Point
from panelart.messages import figures

_HEADINGS: Final = {Severity.ERROR: "Errors", Severity.WARNING: "Warnings", Severity.NOTE: "Notes"}
_COLOURS: Final = {Severity.ERROR: "31", Severity.WARNING: "33", Severity.NOTE: "36"}
_BASES: Final = {
    Basis.LOOKED_UP: "",
    Basis.COMMON_PRACTICE: "common practice",
    Basis.MEMORY: "from memory, so it only warns",
    Basis.GIVEN: "the designer's own",
}
_NARROWEST: Final = 40
_MAX_SPOTS: Final = 8
"""Of one finding's many places so many are listed; the JSON report has all."""


def text_report(inspection: Inspection, *, width: int = 100, colour: bool = False) -> str:
    """The findings as lines of text, the last without a line end.

    The first line of a finding is `file:line:column: severity: rule: sentence`. It is never broken, so that
    editors can follow it; the lines below it are kept to `width` columns (at least 40). Places on the panel are
    measured from its datum, as in the spec. Numbers are those of the proof's balloons. `colour` puts terminal
    colours on the severities.
    """
    lines: list[str] = []
    numbered = list(enumerate(inspection.findings, start=1))
    for severity in Severity:
        group = [(number, finding) for number, finding in numbered if finding.severity is severity]
        if group:
            heading = f"{_HEADINGS[severity]} ({len(group)})"
            lines += [_painted(heading, f"1;{_COLOURS[severity]}", colour=colour), ""]
            for number, finding in group:
                lines += [_first_line(finding, colour=colour), *_details(number, finding, inspection, width), ""]
    if inspection.waived:
        lines += [f"Waived ({len(inspection.waived)})", ""]
        for waived in inspection.waived:
            lines += [*_waived(waived, width), ""]
    if inspection.house:
        lines += [f"Decided by the house ({len(inspection.house)})", ""]
        for change in inspection.house:
            lines += [*_house(change, width), ""]
    return "\n".join([*lines, summary(inspection)])


def summary(inspection: Inspection) -> str:
    """One line: how many findings there are of each severity."""
    counts = [(inspection.count(severity), severity.value) for severity in Severity]
    said = [f"{count} {word}{'' if count == 1 else 's'}" for count, word in counts if count]
    waived = f"; {len(inspection.waived)} waived" if inspection.waived else ""
    known = f"; {len(inspection.known)} known before" if inspection.known else ""
    return (", ".join(said) or "no findings") + waived + known


def _first_line(finding: Finding, *, colour: bool) -> str:
    severity = _painted(finding.severity.value, _COLOURS[finding.severity], colour=colour)
    return f"{finding.where}: {severity}: {finding.rule}: {finding.sentence}"


def _details(number: int, finding: Finding, inspection: Inspection, width: int) -> Iterator[str]:
    yield from _folded(f"no. {number}: {_places(finding, inspection.panel.datum)}", width)
    if finding.limit is not None and finding.measured is not None:
        yield from _folded(
            f"measured {figures.measured(finding.measured, finding.unit)}, "
            f"{finding.bound.value} {figures.measured(finding.limit, finding.unit)} ({_origin(finding)})",
            width,
        )
    if finding.fix:
        yield from _folded(f"to fix: {finding.fix}", width)


def _waived(waived: Waived, width: int) -> Iterator[str]:
    finding, waiver = waived.finding, waived.waiver
    yield f"{finding.where}: waived: {finding.rule}: {finding.sentence}"
    about = f"{', '.join(finding.refs)}: " if finding.refs else ""
    signed = f", {waiver.by}" if waiver.by else ""
    until = f", until {waiver.until}" if waiver.until else ""
    yield from _folded(f"{about}because {waiver.why} ({waiver.where}{signed}{until})", width)


def _house(change: HouseChange, width: int) -> Iterator[str]:
    yield f"{change.where}: house: {change.name}: {change.now}, not {change.was}"
    yield from _folded(f"because {change.why}", width)


def _origin(finding: Finding) -> str:
    basis = _BASES[finding.basis] if finding.basis is not None else ""
    return f"{finding.source}; {basis}" if basis else finding.source


def _places(finding: Finding, datum: Point) -> str:
    """Where it is; where each of several parts has the trouble by itself, where each of them is."""
    if len(finding.each) < 2:
        about = f"{', '.join(finding.refs)} " if finding.refs else ""
        return f"{about}at {_place(finding.place, datum)}"
    told = [f"{spot.ref} at {_middle(spot.place, datum)}" for spot in finding.each[:_MAX_SPOTS]]
    more = len(finding.each) - _MAX_SPOTS
    return "; ".join(told) + (f"; and {more} more" if more > 0 else "")


def _middle(place: Point | Box, datum: Point) -> str:
    middle = place.centre if isinstance(place, Box) else place
    return f"({_tidy(middle.x - datum.x)}, {_tidy(middle.y - datum.y)})"


def _place(place: Point | Box, datum: Point) -> str:
    at = _middle(place, datum)
    if isinstance(place, Box) and max(place.width, place.height) >= 0.005:
        return f"{at}, {place.width:.2f} x {place.height:.2f} mm"
    return at


def _tidy(value: float) -> str:
    return f"{round(value, 2) + 0.0:.2f}"


def _folded(text: str, width: int) -> list[str]:
    return textwrap.wrap(
        text,
        max(width, _NARROWEST),
        initial_indent="  ",
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def _painted(text: str, code: str, *, colour: bool) -> str:
    return f"\x1b[{code}m{text}\x1b[0m" if colour else text
