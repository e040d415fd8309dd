"""The panel with its openings cut and its legends set: the one geometry that everything after it only reads."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Box, Contour, Point, Vector
from panelart.lettering.outline import Shape
from panelart.lettering.setting import Setting
from panelart.messages import Message
from panelart.messages import model as said
from panelart.model.component import EnvelopeRole, Role
from panelart.model.metal import Edge
from panelart.model.panel import Ink, Panel, Place, Side, TurningScale
from panelart.reprs import brief, counted, mm, size, spot

FACE = "face"
"""Where an opening is that is not in a flange."""


class CutCountersink(Struct, frozen=True, kw_only=True):
    """The cone about one hole: its width at the face in mm, once coated and as it is cut.

    `depth` is that of the cone as cut, from the bare face to the straight wall of the hole, or through the sheet
    where it is deeper than that.
    """

    centre: Point
    finished: float
    cut: float
    angle: float
    depth: float
    side: Side

    def __repr__(self) -> str:
        return brief("CutCountersink", f"{mm(self.cut)} mm", f"{mm(self.angle)} deg", self.side.value)


class Dimension(Struct, frozen=True, kw_only=True):
    """One size of an opening, from wall to wall, as it was asked for: width, height, diameter, key width ...

    `size` is in mm, `tolerance` (minus, plus) from the part's own figure, None where it says nothing. `passes` is what
    must go through along it: its nominal and its largest size in mm, None where nothing must. `growth` is by how many
    times twice the coat it changes: 1 from wall to wall, more for the width between the sharp corners of a trapezoid.
    On an upright rectangle `width` is along the panel's x, whichever way the part is turned.
    """

    name: str
    size: float
    tolerance: tuple[float, float] | None = None
    passes: tuple[float, float] | None = None
    growth: float = 1.0


class Pitch(Struct, frozen=True, kw_only=True):
    """How far the middle of an opening is from that of another one of its part, in mm.

    `along` is x or y of the frame that the opening is in, '' for straight across where its part stands askew;
    `tolerance` is (minus, plus) from the part's own figures, None where they say nothing.
    """

    to: str
    along: str
    size: float
    tolerance: tuple[float, float] | None = None


class CutOpening(Struct, frozen=True, kw_only=True):
    """One hole of one part: on the face, in panel coordinates, or in a flange, in the flange's own frame.

    A flange's frame has x along the edge, in the panel's own x or y, and y back from the outside of its bend; `on`
    says which: top, or top return. The front of a flange is its outside.

    `finished` is the size once coated, `cut` the size that leaves the laser; they differ by the coat on the
    wall. `name` tells it apart in lists: S1, J1.2. `passes` must go through the finished hole. `bare` is true where
    no coat comes on the wall, because hardware sits in it or a plug does. `dimensions` are its sizes as its part gives
    them, each with its own tolerance; none where only the contour is known. `pitches` are its distances within its
    part. `turn` is that of its part, in degrees. `nominal` is the cut contour before its corners were relieved, None
    where none is.
    """

    name: str
    ref: str
    role: Role
    finished: Contour
    cut: Contour
    passes: Contour | None
    where: Where
    countersink: CutCountersink | None = None
    bare: bool = False
    dimensions: tuple[Dimension, ...] = ()
    pitches: tuple[Pitch, ...] = ()
    turn: float = 0.0
    on: str = FACE
    nominal: Contour | None = None

    @property
    def sized(self) -> Contour:
        """The opening as cut, but without the reliefs of its corners: what is measured."""
        return self.cut if self.nominal is None else self.nominal

    def __repr__(self) -> str:
        return brief(
            "CutOpening",
            repr(self.name),
            self.role.value,
            size(self.cut.bounds.width, self.cut.bounds.height),
            spot(*self.cut.bounds.centre),
        )


class BendLine(Struct, frozen=True, kw_only=True):
    """One bend on the blank: the middle of the metal that goes into it, from end to end.

    `forward` is a bend towards the viewer of the front, all others go away from them. `step` is its place in the order
    of bending, from 1. `allowance` is the length of metal in the bend, `deduction` what it takes off the outside
    lengths.
    """

    name: str
    edge: Edge
    start: Point
    end: Point
    angle: float
    radius: float
    forward: bool
    step: int
    allowance: float
    deduction: float

    def __repr__(self) -> str:
        return brief("BendLine", repr(self.name), f"{mm(self.angle)} deg", f"step {self.step}")


class BlankHole(Struct, frozen=True, kw_only=True):
    """An opening where it is cut: its contour and its countersink on the flat."""

    opening: CutOpening
    cut: Contour
    countersink: CutCountersink | None

    @property
    def name(self) -> str:
        """The name of the opening."""
        return self.opening.name

    @property
    def on(self) -> str:
        """Face, or the flange: top, top return."""
        return self.opening.on

    def __repr__(self) -> str:
        return brief("BlankHole", repr(self.name), spot(*self.cut.bounds.centre))


class Blank(Struct, frozen=True, kw_only=True):
    """The flat piece that is cut before it is bent, seen from the front, its lower-left corner at (0, 0).

    A point of the face lies `shift` further on the blank.
    """

    outline: Contour
    bends: tuple[BendLine, ...]
    holes: tuple[BlankHole, ...]
    shift: Vector

    def __repr__(self) -> str:
        return brief(
            "Blank",
            size(self.outline.bounds.width, self.outline.bounds.height),
            counted(len(self.bends), "bend"),
            counted(len(self.holes), "hole"),
        )


class PlacedMask(Struct, frozen=True, kw_only=True):
    """A bare area on one face of the coated panel; `name` is the ref it belongs to, or M1, M2 for an area asked for.

    One in a flange is in that flange's own frame, as `on` says; its rear is the inside of the flange.
    """

    name: str
    contour: Contour
    side: Side
    why: str
    where: Where
    on: str = FACE

    def __repr__(self) -> str:
        return brief(
            "PlacedMask", repr(self.name), self.side.value, size(self.contour.bounds.width, self.contour.bounds.height)
        )


class PlacedEnvelope(Struct, frozen=True, kw_only=True):
    """What a part takes in front of the face or behind it.

    `height` is mm off that face; `colour` is `#RRGGBB`, '' where the part has none of its own; `role` what the hand or
    a tool does with it. `over` is true for what stands on another envelope of its part, on the same ground, so that it
    takes nothing more of the face: a cable that leaves its plug straight out.
    """

    ref: str
    what: str
    contour: Contour
    height: float
    side: Side
    covers: bool
    where: Where
    colour: str = ""
    role: EnvelopeRole = EnvelopeRole.BODY
    over: bool = False

    def __repr__(self) -> str:
        return brief("PlacedEnvelope", repr(self.ref), self.what, self.side.value, f"{mm(self.height)} mm")


class PlacedLegend(Struct, frozen=True, kw_only=True):
    """Words on the face, as outlines in panel coordinates.

    `style` is title, name, position, numeral or note; `ref` the part, or the frame's or text's own name.
    `cap_height` is that of the drawn capitals, `box` the bounds of the ink, `baseline` where the base line
    starts. `place` is None where the words stand at a place of their own (numerals, free texts). `setting` are the
    words as set, placed at `baseline` and turned by `turn` degrees; `given` is ink that was never set from a font.
    `left_out` words have no ink: they show the panel, left out of a field of `ink` round them.
    """

    ref: str
    style: str
    text: str
    box: Box
    baseline: Point
    cap_height: float
    font: str
    ink: Ink
    where: Where
    place: Place | None = None
    setting: Setting | None = None
    turn: float = 0.0
    given: Shape = ()
    left_out: bool = False

    @property
    def shape(self) -> Shape:
        """The ink as outlines, drawn when asked for: most legends are never looked at so closely."""
        return self.given if self.setting is None else self.setting.placed(self.baseline, self.turn)

    def __repr__(self) -> str:
        return brief("PlacedLegend", repr(self.text), self.style, repr(self.ref), spot(*self.box.centre))


class Mark(Struct, frozen=True, kw_only=True):
    """A line laid down as marking: a graduation, a frame, a leader. Stroked `width` mm wide.

    A `filled` one is an area bounded by closed loops and has no width. One that is `left_out` has no ink: it shows the
    panel, left out of a field of `ink` round it.
    """

    ref: str
    kind: str
    shape: Shape
    width: float
    ink: Ink
    where: Where
    filled: bool = False
    left_out: bool = False

    def __repr__(self) -> str:
        return brief("Mark", self.kind, repr(self.ref), counted(len(self.shape), "loop"))


class TurningDial(Struct, frozen=True, kw_only=True):
    """A scale on a knob's skirt or on a disc, in panel coordinates, as it stands when the control is at its low end.

    `at` is the shaft, `bore` the diameter of the hole for it in mm; `window` is what a disc is seen through. `reach` is
    the distance from the shaft to its ink that is nearest to it, in mm. A numeral is level at the index mark, so that
    its `turn` is how far from there it stands.
    """

    ref: str
    scale: TurningScale
    at: Point
    bore: float
    window: Contour | None
    marks: tuple[Mark, ...]
    legends: tuple[PlacedLegend, ...]
    reach: float
    where: Where

    def __repr__(self) -> str:
        return brief("TurningDial", repr(self.ref), self.scale.carrier.value, counted(len(self.legends), "numeral"))


class Unplaced(Struct, frozen=True, kw_only=True):
    """A legend for which there is no room, and what stands in its way (names of parts, legends, edges).

    `ways_out` are changes that were tried and make room, cheapest first of each kind.
    """

    ref: str
    style: str
    text: str
    near: Point
    blockers: tuple[str, ...]
    where: Where
    ways_out: tuple[str, ...] = ()

    def __repr__(self) -> str:
        return brief("Unplaced", repr(self.text), repr(self.ref), counted(len(self.blockers), "blocker"))


class FrameLine(Struct, frozen=True, kw_only=True):
    """A frame that was drawn: `box` is the centre of its line."""

    name: str
    refs: tuple[str, ...]
    box: Box
    width: float
    where: Where

    def __repr__(self) -> str:
        return brief("FrameLine", repr(self.name), size(self.box.width, self.box.height))


class Proof(Struct, frozen=True, kw_only=True):
    """How good the chosen places are: what they `cost`, and the `bound` below which no other choice can be."""

    cost: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether no other choice of places is better."""
        return self.cost == self.bound

    @property
    def says(self) -> Message:
        """The same for people: optimal, or how far off it may be."""
        if self.proven:
            return said.placement_optimal()
        return said.placement_within(share=100.0 * (self.cost - self.bound) / self.cost)

    @property
    def words(self) -> str:
        """What it says, in the language that is spoken."""
        return str(self.says)


