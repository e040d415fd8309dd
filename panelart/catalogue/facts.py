"""What is known of a part besides its shape, in lines: motion, circuit, look, fasteners, mass.

Every line has a figure behind it, with its source and its standing; what has no figure is in the heading.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.figure import Figure, Known
from panelart.messages import Message, Said
from panelart.messages import catalogue_facts as said
from panelart.model.circuit import Circuit, CircuitKind, SafetyFunction
from panelart.model.component import Component, Envelope
from panelart.model.fasteners import Fastener
from panelart.model.look import FaceDetail, Lit, Look
from panelart.model.motion import Action, Motion, MotionKind, Stops, Way


class Line(Struct, frozen=True, kw_only=True):
    """One line: what it is, its value with the unit, and the figure that it is from."""

    name: Said
    value: Said
    figure: Figure


class Fact(Struct, frozen=True, kw_only=True):
    """One thing known of a part, in a heading, with the figures under it."""

    heading: Message
    lines: tuple[Line, ...] = ()


KINDS: Final = {
    MotionKind.LEVER: said.lever,
    MotionKind.ROCKER: said.rocker,
    MotionKind.SLIDE: said.slide,
    MotionKind.TURN: said.turned,
    MotionKind.PUSH: said.pushed,
    MotionKind.PULL: said.pulled,
    MotionKind.TILT: said.tilted,
    MotionKind.WHEEL: said.wheel,
}
ACTIONS: Final = {
    Action.MAINTAINED: said.maintained,
    Action.MOMENTARY: said.momentary,
    Action.EITHER: said.either_action,
}
STOPS: Final = {Stops.FIXED: said.fixed_stops, Stops.ADJUSTABLE: said.adjustable_stops, Stops.NONE: said.no_stops}
CIRCUITS: Final = {
    CircuitKind.MAINS: said.mains,
    CircuitKind.HAZARDOUS: said.hazardous,
    CircuitKind.LOW_VOLTAGE: said.low_voltage,
    CircuitKind.SIGNAL: said.signal,
    CircuitKind.PROTECTIVE_EARTH: said.protective_earth,
    CircuitKind.FUNCTIONAL_EARTH: said.functional_earth,
    CircuitKind.MEASURING: said.measuring,
    CircuitKind.CONTACTS: said.contacts,
}
SAFETY: Final = {
    SafetyFunction.EMERGENCY_STOP: said.emergency_stop,
    SafetyFunction.DISCONNECT: said.disconnects,
    SafetyFunction.OVERCURRENT: said.overcurrent,
}
_LIT: Final = {Lit.ALWAYS: said.always_lit, Lit.EITHER: said.perhaps_lit}


def facts_of(part: Component) -> Iterator[Fact]:
    """Everything that is known of a part besides its openings and envelopes, in the order that it is told in."""
    if part.motion.kind is not MotionKind.NONE:
        yield _motion(part.motion)
    if part.circuit is not None and part.circuit.kind is not CircuitKind.NONE:
        yield _circuit(part.circuit)
    if part.look is not None:
        yield from _look(part.look)
    for fastener in part.fasteners:
        yield _fastener(fastener)
    if part.mass is not None:
        yield Fact(heading=said.mass(), lines=(_plain(part.mass),))


def _plain(figure: Figure, name: Said | None = None) -> Line:
    unit = "°" if figure.unit == "deg" else f" {figure.unit}" if figure.unit else ""
    return Line(
        name=figure.name.replace("_", " ") if name is None else name, value=f"{figure.value:g}{unit}", figure=figure
    )


def _plain_all(*figures: Figure | None) -> tuple[Line, ...]:
    return tuple(_plain(figure) for figure in figures if figure is not None)


def _motion(motion: Motion) -> Fact:
    how = [KINDS[motion.kind]()]
    if motion.action is not None:
        how.append(ACTIONS[motion.action]())
    if motion.stops is not None:
        how.append(STOPS[motion.stops]())
    if motion.phase is not None:
        how.append(said.phase(angle=motion.phase))
    if motion.tab is not None:
        how.append(said.tab(angle=motion.tab))
    return Fact(
        heading=said.motion(how=how),
        lines=(
            *map(_way, motion.ways),
            *_plain_all(motion.rotation, motion.electrical),
            *(_plain(figure, said.electrical_of_law(law=law)) for law, figure in motion.tapers),
            *_plain_all(motion.turns, motion.detents, motion.travel, motion.throw),
        ),
    )


def _way(way: Way) -> Line:
    """One way of turning: '2 positions: -45°, 45°'."""
    weakest = max(way.figures, key=lambda figure: list(Known).index(figure.known))
    name = (
        said.positions_marked(count=way.most)
        if way.fewest == way.most
        else said.positions_stepped(fewest=way.fewest, most=way.most)
    )
    value = (
        said.marks(angles=[said.mark(angle=angle) for angle in way.angles])
        if way.angles
        else said.steps(step=way.index or 0.0)
    )
    return Line(name=name, value=value, figure=weakest)


def _circuit(circuit: Circuit) -> Fact:
    kind: list[Said] = [CIRCUITS[circuit.kind]()]
    if circuit.category:
        kind.append(circuit.category)
    if circuit.safety is not None:
        kind.append(SAFETY[circuit.safety]())
    return Fact(heading=said.circuit(kind=kind), lines=_plain_all(*circuit.figures))


def _look(look: Look) -> Iterator[Fact]:
    what: list[Said] = []
    if look.colours:
        what.append(said.colours(names=look.colours))
    if look.lens:
        what.append(said.lenses(names=look.lens))
    if look.lit in _LIT:
        what.append(_LIT[look.lit]())
    if look.insert:
        what.append(said.printed_insert())
    if look.digits:
        what.append(said.digits(count=look.digits))
    if look.meter:
        what.append(said.meter_scale(kind=look.meter))
    if what:
        yield Fact(heading=said.look(what=what))
    yield from _details(look.details)


def _details(details: Sequence[FaceDetail]) -> Iterator[Fact]:
    """Details that differ in their place only are told once, with how many there are."""
    alike: dict[tuple[object, ...], int] = {}
    for one in details:
        shape = tuple(figure for figure in one.figures if figure.name not in _PLACES)
        key = one.what, one.recessed, shape
        alike[key] = alike.get(key, 0) + 1
    for (what, recessed, figures), count in alike.items():
        assert isinstance(figures, tuple)
        how = said.recessed() if recessed else said.raised()
        yield Fact(heading=said.detail(count=count, what=what, how=how), lines=_plain_all(*figures))


_PLACES: Final = ("x", "y")


def fastener_named(fastener: Fastener) -> Said:
    """What it is, with its thread."""
    return said.named_with_thread(what=fastener.what, thread=fastener.thread) if fastener.thread else fastener.what


def torque_said(fastener: Fastener) -> Message | None:
    """The torque in N m; None where nobody has said."""
    if fastener.torque is None:
        return None
    low, high = (figure.value for figure in fastener.torque)
    return said.torque_of(torque=low) if low == high else said.torque_range(lowest=low, highest=high)


def _fastener(fastener: Fastener) -> Fact:
    lines = [] if fastener.across is None else [_plain(fastener.across, said.spanner())]
    torque = torque_said(fastener)
    if torque is not None and fastener.torque is not None:
        lines.append(Line(name=said.torque(), value=torque, figure=fastener.torque[0]))
    how = (
        said.from_rear() if fastener.from_rear else said.from_front(),
        said.supplied() if fastener.supplied else said.bought(),
    )
    heading = said.fastener(count=fastener.count, what=fastener_named(fastener), how=how)
    return Fact(heading=heading, lines=tuple(lines))


def cable_said(envelope: Envelope) -> Message | None:
    """Where the cable of a plug leaves; None for what has none."""
    if not envelope.cable:
        return None
    return said.cable_sideways(way=envelope.cable_way) if envelope.cable_way else said.cable_out()
