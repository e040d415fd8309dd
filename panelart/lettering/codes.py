"""Codes for machines as shapes: QR, Data Matrix and Code 128, their modules grown together into outlines."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from functools import lru_cache
from typing import Final

from panelart.geometry import Box, Line, Point, Vector
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Loop, Shape
from panelart.messages import lettering as said
from panelart.messages.errors import said_by


class CodeKind(Enum):
    """The symbologies; the value is what the spec writes."""

    QR = "qr"
    DATA_MATRIX = "data-matrix"
    CODE_128 = "code-128"

    @property
    def quiet(self) -> int:
        """Least bare modules round the symbol: ISO/IEC 18004 four, 16022 one, 15417 ten (left and right)."""
        return {CodeKind.QR: 4, CodeKind.DATA_MATRIX: 1, CodeKind.CODE_128: 10}[self]


Modules = tuple[tuple[bool, ...], ...]
"""Rows from the top, each from the left; true is a dark module."""

BAR_SHARE: Final = 0.15
"""Height of the bars of a linear code over its length, at the least (ISO/IEC 15417 by memory: 15 % or 5 mm)."""

BAR_MIN: Final = 5.0


@lru_cache(maxsize=2048)
def modules(kind: CodeKind, text: str) -> Modules:
    """The symbol of a text without its quiet zone. Raises ValueError when the text cannot be put in that code."""
    if not text:
        raise ValueError(said.code_without_text())
    match kind:
        case CodeKind.QR:
            return _qr(text)
        case CodeKind.DATA_MATRIX:
            return _data_matrix(text)
        case CodeKind.CODE_128:
            return _code_128(text)


def _qr(text: str) -> Modules:
    import segno
    from segno.encoder import DataOverflowError

    try:
        # Level M whatever room is left: pieces of one run should look alike.
        symbol = segno.make(text, error="m", micro=False, boost_error=False)
    except (DataOverflowError, ValueError) as error:
        raise ValueError(said.no_qr_code(reason=said_by(error))) from None
    return tuple(tuple(bool(module) for module in row) for row in symbol.matrix)


def _data_matrix(text: str) -> Modules:
    from pystrich.datamatrix import DataMatrixEncoder

    try:
        marks, size = DataMatrixEncoder(text).get_rect_marks()[:2]
    except Exception as error:  # noqa: BLE001  # the library raises bare exceptions of many kinds
        raise ValueError(said.no_data_matrix(reason=said_by(error))) from None
    rows = [[False] * size for _ in range(size)]
    for x, y, wide, high in marks:
        for row in range(y, y + high):
            for column in range(x, x + wide):
                rows[row][column] = True
    return _trimmed(rows)


def _trimmed(rows: Sequence[Sequence[bool]]) -> Modules:
    """Without the bare rows and columns round the symbol."""
    used = [number for number, row in enumerate(rows) if any(row)]
    columns = [number for number in range(len(rows[0])) if any(row[number] for row in rows)]
    across = slice(columns[0], columns[-1] + 1)
    return tuple(tuple(row[across]) for row in rows[used[0] : used[-1] + 1])


def _code_128(text: str) -> Modules:
    from pystrich.code128 import Code128Encoder

    if not (text.isascii() and text.isprintable()):
        raise ValueError(said.code_128_characters())
    try:
        bars = Code128Encoder(text).bars
    except Exception as error:  # noqa: BLE001  # as above
        raise ValueError(said.no_code_128(reason=said_by(error))) from None
    return (tuple(bar == "1" for bar in bars),)


def code_size(kind: CodeKind, text: str, module: float) -> tuple[float, float]:
    """Width and height in mm of the symbol without its quiet zone."""
    rows = modules(kind, text)
    wide = len(rows[0]) * module
    return wide, max(wide * BAR_SHARE, BAR_MIN) if kind is CodeKind.CODE_128 else len(rows) * module


def quiet_box(kind: CodeKind, text: str, module: float) -> Box:
    """The symbol and its quiet zone about (0, 0); linear codes need one at their ends only."""
    wide, high = code_size(kind, text, module)
    sides = kind.quiet * module
    ends = module if kind is CodeKind.CODE_128 else sides  # a little, so that its bars are set off
    return Box(-wide / 2 - sides, -high / 2 - ends, wide / 2 + sides, high / 2 + ends)


def code_shape(
    kind: CodeKind, text: str, module: float, at: Point, turn: float = 0.0, *, left_out: bool = False
) -> Shape:
    """The dark modules as filled loops with the middle of the symbol at a point.

    `left_out` fills the symbol and its quiet zone but for the dark modules, for light ink on a dark ground. Raises
    ValueError as modules does.
    """
    rows = modules(kind, text)
    grid = _grid(len(rows[0]), len(rows), code_size(kind, text, module), at, turn)
    outlines = [[grid[y][x] for x, y in corners] for corners in _outlines(rows)]
    if not left_out:
        return tuple(Loop(_sides(corners)) for corners in outlines)
    ground = moved((Loop(_sides(quiet_box(kind, text, module).corners)),), Motion(at, turn))
    return (*ground, *(Loop(_sides(corners[::-1])) for corners in outlines))


@lru_cache(maxsize=32)
def _grid(across: int, up: int, size: tuple[float, float], at: Point, turn: float) -> tuple[tuple[Point, ...], ...]:
    """Where the corners of all modules lie, rows from the top: the same for every piece of a run."""
    wide, high = size
    along, upward = Vector(wide / across, 0.0).turned(turn), Vector(0.0, high / up).turned(turn)
    first = at.moved(Vector(-wide / 2, high / 2).turned(turn))
    return tuple(
        tuple(first.moved(along.scaled(x)).moved(upward.scaled(-y)) for x in range(across + 1)) for y in range(up + 1)
    )


def _sides(corners: Sequence[Point]) -> tuple[Line, ...]:
    return tuple(map(Line, corners, (*corners[1:], corners[0])))


Corner = tuple[int, int]


def _outlines(rows: Modules) -> list[list[Corner]]:
    """The borders of the dark areas, corners only, in modules from the upper left: dark on the left of every side.

    With y up that is counter-clockwise round dark and clockwise round holes. Where two dark modules touch at a corner
    alone the border turns so that they stay apart.
    """
    onward = _borders(rows)
    found: list[list[Corner]] = []
    while onward:
        start = next(iter(onward))
        here, way = start, (0, 0)
        corners: list[Corner] = []
        while here != start or not corners:
            end = _onward(onward, here, way)
            step = end[0] - here[0], end[1] - here[1]
            if step != way:
                corners.append(here)
            here, way = end, step
        if _along(start, corners[1]) == way:
            corners.pop(0)  # the border was begun in the middle of a side
        found.append(corners)
    return found


def _borders(rows: Modules) -> dict[Corner, list[Corner]]:
    """Every side of a dark module that has a light one beyond it, by the corner where it begins."""
    high, wide = len(rows), len(rows[0])
    onward: dict[Corner, list[Corner]] = {}
    for y, row in enumerate(rows):
        for x, dark in enumerate(row):
            if not dark:
                continue
            if y == 0 or not rows[y - 1][x]:
                onward.setdefault((x + 1, y), []).append((x, y))
            if x == 0 or not row[x - 1]:
                onward.setdefault((x, y), []).append((x, y + 1))
            if y == high - 1 or not rows[y + 1][x]:
                onward.setdefault((x, y + 1), []).append((x + 1, y + 1))
            if x == wide - 1 or not row[x + 1]:
                onward.setdefault((x + 1, y + 1), []).append((x + 1, y))
    return onward


def _onward(onward: dict[Corner, list[Corner]], here: Corner, way: Corner) -> Corner:
    """The end of the next side; of two, that to the left, which goes on round the same module."""
    ends = onward[here]
    if len(ends) == 1:
        del onward[here]
        return ends[0]
    end = min(ends, key=lambda to: _right_turn(way, (to[0] - here[0], to[1] - here[1])))
    ends.remove(end)
    return end


def _along(start: Corner, end: Corner) -> Corner:
    return (end[0] > start[0]) - (end[0] < start[0]), (end[1] > start[1]) - (end[1] < start[1])


def _right_turn(way: Corner, step: Corner) -> int:
    """Positive for a turn to the right, seen with y up where the grid counts down."""
    return way[0] * step[1] - way[1] * step[0]
