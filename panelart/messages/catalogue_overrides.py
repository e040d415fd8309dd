"""What is said of catalogue parts whose dimensions are changed where they are used."""

from panelart.messages import Listed, Quoted, Word, message


@message
def unknown_override(key: Quoted) -> None:
    """Key {key} of a part cannot be changed"""


@message
def write_in_opening(name: Word, value: Word) -> None:
    """Write `opening: {{{name}: {value}}}`"""


@message
def write_dimension(name: Word, value: Word) -> None:
    """Write `{name}: {value}`"""


@message
def overrides(keys: Listed) -> None:
    """Accepted: a mapping with {keys}"""


@message
def dimensions_of(key: Word) -> None:
    """Accepted: dimensions by name, {key}: {{name: value}}"""


@message
def no_openings(part: Quoted) -> None:
    """{part} has no openings"""


@message
def no_openings_of_role(part: Quoted, role: Word) -> None:
    """{part} has no {role} openings"""


@message
def roles_of_openings(roles: Listed) -> None:
    """Openings of this part: {roles}"""


@message
def unknown_dimension(name: Quoted, piece: Word, part: Quoted) -> None:
    """Unknown dimension {name} of the {piece} of {part}"""


@message
def no_front_envelope(part: Quoted, what: Quoted) -> None:
    """{part} has no {what} in front of the panel"""


@message
def no_rear_envelope(part: Quoted, what: Quoted) -> None:
    """{part} has no {what} behind the panel"""


@message
def no_shaft(part: Quoted) -> None:
    """{part} has no shaft"""


@message
def change_knob() -> None:
    """Give the dimensions of the knob instead."""


@message
def no_motion(part: Quoted) -> None:
    """{part} is not operated"""


@message
def no_thickness(part: Quoted) -> None:
    """{part} has no sheet thickness range"""


@message
def polygon_unchangeable() -> None:
    """The dimensions of a polygon cannot be changed here"""


@message
def define_part() -> None:
    """Define a new part."""