class Layout(Struct, frozen=True, kw_only=True):
    """Panel, openings, envelopes, legends and marks: frozen, complete.

    `openings` are those of the face; those of flanges are apart, since they are in frames of their own.
    """

    panel: Panel
    cut_outline: Contour
    openings: tuple[CutOpening, ...]
    envelopes: tuple[PlacedEnvelope, ...]
    legends: tuple[PlacedLegend, ...]
    marks: tuple[Mark, ...]
    frames: tuple[FrameLine, ...] = ()
    unplaced: tuple[Unplaced, ...] = ()
    proof: Proof | None = None
    masks: tuple[PlacedMask, ...] = ()
    blank: Blank | None = None
    flange_openings: tuple[CutOpening, ...] = ()
    dials: tuple[TurningDial, ...] = ()

    @property
    def inked_legends(self) -> tuple[PlacedLegend, ...]:
        """The legends that have ink; those left out of fields have none."""
        return tuple(legend for legend in self.legends if not legend.left_out)

    @property
    def inked_marks(self) -> tuple[Mark, ...]:
        """The marks that have ink, fields first."""
        return tuple(mark for mark in self.marks if not mark.left_out)

    @property
    def every_opening(self) -> tuple[CutOpening, ...]:
        """Those of the face, then those of the flanges."""
        return (*self.openings, *self.flange_openings)

    def __repr__(self) -> str:
        return brief(
            "Layout",
            repr(self.panel.title),
            counted(len(self.every_opening), "opening"),
            counted(len(self.legends), "legend"),
            f"{len(self.unplaced)} unplaced" if self.unplaced else "",
        )
