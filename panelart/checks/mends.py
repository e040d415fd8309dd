"""What may clear a finding: changes of a panel in the trade's terms, made by the rules that know what would help.

A rule names its makers, `mends=(moved_apart,)`, or has one of its own: a function from a finding and its panel to
changes, the smallest first. `panelart.suggestions` writes each change into the spec, tries it, and keeps what is
verified; nothing here is promised to help.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Finding, Spelling
from panelart.diagnostics import Where
from panelart.geometry import Box, Point, Vector
from panelart.model.component import Role
from panelart.model.panel import Panel, Part

STEP: Final = 0.1
"""Moves are rounded up to tenths of a millimetre, cap heights to twentieths."""

HEIGHT_STEP: Final = 0.05

_TIMES: Final = (1, 2, 4, 8)
"""Multiples of the minimum move: two controls that just clear each other leave no space for a finger between them."""

_PLAY: Final = (0.2, 0.3, 0.4, 0.5, 0.1, 0.0)
"""Play of a larger hole, mm, in the order tried: 0.2 is that of most bushings in the catalogue, less only where more
brings another finding."""

_SIDES: Final = ("above", "below", "right", "left")


class Move(Struct, frozen=True):
    """A part moved, in mm."""

    ref: str
    x: float
    y: float


class EnlargeHole(Struct, frozen=True):
    """The one round hole of a part at another diameter, in mm; `role` is what the hole is for."""

    ref: str
    role: Role
    diameter: float


class MoveText(Struct, frozen=True):
    """A free text moved, in mm; `where` is its place in the spec."""

    where: Where
    x: float
    y: float


class PlaceName(Struct, frozen=True):
    """The name of a part placed on one of its sides: above, below, right, left."""

    ref: str
    side: str


class Raise(Struct, frozen=True):
    """The cap height of one legend, or the height of a symbol, in mm; `where` is its place in the spec."""

    where: Where
    height: float
    symbol: bool = False


class RaiseStyle(Struct, frozen=True):
    """The cap height of a style, in mm."""

    style: str
    height: float


class EnlargeLettering(Struct, frozen=True):
    """The cap height of all lettering, times a factor."""

    factor: float


class ChooseSheet(Struct, frozen=True):
    """Sheet of another thickness, in mm."""

    thickness: float


class Respell(Struct, frozen=True):
    """Words of a text written otherwise; `where` is its place in the spec."""

    where: Where
    spellings: tuple[Spelling, ...]


class Rewrite(Struct, frozen=True):
    """Stretches of several texts written otherwise, in one edit; `places` are those of the texts in the spec."""

    places: tuple[Where, ...]
    spellings: tuple[Spelling, ...]


class Tell(Struct, frozen=True):
    """What stretches of texts are, said in braces, in one edit; `places` as of a Rewrite."""

    places: tuple[Where, ...]
    spellings: tuple[Spelling, ...]


Mend: TypeAlias = (
    Move
    | EnlargeHole
    | MoveText
    | PlaceName
    | Raise
    | RaiseStyle
    | EnlargeLettering
    | ChooseSheet
    | Respell
    | Rewrite
    | Tell
)
Mends: TypeAlias = Callable[[Finding, Panel], Iterator[Mend]]


def rounded_up(value: float, step: float) -> float:
    """The next multiple of a step that is not less."""
    return round(math.ceil(value / step - 1e-9) * step, 6)


def needed(finding: Finding) -> float | None:
    """How far something must move, in mm; None where the finding has no lengths, or nothing is short."""
    if finding.measured is None or finding.limit is None or finding.unit != "mm":
        return None
    short = finding.measured - finding.limit if finding.bound is Bound.MAXIMUM else finding.limit - finding.measured
    return rounded_up(short + 0.005, STEP) if short > 0 else None


# --- parts


def moved_apart(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """Each of the first two parts that the finding names, away from what it meets, along x and y."""
    parts = _parts(finding, panel)
    middle = _middle(finding)
    yield from _moves(finding, [(part, _between(_other(part, parts, middle), part.at)) for part in parts])


def moved_inwards(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """A part towards the middle of the face; of two parts each away from the other."""
    parts = _parts(finding, panel)
    middle = panel.outline.bounds.centre
    if len(parts) > 1:
        yield from moved_apart(finding, panel)
    else:
        yield from _moves(finding, [(part, _between(part.at, middle)) for part in parts])


def _parts(finding: Finding, panel: Panel) -> list[Part]:
    return [panel.by_ref[ref] for ref in finding.refs if ref in panel.by_ref][:2]


def _other(part: Part, parts: list[Part], middle: Point) -> Point:
    return next((one.at for one in parts if one is not part), middle)


def _moves(finding: Finding, parts: list[tuple[Part, Vector]]) -> Iterator[Mend]:
    """Each part the likelier two ways, by the minimum first."""
    short = needed(finding)
    if short is None:
        return
    for times in _TIMES:
        for number in (0, 1):
            for part, away in parts:
                by = _ways(away)[number].scaled(round(short * times, 6))
                yield Move(part.ref, by.x, by.y)


def _between(here: Point, there: Point) -> Vector:
    return Vector(there.x - here.x, there.y - here.y)


def _ways(away: Vector) -> list[Vector]:
    """Left, right, up and down, the likeliest first."""
    ways = [Vector(1.0, 0.0), Vector(-1.0, 0.0), Vector(0.0, 1.0), Vector(0.0, -1.0)]
    return sorted(ways, key=lambda way: -(way.x * away.x + way.y * away.y))


def _middle(finding: Finding) -> Point:
    return finding.place.centre if isinstance(finding.place, Box) else finding.place


def larger_hole(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """A round hole so much larger that what must pass goes through, with some play, in tenths of a millimetre."""
    part = panel.by_ref.get(finding.refs[0]) if finding.refs else None
    if part is None or len(part.component.openings) != 1 or finding.measured is None or finding.limit is None:
        return
    hole = part.component.openings[0]
    round_ = hole.contour.circle
    if round_ is not None:
        _, radius = round_
        short = finding.measured - finding.limit
        for play in _PLAY:
            yield EnlargeHole(part.ref, hole.role, rounded_up(2.0 * (radius + short) + play, STEP))


# --- legends


def other_sides(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """The name of the part on each of its four sides."""
    for ref in finding.refs[:1]:
        if ref in panel.by_ref:
            yield from (PlaceName(ref, side) for side in _SIDES)


def moved_texts(finding: Finding, panel: Panel) -> Iterator[Mend]:
    """A free text, in each direction, by the minimum first."""
    short = needed(finding)
    if short is None:
        return
    inwards = _between(_middle(finding), panel.outline.bounds.centre)
    for times in _TIMES:
        for way in _ways(inwards):
            by = way.scaled(round(short * times, 6))
            yield MoveText(finding.where, by.x, by.y)


def raised(finding: Finding, panel: Panel, *, symbol: bool = False) -> Iterator[Mend]:
    """A larger cap height: of the legend, of its style, of all lettering."""
    if finding.measured is None or finding.limit is None:
        return
    wanted = rounded_up(finding.limit, HEIGHT_STEP)
    yield Raise(finding.where, wanted, symbol)
    for name, style in panel.marking.styles.items():
        if math.isclose(style.cap_height, finding.measured, abs_tol=1e-6):
            yield RaiseStyle(name, wanted)
    yield EnlargeLettering(finding.limit / finding.measured)


def enlarged(finding: Finding, panel: Panel) -> Iterator[Mend]:  # noqa: ARG001  # as every maker of mends
    """All lettering larger, as much as the finding is short: strokes, gaps and marks grow with the capitals."""
    if finding.measured and finding.limit and finding.measured < finding.limit:
        yield EnlargeLettering(finding.limit / finding.measured)


def respelt(finding: Finding, panel: Panel) -> Iterator[Mend]:  # noqa: ARG001  # as every maker of mends
    """The words of the finding as they must be written."""
    if finding.spellings:
        yield Respell(finding.where, finding.spellings)


def rewritten(finding: Finding, panel: Panel) -> Iterator[Mend]:  # noqa: ARG001  # as every maker of mends
    """All texts of the finding at once."""
    if finding.spellings:
        yield Rewrite(tuple(dict.fromkeys(spot.where for spot in finding.each)), finding.spellings)


def told(finding: Finding, panel: Panel) -> Iterator[Mend]:  # noqa: ARG001  # as every maker of mends
    """Units and words of all texts of the finding, where what stands beside them decides."""
    if finding.spellings:
        yield Tell(tuple(dict.fromkeys(spot.where for spot in finding.each)), finding.spellings)


# --- sheet


def other_sheet(finding: Finding, panel: Panel) -> Iterator[Mend]:  # noqa: ARG001  # as every maker of mends
    """Sheet as thick as the limit."""
    if finding.limit is not None:
        yield ChooseSheet(finding.limit)
