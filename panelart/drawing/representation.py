"""The drawing: a flat list of shapes on named layers. Writers know no panels; panels know no writers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from panelart.geometry import Box, Point
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Shape
from panelart.lettering.setting import Setting


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """A colour to fill or stroke with.

    `colour` is `#RRGGBB` as shown on screen. `plate` names the printing plate: the PDF writer makes it a
    Separation colour; None is a plain colour, for documents that are only looked at. `opacity` 0 to 1.
    """

    colour: str
    plate: str | None = None
    opacity: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettered:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One shape: filled by the non-zero rule, or stroked `width` mm wide, or both; or words, which are filled.

    `dash` is (on, off, ...) in mm. `label` says in words what it is (a legend's text, an opening's name), for
    people who cannot see it; `name` is a stable identifier within the drawing, '' for none.
    """

    shape: Shape
    fill: Paint | None = None
    stroke: Paint | None = None
    width: float = 0.0
    dash: tuple[float, ...] = ()
    label: str = ""
    name: str = ""
    words: Lettered | None = None

    @property
    def outline(self) -> Shape:
        """All of it as loops, words too."""
        return self.shape if self.words is None else (*self.shape, *self.words.outline)


class Step(Enum):
    """The processing step of ISO 19593-1 that a layer stands for (group, type)."""

    CUTTING = ("Structural", "Cutting")
    CREASING = ("Structural", "Creasing")
    WHITE = ("White", None)
    VARNISH = ("Varnish", None)
    DIMENSIONS = ("Dimensions", None)
    LEGEND = ("Legend", None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A named layer, painted in the order given."""

    name: str
    items: tuple[Item, ...]
    step: Step | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A page: everything in mm, y up, in one frame of reference.

    `page` is the visible area, `trim` the finished face (for a document: the page itself). `note` describes
    the drawing in a sentence, for people who cannot see it. `number`, `revision` and `spec`, the fingerprint of the
    spec it was made from, go into every format.
    """

    title: str
    note: str
    page: Box
    trim: Box
    layers: tuple[Layer, ...]
    number: str = ""
    revision: str = ""
    spec: str = ""

    def only(self, *names: str) -> Drawing:
        """The same page with just the named layers."""
        kept = tuple(layer for layer in self.layers if layer.name in names)
        return Drawing(
            title=self.title,
            note=self.note,
            page=self.page,
            trim=self.trim,
            layers=kept,
            number=self.number,
            revision=self.revision,
            spec=self.spec,
        )
