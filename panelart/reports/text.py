"""Findings for people: how many, then errors and warnings with their line of the spec, then the notes as a table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import Enum
from itertools import groupby
from typing import Final

from panelart.checks import Basis, Bound, Finding, HouseChange, Inspection, Waived
from panelart.diagnostics import Severity
from panelart.geometry import Box, Point
from panelart.messages import Message, Said, extensions, figures
from panelart.messages import reports as said
from panelart.reports import layout
from panelart.reports.excerpt import Source, excerpt, no_source
from panelart.reports.layout import folded, painted
from panelart.reports.notes import notes_table

_COLOURS: Final = {Severity.ERROR: layout.ERROR, Severity.WARNING: layout.WARNING, Severity.NOTE: layout.NOTE}
_WORDS: Final = {Severity.ERROR: said.error, Severity.WARNING: said.warning, Severity.NOTE: said.note}
_COUNTS: Final = {Severity.ERROR: said.errors, Severity.WARNING: said.warnings, Severity.NOTE: said.notes}
_BOUNDS: Final = {Bound.MINIMUM: said.minimum, Bound.MAXIMUM: said.maximum}
_STANDINGS: Final = {
    Basis.COMMON_PRACTICE: said.common_practice,
    Basis.MEMORY: said.from_memory,
    Basis.GIVEN: said.given,
}
_MAX_SPOTS: Final = 8
"""Of one finding's many places so many are listed; the JSON report has all."""

_MAX_REFS: Final = 4
"""Of what a waiver was used for so many refs are named in short."""


class Detail(Enum):
    """How much is printed: one line a finding, what helps to fix it, or all there is."""

    QUIET = "quiet"
    USUAL = "usual"
    VERBOSE = "verbose"


def text_report(
    inspection: Inspection,
    *,
    file: str = "",
    checked: Said = "",
    source: Source = no_source,
    detail: Detail = Detail.USUAL,
    width: int = 100,
    colour: bool = False,
) -> str:
    """The findings as lines of text, the last without a line end; '' where there is nothing to say.

    The first line of a finding is `file:line:column: severity: rule: sentence`. It is never broken, so that
    editors can follow it; the lines below it are kept to `width` columns (at least 40). Places on the panel are
    measured from its datum, as in the spec. Numbers are those of the proof's balloons.

    `file` is the spec's name, `checked` what was looked at, `source` gives the lines of files. `colour` puts terminal
    colours on the severities and carets.
    """
    reporter = _Reporter(inspection, source, detail, width, colour)
    if detail is Detail.QUIET:
        return "\n".join(reporter.quiet())
    blocks = [[painted(summary(inspection, file), layout.BOLD, colour=colour)]]
    if checked and (detail is Detail.VERBOSE or not inspection.findings):
        blocks[0] += folded(checked, width, "")
    blocks += reporter.blocks()
    return "\n\n".join("\n".join(block) for block in blocks if block)


def summary(inspection: Inspection, file: str = "") -> Message:
    """One line: how many findings there are of each severity, and what was set apart."""
    file = file or inspection.panel.where.file
    counts = [_COUNTS[severity](inspection.count(severity)) for severity in Severity if inspection.count(severity)]
    aside = [said.waived_count(len(inspection.waived))] if inspection.waived else []
    aside += [said.known_count(len(inspection.known))] if inspection.known else []
    told = said.summary(counts, file) if counts else said.no_findings(file)
    return said.summary_aside(told, aside) if aside else told


