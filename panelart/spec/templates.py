"""Braces in texts: `{n}` is the number of the copy that a repeat makes, `{{` and `}}` are braces."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from panelart.diagnostics import Where, nearest
from panelart.messages import Message
from panelart.messages import spec_lettering as said
from panelart.source.problems import Problems

_PIECE: Final = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|\{")


def filled(text: str, numbers: Mapping[str, str], where: Where, problems: Problems) -> str:
    """The text with every name in braces replaced by its number.

    A name that no repeat gives, or a brace that is not closed, is added to the problems and left as it is.
    """
    if "{" not in text and "}" not in text:
        return text

    def piece(match: re.Match[str]) -> str:
        whole, name = match[0], match[1]
        if whole in ("{{", "}}"):
            return whole[0]
        if name is None:
            problems.add(where, said.unclosed_brace(text), said.write_brace())
            return whole
        number = numbers.get(name.strip())
        if number is not None:
            return number
        problems.add(where, said.unknown_brace_name(whole, text), names_in_braces(name.strip(), numbers))
        return whole

    return _PIECE.sub(piece, text)


def names_in_braces(name: str, numbers: Mapping[str, str]) -> Message:
    """A hint: what may be in braces in place of a name that is not known."""
    if not numbers:
        return said.no_names_here()
    near = nearest(name, numbers)
    return said.names_or_brace(sorted(numbers)) if near is None else said.near_or_brace(near)
