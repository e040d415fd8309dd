"""What circuit a part carries, what it is rated for, and whether a life hangs on it."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.reprs import brief


class CircuitKind(Enum):
    """The kinds of circuit, in the words of IEC 61140 and IEC 61010-1."""

    MAINS = "mains"
    HAZARDOUS = "hazardous"  # hazardous live, though not the mains: anode supplies, insulation testers
    LOW_VOLTAGE = "extra-low-voltage"
    SIGNAL = "signal"
    PROTECTIVE_EARTH = "protective-earth"
    FUNCTIONAL_EARTH = "functional-earth"
    MEASURING = "measuring"
    CONTACTS = "contacts"  # a switch: what its contacts carry is decided by the wiring, up to their rating
    NONE = "none"


class SafetyFunction(Enum):
    """What a part does when something is wrong."""

    EMERGENCY_STOP = "emergency-stop"
    DISCONNECT = "disconnect"
    OVERCURRENT = "overcurrent"  # fuses and breakers


class Circuit(Struct, frozen=True, kw_only=True):
    """The circuit of a part; `volts`, `amps` and `watts` are its rating, None where that is not known.

    `category` is the measurement category of IEC 61010-2-030, `CAT II` to `CAT IV`, '' for none.
    """

    kind: CircuitKind
    volts: Figure | None = None
    amps: Figure | None = None
    watts: Figure | None = None
    category: str = ""
    safety: SafetyFunction | None = None

    def __repr__(self) -> str:
        return brief("Circuit", self.kind.value)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure of the rating with its source."""
        return tuple(figure for figure in (self.volts, self.amps, self.watts) if figure is not None)
