"""The form of a catalogue file as a table: what keys there are, what they hold, what they mean.

    panelart-catalogue: 1
    sources: {caliper: "measured on the part in hand"}
    parts:
      beacon-18:
        title: Beacon, 18 mm
        openings: [{role: body, circle: {diameter: 18.2}, source: caliper}]
        front: [{what: bezel, circle: {diameter: 22}, projection: 3}]

A dimension is a number of millimetres, a length with a unit, or, where more is known of it, a mapping with its value,
tolerance, span, source and standing. `source` and `known` of a part hold for all its dimensions, those of an opening
or envelope for its own. In a family every value may use the columns of its sizes: numbers by name and in arithmetic,
texts in braces. What depends on a column is left as written here and worked out row by row in `entries`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from panelart.catalogue.outlines import OUTLINES
from panelart.diagnostics import Where, one_of
from panelart.figure import Known
from panelart.messages import Said
from panelart.messages import catalogue as of_parts
from panelart.messages import source as said
from panelart.model.circuit import CircuitKind, SafetyFunction
from panelart.model.component import EnvelopeRole, Fastening, Role
from panelart.model.look import Lit
from panelart.model.motion import Action, MotionKind, Stops
from panelart.source.nodes import Mapping, Node, Scalar
from panelart.source.problems import Problems, shown
from panelart.source.schema import AnyNode, Colour, Field, Flag, Integer, ListOf, MapOf, OneOf, Record, Text

VERSION: Final = 1


class Written(str):
    """A text of the file that keeps its place until it is worked out."""

    __slots__ = ("where",)

    where: Where

    @classmethod
    def at(cls, text: str, where: Where) -> Written:
        """The text that stands in a place."""
        written = cls(text)
        written.where = where
        return written


class AmountKind(Text, frozen=True):
    """A number, a length with a unit or, in a family, arithmetic over its columns; worked out later."""

    @property
    def unit(self) -> str:
        """As every kind."""
        return "mm"

    def parse(self, node: Node, problems: Problems) -> Written | None:
        """As every kind."""
        text = Text.parse(self, node, problems)
        return None if text is None else Written.at(text, node.where)


class BlankKind(Text, frozen=True, kw_only=True):
    """A text on one line, or nothing yet: a blank of a form."""

    def parse(self, node: Node, problems: Problems) -> str | None:
        """As every kind."""
        return "" if isinstance(node, Scalar) and node.empty else Text.parse(self, node, problems)


class WordKind(Text, frozen=True, kw_only=True):
    """One of a few words, or in a family a column in braces."""

    words: tuple[str, ...]

    @property
    def accepts(self) -> str:
        """As every kind."""
        return ", ".join(self.words)

    def parse(self, node: Node, problems: Problems) -> Written | None:
        """As every kind."""
        text = Text.parse(self, node, problems)
        if text is None:
            return None
        word = Written.at(text, node.where)
        return word if "{" in text or self.judged(word, problems) is not None else None

    def judged(self, word: Written, problems: Problems) -> str | None:
        """The word when it is one of those accepted; a problem when not."""
        if word in self.words:
            return str(word)
        problems.add(word.where, said.found(shown(word)), one_of(word[:40], self.words))
        return None


def _words(words: Iterable[str]) -> WordKind:
    listed = tuple(words)
    return WordKind(words=listed, form=", ".join(f"`{word}`" for word in listed))


AMOUNT: Final = AmountKind(
    maximum=120, form="a number of mm, a length with a unit, or in a family a formula of its columns"
)
LINE: Final = Text()
PROSE: Final = Text(prose=True, maximum=1000)
NAME_PATTERN: Final = r"[a-z0-9][a-z0-9.]*(?:-[a-z0-9.]+)*"
NAME: Final = Text(maximum=60, pattern=NAME_PATTERN, form="a name of small letters, digits, points and hyphens")
ROLES: Final = _words(role.value for role in Role)
KNOWN: Final = _words(known.value for known in Known)
MOTIONS: Final = _words(motion.value for motion in MotionKind)
ACTIONS: Final = _words(action.value for action in Action)
STOPPED: Final = _words(stops.value for stops in Stops)
ENVELOPE_ROLES: Final = _words(role.value for role in EnvelopeRole)
CABLE_WAYS: Final = _words(("out", "up", "down", "left", "right"))
CIRCUITS: Final = _words(circuit.value for circuit in CircuitKind)
SAFETY: Final = _words(function.value for function in SafetyFunction)
LIT: Final = _words(lit.value for lit in Lit)
DIRECTIONS: Final = _words(("up", "down", "left", "right", "centre"))


def _two(first: str, second: str) -> ListOf[str]:
    return ListOf(of=AMOUNT, what=f"numbers [{first}, {second}]", minimum=2, maximum=2)


SOURCE: Final = Field(
    "source",
    OneOf((PROSE, ListOf(of=PROSE, what="sources", minimum=1, maximum=9))),
    doc="Source of the figures: a key of `sources`, or text; a list where several independent sources agree.",
    otherwise="as in the entry around this one",
)
STANDING: Final = Field(
    "known",
    KNOWN,
    doc=(
        "Standing of the figures: proved on a panel that was cut and fitted, looked up in the source, typical but "
        "differing, from memory, or the designer's own."
    ),
    otherwise="as in the entry around this one; given at the top",
)

VALUE: Final = Field("value", AMOUNT, required=True, doc="Value of the dimension.")
TOLERANCE: Final = Field(
    "tolerance", _two("minus", "plus"), doc="Limit deviations: [0, 0.4] for +0.4/0.", otherwise="not known"
)
SPAN: Final = Field(
    "span", _two("lowest", "highest"), doc="Lowest and highest value found in sources.", otherwise="not known"
)
DIMENSION: Final = Record("a dimension", (VALUE, TOLERANCE, SPAN, SOURCE, STANDING))
SIZE: Final = OneOf((AMOUNT, DIMENSION))


def _dimension(name: str, doc: str, *, required: bool = False) -> Field[object]:
    return Field(name, SIZE, doc=doc, required=required, otherwise="" if required else "none")


def _spoken(name: str) -> str:
    return f"{name.replace('_', ' ').capitalize()}."


_OTHER_DIMENSIONS: Final = {
    "diameter": ("dia", "d", "size", "diam", "round"),
    "width": ("w", "x"),
    "height": ("h", "y"),
    "length": ("l",),
    "radius": ("r", "corner", "corners"),
    "across_flats": ("flats", "af", "size"),
    "flat_to_opposite": ("flat",),
}
"""What people write for a dimension, by its key."""


def _meant(dimensions: Iterable[str]) -> tuple[tuple[str, Said], ...]:
    return tuple((other, of_parts.write_key(key=key)) for key in dimensions for other in _OTHER_DIMENSIONS.get(key, ()))


_AS_CIRCLE: Final = ("diameter", "round", "dia", "hole", "bore", "drill")
_OTHER_SHAPES: Final[tuple[tuple[str, Said | Callable[[str], Said]], ...]] = (
    *((key, of_parts.write_circle) for key in _AS_CIRCLE),
    *((key, of_parts.write_rectangle()) for key in ("width", "square", "rect", "rectangular", "size")),
    *((key, of_parts.write_slot()) for key in ("length", "oblong")),
    ("across_flats", of_parts.write_hexagon),
    ("x", of_parts.write_at()),
    ("y", of_parts.write_at()),
)
"""What people write for a shape or a place."""

SHAPES: Final[dict[str, Field[object]]] = {
    outline.key: Field(
        outline.key,
        Record(
            outline.key,
            (
                *(_dimension(name, _spoken(name), required=True) for name in outline.needed),
                *(_dimension(name, _spoken(name)) for name in outline.optional),
            ),
            elsewhere=_meant(outline.dimensions),
        ),
        doc=outline.doc,
        otherwise="another shape",
    )
    for outline in OUTLINES
}
POINTS: Final = Field(
    "points",
    ListOf(of=_two("x", "y"), what="positions [x, y]"),
    required=True,
    doc="Corners in order round the shape.",
)
CORNER: Final = _dimension("radius", "Radius of all corners.")
POLYGON: Final = Field(
    "polygon", Record("polygon", (POINTS, CORNER)), doc="Straight sides between points.", otherwise="another shape"
)
TURN: Final = Field("turn", AMOUNT, doc="Rotation of the shape in degrees, counter-clockwise.", otherwise="0")

AT: Final = Field(
    "at", _two("x", "y"), doc="Position from the centre of the part, x to the right, y up.", otherwise="the centre"
)
PLACES: Final = Field(
    "places", ListOf(of=_two("x", "y"), what="positions [x, y]", minimum=1), doc="Positions, where there are several."
)
CORNERS: Final = Field(
    "corners", _two("x", "y"), doc="Four positions: x to the right and left, y above and below the centre."
)
COUNT: Final = Field("count", _two("columns", "rows"), required=True, doc="Number of columns and of rows.")
STEP: Final = Field("step", _two("x", "y"), required=True, doc="Distance from column to column, and from row to row.")
STAGGERED: Final = Field(
    "staggered",
    Flag(),
    default=False,
    doc="Whether every other row is shifted by half a step and has one position less.",
)
WITHIN: Final = Field(
    "within", AMOUNT, doc="Only positions inside a circle of this diameter.", otherwise="all positions"
)
GRID: Final = Field(
    "grid", Record("a grid", (COUNT, STEP, STAGGERED, WITHIN)), doc="Pattern of positions about the centre of the part."
)
PLACED_TOLERANCE: Final = Field(
    "tolerance",
    _two("minus", "plus"),
    doc="Limit deviations of the distances between the positions and from the body: [-0.1, 0.1].",
    otherwise="not known",
)
PLACED: Final = Field(
    "placed",
    Record("placed", (PLACED_TOLERANCE, SOURCE, STANDING)),
    doc="Tolerance of the positions; their source and standing, where they differ from those of the shape.",
    otherwise="those of the shape",
)
POSITIONING: Final = (AT, PLACES, CORNERS, GRID, PLACED, TURN)

PASSES: Final = Field(
    "passes",
    Record("passes", (*SHAPES.values(), POLYGON, SOURCE, STANDING), elsewhere=_OTHER_SHAPES),
    doc="Largest item that must pass through: thread, body, screw.",
    otherwise="nothing passes through",
)
ROLE: Final = Field("role", ROLES, required=True, doc="Purpose of the opening.")
CONE_DIAMETER: Final = _dimension(
    "diameter", "Countersink diameter at the finished face: the theoretical diameter of the head.", required=True
)
CONE_ANGLE: Final = _dimension("angle", "Full angle of the countersink, in degrees.", required=True)
FACES: Final = _words(("front", "rear"))
CONE_SIDE: Final = Field("side", FACES, doc="Face that it is cut from.", otherwise="front")
COUNTERSINK: Final = Field(
    "countersink",
    Record("a countersink", (CONE_DIAMETER, CONE_ANGLE, CONE_SIDE, SOURCE, STANDING)),
    doc="Countersink of a round hole, for a flush head.",
    otherwise="none",
)
OPENING: Final = Record(
    "an opening",
    (ROLE, *SHAPES.values(), POLYGON, *POSITIONING, PASSES, COUNTERSINK, SOURCE, STANDING),
    elsewhere=(*_OTHER_SHAPES, ("height", of_parts.write_rectangle())),
)

WHAT: Final = Field("what", LINE, required=True, doc="Name of the item: nut, bezel, lever, mated plug.")
PROJECTION: Final = _dimension("projection", "Height in front of the face.", required=True)
DEPTH: Final = _dimension("depth", "Depth behind the rear face.", required=True)
COVERS: Final = Field(
    "covers", Flag(), default=True, doc="Whether it hides the face; a lever sweeps an area but hides little of it."
)
COLOUR: Final = Field(
    "colour", Colour(), doc="Colour, where a standard sets it, as for an emergency stop.", otherwise="none"
)
TRAVEL: Final = _dimension(
    "travel", "Travel of the moving item along the longer side; the shape is the area that it sweeps."
)
ENVELOPE_ROLE: Final = Field(
    "role",
    ENVELOPE_ROLES,
    doc="Whether it is operated (`actuator`), plugged in (`plug`) or turned with a spanner (`nut`).",
    otherwise="body",
)
SWEEPS: Final = _dimension("sweeps", "Diameter of the circle that a handle describes as it turns.")
CABLE_BEND: Final = _dimension("bend", "Bend radius of the cable.", required=True)
CABLE_WAY: Final = Field("way", CABLE_WAYS, doc="Direction in which the cable leaves the plug.", otherwise="out")
CABLE: Final = Field(
    "cable",
    Record("a cable", (CABLE_BEND, CABLE_WAY, SOURCE, STANDING)),
    doc="Cable of a mating plug.",
    otherwise="none",
)
FRONT_ENVELOPE: Final = Record(
    "a front envelope",
    (
        WHAT,
        ENVELOPE_ROLE,
        *SHAPES.values(),
        POLYGON,
        *POSITIONING,
        PROJECTION,
        TRAVEL,
        SWEEPS,
        CABLE,
        COVERS,
        COLOUR,
        SOURCE,
        STANDING,
    ),
    elsewhere=(
        *_OTHER_SHAPES,
        ("height", of_parts.write_projection),
        ("depth", of_parts.write_projection),
    ),
)
REAR_ENVELOPE: Final = Record(
    "a rear envelope",
    (WHAT, *SHAPES.values(), POLYGON, *POSITIONING, DEPTH, CABLE, SOURCE, STANDING),
    elsewhere=(*_OTHER_SHAPES, ("height", of_parts.write_depth), ("projection", of_parts.write_depth)),
)

MINIMUM: Final = _dimension("minimum", "Minimum sheet thickness.", required=True)
MAXIMUM: Final = _dimension("maximum", "Maximum sheet thickness.", required=True)
THICKNESS: Final = Field(
    "thickness",
    Record("thickness", (MINIMUM, MAXIMUM, SOURCE, STANDING)),
    doc="Range of sheet thickness that it fits, coat included.",
    otherwise="not known",
)
SHAFT_DIAMETER: Final = _dimension("diameter", "Diameter of the shaft.", required=True)
SHAFT_LENGTH: Final = _dimension("length", "Height in front of the face.", required=True)
SHAFT: Final = Field(
    "shaft",
    Record("shaft", (SHAFT_DIAMETER, SHAFT_LENGTH, SOURCE, STANDING)),
    doc="Shaft for a knob.",
    otherwise="none",
)
FACT_UNIT: Final = Field("unit", LINE, default="mm", doc="Unit of the value.")
FACT: Final = Record("a fact", (WHAT, VALUE, FACT_UNIT, TOLERANCE, SPAN, SOURCE, STANDING))

TITLE: Final = Field("title", LINE, doc="What it is, in one line.", otherwise="its name")
FAMILY_NAME: Final = Field("family", LINE, doc="Family of parts that it belongs to.", otherwise="its own name")
STANDARD: Final = Field("standard", LINE, doc="Standard of the part or of its size.", otherwise="none")
WORDS: Final = Field(
    "words",
    ListOf(of=LINE, what="words"),
    doc="Search words in addition to those of its name and title.",
    otherwise="none",
)
OPENINGS: Final = Field(
    "openings", ListOf(of=OPENING, what="openings"), doc="Openings that it needs, at finished size.", otherwise="none"
)
FRONT: Final = Field(
    "front",
    ListOf(of=FRONT_ENVELOPE, what="front envelopes"),
    doc="Envelopes in front of the face.",
    otherwise="none",
)
REAR: Final = Field(
    "rear", ListOf(of=REAR_ENVELOPE, what="rear envelopes"), doc="Envelopes behind the panel.", otherwise="none"
)
WAY_ANGLES: Final = Field(
    "angles",
    ListOf(of=AMOUNT, what="angles", minimum=1, maximum=60),
    doc="Angles of its positions in order, clockwise from straight up.",
    otherwise="equal steps of `index`",
)
WAY_INDEX: Final = _dimension("index", "Angle from one position to the next, in degrees.")
WAY_POSITIONS: Final = Field("positions", _two("fewest", "most"), doc="Fewest and most positions with this index.")
WAY: Final = Record("a way of turning", (WAY_ANGLES, WAY_INDEX, WAY_POSITIONS, SOURCE, STANDING))
MOTION_KIND: Final = Field("kind", MOTIONS, required=True, doc="How it is operated.")
ACTION: Final = Field("action", ACTIONS, doc="Whether it stays where it is put.", otherwise="not known")
WAYS: Final = Field(
    "ways",
    ListOf(of=WAY, what="ways of turning", minimum=1, maximum=40),
    doc="Each way in which it is made: angles of its own, or equal steps.",
    otherwise="not known; a spec then states the angles",
)
PHASE: Final = Field(
    "phase",
    AMOUNT,
    doc="Angle of one of its positions, clockwise from straight up, where a lug or flat keeps the body from turning.",
    otherwise="the body can be turned in its hole, or `tab` says where its tab is",
)
TAB: Final = Field(
    "tab",
    AMOUNT,
    doc=(
        "Angle of the tab or lug that keeps the body from turning, clockwise from straight up, where it lies half a "
        "step from the positions beside it, whatever the step; in place of `phase`."
    ),
    otherwise="the body can be turned in its hole, or `phase` says where a position is",
)
STOPS: Final = Field("stops", STOPPED, doc="What ends the turn.", otherwise="not known")
ROTATION: Final = _dimension("rotation", "Angle from stop to stop, in degrees.")
ELECTRICAL: Final = _dimension("electrical", "Angle over which the value changes, in degrees.")
TAPERS: Final = Field(
    "tapers",
    MapOf(keys=LINE, of=SIZE, what="laws, each with an angle"),
    doc="Electrical angle of single laws, in degrees.",
    otherwise="the same for all laws",
)
TURNS: Final = _dimension("turns", "Number of turns of a multi-turn control.")
DETENTS: Final = _dimension("detents", "Number of detents in one turn.")
MOTION_TRAVEL: Final = _dimension("travel", "Travel of a slide, button or pull.")
THROW: Final = _dimension("throw", "Angle between the end positions of a lever, in degrees.")
OPERATION: Final = Record(
    "a motion",
    (
        MOTION_KIND,
        ACTION,
        WAYS,
        PHASE,
        TAB,
        STOPS,
        ROTATION,
        ELECTRICAL,
        TAPERS,
        TURNS,
        DETENTS,
        MOTION_TRAVEL,
        THROW,
        SOURCE,
        STANDING,
    ),
)
MOTION: Final = Field(
    "motion",
    OneOf((LINE, OPERATION)),
    doc=(
        "How it is operated: what is known of its angles, stops and travel, a key of `motions`, or one of "
        f"{', '.join(f'`{word}`' for word in MOTIONS.words)}."
    ),
    otherwise="none",
)

CIRCUIT_KIND: Final = Field("kind", CIRCUITS, required=True, doc="Circuit that the part carries.")
VOLTS: Final = _dimension("volts", "Rated voltage, in volts.")
AMPS: Final = _dimension("amps", "Rated current, in amperes.")
WATTS: Final = _dimension("watts", "Rated power, in watts.")
CATEGORY: Final = Field(
    "category",
    _words(("CAT II", "CAT III", "CAT IV")),
    doc="Measurement category of IEC 61010-2-030.",
    otherwise="none",
)
SAFETY_FUNCTION: Final = Field("safety", SAFETY, doc="Safety function.", otherwise="none")
CIRCUIT: Final = Field(
    "circuit",
    OneOf(
        (
            CIRCUITS,
            Record("a circuit", (CIRCUIT_KIND, VOLTS, AMPS, WATTS, CATEGORY, SAFETY_FUNCTION, SOURCE, STANDING)),
        )
    ),
    doc="Circuit that the part carries: a word, or the circuit with its rating and safety function.",
    otherwise="not known",
)

COLOURS: Final = Field("colours", ListOf(of=LINE, what="colours"), doc="Colours it is sold in.", otherwise="not known")
LENS: Final = Field("lens", ListOf(of=LINE, what="colours"), doc="Colours of the lens.", otherwise="no lens")
LIGHT: Final = Field("lit", LIT, doc="Whether there is a light in it.", otherwise="never")
INSERT: Final = Field("insert", Flag(), default=False, doc="Whether it takes a printed insert.")
DIGITS: Final = Field("digits", Integer(minimum=1, maximum=40), doc="Number of digits shown.", otherwise="none")
METER: Final = Field("meter", LINE, doc="Kind of meter scale: moving coil, edgewise, bar.", otherwise="none")
RECESSED: Final = Field("recessed", Flag(), default=False, doc="Whether it lies deeper than what is round it.")
DETAIL: Final = Record("a detail", (WHAT, *SHAPES.values(), POLYGON, *POSITIONING, RECESSED, SOURCE, STANDING))
DETAILS: Final = Field(
    "details",
    ListOf(of=DETAIL, what="details", maximum=200),
    doc="Contacts and recesses seen from the front: pins, slots, windows.",
    otherwise="none",
)
LOOK: Final = Field(
    "look",
    Record("a look", (COLOURS, LENS, LIGHT, INSERT, DIGITS, METER, DETAILS, SOURCE, STANDING)),
    doc="How it looks from the front.",
    otherwise="not known",
)

FASTENER_COUNT: Final = Field("count", Integer(minimum=1, maximum=100), default=1, doc="Number of them.")
ACROSS: Final = _dimension("across", "Spanner size.")
TORQUE: Final = Field("torque", _two("lowest", "highest"), doc="Tightening torque in N m.", otherwise="not known")
TIGHTENED: Final = Field("side", _words(("front", "rear")), doc="Side that it is tightened from.", otherwise="front")
SUPPLIED: Final = Field("supplied", Flag(), default=True, doc="Whether it comes with the part.")
FASTENER_THREAD: Final = Field("thread", LINE, doc="Thread.", otherwise="none")
FASTENERS: Final = Field(
    "fasteners",
    ListOf(
        of=Record(
            "a fastener",
            (WHAT, FASTENER_THREAD, FASTENER_COUNT, ACROSS, TORQUE, TIGHTENED, SUPPLIED, SOURCE, STANDING),
        ),
        what="fasteners",
    ),
    doc="What holds the part to the panel; each is a line of its own in the lists.",
    otherwise="none",
)
OFFSET: Final = Field(
    "offset",
    _two("x", "y"),
    required=True,
    doc=(
        "From the origin of the footprint to the axis of the hole, seen from the front of the panel. With `on_edge`, y "
        "is the height of the axis above the board."
    ),
)
BOARD_HEIGHT: Final = _dimension("height", "From the surface of the board to the rear face of the panel.")
ON_EDGE: Final = Field("on_edge", Flag(), default=False, doc="Whether the board stands at right angles to the panel.")
BOARD: Final = Field(
    "board",
    Record("a board", (OFFSET, BOARD_HEIGHT, ON_EDGE, SOURCE, STANDING)),
    doc="How it sits on a circuit board behind the panel.",
    otherwise="not on a board",
)
MASS: Final = Field("mass", SIZE, doc="Mass in g.", otherwise="not known")
PROVED_BY: Final = Field("by", LINE, required=True, doc="Who cut and fitted it.")
PROVED_ON: Final = Field("panel", LINE, required=True, doc="Panel that it was fitted on.")
PROVED_DATE: Final = Field("date", LINE, required=True, doc="Date.")
PROVED: Final = Field(
    "proved",
    Record("proved", (PROVED_BY, PROVED_ON, PROVED_DATE)),
    doc="Who cut the openings of this part and fitted it, on which panel and when; its openings then count as proved.",
    otherwise="not proved",
)
POSITIONS: Final = Field(
    "positions",
    ListOf(of=DIRECTIONS, what="directions"),
    doc="Directions of its positions, seen from the front.",
    otherwise="none",
)
CAUTIONS: Final = Field(
    "cautions",
    ListOf(of=LINE, what="cautions"),
    doc="Cautions that apply to it, by key.",
    otherwise="none",
)
NOTE: Final = Field("note", PROSE, doc="Further information before cutting.", otherwise="none")
FACTS: Final = Field(
    "facts",
    ListOf(of=FACT, what="facts"),
    doc="Figures other than dimensions of outlines: pitch, open area.",
    otherwise="none",
)
LATCH: Final = Field("latch", DIRECTIONS, doc="Side of the plug with the latch that is pressed.", otherwise="none")
LEGEND_AT: Final = Field(
    "legend_at", _two("x", "y"), doc="Point that its legend is centred on.", otherwise="the centre"
)
FASTENINGS: Final = _words(fastening.value for fastening in Fastening)
FASTENING: Final = Field("fastening", FASTENINGS, required=True, doc="How it is fastened in the sheet.")
THREAD: Final = Field("thread", LINE, doc="Thread, which is kept free of coat.", otherwise="none")
EDGE: Final = _dimension("edge", "Minimum distance from its centre to an edge of the sheet.")
PAD: Final = _dimension("pad", "Diameter of bare metal on the rear face, for electrical contact.")
HARDWARE: Final = Field(
    "hardware",
    Record("hardware", (FASTENING, THREAD, EDGE, PAD, SOURCE, STANDING)),
    doc="Fastener that stays in the sheet, or that needs bare metal round it.",
    otherwise="none",
)
PART_FIELDS: Final = (
    TITLE,
    FAMILY_NAME,
    STANDARD,
    WORDS,
    THICKNESS,
    OPENINGS,
    FRONT,
    REAR,
    SHAFT,
    MOTION,
    POSITIONS,
    CAUTIONS,
    NOTE,
    FACTS,
    LEGEND_AT,
    LATCH,
    HARDWARE,
    CIRCUIT,
    LOOK,
    FASTENERS,
    BOARD,
    MASS,
    PROVED,
    SOURCE,
    STANDING,
)
PART: Final = Record("a part", PART_FIELDS)

LIKE: Final = Field(
    "like",
    NAME,
    required=True,
    doc=(
        "Name of the part that it is like. A part that is like its own name takes the place of the catalogue part of "
        "that name in every spec that names the file."
    ),
)
MEASURED_BY: Final = Field("by", BlankKind(), doc="Who measured it.", otherwise="not known")
MEASURED_DATE: Final = Field("date", BlankKind(), doc="Date.", otherwise="not known")
MEASURED: Final = Field(
    "measured",
    Record("measured", (MEASURED_BY, MEASURED_DATE)),
    doc="Who measured the figures written here, and when: the source of those figures.",
    otherwise="not known",
)


_AS_THERE: Final = AnyNode(of="dimensions by name", shape=Mapping)
CHANGES: Final = (
    Field(
        "opening",
        _AS_THERE,
        doc="Dimensions of the main opening, or of all main openings.",
        otherwise="as in the other part",
    ),
    Field(
        "fixing",
        _AS_THERE,
        doc="Dimensions of the fixing holes, `pitch_x` and `pitch_y` between them.",
        otherwise="as in the other part",
    ),
    Field("locating", _AS_THERE, doc="Dimensions of the locating holes.", otherwise="as in the other part"),
    Field(
        "front",
        _AS_THERE,
        doc="Dimensions in front of the face, by what it is: `front: {nut: {across_flats: 17}}`.",
        otherwise="as in the other part",
    ),
    Field("rear", _AS_THERE, doc="Dimensions behind the panel, by what it is.", otherwise="as in the other part"),
    Field("shaft", _AS_THERE, doc="Diameter and length of the shaft.", otherwise="as in the other part"),
    Field("thickness", _AS_THERE, doc="Minimum and maximum sheet thickness.", otherwise="as in the other part"),
    Field(
        "motion",
        _AS_THERE,
        doc="Its motion: rotation, electrical, turns, detents, travel, throw; phase or tab, ways.",
        otherwise="as in the other part",
    ),
)
"""What may be changed of another part; how is in `overrides`."""

VARIANT: Final = Record(
    "a part like another",
    (LIKE, TITLE, WORDS, NOTE, MEASURED, *CHANGES, PROVED, SOURCE, STANDING),
    doc=(
        "A dimension that is left empty (`diameter:`) stays as in the other part, so that a form may be filled in "
        "little by little. A figure counts as the designer's own, unless `source` and `known` say otherwise."
    ),
    marked_by="like",
)

ENTRY_NAME: Final = Field("name", LINE, required=True, doc="Name of an entry, with columns in braces: meter-{w}x{h}.")
COLUMNS: Final = Field(
    "columns",
    ListOf(
        of=Text(maximum=40, pattern=r"[a-z_][a-z0-9_]*", form="a name of small letters, digits and _"), what="names"
    ),
    required=True,
    doc="Names of the columns.",
)


CELL: Final = Text(may_be_empty=True, form="a number or a text")
ROWS: Final = Field(
    "rows",
    ListOf(of=ListOf(of=CELL, what="numbers and texts"), what="rows", minimum=1),
    required=True,
    doc="Values of the columns, one row for each entry.",
)
SIZES: Final = Field(
    "sizes", Record("sizes", (COLUMNS, ROWS)), required=True, doc="Table of sizes, one row for each entry."
)
FAMILY: Final = Record("a family", (ENTRY_NAME, SIZES, *PART_FIELDS))

KNOB_DIAMETER: Final = _dimension("diameter", "Maximum diameter, skirt and pointer included.", required=True)
KNOB_HEIGHT: Final = _dimension("height", "Height of the top above the face when fitted.", required=True)
KNOB_BORE: Final = _dimension("bore", "Diameter of the shaft that it fits.")
POINTERS: Final = _words(("none", "line", "dot", "bar", "skirt"))
POINTER: Final = Field("pointer", POINTERS, doc="Kind of pointer.", otherwise="none")
KNOB: Final = Record(
    "a knob", (TITLE, FAMILY_NAME, WORDS, KNOB_DIAMETER, KNOB_HEIGHT, KNOB_BORE, POINTER, NOTE, SOURCE, STANDING)
)

FORMAT: Final = Field(
    "panelart-catalogue", Integer(minimum=VERSION, maximum=VERSION), required=True, doc="Version of this form: 1."
)
SOURCES: Final = Field(
    "sources", MapOf(keys=NAME, of=PROSE, what="names and sources"), doc="Sources by name.", otherwise="none"
)
SHARED_MOTIONS: Final = Field(
    "motions",
    MapOf(keys=NAME, of=OPERATION, what="names and motions"),
    doc="Motions by name, for several parts of the file.",
    otherwise="none",
)
PARTS: Final = Field(
    "parts",
    MapOf(keys=NAME, of=OneOf((VARIANT, PART)), what="names and parts"),
    doc="Single parts by name, each defined in full or as a part like another.",
    otherwise="none",
)
FAMILIES: Final = Field(
    "families",
    MapOf(keys=NAME, of=FAMILY, what="names and families"),
    doc="Parts that differ in size only.",
    otherwise="none",
)
KNOBS: Final = Field(
    "knobs", MapOf(keys=NAME, of=KNOB, what="names and knobs"), doc="Knobs and caps by name.", otherwise="none"
)
FILE: Final = Record("a catalogue file", (FORMAT, SOURCES, SHARED_MOTIONS, PARTS, FAMILIES, KNOBS))
