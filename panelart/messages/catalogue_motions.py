"""What is said of figures of a motion that contradict each other or its kind."""

from panelart.messages import Count, Degrees, Either, Number, Quoted, Word, message


@message
def not_of_this_kind(figure: Quoted, kind: Quoted) -> None:
    """{figure} does not apply to the motion {kind}"""


@message
def applies_to(kinds: Either) -> None:
    """Accepted with the motion {kinds}"""


@message
def electrical_beyond_rotation(angle: Degrees, rotation: Degrees) -> None:
    """Electrical angle is {angle}, more than the rotation of {rotation} from stop to stop"""


@message
def taper_beyond_rotation(law: Word, angle: Degrees, rotation: Degrees) -> None:
    """Electrical angle of the law {law} is {angle}, more than the rotation of {rotation} from stop to stop"""


@message
def correct_rotation() -> None:
    """Correct the one or the other; the value changes between the stops only."""


@message
def endless_with_rotation(rotation: Degrees) -> None:
    """Rotation from stop to stop is {rotation}, with `stops: none`"""


@message
def leave_out_rotation() -> None:
    """Leave out `rotation`, or write `stops: fixed`."""


@message
def turns_beyond_rotation(turns: Number, rotation: Degrees) -> None:
    """{turns} turns with a rotation of {rotation} from stop to stop"""


@message
def rotation_of_turns(minimum: Degrees) -> None:
    """Accepted: a rotation of {minimum} or more with so many turns, or no rotation"""


@message
def detents_not_whole(detents: Number) -> None:
    """{detents} detents in one turn"""


@message
def whole_detents(below: Count, above: Count) -> None:
    """Accepted: a whole number, such as {below} or {above}"""


@message
def phase_is(phase: Degrees) -> None:
    """Phase is {phase}"""


@message
def tab_is(tab: Degrees) -> None:
    """Tab is at {tab}"""


@message
def phase_and_tab() -> None:
    """A motion with both `phase` and `tab`"""


@message
def phase_or_tab() -> None:
    """Accepted: `phase` (the angle of a position), or `tab` (that of a tab half a step from the positions beside it)"""


@message
def angles_and_index() -> None:
    """A way of turning with both `angles` and `index`"""
