# ruff: noqa: E501  # a table is read a row at a time
"""Known faults, each put into a demonstration panel that is in order: what is done, and what must be found.

A fault changes the finished layout, so that it stands alone: what the program would do to avoid it does not get in the
way. Places are taken from the layout itself and not written down, so that a demo may change.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from msgspec.structs import replace

from panelart.diagnostics import Where
from panelart.figure import Figure, Known
from panelart.geometry import Box, Contour, Line, Point, Transform, Vector, circle, rectangle
from panelart.lettering.codes import CodeKind
from panelart.lettering.outline import bounds, open_shape, shape_of
from panelart.model.component import PITCH_ACROSS, Component, EnvelopeRole, Opening
from panelart.model.fasteners import Board
from panelart.model.layout import Layout, PlacedEnvelope, PlacedLegend, PlacedMask, TurningDial, Unplaced
from panelart.model.metal import Edge
from panelart.model.metal import Edge as FaceEdge
from panelart.model.panel import (
    Art,
    Carrier,
    CircuitBoard,
    Coat,
    EyeRange,
    Hand,
    Ink,
    Keepout,
    Operator,
    Opposite,
    Place,
    Reading,
    Side,
    Sight,
    StraightScale,
    TurningScale,
    Waiver,
)
from panelart.model.printing import Background, Overlay, Solid, Thin
from panelart.model.variables import CodeRequest
from panelart.pipeline import lay_out, read
from panelart.processes.process import Process
from panelart.processes.registry import processes
from panelart.spec.art import drawn_code

DEMO = Path(__file__).parents[2] / "demo"
Found = set[tuple[str, tuple[str, ...]]]


@dataclass(frozen=True, kw_only=True)
class Fault:
    """What is done to which demo, and the findings that must come of it: rule and refs."""

    what: str
    demo: str
    change: Callable[[Layout], Layout]
    found: Found
    today: str = ""


@cache
def clean(demo: str) -> Layout:
    return lay_out(read(DEMO / f"{demo}.yaml"))


# --- the means


def _on_panel(layout: Layout, **changes) -> Layout:
    return replace(layout, panel=replace(layout.panel, **changes))


def panel(**changes):
    return lambda layout: _on_panel(layout, **changes)


def back_to_back(depth: float):
    """The panel closes a box with another of its own kind."""

    def change(layout: Layout) -> Layout:
        own = layout.panel
        return _on_panel(layout, opposite=Opposite(name="rear", panel=own, depth=depth, clearance=0.0, where=own.where))

    return change


def marking(**changes):
    return lambda layout: _on_panel(layout, marking=replace(layout.panel.marking, **changes))


def code(x: float, y: float, module: float = 0.5):
    """A QR code added with its middle at a place."""

    def change(layout: Layout) -> Layout:
        request = CodeRequest(kind=CodeKind.QR, text="SN-001", module=module, at=Point(x, y), turn=0.0, left_out=True)
        art = Art(what="code", shape=drawn_code(request), width=None, ink=layout.panel.marking.inks[0],
                  where=layout.panel.where, code=request)  # fmt: skip
        return _on_panel(layout, art=(*layout.panel.art, art))

    return change


def holding_lines(layout: Layout, width: float) -> Process:
    process = layout.panel.marking.process
    return replace(process, line_minimum=replace(process.line_minimum, value=width))


def part(ref: str, **changes):
    def change(layout: Layout) -> Layout:
        parts = tuple(replace(one, **changes) if one.ref == ref else one for one in layout.panel.parts)
        return _on_panel(layout, parts=parts)

    return change


def component(ref: str, **changes):
    def change(layout: Layout) -> Layout:
        own = layout.panel.by_ref[ref].component
        made = {key: value(own) if callable(value) else value for key, value in changes.items()}
        return part(ref, component=replace(own, **made))(layout)

    return change


def on_one_board(*refs: str, **changes):
    """The parts are on one circuit board."""

    def change(layout: Layout) -> Layout:
        board = CircuitBoard(name="1", refs=refs, where=layout.panel.where, **changes)
        return _on_panel(layout, boards=(board,))

    return change


def for_a_board(height: float | None = None, span: tuple[float, float] | None = None):
    """How a part sits on a board: `height` behind the panel, or at the board's edge, its axis 3 above it."""

    def at(name: str, value: float) -> Figure:
        return Figure(name=name, value=value, sources=("made up for this fault",), known=Known.GIVEN)

    offset = at("x", 0.0), at("y", 3.0 if height is None else 0.0)
    if height is None:
        return Board(offset=offset, on_edge=True)
    return Board(offset=offset, height=replace(at("height", height), span=span))


def fenced(ref: str, *others: str):
    """Of four other parts something 200 mm high is 15 mm away from the middle of a part, on each side of it."""

    def change(layout: Layout) -> Layout:
        at = layout.panel.by_ref[ref].at
        places = (Point(at.x - 20, at.y), Point(at.x + 20, at.y), Point(at.x, at.y - 20), Point(at.x, at.y + 20))
        walls = [
            PlacedEnvelope(ref=other, what="guard", contour=rectangle(10, 10, place), height=200.0, side=Side.FRONT,
                           covers=False, where=layout.panel.where)
            for other, place in zip(others, places, strict=True)
        ]  # fmt: skip
        return replace(layout, envelopes=(*layout.envelopes, *walls))

    return change


def scale(ref: str, **changes):
    return lambda layout: part(ref, scale=replace(layout.panel.by_ref[ref].scale, **changes))(layout)


