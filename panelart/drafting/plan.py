"""Blocks to places: zones in the order of use, a size where none is given, fixings at the edges."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from enum import IntEnum
from operator import attrgetter
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.blocks import MARGIN, Block, Fixing, Level
from panelart.drafting.columns import Arrangement
from panelart.drafting.families import Family, evened, families
from panelart.drafting.figures import Figures, figures_of
from panelart.drafting.free import empty_rectangles
from panelart.drafting.ideas import GENEROUS, Idea, of_ideas
from panelart.drafting.shapes import Shape, shapes
from panelart.drafting.shelves import BETWEEN, SHELF, Group, Shelf, Shelving, stacks
from panelart.drafting.sized import LOOKS, MANY_WIDTHS, MAX_HEIGHT, SIDES, Faces, Sized, stepped
from panelart.drafting.spacing import Spacing
from panelart.drafting.spread import spread
from panelart.drafting.variants import variants
from panelart.geometry import ORIGIN, Box, Point
from panelart.messages import Message
from panelart.messages import drafting as said

CORNER_INSET: Final = 7.0
"""From the edges to the centres of corner screws, mm; more where their heads are large. Common practice."""


class Wish(Struct, frozen=True, kw_only=True):
    """The size of the face as far as it is given, in mm; `sizes` are those to choose from where none is given."""

    width: float | None = None
    height: float | None = None
    sizes: tuple[tuple[float, float], ...] = ()
    side_margin: float = MARGIN


class Zone(Struct, frozen=True, kw_only=True):
    """Blocks that belong together by the designer's word (a frame), or by what they are ('')."""

    name: str
    blocks: tuple[Block, ...]
    framed: bool = False
    title_width: float = 0.0
    title_height: float = 0.0
    margin: float = 3.0
    line: float = 0.35


class Titles(Struct, frozen=True, kw_only=True):
    """Titles of frames that are wider than the parts inside, and by how much shorter ones narrow a face, mm."""

    names: tuple[str, ...]
    saving: float


class Plan(Struct, frozen=True, kw_only=True):
    """Where everything goes on a face of this size, and what the arrangement costs."""

    size: tuple[float, float]
    places: Mapping[str, Point]
    cost: float
    idea: Idea = Idea.OVERALL
    figures: Figures | None = None
    titles: Titles | None = None


NOTHING: Final = Arrangement(columns=(), height=0.0, cost=0.0)
"""The arrangement of a panel that has only fixings."""


class NoRoomError(Exception):
    """The parts do not fit on the face; the message says what would."""


class Use(IntEnum):
    """The order in which zones are used: mains first, an emergency stop last."""

    MAINS = 0
    WORKED = 2
    PLUGGED = 3
    AIR = 4
    STOP = 5


def zones(blocks: Sequence[Block], framed: Sequence[Zone]) -> list[Zone]:
    """The zones in the order of use: mains, then as listed, then what is only plugged in, air, the emergency stop.

    Blocks in no frame make zones of their own by what they are: mains, emergency stop, air, and all others together.
    """
    inside = {block.ref for zone in framed for block in zone.blocks}
    free = [block for block in blocks if block.ref not in inside]
    order = {block.ref: number for number, block in enumerate(blocks)}
    ranked = [(_rank(zone.blocks), zone) for zone in framed]
    ranked += [
        (use, Zone(name="", blocks=tuple(some))) for use, some in _by_use(free, together=bool(framed)).items() if some
    ]
    found = [(use, min(order[block.ref] for block in zone.blocks), zone) for use, zone in ranked]
    return [zone for _, _, zone in sorted(found, key=lambda each: each[:2])]


FEW: Final = 14
"""So many parts without a group stand together, connectors below; more stand in zones by what they are."""


def _by_use(blocks: Sequence[Block], *, together: bool) -> dict[Use, list[Block]]:
    """Blocks by what they are; those that are neither mains, stop nor air stay together where there are few."""
    rest = sum(_is_usual(block) for block in blocks)
    parted = not together and rest > FEW
    found: dict[Use, list[Block]] = {use: [] for use in Use}
    for block in blocks:
        for use in _uses(block, parted=parted):
            found[use].append(block)
    return found


