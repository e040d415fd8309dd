"""The flat blank of a panel with bent edges: its outline, its bends, and every opening where it is cut.

Each edge is unfolded in a frame of its own, u along the edge and w outwards from the corner line of the bend, where
the outside of the face meets the outside of the flange. There the flat of the face ends at w = -setback, the metal
of the bend follows, then the flat of the flange; so what lies d from the corner line down the outside of the flange
is found on the blank at w = d - deduction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cutouts.bending import allowance_by, setback
from panelart.geometry import Arc, Box, Contour, Point, Transform, Vector, polygon, self_crossing
from panelart.messages import cutouts as said
from panelart.model.layout import FACE, BendLine, Blank, BlankHole, CutOpening
from panelart.model.metal import Bending, Edge, Flange, Relief, Return, Towards
from panelart.model.panel import Allowance, Panel

_SAME = 1e-6

AROUND = (Edge.BOTTOM, Edge.RIGHT, Edge.TOP, Edge.LEFT)
"""The edges counter-clockwise, as an outline runs."""


class Bent(Struct, frozen=True, kw_only=True):
    """A flange worked out in metal: sizes without the coat, in mm.

    `start` and `end` are the ends of the flange along the edge, in the panel's own x or y. `setback`, `allowance` and
    `deduction` are those of its bend, `second_...` those of its return; `tip` is w of the free edge on the blank.
    `coat` is what the finished flange stands before its metal where lengths along it begin: on the face, and for the
    return on the outside of the flange.
    """

    flange: Flange
    start: float
    end: float
    length: float
    coat: float
    second_coat: float
    setback: float
    allowance: float
    second_length: float
    second_setback: float
    second_allowance: float

    @property
    def deduction(self) -> float:
        """What the bend takes off the outside lengths."""
        return 2 * self.setback - self.allowance

    @property
    def second_deduction(self) -> float:
        """What the return's bend takes off."""
        return 2 * self.second_setback - self.second_allowance

    @property
    def tip(self) -> float:
        """W of the free edge on the blank."""
        return self.length - self.deduction + self.second_length - self.second_deduction

    @property
    def second_start(self) -> float:
        """W of where the return's bend begins on the blank."""
        return self.length - self.deduction - self.second_setback


def neighbours(edge: Edge) -> tuple[Edge, Edge]:
    """The edges at the low and the high end of an edge."""
    return (Edge.LEFT, Edge.RIGHT) if edge in (Edge.TOP, Edge.BOTTOM) else (Edge.BOTTOM, Edge.TOP)


def setback_of(flange: Flange, thickness: float) -> float:
    """The setback of a flange's bend, in mm."""
    return setback(flange.angle, flange.radius, thickness)


def minimum_inset(panel: Panel, bending: Bending, neighbour: Edge) -> float:
    """How far a flange must stay from the end of its edge for a flange round the corner, in mm of metal."""
    other = next((flange for flange in panel.flanges if flange.edge is neighbour), None)
    return 0.0 if other is None else setback_of(other, panel.sheet.thickness) + bending.corner_depth


def bent(panel: Panel, outline: Contour) -> dict[Edge, Bent]:
    """Every flange worked out, by edge. `outline` is that of the face as cut. Raises KeyError as `allowance_by`."""
    bending = panel.bending
    if bending is None:
        return {}
    thickness = panel.sheet.thickness
    box = outline.bounds
    worked: dict[Edge, Bent] = {}
    for flange in panel.flanges:
        low, high = (box.left, box.right) if flange.edge in (Edge.TOP, Edge.BOTTOM) else (box.bottom, box.top)
        first, last = (
            minimum_inset(panel, bending, neighbour) if inset is None else inset
            for inset, neighbour in zip(flange.insets, neighbours(flange.edge), strict=True)
        )
        second = flange.second
        coats = _coats(panel, second)
        worked[flange.edge] = Bent(
            flange=flange,
            start=low + first,
            end=high - last,
            length=flange.length - coats.front - (coats.edge if second is None else coats.outside),
            coat=coats.front,
            second_coat=coats.outside,
            setback=setback_of(flange, thickness),
            allowance=allowance_by(bending, flange.angle, flange.radius, thickness),
            second_length=0.0 if second is None else second.length - coats.outside - coats.edge,
            second_setback=0.0 if second is None else setback(second.angle, second.radius, thickness),
            second_allowance=(0.0 if second is None else allowance_by(bending, second.angle, second.radius, thickness)),
        )
    return worked


class _Coats(Struct, frozen=True, kw_only=True):
    """The coat in mm on the front of the face, on the outside of a return's bend, and on a free edge."""

    front: float
    outside: float
    edge: float


def _coats(panel: Panel, second: Return | None) -> _Coats:
    """What the coat adds at each end of the lengths of a flange.

    The front and the edges are coated whichever faces are. The outside of a return that turns in is the front of the
    sheet, that of one that turns out is its rear.
    """
    coat = panel.coat
    build = coat.build if coat.allowance is Allowance.DRAWING else 0.0
    bare = second is not None and second.towards is Towards.OUT and not coat.rear
    return _Coats(front=build, outside=0.0 if bare else build, edge=build)


