"""How the items of a list are joined in a sentence; `first` may be several items that are joined already."""

from typing import Annotated, TypeAlias

from panelart.messages.message import counted, message
from panelart.messages.shown import COUNT, WORD

Word: TypeAlias = Annotated[object, WORD]
Count: TypeAlias = Annotated[int, COUNT]


@message
def in_turn(first: Word, last: Word) -> None:
    """{first}, {last}"""


@message
def either(first: Word, last: Word) -> None:
    """{first} or {last}"""


@message
def each(first: Word, last: Word) -> None:
    """{first} and {last}"""


@counted("{count} more")
def more(count: Count) -> None:
    """{count} more"""


@message
def nothing() -> None:
    """none"""
