"""What each station of the workshop does to a panel, in the order that this panel's finish asks for.

A station that has nothing to do is absent. Sizes are those that the station can measure: cut sizes before the coat,
finished sizes after it. Hardware is pressed before or after the coat as the kind of coat asks.
"""

from __future__ import annotations

from typing import Final

from panelart.marking.separation import Separations
from panelart.model.layout import Layout
from panelart.sheets.stations.assembling import ASSEMBLE
from panelart.sheets.stations.bending import BEND
from panelart.sheets.stations.coating import COAT
from panelart.sheets.stations.countersinking import COUNTERSINK
from panelart.sheets.stations.cutting import CUT
from panelart.sheets.stations.deburring import DEBURR
from panelart.sheets.stations.figures import deviation
from panelart.sheets.stations.hardware import PRESS, PRESS_COATED, PRESS_FLAT
from panelart.sheets.stations.inspecting import INSPECT
from panelart.sheets.stations.marking import MARK
from panelart.sheets.stations.masking import MASK
from panelart.sheets.stations.packing import PACK
from panelart.sheets.stations.station import Given, Section, Station, View
from panelart.sheets.stations.welding import WELD

__all__ = ["STATIONS", "Given", "Section", "Station", "View", "deviation", "stations"]

STATIONS: Final = (
    CUT,
    DEBURR,
    COUNTERSINK,
    PRESS_FLAT,
    BEND,
    WELD,
    PRESS,
    MASK,
    COAT,
    PRESS_COATED,
    INSPECT,
    MARK,
    ASSEMBLE,
    PACK,
)
"""All stations in the order of the work."""


def stations(layout: Layout, plates: Separations | None = None) -> tuple[Section, ...]:
    """What each station is told that has something to do, in order; `plates` where they are parted already."""
    given = Given(layout=layout, plates=plates)
    return tuple(station.told(given) for station in STATIONS if station.there(given))
