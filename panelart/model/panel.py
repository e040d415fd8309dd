"""The panel as the designer asked for it: resolved, in millimetres, before a hole is cut or a legend set."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from enum import Enum
from functools import cached_property
from typing import Final

from msgspec import field
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.figure import Figure
from panelart.geometry import ORIGIN, Contour, Point, Vector
from panelart.lettering.look import PLAIN_LOOK, Look
from panelart.lettering.outline import Shape
from panelart.lettering.spans import Span
from panelart.model.component import Component
from panelart.model.making import STANDARD, Making
from panelart.model.metal import Bending, Flange
from panelart.model.places import NOWHERE, Places
from panelart.model.printing import Printing
from panelart.model.process_colours import process_plate
from panelart.model.variables import CodeRequest, Template, Variable
from panelart.processes.process import Process
from panelart.reprs import brief, counted, mm, size, some, spot
from panelart.source.facts import NO_FACTS, Facts

_TEXTURE = ("textur", "structur", "struktur", "hammer", "wrinkle", "crinkle")
RESERVED_PLATES = frozenset(
    {"all", "none", "cut", "bend", "countersink", "mask", "base", "varnish", "adhesive", "ground"}
)
"""Plate names, in small letters, that no ink may have: All and None mean something else in a PDF (ISO 32000-1,
8.6.6.4), the others are ours."""


def file_safe(name: str) -> str:
    """A name with only letters, digits, full stops, hyphens and underscores; others by their code points: `a-2f-b`."""
    return "".join(letter if letter.isalnum() or letter in ".-_" else f"-{ord(letter):x}-" for letter in name).strip(
        "-."
    )


class Ink(Struct, frozen=True, kw_only=True):
    """A colour laid down; `colour` is `#RRGGBB` as it shows on screen."""

    name: str
    colour: str

    @property
    def plate(self) -> str:
        """The name of its plate: its own, and for a process colour that of the press (`black` is on Black)."""
        return process_plate(self.name) or self.name

    @property
    def slug(self) -> str:
        """The name as layers and files carry it: `Signal Red` as `signal-red`."""
        return "-".join(self.name.casefold().replace("-", " ").split())

    @property
    def file_slug(self) -> str:
        """The same where only letters, digits, full stops and hyphens may stand: file names, layers of a DXF.

        A name that has other characters is told apart by the code points of these: `a/b` is `a-2f-b`.
        """
        return file_safe(self.slug)


class Sheet(Struct, frozen=True, kw_only=True):
    """The metal."""

    material: str
    thickness: float


class Allowance(Enum):
    """Who allows for the coat when holes and outline are cut."""

    DRAWING = "drawing"  # the files carry cut sizes that the coat brings to the finished sizes
    SHOP = "shop"  # the files carry finished sizes; the shop allows for the coat itself
    NONE = "none"  # the files carry the sizes asked for and nobody allows: the coat makes holes smaller


class Coat(Struct, frozen=True, kw_only=True):
    """The finish: `thickness` is the usual one on one surface in mm, 0 for bare metal.

    `minimum` and `maximum` are the ends of its range, None where only the usual thickness is known. `growth` is the
    share of the thickness above the surface as it was: 1 for what is laid on, less where the metal itself turns into
    the coat. `rear` says whether the rear face is coated too; the walls of openings always are.
    """

    kind: str
    thickness: float
    colour: str
    name: str = ""
    minimum: float | None = None
    maximum: float | None = None
    growth: float = 1.0
    rear: bool = True
    allowance: Allowance = Allowance.DRAWING

    @property
    def textured(self) -> bool:
        """Whether its name speaks of a texture; the spec has no other word for it."""
        return any(word in self.name.lower() for word in _TEXTURE)

    @property
    def build(self) -> float:
        """How far a surface moves outwards, in mm."""
        return self.thickness * self.growth

    @property
    def build_minimum(self) -> float:
        """The same where the coat is thinnest."""
        return self.growth * (self.thickness if self.minimum is None else self.minimum)

    @property
    def build_maximum(self) -> float:
        """The same where the coat is thickest."""
        return self.growth * (self.thickness if self.maximum is None else self.maximum)

    def __repr__(self) -> str:
        return brief("Coat", self.kind, f"{mm(self.thickness)} mm", self.colour, repr(self.name))


class Side(Enum):
    """Which face of the panel."""

    FRONT = "front"
    REAR = "rear"


class Place(Enum):
    """Where a legend stands beside its part; the value is what the spec writes."""

    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"
    ABOVE_LEFT = "above-left"
    ABOVE_RIGHT = "above-right"
    BELOW_LEFT = "below-left"
    BELOW_RIGHT = "below-right"


class Anchor(Enum):
    """Which end of words stands at their place, and which end of their lines is in line."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Case(Enum):
    """How legends are spelled out."""

    AS_WRITTEN = "as-written"
    UPPER = "upper"
    SMALL = "small-capitals"


