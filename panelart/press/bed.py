"""Many pieces on a printer's bed: where each lies, and how often the bed has to be loaded."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any, Final

from panelart.canonical import Struct
from panelart.geometry import Affine, Box, Point, Transform, Vector
from panelart.messages import press_pieces as said
from panelart.reprs import brief, counted

MICROMETRES: Final = 1000
"""The packer reckons in whole micrometres: with fractions it would find overlaps where pieces touch."""

MAX_PIECES: Final = 100_000
_MAX_ON_BED: Final = 400
"""Pieces in one job, and pieces on one bed that are packed freely; more than that lie in rows."""


class Kind(Struct, frozen=True, kw_only=True):
    """One panel: its size in mm and how many pieces of it are wanted."""

    name: str
    width: float
    height: float
    quantity: int


class Spot(Struct, frozen=True, kw_only=True):
    """A place on a bed: which kind lies there, where its lower left corner is, whether it is turned by 90 degrees."""

    kind: int
    at: Point
    turned: bool

    def map(self, kind: Kind) -> Affine:
        """Takes the kind's own frame, its lower left corner at (0, 0), to the bed."""
        if not self.turned:
            return Affine.of(Transform.move(self.at.x, self.at.y))
        return Affine.of(Transform.turn(90.0).then(Transform.move(self.at.x + kind.height, self.at.y)))

    def box(self, kind: Kind) -> Box:
        """What it takes on the bed."""
        wide, high = (kind.height, kind.width) if self.turned else (kind.width, kind.height)
        return Box(self.at.x, self.at.y, self.at.x + wide, self.at.y + high)


class Load(Struct, frozen=True, kw_only=True):
    """One loading of the bed: the spots taken, with the pieces' running numbers, and the jig it takes."""

    spots: tuple[Spot, ...]
    first: int
    jig: int

    @property
    def numbered(self) -> Iterator[tuple[int, Spot]]:
        """Every spot with the number of its piece."""
        return enumerate(self.spots, self.first)

    def __repr__(self) -> str:
        return brief("Load", counted(len(self.spots), "piece"))


class Nest(Struct, frozen=True, kw_only=True):
    """A whole job: its loads, and the arrangements that the loads take: a load may leave spots of its jig empty."""

    bed: Box
    kinds: tuple[Kind, ...]
    loads: tuple[Load, ...]
    jigs: tuple[tuple[Spot, ...], ...]

    def usage(self, load: Load) -> float:
        """The share of the bed that a load covers."""
        covered = math.fsum(self.kinds[spot.kind].width * self.kinds[spot.kind].height for spot in load.spots)
        return covered / (self.bed.width * self.bed.height)

    def __repr__(self) -> str:
        return brief("Nest", counted(len(self.loads), "load"), counted(len(self.jigs), "jig"))


def nest(kinds: Sequence[Kind], bed: Box, *, gap: float, margin: float, turn: bool = True) -> Nest:
    """Pack all pieces on as few loads as are found, `gap` mm apart and `margin` mm inside the bed.

    Each load is filled as full as it goes and repeated while there are pieces for it, so that jigs are few. Raises
    ValueError when a piece does not fit the bed at all, or there are too many pieces or none.
    """
    wanted = [kind.quantity for kind in kinds]
    if not 0 < sum(wanted) <= MAX_PIECES:
        raise ValueError(said.quantity_out_of_range(pieces=sum(wanted), maximum=MAX_PIECES))
    room = _Room(bed, gap, margin, turn=turn)
    for kind in kinds:
        room.require(kind)
    loads: list[Load] = []
    jigs: list[tuple[Spot, ...]] = []
    number = 1
    while any(wanted):
        spots = _known_jig(jigs, wanted) or room.fill(kinds, wanted)
        jig = next((n for n, known in enumerate(jigs) if set(spots) <= set(known)), len(jigs))
        if jig == len(jigs):
            jigs.append(spots)
        loads.append(Load(spots=spots, first=number, jig=jig))
        number += len(spots)
        for spot in spots:
            wanted[spot.kind] -= 1
    return Nest(bed=bed, kinds=tuple(kinds), loads=tuple(loads), jigs=tuple(jigs))


