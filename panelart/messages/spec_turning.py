"""What is wrong with a scale that turns with its knob."""

from panelart.messages import Degrees, Mm, Number, Quoted, Word, message


@message
def skirt_and_disc() -> None:
    """The scale has both 'skirt' and 'disc'"""


@message
def skirt_or_disc() -> None:
    """Accepted: skirt (on the knob), or disc (behind a window)"""


@message
def turning_and(key: Quoted, on: Quoted) -> None:
    """A scale with {on} turns with the knob, but {key} is given"""


@message
def remove_from_turning() -> None:
    """Remove the key; the index mark is where 'index' says, and numerals are level there."""


@message
def turning_without_shaft(ref: Word, part: Word) -> None:
    """{ref} has a scale that turns with the knob, but the part {part} has no shaft"""


@message
def part_with_shaft() -> None:
    """Accepted: a part with a shaft"""


@message
def skirt_without_knob(ref: Word) -> None:
    """{ref} has a scale on the skirt of its knob, but no knob"""


@message
def give_knob() -> None:
    """Add `knob:` to the part."""


@message
def grip_too_wide(grip: Mm, knob: Mm) -> None:
    """Grip diameter {grip} is not less than the knob diameter {knob}"""


@message
def skirt_too_high(height: Mm, knob: Mm) -> None:
    """Height of the skirt {height} is not less than that of the knob {knob}"""


@message
def less_than(limit: Mm) -> None:
    """Accepted: less than {limit}"""


@message
def window_too_large(width: Number, height: Mm, diameter: Mm) -> None:
    """A disc with a diameter of {diameter} is too small for a window of {width} × {height}"""


@message
def window_within_disc(margin: Mm) -> None:
    """Accepted: a window between the shaft and the edge of the disc, its corners {margin} within the edge"""


@message
def turning_beside_another(ref: Word) -> None:
    """{ref} has two scales, and one turns with the knob"""


@message
def one_turning_scale() -> None:
    """Accepted: one scale with 'skirt' or 'disc', or two on the panel"""


@message
def vernier_without_steps() -> None:
    """A vernier divides equal short steps, which this scale does not have"""


@message
def linear_with_minor() -> None:
    """Accepted: a linear scale with 'minor'"""


@message
def vernier_too_long(angle: Degrees) -> None:
    """The vernier takes {angle}: nine steps of 'minor'"""


@message
def vernier_up_to(limit: Degrees) -> None:
    """Accepted: less than {limit}; choose a smaller 'minor'"""
