"""What the designer draws: lines from part to part, rules, boxes, small signs, and drawings from files."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any, Final, TypeAlias

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import Box, Line, Point, Vector, circle, direction, polygon, rectangle
from panelart.lettering.codes import CodeKind, code_shape
from panelart.lettering.outline import Cubic, Loop, Shape, bounds, open_shape, shape_of
from panelart.messages import spec as spec_said
from panelart.messages import spec_marking as said
from panelart.model.panel import Arrow, Art, FlowLine, Ink, Marking, Place
from panelart.model.variables import CodeRequest
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language, mirrored
from panelart.spec.arrange import UP
from panelart.spec.beside import Refs
from panelart.spec.files import why_unreadable
from panelart.spec.lettered import Letterer, ink_named
from panelart.spec.markup import marked
from panelart.spec.names import Names
from panelart.spec.places import Carry, Laid
from panelart.spec.templates import filled
from panelart.spec.unroll import Beside

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
    """What drawing needs: the marking, the datum, where parts are, and how files are read; `folder` is the spec's."""

    marking: Marking
    datum: Point
    laid: Laid
    refs: Refs
    folder: Path
    read_file: Callable[[Path], bytes]
    problems: Problems
    letterer: Letterer
    ground: str


def flow_lines(lines: Iterable[Beside], context: DrawingContext) -> Iterator[FlowLine | None]:
    """The lines from part to part; None for one whose ends are not known."""
    for line in lines:
        carry = context.laid.carry(line.levels)
        with context.problems.within(line.numbers.told):
            made = _flow_line(line, context)
            yield None if made is None or carry is None else _carried_line(made, carry)


def _flow_line(line: Beside, context: DrawingContext) -> FlowLine | None:
    fields = line.fields
    assert isinstance(fields, language.FlowLine)
    starts, ends = (
        _refs(fields, key, line.numbers, context) for key in (language.FlowLine.from_, language.FlowLine.to)
    )
    if not starts or not ends or _repeated(starts, ends, context):
        return None
    leave, enter = fields.leave, fields.enter
    return FlowLine(
        start=starts[0].value,
        end=ends[0].value,
        more_starts=tuple(ref.value for ref in starts[1:]),
        more_ends=tuple(ref.value for ref in ends[1:]),
        arrow=Arrow(fields.arrow),
        width=fields.width,
        ink=_ink(fields, context),
        where=fields.begins,
        leave=None if leave is None else Place(leave),
        enter=None if enter is None else Place(enter),
    )


def _refs(fields: language.FlowLine, key: Field[Any], names: Names, context: DrawingContext) -> list[Value[str]]:
    """The parts at one end of a line; [] where one of them is unknown."""
    written = fields[key]
    refs = [Value(written, fields.where(key))] if isinstance(written, str) else list(written or ())
    found = [(_ref(ref.value, ref.where, names, context), ref.where) for ref in refs]
    known = [Value(ref, where) for ref, where in found if ref is not None]
    return known if len(known) == len(refs) else []


def _repeated(starts: Sequence[Value[str]], ends: Sequence[Value[str]], context: DrawingContext) -> bool:
    """Whether a line has a part twice, which is told."""
    seen: set[str] = set()
    for ref in (*starts, *ends):
        if ref.value in seen:
            context.problems.add(ref.where, said.line_to_itself(ref.value), said.another_part())
            return True
        seen.add(ref.value)
    return False


def _carried_line(line: FlowLine, carry: Carry) -> FlowLine:
    """A line as its copy has it, at the sides that a mirror or a turn makes of those asked for."""
    return replace(
        line,
        leave=None if line.leave is None else mirrored.side(line.leave, carry.motion),
        enter=None if line.enter is None else mirrored.side(line.enter, carry.motion),
    )


def _ref(written: str | None, where: Where, names: Names, context: DrawingContext) -> str | None:
    """The ref of a part that is placed; None where there is none, which is added to the problems."""
    if written is None:
        return None
    spots = context.laid.spots
    ref = names.scoped(filled(written, names, where, context.problems), context.refs.known)
    if ref not in spots:
        if context.refs.complete and ref not in context.refs.known:  # else it has no place, which is told already
            hint = did_you_mean(ref, spots, spec_said.refs())
            context.problems.add(where, spec_said.unknown_ref(ref), hint)
        return None
    return ref


def _ink(fields: _Inked, context: DrawingContext) -> Ink:
    name = fields.ink
    inks = {ink.name: ink for ink in context.marking.inks}
    named = None if name is None else ink_named(name, fields.where(language.FlowLine.ink), inks, context.problems)
    return named or context.marking.styles["name"].ink


