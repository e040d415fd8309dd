"""Small layouts written by hand: each thing in one line, everything else as plain as can be.

Ink is a solid rectangle, so that every distance in a case can be added up on paper.
"""

from __future__ import annotations

from msgspec.structs import replace

from panelart.diagnostics import Where
from panelart.figure import Figure, Known
from panelart.geometry import Box, Contour, Line, Point, circle, rectangle
from panelart.lettering.outline import bounds, open_shape, shape_of
from panelart.model.component import Component, EnvelopeRole, Opening, Role
from panelart.model.layout import CutOpening, FrameLine, Layout, Mark, PlacedEnvelope, PlacedLegend, Unplaced
from panelart.model.motion import Motion, MotionKind
from panelart.model.panel import (
    Case,
    Coat,
    FrameRequest,
    Ink,
    Keepout,
    LegendRequest,
    Marking,
    Panel,
    Part,
    Position,
    Sheet,
    Side,
    Style,
    Waiver,
)
from panelart.processes.process import Process

WHITE = Ink(name="white", colour="#F2F2EE")
STYLES = ("title", "name", "position", "numeral", "note")


def process_figure(name: str, value: float, known: Known = Known.LOOKED_UP) -> Figure:
    return Figure(name=name, value=value, sources=("made up for this test",), known=known)


# Made up for these tests; the process's own figures are data elsewhere.
PROCESS = Process(
    name="digital-print",
    title="Digital print",
    cap_height_minimum=process_figure("cap_height_minimum", 1.8),
    line_minimum=process_figure("line_minimum", 0.2),
    gap_minimum=process_figure("gap_minimum", 0.0),
    edge_margin=process_figure("edge_margin", 1.5),
    opening_margin=process_figure("opening_margin", 0.5),
    register=process_figure("register", 0.3),
)
ORIGIN = Point(0.0, 0.0)


def at(line: int) -> Where:
    return Where("front.yaml", line, 5)


def disc(x: float, y: float, d: float) -> Contour:
    return circle(d, Point(x, y))


def block(x: float, y: float, w: float, h: float, corner: float = 0.0) -> Contour:
    """A rectangle by its middle."""
    return rectangle(w, h, Point(x, y), corner)


def component(
    name: str = "blank",
    *,
    thickness: tuple[float, float] | None = None,
    known: Known = Known.LOOKED_UP,
    opening: bool = True,
    **more,
) -> Component:
    """A part whose figures, named as the catalogue names them, are all known alike."""
    names = ("diameter", "passes_diameter", "sheet_minimum", "sheet_maximum", "pitch of a pair")
    figures = tuple(Figure(name=name, value=12.0, sources=("made up for this test",), known=known) for name in names)
    hole = Opening(role=Role.BODY, contour=circle(12.0), figures=figures)
    return Component(
        name=name,
        title=f"Part {name}",
        family=more.pop("family", "test"),
        openings=(hole,) if opening else (),
        front=more.pop("front", ()),
        rear=(),
        thickness=thickness,
        **more,
    )


def part(
    ref: str, of: Component | None = None, line: int = 10, spot: tuple[float, float] = (50.0, 50.0), **more
) -> Part:
    return Part(ref=ref, component=of or component(), at=Point(*spot), where=at(line), **more)


def control(motion: MotionKind, family: str = "test", **more) -> Component:
    """A part that is worked by hand, or takes mains in."""
    return component(family, motion=Motion(kind=motion), family=family, opening=False, **more)


def request(text: str, style: str = "name") -> LegendRequest:
    return LegendRequest(text=text, style=style, where=at(12))


def positions(**texts: str) -> tuple[Position, ...]:
    """Positions by direction; a01 .. stands for an angle: a30=... is 30 degrees."""
    return tuple(
        Position(direction=float(way[1:]) if way[1:].isdigit() else way, request=request(text, "position"))
        for way, text in texts.items()
    )


ROLES = {
    **dict.fromkeys(("knob", "lever", "rocker", "cap", "mushroom"), EnvelopeRole.ACTUATOR),
    **dict.fromkeys(("mated", "mating"), EnvelopeRole.PLUG),
    "nut": EnvelopeRole.NUT,
}
"""What the hand or a tool does with what the builders put in front."""


def front(ref: str, contour: Contour, what: str = "bezel", *, covers: bool = True, line: int = 10) -> PlacedEnvelope:
    return PlacedEnvelope(
        ref=ref,
        what=what,
        contour=contour,
        height=10.0,
        side=Side.FRONT,
        covers=covers,
        where=at(line),
        role=ROLES.get(what.split(maxsplit=1)[0], EnvelopeRole.BODY),
    )


def knob(ref: str, x: float, y: float, d: float) -> PlacedEnvelope:
    return front(ref, disc(x, y, d), "knob")


