"""What is said of plain data that is read as a spec."""

from panelart.messages import Count, Quoted, Word, message


@message
def unsupported_type(kind: Word) -> None:
    """Values of type {kind} are not supported"""


@message
def plain_values() -> None:
    """Accepted: str, int, float, bool, None, list, tuple, dict; convert other numbers with float() or int()"""


@message
def unsupported_key(kind: Word) -> None:
    """Keys of type {kind} are not supported"""


@message
def plain_keys() -> None:
    """Accepted: str, or a number where a key is one"""


@message
def duplicate_key(key: Quoted) -> None:
    """Duplicate key {key}, once as a number and once as text"""


@message
def number_too_long() -> None:
    """Number with more than 40 digits"""


@message
def shorter_number() -> None:
    """Shorten the number."""


@message
def too_much_text(maximum: Count) -> None:
    """Texts have more than {maximum} characters in all"""


@message
def shorten_texts() -> None:
    """Shorten the texts."""


@message
def holds_itself() -> None:
    """A list or mapping holds itself"""


@message
def finite_number() -> None:
    """Accepted: a finite number"""