class _Drawn(Struct, frozen=True, kw_only=True):
    """One drawing where it is: what is drawn, the names that hold there, and what carries it to the panel."""

    names: Names
    carry: Carry
    context: DrawingContext

    def point(self, at: tuple[float, ...]) -> Point:
        """A place from the datum, or the origin of a module, on the panel."""
        return self.carry.motion.apply(self.context.datum.moved(Vector(*at)))

    def pointing(self, deg: float) -> float:
        """The turn of what points up when it is not turned; what it points at is mirrored too."""
        if self.carry.only_moves:
            return deg
        return round(self.carry.motion.apply_to_vector(direction(UP + deg)).deg - UP, 9)


def art(drawings: Iterable[Beside], context: DrawingContext) -> Iterator[Art | None]:
    """Everything drawn at a place of its own; None for what has none."""
    makers: dict[type[Noun], Callable[[Any, _Drawn], Art | None]] = {
        language.DrawnRule: _rule,
        language.DrawnBox: _box,
        language.DrawnMark: _sign,
        language.ArtDrawing: _drawing,
        language.Code: _code,
    }
    for one in drawings:
        carry = context.laid.carry(one.levels)
        if carry is not None:
            with context.problems.within(one.numbers.told):
                drawn = _Drawn(names=one.numbers, carry=carry, context=context)
                yield makers[type(one.fields)](one.fields, drawn)


def _stroke(fields: language.DrawnRule | language.DrawnBox | language.FlowLine, context: DrawingContext) -> float:
    width = fields.width
    if width is not None:
        return width
    return max(STROKE * context.marking.styles["name"].cap_height, context.marking.process.line_minimum.value)


def _rule(fields: language.DrawnRule, drawn: _Drawn) -> Art | None:
    context = drawn.context
    points = [drawn.point(value.value) for value in fields.rule or ()]
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


def _box(fields: language.DrawnBox, drawn: _Drawn) -> Art | None:
    written, context = fields.box, drawn.context
    if written is None:
        return None
    x, y, width, height = written
    centre = drawn.point((x + width / 2, y + height / 2))
    if drawn.carry.quarter:
        width, height = height, width
    corner = min(fields.corner, width / 2, height / 2)
    return Art(
        what="box",
        shape=shape_of(rectangle(width, height, centre, corner)),
        width=None if fields.filled else _stroke(fields, context),
        ink=_ink(fields, context),
        where=fields.begins,
    )


def _sign(fields: language.DrawnMark, drawn: _Drawn) -> Art | None:
    kind, at, size = fields.mark, _at(fields, drawn), fields.size
    if kind is None or at is None or size is None:
        return None
    if kind == "dot":
        shape = shape_of(circle(size, at))
    else:
        turn = drawn.pointing(fields.turn)
        corners = [Vector(x * size, y * size).turned(turn) for x, y in _SIGNS[kind]]
        shape = shape_of(polygon([at.moved(corner) for corner in corners]))
    return Art(what=kind, shape=shape, width=None, ink=_ink(fields, drawn.context), where=fields.begins)


def _at(fields: language.DrawnMark | language.ArtDrawing | language.Code, drawn: _Drawn) -> Point | None:
    at, context = fields.at, drawn.context
    if isinstance(at, tuple):
        return drawn.point(at)
    if not isinstance(at, language.RelativePlace):
        return None
    ref, by = _ref(at.from_, at.where(language.RelativePlace.from_), drawn.names, context), at.by
    if ref is None or by is None:
        return None
    return context.laid.spots[ref].at.moved(drawn.carry.motion.apply_to_vector(Vector(*by)))


def _drawing(fields: language.ArtDrawing, drawn: _Drawn) -> Art | None:
    context = drawn.context
    name, at, height = fields.svg, _at(fields, drawn), fields.height
    if name is None:
        return None
    where = fields.where(language.ArtDrawing.svg)
    if Path(name).is_absolute() or "\0" in name:
        context.problems.add(where, spec_said.file_not_relative(name), spec_said.relative_to_spec())
        return None
    path = (drawn.names.folder or context.folder) / name
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
    fitted = _fitted(shape, at, height, drawn.carry.turn(fields.turn))
    return Art(what="drawing", shape=fitted, width=None, ink=_ink(fields, context), where=fields.begins)


def _code(fields: language.Code, drawn: _Drawn) -> Art | None:
    context = drawn.context
    written, kind, at, module = fields.text, fields.code, _at(fields, drawn), fields.module
    if written is None or kind is None or at is None or module is None:
        return None
    where, letterer, ink = fields.where(language.Code.text), context.letterer, _ink(fields, context)
    written = letterer.with_arguments(written, drawn.names)
    text = marked(written, {**letterer.variables, **drawn.names}, where, context.problems).text
    left_out = fields.reversed
    request = CodeRequest(
        kind=CodeKind(kind),
        text=text,
        module=module,
        at=at,
        turn=drawn.carry.turn(fields.turn),
        left_out=_lightness(ink.colour) > _lightness(context.ground) if left_out is None else left_out,
        template=letterer.template(written, drawn.names),
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
