"""A layer as runs of neighbouring items that are painted alike, so that a file states each style once."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import groupby

from panelart.canonical import Struct
from panelart.drawing.representation import Item, Layer, Paint, Ramp, Raster


class Style(Struct, frozen=True, kw_only=True):
    """How an item is painted: fill, ramp or picture first, the stroke over it. Width and dashes in mm."""

    fill: Paint | None
    stroke: Paint | None
    width: float
    dash: tuple[float, ...]
    ramp: Ramp | None = None
    picture: Raster | None = None

    @property
    def paints(self) -> tuple[Paint, ...]:
        """Every colour that it lays down."""
        ramp = () if self.ramp is None else tuple(paint for _, paint in self.ramp.stops)
        ink = None if self.picture is None else self.picture.ink
        return tuple(paint for paint in (self.fill, self.stroke, ink, *ramp) if paint is not None)


def runs(layer: Layer) -> Iterator[tuple[Style, tuple[Item, ...]]]:
    """The layer's visible items in their order, cut where the style changes.

    An item without paint, or without a curve, shows nothing and is left out. Raises ValueError for an opacity outside
    0 to 1, a stroke without width (formats disagree on what it looks like) and dashes that do not add up.
    """
    seen = (item for item in layer.items if _is_painted(item) and _has_curves(item))
    for style, items in groupby(seen, key=_style):
        yield style, tuple(items)


def _is_painted(item: Item) -> bool:
    return any(how is not None for how in (item.fill, item.stroke, item.ramp, item.picture))


def _has_curves(item: Item) -> bool:
    return item.words is not None or any(loop.curves for loop in item.shape)


def _style(item: Item) -> Style:
    what = f"{item.name or item.label or 'an item'}: "
    _require_shares(item, what)
    _require_filling(item, what)
    if item.stroke is None:
        return Style(fill=item.fill, stroke=None, width=0.0, dash=(), ramp=item.ramp, picture=item.picture)
    _require_stroke(item, what)
    return Style(
        fill=item.fill, stroke=item.stroke, width=item.width, dash=item.dash, ramp=item.ramp, picture=item.picture
    )


def _require_shares(item: Item, what: str) -> None:
    """Every opacity and tint is a share, from 0 to 1."""
    inks = () if item.ramp is None else tuple(paint for _, paint in item.ramp.stops)
    for paint in (item.fill, item.stroke, *inks):
        if paint and not 0.0 <= paint.opacity <= 1.0:
            raise ValueError(f"{what}opacity is 0 to 1, not {paint.opacity:g}")
        if paint and not 0.0 <= paint.tint <= 1.0:
            raise ValueError(f"{what}a tint is 0 to 1, not {paint.tint:g}")


def _require_filling(item: Item, what: str) -> None:
    """A shape is filled by one thing, and that is whole."""
    if sum(how is not None for how in (item.fill, item.ramp, item.picture)) > 1:
        raise ValueError(f"{what}one of fill, ramp and picture fills a shape")
    if item.ramp is not None and [item.ramp.stops[0][0], item.ramp.stops[-1][0]] != [0.0, 1.0]:
        raise ValueError(f"{what}a ramp runs from place 0 to place 1")
    if item.picture is not None:
        _require_whole(item.picture, what)


def _require_stroke(item: Item, what: str) -> None:
    """A stroke has a width, and dashes that come to something."""
    if not item.width > 0.0:
        raise ValueError(f"{what}a stroke is more than 0 mm wide")
    if item.dash and (min(item.dash) < 0.0 or math.fsum(item.dash) <= 0.0):
        raise ValueError(f"{what}dashes have lengths of 0 or more, not all of them 0")


def _require_whole(picture: Raster, what: str) -> None:
    due = picture.width * picture.height * (3 if picture.ink is None else 1)
    if len(picture.pixels) != due:
        raise ValueError(f"{what}a picture of {picture.width} x {picture.height} has {due} bytes of pixels")
