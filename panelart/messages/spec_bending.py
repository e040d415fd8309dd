"""What is said of flanges, of how the shop bends, and of hanging the panel."""

from panelart.messages import Degrees, Each, Listed, MeasuredMm, Mm, Quoted, Word, message


@message
def tested_bend(angle: Degrees, radius: Mm) -> None:
    """{angle} at R {radius}"""


@message
def bending_without_flanges() -> None:
    """'bending' is given for a panel without flanges"""


@message
def remove_bending() -> None:
    """Remove 'bending', or add 'flanges'."""


@message
def k_and_tested() -> None:
    """'bending' has both 'k' and 'tested'"""


@message
def no_tested_bend(angle: Degrees, radius: Mm) -> None:
    """No tested bend of {angle} at R {radius}"""


@message
def tested_bends(bends: Listed) -> None:
    """Accepted: tested bends: {bends}"""


@message
def radius_below_din(radius: Mm, thickness: Mm, minimum: Mm) -> None:
    """Bend radius {radius} in {thickness} sheet is below the range of DIN 6935; minimum {minimum}"""


@message
def larger_radius_or_k() -> None:
    """Increase the radius, or give the K-factor of the shop as 'k'."""


@message
def flanges_on_odd_face() -> None:
    """Flanges on a face that is not a rectangle"""


@message
def flanges_on_rectangle() -> None:
    """Accepted: flanges on an upright rectangle; draw other flat blanks yourself"""


@message
def ref_taken(ref: Quoted) -> None:
    """Ref {ref} is already used"""


@message
def hole_without_shape() -> None:
    """The hole has no shape"""


@message
def hole_shapes() -> None:
    """Accepted: one of diameter, slot, rectangle, part"""


@message
def hole_with_shapes(shapes: Each) -> None:
    """The hole has several shapes: {shapes}"""


@message
def part_without_opening(part: Quoted) -> None:
    """Part {part} has no opening"""


@message
def part_with_opening() -> None:
    """Accepted: a part with an opening"""


@message
def hanging_by_nothing() -> None:
    """'hanging' has neither 'on' nor 'by'"""


@message
def hanging_by_both() -> None:
    """'hanging' has both 'on' and 'by'"""


@message
def on_or_by() -> None:
    """Accepted: one of on and by"""


@message
def unknown_flange(flange: Quoted) -> None:
    """The panel has no flange {flange} to hang by"""


@message
def flange_needed() -> None:
    """Accepted: the name of a flange, on a panel with flanges"""


@message
def no_room_for_hole(diameter: Mm, length: Mm) -> None:
    """Not enough space for a hole of {diameter} between the bend and the edge of the {length} flange"""


@message
def longer_flange(by: MeasuredMm) -> None:
    """Make the flange at least {by} longer, or the diameter smaller."""


@message
def insets_leave_nothing(side: Mm) -> None:
    """The insets leave nothing of the edge of {side}"""


@message
def together_less_than(limit: Mm) -> None:
    """Accepted: together less than {limit}"""


@message
def flange_in_corner(edge: Word, end: Word) -> None:
    """The {edge} flange runs into the rounded corner at its {end} end"""


@message
def no_corner_or_inset(minimum: Mm) -> None:
    """Accepted: corner: 0, or an inset with a minimum of {minimum}"""
