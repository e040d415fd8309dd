"""What a font is for panels: its heights, its thinnest stroke, and how small it may be for each process and reader.

Measured on the outlines of its capitals and figures, beside what is published for labels.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from panelart.checks.marking import height_at
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.measures import NONE, Heights, Widths, heights, widths
from panelart.lettering.setting import set_words
from panelart.model.panel import Process

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
"""What a font is judged by."""

PAIRS = "AVATAYLTPALYTOVAWA"
"""Neighbours that are set closest, and others."""

READ = (15.0, 20.0)
READ_SOURCE = "NUREG-0700 Rev. 3, 11.4.1.5-1"
"""Least and preferred visual angle of capitals in minutes of arc."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FontReport:
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
        held = (process.line_minimum.value / self.widths.stroke, process.gap_minimum.value / gap)
        return max(process.cap_height_minimum.value, *held)


def font_report(name: str) -> FontReport:
    """Measure a font. Raises UnknownFontError, and ValueError for one without capitals and figures."""
    font = open_font(name)
    each = {letter: widths(set_words(letter, name, 1.0)) for letter in LETTERS if font.has(letter)}
    if not each:
        raise ValueError(f"font '{name}' has no capitals and no figures")
    whole = NONE
    for found in each.values():
        whole = whole.minimum(found)
    pairs = "".join(letter for letter in PAIRS if font.has(letter))
    return FontReport(
        name=name,
        heights=heights(font),
        widths=whole,
        thinnest=min(each, key=lambda letter: each[letter].stroke),
        narrowest=min(each, key=lambda letter: each[letter].gap),
        upright=_width(font, "I"),
        round_=_width(font, "O"),
        between=widths(set_words(pairs, name, 1.0)).gap if pairs else whole.gap,
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
    yield f"{report.name} ({report.embedding})"
    high = report.heights
    rows = (
        ("figures", high.figures, "1 in most faces"),
        ("small letters", high.small, "0.7 in lettering of ISO 3098-0, type B"),
        ("stem above the base line", high.ascender, "1.0 there"),
        ("tail below it", high.descender, "0.3 there"),
        (f"thinnest stroke, of {report.thinnest}", report.widths.stroke, "0.1 there"),
        ("width of I", report.upright, "1/6 dark on light, 1/8 to 1/7 light on dark: DOD-HDBK-791(AM), 6-5.3.2.3"),
        ("width of O", report.round_, "0.6 to 1.0: NUREG-0700 Rev. 2, 11.3.1.5-4"),
        (f"narrowest gap within letters, of {report.narrowest}", report.widths.gap, ""),
        ("narrowest gap between capitals", report.between, "a stroke: NUREG-0700 Rev. 3, 11.4.1.5-7"),
    )
    yield "  over the height of its capitals, on the outlines:"
    for what, value, published in rows:
        if value is not None and value < float("inf"):
            yield f"    {what:<34} {value:5.3f}" + (f"  ({published})" if published else "")
    yield "  least height of capitals and figures:"
    for process in processes.values():
        yield f"    {process.title:<34} {report.minimum_height(process):5.2f} mm"
    low, good = (height_at(angle, distance) for angle in READ)
    reader = f"a reader at {distance:g} mm"
    yield f"    {reader:<34} {low:5.2f} mm, better {good:.2f} mm (15 and 20 minutes of arc: {READ_SOURCE})"