def on_dial(
    ref: str,
    carrier: Carrier,
    *,
    inner: float,
    reach: float,
    window: tuple[float, float] | None = None,
    numerals: bool = False,
):
    """A scale that turns: a dial of 40 mm on a skirt, or on a disc behind a window that ends 16 mm from the shaft."""

    def change(layout: Layout) -> Layout:
        own = layout.panel.by_ref[ref]
        turning = TurningScale(carrier=carrier, index=90.0, diameter=40.0, inner=inner, window=window, window_end=16.0)
        own_numerals = tuple(one for one in layout.legends if (one.ref, one.style) == (ref, "numeral"))[:1]
        dial = TurningDial(
            ref=ref, scale=turning, at=own.at, bore=6.0, window=None, marks=(), reach=reach,
            legends=own_numerals if numerals else (),
            where=own.scale.where,
        )  # fmt: skip
        return replace(layout, dials=(*layout.dials, dial))

    return change


def of_all(*changes):
    def change(layout: Layout) -> Layout:
        for one in changes:
            layout = one(layout)
        return layout

    return change


def _legend(layout: Layout, ref: str, style: str, text: str | None) -> PlacedLegend:
    return next(
        one for one in layout.legends if (one.ref, one.style) == (ref, style) and (text is None or one.text == text)
    )


def moved(legend: PlacedLegend, dx: float, dy: float) -> PlacedLegend:
    by = Transform.move(dx, dy)
    return replace(
        legend,
        given=tuple(loop.transformed(by) for loop in legend.given),
        box=legend.box.moved(Vector(dx, dy)),
        baseline=Point(legend.baseline.x + dx, legend.baseline.y + dy),
    )


def legend(ref: str, style: str, text: str | None = None, /, **changes):
    """A legend changed; `to` is where the middle of its ink goes: a point, or a function of layout and its box."""
    to = changes.pop("to", None)

    def change(layout: Layout) -> Layout:
        old = _legend(layout, ref, style, text)
        new = replace(old, **changes)
        if to is not None:
            goal = to(layout, old.box) if callable(to) else to
            new = moved(new, goal.x - old.box.centre.x, goal.y - old.box.centre.y)
        return replace(layout, legends=tuple(new if one is old else one for one in layout.legends))

    return change


def marks(ref: str, kinds: Iterable[str] | None = None, **changes):
    def change(layout: Layout) -> Layout:
        made = []
        for mark in layout.marks:
            if mark.ref == ref and (kinds is None or mark.kind in kinds):
                made.append(
                    replace(mark, **{key: value(mark) if callable(value) else value for key, value in changes.items()})
                )
            else:
                made.append(mark)
        return replace(layout, marks=tuple(made))

    return change


def envelope(ref: str, what: str, **changes):
    def change(layout: Layout) -> Layout:
        return replace(
            layout,
            envelopes=tuple(
                replace(one, **{key: value(one) if callable(value) else value for key, value in changes.items()})
                if (one.ref, one.what) == (ref, what)
                else one
                for one in layout.envelopes
            ),
        )

    return change


def pitched(one: Component, across: float) -> tuple[Opening, ...]:
    """The openings of a part with another minimum pitch in a row."""
    first, *others = one.openings
    figures = tuple(
        replace(figure, value=across) if figure.name == PITCH_ACROSS else figure for figure in first.figures
    )
    return (replace(first, figures=figures), *others)


def called(ref: str, what: str, name: str, role: EnvelopeRole = EnvelopeRole.BODY):
    """An envelope by another name and role: a nut where a flange was."""
    return lambda layout: replace(
        layout,
        envelopes=tuple(
            replace(one, what=name, role=role) if (one.ref, one.what) == (ref, what) else one
            for one in layout.envelopes
        ),
    )


def without_envelopes(ref: str, side: Side | None = None):
    return lambda layout: replace(
        layout, envelopes=tuple(one for one in layout.envelopes if one.ref != ref or (side and one.side is not side))
    )


def without_legends(ref: str):
    return lambda layout: replace(layout, legends=tuple(one for one in layout.legends if one.ref != ref))


def opening(name: str, **changes):
    def change(layout: Layout) -> Layout:
        return replace(
            layout,
            openings=tuple(
                replace(one, **{key: value(one) if callable(value) else value for key, value in changes.items()})
                if one.name == name
                else one
                for one in layout.openings
            ),
        )

    return change


def second_return(edge: FaceEdge, length: float):
    """The return of one flange, made so long, on another flange too."""

    def change(layout: Layout) -> Layout:
        back = replace(next(one.second for one in layout.panel.flanges if one.second is not None), length=length)
        flanges = tuple(replace(one, second=back) if one.edge is edge else one for one in layout.panel.flanges)
        return _on_panel(layout, flanges=flanges)

    return change


def shifted(ref: str, dx: float, dy: float):
    """A part with all that belongs to it."""
    by = Transform.move(dx, dy)

    def change(layout: Layout) -> Layout:
        at = layout.panel.by_ref[ref].at
        made = part(ref, at=Point(at.x + dx, at.y + dy))(layout)
        return replace(
            made,
            openings=tuple(
                replace(
                    one,
                    finished=one.finished.transformed(by),
                    cut=one.cut.transformed(by),
                    passes=None if one.passes is None else one.passes.transformed(by),
                )
                if one.ref == ref
                else one
                for one in made.openings
            ),
            envelopes=tuple(
                replace(one, contour=one.contour.transformed(by)) if one.ref == ref else one for one in made.envelopes
            ),
            legends=tuple(moved(one, dx, dy) if one.ref == ref else one for one in made.legends),
            marks=tuple(
                replace(one, shape=tuple(loop.transformed(by) for loop in one.shape)) if one.ref == ref else one
                for one in made.marks
            ),
        )

    return change


