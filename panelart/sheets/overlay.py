"""Two states of a panel laid over each other: red is what was, blue what is, grey what stayed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable

from panelart.drawing.layers import NOTES, PARTS
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Box, Point
from panelart.lettering.outline import Shape, shape_of
from panelart.messages import sheets as said
from panelart.model.layout import Layout
from panelart.model.panel import Side
from panelart.sheets.paper import HEADING, TEXT, words

MARGIN = 6.0
HEAD = 15.0
"""Room for the words over the panel, mm."""

WAS = Paint(colour="#D32F2F", opacity=0.8)
IS = Paint(colour="#1565C0", opacity=0.8)
STAYED = Paint(colour="#9AA1A8")


def overlay(old: Layout, new: Layout) -> Drawing:
    """Outlines, openings, envelopes and legends of both, lower-left corners together, 1:1."""
    drawn_old, drawn_new = _drawn(old), _drawn(new)
    count_old, count_new = Counter(key for key, _ in drawn_old), Counter(key for key, _ in drawn_new)
    both = count_old & count_new
    items = [
        *_painted((item for key, item in drawn_new if both[key]), STAYED),
        *_painted((item for key, item in drawn_old if not count_new[key]), WAS),
        *_painted((item for key, item in drawn_new if not count_old[key]), IS),
    ]
    around = Box.around((old.panel.outline.bounds, new.panel.outline.bounds))
    head, right = _head(old, new, around)
    page = Box(around.left - MARGIN, around.bottom - MARGIN, max(around.right, right) + MARGIN, around.top + HEAD)
    return Drawing(
        title=str(said.changes_title(panel=new.panel.title)),
        note=str(said.changes_note()),
        page=page,
        trim=around,
        layers=(
            Layer(name=PARTS, items=tuple(items)),
            Layer(name=NOTES, items=tuple(head)),
        ),
        number=new.panel.number,
        revision=new.panel.revision,
        spec=new.panel.fingerprint,
    )


def _head(old: Layout, new: Layout, around: Box) -> tuple[list[Item], float]:
    """The words over the panel, and how far to the right they reach."""
    top = around.top + HEAD
    title = words(new.panel.title, Point(around.left, top - 5.0), height=HEADING, bold=True)
    items = [title.item]
    x = around.left
    before, after = said.version_before(panel=_called(old)), said.version_after(panel=_called(new))
    for text, paint in ((before, WAS), (after, IS), (said.unchanged(), STAYED)):
        set_ = words(text, Point(x, top - 10.0), height=TEXT, paint=paint)
        items.append(set_.item)
        x = set_.box.right + 6.0
    return items, max(title.box.right, x - 6.0)


def _called(layout: Layout) -> str:
    panel = layout.panel
    revision = f" {said.revision(revision=panel.revision)}" if panel.revision else ""
    return f"{panel.number or panel.title}{revision}"


def _painted(items: Iterable[Item], paint: Paint) -> list[Item]:
    painted: list[Item] = []
    for item in items:
        filled = item.fill is not None
        painted.append(
            Item(
                shape=item.shape,
                fill=paint if filled else None,
                stroke=None if filled else paint,
                width=item.width,
                dash=item.dash,
                label=item.label,
            )
        )
    return painted


def _drawn(layout: Layout) -> list[tuple[Hashable, Item]]:
    """Each line or word with what makes it the same as one of the other state."""
    ink = Paint(colour="#000000")
    items = [Item(shape=shape_of(layout.panel.outline), stroke=ink, width=0.3, label=str(said.outline()))]
    items += [
        Item(shape=shape_of(opening.finished), stroke=ink, width=0.3, label=str(said.opening(name=opening.name)))
        for opening in layout.openings
    ]
    items += [
        Item(
            shape=shape_of(envelope.contour),
            stroke=ink,
            width=0.15,
            dash=() if envelope.covers else (0.9, 0.6),
            label=str(said.feature_of(feature=envelope.what, owner=envelope.ref)),
        )
        for envelope in layout.envelopes
        if envelope.side is Side.FRONT and not envelope.over
    ]
    items += [
        Item(
            shape=mark.shape,
            fill=ink if mark.filled else None,
            stroke=None if mark.filled else ink,
            width=mark.width,
            label=str(said.feature_of(feature=mark.kind, owner=mark.ref)),
        )
        for mark in layout.inked_marks
    ]
    items += [
        Item(shape=legend.shape, fill=ink, label=legend.text.replace("\n", " ")) for legend in layout.inked_legends
    ]
    return [((item.label, item.width, _form(item.shape)), item) for item in items]


def _form(shape: Shape) -> tuple[tuple[float, ...], ...]:
    """The corners of a shape to a hundredth of a millimetre."""
    return tuple(
        tuple(round(value, 2) + 0.0 for curve in loop.curves for value in (*curve.start, *curve.end)) for loop in shape
    )
