"""Marks on beds and jigs that are neither printed nor cut: numbers of pieces, the bed's zero, which way is up."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from panelart.drawing.cutlayer import NOTE_LINE
from panelart.drawing.representation import Item, Lettered
from panelart.geometry import Box, Line, Path, Point, Vector
from panelart.lettering.centreline import centre_lines
from panelart.lettering.cuts import LIGHT
from panelart.lettering.documents import LOWEST, sayable
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape
from panelart.lettering.setting import set_words
from panelart.messages import Said
from panelart.messages import press as said
from panelart.press.bed import Kind, Spot

NUMBER_HEIGHT: Final = 3.0
"""Cap height of a piece's number where the gap lets it, mm; in narrower gaps it is the lowest of any paper."""

PITCH: Final = 1.8 * NUMBER_HEIGHT
"""From one line of notes to the next, mm."""

INSIDE: Final = 3.0
"""From the edges of a piece to its number where that stands in it, mm."""

_ARM: Final = 12.0
_LINE: Final = 0.3


def number_mark(text: str, piece: Box, gap: float) -> list[Item]:
    """A number in the gap below the lower left corner of a piece, in centre lines, as cutters follow them.

    In the piece where the gap is too narrow to read it in.
    """
    return [_note(text, *_below(piece, gap))]


def lettered_number(text: str, piece: Box, gap: float) -> list[Item]:
    """The same in letters, for artwork: a run has many of them."""
    at, height = _below(piece, gap)
    words = Lettered(setting=set_words(sayable(text), LIGHT.font, height, Align.LEFT), at=at)
    return [Item(shape=(), words=words, fill=NOTE_LINE, label=text)]


def _below(piece: Box, gap: float) -> tuple[Point, float]:
    """Where a number starts, and how high it is."""
    height = min(NUMBER_HEIGHT, gap - 2.0)
    if height < LOWEST:
        return Point(piece.left + INSIDE, piece.bottom + INSIDE), LOWEST
    return Point(piece.left + 1.0, piece.bottom - 1.0 - height), height


def top_arrow(spot: Spot, kind: Kind, place: int) -> Item:
    """An arrow in the middle of a pocket that points to the top of the panel, so that none is laid in half turned."""
    up = Vector(0.0, 1.0).turned(90.0 if spot.turned else 0.0)
    size = min(kind.width, kind.height) / 8
    middle = spot.box(kind).centre
    tip, foot = middle.moved(up.scaled(size)), middle.moved(up.scaled(-size))
    side = up.perpendicular.scaled(size / 2)
    barb = tip.moved(up.scaled(-size / 2))
    head = (Line(barb.moved(side), tip), Line(tip, barb.moved(side.scaled(-1.0))))
    shape = open_shape((Line(foot, tip),), head)
    return Item(shape=shape, stroke=NOTE_LINE, width=_LINE, label=str(said.pocket_top(pocket=place)))


def origin_mark(bed: Box) -> list[Item]:
    """The bed's zero: two arms beside its corner, and its name."""
    corner = Point(bed.left + 1.0, bed.bottom + 1.0)
    up, right = corner.moved(Vector(0.0, _ARM)), corner.moved(Vector(_ARM, 0.0))
    arms = Path((Line(up, corner), Line(corner, right)))
    mark = Item(shape=open_shape(arms), stroke=NOTE_LINE, width=_LINE, label=str(said.bed_origin()))
    return [mark, _note("0,0", corner.moved(Vector(2.0, 2.0)), NUMBER_HEIGHT)]


def lines_below(told: Sequence[Said], bed: Box) -> list[Item]:
    """Lines of notes under each other below the bed."""
    return [
        _note(str(line), Point(bed.left, bed.bottom - (number + 1) * PITCH), NUMBER_HEIGHT)
        for number, line in enumerate(told)
    ]


def _note(text: str, at: Point, height: float) -> Item:
    shape = centre_lines(sayable(text), at, height)
    return Item(shape=shape, stroke=NOTE_LINE, width=height / 10, label=text)
