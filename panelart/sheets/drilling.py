"""The drill template: the openings at cut size on paper at 1:1, in tiles with an overlap and marks to join them by."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from panelart.canonical import Struct
from panelart.cutouts.describe import size_of
from panelart.drawing.cutlayer import View, identity, noted, view
from panelart.drawing.layers import CUTOUTS, NOTES, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer
from panelart.drawing.scaling import Scaling
from panelart.geometry import Arc, Box, Contour, Point, Vector
from panelart.lettering.look import Align
from panelart.lettering.outline import bounds, shape_of
from panelart.messages import Said, drawing, sheets
from panelart.model.layout import CutOpening, Layout
from panelart.model.panel import Side
from panelart.sheets.named import Named, names_beside
from panelart.sheets.paper import BLACK, FINE, GREY, MEDIUM, WHITE, disc, fitted, panel_box, rule, words

PAPERS: Final = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Sheets standing, ISO 216 and ANSI/ASME Y14.1."""

MARGIN: Final = 10.0
"""What an office printer may leave unprinted at the edges, mm."""

OVERLAP: Final = 15.0
FOOT: Final = 17.0
"""How far neighbouring tiles show the same, and the height of the strip below a tile, mm."""

ROUND: Final = 5.0
"""Paper round the panel, mm."""

CROSS: Final = 4.0
"""Half a centre cross where the opening is not larger; otherwise it reaches past its edge."""

BAR: Final = 100.0
"""Length of the scale bar, mm."""


class Tiles(Struct, frozen=True, kw_only=True):
    """How a panel is cut into tiles: paper, the window on it, and windows on the panel, row by row from above."""

    paper: Box
    window: Box
    across: int
    up: int
    start: Point

    def window_at(self, column: int, row: int) -> Box:
        """The part of the panel that a tile shows; row 0 is the uppermost."""
        step_x, step_y = self.window.width - OVERLAP, self.window.height - OVERLAP
        left = self.start.x + column * step_x
        bottom = self.start.y + (self.up - 1 - row) * step_y
        return Box(left, bottom, left + self.window.width, bottom + self.window.height)


def tiles(area: Box, paper: str) -> Tiles:
    """The fewest tiles of a paper, standing or lying, that show an area. Raises KeyError for an unknown paper."""
    wide, high = PAPERS[paper]
    ways = [_tiles(area, wide, high), _tiles(area, high, wide)]
    return min(ways, key=lambda way: way.across * way.up)


def _tiles(area: Box, wide: float, high: float) -> Tiles:
    paper = Box(0.0, 0.0, wide, high)
    window = Box(MARGIN, MARGIN + FOOT, wide - MARGIN, high - MARGIN)
    across, up = (
        max(math.ceil((size - OVERLAP) / (room - OVERLAP) - 1e-9), 1)
        for size, room in ((area.width, window.width), (area.height, window.height))
    )
    shown_x = across * (window.width - OVERLAP) + OVERLAP
    shown_y = up * (window.height - OVERLAP) + OVERLAP
    start = Point(area.centre.x - shown_x / 2, area.centre.y - shown_y / 2)
    return Tiles(paper=paper, window=window, across=across, up=up, start=start)


def drill_template(layout: Layout, paper: str = "A4", side: Side = Side.FRONT) -> tuple[Drawing, ...]:
    """One drawing a tile, from the upper left row by row. Raises KeyError for an unknown paper."""
    panel = layout.panel
    seen = view(layout, side)
    plan = tiles(layout.cut_outline.bounds.grown(ROUND), paper)
    outline = Item(
        shape=shape_of(seen.of(layout.cut_outline)), stroke=BLACK, width=MEDIUM, label=str(drawing.outline_cut())
    )
    openings = _openings(layout, seen)
    pages: list[Drawing] = []
    for row in range(plan.up):
        for column in range(plan.across):
            window = plan.window_at(column, row)
            shift = Scaling(1.0, Point(plan.window.left - window.left, plan.window.bottom - window.bottom))
            shown = [item for item in openings if _meets(item, window)]
            name = tile_name(column, row)
            pages.append(
                Drawing(
                    title=str(sheets.drill_title(panel=panel.title, tile=name)),
                    note=noted(panel, sheets.drill_note_front() if side is Side.FRONT else sheets.drill_note_rear()),
                    page=plan.paper,
                    trim=plan.paper,
                    layers=(
                        Layer(name=CUTOUTS, items=tuple(shift.item(item) for item in shown)),
                        Layer(name=OUTLINE, items=(shift.item(outline),)),
                        Layer(
                            name=NOTES,
                            items=(
                                *_surround(plan),
                                *(shift.item(item) for item in _joins(plan, column, row)),
                                *_foot(layout, plan, name, side),
                            ),
                        ),
                    ),
                    number=panel.number,
                    revision=panel.revision,
                )
            )
    return tuple(pages)


def _openings(layout: Layout, seen: View) -> list[Item]:
    """Every opening with its cross, its name and its size."""
    cut = [(opening, seen.of(opening.cut)) for opening in layout.openings]
    items = [item for opening, contour in cut for item in _opening(opening, contour)]
    named = [
        Named(box=contour.bounds, name=_name(opening, contour), round=contour.circle is not None)
        for opening, contour in cut
    ]
    crosses = [line.grown(FINE) for _, contour in cut for line in _arms(contour)]
    names, _ = names_beside(named, within=seen.of(layout.cut_outline).bounds, drawn=crosses, bold=False)
    return [*items, *names]


