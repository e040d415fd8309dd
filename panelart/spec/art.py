"""What the designer draws: lines from part to part, rules, boxes, small signs, and drawings from files."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any, Final, TypeAlias

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import Box, Line, Point, Vector, circle, polygon, rectangle
from panelart.lettering.codes import CodeKind, code_shape
from panelart.lettering.outline import Cubic, Loop, Shape, bounds, open_shape, shape_of
from panelart.messages import spec as spec_said
from panelart.messages import spec_marking as said
from panelart.model.panel import Arrow, Art, FlowLine, Ink, Marking, Place
from panelart.model.variables import CodeRequest
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.spec import language
from panelart.spec.files import why_unreadable
from panelart.spec.lettered import Letterer, ink_named
from panelart.spec.markup import marked

STROKE: Final = 0.125
"""Width of rules and boxes over the cap height of names. Common practice: a little more than the lettering's stroke."""

_SIGNS: Final[Mapping[str, tuple[tuple[float, float], ...]]] = {
    "triangle": ((-0.55, -0.5), (0.55, -0.5), (0.0, 0.5)),
    "arrow": ((-0.1, -0.5), (0.1, -0.5), (0.1, 0.0), (0.4, 0.0), (0.0, 0.5), (-0.4, 0.0), (-0.1, 0.0)),
    "cross": (
        *((-0.09, -0.5), (0.09, -0.5), (0.09, -0.09), (0.5, -0.09), (0.5, 0.09), (0.09, 0.09)),
        *((0.09, 0.5), (-0.09, 0.5), (-0.09, 0.09), (-0.5, 0.09), (-0.5, -0.09), (-0.09, -0.09)),
    ),
}
"""Outlines of the signs at height 1, pointing up."""


_Inked: TypeAlias = (
    language.FlowLine
    | language.DrawnRule
    | language.DrawnBox
    | language.DrawnMark
    | language.ArtDrawing
    | language.Code
)
"""What names an ink of its own."""


class DrawingContext(Struct, frozen=True, kw_only=True):
    """What drawing needs: the marking, the datum, where parts are, and how files are read."""

    marking: Marking
    datum: Point
    parts: Mapping[str, Point]
    complete: bool
    folder: Path
    read_file: Callable[[Path], bytes]
    problems: Problems
    letterer: Letterer
    ground: str


def flow_lines(top: language.Spec, context: DrawingContext) -> tuple[FlowLine, ...]:
    """The lines from part to part."""
    found: list[FlowLine] = []
    for item in top.lines or ():
        fields = item.value
        ends = [
            _ref(fields[field], fields.where(field), context)
            for field in (language.FlowLine.from_, language.FlowLine.to)
        ]
        leave, enter = fields.leave, fields.enter
        if None in ends:
            continue
        if ends[0] == ends[1]:
            where = fields.where(language.FlowLine.to)
            context.problems.add(where, said.line_to_itself(ends[0]), said.another_part())
            continue
        found.append(
            FlowLine(
                start=ends[0] or "",
                end=ends[1] or "",
                arrow=Arrow(fields.arrow),
                width=fields.width,
                ink=_ink(fields, context),
                where=fields.begins,
                leave=None if leave is None else Place(leave),
                enter=None if enter is None else Place(enter),
            )
        )
    return tuple(found)


def _ref(ref: str | None, where: Where, context: DrawingContext) -> str | None:
    if ref is not None and ref not in context.parts:
        if context.complete:
            hint = did_you_mean(ref, context.parts, spec_said.refs())
            context.problems.add(where, spec_said.unknown_ref(ref), hint)
        return None
    return ref


def _ink(fields: _Inked, context: DrawingContext) -> Ink:
    name = fields.ink
    inks = {ink.name: ink for ink in context.marking.inks}
    named = None if name is None else ink_named(name, fields.where(language.FlowLine.ink), inks, context.problems)
    return named or context.marking.styles["name"].ink


def art(top: language.Spec, context: DrawingContext) -> tuple[Art, ...]:
    """Everything drawn at a place of its own."""
    return tuple(one for item in top.art or () if (one := _art(item.value, context)) is not None)


def _art(fields: Noun, context: DrawingContext) -> Art | None:
    makers: dict[type[Noun], Callable[[Any, DrawingContext], Art | None]] = {
        language.DrawnRule: _rule,
        language.DrawnBox: _box,
        language.DrawnMark: _sign,
        language.ArtDrawing: _drawing,
        language.Code: _code,
    }
    return makers[type(fields)](fields, context)


def _stroke(fields: language.DrawnRule | language.DrawnBox | language.FlowLine, context: DrawingContext) -> float:
    width = fields.width
    if width is not None:
        return width
    return max(STROKE * context.marking.styles["name"].cap_height, context.marking.process.line_minimum.value)


def _rule(fields: language.DrawnRule, context: DrawingContext) -> Art | None:
    points = [context.datum.moved(Vector(*value.value)) for value in fields.rule or ()]
    lines = tuple(Line(a, b) for a, b in pairwise(points) if a != b)
    if not lines:
        context.problems.add(fields.where(language.DrawnRule.rule), said.rule_without_length(), said.two_points())
        return None
    return Art(
        what="rule",
        shape=open_shape(lines),
        width=_stroke(fields, context),
        ink=_ink(fields, context),
        where=fields.begins,
    )


