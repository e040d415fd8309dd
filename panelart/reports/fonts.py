"""What a font is for panels: its heights, its thinnest stroke, and how small it may be for each process and reader.

Measured on the outlines of its capitals and figures, beside what is published for labels.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from panelart.canonical import Struct
from panelart.checks.marking import height_at
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.measures import NONE, Heights, Widths, gap_between, heights, widths
from panelart.lettering.setting import set_words
from panelart.messages import Said
from panelart.messages import reports_catalogue as said
from panelart.processes.process import Process

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
"""What a font is judged by."""

PAIRS = ("AV", "AT", "TA", "AY", "LT", "PA", "LY", "TO", "VA", "WA")
"""Neighbours that are set closest, and others."""

READ = (15.0, 20.0)
READ_SOURCE = "NUREG-0700 Rev. 3, 11.4.1.5-1"
"""Minimum and preferred visual angle of capitals in minutes of arc."""


_NAMES = 34
"""Columns for what is measured."""


class FontReport(Struct, frozen=True, kw_only=True):
    """A font's measures, as shares of its cap height; None for what it lacks.

    `thinnest` and `narrowest` name the letters with the thinnest stroke and the narrowest gap, `upright` is the width
    of I, `round_` that of O; `between` is the narrowest gap of neighbours.
    """

    name: str
    heights: Heights
    widths: Widths
    thinnest: str
    narrowest: str
    upright: float | None
    round_: float | None
    between: float
    embedding: str

    def minimum_height(self, process: Process) -> float:
        """The cap height in mm from which on capitals and figures hold in a process."""
        gap = min(self.widths.gap, self.between)
        held = (process.line_minimum.value / self.widths.stroke, process.open_gap / gap)
        return max(process.cap_height_minimum.value, *held)


def font_report(name: str) -> FontReport:
    """Measure a font. Raises UnknownFontError, and ValueError for one without capitals and figures."""
    font = open_font(name)
    each = {letter: widths(set_words(letter, name, 1.0)) for letter in LETTERS if font.has(letter)}
    if not each:
        raise ValueError(said.no_capitals(name))
    whole = NONE
    for found in each.values():
        whole = whole.minimum(found)
    pairs = [pair for pair in PAIRS if all(map(font.has, pair))]
    return FontReport(
        name=name,
        heights=heights(font),
        widths=whole,
        thinnest=min(each, key=lambda letter: each[letter].stroke),
        narrowest=min(each, key=lambda letter: each[letter].gap),
        upright=_width(font, "I"),
        round_=_width(font, "O"),
        between=min((gap_between(set_words(pair, name, 1.0)) for pair in pairs), default=whole.gap),
        embedding=str(font.embedding.words),
    )


def _width(font: Font, letter: str) -> float | None:
    number = font.number(letter)
    box = None if number is None else font.box(number)
    return None if box is None else box.width / font.cap_units


def told(report: FontReport, processes: Mapping[str, Process], distance: float) -> str:
    """The report in words, for a reader at a distance in mm."""
    return "\n".join(_lines(report, processes, distance)) + "\n"


def _lines(report: FontReport, processes: Mapping[str, Process], distance: float) -> Iterator[str]:
    yield str(said.font_heading(report.name, report.embedding))
    high, wide = report.heights, report.widths
    rows: tuple[tuple[Said, float | None, Said], ...] = (
        (said.figures(), high.figures, said.usual_figures()),
        (said.small_letters(), high.small, said.usual_small_letters()),
        (said.ascender(), high.ascender, said.usual_ascender()),
        (said.descender(), high.descender, said.usual_descender()),
        (said.thinnest_stroke(report.thinnest), wide.stroke, said.usual_stroke()),
        (said.width_of("I"), report.upright, said.usual_upright()),
        (said.width_of("O"), report.round_, said.usual_round()),
        (said.narrowest_gap(report.narrowest), wide.gap, ""),
        (said.gap_between(), report.between, said.usual_gap_between()),
    )
    yield f"  {said.shares_of_height()}"
    for what, value, published in rows:
        if value is not None and value < float("inf"):
            yield f"    {what!s:<{_NAMES}} {value:5.3f}" + (f"  {said.published(published)}" if published else "")
    yield f"  {said.minimum_heights()}"
    for process in processes.values():
        yield f"    {process.title!s:<{_NAMES}} {report.minimum_height(process):5.2f} mm"
    low, good = (height_at(angle, distance) for angle in READ)
    reader = said.reader_height(f"{low:5.2f}", f"{good:.2f}", READ_SOURCE)
    yield f"    {said.reader(distance)!s:<{_NAMES}} {reader}"