def blank(
    panel: Panel, outline: Contour, openings: Sequence[CutOpening], flange_openings: Sequence[CutOpening] = ()
) -> Blank | None:
    """The blank of a panel, None for a flat one.

    `outline` and `openings` are those of the face as cut, `flange_openings` stand in the frames of their flanges.

    Raises ValueError where flanges overlap on the flat, or a corner is rounded more than it has room for.
    """
    flanges = bent(panel, outline)
    if not flanges:
        return None
    assert panel.bending is not None
    points, radii = _corners(outline, flanges, panel.bending)
    flat = polygon(points, radii)
    crossing = self_crossing(flat)
    if crossing is not None:
        raise ValueError(said.blank_crosses_itself(place=(round(crossing.x, 1), round(crossing.y, 1))))
    shift = Vector(-flat.bounds.left, -flat.bounds.bottom)
    to_blank = {FACE: Transform.move(shift.x, shift.y)} | dict(_frames(outline.bounds, flanges, shift))
    return Blank(
        outline=flat.moved(shift),
        bends=_bend_lines(outline.bounds, flanges, shift),
        holes=tuple(_hole(opening, to_blank[opening.on]) for opening in (*openings, *flange_openings)),
        shift=shift,
    )


# --- the outline


class _Frame(Struct, frozen=True):
    """The frame of one edge: u along it counter-clockwise from its first corner, w outwards."""

    edge: Edge
    box: Box

    @property
    def length(self) -> float:
        return self.box.width if self.edge in (Edge.TOP, Edge.BOTTOM) else self.box.height

    def point(self, u: float, w: float) -> Point:
        box = self.box
        match self.edge:
            case Edge.BOTTOM:
                return Point(box.left + u, box.bottom - w)
            case Edge.RIGHT:
                return Point(box.right + w, box.bottom + u)
            case Edge.TOP:
                return Point(box.right - u, box.top + w)
            case Edge.LEFT:
                return Point(box.left - w, box.top - u)

    def span(self, of: Bent) -> tuple[float, float]:
        """The ends of a flange as u."""
        match self.edge:
            case Edge.BOTTOM:
                return of.start - self.box.left, of.end - self.box.left
            case Edge.RIGHT:
                return of.start - self.box.bottom, of.end - self.box.bottom
            case Edge.TOP:
                return self.box.right - of.end, self.box.right - of.start
            case Edge.LEFT:
                return self.box.top - of.end, self.box.top - of.start


def _corners(outline: Contour, flanges: dict[Edge, Bent], bending: Bending) -> tuple[list[Point], list[float]]:
    """The corners of the blank, counter-clockwise, with their radii."""
    box = outline.bounds
    rounding = max((segment.radius for segment in outline.segments if isinstance(segment, Arc)), default=0.0)
    corners: list[tuple[Point, float]] = []
    for place, edge in enumerate(AROUND):
        after = AROUND[(place + 1) % 4]
        frame, following = _Frame(edge, box), _Frame(after, box)
        here, there = flanges.get(edge), flanges.get(after)
        if here is not None:
            first, last = frame.span(here)
            corners += [(frame.point(u, here.tip), here.flange.corner) for u in (first, last)]
        corners += _turn(frame, here, following, there, bending, rounding)
    kept = _each_once(corners)
    return [point for point, _ in kept], [radius for _, radius in kept]


def _each_once(corners: Sequence[tuple[Point, float]]) -> list[tuple[Point, float]]:
    """A closed run of corners, of which those that fall together are one with the larger radius."""
    kept: list[tuple[Point, float]] = []
    for point, radius in corners:
        if kept and point.distance(kept[-1][0]) <= _SAME:
            kept[-1] = (kept[-1][0], max(radius, kept[-1][1]))
        else:
            kept.append((point, radius))
    while len(kept) > 1 and kept[0][0].distance(kept[-1][0]) <= _SAME:
        kept[0] = (kept[0][0], max(kept[0][1], kept.pop()[1]))
    return kept


def _turn(
    frame: _Frame, here: Bent | None, following: _Frame, there: Bent | None, bending: Bending, rounding: float
) -> Iterator[tuple[Point, float]]:
    """What lies between the ends of two edges: the corner of the face, or the reliefs that stand for it."""
    if here is not None and there is not None:
        deep_here, deep_there = (bend.setback + bending.corner_depth for bend in (here, there))
        # Rounded no further than where the bends begin, so that the notch still frees both of them.
        inside = bending.corner_depth if bending.corner is Relief.ROUND else 0.0
        yield frame.point(frame.span(here)[1], -deep_here), 0.0
        yield frame.point(frame.length - deep_there, -deep_here), inside
        yield following.point(following.span(there)[0], -deep_there), 0.0
        return
    if here is not None:
        last = frame.span(here)[1]
        for u, w, radius in _relief(here, frame.length - last, bending, rounding):
            yield frame.point(frame.length - u, w), radius
        return
    if there is not None:
        first = following.span(there)[0]
        for u, w, radius in reversed(list(_relief(there, first, bending, rounding))):
            yield following.point(u, w), radius
        return
    yield frame.point(frame.length, 0.0), rounding