def _is_usual(block: Block) -> bool:
    return not (block.emergency or block.air or block.mains)


def _uses(block: Block, *, parted: bool) -> list[Use]:
    """What a block is; `parted` when connectors have a zone of their own."""
    if _is_usual(block):
        return [Use.PLUGGED if parted and block.level is Level.CONNECTOR else Use.WORKED]
    is_of = ((Use.MAINS, block.mains and not block.emergency), (Use.AIR, block.air), (Use.STOP, block.emergency))
    return [use for use, so in is_of if so]


def _rank(blocks: Sequence[Block]) -> Use:
    if any(block.emergency for block in blocks):
        return Use.STOP
    if all(block.air for block in blocks):
        return Use.AIR
    if sum(block.mains for block in blocks) * 2 >= len(blocks):
        return Use.MAINS
    return Use.PLUGGED if all(block.level is Level.CONNECTOR for block in blocks) else Use.WORKED


def plans(
    blocks: Sequence[Block], framed: Sequence[Zone], wish: Wish, spacing: Spacing, maximum: int = 1
) -> list[Plan]:
    """The best arrangement, and others that differ from it in idea. Raises NoRoomError.

    The last of three and more has more white, where the size is free: on a face that is larger both ways.
    """
    if maximum < 3 or wish.width is not None or wish.height is not None or wish.sizes:
        return _arrangements(blocks, framed, wish, spacing, maximum)
    made = _arrangements(blocks, framed, wish, spacing, maximum - 1)
    width, height = (stepped(GENEROUS * side) for side in made[0].size)
    with suppress(NoRoomError):
        more = _arrangements(blocks, framed, replace(wish, width=width, height=height), spacing, 1)
        made += [replace(one, idea=Idea.GENEROUS) for one in more]
    return made


def _arrangements(
    blocks: Sequence[Block], framed: Sequence[Zone], wish: Wish, spacing: Spacing, maximum: int
) -> list[Plan]:
    """The best arrangements, one of each idea."""
    corner, side = _fixed_by(blocks, Fixing.CORNER), _fixed_by(blocks, Fixing.SIDE)
    margin = max(wish.side_margin, _corner_room(corner), _side_room(side))
    groups, alike = _groups(zones(_fixed_by(blocks, Fixing.NONE), framed), spacing)
    if groups:
        found = of_ideas(_sized(groups, alike, wish, spacing, margin, maximum, _side_height(side)), maximum)
    else:
        blank = Sized(width=wish.width or 100.0, height=wish.height or 60.0, arrangement=NOTHING, worth=0.0)
        found = [(Idea.OVERALL, blank)]
    made = []
    for idea, one in found:
        places = _at_edges(blocks, (one.width, one.height))
        for column in one.arrangement.columns:
            left = margin + column.left
            places |= spread(column.stack, Box(left, MARGIN, left + column.width, one.height - MARGIN), spacing)
        size = (one.width, one.height)
        figures = figures_of(blocks, places, size)
        titles = _wide_titles(one.arrangement, spacing) if wish.width is None else None
        cost = one.arrangement.cost
        made.append(Plan(size=size, places=places, cost=cost, idea=idea, figures=figures, titles=titles))
    return made


_LITTLE: Final = 4.0
"""What shorter titles must save at least to be told, mm."""


def _wide_titles(arrangement: Arrangement, spacing: Spacing) -> Titles | None:
    """The titles that make a face wider than its parts need; None where there are none."""
    saved = 0.0
    names: list[str] = []
    for column in arrangement.columns:
        shelves = [(one.width, _beyond_parts(one, spacing)) for one in column.stack.shelves]
        widest = max(width for width, _ in shelves)
        saved += widest - max(width - math.fsum(beyond.values()) for width, beyond in shelves)
        names += [name for _, beyond in shelves for name in beyond]
    return Titles(names=tuple(names), saving=saved) if saved >= _LITTLE else None


