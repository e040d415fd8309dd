"""SVG files walked safely: every element with its place, transform and paint; what reaches outside is refused.

Scripts, links, pictures, styles, references to other files and declarations of entities are problems wherever they
stand; title, description and metadata are passed over. The parser is that of Python's standard library, which opens no
other file.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Final, TypeAlias
from xml.parsers import expat

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Problem, Where
from panelart.messages import Said
from panelart.messages import outlines as said
from panelart.messages import outlines_elements as said_of
from panelart.outlines.svg_path import NUMBER, RefusedError

MAX_BYTES: Final = 2_000_000

_PASSED_OVER: Final = frozenset({"title", "desc", "metadata", "namedview", "defs"})
_REFUSED_ANYWHERE: Final = frozenset({"script", "image", "use", "foreignObject", "style", "a"})
_GROUPS: Final = frozenset({"svg", "g"})
_STYLES: Final = ("fill", "stroke", "fill-rule", "display")
_TRANSFORM: Final = re.compile(r"\s*(matrix|translate|scale|rotate)\s*\(([^)]*)\)\s*,?")

Matrix: TypeAlias = tuple[float, float, float, float, float, float]
IDENTITY: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Element(Struct, frozen=True, kw_only=True):
    """One element: its own transform already multiplied by those above it, its paint by what it inherits.

    `groups` are the ids of the groups it stands in, outermost first.
    """

    tag: str
    attributes: Mapping[str, str]
    matrix: Matrix
    style: Mapping[str, str]
    groups: tuple[str, ...]
    where: Where


Take: TypeAlias = Callable[[Element], None]
"""What is done with an element that is drawn; it raises RefusedError for what it cannot take."""


class _Walk(Struct, kw_only=True):
    """One file on its way: the elements that are open, how deep it is in what is passed over, what was refused."""

    file: str
    drawn: frozenset[str]
    take: Take
    hint: Said
    within: str
    parser: expat.XMLParserType = field(default_factory=expat.ParserCreate)
    problems: list[Problem] = field(default_factory=list)
    stack: list[Element] = field(default_factory=list)
    skipped: int = 0

    def here(self) -> Where:
        return Where(self.file, self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1)

    def refuse(self, says: Said, accepts: Said = "") -> None:
        self.problems.append(Problem(where=self.here(), says=says, accepts=accepts or self.hint))

    def start(self, name: str, attributes: dict[str, str]) -> None:
        tag = name.rpartition(":")[2]
        if self.skipped or tag not in self.drawn | _GROUPS:
            self._pass_over(tag)
            return
        element = self._below(tag, attributes)
        try:
            element = _placed(element)
            if tag in _GROUPS or _inside([*self.stack, element], self.within):
                self.take(element)
        except RefusedError as refused:
            self.refuse(refused.says, refused.accepts)
        self.stack.append(element)

    def end(self, _: str) -> None:
        if self.skipped:
            self.skipped -= 1
        else:
            self.stack.pop()

    def declared(self, *_: object) -> None:
        self.refuse(said_of.svg_entities())

    def _pass_over(self, tag: str) -> None:
        """Go by an element with all that is in it; what is not harmless, or not known, is refused."""
        unknown = not self.skipped and tag not in _PASSED_OVER and _inside(self.stack, self.within)
        if tag in _REFUSED_ANYWHERE or unknown:
            self.refuse(said_of.element_unsupported(element=f"<{tag}>"))
        self.skipped += 1

    def _below(self, tag: str, attributes: dict[str, str]) -> Element:
        """An element with what it has from the one that it stands in."""
        above = self.stack[-1] if self.stack else None
        return Element(
            tag=tag,
            attributes=attributes,
            matrix=IDENTITY if above is None else above.matrix,
            style={} if above is None else above.style,
            groups=() if above is None else above.groups,
            where=self.here(),
        )


def walk(
    data: bytes, file: str, *, drawn: frozenset[str], take: Take, hint: Said, within: str = ""
) -> tuple[Problem, ...]:
    """Hand every element whose tag is in `drawn`, and the groups, to `take`; the problems that were met.

    With `within`, elements outside the group of that id are passed over, as long as they reach for nothing outside.
    """
    if len(data) > MAX_BYTES:
        return (at_top(file, said.file_too_large(size=len(data), maximum=MAX_BYTES), said.remove_the_rest()),)
    walked = _Walk(file=file, drawn=drawn, take=take, hint=hint, within=within)
    walked.parser.StartElementHandler = walked.start
    walked.parser.EndElementHandler = walked.end
    walked.parser.EntityDeclHandler = walked.declared
    try:
        walked.parser.Parse(data, True)
    except expat.ExpatError as error:
        where = Where(file, error.lineno, error.offset + 1)
        return (Problem(where=where, says=said.file_not_xml(reason=expat.ErrorString(error.code))),)
    return tuple(walked.problems)


def at_top(file: str, message: Said, hint: Said) -> Problem:
    """A problem of the file as a whole."""
    return Problem(where=Where(file, 1, 1), says=message, accepts=hint)


def _inside(stack: list[Element], within: str) -> bool:
    return not within or (bool(stack) and within in stack[-1].groups)


def _placed(element: Element) -> Element:
    """The element with its own transform, paint and group. Raises RefusedError for what is no drawing."""
    for name, value in element.attributes.items():
        plain = name.rpartition(":")[2]
        if plain.startswith("on"):
            raise RefusedError(said_of.svg_script(attribute=name))
        if plain == "href" or "url(" in value or value.strip().lower().startswith("javascript:"):
            raise RefusedError(said_of.svg_reference(attribute=name))
    own = element.attributes.get("id", "") if element.tag == "g" else ""
    return Element(
        tag=element.tag,
        attributes=element.attributes,
        matrix=times(element.matrix, matrix_of(element.attributes.get("transform", ""))),
        style={**element.style, **_style(element.attributes)},
        groups=(*element.groups, own) if own else element.groups,
        where=element.where,
    )


def _style(attributes: Mapping[str, str]) -> dict[str, str]:
    found = {name: attributes[name].strip() for name in _STYLES if name in attributes}
    for entry in attributes.get("style", "").split(";"):
        name, _, value = entry.partition(":")
        if name.strip() in _STYLES:
            found[name.strip()] = value.strip()
    return found


def matrix_of(text: str) -> Matrix:
    """The matrix of a transform attribute. Raises RefusedError."""
    found = IDENTITY
    end = 0
    for match in _TRANSFORM.finditer(text):
        if match.start() != end:
            break
        end = match.end()
        numbers = [float(number) for number in re.findall(NUMBER, match[2])]
        found = times(found, _one(match[1], numbers))
    if text.strip() and end != len(text):
        raise RefusedError(said_of.transform_unknown(transform=text))
    return found


def _one(kind: str, n: list[float]) -> Matrix:
    if kind == "matrix" and len(n) == 6:
        return (n[0], n[1], n[2], n[3], n[4], n[5])
    if kind == "translate" and len(n) in (1, 2):
        return (1.0, 0.0, 0.0, 1.0, n[0], n[1] if len(n) == 2 else 0.0)
    if kind == "scale" and len(n) in (1, 2):
        return (n[0], 0.0, 0.0, n[-1], 0.0, 0.0)
    if kind == "rotate" and len(n) in (1, 3):
        cos, sin = math.cos(math.radians(n[0])), math.sin(math.radians(n[0]))
        turn: Matrix = (cos, sin, -sin, cos, 0.0, 0.0)
        if len(n) == 1:
            return turn
        return times(times((1.0, 0.0, 0.0, 1.0, n[1], n[2]), turn), (1.0, 0.0, 0.0, 1.0, -n[1], -n[2]))
    raise RefusedError(said_of.transform_wrong_values(transform=kind, values=len(n)))


def times(a: Matrix, b: Matrix) -> Matrix:
    """The matrix that does b, then a."""
    return (
        a[0] * b[0] + a[2] * b[1],
        a[1] * b[0] + a[3] * b[1],
        a[0] * b[2] + a[2] * b[3],
        a[1] * b[2] + a[3] * b[3],
        a[0] * b[4] + a[2] * b[5] + a[4],
        a[1] * b[4] + a[3] * b[5] + a[5],
    )
