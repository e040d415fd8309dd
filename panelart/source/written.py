"""Values as they are written in a spec: text that reads back as exactly the value."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Final, TypeAlias

from panelart.messages import Message
from panelart.messages import source_edit as said

Written: TypeAlias = "str | bool | int | float | Sequence[Written] | Mapping[str, Written]"
"""A value to be written: a text, a truth value, a number, a list or a mapping of them."""


class UnwritableError(ValueError):
    """A value cannot be written in a spec; `says` why."""

    def __init__(self, says: Message) -> None:
        super().__init__(says)
        self.says = says


_MEANS_SOMETHING: Final = re.compile(r"[,\[\]{}:?]| #|[ ]$")
"""What keeps a text from standing without quotes, in brackets or out of them; more than YAML asks for."""

_NOT_A_TEXT: Final = re.compile(
    r"[-+]?(?:[0-9][0-9_]*\.?[0-9_]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?|0[xob][0-9a-fA-F_]+|true|false|null|[-+]?\.?(?:inf|nan)",
    re.IGNORECASE,
)
"""Texts that YAML 1.2 readers take for a number, a truth value or nothing when they stand without quotes."""

_ESCAPES: Final = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def written(value: Written, like: str | None = None) -> str:
    """A value on one line; lists and mappings in brackets.

    `like` is the style of the scalar it stands for (quote sign, '' for plain), which is kept where the text allows;
    None writes a text that looks like a number in quotes. Raises UnwritableError for what cannot be written: a number
    that is infinite or none, characters that a spec does not take.
    """
    match value:
        case bool():
            return "true" if value else "false"
        case int() | float():
            return figure(value)
        case str():
            return _text(value, like)
        case Mapping():
            inside = ", ".join(f"{_key(key)}: {written(of)}" for key, of in value.items())
            return f"{{{inside}}}"
        case _:
            return f"[{', '.join(written(item) for item in value)}]"


def figure(value: float) -> str:
    """A number without exponent and without zeros at its end. Raises UnwritableError when it is infinite or none."""
    if not math.isfinite(value):
        raise UnwritableError(said.not_finite(str(value)))
    text = format(Decimal(repr(value)), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def block_mapping(value: Mapping[str, Written], indent: str, newline: str) -> str:
    """A mapping with one key on each line; the first is not indented, the others by `indent`."""
    return f"{newline}{indent}".join(f"{_key(key)}: {written(of)}" for key, of in value.items())


def entry(key: str, value: Written) -> str:
    """'key: value' on one line."""
    return f"{_key(key)}: {written(value)}"


def _key(key: str) -> str:
    if not key or len(key) > MAX_KEY:
        raise UnwritableError(said.key_length(maximum=MAX_KEY))
    return _text(key, None)


MAX_KEY: Final = 500
"""YAML finds a key only when its colon is within 1024 characters; an escape takes two of them."""


def _text(text: str, like: str | None) -> str:
    if like == '"':
        return _quoted(text)
    if like == "'" and not re.search(r"[\n\r\t]", text):
        return "'" + text.replace("'", "''") + "'"
    plain = text[:1].isalnum() and text.isprintable() and not _MEANS_SOMETHING.search(text)
    return text if plain and (like == "" or not _NOT_A_TEXT.fullmatch(text)) else _quoted(text)


def _quoted(text: str) -> str:
    return '"' + "".join(_ESCAPES.get(character, character) for character in text) + '"'
