"""What a part is: the openings it needs, what it hides in front and behind, and where each number comes from."""

from __future__ import annotations

from enum import Enum
from typing import Final

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.geometry import ORIGIN, Contour, Point
from panelart.model.circuit import Circuit
from panelart.model.fasteners import Board, Fastener
from panelart.model.look import Look
from panelart.model.motion import STILL, Motion
from panelart.reprs import brief, counted, mm, size

COUNTERSINK_DIAMETER: Final = "countersink diameter"
COUNTERSINK_ANGLE: Final = "countersink angle"
EDGE_DISTANCE: Final = "minimum distance to edge"
BARE_METAL: Final = "minimum bare metal behind"
PITCH_ACROSS: Final = "minimum horizontal pitch"
PITCH_UP: Final = "minimum vertical pitch"
"""Names of figures that are named in words, as facts are."""


class Role(Enum):
    """What an opening is for."""

    BODY = "body"  # the part itself passes
    FIXING = "fixing"  # a screw, rivet or stud
    LOCATING = "locating"  # a pin or tab that stops the part from turning
    APERTURE = "aperture"  # light, air, a window: nothing need pass


class Countersink(Struct, frozen=True, kw_only=True):
    """A cone cut round a hole for a head that ends flush.

    `diameter` is that of the finished cone at the face, which is the head's theoretical (sharp) diameter and not
    the smaller one the eye sees; `angle` is the full angle of the cone in degrees; `from_rear` that it is cut from
    behind.
    """

    diameter: float
    angle: float = 90.0
    from_rear: bool = False


class Opening(Struct, frozen=True, kw_only=True):
    """One hole of a component, at finished size, in the component's own frame.

    `passes` is the size of what must go through it (the bushing, the body, the screw), None where nothing must.
    `countersink` is cut about the middle of the hole.
    """

    role: Role
    contour: Contour
    figures: tuple[Figure, ...]
    passes: Contour | None = None
    countersink: Countersink | None = None

    def __repr__(self) -> str:
        return brief("Opening", self.role.value, size(self.contour.bounds.width, self.contour.bounds.height))


class EnvelopeRole(Enum):
    """What the hand or a tool does with an envelope."""

    BODY = "body"  # nothing: flanges, bezels, housings
    ACTUATOR = "actuator"  # it is operated: lever, handle, cap, mushroom, wheel
    PLUG = "plug"  # the mating plug with its latch and cable
    NUT = "nut"  # a spanner goes over it


class Envelope(Struct, frozen=True, kw_only=True):
    """A volume that a component takes: a contour on the face and how far it stands off it, in mm.

    `covers` is true for what hides the face from the eye; a lever sweeps an area but hides little of it. `colour` is
    `#RRGGBB` where one belongs to the part, as to an emergency stop, and '' where buyers choose. `travel` is how far
    what is in it moves along its longer side, in mm; 0 where it does not, or it is not known. `sweeps` is the diameter
    in mm of the circle that a handle describes as it turns; 0 where it describes none. `cable` is the radius in mm
    that the cable of a plug needs to bend, `cable_way` where it leaves (up, down, left, right), '' for straight out.
    """

    what: str
    contour: Contour
    height: float
    figures: tuple[Figure, ...]
    covers: bool = True
    colour: str = ""
    travel: float = 0.0
    role: EnvelopeRole = EnvelopeRole.BODY
    sweeps: float = 0.0
    cable: float = 0.0
    cable_way: str = ""

    def __repr__(self) -> str:
        return brief(
            "Envelope", self.what, size(self.contour.bounds.width, self.contour.bounds.height), mm(self.height)
        )


class Fastening(Enum):
    """How hardware is made one with the sheet."""

    PRESSED = "pressed"  # self-clinching nuts, studs, standoffs
    RIVETED = "riveted"  # rivets and rivet nuts, set after the finish
    WELDED = "welded"  # weld studs, always before the finish
    SCREWED = "screwed"  # screws with nuts, earth studs: fitted when the panel is assembled


class Hardware(Struct, frozen=True, kw_only=True):
    """What is fastened into the sheet for good, or needs bare metal round it.

    `thread` is its designation, '' for none; `edge` the least distance in mm from its centre to an edge; `pad` the
    diameter in mm of the face behind it that must stay bare to conduct, 0 for none.
    """

    fastening: Fastening
    thread: str = ""
    edge: float | None = None
    pad: float = 0.0


class Shaft(Struct, frozen=True, kw_only=True):
    """A turned shaft that takes a knob; `length` is above the face, in mm."""

    diameter: float
    length: float


class Component(Struct, frozen=True, kw_only=True):
    """A catalogue entry: what a part is, before it is put anywhere.

    `front` envelopes stand in front of the face, `rear` ones behind it (height is then depth).
    `thickness` is the least and most sheet it fits, in mm. `positions` names the directions that its positions
    may be given under, in the component's own frame (up, down, left, right, centre). `legend_origin` is what its
    legend is centred on. `latch` names the side of its plug on which a finger presses the
    latch, in the same directions, '' for none. `changed_in` is the part file that changes figures of the part that the
    catalogue has under this name, '' for none.
    """

    name: str
    title: str
    family: str
    openings: tuple[Opening, ...]
    front: tuple[Envelope, ...]
    rear: tuple[Envelope, ...]
    thickness: tuple[float, float] | None = None
    standard: str = ""
    shaft: Shaft | None = None
    motion: Motion = STILL
    positions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    note: str = ""
    legend_origin: Point = ORIGIN
    hardware: Hardware | None = None
    latch: str = ""
    circuit: Circuit | None = None
    look: Look | None = None
    fasteners: tuple[Fastener, ...] = ()
    board: Board | None = None
    mass: Figure | None = None
    changed_in: str = ""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every dimension with its source, openings first."""
        groups: tuple[Opening | Envelope, ...] = (*self.openings, *self.front, *self.rear)
        return tuple(figure for group in groups for figure in group.figures)

    @property
    def pitch(self) -> tuple[Figure, Figure] | None:
        """The minimum distances to its like, across and up; None where they are not both known."""
        named = {figure.name: figure for figure in self.figures if figure.name in (PITCH_ACROSS, PITCH_UP)}
        return (named[PITCH_ACROSS], named[PITCH_UP]) if len(named) == 2 else None

    @property
    def held(self) -> bool:
        """Whether the body cannot be turned in its hole: a lug, a key or a flat holds it."""
        if (
            self.motion.phase is not None
            or self.motion.tab is not None
            or any(opening.role is Role.LOCATING for opening in self.openings)
        ):
            return True
        return any(opening.role is Role.BODY and opening.contour.circle is None for opening in self.openings)

    @property
    def actuators(self) -> tuple[Envelope, ...]:
        """What of it the hand operates."""
        return tuple(envelope for envelope in self.front if envelope.role is EnvelopeRole.ACTUATOR)

    def __repr__(self) -> str:
        return brief("Component", repr(self.name), repr(self.title), counted(len(self.openings), "opening"))
