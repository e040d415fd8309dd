"""The words of the key reference."""

from panelart.messages import Word, message


@message
def key() -> None:
    """Key"""


@message
def value() -> None:
    """Value"""


@message
def default() -> None:
    """Default"""


@message
def meaning() -> None:
    """Meaning"""


@message
def required() -> None:
    """required"""


@message
def no_default() -> None:
    """none"""


@message
def text() -> None:
    """text"""


@message
def length() -> None:
    """length, mm"""


@message
def angle() -> None:
    """angle, degrees"""


@message
def number() -> None:
    """number"""


@message
def number_in(unit: Word) -> None:
    """number, {unit}"""


@message
def whole_number() -> None:
    """whole number"""


@message
def true_or_false() -> None:
    """`true` or `false`"""


@message
def list_in(items: Word, unit: Word) -> None:
    """{items}, {unit}"""
