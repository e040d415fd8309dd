"""What the nouns of the model say of themselves: how good a placement is, the form of a punch."""

from panelart.messages import Number, message
from panelart.messages.fine_arguments import RoughPercent


@message
def placement_optimal() -> None:
    """optimal"""


@message
def placement_within(share: RoughPercent) -> None:
    """within {share} of the optimum"""


@message
def round_punch(diameter: Number) -> None:
    """Ø{diameter}"""


@message
def rectangular_punch(length: Number, width: Number) -> None:
    """{length} × {width}"""


@message
def slot_punch(length: Number, width: Number) -> None:
    """{length} × {width} slot"""
