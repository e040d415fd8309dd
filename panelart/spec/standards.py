"""Panels whose size a standard gives, for racks and for modules in a subrack, with what is kept free behind them."""

from __future__ import annotations

from panelart.geometry import Contour, Point, rectangle
from panelart.messages import spec as said
from panelart.model.panel import Keepout, Side
from panelart.spec import language
from panelart.units import HORIZONTAL_PITCH, RACK_UNIT


def standard_size(size: language.RackSize | language.SubrackSize) -> tuple[float, float] | None:
    """Width and height in mm of a size by standard; None when its problem has been told."""
    if isinstance(size, language.RackSize):
        units = size.rack
        return None if units is None else (language.RACK_WIDTH, round(units * RACK_UNIT - language.RACK_LOSS, 6))
    high, pitches = size.subrack, size.hp
    if high is None or pitches is None:
        return None
    width = round(pitches * HORIZONTAL_PITCH - language.PITCH_LOSS, 6)
    return width, round(int(high) * RACK_UNIT - language.SUBRACK_LOSS, 6)


def reserved(panel: language.Panel, width: float, height: float) -> tuple[Keepout, ...]:
    """What the rails take behind a panel of standard size, on a face of this size."""
    size = panel.size
    if not isinstance(size, language.RackSize | language.SubrackSize):
        return ()
    if isinstance(size, language.RackSize):
        rail = language.RAIL_WIDTH
        areas = [rectangle(rail, height, Point(x, height / 2)) for x in (rail / 2, width - rail / 2)]
        why = str(said.rails_of_rack())
    else:
        units = int(size.subrack or "3")
        strip = (height - (units * RACK_UNIT - language.SUBRACK_OPEN)) / 2
        areas = [rectangle(width, strip, Point(width / 2, y)) for y in (strip / 2, height - strip / 2)]
        why = str(said.rails_of_subrack())
    return tuple(_zone(area, why, panel) for area in areas)


def _zone(area: Contour, why: str, panel: language.Panel) -> Keepout:
    return Keepout(contour=area, side=Side.REAR, why=why, where=panel.where(language.Panel.size))
