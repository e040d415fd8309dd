"""Circuit boards from the spec as written: each with its parts, found by ref, and the heights that were given."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from panelart.diagnostics import Where
from panelart.messages import spec as said
from panelart.model.panel import CircuitBoard, Part
from panelart.source.problems import Problems
from panelart.source.schema import Value
from panelart.spec import language

Named = Callable[[tuple[Value[str], ...]], tuple[str, ...]]
"""The refs that some written ones mean, each known and once; adds problems."""


def boards(
    written: Iterable[Value[language.Board]], parts: Iterable[Part], named: Named, problems: Problems
) -> tuple[CircuitBoard, ...]:
    """The boards of a panel; a problem for a part that is on two, that no board can carry, or that stands otherwise."""
    by_ref = {part.ref: part for part in parts}
    found: list[CircuitBoard] = []
    taken: dict[str, str] = {}
    for number, item in enumerate(written, 1):
        board = _board(item.value, number, by_ref, named, problems)
        for ref in board.refs:
            if ref in taken:
                problems.add(item.value.where(language.Board.parts), said.on_two_boards(ref), said.one_board_each())
            taken[ref] = board.name
        found.append(board)
    return tuple(found)


def _board(
    fields: language.Board, number: int, by_ref: Mapping[str, Part], named: Named, problems: Problems
) -> CircuitBoard:
    refs = named(fields.parts or ())
    spacers = dict(_heights(fields.spacers or (), refs, problems))
    heights = dict(_heights(fields.heights or (), refs, problems))
    _check([by_ref[ref] for ref in refs if ref in by_ref], heights, fields.where(language.Board.parts), problems)
    return CircuitBoard(
        name=fields.name or str(number),
        refs=refs,
        where=fields.begins,
        gap=fields.gap,
        spacers=tuple(spacers.items()),
        heights=tuple(heights.items()),
    )


def _check(parts: Sequence[Part], heights: Mapping[str, float], where: Where, problems: Problems) -> None:
    """Tells parts that no board can carry, and those that stand on it otherwise than others."""
    for part in parts:
        if part.component.board is None and part.ref not in heights:
            problems.add(where, said.not_for_a_board(part.ref, part.component.name), said.height_or_not_on_board())
    ways = {part.component.board.on_edge for part in parts if part.component.board is not None}
    if len(ways) > 1:
        problems.add(where, said.board_both_ways(), said.one_way_each())


def _heights(
    written: Iterable[tuple[Value[str], Value[float]]], refs: tuple[str, ...], problems: Problems
) -> Iterator[tuple[str, float]]:
    """The heights by ref, of parts that are on the board."""
    for ref, height in written:
        if ref.value in refs:
            yield ref.value, height.value
        else:
            problems.add(ref.where, said.not_on_this_board(ref.value), said.a_ref_of_the_board())
