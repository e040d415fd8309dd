"""Parts measured with their legends: each is lettered by itself on a bench with room all round, by the legend engine.

What a part takes there is what it takes on a panel that leaves it its room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct, canonical
from panelart.checks.clearances import control_kind
from panelart.checks.emergency import is_emergency
from panelart.cutouts import cut, stand
from panelart.cutouts.envelopes import envelopes_of, gripped
from panelart.drafting.blocks import Block, fixing_of, is_air, is_lamp, is_mains, level_of
from panelart.geometry import Box, Point, Vector, rectangle
from panelart.legends.place import Placement, place
from panelart.model.layout import CutOpening, PlacedEnvelope
from panelart.model.panel import Panel, Part, Side
from panelart.model.places import nowhere

_CELL: Final = 400.0
"""Room for one part on the bench, mm; the largest parts that are arranged, meters and long faders, take half of it."""

_COLUMNS: Final = 25


def measured(panel: Panel, clusters: Sequence[tuple[str, ...]]) -> dict[str, Block]:
    """The block of each cluster of parts, by its first ref; the others keep their distance from the first.

    Clusters that are the same but for their refs are lettered once.
    """
    by_key: dict[bytes, list[tuple[str, ...]]] = {}
    for refs in clusters:
        by_key.setdefault(_key([panel.by_ref[ref] for ref in refs]), []).append(refs)
    firsts = [alike[0] for alike in by_key.values()]
    blocks: dict[str, Block] = {}
    for start in range(0, len(firsts), _COLUMNS * _COLUMNS):
        some = firsts[start : start + _COLUMNS * _COLUMNS]
        boxes = _lettered(panel, some)
        for refs in some:
            alike = by_key[_key([panel.by_ref[ref] for ref in refs])]
            for fellows in alike:
                blocks[fellows[0]] = _block(panel, fellows, refs, boxes)
    return blocks


def lettered_boxes(panel: Panel) -> dict[str, tuple[Box, ...]]:
    """The boxes of the legends of each part and one of its marks, in mm about its centre, lettered with room all round.

    Parts that are the same but for their refs are lettered once.
    """
    by_key: dict[bytes, list[str]] = {}
    for part in panel.parts:
        by_key.setdefault(_key([part]), []).append(part.ref)
    firsts = [refs[0] for refs in by_key.values()]
    bench = _on_bench(panel, [(ref,) for ref in firsts])
    placed = place(bench, stand(bench), cut(bench))
    words: dict[str, list[Box]] = {}
    marks: dict[str, list[Box]] = {}
    for legend in placed.legends:
        words.setdefault(legend.ref, []).append(legend.box)
    for ref, box in _marked(placed):
        marks.setdefault(ref, []).append(box)
    found: dict[str, tuple[Box, ...]] = {}
    for refs in by_key.values():
        at = bench.by_ref[refs[0]].at
        back = Vector(-at.x, -at.y)
        drawn = [Box.around(marks[refs[0]])] if refs[0] in marks else []
        boxes = tuple(box.moved(back) for box in (*words.get(refs[0], ()), *drawn))
        found |= dict.fromkeys(refs, boxes)
    return found


def _key(parts: Sequence[Part]) -> bytes:
    first = parts[0]
    return canonical(
        [
            (
                part.component.name,
                part.at.minus(first.at),
                part.turn,
                nowhere((part.legend, part.positions, part.scale, part.outer_scale, part.knob)),
            )
            for part in parts
        ]
    )


def _on_bench(panel: Panel, clusters: Sequence[tuple[str, ...]]) -> Panel:
    parts: list[Part] = []
    for number, refs in enumerate(clusters):
        row, column = divmod(number, _COLUMNS)
        cell = Point((column + 0.5) * _CELL, (row + 0.5) * _CELL)
        first = panel.by_ref[refs[0]].at
        parts += [replace(panel.by_ref[ref], at=cell.moved(panel.by_ref[ref].at.minus(first))) for ref in refs]
    rows = -(-len(clusters) // _COLUMNS)
    width, height = _COLUMNS * _CELL, rows * _CELL
    return replace(
        panel,
        outline=rectangle(width, height, Point(width / 2, height / 2)),
        parts=tuple(parts),
        frames=(),
        texts=(),
        keepouts=(),
        waivers=(),
        lines=(),
        art=(),
        masks=(),
        flanges=(),
        bending=None,
    )


class _Taken(Struct, frozen=True, kw_only=True):
    """What a part takes, from its centre: in front with its legends, with plugs and travel too, behind, and bare."""

    face: Box
    front: Box
    rear: Box | None
    body: Box


_Boxes = Mapping[str, _Taken]


def _lettered(panel: Panel, clusters: Sequence[tuple[str, ...]]) -> _Boxes:
    """What each part takes, by its ref."""
    bench = _on_bench(panel, clusters)
    envelopes, openings = stand(bench), cut(bench)
    placed = place(bench, envelopes, openings)
    in_front = [envelope for envelope in envelopes if envelope.side is not Side.REAR]
    behind = [envelope for envelope in envelopes if envelope.side is Side.REAR]
    covering = [envelope for envelope in in_front if envelope.covers]
    face = _by_ref(bench, [*_bounds(covering), *_cut_and_marked(openings, placed)])
    front = _by_ref(bench, _bounds(in_front))
    rear = _by_ref(bench, _bounds(behind))
    bare = _by_ref(bench, _bounds(covering))
    found: dict[str, _Taken] = {}
    for part in bench.parts:
        ref = part.ref
        here = front[ref] or [Box(part.at.x, part.at.y, part.at.x, part.at.y)]
        found[ref] = _taken(part, face[ref] or here, front[ref], rear[ref], bare[ref])
    return found


def _taken(part: Part, face: list[Box], front: list[Box], rear: list[Box], bare: list[Box]) -> _Taken:
    back = Vector(-part.at.x, -part.at.y)
    return _Taken(
        face=_around(face, back),
        front=_around(front or face, back),
        rear=_around(rear, back) if rear else None,
        body=_around(bare or face, back),
    )


def _by_ref(bench: Panel, boxes: Iterable[tuple[str, Box]]) -> dict[str, list[Box]]:
    """The boxes of every part on the bench."""
    found: dict[str, list[Box]] = {part.ref: [] for part in bench.parts}
    for ref, box in boxes:
        found[ref].append(box)
    return found


def _bounds(envelopes: Iterable[PlacedEnvelope]) -> list[tuple[str, Box]]:
    return [(envelope.ref, envelope.contour.bounds) for envelope in envelopes]


def _cut_and_marked(openings: Iterable[CutOpening], placed: Placement) -> Iterator[tuple[str, Box]]:
    """What openings, legends and marks take of the face, each with its part."""
    for opening in openings:
        yield opening.ref, opening.cut.bounds
    for legend in placed.legends:
        yield legend.ref, legend.box
    yield from _marked(placed)


def _marked(placed: Placement) -> Iterator[tuple[str, Box]]:
    for mark in placed.marks:
        ends = [point for loop in mark.shape for curve in loop.curves for point in (curve.start, curve.end)]
        yield mark.ref, Box.around(ends).grown(mark.width / 2)


def _around(boxes: Sequence[Box], by: Vector) -> Box:
    return Box.around(boxes).moved(by)


def _block(panel: Panel, refs: tuple[str, ...], model: tuple[str, ...], boxes: _Boxes) -> Block:
    """The block of a cluster, whose parts are like those of `model`, which were lettered."""
    first = panel.by_ref[refs[0]]
    own = boxes[model[0]]
    face, front, rear, body = own.face, own.front, own.rear, own.body
    hands = list(_hands(first, Vector(0.0, 0.0)))
    pitches = _pitch(first, Vector(0.0, 0.0))
    for ref, like in zip(refs[1:], model[1:], strict=True):
        part = panel.by_ref[ref]
        by = part.at.minus(first.at)
        more = boxes[like]
        face, front = face.union(more.face.moved(by)), front.union(more.front.moved(by))
        body = body.union(more.body.moved(by))
        if more.rear is not None:
            moved = more.rear.moved(by)
            rear = moved if rear is None else rear.union(moved)
        hands += _hands(part, by)
        pitches += _pitch(part, by)
    members = [panel.by_ref[ref] for ref in refs]
    return Block(
        refs=refs,
        kind=first.component.name,
        level=level_of(first.component),
        face=face,
        front=front,
        rear=rear,
        hands=tuple(hands),
        pitches=tuple(pitches),
        mains=any(is_mains(part.component) for part in members),
        emergency=any(is_emergency(part) for part in members),
        air=is_air(first.component),
        lamp=is_lamp(first.component),
        fixing=fixing_of(first.component),
        body=body,
    )


def _pitch(part: Part, by: Vector) -> list[Box]:
    """The room of a part's minimum pitch about its centre; none where it has no pitch."""
    pitch = part.component.pitch
    if pitch is None:
        return []
    return [rectangle(pitch[0].value, pitch[1].value, Point(by.x, by.y)).turned(part.turn).bounds]


def _hands(part: Part, by: Vector) -> list[tuple[Box, str]]:
    kind = control_kind(part)
    if kind is None:
        return []
    standing = replace(part, at=Point(0.0, 0.0))
    own = _front(standing)
    chosen = gripped(own) or [envelope for envelope in own if envelope.covers]
    return [(envelope.contour.bounds.moved(by), kind) for envelope in chosen]


def _front(part: Part) -> list[PlacedEnvelope]:
    return [envelope for envelope in envelopes_of(part) if envelope.side is Side.FRONT]
