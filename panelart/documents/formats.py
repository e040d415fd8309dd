"""Writers of the documents: a content and all results in, the bytes of a file out.

The writers of `panelart.writers` know no panel; here they are told date and lettering, and each is loaded only where
its format is wanted.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final

from panelart.documents.needs import DATE, LAYOUT
from panelart.documents.results import Results

if TYPE_CHECKING:
    from panelart.checks import Inspection
    from panelart.drawing.representation import Drawing
    from panelart.marking.separation import Separations
    from panelart.model.layout import Layout
    from panelart.model.panel import Panel

PICTURE_DPI: Final = 120.0
PICTURE_SIDE: Final = 8000.0
"""Resolution of the PNG files, enough to read a 2 mm legend on screen, and the most pixels that a side may have."""


def day_of(results: Results) -> str | None:
    """The date that a PDF has: that of the run, else that of the panel's revision, None without either."""
    return results[DATE] or results[LAYOUT].panel.revised or None


# --- drawings


def as_dxf(drawing: Drawing, results: Results) -> bytes:
    """A DXF file as the shop's machine takes it, inner contours first."""
    from panelart.writers.dxf import dxf

    return dxf(drawing, results[LAYOUT].panel.marking.printing.machine)


def as_path_dxf(drawing: Drawing, results: Results) -> bytes:
    """A DXF file as the shop's machine takes it, in the order in which a tool goes."""
    from panelart.writers.dxf import dxf

    return dxf(drawing, results[LAYOUT].panel.marking.printing.machine, in_order=True)


def as_svg(drawing: Drawing, _: Results) -> bytes:
    """An SVG file, words as outlines."""
    from panelart.writers.svg import svg

    return svg(drawing)


def as_tool_svg(drawing: Drawing, results: Results) -> bytes:
    """An SVG file that a machine takes: notes only where the shop's machine takes them."""
    from panelart.drawing.layers import NOTES

    notes = results[LAYOUT].panel.marking.printing.machine.notes
    return as_svg(drawing if notes else drawing.without(NOTES), results)


def as_pdf(drawing: Drawing, results: Results) -> bytes:
    """A PDF file of one page, words as outlines."""
    from panelart.writers.pdf import pdf

    return pdf([drawing], date=day_of(results))


def as_png(drawing: Drawing, _: Results) -> bytes:
    """A picture at the usual resolution, at less where the page is very large."""
    from panelart.writers.png import png

    longest = max(drawing.page.width, drawing.page.height)
    return png(drawing, min(PICTURE_DPI, PICTURE_SIDE * 25.4 / longest))


def as_dots(raster: tuple[Drawing, float], _: Results) -> bytes:
    """Black dots on white; the drawing comes with its dots an inch."""
    from panelart.writers.png import dots

    return dots(*raster)


def artwork_svg(drawing: Drawing, results: Results) -> bytes:
    """The artwork, its words as text where the spec asks for it."""
    from panelart.drawing.artwork import without_traps
    from panelart.drawing.layers import GROUND
    from panelart.writers.svg import svg

    # An SVG has no layer that is off for print, so that the colour of the face would be printed, and no plates, so that
    # what spreads under a darker ink would lie over it.
    return svg(without_traps(drawing.without(GROUND)), live=results[LAYOUT].panel.marking.live_text)


def artwork_pdf(drawing: Drawing, results: Results) -> bytes:
    """The artwork, its words as text where the spec asks for it."""
    from panelart.writers.pdf import pdf

    return pdf([drawing], date=day_of(results), live=results[LAYOUT].panel.marking.live_text)


# --- pages


def pages_pdf(pages: Sequence[Drawing], results: Results) -> bytes:
    """Pages to be read, their words as text."""
    from panelart.writers.pdf import pdf

    return pdf(pages, date=day_of(results), live=True)


def first_page_png(pages: Sequence[Drawing], results: Results) -> bytes:
    """A picture of the first page."""
    return as_png(pages[0], results)


# --- lists and records


def plates_csv(plates: Separations, _: Results) -> bytes:
    """A line for each plate."""
    from panelart.sheets.lists import plates_csv

    return plates_csv(plates)


def inspection_csv(layout: Layout, _: Results) -> bytes:
    """A line for each size that can be measured."""
    from panelart.sheets.inspection import inspection_csv

    return inspection_csv(layout)


def holes_csv(layout: Layout, _: Results) -> bytes:
    """A line for each opening."""
    from panelart.sheets.lists import holes_csv

    return holes_csv(layout)


def parts_csv(panel: Panel, _: Results) -> bytes:
    """A line for each part."""
    from panelart.sheets.lists import parts_csv

    return parts_csv(panel)


def findings_json(inspection: Inspection, _: Results) -> bytes:
    """The findings for other programs."""
    from panelart.reports.json import json_report

    return json_report(inspection).encode("utf-8")


def panel_json(panel: Panel, _: Results) -> bytes:
    """The spec as it was read."""
    from panelart.reports.panel import panel_json

    return panel_json(panel).encode("utf-8")


def set_panels_csv(panels: Mapping[str, Panel], _: Results) -> bytes:
    """A line for each panel of a set."""
    from panelart.sheets.sets import panels_csv

    return panels_csv(panels)


def set_parts_csv(panels: Mapping[str, Panel], _: Results) -> bytes:
    """A line for each part of each panel of a set."""
    from panelart.sheets.sets import set_parts_csv

    return set_parts_csv(panels)