class Style(Struct, frozen=True, kw_only=True):
    """How a kind of legend is lettered; `cap_height` in mm is that of the drawn capitals."""

    font: str
    cap_height: float
    case: Case
    ink: Ink
    look: Look = PLAIN_LOOK

    def __repr__(self) -> str:
        return brief("Style", self.font, f"{mm(self.cap_height)} mm", self.case.value, self.ink.name)


class Placing(Struct, frozen=True, kw_only=True):
    """What a place for a legend costs. Whole numbers; the panel's legends together are to cost least.

    Tiers that never outvote each other: legends left out first of all, groups that come apart, then `corner`, `parted`,
    `tight`, `narrow`, `hyphenated`, `staggered`, `between` and `leader`, which are turned to only where a legend has no
    other place, then the looks, which is all the rest.
    `clearance` is the bare face in mm between a legend and whatever hides the face, on top of the register error;
    `gap` the white between a part and its legend, and `white` the least white between two legends, both over the
    height of the capitals; `beside` the least white between two legends side by side on one line.
    """

    above: int = 0
    below: int = 8
    right: int = 14
    left: int = 18
    wrap: int = 3
    slide: int = 3
    overhang: int = 5
    step_off: int = 1
    ambiguous: int = 6
    other_side: int = 10
    other_line: int = 8
    other_form: int = 14
    spacing: int = 2
    group_side: int = 6
    balance: int = 1
    moved: int = 2
    corner: int = 1
    parted: int = 1
    tight: int = 2
    narrow: int = 3
    hyphenated: int = 4
    leader: int = 6
    between: int = 5
    staggered: int = 5
    clearance: float = 0.5
    gap: float = 0.5
    white: float = 0.35
    beside: float = 1.0

    def __repr__(self) -> str:
        return brief("Placing", f"clearance {mm(self.clearance)} mm", f"gap {mm(self.gap)}")


class MarkSizes(Enum):
    """Whose sizes the marks of scales have; the value is what the spec writes."""

    LETTERING = "lettering"
    GRETHER_BAKER = "grether-baker"
    MIL_STD = "mil-std-1472"
    GRANDJEAN = "grandjean"


class Marking(Struct, frozen=True, kw_only=True):
    """How legends get on the panel. `styles` has one Style for each of title, name, position, numeral, note.

    `cutter` is the width of an engraver's cutter in mm, where the spec gives it. `live_text` asks for letters as text
    with embedded fonts in the artwork, and not as outlines. `printing` is how it is made ready for its process.
    `mark_sizes` says by what the marks of scales are sized.
    """

    process: Process
    inks: tuple[Ink, ...]
    styles: dict[str, Style]
    viewing_distance: float
    register: float
    placing: Placing = field(default_factory=Placing)
    live_text: bool = False
    cutter: float | None = None
    printing: Printing = field(default_factory=Printing)
    mark_sizes: MarkSizes = MarkSizes.LETTERING

    def __repr__(self) -> str:
        return brief("Marking", repr(self.process.name), counted(len(self.inks), "ink"))


class Knob(Struct, frozen=True, kw_only=True):
    """Fitted over a shaft; `height` is the top of the knob above the face, `name` that in the catalogue, if any."""

    diameter: float
    height: float
    name: str = ""