def rear(ref: str, contour: Contour) -> PlacedEnvelope:
    return replace(front(ref, contour, "body"), side=Side.REAR)


def opening(
    ref: str, contour: Contour, *, number: int = 0, cut: Contour | None = None, passes: Contour | None = None
) -> CutOpening:
    return CutOpening(
        name=f"{ref}.{number}" if number else ref,
        ref=ref,
        role=Role.BODY,
        finished=contour,
        cut=cut or contour,
        passes=passes,
        where=at(10),
    )


def legend(
    ref: str, text: str, box: tuple[float, float, float, float], style: str = "name", cap_height: float = 3.0
) -> PlacedLegend:
    """Words whose ink fills a box (left, bottom, right, top)."""
    left, bottom, right, top = box
    ink = rectangle(right - left, top - bottom, Point((left + right) / 2, (bottom + top) / 2))
    return PlacedLegend(
        ref=ref,
        style=style,
        text=text,
        given=shape_of(ink),
        box=Box(*box),
        baseline=Point(left, bottom),
        cap_height=cap_height,
        font="plain-light",
        ink=WHITE,
        where=at(12),
    )


def inked(ref: str, text: str, *contours: Contour) -> PlacedLegend:
    """Words with ink of any form."""
    shape = shape_of(*contours)
    return replace(legend(ref, text, (0, 0, 1, 1)), given=shape, box=bounds(shape))


def mark(
    ref: str, start: tuple[float, float], end: tuple[float, float], width: float = 0.3, kind: str = "major-mark"
) -> Mark:
    shape = open_shape((Line(Point(*start), Point(*end)),))
    return Mark(ref=ref, kind=kind, shape=shape, width=width, ink=WHITE, where=at(14))


def frame(name: str, box: tuple[float, float, float, float], width: float = 0.3) -> Mark:
    left, bottom, right, top = box
    line = rectangle(right - left, top - bottom, Point((left + right) / 2, (bottom + top) / 2))
    return Mark(ref=name, kind="frame", shape=shape_of(line), width=width, ink=WHITE, where=at(20))


def keepout(contour: Contour, side: Side = Side.FRONT, why: str = "a rating plate") -> Keepout:
    return Keepout(contour=contour, side=side, why=why, where=at(30))


def unplaced(ref: str, text: str, *blockers: str) -> Unplaced:
    return Unplaced(ref=ref, style="name", text=text, near=Point(50.0, 50.0), blockers=blockers, where=at(12))


def waiver(rule: str, *refs: str, why: str = "accepted in the review", line: int = 40) -> Waiver:
    return Waiver(rule=rule, refs=refs, why=why, where=at(line))


def layout(
    *things: PlacedEnvelope | CutOpening | PlacedLegend | Mark | Keepout | Unplaced | Waiver | Part | FrameLine,
    outline: Contour | None = None,
    thickness: float = 2.0,
    film: float = 0.0,
    viewing_distance: float = 500.0,
    process: Process = PROCESS,
    datum: Point = ORIGIN,
    coat: str = "#2A2E33",
    inks: tuple[Ink, ...] = (WHITE,),
    material: str = "aluminium",
    **more,
) -> Layout:
    """A panel of 200 x 100 mm with things on it. Parts that are only named are put there too."""

    def only(kind):
        return tuple(thing for thing in things if isinstance(thing, kind))

    given = {one.ref: one for one in only(Part)}
    named = [thing.ref for thing in things if isinstance(thing, PlacedEnvelope | CutOpening | PlacedLegend | Unplaced)]
    refs = [ref for ref in dict.fromkeys((*given, *named)) if " " not in ref]
    style = Style(font="plain-light", cap_height=3.0, case=Case.UPPER, ink=WHITE)
    face = outline or rectangle(200.0, 100.0, Point(100.0, 50.0))
    panel = Panel(
        title="Test panel",
        number="T-1",
        revision="A",
        outline=face,
        sheet=Sheet(material=material, thickness=thickness),
        coat=Coat(kind=more.pop("coat_kind", "powder" if film else "none"), thickness=film, colour=coat),
        datum=datum,
        marking=Marking(
            process=process,
            inks=inks,
            styles=dict.fromkeys(STYLES, style),
            viewing_distance=viewing_distance,
            register=process.register.value,
        ),
        parts=tuple(given.get(ref) or part(ref, component(opening=False)) for ref in refs),
        where=at(1),
        keepouts=only(Keepout),
        waivers=only(Waiver),
        frames=only(FrameRequest),
        **more,
    )
    return Layout(
        panel=panel,
        cut_outline=face,
        openings=only(CutOpening),
        envelopes=only(PlacedEnvelope),
        legends=only(PlacedLegend),
        marks=only(Mark),
        frames=only(FrameLine),
        unplaced=only(Unplaced),
    )