def _beyond_parts(one: Shelf, spacing: Spacing) -> dict[str, float]:
    """How much wider than its parts each group of a shelf is because of its title, mm, by its name."""
    found = {}
    for group, form in zip(one.groups, one.forms, strict=True):
        own = replace(group, minimum_width=0.0)
        beyond = math.fsum(group.reach(form, spacing)) - math.fsum(own.reach(form, spacing))
        if beyond > 0.5:
            found[group.name] = beyond
    return found


def _groups(found: Sequence[Zone], spacing: Spacing) -> tuple[list[Group], list[Family]]:
    """Zones as groups with their forms, and which of them are alike and have their forms in common."""
    alike = families([(zone.name, zone.blocks) for zone in found])
    groups: dict[int, Group] = {}
    for family in alike:
        rows = evened([found[member].blocks for member in family.members])
        wide = max(found[member].title_width for member in family.members)
        like = [
            replace(found[member], blocks=blocks, title_width=wide)
            for member, blocks in zip(family.members, rows, strict=True)
        ]
        first = _group(like[0], spacing)
        kin = tuple(zone.name for zone in like)
        for member, zone in zip(family.members, like, strict=True):
            groups[member] = replace(_of_like_forms(zone, first, spacing), kin=kin)
    return [groups.get(number) or _group(zone, spacing) for number, zone in enumerate(found)], alike


def _of_like_forms(zone: Zone, model: Group, spacing: Spacing) -> Group:
    """A zone as a group in the forms of one that is like it, block by block."""
    own = dict(zip((block.ref for block in model.blocks), zone.blocks, strict=True))
    forms = tuple(
        replace(form, rows=tuple(tuple(own[block.ref] for block in row) for row in form.rows)) for form in model.shapes
    )
    return _group(zone, spacing, forms)


def _fixed_by(blocks: Sequence[Block], kind: Fixing) -> list[Block]:
    return [block for block in blocks if block.fixing is kind]


def _at_edges(blocks: Sequence[Block], size: tuple[float, float]) -> dict[str, Point]:
    """Where what does not stand in a group goes: to the corners, to the sides, or as a standard has it."""
    width, height = size
    corner, side = _fixed_by(blocks, Fixing.CORNER), _fixed_by(blocks, Fixing.SIDE)
    places = _corners(corner, width, height) | _sides(side, width, height)
    return places | {block.ref: Point(width / 2, height / 2) for block in _fixed_by(blocks, Fixing.STANDARD)}


def filled(
    blocks: Sequence[Block],
    framed: Sequence[Zone],
    size: tuple[float, float],
    rooms: Sequence[Box],
    spacing: Spacing,
    maximum: int = 1,
) -> list[Plan]:
    """The best arrangements within empty rooms of a face, best first: all in one room, else zone by zone.

    Raises NoRoomError.
    """
    at_edges = _at_edges(blocks, size)
    groups = [_group(zone, spacing) for zone in zones(_fixed_by(blocks, Fixing.NONE), framed)]
    if not groups:
        return [Plan(size=size, places=at_edges, cost=0.0)]
    left = _left_of(rooms, blocks, at_edges)
    shelving = Shelving(groups, spacing)
    # White in a room is no fault where other things stand round it: only the forms count, then the larger room.
    options = [
        (math.fsum(one.cost for one in stack.shelves) + SHELF * len(stack.shelves), number, stack)
        for number, room in enumerate(left)
        for stack in stacks(shelving, room.width, room.height, maximum)
    ]
    if options:
        best = sorted(options, key=lambda option: option[:2])[:maximum]
        return [
            Plan(size=size, places=spread(stack, left[number], spacing) | at_edges, cost=cost)
            for cost, number, stack in best
        ]
    return [_zone_by_zone(groups, left, spacing, Plan(size=size, places=at_edges, cost=0.0))]


def _left_of(rooms: Sequence[Box], blocks: Sequence[Block], at_edges: Mapping[str, Point]) -> list[Box]:
    """What corners and sides leave of the empty rooms of a face."""
    fixed = [block for block in blocks if block.fixing in (Fixing.CORNER, Fixing.SIDE)]
    taken = [_at(block.all_round, at_edges[block.ref]).grown(2.0) for block in fixed]
    return [room for each in rooms for room in empty_rectangles(each, taken)] if taken else list(rooms)