class LegendRequest(Struct, frozen=True, kw_only=True):
    """The words asked for beside a part, and where the designer wants them, if they said.

    `align` lines up one end of words above or below with the part's; `offset` moves the words from where they would
    stand centred; `at` is the place of the base line's `align` point (the middle by default) on the panel, which
    leaves nothing to choose. `guide` is the length in mm of a line from the part to the words. `spans` are the
    stretches of the text that are lettered otherwise; `font` and `look` are this legend's own. `template` is what
    varies from piece to piece; the text then has the examples. `more` are further texts that stand under this one as
    one block, each in its own style; they have no place of their own.
    """

    text: str
    style: str
    where: Where
    place: Place | None = None
    cap_height: float | None = None
    ink: Ink | None = None
    align: Anchor | None = None
    offset: Vector | None = None
    at: Point | None = None
    guide: float | None = None
    spans: tuple[Span, ...] = ()
    font: str | None = None
    look: Look | None = None
    template: Template | None = None
    more: tuple[LegendRequest, ...] = ()

    @property
    def texts(self) -> tuple[LegendRequest, ...]:
        """The texts of the block from the top, this one first."""
        return (self, *self.more)

    @property
    def whole(self) -> str:
        """The words of all texts of the block."""
        return " ".join(one.text for one in self.texts)

    def each(self, change: Callable[[LegendRequest], LegendRequest]) -> LegendRequest:
        """The block with every text of it changed."""
        return replace(change(self), more=tuple(change(one) for one in self.more))

    def __repr__(self) -> str:
        return brief("LegendRequest", *(repr(one.text) for one in self.texts), self.style)


class Law(Enum):
    """How values are spread over a scale; the value is what the spec writes."""

    LINEAR = "linear"
    LOGARITHMIC = "logarithmic"
    DECIBEL = "decibel"  # dB of what is linear in voltage
    AUDIO = "audio"  # a table of two straight lines, made by the reader
    SQUARE = "square"
    SQUARE_ROOT = "square-root"
    VU = "vu"
    DIGITAL_PEAK = "iec-60268-18"
    PPM_I = "iec-60268-10-i"
    PPM_NORDIC = "iec-60268-10-nordic"
    PPM_IIA = "iec-60268-10-iia"
    PPM_IIB = "iec-60268-10-iib"
    FADER = "fader"
    FADER_POWER = "fader-power"


class Reading(Enum):
    """How the numerals of a dial stand: level, along their circle, or along their ray."""

    UPRIGHT = "upright"
    TANGENTIAL = "tangential"
    RADIAL = "radial"


class Zone(Struct, frozen=True, kw_only=True):
    """A band of colour beside the marks, from one value to another."""

    low: float
    high: float
    ink: Ink


class StraightScale(Struct, frozen=True, kw_only=True):
    """What makes a scale straight: its length in mm, and on which side of its part it stands.

    `length_of_part` is the figure of the part that the length is from, None where the spec states it; `cursor` the
    width in mm of what moves along it in a slot, None where nothing does or it is not known. Right and left
    of the part values grow upward, above and below it to the right (MIL-STD-1472E, 5.2.3.3.1).
    """

    length: float
    side: Place
    length_of_part: Figure | None = None
    cursor: float | None = None


class Carrier(Enum):
    """What a scale that turns is on."""

    SKIRT = "skirt"  # of the knob
    DISC = "disc"  # behind the panel


class TurningScale(Struct, frozen=True, kw_only=True):
    """What makes a scale turn with the knob, while an index mark stands on the panel.

    `index` is the direction of the mark from the shaft, in degrees counter-clockwise from the x axis. The scale is on a
    ring between the diameters `inner` and `diameter`, in mm. One on a disc is seen through a `window`, its size across
    and along the radius, which ends `window_end` mm from the shaft; the disc's rear is `depth` mm behind the panel. The
    rim of a skirt is `height` mm above the face, None where only the top of the knob is known. A
    `vernier` is the step of the scale in degrees that one on the panel divides by ten, None where there is none.
    """

    carrier: Carrier
    index: float
    diameter: float
    inner: float
    window: tuple[float, float] | None = None
    window_end: float = 0.0
    depth: float = 0.0
    height: float | None = None
    vernier: float | None = None

    @property
    def outer(self) -> float:
        """How far from the shaft its marks reach, mm."""
        return self.diameter / 2 - RIM if self.window is None else self.window_end - RIM


RIM: Final = 0.5
"""White between the marks of a scale that turns and the rim of its skirt, or the edge of its window, mm. Common
practice."""


def over(value: float, multiplier: float) -> float:
    """A value over a power of ten, to twelve digits: what division is off by is none of its decimals."""
    return float(f"{value / multiplier:.12g}")