def keepout(area: Callable[[Layout], Box], side: Side = Side.FRONT):
    def change(layout: Layout) -> Layout:
        box = area(layout)
        made = Keepout(
            contour=rectangle(box.width, box.height, box.centre), side=side, why="a trial", where=layout.panel.where
        )
        return _on_panel(layout, keepouts=(*layout.panel.keepouts, made))

    return change


def another_frame(ref: str, name: str, edge: Callable[[Box], Box]):
    """A frame drawn like one there is, on a box made from that one's."""

    def change(layout: Layout) -> Layout:
        old = next(mark for mark in layout.marks if mark.ref == name and mark.kind == "frame")
        box = edge(next(frame.box for frame in layout.frames if frame.name == name))
        new = replace(old, ref=ref, shape=shape_of(rectangle(box.width, box.height, box.centre)))
        return replace(layout, marks=(*layout.marks, new))

    return change


def field_over(of: Callable[[Layout], Box]):
    """A filled field with nothing left out of it, in the ink of the first frame."""

    def change(layout: Layout) -> Layout:
        box = of(layout)
        old = next(mark for mark in layout.marks if mark.kind == "frame")
        made = replace(old, ref="field 9", kind="field", shape=shape_of(rectangle(box.width, box.height, box.centre)),
                       width=0.0, filled=True)  # fmt: skip
        return replace(layout, marks=(made, *layout.marks))

    return change


def frame_stroke(name: str, ends: Callable[[Box], tuple[Point, Point]], width: float | None = None):
    """One straight line more of a frame, clear of its others; as wide as they are unless told."""

    def change(layout: Layout) -> Layout:
        old = next(mark for mark in layout.marks if mark.ref == name and mark.kind == "frame")
        box = next(frame.box for frame in layout.frames if frame.name == name)
        return replace(
            layout, marks=(*layout.marks, replace(old, shape=open_shape((Line(*ends(box)),)), width=width or old.width))
        )

    return change


def waiver(rule: str, *refs: str, until: str = ""):
    def change(layout: Layout) -> Layout:
        made = Waiver(rule=rule, refs=refs, why="a trial", where=layout.panel.where, until=until)
        return _on_panel(layout, waivers=(*layout.panel.waivers, made))

    return change


def middle_of(ref: str, what: str):
    """The middle of an envelope of a part."""
    return lambda layout, _: next(
        one.contour.bounds.centre for one in layout.envelopes if (one.ref, one.what) == (ref, what)
    )


def by(dx: float, dy: float):
    return lambda _, box: Point(box.centre.x + dx, box.centre.y + dy)


def beside(ref: str, style: str, text: str | None = None, *, grown: float = 0.3) -> Callable[[Layout], Box]:
    """A box just round a legend."""
    return lambda layout: _legend(layout, ref, style, text).box.grown(grown)


def wider(more: float):
    """A round contour with a larger diameter."""

    def change(one) -> Contour:
        contour = one.contour if hasattr(one, "contour") else one.cut
        centre, radius = contour.circle
        return circle(2 * radius + more, centre)

    return change


def shortened(share: float):
    return lambda mark: open_shape((Line(mark.shape[0].curves[0].start, mark.shape[0].curves[0].point_at(share)),))


def doubled_marks(ref: str, deg: float):
    """Every short mark of a scale once more, turned a little about the part."""

    def change(layout: Layout) -> Layout:
        turn = Transform.turn(deg, layout.panel.by_ref[ref].at)
        more = tuple(
            replace(mark, shape=tuple(loop.transformed(turn) for loop in mark.shape))
            for mark in layout.marks
            if mark.ref == ref and mark.kind == "minor-mark"
        )
        return replace(layout, marks=layout.marks + more)

    return change


def swapped(ref: str):
    """The words of a switch's two positions changed over."""

    def change(layout: Layout) -> Layout:
        one, other = layout.panel.by_ref[ref].positions
        turned = (replace(one, request=other.request), replace(other, request=one.request))
        return part(ref, positions=turned)(layout)

    return change


def backwards(ref: str, keep: int):
    """The first positions of a rotary switch, the other way round, and no others."""

    def change(layout: Layout) -> Layout:
        kept = layout.panel.by_ref[ref].positions[:keep]
        turned = tuple(replace(one, request=other.request) for one, other in zip(kept, reversed(kept), strict=True))
        return part(ref, positions=turned)(layout)

    return change


def text_turned(number: int, deg: float):
    def change(layout: Layout) -> Layout:
        texts = list(layout.panel.texts)
        texts[number] = replace(texts[number], turn=deg)
        return _on_panel(layout, texts=tuple(texts))

    return change


def missing(ref: str, text: str):
    def change(layout: Layout) -> Layout:
        where = layout.panel.by_ref[ref].where
        lost = Unplaced(
            ref=ref, style="name", text=text, near=layout.panel.by_ref[ref].at, blockers=("a knob",), where=where
        )
        return replace(layout, unplaced=(lost,))

    return change


def from_memory(own) -> tuple:
    return tuple(
        replace(one, figures=tuple(replace(figure, known=Known.MEMORY) for figure in one.figures))
        for one in own.openings
    )


def seen_from(height: float):
    def change(layout: Layout) -> Layout:
        eye = EyeRange(
            distance=600.0, height=(height, height), aside=(0.0, 0.0), lean_deg=0.0, where=layout.panel.where
        )
        return _on_panel(layout, operator=Operator(eye=eye))

    return change


def sight(**of):
    return panel(operator=Operator(sight=Sight(**of)))


def hand(which: Hand):
    return panel(operator=Operator(hand=which))


def hole_of(layout: Layout, name: str) -> Point:
    return next(one.cut.circle[0] for one in layout.openings if one.name == name)


