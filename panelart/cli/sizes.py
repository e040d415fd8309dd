"""Sizes as they are typed on the command line."""

from __future__ import annotations

import math
import re

import typer

from panelart.geometry import Box

MAX_BED = 5000.0
"""The largest side of a bed, mm: what a PDF page can be."""


def bed_of(text: str, option: str = "--bed") -> Box:
    """`600x400` as a box from 0, 0. Raises typer.BadParameter."""
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*", text, re.IGNORECASE)
    if match is None:
        raise typer.BadParameter(f"'{text}' is not a size such as 600x400, in mm", param_hint=option)
    width, height = (float(side) for side in match.groups())
    if not (0.0 < width <= MAX_BED and 0.0 < height <= MAX_BED):
        raise typer.BadParameter(f"a side of {text} is not between 0 and {MAX_BED:g} mm", param_hint=option)
    return Box(0.0, 0.0, width, height)


def mm(value: float, option: str, *, minimum: float = 0.0, maximum: float) -> float:
    """A length in mm over `least` and up to `most`. Raises typer.BadParameter."""
    if not (math.isfinite(value) and minimum < value <= maximum):
        raise typer.BadParameter(f"{value:g} is not between {minimum:g} and {maximum:g} mm", param_hint=option)
    return value
