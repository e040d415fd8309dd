"""What would make room for a legend that has none: each way tried out on the whole panel before it is named.

Ways are looked for on the part's surroundings alone, which is quick, and then verified on the whole panel: the legend
is placed, and no other is left out for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cutouts import cut, stand
from panelart.geometry import Vector
from panelart.geometry.polygons import polygon
from panelart.legends.candidates import style_of
from panelart.legends.place import place
from panelart.messages import Message
from panelart.messages import legends as said
from panelart.model.layout import Unplaced
from panelart.model.panel import LegendRequest, Panel, Part

SURROUNDINGS = 60.0
"""How far from the part other parts are looked at first, mm."""

SMALLEST = 0.6
"""Cap heights below this share of what was asked for are no way out."""

DISTANCES = (0.5, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 11.0, 15.0)
FINENESS = 0.1
"""Distances are found to this, mm, and cap heights too."""

DIRECTIONS = (
    (said.moved_down, 0.0, -1.0),
    (said.moved_left, -1.0, 0.0),
    (said.moved_right, 1.0, 0.0),
    (said.moved_up, 0.0, 1.0),
)
"""In what order moves of one length are tried."""

Change = Callable[[LegendRequest], LegendRequest]


class _Trial(Struct, frozen=True):
    """A changed panel and what the change is called; `cost` orders ways of one kind."""

    words: Message
    panel: Panel
    cost: float = 0.0


def ways_out(panel: Panel, missing: Unplaced) -> tuple[str, ...]:
    """The cheapest ways to place a legend that was left out, in words; empty when none was found."""
    part = panel.by_ref.get(missing.ref)
    if part is None:
        return ()
    before = len(_left_out(panel))
    near = _surroundings(panel, part)
    found: list[str] = []
    for find in (_another_side, _smaller, _moved):
        for trial in find(near, missing):
            whole = _put_back(panel, trial.panel.by_ref[part.ref])
            if _is_placed(whole, missing, before):
                found.append(str(trial.words))
                break
    return tuple(found)


def _left_out(panel: Panel) -> tuple[Unplaced, ...]:
    return place(panel, stand(panel), cut(panel)).unplaced


def _is_placed(panel: Panel, missing: Unplaced, before: int) -> bool:
    left_out = _left_out(panel)
    return len(left_out) < before and not any(_same(other, missing) for other in left_out)


def _same(one: Unplaced, other: Unplaced) -> bool:
    return (one.ref, one.style, one.where) == (other.ref, other.style, other.where)


def _surroundings(panel: Panel, part: Part) -> Panel:
    """The panel with the parts near one part only, and the frames and lines that have none but these."""
    parts = tuple(other for other in panel.parts if other.at.distance(part.at) <= SURROUNDINGS)
    refs = {other.ref for other in parts}
    return replace(
        panel,
        parts=parts,
        frames=tuple(frame for frame in panel.frames if refs.issuperset(frame.around)),
        lines=tuple(line for line in panel.lines if refs.issuperset((*line.starts, *line.ends))),
    )


def _put_back(panel: Panel, changed: Part) -> Panel:
    return replace(panel, parts=tuple(changed if part.ref == changed.ref else part for part in panel.parts))


def _with(part: Part, missing: Unplaced, change: Change) -> Part:
    """The part with the request that was left out changed."""
    if part.legend is not None and part.legend.where == missing.where and part.legend.whole == missing.text:
        return replace(part, legend=change(part.legend))
    return replace(
        part,
        positions=tuple(
            replace(position, request=change(position.request))
            if position.request.where == missing.where and position.request.text == missing.text
            else position
            for position in part.positions
        ),
    )


def _request(part: Part, missing: Unplaced) -> LegendRequest | None:
    requests = [part.legend, *(position.request for position in part.positions)]
    return next((r for r in requests if r is not None and (r.where, r.whole) == (missing.where, missing.text)), None)


def _another_side(panel: Panel, missing: Unplaced) -> Iterator[_Trial]:
    part = panel.by_ref[missing.ref]
    request = _request(part, missing)
    if request is None or request.place is None:
        return
    changed = _put_back(panel, _with(part, missing, lambda r: replace(r, place=None)))
    if not _in(changed, missing):
        yield _Trial(said.other_side(), changed)


def _smaller(panel: Panel, missing: Unplaced) -> Iterator[_Trial]:
    part = panel.by_ref[missing.ref]
    request = _request(part, missing)
    if request is None or request.more:  # one figure says nothing of texts in several sizes
        return
    full = style_of(request, panel.marking).cap_height
    minimum = max(SMALLEST * full, panel.marking.process.cap_height_minimum.value)
    steps = int((full - minimum) / FINENESS + 1e-9)

    def at(step: int) -> Panel:
        size = round(full - step * FINENESS, 6)
        return _put_back(panel, _with(part, missing, lambda r: replace(r, cap_height=size)))

    if steps < 1 or _in(at(steps), missing):
        return
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _in(at(middle), missing) else (low, middle)
    yield _Trial(said.cap_height(height=full - high * FINENESS), at(high))


def _moved(panel: Panel, missing: Unplaced) -> Iterator[_Trial]:
    part = panel.by_ref[missing.ref]
    touched = _touching(panel, part.ref)
    trials: list[_Trial] = []
    for moved, x, y in DIRECTIONS:

        def at(far: float, x: float = x, y: float = y) -> Panel:
            return _put_back(panel, replace(part, at=part.at.moved(Vector(x * far, y * far))))

        last = 0.0
        for far in DISTANCES:
            if not _fits(at(far), part.ref, touched):
                break
            if not _in(at(far), missing):
                minimum = _minimum(lambda d, at=at: not _in(at(d), missing), last, far)  # type: ignore[misc]
                trials.append(_Trial(moved(ref=part.ref, distance=minimum), at(minimum), minimum))
                break
            last = far
    yield from sorted(trials, key=lambda trial: trial.cost)


def _minimum(works: Callable[[float], bool], low: float, high: float) -> float:
    """The minimum distance that works, to FINENESS, between one that does not and one that does."""
    steps_low, steps_high = round(low / FINENESS), round(high / FINENESS)
    while steps_high - steps_low > 1:
        middle = (steps_low + steps_high) // 2
        steps_low, steps_high = (steps_low, middle) if works(middle * FINENESS) else (middle, steps_high)
    return steps_high * FINENESS


def _in(panel: Panel, missing: Unplaced) -> bool:
    """Whether the legend is among those left out."""
    return any(_same(other, missing) for other in _left_out(panel))


def _fits(panel: Panel, ref: str, touched: frozenset[str]) -> bool:
    """Whether a part has room where it was moved: on the face, and in nothing that it was not in before."""
    face = polygon(panel.outline, side="inside")
    own = [polygon(envelope.contour, side="outside") for envelope in stand(panel) if envelope.ref == ref]
    return all(face.covers(shape) for shape in own) and _touching(panel, ref) <= touched


def _touching(panel: Panel, ref: str) -> frozenset[str]:
    """What shares ground with a part on one side of the face: refs of other parts, and keep-outs by number."""
    own = [
        (envelope.side, polygon(envelope.contour, side="outside")) for envelope in stand(panel) if envelope.ref == ref
    ]
    others = [
        (envelope.ref, envelope.side, polygon(envelope.contour, side="outside"))
        for envelope in stand(panel)
        if envelope.ref != ref
    ]
    others += [
        (f"keep-out-{number}", keepout.side, polygon(keepout.contour, side="outside"))
        for number, keepout in enumerate(panel.keepouts)
    ]
    return frozenset(
        name for name, side, there in others if any(side is here and shape.intersects(there) for here, shape in own)
    )