def _known_jig(jigs: Sequence[tuple[Spot, ...]], wanted: Sequence[int]) -> tuple[Spot, ...] | None:
    """The spots of a jig that there is already, where it holds all that is left or is filled by it."""
    for known in jigs:
        left = list(wanted)
        spots: list[Spot] = []
        for spot in known:
            if left[spot.kind] > 0:
                left[spot.kind] -= 1
                spots.append(spot)
        if len(spots) == len(known) or not any(left):
            return tuple(spots)
    return None


class _Room:
    """The bed inside its margin, in micrometres; every piece takes its gap with it, and so does the bed."""

    def __init__(self, bed: Box, gap: float, margin: float, *, turn: bool) -> None:
        self._corner = Point(bed.left + margin, bed.bottom + margin)
        self._gap, self._turn = gap, turn
        self._free = bed.width - 2 * margin, bed.height - 2 * margin
        self._width, self._height = (_down(side + gap) for side in self._free)

    def require(self, kind: Kind) -> None:
        """Raises ValueError when not even one piece fits."""
        if not any(self._columns(kind, turned=turned) for turned in self._turns(kind)):
            wide, high = self._free
            free = (max(wide, 0.0), max(high, 0.0))
            raise ValueError(said.piece_too_large(name=kind.name, size=(kind.width, kind.height), maximum=free))

    def fill(self, kinds: Sequence[Kind], wanted: Sequence[int]) -> tuple[Spot, ...]:
        """One load as full as is found, its spots from the lower left row by row."""
        ways = [*self._rows(kinds, wanted), *self._packed(kinds, wanted)]

        def covered(spots: Sequence[Spot]) -> float:
            return math.fsum(kinds[spot.kind].width * kinds[spot.kind].height for spot in spots)

        # The first of the fullest: rows are plainer than what the packer finds.
        best = max(ways, key=lambda spots: round(covered(spots), 3))
        return tuple(sorted(best, key=lambda spot: (round(spot.at.y, 3), round(spot.at.x, 3))))

    def _turns(self, kind: Kind) -> tuple[bool, ...]:
        return (False, True) if self._turn and kind.width != kind.height else (False,)

    def _sides(self, kind: Kind, *, turned: bool) -> tuple[int, int]:
        wide, high = (kind.height, kind.width) if turned else (kind.width, kind.height)
        return _up(wide + self._gap), _up(high + self._gap)

    def _columns(self, kind: Kind, *, turned: bool) -> tuple[int, int] | None:
        """How many fit beside and above each other, None where not even one does."""
        wide, high = self._sides(kind, turned=turned)
        across, up = self._width // wide, self._height // high
        return (across, up) if across > 0 and up > 0 else None

    def _rows(self, kinds: Sequence[Kind], wanted: Sequence[int]) -> Iterator[list[Spot]]:
        """One kind by itself, in rows, or in four blocks of rows round the bed where that holds more."""
        for number, kind in enumerate(kinds):
            if wanted[number]:
                # Few pieces lie in plain rows from the zero corner; a pattern is for what those do not hold.
                rows = self._plain(kind)
                blocks = next((one for one in rows if _pieces_in(one) >= wanted[number]), None) or self._blocks(kind)
                spots = [
                    self._spot(number, left + x * wide, bottom + y * high, turned=turned)
                    for left, bottom, across, up, turned in blocks
                    for wide, high in (self._sides(kind, turned=turned),)
                    for y in range(up)
                    for x in range(across)
                ]
                yield spots[: wanted[number]]

    def _plain(self, kind: Kind) -> list[list[tuple[int, int, int, int, bool]]]:
        """Rows of pieces that all lie one way: as drawn, then turned."""
        fits = [(self._columns(kind, turned=turned), turned) for turned in self._turns(kind)]
        return [[(0, 0, *columns, turned)] for columns, turned in fits if columns is not None]

    def _blocks(self, kind: Kind) -> list[tuple[int, int, int, int, bool]]:
        """The four-block pattern with the most pieces (Smith and De Cani 1980): left, bottom, across, up, turned.

        Lower left and upper right lie one way, lower right and upper left the other; of patterns with as many pieces
        the one with fewest blocks. Plain rows are patterns of one block.
        """
        wide, high = self._sides(kind, turned=False)
        free_x, free_y, maximum_x, maximum_y = self._width, self._height, self._width // wide, self._height // high
        plain = [(0, 0, maximum_x, maximum_y, False)]
        if len(self._turns(kind)) == 1:
            return plain
        across, up = free_x // high, free_y // wide
        found = max((plain, [(0, 0, across, up, True)]), key=_pieces_in)
        if maximum_x * maximum_y > _MAX_ON_BED:
            return found
        for low_x, low_y, top_x, top_y in product(range(maximum_x + 1), range(maximum_y + 1), repeat=2):
            right_x, right_y = (free_x - low_x * wide) // high, (free_y - top_y * high) // wide
            left_x, left_y = (free_x - top_x * wide) // high, (free_y - low_y * high) // wide
            plain_meet = (low_x + top_x) * wide > free_x and (low_y + top_y) * high > free_y
            turned_meet = (right_x + left_x) * high > free_x and (right_y + left_y) * wide > free_y
            blocks = [
                (0, 0, low_x, low_y, False),
                (free_x - right_x * high, 0, right_x, right_y, True),
                (free_x - top_x * wide, free_y - top_y * high, top_x, top_y, False),
                (0, free_y - left_y * wide, left_x, left_y, True),
            ]
            blocks = [block for block in blocks if block[2] * block[3]]
            if (
                not plain_meet
                and not turned_meet
                and (_pieces_in(blocks), -len(blocks))
                > (
                    _pieces_in(found),
                    -len(found),
                )
            ):
                found = blocks
        return found

    def _packed(self, kinds: Sequence[Kind], wanted: Sequence[int]) -> Iterator[list[Spot]]:
        """What several ways of packing put on one bed."""
        import rectpack

        pieces = self._pieces(kinds, wanted)
        if len(pieces) > _MAX_ON_BED:
            return
        for way in (rectpack.MaxRectsBssf, rectpack.MaxRectsBl, rectpack.MaxRectsBaf, rectpack.SkylineMwf):
            for order in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE):
                packer: Any = rectpack.newPacker(
                    mode=rectpack.PackingMode.Offline, pack_algo=way, sort_algo=order, rotation=self._turn
                )
                packer.add_bin(self._width, self._height)
                for wide, high, number in pieces:
                    packer.add_rect(wide, high, rid=number)
                packer.pack()
                yield [
                    self._spot(number, x, y, turned=(wide, high) != self._sides(kinds[number], turned=False))
                    for _, x, y, wide, high, number in packer.rect_list()
                ]

    def _pieces(self, kinds: Sequence[Kind], wanted: Sequence[int]) -> list[tuple[int, int, int]]:
        """The pieces that may go on one bed: of each kind no more than its area lets fit."""
        area = self._width * self._height
        pieces: list[tuple[int, int, int]] = []
        for number, kind in enumerate(kinds):
            wide, high = self._sides(kind, turned=False)
            pieces += [(wide, high, number)] * min(wanted[number], area // (wide * high))
        return pieces

    def _spot(self, kind: int, x: int, y: int, *, turned: bool) -> Spot:
        at = self._corner.moved(Vector(x / MICROMETRES, y / MICROMETRES))
        return Spot(kind=kind, at=Point(round(at.x, 6), round(at.y, 6)), turned=turned)


def _pieces_in(blocks: Sequence[tuple[int, int, int, int, bool]]) -> int:
    return sum(across * up for _, _, across, up, _ in blocks)


def _up(mm: float) -> int:
    return max(math.ceil(round(mm * MICROMETRES, 3)), 1)


def _down(mm: float) -> int:
    return max(math.floor(round(mm * MICROMETRES, 3)), 0)
