"""A marking process: one object that says all that is particular to it.

A process is a module of this room with one `PROCESS` and its sentences, and its line in `registry.py`. No other module
knows its name: who needs to know something asks for a trait (`lays_ink`), a kind of output (`gives(Positives)`) or a
figure (`own`). What a process is told of a panel before it says what is done, bought and minded is in `Order` and
`Work`.

Every process has the figures of `LIMITS`. Of its `own` the program reads these, each where the process has it:

    inks_maximum        more inks than this are an error (rule too-many-inks)
    ink_register        a trap smaller than this is found (rule trap-too-small)
    trap                `trap` where the spec has none
    base_choke          `base: {choke}` where the spec has none
    base_line_minimum   the narrowest line of base; narrower ink has base as wide as itself or none (rule base-lost)
    bleed               how far backgrounds run past the edge where the spec does not say
    thread_margin       keeps backgrounds off threads
    mask_margin         keeps backgrounds off bare pads, and is checked for all ink (rule ink-near-bare-pad)
    spread              widens what gaps are checked against: twice as much where that is more than `gap_minimum`
    solid_maximum       from which width on a plate is told as `PlateLaid.solid`
    print_maximum       longer prints are found (rule print-too-large)
    cup_maximum         broader prints are found (the same rule)
    depth               `engraving: {depth}` where the spec has none
    spacing             `laser: {spacing}` where the spec has none
    beam                `laser: {beam}` where the spec has none
    overlay_inset       `overlay: {inset}` where the spec has none, and so with the following
    overlay_corner      `overlay: {corner}`
    nut_margin          `overlay: {nut_margin}`
    window_margin       `overlay: {window_margin}`
    adhesive_margin     `overlay: {adhesive_margin}`
    bridge_minimum      the narrowest web of film between two openings (rule label-film-web-narrow)

Any other figure is for the sentences of its own process, and for who prints a shop file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from enum import Enum
from typing import Final, TypeAlias, TypeVar

from msgspec import field

from panelart.canonical import Struct
from panelart.figure import Figure, Known
from panelart.lettering.cuts import MEDIUM
from panelart.messages import Said
from panelart.reprs import brief

LIMITS: Final = (
    "cap_height_minimum",
    "line_minimum",
    "gap_minimum",
    "edge_margin",
    "opening_margin",
    "register",
)
"""The figures that every process has."""

LEGEND_PLATE: Final = "legend plate"
CONSUMABLE: Final = "consumable"
"""Kinds of what is bought, as programs read them: what carries or makes the legends, and what is used up."""

COUNT: Final = "count"
"""The unit of figures that count things."""


# --- figures


def looked_up(value: float, source: str, *, unit: str = "mm") -> Figure:
    """A figure that stood in its source. The registry gives it its name."""
    return Figure(name="", value=value, sources=(source,), known=Known.LOOKED_UP, unit=unit)


def typical(value: float, source: str, *, unit: str = "mm") -> Figure:
    """A usual value where sources differ."""
    return Figure(name="", value=value, sources=(source,), known=Known.TYPICAL, unit=unit)


def recalled(value: float, source: str, *, unit: str = "mm") -> Figure:
    """A figure known from memory: it can warn, not fail."""
    return Figure(name="", value=value, sources=(source,), known=Known.MEMORY, unit=unit)


# --- what a process gives


class Emulsion(Enum):
    """Which way the printed side of a film positive lies when it reads right; down is mirrored when it is written."""

    UP = "up"
    DOWN = "down"


class PrintFile(Struct, frozen=True, kw_only=True):
    """The artwork itself is what is printed from."""


class Positives(Struct, frozen=True, kw_only=True):
    """A film positive for each plate: base, inks, varnish. `emulsion` is the side that they need as a rule."""

    file: str = "film"
    emulsion: Emulsion = Emulsion.UP


class CutterPaths(Struct, frozen=True, kw_only=True):
    """Paths of the middle of cutters."""

    file: str


class BeamLines(Struct, frozen=True, kw_only=True):
    """Lines that a beam follows, or a raster of dots for it."""

    file: str


class LabelFilm(Struct, frozen=True, kw_only=True):
    """A printed label film with its kiss cut, which has holes of its own over those in the sheet."""

    file: str


Output: TypeAlias = PrintFile | Positives | CutterPaths | BeamLines | LabelFilm
"""What the shop is given beside the artwork; `file` is how the names of its files begin."""

OWN_FILES: Final = (Positives, CutterPaths, BeamLines, LabelFilm)
"""Outputs that have files of their own, whose names begin as the output says."""

NEEDED: Final[Mapping[type[Output], tuple[str, ...]]] = {
    CutterPaths: ("depth",),
    BeamLines: ("spacing", "beam"),
    LabelFilm: ("overlay_inset", "overlay_corner", "nut_margin", "window_margin", "adhesive_margin", "bridge_minimum"),
}
"""Figures of its own that a process must have to give an output."""

Kind = TypeVar("Kind", PrintFile, Positives, CutterPaths, BeamLines, LabelFilm)


class NeedsBase(Struct, frozen=True, kw_only=True):
    """When inks need white under them: on a face darker than `face` (L*), all inks darker than `ink` (L*)."""

    face: float = 50.0
    ink: float = 90.0


ON_DARK: Final = NeedsBase()
"""A dark face by its lightness; an ink as good as white needs none. Both our choice."""


NO_BASE: Final = NeedsBase(face=-1.0)
"""For a process whose inks never need white under them: no face is darker. Who asks for a base has one."""


# --- what a process is told


class InkUsed(Struct, frozen=True, kw_only=True):
    """An ink by the name of its plate; `colour` is `#RRGGBB`, `light` whether it is as good as white."""

    name: str
    colour: str
    light: bool


class Order(Struct, frozen=True, kw_only=True):
    """What is known of a panel before it is laid out.

    `size` is the face in mm; `base` and `varnish` are the names of their plates, '' where there is none; `coat` is the
    coat's kind.
    """

    process: Process
    size: tuple[float, float]
    inks: tuple[InkUsed, ...]
    base: str = ""
    varnish: str = ""
    coat: str = "none"


class BaseLaid(Struct, frozen=True, kw_only=True):
    """The base as it is laid: its plate, the inks that have it ('' for pictures), its choke, and what thin ink has.

    Ink narrower than `thin` mm has base as wide as itself where `full`, else none; 0 where no ink is too thin.
    """

    plate: str
    under: tuple[str, ...]
    choke: float
    thin: float
    full: bool


class PlateLaid(Struct, frozen=True, kw_only=True):
    """One plate with something on it: its file, and the size in mm over all of what is printed.

    `solid` says whether it has solid areas wider than the process's figure `solid_maximum`.
    """

    name: str
    file: str
    width: float
    height: float
    solid: bool


class Cutting(Struct, frozen=True, kw_only=True):
    """What cutters do: how deep in mm, and the mm2 that are too narrow for every cutter."""

    depth: float
    uncut: float


class Burning(Struct, frozen=True, kw_only=True):
    """What a beam does: its width and the distance of lines in mm, how many there are, their and its travel's m.

    `raster` is set where it burns dots; then there are no lines.
    """

    spacing: float
    beam: float
    raster: bool
    count: int = 0
    length: float = 0.0
    travel: float = 0.0


class FilmLaid(Struct, frozen=True, kw_only=True):
    """A label film in mm: size, colour ('' for clear), which side is printed, its adhesive (cm2), how far inside."""

    width: float
    height: float
    colour: str
    reverse: bool
    adhesive: float
    adhesive_margin: float
    inset: float


class Work(Order, frozen=True, kw_only=True):
    """What is known of a panel once it is laid out; of the last three what the process's outputs make known.

    `plates` are those with something on them in the order of printing, `emulsion` is the side asked for. `tinted` says
    that something is printed in less than solid ink; `textured` that the coat's name speaks of a texture, `bent` that
    there are flanges.
    """

    laid_base: BaseLaid | None = None
    plates: tuple[PlateLaid, ...] = ()
    trap: float = 0.0
    emulsion: Emulsion = Emulsion.UP
    tinted: bool = False
    textured: bool = False
    bent: bool = False
    cutting: Cutting | None = None
    burning: Burning | None = None
    film: FilmLaid | None = None


class Purchase(Struct, frozen=True, kw_only=True):
    """One thing to be bought: `quantity` for one panel, or enough for all of them (`for_all`)."""

    title: Said
    kind: str = LEGEND_PLATE
    quantity: int = 1
    note: Said = ""
    for_all: bool = False


def nothing(_: Order) -> Iterable[Purchase]:
    """No purchases."""
    return ()


def unminded(_: Work) -> Iterable[Said]:
    """Nothing said."""
    return ()


# --- the process


class Process(Struct, frozen=True, kw_only=True):
    """A marking process: its figures with source and standing, its traits, what it gives, and what it says.

    `own` are figures that not every process has, by name; a shop's file may set any figure otherwise.

    Traits: `lays_ink` where it prints (else it takes metal or coat away, and knows no base, varnish, trap or
    backgrounds); `base` says when inks need white under them (`NO_BASE`: never); `bleeds` that colour may run past the
    edge, onto the bed or film that is cut off; `press_colours` that pictures can be printed in the press's own colours,
    so that they need no ink; `soft_tool` that something soft is pressed onto the face, which textures and flanges are
    in the way of; `weight` that of lettering where the spec says none.

    `outputs` are what the shop is given. `steps`, `cautions` and `purchases` say what is done, minded and bought.
    """

    name: str
    title: str
    cap_height_minimum: Figure
    line_minimum: Figure
    gap_minimum: Figure
    edge_margin: Figure
    opening_margin: Figure
    register: Figure
    own: Mapping[str, Figure] = field(default_factory=dict)
    lays_ink: bool = True
    base: NeedsBase = ON_DARK
    bleeds: bool = False
    press_colours: bool = False
    soft_tool: bool = False
    weight: str = MEDIUM.name
    outputs: tuple[Output, ...] = (PrintFile(),)
    steps: Callable[[Work], Iterable[Said]] = unminded
    cautions: Callable[[Work], Iterable[Said]] = unminded
    purchases: Callable[[Order], Iterable[Purchase]] = nothing

    def __repr__(self) -> str:
        return brief("Process", repr(self.name))

    def gives(self, kind: type[Kind]) -> Kind | None:
        """Its output of a kind, None where it has none."""
        return next((output for output in self.outputs if isinstance(output, kind)), None)

    @property
    def open_gap(self) -> float:
        """The narrowest gap in mm that stays open: its figure, or what ink that spreads from both sides closes."""
        return max(self.gap_minimum.value, 2.0 * self.figure("spread"))

    def figure(self, name: str) -> float:
        """A figure of its own, 0 where it has none of that name."""
        own = self.own.get(name)
        return 0.0 if own is None else own.value
