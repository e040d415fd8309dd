"""The drawing: a flat list of shapes on named layers. Writers know no panels; panels know no writers."""

from __future__ import annotations

from enum import Enum

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import ORIGIN, Box, Point
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Shape
from panelart.lettering.setting import Setting
from panelart.model.printing import Output
from panelart.reprs import brief, counted, size, spot


class Paint(Struct, frozen=True, kw_only=True):
    """A colour to fill or stroke with.

    `colour` is `#RRGGBB` as shown on screen. `plate` names the printing plate: the PDF writer makes it a
    Separation colour; None is a plain colour, for documents that are only looked at. `opacity` 0 to 1. `tint` is how
    much of the ink, 0 to 1; the rest is white paper.
    """

    colour: str
    plate: str | None = None
    opacity: float = 1.0
    tint: float = 1.0

    @property
    def shown(self) -> str:
        """The colour with its tint, on white, as a screen shows it."""
        if self.tint >= 1.0:
            return self.colour
        parts = (int(self.colour[start : start + 2], 16) for start in (1, 3, 5))
        return "#" + "".join(f"{round(255 - self.tint * (255 - part)):02X}" for part in parts)


class Ramp(Struct, frozen=True, kw_only=True):
    """A run of colour: straight from `start` to `end`, or round about `start` out to `end`; beyond, the last colour.

    `stops` are (place from 0 to 1, paint), from the first place 0 to the last place 1.
    """

    start: Point
    end: Point
    stops: tuple[tuple[float, Paint], ...]
    round: bool = False


class Raster(Struct, frozen=True, kw_only=True):
    """A picture that fills a box: rows of bytes from the top, three of red, green and blue a pixel.

    With an `ink` it is one byte a pixel: how much of that paint, 0 none to 255 all.
    """

    width: int
    height: int
    pixels: bytes
    box: Box
    ink: Paint | None = None


class Lettered(Struct, frozen=True, kw_only=True):
    """Set words in a drawing: brought to `scale`, turned by `turn` degrees, the setting's origin at `at`.

    Writers make outlines of them, or text, where that is asked for.
    """

    setting: Setting
    at: Point
    turn: float = 0.0
    scale: float = 1.0

    @property
    def strokes(self) -> Shape:
        """What of it is not a letter: bars."""
        return moved(self.setting.strokes, Motion(self.at, self.turn, self.scale))

    @property
    def outline(self) -> Shape:
        """The letters as loops, and what is not a letter."""
        return moved(self.setting.shape, Motion(self.at, self.turn, self.scale))

    def __repr__(self) -> str:
        return brief("Lettered", repr(self.setting.text), spot(*self.at))


class Item(Struct, frozen=True, kw_only=True):
    """One shape: filled by the non-zero rule, or stroked `width` mm wide, or both; or words, which are filled.

    In place of a fill a `ramp` or a `picture` may be seen through the shape. `dash` is (on, off, ...) in mm. `label`
    says in words what it is (a legend's text, an opening's name), for people who cannot see it; `name` is a stable
    identifier within the drawing, '' for none.
    """

    shape: Shape
    fill: Paint | None = None
    stroke: Paint | None = None
    width: float = 0.0
    dash: tuple[float, ...] = ()
    label: str = ""
    name: str = ""
    words: Lettered | None = None
    ramp: Ramp | None = None
    picture: Raster | None = None

    @property
    def outline(self) -> Shape:
        """All of it as loops, words too."""
        return self.shape if self.words is None else (*self.shape, *self.words.outline)

    def __repr__(self) -> str:
        return brief("Item", repr(self.label or self.name), counted(len(self.shape), "loop"))


class Step(Enum):
    """The processing step of ISO 19593-1 that a layer stands for (group, type)."""

    CUTTING = ("Structural", "Cutting")
    CREASING = ("Structural", "Creasing")
    PARTIAL_CUTTING = ("Structural", "PartialCutting")
    GLUING = ("Structural", "Gluing")
    BLEED = ("Structural", "Bleed")
    WHITE = ("White", None)
    VARNISH = ("Varnish", None)
    DIMENSIONS = ("Dimensions", None)
    LEGEND = ("Legend", None)


class Layer(Struct, frozen=True, kw_only=True):
    """A named layer, painted in the order given; not `printed`, it is only shown."""

    name: str
    items: tuple[Item, ...]
    step: Step | None = None
    printed: bool = True

    def __repr__(self) -> str:
        return brief("Layer", repr(self.name), counted(len(self.items), "item"))


class Drawing(Struct, frozen=True, kw_only=True):
    """A page: everything in mm, y up, in one frame of reference.

    `page` is the visible area, `trim` the finished face (for a document: the page itself). `note` describes
    the drawing in a sentence, for people who cannot see it. `number`, `revision` and `spec`, the fingerprint of the
    spec it was made from, go into every format. `bleed` is how far its colours run past the trim, None
    where that is not known. `output` is the printing condition that its plates are meant for. `zero` is the point that
    a tool's file has as its origin, `datum` where the spec measures from.
    """

    title: str
    note: str
    page: Box
    trim: Box
    layers: tuple[Layer, ...]
    number: str = ""
    revision: str = ""
    spec: str = ""
    bleed: float | None = None
    output: Output | None = None
    zero: Point = ORIGIN
    datum: Point = ORIGIN

    def only(self, *names: str) -> Drawing:
        """The same page with just the named layers."""
        return replace(self, layers=tuple(layer for layer in self.layers if layer.name in names))

    def without(self, *names: str) -> Drawing:
        """The same page without the named layers."""
        return replace(self, layers=tuple(layer for layer in self.layers if layer.name not in names))

    def __repr__(self) -> str:
        return brief(
            "Drawing", repr(self.title), size(self.page.width, self.page.height), counted(len(self.layers), "layer")
        )