def _zone_by_zone(groups: Sequence[Group], rooms: Sequence[Box], spacing: Spacing, plan: Plan) -> Plan:
    """The largest zone first, each where it costs least in what is still empty. Raises NoRoomError."""
    places, cost = dict(plan.places), 0.0
    left = list(rooms)
    for group in sorted(groups, key=lambda group: -len(group.blocks)):
        options = [
            (stack.cost, number, stack)
            for number, room in enumerate(left)
            for stack in stacks(Shelving([group], spacing), room.width, room.height)
        ]
        if not options:
            raise NoRoomError(_no_room(group, plan.size))
        added, number, stack = min(options, key=lambda option: option[:2])
        here = spread(stack, left[number], spacing)
        places |= here
        cost += added
        outer = [_at(block.all_round, here[block.ref]).grown(group.above + BETWEEN) for block in group.blocks]
        left = [room for each in left for room in empty_rectangles(each, outer)]
    return Plan(size=plan.size, places=places, cost=cost)


def _no_room(group: Group, size: tuple[float, float]) -> Message:
    if group.name:
        return said.no_room_for_group(group=group.name, size=size)
    return said.no_room_for_parts(refs=[block.ref for block in group.blocks], size=size)


def _at(box: Box, at: Point) -> Box:
    return box.moved(at.minus(ORIGIN))


def _group(zone: Zone, spacing: Spacing, forms: tuple[Shape, ...] | None = None) -> Group:
    """A zone as a group in all the forms that its blocks can take, or in those given."""
    rise = zone.title_height / 2
    beside = zone.margin + zone.line if zone.framed else 0.0
    return Group(
        name=zone.name,
        blocks=zone.blocks,
        shapes=tuple(shapes(zone.blocks, spacing, 2000.0)) if forms is None else forms,
        beside=beside,
        above=zone.margin + 2 * rise + zone.line if zone.framed else 0.0,
        below=beside,
        minimum_width=zone.title_width,
    )


def _sized(
    groups: Sequence[Group],
    alike: Sequence[Family],
    wish: Wish,
    spacing: Spacing,
    margin: float,
    maximum: int,
    lowest: float,
) -> list[Sized]:
    """Sizes with their arrangements, best first, of free height not below the lowest. Raises NoRoomError."""
    faces = Faces(variants(groups, alike, spacing), spacing, margin, maximum)
    found = _on_faces(faces, wish, lowest)
    if not found and alike:
        # Where like groups cannot all be alike each takes the form that fits.
        faces = Faces(variants(groups, (), spacing), spacing, margin, maximum)
        found = _on_faces(faces, wish, lowest)
    if not found:
        raise NoRoomError(_why_not(faces, wish))
    return found