class Scale(Struct, frozen=True, kw_only=True):
    """Graduations round a dial, or along a straight line when `straight` is given.

    Values run from `low` to `high` over `sweep` degrees, 0 for a straight scale, and from `high` to `low` on a
    `falling` one; `sweep_of_part` is the figure of the part that they are from, None where the spec states them;
    `start_deg` is the direction of where the scale begins seen from the front, counter-clockwise from the x axis;
    the scale runs clockwise unless told otherwise. Long marks stand at every `major` step or at the values in
    `marks`, middle ones at every `intermediate` and short ones at every `minor` step; a logarithmic scale has its
    marks at the digits of each decade. One that is `subdivided` has as many middle and short ones between the long
    ones as an eye can part. `formula` is a law of one's own, in the value v; `table` pairs values with the share of
    the sweep that they stand at. Numerals stand at the long marks, or at the values in `numerals`; `words` and
    symbols (`signs`) stand in their place at single values, and `braced` has for a word the stretches that the spec has
    in braces; numbers above zero have a plus on a `signed` scale. Numbers are lettered over the `multiplier`, which the
    `unit` has by its prefix or before it.
    `detents` are marked by dots. A `wedge` grows from the low end to the high end. `rest` stands where the travel
    begins, below the lowest value. An outer scale that `shares_arc` has its marks on the arc of the inner one,
    which then stands inside. One that is `turning` is on the knob or on a disc: `clockwise` is then the way in which
    the knob is turned from where it begins to where it ends.
    """

    low: float
    high: float
    major: float | None
    minor: float | None
    sweep: float
    start_deg: float
    unit: str
    where: Where
    sweep_of_part: Figure | None = None
    numerals: tuple[float, ...] | None = None
    decimals: int = 0
    law: Law = Law.LINEAR
    table: tuple[tuple[float, float], ...] = ()
    marks: tuple[float, ...] = ()
    intermediate: float | None = None
    clockwise: bool = True
    reading: Reading = Reading.UPRIGHT
    words: tuple[tuple[float, str], ...] = ()
    braced: tuple[tuple[str, tuple[Span, ...]], ...] = ()
    signs: tuple[tuple[float, LegendRequest], ...] = ()
    zones: tuple[Zone, ...] = ()
    detents: tuple[float, ...] = ()
    wedge: bool = False
    straight: StraightScale | None = None
    falling: bool = False
    signed: bool = False
    multiplier: float = 1.0
    subdivided: bool = False
    formula: str = ""
    rest: str = ""
    shares_arc: bool = False
    turning: TurningScale | None = None

    def number(self, value: float) -> float:
        """The number that is lettered at a value."""
        return value if self.multiplier == 1.0 else over(value, self.multiplier)

    def spans(self, word: str) -> tuple[Span, ...]:
        """The stretches of a word that the spec has in braces."""
        return dict(self.braced).get(word, ())

    def __repr__(self) -> str:
        return brief("Scale", f"{mm(self.low)} to {mm(self.high)}", repr(self.unit), self.law.value)


class Position(Struct, frozen=True, kw_only=True):
    """The name of one position of a control.

    `direction` is up, down, left, right or centre in the part's own frame; for a turning control it is the angle on
    the panel in degrees instead, counter-clockwise from the x axis. `unit` is that of the range it is in, lettered once
    with a bracket over neighbours that have the same.
    """

    direction: str | float
    request: LegendRequest
    unit: LegendRequest | None = None

    @property
    def text(self) -> str:
        """Its name with the unit of its range: 50 mV."""
        return self.request.text if self.unit is None else f"{self.request.text} {self.unit.text}"

    def __repr__(self) -> str:
        return brief("Position", self.direction, repr(self.request.text))


