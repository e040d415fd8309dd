"""What is said of lengths and angles that cannot be read."""

from panelart.messages import Quoted, Word, message


@message
def not_a_length(text: Quoted) -> None:
    """{text} is not a length"""


@message
def not_an_angle(text: Quoted) -> None:
    """{text} is not an angle"""


@message
def unknown_unit_of_length(unit: Quoted, text: Quoted) -> None:
    """Unknown unit of length {unit} in {text}"""


@message
def unknown_unit_of_angle(unit: Quoted, text: Quoted) -> None:
    """Unknown unit of angle {unit} in {text}"""


@message
def division_by_zero(text: Quoted) -> None:
    """{text} divides by zero"""


@message
def too_large(text: Quoted) -> None:
    """{text} is too large"""


@message
def lengths() -> None:
    """Accepted: a number of millimetres, or a number with a unit: mm, cm, in, ", thou, mil, pt, U or HP (1 1/2 in)"""


@message
def angles() -> None:
    """Accepted: a number of degrees, alone or followed by deg or °"""


@message
def nearest_unit(name: Quoted, accepted: Word) -> None:
    """Did you mean {name}? {accepted}"""
