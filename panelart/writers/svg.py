"""A drawing as SVG 1.1: one user unit is one millimetre, one group is one layer, arcs are arcs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, Final, assert_never

from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint
from panelart.drawing.sheets import Sheet
from panelart.geometry import Arc, Box, Line, Point
from panelart.lettering.outline import Cubic, Loop, Shape
from panelart.writers.arcs import pieces, whole_circle
from panelart.writers.figures import decimal, lawful, rgb
from panelart.writers.runs import Style, runs
from panelart.writers.svg_colours import clip_name, name_of, placed_picture, shared_colours
from panelart.writers.svg_letters import Letters
from panelart.writers.svg_text import Fonts, can_be_text, texts

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_MAX_DEG: Final = 90.0
"""The longest arc command in degrees.

A command states end points and radius, from which the reader finds the centre. Near half a circle that is
ill-conditioned: end points rounded by 0.05 um put the crown of a semicircle of radius 10 mm up to 0.03 mm
out. At a quarter the error is no more than that of the end points.
"""


def svg(drawing: Drawing, *, live: bool = False) -> bytes:
    """The drawing as a UTF-8 SVG document, the page's upper left corner at 0 0.

    Each layer is a `<g>` whose id is the layer's name (made lawful and unique) and whose title is the name
    as given. Labels become `aria-label`, names `id`. Words are outlines; `live` writes them as text in fonts that
    the file carries, where that cannot change them. Raises ValueError for figures that are not finite,
    colours that are not #RRGGBB and styles that cannot be painted.
    """
    return svg_document(_root(drawing, Fonts() if live else None))


def picture_svg(drawing: Drawing) -> bytes:
    """The same picture with every glyph in it once: for our own painter, not to be given away."""
    return svg_document(_root(drawing, Letters(path_data)))


def svg_document(root: Element) -> bytes:
    """The bytes of a file, from its outermost element."""
    from xml.etree.ElementTree import indent, tostring

    indent(root, space="")  # a line for each element, so that two versions can be compared
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{tostring(root, encoding="unicode")}\n'.encode()


def _root(drawing: Drawing, fonts: Fonts | Letters | None) -> Element:
    ids = Ids()
    root = svg_root(drawing, ids)
    names = [ids.unique(layer.name) for layer in drawing.layers]
    for name, layer in zip(names, drawing.layers, strict=True):
        root.add(layer_group(layer, name, drawing.page, ids, fonts))
    add_shared(root, [*_shared(fonts), *shared_colours(drawing.layers, drawing.page, path_data).values()])
    element: Element = root.get_xml()
    return element


def add_shared(root: Any, shared: list[Any]) -> None:
    """Puts definitions that elements refer to after the title and the description."""
    if shared:
        from svgwrite.container import Defs

        defs = Defs(debug=False)
        defs.elements.extend(shared)
        root.elements.insert(2, defs)


def svg_root(about: Drawing | Sheet, ids: Ids) -> Any:
    """The outermost element of a document at 1:1, with title and description."""
    from svgwrite.base import Desc, Title
    from svgwrite.container import SVG

    page = about.page
    width, height = decimal(page.width), decimal(page.height)
    title, note = Title(lawful(about.title)), Desc(lawful(about.note))
    title.xml.set("id", ids.unique("title"))
    note.xml.set("id", ids.unique("desc"))
    # The container, not svgwrite's Drawing: that one declares name spaces which nothing here uses.
    root = SVG(debug=False)
    root.attribs = {
        "xmlns": "http://www.w3.org/2000/svg",
        "width": f"{width}mm",
        "height": f"{height}mm",
        "viewBox": f"0 0 {width} {height}",
        "role": "img",
        "aria-labelledby": "title desc",
    }
    if about.number:
        root.attribs["data-number"] = lawful(about.number)
    if about.revision:
        root.attribs["data-revision"] = lawful(about.revision)
    if about.spec:
        root.attribs["data-spec"] = lawful(about.spec)
    root.elements = [title, note]
    return root


def _shared(fonts: Fonts | Letters | None) -> list[Any]:
    """What the words of a drawing draw on: a style sheet with fonts, or glyphs."""
    if isinstance(fonts, Letters):
        return fonts.definitions
    if fonts is None or not fonts.used:
        return []
    from svgwrite.container import Style as StyleSheet

    return [StyleSheet(fonts.style_sheet(), debug=False)]


class Ids:
    """Gives out identifiers that XML allows, each once."""

    def __init__(self) -> None:
        self._given: set[str] = set()

    def unique(self, name: str) -> str:
        """The name made lawful, with a number where it is taken."""
        clean = re.sub(r"[^A-Za-z0-9_.-]+", "-", name)
        if not re.match(r"[A-Za-z_]", clean):
            clean = f"_{clean}"
        wanted, count = clean, 1
        while wanted in self._given:
            count += 1
            wanted = f"{clean}-{count}"
        self._given.add(wanted)
        return wanted


def layer_group(layer: Layer, name: str, page: Box, ids: Ids, fonts: Fonts | Letters | None) -> Any:
    """A layer as a group of that id, in the frame of a page's upper left corner."""
    from svgwrite.base import Title
    from svgwrite.container import Group

    group = Group(debug=False)
    group.attribs["id"] = name
    group.elements.append(Title(lawful(layer.name)))
    parts = list(runs(layer))
    for style, items in parts:
        elements = [_element(item, page, ids, fonts) for item in items]
        if len(parts) == 1:
            group.attribs.update(_attributes(style, page))
            holder = group
        elif len(elements) == 1:
            elements[0].attribs.update(_attributes(style, page))
            holder = group
        else:
            holder = group.add(Group(debug=False))
            holder.attribs.update(_attributes(style, page))
        holder.elements.extend(elements)
    return group