class _Reporter:
    """The parts of a report of one inspection."""

    def __init__(self, inspection: Inspection, source: Source, detail: Detail, width: int, colour: bool) -> None:  # noqa: FBT001
        self._inspection = inspection
        self._source = source
        self._verbose = detail is Detail.VERBOSE
        self._width = width
        self._colour = colour

    def quiet(self) -> Iterator[str]:
        """Errors and warnings, a line each, and what was left out."""
        yield from (self._first_line(one) for one in self._inspection.findings if one.severity is not Severity.NOTE)
        if self._inspection.without:
            yield str(extensions.checked_without(self._inspection.without))

    def blocks(self) -> Iterator[list[str]]:
        """Everything below the summary, in groups of lines that stand apart."""
        full = Severity if self._verbose else (Severity.ERROR, Severity.WARNING)
        for number, finding in enumerate(self._inspection.findings, start=1):
            if finding.severity in full:
                yield [self._first_line(finding), *self._details(number, finding)]
        notes = [finding for finding in self._inspection.findings if finding.severity not in full]
        if notes:
            yield notes_table(self._inspection, notes, self._width)
        if self._verbose:
            yield from (list(self._waived(waived)) for waived in self._inspection.waived)
        else:
            yield list(_waivers(self._inspection.waived))
        yield [str(_house(change)) for change in self._inspection.house]
        yield list(self._replaced())
        if self._inspection.without:
            yield folded(extensions.checked_without(self._inspection.without), self._width, "")

    def _first_line(self, finding: Finding) -> str:
        severity = painted(_WORDS[finding.severity](), _COLOURS[finding.severity], colour=self._colour)
        return str(said.finding_line(finding.where, severity, finding.rule, finding.sentence))

    def _details(self, number: int, finding: Finding) -> Iterator[str]:
        yield from layout.marked(excerpt(finding.where, self._source, self._width), colour=self._colour)
        place = _places(finding, self._inspection.panel.datum)
        yield from folded(said.place_line(place, number), self._width)
        if finding.limit is not None:
            limit = _limit(finding.measured, finding.limit, finding.unit)
            yield from folded(said.limit_line(_BOUNDS[finding.bound](), limit, _origin(finding)), self._width)
        if finding.fix:
            yield from folded(said.fix_line(finding.fix), self._width)

    def _waived(self, waived: Waived) -> Iterator[str]:
        finding, waiver = waived.finding, waived.waiver
        yield str(said.finding_line(finding.where, said.waived(), finding.rule, finding.sentence))
        signed = _signed(waived)
        reason = said.reason_line_signed(waiver.why, waiver.where, signed)
        yield from folded(reason if signed else said.reason_line(waiver.why, waiver.where), self._width)

    def _replaced(self) -> Iterator[str]:
        """The parts that the designer's own part file puts in the catalogue's place."""
        for part in self._inspection.replaced:
            yield from folded(said.part_replaced(part.file, part.name, part.refs), self._width, "")


def _limit(measured: float | None, limit: float, unit: str) -> str:
    """A limit with the digits that it has in the sentence of its finding."""
    return figures.measured(limit, unit) if measured is None else figures.compared(measured, limit, unit)[1]


def _waivers(waived: Iterable[Waived]) -> Iterator[str]:
    """A line for each waiver and rule, whatever it was used for."""
    groups: dict[tuple[object, str], list[Waived]] = {}
    for one in waived:
        groups.setdefault((one.waiver.where, one.finding.rule), []).append(one)
    for (_, rule), group in groups.items():
        refs = tuple(dict.fromkeys(ref for one in group for ref in one.finding.refs))
        signed, waiver = _signed(group[0]), group[0].waiver
        about = said.whole_panel() if not refs else said.refs(refs) if len(refs) <= _MAX_REFS else said.parts(len(refs))
        line = said.waived_line(waiver.where, rule, about, waiver.why)
        yield str(said.waived_line_signed(waiver.where, rule, about, waiver.why, signed) if signed else line)


def _signed(waived: Waived) -> tuple[Message, ...]:
    waiver = waived.waiver
    by = (said.waiver_by(waiver.by),) if waiver.by else ()
    return (*by, *((said.waiver_until(waiver.until),) if waiver.until else ()))


def _house(change: HouseChange) -> Message:
    return said.house_line(change.where, change.name, change.now, change.was, change.why)


def _origin(finding: Finding) -> Said:
    standing = None if finding.basis is None else _STANDINGS.get(finding.basis)
    return finding.source if standing is None else said.origin(finding.source, standing())


def _places(finding: Finding, datum: Point) -> Message:
    """Where it is; where each of several parts has it by itself, where each of them is."""
    if len(finding.each) < 2:
        return _place(finding, datum)
    told: list[Message] = []
    for ref, spots in groupby(finding.each[:_MAX_SPOTS], key=lambda spot: spot.ref):
        told.append(said.ref_at(ref, [_middle(spot.place, datum) for spot in spots]))
    more = len(finding.each) - _MAX_SPOTS
    return said.refs((*told, said.more_places(more)) if more > 0 else told)


def _place(finding: Finding, datum: Point) -> Message:
    place, refs = finding.place, finding.refs
    at = _middle(place, datum)
    if isinstance(place, Box) and max(place.width, place.height) >= 0.005:
        size = round(place.width, 2), round(place.height, 2)
        return said.refs_at_box(refs, at, size) if refs else said.at_box(at, size)
    return said.refs_at(refs, at) if refs else said.at(at)


def _middle(place: Point | Box, datum: Point) -> tuple[float, float]:
    middle = place.centre if isinstance(place, Box) else place
    return round(middle.x - datum.x, 2), round(middle.y - datum.y, 2)