class Part(Struct, frozen=True, kw_only=True):
    """A component put on the panel: its centre at `at`, turned by `turn` degrees counter-clockwise.

    A control with two shafts, one in the other, has an `outer_scale` outside its `scale`. `pin_1` leads from the
    centre to the first pin of a connector that is not turned. `fixed` parts stay where they are when others are moved.
    `facts` are what the spec says of it, place and turn resolved; a place is measured from the datum there.
    """

    ref: str
    component: Component
    at: Point
    where: Where
    turn: float = 0.0
    legend: LegendRequest | None = None
    positions: tuple[Position, ...] = ()
    scale: Scale | None = None
    knob: Knob | None = None
    outer_scale: Scale | None = None
    pin_1: Vector | None = None
    fixed: bool = False
    facts: Facts = NO_FACTS

    @property
    def names(self) -> tuple[LegendRequest, ...]:
        """The texts of its legend from the top; none where it has no legend."""
        return () if self.legend is None else self.legend.texts

    def on_panel(self, contour: Contour) -> Contour:
        """A contour of the component's own frame, where it stands on the panel."""
        turned = contour.turned(self.turn, Point(0.0, 0.0)) if self.turn else contour
        return turned.moved(Vector(self.at.x, self.at.y))

    @property
    def board_origin(self) -> Point | None:
        """Where the origin of its footprint lies behind the panel; None for a part that is on no board.

        Of a board at right angles to the panel it is a point of the board's surface.
        """
        board = self.component.board
        if board is None:
            return None
        x, y = board.offset
        return self.at.moved(Vector(-x.value, -y.value).turned(self.turn))

    def __repr__(self) -> str:
        return brief(
            "Part",
            repr(self.ref),
            repr(self.component.name),
            spot(*self.at),
            f"{mm(self.turn)} deg" if self.turn else "",
        )


class FrameForm(Enum):
    """How parts that work together are held together."""

    FRAME = "frame"
    BRACKET = "bracket"
    FIELD = "field"


class FrameSide(Enum):
    """The side of a frame with the title, and the side that a bracket stands on."""

    TOP = "top"
    BOTTOM = "bottom"


class FrameSize(Enum):
    """Whether frames with like parts in like places are of one size."""

    ALIKE = "alike"
    OWN = "own"


class Ticks(Enum):
    """Where a bracket has ticks."""

    ENDS = "ends"
    MEMBERS = "members"


class FrameRequest(Struct, frozen=True, kw_only=True):
    """A line or field asked for round parts that work together, or beside them; `corner` is the radius of its corners.

    Without an `ink` it is that of its title.
    """

    around: tuple[str, ...]
    title: LegendRequest | None
    where: Where
    margin: float
    form: FrameForm = FrameForm.FRAME
    side: FrameSide = FrameSide.TOP
    corner: float = 2.0
    ticks: Ticks = Ticks.ENDS
    size: FrameSize = FrameSize.ALIKE
    ink: Ink | None = None

    @property
    def closed(self) -> bool:
        """Whether it goes all round its parts."""
        return self.form is not FrameForm.BRACKET

    def __repr__(self) -> str:
        return brief(
            "FrameRequest", self.form.value, "" if self.title is None else repr(self.title.text), *some(self.around)
        )


class ArcLine(Struct, frozen=True, kw_only=True):
    """A base line round a circle: its radius in mm, and whether the feet of the letters point to the centre."""

    radius: float
    feet_inward: bool


class FreeText(Struct, frozen=True, kw_only=True):
    """Words at a fixed place: the base line's anchor point at `at`, turned by `turn` degrees.

    Round an arc `at` is its centre, and `turn` the direction in which the middle of the words lies. `of` is the ref of
    the part that the words belong to, '' for none.
    """

    request: LegendRequest
    at: Point
    anchor: Anchor
    turn: float = 0.0
    arc: ArcLine | None = None
    of: str = ""

    def __repr__(self) -> str:
        return brief("FreeText", repr(self.request.text), spot(*self.at))


class Arrow(Enum):
    """Which ends of a line have an arrow."""

    NONE = "none"
    END = "end"
    BOTH = "both"


class FlowLine(Struct, frozen=True, kw_only=True):
    """A line asked for from one part to another, as flow goes; its way is found, level and upright only.

    `leave` and `enter` are the sides of the parts where it begins and ends, None for the best. `more_starts` and
    `more_ends` are further parts where it begins and ends, which branches of it lead from and to.
    """

    start: str
    end: str
    arrow: Arrow
    width: float | None
    ink: Ink
    where: Where
    leave: Place | None = None
    enter: Place | None = None
    more_starts: tuple[str, ...] = ()
    more_ends: tuple[str, ...] = ()

    @property
    def starts(self) -> tuple[str, ...]:
        """Every part where it begins."""
        return (self.start, *self.more_starts)

    @property
    def ends(self) -> tuple[str, ...]:
        """Every part where it ends."""
        return (self.end, *self.more_ends)

    def __repr__(self) -> str:
        return brief("FlowLine", *map(repr, (*self.starts, *self.ends)))


