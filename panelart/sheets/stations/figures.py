"""Figures, columns and features that several stations are told of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.cutouts.describe import deviations
from panelart.cutouts.hardware import components
from panelart.cutouts.held import Deviations, Held
from panelart.cutouts.tolerances import hole_grade, linear
from panelart.geometry import Contour, Point, Vector
from panelart.lettering.look import Align
from panelart.messages import Message, Said
from panelart.messages import sheets_stations as said
from panelart.model.component import Fastening
from panelart.model.layout import CutCountersink, CutOpening, Layout
from panelart.model.panel import Panel
from panelart.sheets.paper import Column


def datum_told(panel: Panel) -> Message:
    """What positions after bending are measured from."""
    return said.from_datum_with_flanges() if panel.flanges else said.from_datum()


def tolerance_told(panel: Panel) -> Message:
    """The general tolerances that sizes without one of their own have."""
    grade = panel.making.tolerance
    return said.general_tolerance(grade=grade, openings=hole_grade(grade))


BLANK_CELL: Final = "________"
"""A cell that is filled in by hand."""


def text_column(heading: Said, width: float) -> Column:
    """A column of words, `width` mm wide."""
    return Column(heading=heading, width=width)


def figure_column(heading: Said, width: float) -> Column:
    """A column of figures, `width` mm wide."""
    return Column(heading=heading, width=width, align=Align.RIGHT)


def mm(value: float) -> str:
    """A position or size as it is read off a caliper."""
    return f"{value:.2f}".replace("-0.00", "0.00").replace("-", "\N{MINUS SIGN}")


def deviation(size: float, panel: Panel, own: Deviations | None = None) -> str:
    """The tolerance of a size as a drawing writes it: its own, else the general one."""
    if own is not None:
        return deviations(own)
    usual = linear(size, panel.making.tolerance)
    return deviations(None if usual is None else (-usual, usual))


_NAMED_BY_SIZE: Final = 2


def toleranced(known: Sequence[Held], *, cut: bool) -> Iterator[Said]:
    """The tolerances of an opening, finished or as cut.

    One where all that its size names have the same: '+0.4/0'; else each with name and size: 'width 92.00 +0.8/0'. The
    size of a keyed hole does not name the width of its key.
    """
    alike = {one.cut_by if cut else one.finished_by for one in known}
    if len(alike) == 1 and len(known) <= _NAMED_BY_SIZE:
        yield deviations(alike.pop())
        return
    for one in known:
        size, by = (one.cut, one.cut_by) if cut else (one.finished, one.finished_by)
        yield said.tolerance_of(dimension=one.name, size=size, tolerance=deviations(by))


def listed(refs: Sequence[Said]) -> str:
    """Refs in a cell of a table."""
    return ", ".join(map(str, refs))


def cut_features(layout: Layout) -> Iterator[tuple[CutOpening, Contour]]:
    """Everything that is cut out, with its contour on the piece that is cut."""
    if layout.blank is not None:
        yield from ((hole.opening, hole.cut) for hole in layout.blank.holes)
        return
    yield from ((opening, opening.cut) for opening in layout.openings)


def has_lines(layout: Layout) -> bool:
    """Whether the cut file has lines that are not cut: bends, countersinks."""
    return layout.blank is not None or any(opening.countersink is not None for opening in layout.openings)


def countersinks(layout: Layout) -> Iterator[tuple[CutOpening, CutCountersink, Point]]:
    """Every countersink with its middle on the flat piece, from the lower-left corner of that piece."""
    if layout.blank is not None:
        for hole in layout.blank.holes:
            if hole.countersink is not None:
                yield hole.opening, hole.countersink, hole.countersink.centre
        return
    box = layout.cut_outline.bounds
    for opening in layout.openings:
        if opening.countersink is not None:
            centre = opening.countersink.centre
            yield opening, opening.countersink, centre.moved(Vector(-box.left, -box.bottom))


def pressed_refs(panel: Panel) -> list[str]:
    """The refs of hardware that is pressed in."""
    return [
        ref
        for ref, component, _ in components(panel)
        if component.hardware is not None and component.hardware.fastening is Fastening.PRESSED
    ]