def _attributes(style: Style, page: Box) -> dict[str, str]:
    """Presentation attributes, which cutters read without knowing style sheets. They are all inherited."""
    found = {"fill": "none"}
    if style.fill:
        found.update(_paint("fill", style.fill))
    if style.ramp:
        found["fill"] = f"url(#{name_of(style.ramp, page)})"
    if style.stroke:
        found.update(_paint("stroke", style.stroke))
        found["stroke-width"] = decimal(style.width)
    if style.dash:
        found["stroke-dasharray"] = " ".join(decimal(length) for length in style.dash)
    return found


def _paint(what: str, paint: Paint) -> dict[str, str]:
    rgb(paint.colour)
    found = {what: paint.shown.lower()}
    if paint.opacity < 1.0:
        found[f"{what}-opacity"] = decimal(paint.opacity)
    return found


def _element(item: Item, page: Box, ids: Ids, fonts: Fonts | Letters | None) -> Any:
    words = item.words if item.stroke is None else None
    if isinstance(fonts, Letters) and words is not None and words.setting.plate is None:
        drawn = fonts.group(words, page)
        rest = (*item.shape, *words.strokes)
        if rest:
            drawn.elements.append(_path_of(rest, page))
    elif isinstance(fonts, Fonts) and words is not None and can_be_text(words):
        drawn = _text(item, words, page, fonts)
    elif item.picture is not None:
        drawn = placed_picture(item.picture, clip_name(item, page), page)
    else:
        drawn = _outlined(item, page)
    if item.label:
        drawn.attribs["aria-label"] = lawful(item.label)
    if item.name:
        drawn.attribs["id"] = ids.unique(item.name)
    return drawn


def _text(item: Item, words: Lettered, page: Box, fonts: Fonts) -> Any:
    """The rows of letters, and as a path what of the item is not a letter."""
    from svgwrite.container import Group

    elements = list(texts(words, page, fonts))
    rest = (*item.shape, *words.strokes)
    if rest:
        elements.append(_path_of(rest, page))
    if len(elements) == 1:
        return elements[0]
    group = Group(debug=False)
    group.elements.extend(elements)
    return group


def _outlined(item: Item, page: Box) -> Any:
    from svgwrite.shapes import Circle

    # A dashed circle is a path: dashes of a circle element run clockwise from three o'clock, not as drawn.
    circle = whole_circle(item.shape[0]) if len(item.shape) == 1 and not item.dash and item.words is None else None
    if circle is None:
        return _path_of(item.outline, page)
    x, y = _xy(circle.centre, page).split()
    return Circle(center=(x, y), r=decimal(circle.radius), debug=False)


def _path_of(shape: Shape, page: Box) -> Any:
    from svgwrite.path import Path

    return Path(d=path_data(shape, page), debug=False)


def path_data(shape: Shape, page: Box) -> str:
    """A shape as path data, in the frame of a page's upper left corner."""
    return "".join(piece for loop in shape for piece in _loop(loop, page))


def _loop(loop: Loop, page: Box) -> Iterator[str]:
    if not loop.curves:
        return
    yield f"M{_xy(loop.curves[0].start, page)}"
    for curve in loop.curves:
        match curve:
            case Line(end=end):
                yield f"L{_xy(end, page)}"
            case Cubic(first=first, second=second, end=end):
                yield f"C{_xy(first, page)} {_xy(second, page)} {_xy(end, page)}"
            case Arc(radius=radius, sweep_deg=sweep):
                # Counter-clockwise with y up is sweep flag 0 with y down.
                flag = 0 if sweep > 0 else 1
                for piece in pieces(curve, _MAX_DEG):
                    r = decimal(radius)
                    yield f"A{r} {r} 0 0 {flag} {_xy(piece.end, page)}"
            case other:
                assert_never(other)
    if loop.closed:
        yield "Z"


def _xy(point: Point, page: Box) -> str:
    """A point on the page, y turned over."""
    return f"{decimal(point.x - page.left)} {decimal(page.top - point.y)}"
