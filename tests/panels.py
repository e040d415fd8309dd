"""Small panels for tests, built by hand from the model's nouns. All invented."""

from __future__ import annotations

from panelart.diagnostics import Where
from panelart.figure import Figure, Known
from panelart.geometry import Contour, Point, circle, rectangle
from panelart.model.component import Component, Envelope, Opening, Role, Shaft
from panelart.model.motion import Motion, MotionKind
from panelart.model.panel import Case, Coat, Ink, Knob, LegendRequest, Marking, Panel, Part, Position, Sheet, Style
from panelart.processes.process import Process

HERE = Where("test.yaml", 1, 1)
WHITE = Ink(name="white", colour="#F2F2EE")


def process_figure(name: str, value: float) -> Figure:
    return Figure(name=name, value=value, sources=("made up for tests",), known=Known.MEMORY)


PRINT = Process(
    name="digital-print",
    title="Digital print",
    cap_height_minimum=process_figure("cap_height_minimum", 2.0),
    line_minimum=process_figure("line_minimum", 0.25),
    gap_minimum=process_figure("gap_minimum", 0.0),
    edge_margin=process_figure("edge_margin", 2.0),
    opening_margin=process_figure("opening_margin", 0.5),
    register=process_figure("register", 0.3),
)


def style(cap_height: float) -> Style:
    return Style(font="plain-light", cap_height=cap_height, case=Case.AS_WRITTEN, ink=WHITE)


def marking(cap_height: float = 3.0) -> Marking:
    sizes = {"title": 1.25, "name": 1.0, "position": 0.8, "numeral": 0.8, "note": 0.7}
    return Marking(
        process=PRINT,
        inks=(WHITE,),
        styles={name: style(cap_height * share) for name, share in sizes.items()},
        viewing_distance=500.0,
        register=0.3,
    )


def request(text: str, kind: str = "name", where: Where = HERE, **more) -> LegendRequest:
    return LegendRequest(text=text, style=kind, where=where, **more)


def opening(contour: Contour, *, role: Role = Role.BODY, passes: Contour | None = None) -> Opening:
    return Opening(role=role, contour=contour, figures=(), passes=passes)


def envelope(what: str, contour: Contour, height: float, *, covers: bool = True) -> Envelope:
    return Envelope(what=what, contour=contour, height=height, figures=(), covers=covers)


def component(*openings: Opening, name: str = "thing", front=(), rear=(), **more) -> Component:
    return Component(
        name=name, title=name, family=name, openings=openings, front=tuple(front), rear=tuple(rear), **more
    )


TOGGLE = component(
    opening(circle(6.4), passes=circle(6.35)),
    name="toggle",
    front=(envelope("nut", circle(9.6), 2.0), envelope("lever", rectangle(3, 9.5), 18.8, covers=False)),
    rear=(envelope("body", rectangle(12.6, 13.1), 15.0),),
    motion=Motion(kind=MotionKind.LEVER),
    positions=("up", "down"),
)
POT = component(
    opening(circle(10.2), passes=circle(10.0)),
    name="pot",
    front=(envelope("nut", circle(16.0), 2.5),),
    rear=(envelope("body", circle(24.0), 20.0),),
    motion=Motion(kind=MotionKind.TURN),
    shaft=Shaft(diameter=6.0, length=20.0),
)
SOCKET = component(
    opening(circle(12.2), passes=circle(12.0)), name="socket", front=(envelope("flange", circle(14.5), 3.0),)
)


def part(ref: str, what: Component, at: tuple[float, float], *, legend: str | None = None, positions=None,
         knob=None, **more) -> Part:  # fmt: skip
    return Part(
        ref=ref,
        component=what,
        at=Point(*at),
        where=Where(ref, 1, 2),
        legend=None if legend is None else request(legend, where=Where(ref, 1, 1)),  # an item of its own
        positions=tuple(
            Position(direction=direction, request=request(text, "position", where=Where(f"{ref}.{direction}", 1, 1)))
            for direction, text in (positions or {}).items()
        ),
        knob=None if knob is None else Knob(diameter=knob[0], height=knob[1]),
        **more,
    )


def panel(*parts: Part, size=(260.0, 110.0), corner=0.0, film=0.0, cap_height=3.0, **more) -> Panel:
    width, height = size
    return Panel(
        title="Test panel",
        number="T-1",
        revision="A",
        outline=rectangle(width, height, Point(width / 2, height / 2), corner),
        sheet=Sheet(material="aluminium", thickness=2.0),
        coat=Coat(kind="powder" if film else "none", thickness=film, colour="#2A2E33"),
        datum=Point(0.0, 0.0),
        marking=more.pop("marking", marking(cap_height)),
        parts=parts,
        where=HERE,
        **more,
    )