class Art(Struct, frozen=True, kw_only=True):
    """A shape of the designer's own at a fixed place: stroked `width` mm wide, or filled when that is None."""

    what: str
    shape: Shape
    width: float | None
    ink: Ink
    where: Where
    code: CodeRequest | None = None

    def __repr__(self) -> str:
        return brief("Art", self.what, self.ink.name, counted(len(self.shape), "loop"))


class Keepout(Struct, frozen=True, kw_only=True):
    """An area where nothing may be: no legend and no part in front, no part behind."""

    contour: Contour
    side: Side
    why: str
    where: Where

    def __repr__(self) -> str:
        return brief(
            "Keepout", self.side.value, repr(self.why), size(self.contour.bounds.width, self.contour.bounds.height)
        )


class Mask(Struct, frozen=True, kw_only=True):
    """An area that is kept bare when the panel is coated: a bonding pad, a gasket's land."""

    contour: Contour
    side: Side
    why: str
    where: Where

    def __repr__(self) -> str:
        return brief(
            "Mask", self.side.value, repr(self.why), size(self.contour.bounds.width, self.contour.bounds.height)
        )


class CircuitBoard(Struct, frozen=True, kw_only=True):
    """A circuit board behind the panel, with the parts on it.

    `gap` is from its surface to the rear face of the panel in mm, None where the parts decide it. `spacers` are heights
    that parts stand on, `heights` those that parts need from the board's surface to the panel, each by ref in mm.
    """

    name: str
    refs: tuple[str, ...]
    where: Where
    gap: float | None = None
    spacers: tuple[tuple[str, float], ...] = ()
    heights: tuple[tuple[str, float], ...] = ()

    def __repr__(self) -> str:
        return brief("CircuitBoard", repr(self.name), *some(self.refs))


class Waiver(Struct, frozen=True, kw_only=True):
    """A finding accepted by name, with the reason; `refs` empty means on the panel as a whole.

    `until` is the last day it holds (YYYY-MM-DD, '' for good), `by` who accepted it.
    """

    rule: str
    refs: tuple[str, ...]
    why: str
    where: Where
    until: str = ""
    by: str = ""

    def __repr__(self) -> str:
        return brief("Waiver", self.rule, repr(self.why), *some(self.refs))


class Hand(Enum):
    """The hand that works the controls."""

    BARE = "bare"
    GLOVED = "gloved"


EYES_APART: Final = 63.0
"""Millimetres between the pupils: the mean of adults; nearly all have 50 to 75.

Source: Dodgson, Variation and extrema of human interpupillary distance, Proc. SPIE 5291 (2004).
"""


class EyeRange(Struct, frozen=True, kw_only=True):
    """Where the panel is seen from.

    `distance` is level from the eye to the middle of the panel, mm; `height` (lowest, highest) above and `aside`
    (leftmost, rightmost) right of that middle, mm; `lean_deg` how far the panel's top leans back. The two eyes are
    `apart` from each other, mm, level and along the panel, the place given midway between them; 0 is one eye.
    """

    distance: float
    height: tuple[float, float]
    aside: tuple[float, float]
    lean_deg: float
    where: Where
    apart: float = 0.0

    def off_the_face(self, height: float) -> float:
        """How far an eye at a height is off the plane of the face, in mm; negative: behind it."""
        lean = math.radians(self.lean_deg)
        return self.distance * math.cos(lean) + height * math.sin(lean)


class Sight(Struct, frozen=True, kw_only=True):
    """How well the panel is read: the reader's eyes and the light.

    `acuity` is decimal, with both eyes and glasses as worn, at the light of a chart; `age` in years; `illuminance` on
    the face in lux. The defaults: the acuity that DIN 1450 sizes lettering for, the light of EN 12464-1 for control
    stations (from memory), and an age at which most people still work.
    """

    acuity: float = 0.7
    age: float = 60.0
    illuminance: float = 500.0


class Operator(Struct, frozen=True, kw_only=True):
    """Who works at the panel; None where the spec does not say."""

    eye: EyeRange | None = None
    hand: Hand | None = None
    sight: Sight = Sight()


NOBODY: Final = Operator()
"""No operator is described."""