def flange(edge: Edge, **changes):
    def change(layout: Layout) -> Layout:
        edges = (replace(one, **changes) if one.edge is edge else one for one in layout.panel.flanges)
        return _on_panel(layout, flanges=tuple(edges))

    return change


def longer_return(edge: Edge, length: float):
    def change(layout: Layout) -> Layout:
        second = next(one.second for one in layout.panel.flanges if one.edge is edge)
        return flange(edge, second=replace(second, length=length))(layout)

    return change


def making(**changes):
    return lambda layout: _on_panel(layout, making=replace(layout.panel.making, **changes))


def without_part(ref: str):
    def change(layout: Layout) -> Layout:
        left = _on_panel(layout, parts=tuple(one for one in layout.panel.parts if one.ref != ref))
        left = replace(left, openings=tuple(one for one in layout.openings if one.ref != ref))
        return without_envelopes(ref)(left)

    return change


ANODISED = Coat(kind="anodise", thickness=0.02, colour="#2E4A5C", minimum=0.02, maximum=0.02, growth=0.5)

B, M, R, D, T = "bench-supply", "monitor-2u", "rear-io", "dosing", "relay-tray"
GREY = Ink(name="black", colour="#AAAAAA")
DARK = Ink(name="white", colour="#3A3F45")
PALE = Ink(name="amber", colour="#F0EFEA")


def fault(
    what: str, demo: str, change: Callable[[Layout], Layout], *found: tuple[str, tuple[str, ...]], today: str = ""
) -> Fault:
    return Fault(what=what, demo=demo, change=change, found=set(found), today=today)


def from_font(font: str):
    """Change for a legend: its letters are of another font than it is itself in."""

    def change(legend: PlacedLegend) -> PlacedLegend:
        setting = legend.setting
        letters = tuple(replace(letter, font=font) for letter in setting.letters)
        return replace(legend, setting=replace(setting, letters=letters))

    return change


def printing(**changes):
    """The print made ready otherwise; values may be made of what there is."""

    def change(layout: Layout) -> Layout:
        was = layout.panel.marking.printing
        made = {key: value(was) if callable(value) else value for key, value in changes.items()}
        return marking(printing=replace(was, **made))(layout)

    return change


def own_figures(**values: float):
    """The process with figures of its own set otherwise."""

    def change(layout: Layout) -> Layout:
        process = layout.panel.marking.process
        known = {**processes()["overlay"].own, **processes()["pad-print"].own}
        own = {**process.own, **{name: replace(known[name], value=value) for name, value in values.items()}}
        return marking(process=replace(process, own=own))(layout)

    return change


def trait(**values: bool):
    """The process with a trait of another."""
    return lambda layout: marking(process=replace(layout.panel.marking.process, **values))(layout)


def field_of(ink: str, box: Box) -> Background:
    area = shape_of(rectangle(box.width, box.height, box.centre))
    return Background(colour=Solid(ink=ink), area=area, bleed=None, where=Where("demo", 1, 1))


def bare_pad(at: Callable[[Layout], Point]):
    return lambda layout: replace(
        layout,
        masks=(*layout.masks, PlacedMask(name="P1", contour=circle(6.0, at(layout)), side=Side.FRONT, why="bonding",
                                         where=layout.panel.where)),
    )  # fmt: skip


def text_box(layout: Layout, text: str) -> Box:
    return next(legend.box for legend in layout.legends if legend.text == text)


FILM = Overlay(
    inset=0.5, corner=2, nut_margin=0.5, window_margin=0.25, adhesive_margin=0.5, free=(), colour="", reverse=False
)


