"""Layers of a drawing painted with the operators of a PDF, whichever page or form they are on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from panelart.drawing.representation import Item, Layer, Lettered, Paint
from panelart.writers.figures import rgb
from panelart.writers.pdf_book import Book, State
from panelart.writers.pdf_content import Content, path
from panelart.writers.runs import Style, runs


class Lettering(Protocol):
    """How letters are written where they need not be outlines of the path that is painted."""

    def takes(self, words: Lettered) -> bool:
        """Whether these words are written in this way."""

    def write(self, words: Lettered, content: Content) -> None:
        """The letters, in the colour that is set."""


class Painter:
    """Paints layers into content.

    Without a `lettering` all words are outlines. With `labels` what has a label is marked with its number among them.
    """

    def __init__(
        self, content: Content, book: Book, lettering: Lettering | None = None, labels: list[str] | None = None
    ) -> None:
        self._content = content
        self._book = book
        self._lettering = lettering
        self._labels = labels

    def paint(self, layers: Iterable[Layer]) -> None:
        """Every layer as optional content, its items in runs of one style."""
        content = self._content
        for layer in layers:
            content.begin_layer(self._book.layer(layer))
            for style, items in runs(layer):
                content.save()
                self._set(style)
                for item in items:
                    self._item(item, style)
                content.restore()
            content.end()

    def _set(self, style: Style) -> None:
        """Colours, width, dashes, overprint and opacity."""
        if style.fill:
            self._colour(style.fill, stroke=False)
        if style.stroke:
            self._colour(style.stroke, stroke=True)
            self._content.width(style.width)
        if style.dash:
            self._content.dash(style.dash)
        if state := state_of(style):
            self._content.state(self._book.state(state))

    def _colour(self, paint: Paint, *, stroke: bool) -> None:
        if paint.plate is None:
            self._book.plain = True
            self._content.plain_colour(rgb(paint.shown), stroke=stroke)
        else:
            self._content.ink(self._book.plate(paint), paint.tint, stroke=stroke)

    def _item(self, item: Item, style: Style) -> None:
        labelled = item.label and self._labels is not None
        if labelled and self._labels is not None:
            self._content.begin_label(len(self._labels))
            self._labels.append(item.label)
        words, lettering = item.words, self._lettering
        if words is not None and style.stroke is None and lettering is not None and lettering.takes(words):
            lettering.write(words, self._content)
            self._painted(path((*item.shape, *words.strokes)), style)
        else:
            self._painted(path(item.outline), style)
        if labelled:
            self._content.end()

    def _painted(self, path: str, style: Style) -> None:
        """A path in a style: what is seen through it, then filled, then stroked.

        The operator that fills and strokes at once blends otherwise than SVG where it is not opaque (ISO 32000-1,
        11.7.4.4).
        """
        content, book = self._content, self._book
        if not path:
            return
        if style.ramp is not None:
            content.shade(path, book.ramp(style.ramp))
        if style.picture is not None:
            content.picture(path, style.picture.box, book.picture(style.picture))
        if style.fill is not None:
            content.fill(path)
        if style.stroke is not None:
            content.stroke(path)


def state_of(style: Style) -> State:
    """What a style needs beyond colours: whatever is on a plate overprints, ramps and pictures as fills."""
    fill, stroke = style.fill, style.stroke
    state: dict[str, float] = {}
    if any(paint.plate is not None for paint in style.paints):
        state["OPM"] = 1
    if (fill is not None and fill.plate is not None) or _seen_through(style):
        state["op"] = True
    if stroke is not None and stroke.plate is not None:
        state["OP"] = True
    for key, paint in (("ca", fill), ("CA", stroke)):
        if paint is not None and paint.opacity < 1.0:
            state[key] = paint.opacity
    return tuple(state.items())


def _seen_through(style: Style) -> bool:
    """Whether inks are laid down by a run of colour or a picture."""
    picture = style.picture
    return (style.ramp is not None and bool(style.ramp.stops)) or (picture is not None and picture.ink is not None)
