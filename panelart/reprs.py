"""How nouns show themselves to programmers: name and what tells one from another, never all they hold."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

LONGEST: Final = 48
"""Characters of one word or text in a repr; what is longer is cut."""


def brief(noun: str, *what: object) -> str:
    """The repr of a noun: `Panel('Bench supply', 240 x 120 mm, 22 parts)`; what is empty or None is left out."""
    told = [cut(str(one)) for one in what if one is not None]
    return f"{noun}({', '.join(one for one in told if one not in {'', repr('')})})"


def cut(text: str, longest: int = LONGEST) -> str:
    """A text with its middle left out where it is long, so that the end is seen too."""
    half = (longest - 3) // 2
    return text if len(text) <= longest else f"{text[:half]}...{text[-half:]}"


def counted(number: int, word: str) -> str:
    """A number of things: `1 part`, `22 parts`."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def mm(value: float) -> str:
    """A length to a thousandth, without zeros at its end."""
    return f"{round(value, 3) + 0.0:.10g}"


def size(width: float, height: float) -> str:
    """A width and a height: `240 x 120 mm`."""
    return f"{mm(width)} x {mm(height)} mm"


def spot(x: float, y: float) -> str:
    """A place in mm, as the spec writes it: `[28, 32.5]`."""
    return f"[{mm(x)}, {mm(y)}]"


def in_full(value: object, but: frozenset[str] = frozenset()) -> str:
    """All that a noun holds, as text that is the same for equal nouns: for keys and names made of what a thing is.

    `but` are fields that are left out, wherever they are.
    """
    match value:
        case tuple() if type(value) is tuple:
            return f"({_listed(value, but)}{',' if len(value) == 1 else ''})"
        case list():
            return f"[{_listed(value, but)}]"
        case dict():
            return f"{{{', '.join(f'{in_full(key, but)}: {in_full(one, but)}' for key, one in value.items())}}}"
    names = _fields_of(value)
    if names is None:
        return repr(value)
    held = [f"{name}={in_full(getattr(value, name), but)}" for name in names if name not in but]
    return f"{type(value).__qualname__}({', '.join(held)})"


def _listed(values: Sequence[object], but: frozenset[str]) -> str:
    return ", ".join(in_full(one, but) for one in values)


def _fields_of(value: object) -> tuple[str, ...] | None:
    """The names of a noun's fields, None for what is no noun."""
    names: tuple[str, ...] | None = getattr(type(value), "__struct_fields__", None)
    of_dataclass: dict[str, Any] = getattr(type(value), "__dataclass_fields__", {})
    return names if names is not None or not of_dataclass else tuple(of_dataclass)


def some(names: Sequence[str], most: int = 3) -> tuple[str, ...]:
    """The first of many names, each in quotes, and how many more there are."""
    more = len(names) - most
    return (*map(repr, names[:most]), *((f"{more} more",) if more > 0 else ()))
