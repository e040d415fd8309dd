"""Two states of a panel held against each other: what moved, what was changed, which findings came and went."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from enum import Enum
from pathlib import PurePath
from typing import Final, TypeVar

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks.baseline import sign
from panelart.checks.findings import Finding
from panelart.checks.inspection import Inspection
from panelart.cutouts.describe import size_of
from panelart.geometry import Box, Point, Vector
from panelart.messages import Message, Said, english, figures
from panelart.messages import checks_comparison as said
from panelart.model.layout import CutOpening, FrameLine, Layout, PlacedLegend
from panelart.model.panel import Panel, Part
from panelart.reprs import brief, cut
from panelart.source.facts import Change, Facts, Plain, changes

THERE: Final = "there"
"""The state of a thing that came or went as a whole, in the JSON of a comparison."""

SAME: Final = 0.001
"""Millimetres of difference that are none: less than any station can set."""

Thing = TypeVar("Thing")


class About(Enum):
    """What a difference is about; the order is that of the report."""

    PANEL = "panel"
    PART = "part"
    OPENING = "opening"
    LEGEND = "legend"
    FRAME = "frame"
    FINDING = "finding"


class Difference(Struct, frozen=True, kw_only=True):
    """One thing that is not as it was.

    `name` is a ref, the name of an opening or of a frame, or a rule; '' for the panel. `what` says in words what is
    compared; `old` and `new` are its two states, '' where there is none. `moved` is given for what only moved; `place`
    is where it is on the panel now, or was.
    """

    about: About
    name: str
    what: Said
    old: Said
    new: Said
    moved: Vector | None = None
    place: Point | Box | None = None

    def __repr__(self) -> str:
        return brief(
            "Difference", self.about.value, repr(self.name), *map(cut, map(english, (self.what, self.old, self.new)))
        )


def compare(old: tuple[Layout, Inspection], new: tuple[Layout, Inspection]) -> tuple[Difference, ...]:
    """Every difference between two panels that were laid out and inspected, in the order of About, then of the new.

    What the two specs say is compared by their facts, so that nothing that can be said goes untold; what followed from
    it, by the layouts and findings. A fact about a part whose consequence is told in words of its own is not repeated.
    """
    before, after = old[0], new[0]
    parts = tuple(_parts(before.panel, after.panel))
    followed = (
        *parts,
        *_openings(before.openings, after.openings),
        *_gathered(_legends(before.legends, after.legends)),
        *_frames(before.frames, after.frames),
        *_findings(old[1].findings, new[1].findings),
    )
    told = {(difference.name, english(difference.what)) for difference in parts}
    come_or_gone = {difference.name for difference in parts if not (difference.old and difference.new)}
    changed = (change for change in changes(before.panel.facts, after.panel.facts))
    spoken = (
        _fact(change, before.panel, after.panel) for change in changed if not _is_told(change, told, come_or_gone)
    )
    found = (*spoken, *followed, *_files(before.panel, after.panel))
    order = list(About)
    return tuple(sorted(found, key=lambda difference: order.index(difference.about)))


# --- what the specs say


_ABOUT: Final = {"parts": About.PART, "frames": About.FRAME, "texts": About.LEGEND}
"""What a difference is about, by the key of the spec that it stands under; else the panel."""

_TOLD_AS: Final = {"at": "place", "turn": "turn", "part": "part"}
"""Facts of a part whose consequence has words of its own."""


def _is_told(change: Change, told: set[tuple[str, str]], come_or_gone: set[str]) -> bool:
    """Whether a fact of a part has been told by what followed from it: it moved, was turned, came or went."""
    top, *path = change.path
    if top != "parts" or not path:
        return False
    ref, *keys = path
    return ref in come_or_gone if not keys else (ref, _TOLD_AS.get(keys[0], "")) in told


def _fact(change: Change, old: Panel, new: Panel) -> Difference:
    top, *path = change.path
    ref = next((step for step in path if step in new.by_ref or step in old.by_ref), "")
    part = new.by_ref.get(ref) or old.by_ref.get(ref)
    below = path[path.index(ref) + 1 :] if ref else []
    return Difference(
        about=_ABOUT.get(top, About.PANEL),
        name=ref,
        what=": ".join(below or change.path),
        old=_stated(change.old, change.unit),
        new=_stated(change.new, change.unit),
        place=None if part is None else part.at,
    )


def _stated(value: Plain, unit: str) -> str:
    """A fact in words, '' for none."""
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case int() | float():
            return f"{figures.plain(value)}{figures.unit_behind('deg' if unit == 'degrees' else unit)}"
        case tuple():
            told = [_stated(each, "") for each in value]
            return f"[{', '.join(told)}]{figures.unit_behind(unit) if unit and value else ''}"
        case Facts():
            return _together(value)
        case _:
            return str(value)


def _together(facts: Facts) -> str:
    """Facts in braces, those without anything to say left out."""
    units = dict(facts.units)
    inside = (f"{key}: {_stated(held, units.get(key, ''))}" for key, held in facts.values)
    return "{" + ", ".join(one for one in inside if not one.endswith(": ")) + "}"


def _files(old: Panel, new: Panel) -> Iterator[Difference]:
    """Files that both specs name and that hold something else now: parts, fonts, drawings, limits."""
    was, is_ = dict(old.files), dict(new.files)
    for file in sorted(was.keys() & is_.keys()):
        if was[file] != is_[file]:
            yield Difference(about=About.PANEL, name=file, what=said.contents_of_file(), old=was[file], new=is_[file])


# --- what followed


def _paired(old: Mapping[str, Thing], new: Mapping[str, Thing]) -> Iterator[tuple[str, Thing | None, Thing | None]]:
    """By name: what is in both, then what is new, in the new order; then what is gone, in the old."""
    yield from ((name, old.get(name), thing) for name, thing in new.items())
    yield from ((name, thing, None) for name, thing in old.items() if name not in new)


def _moved(old: Point, new: Point) -> Vector | None:
    by = Vector(new.x - old.x, new.y - old.y)
    return by if by.length > SAME else None


def _parts(old: Panel, new: Panel) -> Iterator[Difference]:
    for ref, was, part in _paired(old.by_ref, new.by_ref):
        if was is None or part is None:
            there = part or was
            assert there is not None
            yield _come_or_gone(About.PART, ref, there.component.title, came=was is None, place=there.at)
            continue
        moved = _moved(was.at, part.at)
        if moved is not None:
            yield Difference(about=About.PART, name=ref, what="place", old=_at(was.at, old), new=_at(part.at, new),
                             moved=moved, place=part.at)  # fmt: skip
        for what, state in _STATES:
            if state(was) != state(part):
                yield Difference(about=About.PART, name=ref, what=what, old=state(was), new=state(part), place=part.at)


_STATES: Final[tuple[tuple[str, Callable[[Part], str]], ...]] = (
    ("part", lambda part: part.component.title),
    ("turn", lambda part: f"{part.turn:g} deg"),
)


def _at(point: Point, panel: Panel) -> str:
    return f"({point.x - panel.datum.x:.2f}, {point.y - panel.datum.y:.2f})".replace("-0.00", "0.00")


def _come_or_gone(about: About, name: str, what: Said, *, came: bool, place: Point | Box | None) -> Difference:
    return Difference(
        about=about, name=name, what=what, old="" if came else THERE, new=THERE if came else "", place=place
    )


def _openings(old: Sequence[CutOpening], new: Sequence[CutOpening]) -> Iterator[Difference]:
    for name, was, opening in _paired({one.name: one for one in old}, {one.name: one for one in new}):
        if was is None or opening is None:
            there = opening or was
            assert there is not None
            size = str(size_of(there.cut))
            yield _come_or_gone(About.OPENING, name, size, came=was is None, place=there.cut.bounds)
            continue
        before, after = size_of(was.cut), size_of(opening.cut)
        moved = _moved(before.centre, after.centre)
        if moved is not None:
            yield Difference(about=About.OPENING, name=name, what="place", old="", new="", moved=moved,
                             place=after.centre)  # fmt: skip
        if str(before) != str(after):
            yield Difference(about=About.OPENING, name=name, what=said.cut_size(), old=str(before), new=str(after),
                             place=opening.cut.bounds)  # fmt: skip


def _legends(old: Sequence[PlacedLegend], new: Sequence[PlacedLegend]) -> Iterator[Difference]:
    """Legends with the same words are one; what is left of one owner and kind is reworded, then come or gone."""
    left_old, left_new = _by_words(old), _by_words(new)
    for key in list(left_new):
        for was, legend in zip(left_old.get(key, []), left_new[key], strict=False):
            yield from _same_words(was, legend)
        both = min(len(left_old.get(key, [])), len(left_new[key]))
        left_new[key] = left_new[key][both:]
        if both:
            left_old[key] = left_old[key][both:]
    gone, come = _by_kind(left_old), _by_kind(left_new)
    for kind in dict.fromkeys((*come, *gone)):
        olds, news = gone.get(kind, []), come.get(kind, [])
        for was, legend in zip(olds, news, strict=False):
            yield Difference(about=About.LEGEND, name=kind[0], what=said.text_of(kind[1]), old=_words(was),
                             new=_words(legend), place=legend.box)  # fmt: skip
        for legend in news[len(olds) :]:
            yield _come_or_gone(About.LEGEND, kind[0], _legend(legend), came=True, place=legend.box)
        for was in olds[len(news) :]:
            yield _come_or_gone(About.LEGEND, kind[0], _legend(was), came=False, place=was.box)


def _gathered(found: Iterable[Difference]) -> list[Difference]:
    """Legends of one owner that moved alike as one difference: a scale has many numerals."""
    told: dict[tuple[str, float, float], list[Difference]] = {}
    order: list[Difference | tuple[str, float, float]] = []
    for difference in found:
        moved = difference.moved
        if moved is None:
            order.append(difference)
            continue
        key = (difference.name, round(moved.x, 3) + 0.0, round(moved.y, 3) + 0.0)
        if key not in told:
            order.append(key)
        told.setdefault(key, []).append(difference)
    gathered: list[Difference] = []
    for entry in order:
        if isinstance(entry, Difference):
            gathered.append(entry)
        elif len(told[entry]) <= _FEW:
            gathered += told[entry]
        else:
            first, count = told[entry][0], len(told[entry])
            gathered.append(replace(first, what=said.legends_moved(count, first.what)))
    return gathered


_FEW: Final = 2


def _same_words(was: PlacedLegend, legend: PlacedLegend) -> Iterator[Difference]:
    what = _legend(legend)
    moved = _moved(was.box.centre, legend.box.centre)
    if moved is not None:
        yield Difference(about=About.LEGEND, name=legend.ref, what=what, old="", new="", moved=moved, place=legend.box)
    if abs(was.cap_height - legend.cap_height) > SAME:
        yield Difference(about=About.LEGEND, name=legend.ref, what=said.cap_height_of(what),
                         old=f"{was.cap_height:g} mm", new=f"{legend.cap_height:g} mm", place=legend.box)  # fmt: skip
    before, after = PurePath(was.font).name, PurePath(legend.font).name
    if before != after:
        yield Difference(
            about=About.LEGEND, name=legend.ref, what=said.font_of(what), old=before, new=after, place=legend.box
        )
    if was.ink != legend.ink:
        yield Difference(about=About.LEGEND, name=legend.ref, what=said.ink_of(what),
                         old=f"{was.ink.name} {was.ink.colour}", new=f"{legend.ink.name} {legend.ink.colour}",
                         place=legend.box)  # fmt: skip


def _by_words(legends: Iterable[PlacedLegend]) -> dict[tuple[str, str, str], list[PlacedLegend]]:
    found: dict[tuple[str, str, str], list[PlacedLegend]] = {}
    for legend in legends:
        found.setdefault((legend.ref, legend.style, legend.text), []).append(legend)
    return found


def _by_kind(found: Mapping[tuple[str, str, str], Sequence[PlacedLegend]]) -> dict[tuple[str, str], list[PlacedLegend]]:
    kinds: dict[tuple[str, str], list[PlacedLegend]] = {}
    for (ref, style, _), legends in found.items():
        if legends:
            kinds.setdefault((ref, style), []).extend(legends)
    return kinds


def _words(legend: PlacedLegend) -> str:
    return '"' + legend.text.replace("\n", " / ") + '"'


def _legend(legend: PlacedLegend) -> Message:
    return said.legend(legend.style, legend.text.replace("\n", " "))


def _frames(old: Sequence[FrameLine], new: Sequence[FrameLine]) -> Iterator[Difference]:
    for name, was, frame in _paired({one.name: one for one in old}, {one.name: one for one in new}):
        if was is None or frame is None:
            there = frame or was
            assert there is not None
            yield _come_or_gone(About.FRAME, name, ", ".join(there.refs), came=was is None, place=there.box)
            continue
        if _box(was.box) != _box(frame.box):
            yield Difference(
                about=About.FRAME, name=name, what="line", old=_box(was.box), new=_box(frame.box), place=frame.box
            )
        if was.refs != frame.refs:
            yield Difference(about=About.FRAME, name=name, what="parts", old=", ".join(was.refs),
                             new=", ".join(frame.refs), place=frame.box)  # fmt: skip


def _box(box: Box) -> Message:
    sides = (box.width, box.height, box.left, box.bottom)
    return said.size_at(*(round(side, 2) for side in sides))


def _findings(old: Sequence[Finding], new: Sequence[Finding]) -> Iterator[Difference]:
    for findings, others, came in ((new, old, True), (old, new, False)):
        left = Counter(sign(finding) for finding in others)
        for finding in findings:
            left[sign(finding)] -= 1
            if left[sign(finding)] < 0:
                what = f"{finding.severity.value}: {finding.sentence}"
                yield _come_or_gone(About.FINDING, finding.rule, what, came=came, place=finding.place)