def _relief(of: Bent, inset: float, bending: Bending, rounding: float) -> Iterator[tuple[float, float, float]]:
    """The relief beside a flange that ends before its edge does: u from the edge's end, w, and the corner's radius.

    None where the flange runs to the end. A relief as wide as what is left takes the corner with it. Where the metal is
    left to tear, nothing is cut out of the face; a round end is as round as the relief is wide and deep.
    """
    if inset <= _SAME:
        return
    if bending.relief is Relief.TEAR:
        yield inset, 0.0, 0.0
        yield 0.0, 0.0, rounding
        return
    deep = -of.setback - bending.relief_depth
    end = min(bending.relief_width / 2, -deep) if bending.relief is Relief.ROUND else 0.0
    yield inset, deep, end
    if inset - bending.relief_width <= _SAME:
        yield 0.0, deep, 0.0
        return
    yield inset - bending.relief_width, deep, end
    yield inset - bending.relief_width, 0.0, 0.0
    yield 0.0, 0.0, rounding


# --- bends and openings


def _bend_lines(box: Box, flanges: dict[Edge, Bent], shift: Vector) -> tuple[BendLine, ...]:
    """Every bend in the order it is made.

    Returns come before flanges, since the punch no longer reaches them after; short edges before long ones. Of two
    opposite flanges the one that stands lower comes first, since it stands up beside the punch when the other is bent.
    """
    order = sorted(
        flanges.values(),
        key=lambda bend: (bend.end - bend.start, bend.length + bend.second_length, AROUND.index(bend.flange.edge)),
    )
    lines: list[BendLine] = []
    for bend in order:
        second = bend.flange.second
        if second is not None:
            lines.append(
                _bend_line(
                    bend,
                    box,
                    shift,
                    w=bend.second_start + bend.second_allowance / 2,
                    name=f"{bend.flange.edge.value} return",
                    angle=second.angle,
                    radius=second.radius,
                    forward=second.towards is Towards.OUT,
                    step=len(lines) + 1,
                    allowance=bend.second_allowance,
                    deduction=bend.second_deduction,
                )
            )
    for bend in order:
        lines.append(
            _bend_line(
                bend,
                box,
                shift,
                w=-bend.setback + bend.allowance / 2,
                name=bend.flange.edge.value,
                angle=bend.flange.angle,
                radius=bend.flange.radius,
                forward=False,
                step=len(lines) + 1,
                allowance=bend.allowance,
                deduction=bend.deduction,
            )
        )
    return tuple(lines)


def _bend_line(
    bend: Bent, box: Box, shift: Vector, *, w: float, name: str, angle: float, radius: float, forward: bool, step: int,
    allowance: float, deduction: float,
) -> BendLine:  # fmt: skip
    frame = _Frame(bend.flange.edge, box)
    first, last = frame.span(bend)
    return BendLine(
        name=name,
        edge=bend.flange.edge,
        start=frame.point(first, w).moved(shift),
        end=frame.point(last, w).moved(shift),
        angle=angle,
        radius=radius,
        forward=forward,
        step=step,
        allowance=allowance,
        deduction=deduction,
    )


def _frames(box: Box, flanges: dict[Edge, Bent], shift: Vector) -> Iterator[tuple[str, Transform]]:
    """From the frame of each flange and return to the blank, by its name."""
    for edge, bend in flanges.items():
        yield edge.value, _unfolded(edge, box, -bend.coat - bend.deduction, shift)
        if bend.flange.second is not None:
            past = bend.length - bend.deduction - bend.second_deduction - bend.second_coat
            yield f"{edge.value} return", _unfolded(edge, box, past, shift)


def _unfolded(edge: Edge, box: Box, w: float, shift: Vector) -> Transform:
    """From the frame of a flange (x along the edge, y back from the outside of its bend) to the blank."""
    match edge:
        case Edge.TOP:
            own = Transform(1.0, 0.0, 0.0, 1.0, 0.0, box.top + w)
        case Edge.BOTTOM:
            own = Transform(1.0, 0.0, 0.0, -1.0, 0.0, box.bottom - w)
        case Edge.LEFT:
            own = Transform(0.0, 1.0, -1.0, 0.0, box.left - w, 0.0)
        case Edge.RIGHT:
            own = Transform(0.0, 1.0, 1.0, 0.0, box.right + w, 0.0)
    return own.then(Transform.move(shift.x, shift.y))


def _hole(opening: CutOpening, to_blank: Transform) -> BlankHole:
    cone = opening.countersink
    return BlankHole(
        opening=opening,
        cut=opening.cut.transformed(to_blank).ccw(),
        countersink=None if cone is None else replace(cone, centre=cone.centre.transformed(to_blank)),
    )