class HouseFile(Struct, frozen=True, kw_only=True):
    """A file with limits and severities of the designer's house, not yet read: its name, and what is in it."""

    file: str
    data: bytes

    def __repr__(self) -> str:
        return brief("HouseFile", repr(self.file), counted(len(self.data), "byte"))


class Untranslated(Struct, frozen=True, kw_only=True):
    """A text for which a language of the panel has no word."""

    language: str
    text: str
    where: Where

    def __repr__(self) -> str:
        return brief("Untranslated", self.language, repr(self.text))


class UnitOrWord(Struct, frozen=True, kw_only=True):
    """A stretch of a text that may be a unit or a word, as it is written, where no case changed it for that reason."""

    written: str
    where: Where

    def __repr__(self) -> str:
        return brief("UnitOrWord", repr(self.written))


class Opposite(Struct, frozen=True, kw_only=True):
    """The panel at the other end of a box: `depth` mm between the inside faces, `clearance` kept between bodies.

    It is seen from its own outside, so that its left is this panel's right; middles face each other, lower edges are
    level.
    """

    name: str
    panel: Panel
    depth: float
    clearance: float
    where: Where

    def __repr__(self) -> str:
        return brief("Opposite", repr(self.name), f"{mm(self.depth)} mm")


class Panel(Struct, frozen=True, kw_only=True, dict=True):
    """One flat face, seen from the front, at finished size; the lower-left corner is (0, 0).

    `datum` is where the designer measures from, in the same frame. `depth_behind` is the room behind the face in
    mm, `depth_in_front` that before it, None where it is not known. `bending` is how flanges are bent, None where
    there are none; each edge has at most one flange. `reserved` is what a standard keeps free
    behind the panel. `fingerprint` is short for the spec and all files it names, as read. `drawn_from` says in words
    which drawing the outline is from, '' for none; `over_drawing` that its origin is the datum. `opposite` is the panel
    at the other end of its box, if any.
    `revised` is the day of the revision (YYYY-MM-DD), '' where the spec has none.
    `language` is the one that it is lettered in, '' where nobody has said.
    `facts` are what the spec says, key by key; `files` the files that it names, each with a digest of its contents.
    `unsure` is what stands as written since it may be a unit.
    `member` is its name in a set of panels, '' where the spec has one panel.
    `places` tell where its nouns, whose `where` is an origin, stand in the spec.
    """

    title: str
    number: str
    revision: str
    outline: Contour
    sheet: Sheet
    coat: Coat
    datum: Point
    marking: Marking
    parts: tuple[Part, ...]
    where: Where
    frames: tuple[FrameRequest, ...] = ()
    texts: tuple[FreeText, ...] = ()
    keepouts: tuple[Keepout, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    lines: tuple[FlowLine, ...] = ()
    art: tuple[Art, ...] = ()
    variables: tuple[Variable, ...] = ()
    language: str = ""
    languages: tuple[str, ...] = ()
    untranslated: tuple[Untranslated, ...] = ()
    unsure: tuple[UnitOrWord, ...] = ()
    masks: tuple[Mask, ...] = ()
    boards: tuple[CircuitBoard, ...] = ()
    operator: Operator = NOBODY
    depth_behind: float | None = None
    depth_in_front: float | None = None
    house: HouseFile | None = None
    flanges: tuple[Flange, ...] = ()
    bending: Bending | None = None
    making: Making = STANDARD
    reserved: tuple[Keepout, ...] = ()
    fingerprint: str = ""
    drawn_from: str = ""
    over_drawing: bool = False
    revised: str = ""
    opposite: Opposite | None = None
    facts: Facts = NO_FACTS
    files: tuple[tuple[str, str], ...] = ()
    member: str = ""
    places: Places = NOWHERE

    @cached_property
    def by_ref(self) -> Mapping[str, Part]:
        """The parts by ref."""
        return {part.ref: part for part in self.parts}

    def __hash__(self) -> int:
        # Its styles are a dict, which has no hash; equal panels are of equal specs.
        return hash((self.title, self.fingerprint, self.language))

    @property
    def zero(self) -> Point:
        """What a machine's file has as its origin: that of the drawing where it is the datum, else the corner."""
        return self.datum if self.over_drawing else ORIGIN

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the finished face, in mm."""
        box = self.outline.bounds
        return box.width, box.height

    def __repr__(self) -> str:
        return brief("Panel", repr(self.title), size(*self.size), counted(len(self.parts), "part"))
