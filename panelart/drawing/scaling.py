"""Shapes brought to another scale, for documents: the panel on paper, one insets' detail larger."""

from __future__ import annotations

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drawing.representation import Item
from panelart.geometry import Arc, Box, Line, Point
from panelart.lettering.outline import Cubic, Curve, Loop, Shape


class Scaling(Struct, frozen=True):
    """Panel millimetres to paper millimetres: times `scale`, then moved so that (0, 0) lies at `origin`."""

    scale: float
    origin: Point

    def point(self, point: Point) -> Point:
        """Where a point of the panel lies on the paper."""
        return Point(self.origin.x + point.x * self.scale, self.origin.y + point.y * self.scale)

    def box(self, box: Box) -> Box:
        """Where a box of the panel lies on the paper."""
        return Box.around((self.point(Point(box.left, box.bottom)), self.point(Point(box.right, box.top))))

    def shape(self, shape: Shape) -> Shape:
        """A shape of the panel on the paper."""
        return tuple(Loop(tuple(self._curve(curve) for curve in loop.curves), loop.closed) for loop in shape)

    def item(self, item: Item) -> Item:
        """An item with its line widths brought to scale too, so that strokes look as they will."""
        words = item.words
        if words is not None:
            words = replace(words, at=self.point(words.at), scale=words.scale * self.scale)
        ramp, picture = item.ramp, item.picture
        if ramp is not None:
            ramp = replace(ramp, start=self.point(ramp.start), end=self.point(ramp.end))
        if picture is not None:
            picture = replace(picture, box=self.box(picture.box))
        return replace(
            item,
            shape=self.shape(item.shape),
            width=item.width * self.scale,
            words=words,
            ramp=ramp,
            picture=picture,
        )

    def _curve(self, curve: Curve) -> Curve:
        match curve:
            case Line(start=start, end=end):
                return Line(self.point(start), self.point(end))
            case Arc(centre=centre, radius=radius, start_deg=start_deg, sweep_deg=sweep_deg):
                return Arc(self.point(centre), radius * self.scale, start_deg, sweep_deg)
            case Cubic(start=start, first=first, second=second, end=end):
                return Cubic(self.point(start), self.point(first), self.point(second), self.point(end))
