"""Names along the sides of a grid of parts: free texts in line with the centres of its columns and rows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final

from panelart.geometry import Box, Point, Vector
from panelart.messages import spec_places as said
from panelart.model.panel import Anchor, FreeText
from panelart.source.schema import Field, Value
from panelart.spec import arrange, language
from panelart.spec.arrange import Body
from panelart.spec.lettered import Letterer
from panelart.spec.places import Spot
from panelart.spec.unroll import Arrangement, Assembly, Draft, Unit, counted

HEADING: Final = 0.8
"""White between a grid and the names along its sides, over their capitals. Common practice: more than a legend keeps
from its part, so that a name is read with its whole column."""

_LEVEL: Final = 1e-6
"""Centres that differ by no more than this, in mm, are in line."""


def matrix_numbers(
    units: Iterable[Unit],
    spots: Mapping[str, Spot],
    covers: Callable[[Draft, str], Body | None],
    letterer: Letterer,
) -> list[FreeText]:
    """The names along the sides of all grids that ask for them.

    Each belongs to the part at its end of the column or row, so that a frame round the parts holds them too.
    """
    return [text for grid in _grids(units) for text in _Matrix(grid, spots, covers, letterer).texts()]


def _grids(units: Iterable[Unit]) -> Iterator[Arrangement]:
    for unit in units:
        if isinstance(unit, Arrangement):
            if isinstance(unit.fields, language.Grid) and unit.fields.numbers is not None:
                yield unit
            yield from _grids(unit.members)
        elif isinstance(unit, Assembly):
            yield from _grids(unit.units)


class _Matrix:
    """One grid where it stands; `cells` are its members by column, from the left, and row, from the top."""

    def __init__(
        self,
        grid: Arrangement,
        spots: Mapping[str, Spot],
        covers: Callable[[Draft, str], Body | None],
        letterer: Letterer,
    ) -> None:
        self.grid, self.spots, self.letterer = grid, spots, letterer
        assert isinstance(grid.fields, language.Grid)
        self.settings = grid.fields
        self.columns = self.settings.columns or 1
        by_columns = self.settings.order == "columns"
        numbered = arrange.cells_of(len(grid.members), self.columns, by_columns=by_columns)
        self.rows = max(row for _, row in numbered) + 1
        self.cells: dict[tuple[int, int], Draft] = {}
        boxes: list[Box] = []
        for cell, member in zip(numbered, grid.members, strict=True):
            drafts = [member] if isinstance(member, Draft) else list(member.drafts)
            if drafts:
                self.cells[cell] = drafts[0]
            for draft in drafts:
                spot, body = spots.get(draft.ref or ""), covers(draft, "front")
                if spot is not None and body is not None:
                    boxes.append(body.turned(spot.turn).reach.moved(Vector(*spot.at)))
        self.box = Box.around(boxes) if boxes else None

    def texts(self) -> Iterator[FreeText]:
        """Its names, those of the columns first."""
        numbers = self.settings.numbers
        spot = next((self._spot(draft) for draft in self.cells.values()), None)
        if numbers is None or self.box is None or spot is None or not self._is_level(numbers):
            return
        for axis, sides in enumerate((("above", "below"), ("left", "right"))):
            field, side_field = (
                (language.MatrixNumbers.columns, language.MatrixNumbers.columns_side),
                (language.MatrixNumbers.rows, language.MatrixNumbers.rows_side),
            )[axis]
            asked = numbers[side_field] or sides[0]
            flips = (spot.flips_upright, spot.flips_across)[axis]
            chosen = sides if asked == "both" else (sides[sides.index(asked) ^ flips],)
            names = self._names(numbers, field, axis)
            for side in chosen:
                for line, name in enumerate(names):
                    text = self._text(numbers, field, name, axis, line, side)
                    if text is not None:
                        yield text

    def _spot(self, draft: Draft) -> Spot | None:
        return self.spots.get(draft.ref or "")

    def _is_level(self, numbers: language.MatrixNumbers) -> bool:
        """Whether columns stand upright and rows lie level; a ring may turn a grid."""
        lines: dict[tuple[int, int], float] = {}
        for cell, draft in self.cells.items():
            spot = self._spot(draft)
            for axis in (0, 1):
                if spot is not None and abs(lines.setdefault((axis, cell[axis]), spot.at[axis]) - spot.at[axis]) > (
                    _LEVEL
                ):
                    turned = said.numbers_on_turned_grid(self.grid.name)
                    self.letterer.problems.add(numbers.begins, turned, said.remove_numbers())
                    return False
        return True

    def _names(self, numbers: language.MatrixNumbers, field: Field[Any], axis: int) -> list[str]:
        written = numbers[field]
        count, other = (self.columns, said.names_of_columns) if axis == 0 else (self.rows, said.names_of_rows)
        where = numbers.where(field)
        if written is None:
            return []
        if isinstance(written, str):
            return counted(written, count)
        names = [name.value for name in written if isinstance(name, Value)]
        if len(names) != count:
            self.letterer.problems.add(where, other(len(names), count), said.so_many_names(count))
        return names[:count]

    def _text(
        self, numbers: language.MatrixNumbers, field: Field[Any], name: str, axis: int, line: int, side: str
    ) -> FreeText | None:
        members = [draft for cell, draft in self.cells.items() if cell[axis] == line]
        spots = [(spot, draft) for draft in members if (spot := self._spot(draft)) is not None]
        request = self.letterer.request(name, numbers.where(field), numbers.style, self.grid.numbers)
        if request is None or not spots or self.box is None:
            return None
        sign = 1.0 if side in ("above", "right") else -1.0
        _, nearest = max(spots, key=lambda each: sign * each[0].at[1 - axis])
        marking = self.letterer.marking
        height = marking.styles[request.style].cap_height
        bare = marking.register + max(marking.placing.clearance, marking.process.opening_margin.value)
        clear = max(bare, HEADING * height)
        centre = spots[0][0].at
        at, anchor = {
            "above": (Point(centre.x, self.box.top + clear), Anchor.CENTRE),
            "below": (Point(centre.x, self.box.bottom - clear - height), Anchor.CENTRE),
            "left": (Point(self.box.left - clear, centre.y - height / 2), Anchor.RIGHT),
            "right": (Point(self.box.right + clear, centre.y - height / 2), Anchor.LEFT),
        }[side]
        return FreeText(request=request, at=at, anchor=anchor, of=nearest.ref or "")
