"""How the arguments of messages are written, as far as messages themselves need it; the kinds are in `arguments.py`."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Any, Final

MAX_QUOTED: Final = 40
"""Characters of a quotation; a longer text is cut."""


class Shown:
    """How an argument is written; `extremes` are values that a test renders every message with, `usual` is an example.

    Without an example the middle one of the extremes is it.
    """

    __slots__ = ("extremes", "usual", "write")

    def __init__(self, write: Callable[[Any], str], extremes: tuple[Any, ...], usual: Any = None) -> None:
        self.write: Final = write
        self.extremes: Final = extremes
        self.usual: Final = extremes[len(extremes) // 2] if usual is None else usual


_ESCAPED: Final = {
    code: chr(code).encode("unicode_escape").decode("ascii")
    for code in (*range(0x20), *range(0x7F, 0xA0), 0x2028, 0x2029, *range(0x202A, 0x202F), *range(0x2066, 0x206A))
}
"""Characters that end a line, drive a terminal or turn the direction of what follows, as they are shown."""


def quoted(text: object) -> str:
    """Text from a file as it is quoted in a message: on one line, in quotes, cut when long."""
    # Half a surrogate pair cannot be written at all.
    line = str(text).encode("utf-8", "backslashreplace").decode("utf-8").translate(_ESCAPED)
    return f"'{line}'" if len(line) <= MAX_QUOTED else f"'{line[: MAX_QUOTED - 3]}...'"


def word(text: object) -> str:
    """What is said as it is; of an enumeration's member its value."""
    return str(text.value) if isinstance(text, Enum) else str(text)


WORD: Final = Shown(word, ("x", "a-word-of-the-language"), "cap_height")
COUNT: Final = Shown(str, (0, 1, 2, 1_000_000), 3)