FAULTS = (
    # --- legends and what is in their way
    fault("a name moved under its knob", B, legend("RV1", "name", to=middle_of("RV1", "knob")),
          ("legend-under-knob", ("RV1",))),
    fault("a numeral moved under its knob", M, legend("RV1", "numeral", "5", to=middle_of("RV1", "knob")),
          ("legend-under-knob", ("RV1",))),
    fault("a far larger knob", M, envelope("RV5", "knob", contour=wider(6)),
          ("legend-under-knob", ("RV5",))),
    fault("a name moved under its nut", B, legend("S1", "name", to=middle_of("S1", "nut")),
          ("legend-under-part", ("S1",))),
    fault("a name moved under its screw head", R, legend("E1", "name", to=middle_of("E1", "head")),
          ("legend-under-part", ("E1",))),
    fault("a lamp without a bezel, its name over the hole", B,
          of_all(without_envelopes("DS3"), legend("DS3", "name", to=lambda layout, _: layout.panel.by_ref["DS3"].at)),
          ("legend-over-opening", ("DS3",))),
    fault("a lamp without a bezel, its name almost at the hole", B,
          of_all(without_envelopes("DS3"), legend("DS3", "name", to=lambda layout, box: Point(
              box.centre.x, layout.panel.by_ref["DS3"].at.y + 4.05 + 0.3 + box.height / 2))),
          ("legend-near-opening", ("DS3",)), ("row-unlike", ("DS3",))),
    fault("a text almost at a screw head", B, legend("text 2", "title", to=lambda layout, box: Point(
        layout.panel.by_ref["H1"].at.x + 4.2 + box.width / 2, layout.panel.by_ref["H1"].at.y)),
          ("legend-near-hardware", ("text 2", "H1"))),
    fault("a numeral almost at its mark", B, legend("RV1", "numeral", "15", to=lambda layout, box: Point(
        box.centre.x - box.width / 4 - 0.4, box.height / 2 - 0.1 + max(
            bounds(mark.shape).top + mark.width / 2 for mark in layout.marks if mark.ref == "RV1"))),
          ("legend-near-mark", ("RV1",))),
    fault("a position over the name", B, legend("S2", "position", "ON", to=lambda layout, _: _legend(layout, "S2", "name", None).box.centre),
          ("legends-collide", ("S2",))),
    fault("a numeral run into its mark", B, legend("RV1", "numeral", "15", to=by(0, -2)),
          ("legend-on-mark", ("RV1",))),
    fault("a name on the line of its frame", B, legend("J1", "name", to=lambda layout, box: Point(layout.frames[0].box.left, box.centre.y)),
          ("legend-on-frame", ("J1", "frame 1"))),
    fault("a keep-out over a name", R, keepout(beside("J2", "name")), ("legend-in-keepout", ("J2",))),
    fault("a name at the edge of the panel", R, legend("E1", "name", to=lambda _, box: Point(box.centre.x, 0.8 + box.height / 2)),
          ("legend-off-printable-area", ("E1",))),
    fault("a code of modules too fine", B, code(119, 10, 0.2), ("code-too-fine", ("code 1",))),
    fault("a code beside a screw", B, code(17, 8), ("code-not-quiet", ("code 1", "H1"))),
    fault("a legend without room", B, missing("S1", "POWER"), ("legend-unplaced", ("S1",))),
    fault("an eye far above, levers and carriers in front", R, seen_from(300), ("legend-hidden-from-eye", ("F1",)),
          ("legend-hidden-from-eye", ("J3", "J2")), ("legend-hidden-from-eye", ("text 1", "J1"))),
    fault("a reader of little more than half the usual acuity", B, sight(acuity=0.4),
          ("legend-easily-misread", ("S1", "S2")), ("legend-easily-misread", ("RV1", "RV2"))),
    fault("plus and minus for a still weaker eye", B, sight(acuity=0.35), ("legend-easily-misread", ("S1", "S2")),
          ("legend-easily-misread", ("RV1", "RV2")), ("legend-easily-misread", ("text 2",)),
          ("legends-easily-confused", ("J1", "J3"))),
    # --- height, line, ink
    fault("numerals too small to be read", B, legend("RV1", "numeral", "0", cap_height=1.0), ("legend-too-small", ("RV1",))),
    fault("a note too small to be read", M, legend("text 1", "note", cap_height=1.0), ("legend-too-small", ("text 1",))),
    fault("a warning too small to be read", R, legend("text 2", "note", cap_height=1.2), ("legend-too-small", ("text 2",))),
    fault("marks too thin to print", M, marks("RV4", width=0.05), ("line-too-thin", ("RV4",))),
    fault("a frame too thin to print", B, marks("frame 1", width=0.05), ("line-too-thin", ("frame 1",))),
    fault("a note in a pen too fine for a light face", R, legend("text 2", "note", font="plain-light"),
          ("lettering-too-light", ("text 2",)), ("lettering-in-another-font", ("text 2",))),
    fault("a title in a pen too heavy for a dark face", B, legend("text 2", "title", font="plain-bold"),
          ("lettering-too-heavy", ("text 2",)), ("lettering-in-another-font", ("text 2",))),
    fault("grey lettering on grey", R, legend("text 2", "note", ink=GREY), ("legend-contrast-low", ("text 2",))),
    fault("dark marks on a dark face", B, marks("RV1", ink=DARK), ("mark-contrast-low", ("RV1",))),
    fault("two inks that look alike", B, legend("text 2", "title", ink=PALE), ("inks-look-alike", ("text 2",))),
    fault("positions larger than the name", M, of_all(*(legend("S21", "position", text, cap_height=3.2) for text in ("ON", "OFF"))),
          ("legend-hierarchy-flat", ("S21",))),
    fault("a frame's title no larger than names", B, legend("frame 1", "title", cap_height=3.5), ("legend-hierarchy-flat", ("frame 1",))),
    fault("one name larger than the others", B, legend("DS1", "name", cap_height=4.0), ("names-unlike", ("DS1",))),
    fault("marks too fine to be seen", B, of_all(lambda layout: marking(process=holding_lines(layout, 0.1))(layout),
                                                 marks("RV1", ["minor-mark"], width=0.15)), ("mark-too-fine", ("RV1",))),
    fault("marks too short to be read", B, marks("RV2", ["major-mark"], shape=shortened(0.15)), ("mark-too-short", ("RV2",))),
    fault("marks that run together", B, doubled_marks("RV1", 1.0), ("marks-crowded", ("RV1",))),
    # --- place
    fault("a text on its head", B, text_turned(0, 180.0), ("legend-turned", ("text 1",))),
    fault("a text that climbs", M, text_turned(0, 90.0), ("legend-turned", ("text 1",))),
    fault("one name on the other side", M, legend("DS4", "name", place=Place.BELOW, to=lambda layout, box: Point(
        box.centre.x, layout.panel.by_ref["DS4"].at.y - 4.5 - box.height / 2)), ("row-unlike", ("DS4",))),
    fault("a name beside the wrong socket", B, legend("J3", "name", to=lambda layout, box: Point(
        next(one.contour.bounds.right for one in layout.envelopes if (one.ref, one.what) == ("J2", "flange")) + 0.6 + box.width / 2,
        layout.panel.by_ref["J2"].at.y)), ("legend-ambiguous", ("J3", "J2"))),
    fault("two texts almost in one", B, legend("text 2", "title", to=lambda layout, box: Point(
        box.centre.x, _legend(layout, "text 1", "title", None).box.bottom - 1.0 - box.height / 2)),
        ("legends-too-close", ("text 2", "text 1"))),
    # --- wording
    fault("two lamps of one name", B, legend("DS3", "name", text="CV"), ("name-repeated", ("DS3", "DS2"))),
    fault("a switch without a word", B, of_all(part("S1", legend=None, positions=()), without_legends("S1")),
          ("control-without-name", ("S1",))),
    fault("on is down", B, swapped("S2"), ("switch-against-convention", ("S2",))),
    fault("one switch the other way round", M, swapped("S5"), ("positions-contradict", ("S5", "S1"))),
    fault("positions that count backwards", M, backwards("S20", 4), ("positions-run-backwards", ("S20",))),
    fault("a unit in the wrong letters", R, legend("J4", "name", text="12 v ="), ("unit-misspelt", ("J4",))),
    fault("a name of which letters are from another font", B, lambda layout: legend("DS3", "name", setting=from_font(
        "plain-light-narrow")(_legend(layout, "DS3", "name", None)).setting)(layout), ("lettering-in-another-font", ("DS3",))),
    fault("an abbreviation of nobody's", B, legend("DS1", "name", text="STRT"), ("abbreviation-unlisted", ("DS1",))),
    fault("a scale in steps of seven and a half", B, scale("RV1", major=7.5, minor=1.5), ("scale-counts-oddly", ("RV1",))),
    fault("twenty-four marks between numerals", B, scale("RV1", minor=0.2), ("scale-marks-uncounted", ("RV1",))),
    fault("a scale longer than its fader travels", "mixing-desk", scale("RV15", straight=StraightScale(length=70.0, side=Place.RIGHT)),
          ("scale-longer-than-travel", ("RV15",))),
    fault("a dial longer than its potentiometer turns", B, scale("RV1", sweep=340.0), ("scale-longer-than-turn", ("RV1",))),
    fault("a dial that rises anticlockwise", B, scale("RV2", clockwise=False), ("scale-runs-backwards", ("RV2",))),
    fault("a disc behind a part with a nut", B, on_dial("RV1", Carrier.DISC, inner=6.0, reach=10.0),
          ("disc-without-room", ("RV1",))),
    fault("a scale wider than its skirt", B, on_dial("RV1", Carrier.SKIRT, inner=24.0, reach=11.9), ("dial-ring-narrow", ("RV1",))),
    fault("a numeral cut by its window", B, on_dial("RV1", Carrier.DISC, inner=6.0, reach=10.0, window=(2.0, 10.0), numerals=True),
          ("dial-numeral-cut", ("RV1",)), ("dial-window-under-knob", ("RV1",)), ("disc-without-room", ("RV1",)), ("dial-window-small", ("RV1",))),
    fault("a 6 on its head", B, of_all(scale("RV1", reading=Reading.TANGENTIAL), legend("RV1", "numeral", "5", text="6", turn=180.0)),
          ("numeral-upside-down", ("RV1",))),
    fault("a mark of one's own without its numeral", B, scale("RV1", marks=(0.0, 5.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0), major=None),
          ("mark-without-numeral", ("RV1",))),
    fault("a knob over the window of its disc", B, on_dial("RV1", Carrier.DISC, inner=6.0, reach=10.0, window=(20.0, 10.0)),
          ("dial-window-under-knob", ("RV1",)), ("disc-without-room", ("RV1",))),
    fault("a scale that lost its unit", B, legend("RV1", "numeral", "V", text="30"), ("scale-without-unit", ("RV1",))),
    # --- the hand
    fault("an eight-channel row for bare hands", M, hand(Hand.BARE),
          *(("controls-too-close", (f"S{n}", f"RV{n}")) for n in range(1, 9)),
          *(("controls-too-close", (f"RV{n + 1}", f"RV{n}")) for n in range(1, 8))),
    fault("a lever that sweeps to a knob", M, envelope("S21", "lever", contour=lambda one: one.contour.transformed(Transform.move(-18.0, -9.0))),
          ("controls-too-close", ("S21", "RV20"))),
    fault("a lever beside a knob made an emergency stop", M, of_all(component("S21", cautions=("emergency-stop",)), envelope("S21", "lever", contour=lambda one: one.contour.transformed(Transform.move(-2, -2)))),
          ("emergency-stop-crowded", ("RV20", "S21")), ("emergency-stop-miscoloured", ("S21",))),
    fault("a black emergency stop", D, envelope("S9", "mushroom", colour="#1B1D1F"), ("emergency-stop-miscoloured", ("S9",))),
    fault("words on the yellow of an emergency stop", D, of_all(envelope("S9", "yellow disc", covers=False), legend("S9", "name", to=lambda layout, box: Point(
        box.centre.x, layout.panel.by_ref["S9"].at.y + 27.0 - box.height / 2))), ("emergency-stop-lettered", ("S9",))),
    fault("a push-button that asks for more room beside it", D, component("P1", openings=lambda one: pitched(one, 100.0)),
          ("pitch-too-small", ("P1", "V1")), ("pitch-too-small", ("H2", "P1"))),
    fault("two nuts too close for a spanner", R, of_all(shifted("J20", -7.7, 0.0), called("J10", "flange", "nut", EnvelopeRole.NUT), called("J20", "flange", "nut", EnvelopeRole.NUT)), ("nut-without-room-for-spanner", ("J10", "J20")), ("legends-collide", ("J10", "J20"))),
    fault("a cable with guards all round", "house-panel", fenced("J2", "J1", "E1", "J1", "J1"), ("cable-without-way", ("J2", "J1"))),
    fault("a door 40 mm in front", B, panel(depth_in_front=40.0), *(("front-higher-than-room", (ref,)) for ref in ("J1", "J2", "J3"))),
    # --- behind, and mains
    fault("a part 3 mm too low for its board", B, on_one_board("J1", "J2", heights=(("J1", 9.0), ("J2", 6.0))), ("board-heights-differ", ("J2", "J1"))),
    fault("a board 2 mm too far behind", B, on_one_board("J1", gap=11.0, heights=(("J1", 9.0),)), ("board-gap-differs", ("J1",))),
    fault("a socket 2 mm above the edge of its board", B, of_all(shifted("J2", 0.0, 2.0), component("J1", board=for_a_board()), component("J2", board=for_a_board()), on_one_board("J1", "J2")),
          ("board-edge-out-of-line", ("J2", "J1"))),
    fault("a board that only the highest of a kind reaches", B, of_all(component("J1", board=for_a_board(9.0, (8.0, 12.0))), on_one_board("J1", gap=11.0)),
          ("board-height-uncertain", ("J1",)), ("parts-to-measure", ("J1",))),
    fault("a part of unknown height on a board", B, on_one_board("J1"), ("board-height-unknown", ("J1",))),
    fault("two heights and no word of boards", B, of_all(component("J1", board=for_a_board(9.0)), component("J2", board=for_a_board(6.5))), ("board-not-stated", ("J2", "J1"))),
    fault("a box too shallow for two panels", B, back_to_back(depth=210.0), ("bodies-meet-in-box", ("M1",)), ("bodies-meet-in-box", ("M2",))),
    fault("a case too shallow", B, panel(depth_behind=100.0), ("body-deeper-than-room", ("M1",)), ("body-deeper-than-room", ("M2",))),
    fault("a body past the edge", R, envelope("J4", "body", contour=lambda one: one.contour.transformed(Transform.move(25, 0))),
          ("body-over-edge", ("J4",))),
    fault("no earth terminal", R, legend("E1", "name", text="BONNET"), ("earth-terminal-missing", ("J1",))),
    fault("the earth terminal far away", R, shifted("E1", 112.0, -9.0), ("earth-terminal-far", ("E1", "J1"))),
    fault("a fuse holder without a rating", R, legend("F1", "name", text="FUSE"), ("fuse-rating-missing", ("F1",))),
    fault("an inlet without a rating", R, legend("text 1", "note", text="MAINS"), ("mains-rating-missing", ("J1",))),
    # --- metal
    fault("a hole cut 10 mm too wide", B, opening("J2", cut=wider(10)), ("openings-too-close", ("J1", "J2")), ("openings-too-close", ("J2", "J3"))),
    fault("a hole cut into its neighbours", B, opening("J2", cut=wider(16)), ("openings-collide", ("J1", "J2")), ("openings-collide", ("J2", "J3"))),
    fault("a thin web in an inlet", R, opening("J1.2", cut=wider(6)), ("thin-web-in-cutout", ("J1",))),
    fault("a screw too near the edge", B, shifted("H1", -2.0, 0.0), ("opening-near-edge", ("H1",))),
    fault("a hole through the edge", B, opening("H1", cut=lambda one: one.cut.transformed(Transform.move(-6, 0))), ("opening-over-edge", ("H1",))),
    fault("a screw head past the edge", B, envelope("H1", "head", contour=wider(12)), ("part-over-edge", ("H1",))),
    fault("a coat that closes a hole", B, opening("J1", finished=lambda one: circle(11.5, one.finished.circle[0])),
          ("opening-too-small-after-coat", ("J1",))),
    fault("a sheet too thick for a switch", B, component("S1", thickness=(0.5, 1.0)), ("sheet-too-thick", ("S1",))),
    fault("a sheet too thin for a snap", R, component("J4", thickness=(3.0, 4.0)), ("sheet-too-thin", ("J4",))),
    fault("a screw whose size is a memory", R, component("E1", openings=from_memory), ("parts-to-measure", ("E1",))),
    # --- keep-outs, collisions, frames
    fault("a bracket where a meter stands", B, keepout(lambda _: Box(100, 70, 106, 76), Side.REAR), ("part-in-keepout", ("M1",))),
    fault("a hole through a bracket", B, of_all(without_envelopes("DS1", Side.REAR), keepout(lambda layout: Box(
        layout.panel.by_ref["DS1"].at.x - 8, layout.panel.by_ref["DS1"].at.y - 8, layout.panel.by_ref["DS1"].at.x,
        layout.panel.by_ref["DS1"].at.y + 8), Side.REAR)), ("opening-in-keepout", ("DS1",))),
    fault("a plug too fat for its neighbours", B, envelope("J2", "mated plug", contour=wider(18)),
          ("parts-collide", ("J1", "J2")), ("parts-collide", ("J2", "J3"))),
    fault("bodies that meet behind", B, envelope("J2", "body", contour=wider(18)),
          ("parts-collide-behind", ("J1", "J2")), ("parts-collide-behind", ("J2", "J3"))),
    fault("a screw hole under a switch", B, of_all(without_envelopes("H1"), shifted("H1", 10.07, 25.0)), ("opening-under-part", ("H1", "S1"))),
    fault("a frame through its sockets", B, frame_stroke("frame 1", lambda box: (Point(box.left + 1, 27.0), Point(box.right - 1, 27.0))),
          *(("frame-under-part", ("frame 1", ref)) for ref in ("J1", "J2", "J3"))),
    fault("a frame over a hole", B, of_all(without_envelopes("J2"), frame_stroke("frame 1", lambda box: (Point(box.left + 1, 27.0), Point(box.right - 1, 27.0)))),
          ("frame-over-opening", ("frame 1", "J2")), *(("frame-under-part", ("frame 1", ref)) for ref in ("J1", "J3"))),
    fault("a keep-out on a frame", B, keepout(lambda layout: Box(layout.frames[0].box.right - 0.5, 45, layout.frames[0].box.right + 0.5, 55)),
          ("frame-in-keepout", ("frame 1",))),
    fault("a field over half of a text", B, field_over(lambda layout: Box(*(
        (box := text_box(layout, "NORRICK WELD")).left - 1, box.bottom - 1, box.centre.x, box.top + 1))),
          ("marking-across-field", ("text 1", "field 9"))),
    fault("two frames that cross", B, another_frame("frame 2", "frame 1", lambda box: Box(box.right - 2, 45, box.right + 3, 55)),
          ("frames-collide", ("frame 1", "frame 2"))),
    fault("a socket in a frame that is not its own", B, lambda layout: replace(layout, frames=tuple(
        replace(frame, refs=tuple(ref for ref in frame.refs if ref != "J2")) for frame in layout.frames)),
          ("frame-holds-stranger", ("frame 1", "J2"))),
    fault("a frame at the edge", M, frame_stroke("frame 1", lambda box: (Point(box.left, 0.6), Point(box.right, 0.6))),
          ("frame-off-printable-area", ("frame 1",))),
    # --- what only one demo has
    fault("plugs in a row for bare hands", R, hand(Hand.BARE),
          *(("plugs-too-close", pair) for pair in (("J2", "J3"), ("J10", "J2"), ("J10", "J3"), ("J10", "J20")))),
    fault("a return round the corner from another", T, second_return(FaceEdge.LEFT, 20.0),
          ("return-too-long-for-tool", ()), ("returns-collide", ())),
    fault("a hole in the mouth of a countersink", T, lambda layout: opening("N1", cut=circle(2.0, Point(hole_of(layout, "H1").x - 3.4, hole_of(layout, "H1").y)))(layout),
          ("countersink-meets-opening", ("H1", "N1")), ("openings-too-close", ("H1", "N1"))),
    fault("a countersink full of coat", T, opening("H1", countersink=lambda one: replace(one.countersink, finished=one.countersink.finished - 0.5)),
          ("countersunk-head-proud", ("H1",))),
    # --- the print
    fault("more inks than the process has", B, own_figures(inks_maximum=1), ("too-many-inks", ())),
    fault("no base under thin ink, and a wide choke", B,
          printing(base=lambda was: replace(was.base, choke=0.3, thin=Thin.NONE)), ("base-lost", ("text 2",))),
    fault("inks that touch without a trap", B,
          lambda layout: printing(trap=0.0, backgrounds=(field_of("amber", text_box(layout, "NORRICK WELD").grown(1.0)),))(layout),
          ("trap-too-small", ("text 1",)), ("legend-contrast-low", ("text 1",))),
    fault("a thin light line left out of a field", B,
          of_all(frame_stroke("frame 1", lambda _: (Point(100, 6), Point(130, 6)), 0.255), printing(backgrounds=(field_of("amber", Box(98, 5, 132, 7)),))),
          ("knockout-too-narrow", ("frame 1",)), ("mark-contrast-low", ("frame 1",))),
    fault("a bare pad beside a legend", B, bare_pad(lambda layout: Point(text_box(layout, "BS 210").right + 3.3, text_box(layout, "BS 210").centre.y)), ("ink-near-bare-pad", ("text 2",))),
    fault("a label film with wide windows", B, printing(overlay=replace(FILM, nut_margin=3.0)), ("legend-near-window", ("S1",)), ("legend-near-window", ("S2",))),
    fault("a print longer than its machine takes", B, own_figures(print_maximum=200.0), ("print-too-large", ())),
    fault("a print wider than the ink cup", B, own_figures(cup_maximum=60.0), ("print-too-large", ())),
    fault("a soft tool on a textured coat", B, trait(soft_tool=True), ("print-on-texture", ())),
    fault("screws too near the edge of a label film", B, of_all(own_figures(bridge_minimum=2.0), printing(overlay=FILM)),
          *(("label-film-web-narrow", (ref,)) for ref in ("H1", "H2", "H3", "H4"))),
    fault("a frame beside a screw hole", B,
          of_all(without_envelopes("H4"), frame_stroke("frame 1", lambda _: (Point(245, 105.6), Point(256, 105.6)))), ("frame-near-opening", ("frame 1", "H4"))),
    # --- waivers
    fault("a waiver of no rule", B, waiver("legend-to-small", "S1"), ("waiver-names-unknown-rule", ("S1",))),
    fault("a waiver of nothing", M, waiver("legend-too-small", "S20"), ("waiver-matches-nothing", ("S20",))),
    # --- the brake, the press, the rack and the hook
    fault("a flange as high as the tray is wide", T, flange(Edge.TOP, length=92.0), ("flange-meets-punch", ())),
    fault("grain along the bends", T, making(grain="along"), ("bend-along-grain", ())),
    fault("a tall pillar that is pressed in before bending", T, of_all(longer_return(Edge.BOTTOM, 23.0), envelope("N1", "nut", height=15.0)),
          ("hardware-meets-punch", ("N1",))),
    fault("a nut under a return of an anodised tray", T, of_all(longer_return(Edge.BOTTOM, 23.0), panel(coat=ANODISED)), ("hardware-out-of-reach", ("N1",))),
    fault("a coated panel of open holes", B, lambda layout: of_all(*(without_envelopes(part.ref, Side.FRONT) for part in layout.panel.parts))(layout),
          ("nowhere-to-hang", ())),
    fault("hung by a hole that shows", T, making(hang_by=("N1",)), ("hook-mark-seen", ("N1",))),
    fault("a rack panel without its slots", M, without_part("FR"), ("rack-fixing-missing", ())),
    fault("a body among the rails", M, of_all(without_part("FR"), envelope("DS1", "nut", contour=lambda one: one.contour.moved(Vector(-25.0, 0.0)))),
          ("rack-fixing-missing", ()), ("part-in-rail-zone", ("DS1",))),
    fault("a waiver that has ended", R, waiver("parts-to-measure", "J4", until="2027-01-31"), ("waiver-expired", ("J4",)), today="2027-02-01"),
)  # fmt: skip