def _on_faces(faces: Faces, wish: Wish, lowest: float) -> list[Sized]:
    """The arrangements on the face that is wished, best first."""
    if wish.width is not None and wish.height is not None:
        return faces.given(wish.width, wish.height)
    if wish.sizes:
        return _smallest_of(sorted(wish.sizes, key=lambda size: (size[0] * size[1], size)), faces)
    widths = [side for side in SIDES if faces.narrowest() <= side <= faces.widest()]
    widths = widths[:: 1 + len(widths) // MANY_WIDTHS]
    if wish.height is not None:
        return _smallest_of([(width, wish.height) for width in widths], faces)
    if wish.width is not None:
        return faces.of_width(wish.width, lowest)
    return faces.smallest(widths, lowest)


def _smallest_of(sizes: Sequence[tuple[float, float]], faces: Faces) -> list[Sized]:
    options = [
        (width * height * (1.0 + LOOKS * found[0].worth), number, found)
        for number, (width, height) in enumerate(sizes)
        if (found := faces.given(width, height))
    ]
    return min(options, key=lambda option: option[:2])[2] if options else []


def _why_not(faces: Faces, wish: Wish) -> Message:
    """Why nothing fits, and what would."""
    if wish.width is not None and wish.height is not None:
        return _what_would(wish.width, wish.height, faces)
    if wish.sizes or wish.height is not None:
        return said.given_sizes_too_small(count=len(wish.sizes) or len(SIDES))
    return said.largest_face_too_small(maximum=(SIDES[-1], MAX_HEIGHT))


def _what_would(width: float, height: float, faces: Faces) -> Message:
    larger: list[Message] = []
    lower = faces.lowest(width)
    if lower is not None:
        larger.append(said.panel_size(size=(width, stepped(lower))))
    wider = next((side for side in SIDES if side > width and faces.given(side, height)), None)
    if wider is not None:
        larger.append(said.panel_size(size=(wider, height)))
    if not larger:
        return said.face_too_small(size=(width, height))
    return said.face_too_small_but(size=(width, height), sizes=larger)


# --- fixings


def _inset(blocks: Sequence[Block]) -> float:
    return max(
        CORNER_INSET, *(math.ceil(max(block.all_round.width, block.all_round.height) / 2 + 2.0) for block in blocks)
    )


def _corner_room(blocks: Sequence[Block]) -> float:
    if not blocks:
        return 0.0
    reach = max(block.all_round.right for block in blocks)
    stacked = max(0, -(-(len(blocks) - 2) // 4) - 1)  # two that are left stand in the middle of the sides
    return math.ceil(_inset(blocks) + reach + 2.0) + stacked * math.ceil(2 * reach + 3.0)


def _corners(blocks: Sequence[Block], width: float, height: float) -> dict[str, Point]:
    """Four to the corners, two to the middle of the sides; further fours beside the first."""
    places: dict[str, Point] = {}
    if not blocks:
        return places
    inset = _inset(blocks)
    step = math.ceil(2 * max(block.all_round.right for block in blocks) + 3.0)
    for start in range(0, len(blocks), 4):
        some = blocks[start : start + 4]
        x = inset + step * (start // 4)
        at = [(x, inset), (width - x, inset), (x, height - inset), (width - x, height - inset)]
        if len(some) <= 2:
            at = [(inset, height / 2), (width - inset, height / 2)]
        places |= {block.ref: Point(*where) for block, where in zip(some, at, strict=False)}
    return places


def _side_room(blocks: Sequence[Block]) -> float:
    """What handles and locks take of the face on either side, the hand at a handle with it."""
    reaches = (_side_inset(block) + max(block.front.right, block.all_round.right) for block in blocks)
    return math.ceil(max(reaches) + 3.0) if blocks else 0.0


def _side_inset(block: Block) -> float:
    return MARGIN + block.all_round.width / 2


def _side_height(blocks: Sequence[Block]) -> float:
    """The least height of a panel with these handles and locks at its sides."""
    rows = -(-len(blocks) // 2)
    return rows * (max(block.all_round.height for block in blocks) + MARGIN) + MARGIN if blocks else 0.0


def _sides(blocks: Sequence[Block], width: float, height: float) -> dict[str, Point]:
    """Handles and locks, by turns at the left and the right."""
    places: dict[str, Point] = {}
    for number, block in enumerate(blocks):
        row, right = divmod(number, 2)
        inset = _side_inset(block)
        y = height / 2 if len(blocks) <= 2 else height * (row + 1) / (-(-len(blocks) // 2) + 1)
        places[block.ref] = Point(width - inset if right else inset, y)
    return places


def alignments_broken(places: Mapping[str, Point], refs: Iterable[str], within: float = 0.2) -> int:
    """How many coordinates of parts are no other's: of parts in no row with another, and of those in no column.

    A row or column is a common coordinate to `within` mm. Where all stand in one row there are no columns to break, and
    the other way round.
    """
    chosen = [places[ref] for ref in refs]
    for along in (attrgetter("x"), attrgetter("y")):
        if chosen and max(map(along, chosen)) - min(map(along, chosen)) <= within:
            return 0
    broken = 0
    for number, at in enumerate(chosen):
        others = [other for index, other in enumerate(chosen) if index != number]
        row = any(abs(at.y - other.y) <= within for other in others)
        column = any(abs(at.x - other.x) <= within for other in others)
        broken += (not row) + (not column)
    return broken
