"""The operators of a page or a form of a PDF, and shapes as its paths: lines, and cubics for everything that is round.

ISO 32000-1, 8 (graphics), 9.4 (text) and 14.6 (marked content). Resources are named by whoever keeps them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final, assert_never

from panelart.geometry import Affine, Arc, Box, Line, Point, Vector
from panelart.lettering.outline import Cubic, Loop
from panelart.writers.arcs import control_points, pieces
from panelart.writers.figures import decimal

_MATRIX_PLACES: Final = 11
"""Decimals of a matrix: a scale with few decimals would be wrong at the far end of a page."""

_SHARE_PLACES: Final = 6
"""Decimals of shares of a colour, widths, and sizes of letters."""

_MAX_DEG: Final = 45.0
"""The longest arc that one cubic stands for: it errs by 4e-6 of the radius."""


class Content:
    """Operators one after the other, as they are painted."""

    __slots__ = ("_lines",)

    def __init__(self) -> None:
        self._lines: list[str] = []

    def __bytes__(self) -> bytes:
        return "\n".join(self._lines).encode("ascii")

    # --- the graphics state

    def save(self) -> None:
        """Keep the state as it is until it is restored."""
        self._lines.append("q")

    def restore(self) -> None:
        """Bring back the state that was kept last."""
        self._lines.append("Q")

    def map(self, by: Affine) -> None:
        """Everything after it is painted through a map."""
        self._lines.append(f"{_matrix(by)} cm")

    def mitre(self, limit: float) -> None:
        """How far sharp corners may reach, in widths of the stroke."""
        self._lines.append(f"{decimal(limit)} M")

    def width(self, width: float) -> None:
        """How wide strokes are."""
        self._lines.append(f"{decimal(width, _SHARE_PLACES)} w")

    def dash(self, lengths: Sequence[float]) -> None:
        """Strokes are dashed: on, off and so on."""
        self._lines.append(f"[{' '.join(map(decimal, lengths))}] 0 d")

    def state(self, name: str) -> None:
        """Set what a resource of graphics states says."""
        self._lines.append(f"/{name} gs")

    def plain_colour(self, shares: Sequence[float], *, stroke: bool) -> None:
        """Fill or stroke with red, green and blue."""
        self._lines.append(f"{' '.join(decimal(share, _SHARE_PLACES) for share in shares)} {'RG' if stroke else 'rg'}")

    def ink(self, space: str, tint: float, *, stroke: bool) -> None:
        """Fill or stroke with a share of the ink that a colour space stands for."""
        tint_of = decimal(tint, _SHARE_PLACES)
        self._lines.append(f"/{space} CS {tint_of} SCN" if stroke else f"/{space} cs {tint_of} scn")

    # --- painting

    def fill(self, path: str) -> None:
        """Fill a path by the non-zero rule."""
        self._lines.append(f"{path}\nf")

    def stroke(self, path: str) -> None:
        """Stroke a path."""
        self._lines.append(f"{path}\nS")

    def shade(self, path: str, shading: str) -> None:
        """A run of colour, seen through a path."""
        self._lines.append(f"q\n{path}\nW n\n/{shading} sh\nQ")

    def picture(self, path: str, box: Box, image: str) -> None:
        """An image that fills a box, seen through a path."""
        unit = Affine(box.width, 0.0, 0.0, box.height, box.left, box.bottom)
        self._lines.append(f"q\n{path}\nW n\n{_matrix(unit)} cm\n/{image} Do\nQ")

    def use(self, form: str, by: Affine) -> None:
        """A form, put down through a map."""
        self._lines.append(f"q {_matrix(by)} cm /{form} Do Q")

    def form(self, form: str) -> None:
        """A form as it lies."""
        self._lines.append(f"/{form} Do")

    # --- marks

    def begin_layer(self, name: str) -> None:
        """What follows is on a layer, until the end."""
        self._lines.append(f"/OC /{name} BDC")

    def begin_label(self, number: int) -> None:
        """What follows is what the structure names by a number, until the end."""
        self._lines.append(f"/Span <</MCID {number}>> BDC")

    def end(self) -> None:
        """The end of a layer or label."""
        self._lines.append("EMC")

    # --- text

    def begin_text(self) -> None:
        """Letters follow."""
        self._lines.append("BT")

    def face(self, name: str) -> None:
        """Letters are of a face, one unit high."""
        self._lines.append(f"/{name} 1 Tf")

    def text_place(self, at: Point, along: Vector) -> None:
        """Where the next letters begin, and which way they run; an em is as long as `along`."""
        x, y, back = (decimal(side, _SHARE_PLACES) for side in (along.x, along.y, -along.y))
        self._lines.append(f"{x} {y} {back} {x} {_xy(at)} Tm")

    def show(self, row: Iterable[str | float]) -> None:
        """A row of glyphs: numbers of two bytes in hexadecimal, and thousandths to go back between them."""
        pieces_of = (f"<{piece}>" if isinstance(piece, str) else decimal(piece, 1) for piece in row)
        self._lines.append(f"[{' '.join(pieces_of)}] TJ")

    def end_text(self) -> None:
        """No more letters."""
        self._lines.append("ET")


def path(loops: Iterable[Loop]) -> str:
    """The operators that make a path of loops, '' where there is no curve.

    Raises ValueError for a place that is not finite.
    """
    lines: list[str] = []
    for loop in loops:
        if loop.curves:
            _add(lines, loop)
    return "\n".join(lines)


def _add(lines: list[str], loop: Loop) -> None:
    """One chain of curves, closed where it is."""
    lines.append(f"{_xy(loop.curves[0].start)} m")
    for curve in loop.curves:
        match curve:
            case Line(end=end):
                lines.append(f"{_xy(end)} l")
            case Cubic(first=first, second=second, end=end):
                lines.append(f"{_xy(first)} {_xy(second)} {_xy(end)} c")
            case Arc():
                for piece in pieces(curve, _MAX_DEG):
                    first, second = control_points(piece)
                    lines.append(f"{_xy(first)} {_xy(second)} {_xy(piece.end)} c")
            case other:
                assert_never(other)
    if loop.closed:
        lines.append("h")


def _xy(point: Point) -> str:
    return f"{decimal(point.x)} {decimal(point.y)}"


def _matrix(by: Affine) -> str:
    return " ".join(decimal(value, _MATRIX_PLACES) for value in by.matrix)
