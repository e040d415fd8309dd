"""Braces in texts: `{n}` is the number of the copy that a repeat makes, `{{` and `}}` are braces."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from panelart.diagnostics import Where, did_you_mean
from panelart.source.problems import Problems, shown

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
            problems.add(where, f"a brace in {shown(text)} is not closed", "a brace itself is written {{")
            return whole
        number = numbers.get(name.strip())
        if number is not None:
            return number
        known = did_you_mean(name.strip(), numbers, "names here") if numbers else "no repeat gives a number here"
        problems.add(
            where, f"{shown(whole)} in {shown(text)} names no repeat", f"{known}; a brace itself is written {{{{"
        )
        return whole

    return _PIECE.sub(piece, text)
