"""What is known of a part besides its shape: how it moves, its circuit, its look, its fasteners, its mass."""

from panelart.messages import Clauses, Complete, Count, Degrees, Number, Word, counted, message

# --- motion


@message
def motion(how: Clauses) -> None:
    """motion: {how}"""


@message
def turned() -> None:
    """turned"""


@message
def lever() -> None:
    """lever"""


@message
def rocker() -> None:
    """rocker"""


@message
def slide() -> None:
    """slide"""


@message
def pushed() -> None:
    """pushed"""


@message
def pulled() -> None:
    """pulled"""


@message
def tilted() -> None:
    """tilted"""


@message
def wheel() -> None:
    """wheel"""


@message
def maintained() -> None:
    """maintained"""


@message
def momentary() -> None:
    """momentary"""


@message
def either_action() -> None:
    """maintained or momentary, as ordered"""


@message
def fixed_stops() -> None:
    """fixed stops"""


@message
def adjustable_stops() -> None:
    """adjustable stops"""


@message
def no_stops() -> None:
    """no stops"""


@message
def tab(angle: Degrees) -> None:
    """tab at {angle}, half a step from the positions beside it"""


@message
def phase(angle: Degrees) -> None:
    """one position at {angle}"""


@counted("{count} positions")
def positions_marked(count: Count) -> None:
    """{count} position"""


@message
def positions_stepped(fewest: Number, most: Number) -> None:
    """{fewest} to {most} positions"""


@message
def marks(angles: Complete) -> None:
    """{angles}"""


@message
def mark(angle: Degrees) -> None:
    """{angle}"""


@message
def steps(step: Degrees) -> None:
    """{step} apart"""


@message
def electrical_of_law(law: Word) -> None:
    """electrical, {law}"""


# --- circuit


@message
def circuit(kind: Clauses) -> None:
    """circuit: {kind}"""


@message
def mains() -> None:
    """mains"""


@message
def hazardous() -> None:
    """hazardous live"""


@message
def low_voltage() -> None:
    """extra-low voltage"""


@message
def signal() -> None:
    """signal"""


@message
def protective_earth() -> None:
    """protective earth"""


@message
def functional_earth() -> None:
    """functional earth"""


@message
def measuring() -> None:
    """measuring circuit"""


@message
def contacts() -> None:
    """contacts"""


@message
def emergency_stop() -> None:
    """emergency stop"""


@message
def disconnects() -> None:
    """disconnects the supply"""


@message
def overcurrent() -> None:
    """protects against overcurrent"""


# --- look


@message
def look(what: Clauses) -> None:
    """look: {what}"""


@message
def colours(names: Complete) -> None:
    """sold in {names}"""


@message
def lenses(names: Complete) -> None:
    """lens {names}"""


@message
def always_lit() -> None:
    """illuminated"""


@message
def perhaps_lit() -> None:
    """with or without illumination"""


@message
def printed_insert() -> None:
    """printed insert"""


@counted("{count} digits")
def digits(count: Count) -> None:
    """{count} digit"""


@message
def meter_scale(kind: Word) -> None:
    """scale {kind}"""


@message
def detail(count: Count, what: Word, how: Word) -> None:
    """on the face, {count} × {what}, {how}"""


@message
def recessed() -> None:
    """recessed"""


@message
def raised() -> None:
    """raised"""


# --- fasteners and mass


@message
def fastener(count: Count, what: Word, how: Clauses) -> None:
    """fastening, {count} × {what}: {how}"""


@message
def named_with_thread(what: Word, thread: Word) -> None:
    """{what} {thread}"""


@message
def from_front() -> None:
    """tightened from the front"""


@message
def from_rear() -> None:
    """tightened from the rear"""


@message
def supplied() -> None:
    """supplied with the part"""


@message
def bought() -> None:
    """bought separately"""


@message
def spanner() -> None:
    """spanner"""


@message
def torque() -> None:
    """torque"""


@message
def torque_range(lowest: Number, highest: Number) -> None:
    """{lowest} to {highest} N m"""


@message
def torque_of(torque: Number) -> None:
    """{torque} N m"""


@message
def mass() -> None:
    """mass"""


# --- plugs


@message
def cable_out() -> None:
    """cable straight out"""


@message
def cable_sideways(way: Word) -> None:
    """cable leaves {way}"""
