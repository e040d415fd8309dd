"""A spec with parts that have no place yet: they get one, and the text is changed there and nowhere else.

Parts that have a place keep it. A part that is measured from one without place moves with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.checks.limits import standard
from panelart.diagnostics import Problem, SpecError
from panelart.drafting.blocks import MARGIN, Block
from panelart.drafting.free import empty_rectangles
from panelart.drafting.measure import measured
from panelart.drafting.plan import NoRoomError, Plan, Wish, Zone, filled, plans
from panelart.drafting.seating import seatings, wanted
from panelart.drafting.shelves import BETWEEN
from panelart.drafting.spacing import Spacing
from panelart.geometry import ORIGIN, Box, Point
from panelart.legends.candidates import lettered, style_of
from panelart.legends.frames import LINE_WIDTH, TITLE_GAP, TITLE_RUN
from panelart.legends.wording import lettering_problems
from panelart.messages import drafting as said
from panelart.messages.errors import said_by
from panelart.model.panel import FrameForm, FrameRequest, Panel
from panelart.source import edit, yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar
from panelart.source.written import Written
from panelart.spec import language
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text

_AT: Final = language.Part.at.name
_FROM: Final = "from"


class Request(Struct, frozen=True, kw_only=True):
    """What is asked of the arranger: the size, `None` where it is the spec's own; the grid in mm; white in mm.

    `apart` are groups that keep together without a frame.
    """

    wish: Wish | None = None
    grid: float = 1.0
    white: float = 3.0
    maximum: int = 1
    apart: tuple[tuple[str, ...], ...] = ()


class Arranged(Struct, frozen=True, kw_only=True):
    """A spec with all its parts placed, and the plan behind it.

    `rooms` are the places kept for parts that are not decided and stand in the text as remarks, by ref, mm.
    """

    text: str
    plan: Plan
    rooms: Mapping[str, tuple[float, float]] = field(default_factory=dict)


def without_place(text: str, file: str) -> dict[str, edit.Path]:
    """The parts of a spec that have no `at:`, by ref, and where they stand in the text."""
    top = yaml.read(text, file)
    listed = top.get(language.Spec.parts.name)
    found: dict[str, edit.Path] = {}
    for ref, path in paths_of_parts(text, file).items():
        assert listed is not None
        part = listed.items[path[1]]  # type: ignore[union-attr, index]  # paths_of_parts found it there
        if isinstance(part, MappingNode) and part.get(_AT) is None:
            found[ref] = path
    return found


def arranged(text: str, file: str, folder: Path, request: Request) -> list[Arranged]:
    """The spec with places for the parts that have none, best arrangement first.

    Raises SpecError when the spec cannot be read, and when the parts do not fit.
    """
    free = without_place(text, file)
    panel = _all_placed(text, file, folder, free)
    clusters = _clusters(text, file, free)
    followers = {ref for refs in clusters for ref in refs[1:]}
    pinned = [part.ref for part in panel.parts if part.ref not in free and part.ref not in followers]
    blocks = measured(panel, [*clusters, *((ref,) for ref in pinned)])
    spacing = Spacing(limits=standard(), hand=panel.operator.hand, white=request.white, grid=request.grid)
    loose = [blocks[refs[0]] for refs in clusters]
    framed = [*_framed(panel, loose), *_kept_together(request, loose)]
    try:
        if request.wish is None or pinned:
            taken = [*_pinned(panel, blocks, pinned), *_kept_free(panel), *_words(panel)]
            found = _among(panel, loose, framed, taken, spacing, request.maximum)
        else:
            found = plans(loose, framed, request.wish, spacing, request.maximum)
    except NoRoomError as error:
        raise _without_room(panel, error) from None
    return [_written(text, file, free, plan, panel, new_size=request.wish is not None) for plan in found]


def puts_back(text: str, file: str, folder: Path) -> bool:
    """Whether so much stands already that it tells where the rest goes. Raises SpecError."""
    clusters = _clusters(text, file, without_place(text, file))
    panel = _all_placed(text, file, folder, without_place(text, file))
    return len(panel.parts) - sum(map(len, clusters)) >= 2 * len(clusters)


def put_back(text: str, file: str, folder: Path) -> Iterator[Arranged]:
    """The spec with each part without place where a person would put it, the best ways first.

    Raises SpecError when the spec cannot be read, and when openings, hardware and hands leave no room.
    """
    free = without_place(text, file)
    panel = _all_placed(text, file, folder, free)
    clusters = _clusters(text, file, free)
    try:
        for places in seatings(panel, clusters):
            plan = Plan(size=panel.size, places=places, cost=0.0)
            yield _written(text, file, free, plan, panel, new_size=False)
    except NoRoomError as error:
        raise _without_room(panel, error) from None


def put_over(text: str, file: str, folder: Path) -> Arranged:
    """The spec with each part without place where a person would want it, whatever is in the way. Raises SpecError."""
    free = without_place(text, file)
    panel = _all_placed(text, file, folder, free)
    places = wanted(panel, _clusters(text, file, free))
    return _written(text, file, free, Plan(size=panel.size, places=places, cost=0.0), panel, new_size=False)


def _without_room(panel: Panel, error: NoRoomError) -> SpecError:
    return SpecError([Problem(where=panel.places[panel.where], says=said_by(error), accepts=said.make_room())])


def _all_placed(text: str, file: str, folder: Path, free: Mapping[str, edit.Path]) -> Panel:
    """The panel with its parts without place in the middle of the face. Raises SpecError."""
    face = _face(text, file, folder)
    middle = Point(face.size[0] / 2 - face.datum.x, face.size[1] / 2 - face.datum.y)
    bench = edit.put_all(
        text, {(*path, _AT): [middle.x, middle.y] for path in free.values()}, file, after=language.Member.part.name
    )
    panel = panel_from_text(bench, file, folder)
    problems = lettering_problems(panel)
    if problems:
        raise SpecError(problems)
    return panel


def _kept_together(request: Request, loose: Sequence[Block]) -> list[Zone]:
    """The zones of groups that keep together without a frame, of what is still to be placed."""
    inside = (tuple(block for block in loose if block.ref in refs) for refs in request.apart)
    return [Zone(name="", blocks=blocks) for blocks in inside if blocks]


def _pinned(panel: Panel, blocks: Mapping[str, Block], refs: Iterable[str]) -> list[Box]:
    """The room that parts with a place take."""
    return [blocks[ref].all_round.moved(panel.by_ref[ref].at.minus(ORIGIN)) for ref in refs]


def _kept_free(panel: Panel) -> list[Box]:
    return [keepout.contour.bounds for keepout in panel.keepouts]


def _written(
    text: str, file: str, free: Mapping[str, edit.Path], plan: Plan, panel: Panel, *, new_size: bool
) -> Arranged:
    datum = Point(0.0, 0.0) if new_size else panel.datum
    values: dict[edit.Path, Written] = {
        (*free[ref], _AT): [_tidy(at.x - datum.x), _tidy(at.y - datum.y)] for ref, at in plan.places.items()
    }
    if new_size:
        values[language.Spec.panel.name, language.Panel.size.name] = list(plan.size)
    return Arranged(text=edit.put_all(text, values, file, after=language.Member.part.name), plan=plan)


def _tidy(value: float) -> float:
    return round(value, 2) + 0.0


def _face(text: str, file: str, folder: Path) -> Panel:
    """The panel without anything on it, for its size and datum."""
    bare = text
    for key in (
        language.Spec.parts,
        language.Spec.frames,
        language.Spec.waivers,
        language.Spec.texts,
        language.Spec.lines,
        language.Spec.art,
        language.Spec.languages,
    ):
        if yaml.read(bare, file).get(key.name) is not None:
            bare = edit.remove(bare, (key.name,), file)
    return panel_from_text(bare, file, folder)


def _clusters(text: str, file: str, free: Mapping[str, edit.Path]) -> list[tuple[str, ...]]:
    """Each part without place with those that are measured from it, directly or by others.

    Raises SpecError where a copy of a repeat is measured from one, which would have no place to be measured from.
    """
    top = yaml.read(text, file)
    listed = top.get(language.Spec.parts.name)
    paths = paths_of_parts(text, file)
    follows: dict[str, str] = {}
    for ref, path in paths.items():
        node: Node = listed.items[path[1]]  # type: ignore[union-attr, index]  # as above
        at = node.get(_AT) if isinstance(node, MappingNode) else None
        start = at.get(_FROM) if isinstance(at, MappingNode) else None
        if isinstance(start, Scalar):
            follows[ref] = start.text
    clusters: dict[str, list[str]] = {ref: [ref] for ref in free}
    for ref in paths:
        seen, root = {ref}, ref
        while root in follows and follows[root] not in seen:
            root = follows[root]
            seen.add(root)
        if root in clusters and root != ref:
            clusters[root].append(ref)
    return [tuple(refs) for refs in clusters.values()]


def _words(panel: Panel) -> list[Box]:
    """The room that free texts take."""
    found: list[Box] = []
    for text in panel.texts:
        if text.arc is not None or text.turn:
            continue
        box = lettered(text.request, style_of(text.request, panel.marking)).box
        left = {"left": 0.0, "centre": -box.width / 2, "right": -box.width}[text.anchor.value]
        found.append(Box(text.at.x + left, text.at.y + box.bottom, text.at.x + left + box.width, text.at.y + box.top))
    return found


def _framed(panel: Panel, blocks: Sequence[Block]) -> list[Zone]:
    """The zones that frames make, the narrower frame first where one stands in another."""
    taken: set[str] = set()
    found: list[Zone] = []
    for frame in sorted(panel.frames, key=lambda frame: len(frame.around)):
        inside = [block for block in blocks if block.ref in frame.around and block.ref not in taken]
        taken.update(block.ref for block in inside)
        if inside:
            found.append(_zone(panel, frame, inside))
    return found


def _zone(panel: Panel, frame: FrameRequest, blocks: Iterable[Block]) -> Zone:
    line = max(panel.marking.styles["name"].cap_height * LINE_WIDTH, panel.marking.process.line_minimum.value)
    width = height = 0.0
    name = ""
    if frame.title is not None:
        style = style_of(frame.title, panel.marking)
        setting = lettered(frame.title, style)
        name, height = frame.title.text, style.cap_height
        width = setting.box.width + 2 * (frame.corner + TITLE_RUN + TITLE_GAP * setting.cap_height)
    bracket = frame.form is FrameForm.BRACKET
    return Zone(
        name=name,
        blocks=tuple(blocks),
        framed=True,
        title_width=width,
        title_height=height,
        margin=frame.margin + (1.0 if bracket else 0.0),
        line=line,
    )


def _among(
    panel: Panel, blocks: Sequence[Block], framed: Sequence[Zone], taken: Sequence[Box], spacing: Spacing, maximum: int
) -> list[Plan]:
    """Plans in the empty room of a face on which things stand already. Raises NoRoomError."""
    width, height = panel.size
    face = Box(MARGIN, MARGIN, width - MARGIN, height - MARGIN)
    rooms = empty_rectangles(face, [box.grown(BETWEEN) for box in taken])
    return filled(blocks, framed, (width, height), rooms, spacing, maximum)
