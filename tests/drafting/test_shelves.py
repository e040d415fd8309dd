"""The arranger's own laws: the chosen stack is the cheapest of all, and nothing stands too near."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.checks.limits import standard
from panelart.drafting.blocks import Block, Level
from panelart.drafting.free import empty_rectangles
from panelart.drafting.shapes import shapes
from panelart.drafting.shelves import FILL, SHELF, WIDE_ENOUGH, Group, Shelving, between_shelves, stacks
from panelart.drafting.sizes import grid_step, size_wish
from panelart.drafting.spacing import Spacing
from panelart.drafting.spread import spread
from panelart.geometry import Box
from tests.effort import examples

SPACING = Spacing(limits=standard())


def block(
    ref: str, width: float, height: float, level: Level = Level.CONTROL, behind: float = 0.0, *, mains: bool = False
) -> Block:
    """A part whose body behind, and whose pitch, are so much higher than what is seen of it."""
    box = Box(-width / 2, -height / 2, width / 2, height / 2)
    deep = Box(-width / 2, -height / 2 - behind, width / 2, height / 2 + behind) if behind else None
    return Block(
        refs=(ref,), kind=f"{width}x{height}", level=level, face=box, front=box, rear=deep,
        hands=((box, "knob"),) if level is Level.CONTROL else (), mains=mains,
        pitches=() if deep is None else (deep.grown(1.0),),
    )  # fmt: skip


BLOCKS = st.builds(
    lambda width, height, level, behind: (width, height, level, behind),
    st.sampled_from([8.0, 12.0, 25.5, 48.0]),
    st.sampled_from([8.0, 14.0, 30.0]),
    st.sampled_from(list(Level)),
    st.sampled_from([0.0, 0.0, 8.0]),
)


@st.composite
def groups(draw: st.DrawFn) -> list[Group]:
    found = []
    for number in range(draw(st.integers(1, 4))):
        some = draw(st.lists(BLOCKS, min_size=1, max_size=5))
        blocks = tuple(block(f"X{number}{index}", *each) for index, each in enumerate(some))
        beside = draw(st.sampled_from([0.0, 3.35]))
        found.append(
            Group(
                name="", blocks=blocks, shapes=tuple(shapes(blocks, SPACING, 2000.0)), beside=beside,
                above=2 * beside, below=beside,
            )
        )  # fmt: skip
    return found


def every_cost(some: list[Group], width: float, height: float):
    """The cost of every way to cut the groups into shelves and to choose one of the shelves that are on offer."""
    shelving = Shelving(some, SPACING)
    count = len(some)
    for cuts in itertools.product((False, True), repeat=count - 1):
        starts = [0, *(index + 1 for index, cut in enumerate(cuts) if cut), count]
        for chosen in itertools.product(*(shelving.shelves(a, b - 1) for a, b in itertools.pairwise(starts))):
            used = sum(one.height for one in chosen) + sum(
                itertools.starmap(between_shelves, itertools.pairwise(chosen))
            )
            used += chosen[0].edges[0] + chosen[-1].edges[1]
            if any(one.width > width for one in chosen) or used > height:
                continue
            cost = sum(one.cost + FILL * (1 - min(1, WIDE_ENOUGH * one.width / width)) ** 2 for one in chosen)
            yield cost + SHELF * (len(chosen) - 1) + FILL * (1 - min(1, WIDE_ENOUGH * used / height)) ** 2


@settings(max_examples=examples(60), deadline=None)
@given(groups(), st.sampled_from([90.0, 150.0, 240.0]), st.sampled_from([70.0, 120.0, 200.0]))
def test_the_stack_is_the_cheapest_of_all(some: list[Group], width: float, height: float) -> None:
    """Every other stack is tried, one by one."""
    found = stacks(Shelving(some, SPACING), width, height)
    costs = list(every_cost(some, width, height))
    assert bool(found) == bool(costs)
    if found:
        assert found[0].cost == pytest.approx(min(costs))


@settings(max_examples=examples(100), deadline=None)
@given(groups(), st.sampled_from([120.0, 260.0]), st.sampled_from([90.0, 200.0]))
def test_nothing_overlaps_and_all_is_inside(some: list[Group], width: float, height: float) -> None:
    area = Box(10.0, 20.0, 10.0 + width, 20.0 + height)
    for stack in stacks(Shelving(some, SPACING), width, height, 3):
        places = spread(stack, area, SPACING)
        boxes = [
            one.face.moved(places[one.ref].minus(type(places[one.ref])(0.0, 0.0)))
            for group in some
            for one in group.blocks
        ]
        for one, two in itertools.combinations(boxes, 2):
            assert max(one.left - two.right, two.left - one.right, one.bottom - two.top, two.bottom - one.top) >= 2.5
        for box in boxes:
            assert area.grown(0.51).contains(box)


def test_parts_of_other_sizes_have_equal_gaps_and_those_of_one_size_equal_pitches() -> None:
    """A meter with two pilots of 29 mm and a lamp: as a sign maker spaces, by what is seen between things."""
    widths = [96.0, 29.0, 29.0, 29.0, 10.0]
    row = tuple(block(f"X{number}", width, 20.0, Level.DISPLAY) for number, width in enumerate(widths))
    one_row = next(shape for shape in shapes(row, SPACING, 2000.0) if len(shape.rows) == 1)
    (places,) = one_row.places(SPACING)
    gaps = [places[at + 1] - places[at] - (widths[at] + widths[at + 1]) / 2 for at in range(len(widths) - 1)]
    assert gaps == pytest.approx([3.0] * 4, abs=SPACING.grid / 2 + 1e-9)


@settings(max_examples=examples(100), deadline=None)
@given(st.lists(st.tuples(*[st.integers(0, 100)] * 4), max_size=5))
def test_empty_rectangles_are_empty_and_leave_no_empty_point_out(corners: list[tuple[int, int, int, int]]) -> None:
    face = Box(0.0, 0.0, 100.0, 100.0)
    taken = [Box(min(a, c), min(b, d), max(a, c) + 1.0, max(b, d) + 1.0) for a, b, c, d in corners]
    rooms = empty_rectangles(face, taken)
    for room in rooms:
        assert face.contains(room)
        assert not any(
            room.left < box.right and box.left < room.right and room.bottom < box.top and box.bottom < room.top
            for box in taken
        )
    for x, y in itertools.product(range(5, 100, 10), repeat=2):
        square = Box(x - 4.5, y - 4.5, x + 4.5, y + 4.5)
        if not any(
            square.left < b.right and b.left < square.right and square.bottom < b.top and b.bottom < square.top
            for b in taken
        ):
            assert any(room.contains(square) for room in rooms)


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("260x110", 260.0, 110.0),
        ("260 X 110", 260.0, 110.0),
        ("10in x 4in", 254.0, 101.6),
        ("260x", 260.0, None),
        ("x110", None, 110.0),
        ("smallest", None, None),
        ("3U", 482.6, 132.56),
        ("42HPx3U", 213.36, 132.56),
    ],
)
def test_sizes(text: str, width: float | None, height: float | None) -> None:
    """3U is 132.56 mm high: 3 x 44.45 - 0.79, IEC 60297-3-100; HP is 5.08 mm, IEC 60297-3-101."""
    wish = size_wish(text)
    assert (wish.width, wish.height) == (width, height)


@pytest.mark.parametrize("text", ["260", "x", "axb", "5x5", "260x110x5", "9999x10", "-3x40", "1e9x1e9", "nanxnan"])
def test_what_is_no_size(text: str) -> None:
    with pytest.raises(ValueError, match="not a panel size"):
        size_wish(text)


def test_grids() -> None:
    assert [grid_step(text) for text in ("1", "0.1 in", "inch", "HP")] == [1.0, 2.54, 2.54, 5.08]
    for text in ("0", "999"):
        with pytest.raises(ValueError, match="grid"):
            grid_step(text)
