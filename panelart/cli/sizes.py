"""Sizes as they are typed on the command line."""

from __future__ import annotations

import math
import re

import typer

from panelart.geometry import Box

MOST_BED = 5000.0
"""The largest side of a bed, mm: what a PDF page can be."""


def bed_of(text: str, option: str = "--bed") -> Box:
    """`600x400` as a box from 0, 0. Raises typer.BadParameter."""
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*", text, re.IGNORECASE)
    if match is None:
        raise typer.BadParameter(f"'{text}' is not a size such as 600x400, in mm", param_hint=option)
    width, height = (float(side) for side in match.groups())
    if not (0.0 < width <= MOST_BED and 0.0 < height <= MOST_BED):
        raise typer.BadParameter(f"a side of {text} is not between 0 and {MOST_BED:g} mm", param_hint=option)
    return Box(0.0, 0.0, width, height)


def mm(value: float, option: str, *, least: float = 0.0, most: float) -> float:
    """A length in mm over `least` and up to `most`. Raises typer.BadParameter."""
    if not (math.isfinite(value) and least < value <= most):
        raise typer.BadParameter(f"{value:g} is not between {least:g} and {most:g} mm", param_hint=option)
    return value
