"""The artwork put down as one piece really lies on the printer's bed."""

from __future__ import annotations

from panelart.drawing.representation import Drawing
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine, Box, Point

SLUG = 10.0
"""Room round the piece where the bed is not given, mm."""


def corrected(art: Drawing, by: Affine, bed: Box | None = None) -> Sheet:
    """A page with the artwork as it has to be printed; without a bed the page is as large as the piece needs.

    The artwork itself is not touched: one matrix moves it. Raises ValueError when the piece reaches off the bed.
    """
    around = Box.around(by.apply(corner) for corner in art.trim.corners)
    if bed is not None and not bed.contains(around):
        low, high = _place(Point(around.left, around.bottom)), _place(Point(around.right, around.top))
        raise ValueError(
            f"the piece lies from {low} to {high} mm, which is not all on the bed of {bed.width:g} x {bed.height:g} mm"
        )
    page = around.grown(SLUG) if bed is None else bed
    return Sheet(
        title=f"{art.title}, corrected to one piece",
        note=(
            f"In the printer's coordinates, 1:1, millimetres. The page's lower left corner is at "
            f"{_place(Point(page.left, page.bottom))}. For this one piece only. {art.note}"
        ),
        page=page,
        placed=(Placed(drawing="artwork", by=by),),
        number=art.number,
        revision=art.revision,
        spec=art.spec,
    )


def _place(point: Point) -> str:
    return f"{point.x:.3f}, {point.y:.3f}"