def _box(fields: language.DrawnBox, context: DrawingContext) -> Art | None:
    written = fields.box
    if written is None:
        return None
    x, y, width, height = written
    centre = context.datum.moved(Vector(x + width / 2, y + height / 2))
    corner = min(fields.corner, width / 2, height / 2)
    return Art(
        what="box",
        shape=shape_of(rectangle(width, height, centre, corner)),
        width=None if fields.filled else _stroke(fields, context),
        ink=_ink(fields, context),
        where=fields.begins,
    )


def _sign(fields: language.DrawnMark, context: DrawingContext) -> Art | None:
    kind, at, size = fields.mark, _at(fields, context), fields.size
    if kind is None or at is None or size is None:
        return None
    if kind == "dot":
        shape = shape_of(circle(size, at))
    else:
        corners = [Vector(x * size, y * size).turned(fields.turn) for x, y in _SIGNS[kind]]
        shape = shape_of(polygon([at.moved(corner) for corner in corners]))
    return Art(what=kind, shape=shape, width=None, ink=_ink(fields, context), where=fields.begins)


def _at(fields: language.DrawnMark | language.ArtDrawing | language.Code, context: DrawingContext) -> Point | None:
    at = fields.at
    if isinstance(at, tuple):
        return context.datum.moved(Vector(*at))
    if not isinstance(at, language.RelativePlace):
        return None
    ref, by = _ref(at.from_, at.where(language.RelativePlace.from_), context), at.by
    return None if ref is None or by is None else context.parts[ref].moved(Vector(*by))


def _drawing(fields: language.ArtDrawing, context: DrawingContext) -> Art | None:
    name, at, height = fields.svg, _at(fields, context), fields.height
    if name is None:
        return None
    where = fields.where(language.ArtDrawing.svg)
    if Path(name).is_absolute() or "\0" in name:
        context.problems.add(where, spec_said.file_not_relative(name), spec_said.relative_to_spec())
        return None
    path = context.folder / name
    try:
        data = context.read_file(path)
    except OSError as error:
        unreadable = spec_said.drawing_unreadable(name, why_unreadable(error))
        context.problems.add(where, unreadable, spec_said.relative_to_spec())
        return None
    from panelart.spec.svg_art import read_svg  # and with it a reader of XML

    shape, problems = read_svg(data, path.as_posix())
    for problem in problems:
        context.problems.add(problem.where, problem.says, problem.accepts)
    if not shape or at is None or height is None:
        return None
    fitted = _fitted(shape, at, height, fields.turn or 0.0)
    return Art(what="drawing", shape=fitted, width=None, ink=_ink(fields, context), where=fields.begins)


def _code(fields: language.Code, context: DrawingContext) -> Art | None:
    written, kind, at, module = (
        fields.text,
        fields.code,
        _at(fields, context),
        fields.module,
    )
    if written is None or kind is None or at is None or module is None:
        return None
    where, letterer, ink = fields.where(language.Code.text), context.letterer, _ink(fields, context)
    text = marked(written, letterer.variables, where, context.problems).text
    left_out = fields.reversed
    request = CodeRequest(
        kind=CodeKind(kind),
        text=text,
        module=module,
        at=at,
        turn=fields.turn or 0.0,
        left_out=_lightness(ink.colour) > _lightness(context.ground) if left_out is None else left_out,
        template=letterer.template(written, {}),
    )
    try:
        shape = drawn_code(request)
    except ValueError:
        plain = kind == CodeKind.CODE_128.value and not text.isascii()
        context.problems.add(where, said.code_unmade(kind), said.plain_text() if plain else said.shorter_text())
        return None
    return Art(what="code", shape=shape, width=None, ink=ink, where=fields.begins, code=request)


def drawn_code(request: CodeRequest) -> Shape:
    """The symbol of a request where it stands. Raises ValueError when no symbol holds its text."""
    return code_shape(request.kind, request.text, request.module, request.at, request.turn, left_out=request.left_out)


def _lightness(colour: str) -> float:
    """How light a colour looks, by the weights of Rec. 709 on its screen values."""
    red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _fitted(shape: Shape, at: Point, height: float, turn: float) -> Shape:
    """A drawing brought to a height, its middle at a place, and turned."""
    box = bounds(shape)
    scale = height / max(box.height, 1e-9)
    return _put(shape, lambda point: at.moved(point.minus(box.centre).scaled(scale).turned(turn)))


def fitted_in(shape: Shape, room: Box) -> Shape:
    """A drawing as large as a box allows, in its middle."""
    box = bounds(shape)
    scale = min(room.width / max(box.width, 1e-9), room.height / max(box.height, 1e-9))
    return _put(shape, lambda point: room.centre.moved(point.minus(box.centre).scaled(scale)))


def _put(shape: Shape, put: Callable[[Point], Point]) -> Shape:
    return tuple(
        Loop(
            tuple(
                Cubic(put(c.start), put(c.first), put(c.second), put(c.end))
                if isinstance(c, Cubic)
                else Line(put(c.start), put(c.end))
                for c in loop.curves
            )
        )
        for loop in shape
    )