def tile_name(column: int, row: int) -> str:
    """A1 is the upper left tile, B1 the one right of it."""
    return f"{chr(ord('A') + column % 26)}{row + 1}" if column < 26 else f"{column + 1}/{row + 1}"


def _opening(opening: CutOpening, contour: Contour) -> Iterator[Item]:
    """Its edge, and a cross over its middle."""
    yield Item(shape=shape_of(contour), stroke=BLACK, width=FINE, label=str(drawing.opening_cut(name=opening.name)))
    for arm in _arms(contour):
        yield rule(Point(arm.left, arm.bottom), Point(arm.right, arm.top))


def _arms(contour: Contour) -> tuple[Box, Box]:
    """The lines of its cross, as boxes without width."""
    box, at = contour.bounds, _middle(contour)
    across, up = (max(CROSS, size / 2 + 2.0) for size in (box.width, box.height))
    return Box(at.x - across, at.y, at.x + across, at.y), Box(at.x, at.y - up, at.x, at.y + up)


def _name(opening: CutOpening, contour: Contour) -> str:
    """The name of an opening with its size."""
    size = size_of(contour)
    over = f"Ø {size.width:.2f}" if size.form == "round" else f"{size.width:.2f} x {size.height:.2f}"
    return f"{opening.name} {over}"


def _middle(contour: Contour) -> Point:
    """Where the drill is set: the middle of the longest arc, else of the box."""
    arcs = [segment for segment in contour.segments if isinstance(segment, Arc)]
    longest = max(arcs, key=lambda arc: abs(arc.sweep_deg), default=None)
    return longest.centre if longest is not None and abs(longest.sweep_deg) > 180.0 else contour.bounds.centre


def _meets(item: Item, window: Box) -> bool:
    shape = item.outline
    return bool(shape) and bounds(shape).gap(window) <= 0.0


def _surround(plan: Tiles) -> Iterator[Item]:
    """White over what lies outside the window, and the window's edge."""
    paper, window = plan.paper, plan.window
    for box in (
        Box(paper.left, paper.bottom, window.left, paper.top),
        Box(window.right, paper.bottom, paper.right, paper.top),
        Box(window.left, paper.bottom, window.right, window.bottom),
        Box(window.left, window.top, window.right, paper.top),
    ):
        yield panel_box(box, fill=WHITE, stroke=None)
    yield panel_box(window, stroke=GREY)


def _joins(plan: Tiles, column: int, row: int) -> Iterator[Item]:
    """Marks in the middle of the overlaps, at the same places of the panel on both tiles, each with its name."""
    window = plan.window_at(column, row)
    half = OVERLAP / 2
    for seam, at_x in ((column - 1, window.left + half), (column, window.right - half)):
        if 0 <= seam < plan.across - 1:
            for number, share in enumerate((0.15, 0.85), 1):
                at = Point(at_x, window.bottom + share * window.height)
                yield from _match(at, f"v{seam + 1}.{row + 1}.{number}")
    for seam, at_y in ((row, window.bottom + half), (row - 1, window.top - half)):
        if 0 <= seam < plan.up - 1:
            for number, share in enumerate((0.2, 0.8), 1):
                at = Point(window.left + share * window.width, at_y)
                yield from _match(at, f"h{seam + 1}.{column + 1}.{number}")


def _match(at: Point, name: str) -> Iterator[Item]:
    yield disc(at, 4.0, stroke=BLACK)
    yield rule(Point(at.x - 3.5, at.y), Point(at.x + 3.5, at.y))
    yield rule(Point(at.x, at.y - 3.5), Point(at.x, at.y + 3.5))
    # Over it, so that it is whole on both tiles.
    yield words(name, Point(at.x, at.y + 4.2), align=Align.CENTRE).item


def _foot(layout: Layout, plan: Tiles, name: str, side: Side) -> Iterator[Item]:
    """The scale bar, what the sheet is, and which tile of how many."""
    panel, window = layout.panel, plan.window
    base = plan.paper.bottom + MARGIN
    start = Point(window.left, base + 2.0)
    yield rule(start, start.moved(Vector(BAR, 0.0)), width=MEDIUM)
    for tenth in range(11):
        high = 3.0 if tenth % 5 == 0 else 1.5
        foot = start.moved(Vector(tenth * BAR / 10, 0.0))
        yield rule(foot, foot.moved(Vector(0.0, high)), width=FINE if tenth % 5 else MEDIUM)
    yield words("0", start.moved(Vector(0.0, 4.0))).item
    yield words(sheets.scale_bar(length=BAR), start.moved(Vector(BAR, 4.0)), align=Align.RIGHT).item
    room = window.width - BAR - 6.0
    known = identity(panel)
    tile = sheets.tile_front if side is Side.FRONT else sheets.tile_rear
    lines: tuple[Said, ...] = (
        f"{panel.title} {known}".strip(),
        tile(tile=name, across=plan.across, up=plan.up),
        sheets.print_scale(),
    )
    for number, line in enumerate(lines):
        at = Point(window.right, base + 11.0 - number * 4.0)
        yield words(fitted(line, room), at, align=Align.RIGHT).item
