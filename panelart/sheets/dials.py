"""How a control turns, in small dials: one for each way in which it is made, with the angles of its positions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.canonical import Struct
from panelart.drawing.representation import Item
from panelart.figure import Known
from panelart.geometry import Arc, Box, Point, direction
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape
from panelart.messages import Message
from panelart.messages import sheets_catalogue as said
from panelart.model.motion import FULL_TURN, Motion, MotionKind, Way
from panelart.sheets.measure import extent, figure
from panelart.sheets.paper import BLACK, FINE, GREY, MEDIUM, TEXT, disc, rule, width_of, words
from panelart.sheets.part_picture import standing_mark

RADIUS: Final = 11.0
TICK: Final = 1.5
LABEL: Final = TEXT
"""Radius of a dial, length of its marks, cap height of its degrees, mm."""

OUT: Final = RADIUS + TICK + 0.8 + LABEL / 2
"""From the shaft to the middle of the degrees straight above it, mm."""

WIDE: Final = 2 * OUT + 20.0
TALL: Final = 2 * OUT + 12.0
"""What a dial takes with its degrees and its words, mm."""

UP: Final = 90.0


class Dial(Struct, frozen=True, kw_only=True):
    """One way of turning: its words, how far it may be trusted, its marks in degrees clockwise from straight up.

    `arc` is true where the control turns from the first mark to the last without stopping between.
    """

    text: Message
    known: Known
    marks: tuple[float, ...]
    arc: bool = False

    def items(self, at: Point) -> Iterator[Item]:
        """The dial round a point."""
        yield disc(at, 2 * RADIUS, stroke=GREY, width=FINE)
        yield disc(at, 0.7, fill=BLACK)
        if self.arc:
            turn = Arc(at, RADIUS + TICK / 2, UP - self.marks[0], self.marks[0] - self.marks[-1])
            yield Item(shape=open_shape((turn,)), stroke=BLACK, width=MEDIUM)
        for angle in self.marks:
            way = direction(UP - angle)
            yield rule(at.moved(way.scaled(RADIUS)), at.moved(way.scaled(RADIUS + TICK)), width=MEDIUM)
            text = said.value_in_degrees(value=figure(angle))
            # As far out as lets a wide text stand clear of its mark.
            half = abs(way.x) * width_of(text, LABEL) / 2 + abs(way.y) * LABEL / 2
            middle = at.moved(way.scaled(RADIUS + TICK + 0.8 + half))
            base = Point(middle.x, middle.y - LABEL / 2)
            yield words(text, base, height=LABEL, align=Align.CENTRE).item
        base = Point(at.x, at.y - OUT - LABEL - 3.6)
        told = words(self.text, base, height=LABEL, align=Align.CENTRE)
        yield told.item
        if self.known is not Known.GIVEN:
            yield from standing_mark(self.known, Point(told.box.left - 1.4, base.y + LABEL / 2), 1.3)


def dials(motion: Motion) -> tuple[Dial, ...]:
    """The dials of a turned control: its ways, or from stop to stop; none for what turns without end."""
    if motion.kind is not MotionKind.TURN:
        return ()
    if motion.ways:
        return tuple(_of_way(way, motion) for way in motion.ways)
    found = []
    for figure_, text in ((motion.rotation, said.from_stop_to_stop), (motion.electrical, said.value_changes)):
        if figure_ is not None and figure_.value < FULL_TURN:
            half = figure_.value / 2
            found.append(Dial(text=text(), known=figure_.known, marks=(-half, half), arc=True))
    return tuple(found)


def _of_way(way: Way, motion: Motion) -> Dial:
    text = (
        said.positions_of_way(count=way.most)
        if way.fewest == way.most
        else said.positions_up_to(fewest=figure(way.fewest), most=figure(way.most))
    )
    return Dial(text=text, known=way.known, marks=way.marks(way.most, motion.phase))


def placed(shown: tuple[Dial, ...], left: float, top: float, width: float) -> tuple[list[Item], Box]:
    """The dials in rows under a line, as many beside each other as fit; and the box that they take."""
    row = max(1, int(width // WIDE))
    items: list[Item] = []
    for number, dial in enumerate(shown):
        down, along = divmod(number, row)
        at = Point(left + OUT + 8.0 + along * WIDE, top - OUT - LABEL - down * TALL)
        items += dial.items(at)
    return items, extent(items)
