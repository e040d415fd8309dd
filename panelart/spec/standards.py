"""Panels whose size a standard gives, for racks and for modules in a subrack, with what is kept free behind them."""

from __future__ import annotations

from panelart.geometry import Contour, Point, rectangle
from panelart.model.panel import Keepout, Side
from panelart.source.schema import Fields
from panelart.spec import language
from panelart.units import HORIZONTAL_PITCH, RACK_UNIT


def standard_size(size: Fields) -> tuple[float, float] | None:
    """Width and height in mm of a size by standard; None when its problem has been told."""
    if size.record is language.RACK_SIZE:
        units = size[language.RACK]
        return None if units is None else (language.RACK_WIDTH, round(units * RACK_UNIT - language.RACK_LOSS, 6))
    high, pitches = size[language.SUBRACK], size[language.SUBRACK_WIDTH]
    if high is None or pitches is None:
        return None
    width = round(pitches * HORIZONTAL_PITCH - language.PITCH_LOSS, 6)
    return width, round(int(high) * RACK_UNIT - language.SUBRACK_LOSS, 6)


def reserved(panel: Fields, width: float, height: float) -> tuple[Keepout, ...]:
    """What the rails take behind a panel of standard size, on a face of this size."""
    size = panel[language.SIZE]
    if not isinstance(size, Fields):
        return ()
    if size.record is language.RACK_SIZE:
        rail = language.RAIL_WIDTH
        areas = [rectangle(rail, height, Point(x, height / 2)) for x in (rail / 2, width - rail / 2)]
        why = "the rails of the rack (IEC 60297-3-100)"
    else:
        units = int(size[language.SUBRACK] or "3")
        strip = (height - (units * RACK_UNIT - language.SUBRACK_OPEN)) / 2
        areas = [rectangle(width, strip, Point(width / 2, y)) for y in (strip / 2, height - strip / 2)]
        why = "the rails of the subrack (IEC 60297-3-101)"
    return tuple(_zone(area, why, panel) for area in areas)


def _zone(area: Contour, why: str, panel: Fields) -> Keepout:
    return Keepout(contour=area, side=Side.REAR, why=why, where=panel.where(language.SIZE))
