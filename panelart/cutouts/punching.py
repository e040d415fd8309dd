"""Which of the shop's punches makes an opening in one stroke."""

from __future__ import annotations

from collections.abc import Sequence

from panelart.cutouts.describe import size_of
from panelart.model.layout import CutOpening
from panelart.model.making import Punch, PunchForm

_FITS = 0.05
"""Millimetres: a punch that is off by less cuts the opening."""

_FORMS = {"round": PunchForm.ROUND, "rectangle": PunchForm.RECTANGLE, "slot": PunchForm.SLOT}


def punch_for(opening: CutOpening, punches: Sequence[Punch]) -> Punch | None:
    """The punch, turned as it must be; None where the opening is nibbled. Rounded rectangles are nibbled too."""
    size = size_of(opening.cut, opening.turn)
    form = _FORMS.get(size.form)
    if form is None or (form is PunchForm.RECTANGLE and size.corner):
        return None
    long, short = max(size.width, size.height), min(size.width, size.height)
    return next(
        (
            punch
            for punch in punches
            if punch.form is form
            and abs(max(punch.length, punch.width) - long) <= _FITS
            and abs(min(punch.length, punch.width) - short) <= _FITS
        ),
        None,
    )
