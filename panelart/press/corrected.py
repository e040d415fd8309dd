"""The artwork put down as one piece really lies on the printer's bed."""

from __future__ import annotations

from panelart.drawing.representation import Drawing
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box, Point
from panelart.messages import Message
from panelart.messages import press as said
from panelart.messages import press_pieces as pieces

SLUG = 10.0
"""Room round the piece where the bed is not given, mm."""


def corrected(art: Drawing, by: Affine, bed: Box | None = None) -> Sheet:
    """A page with the artwork as it has to be printed; without a bed the page is as large as the piece needs.

    The artwork itself is not touched: one matrix moves it. Raises ValueError when the piece reaches off the bed.
    """
    around = Box.around(by.apply(corner) for corner in art.trim.corners)
    if bed is not None and not bed.contains(around):
        low, high = _place(Point(around.left, around.bottom)), _place(Point(around.right, around.top))
        raise ValueError(pieces.piece_off_bed(low=low, high=high, bed=(bed.width, bed.height)))
    page = around.grown(SLUG) if bed is None else bed
    return Sheet(
        title=str(said.registered_title(artwork=art.title)),
        note=str(said.registered_note(corner=_place(Point(page.left, page.bottom)), artwork=art.note)),
        page=page,
        placed=(Placed(drawing="artwork", by=by),),
        number=art.number,
        revision=art.revision,
        spec=art.spec,
    )


def _place(point: Point) -> Message:
    return said.place(x=point.x, y=point.y)
