"""Sheets: finished drawings put down on a larger page, each by a map of its own, with what only that piece carries."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.drawing.representation import Layer
from panelart.geometry import Affine, Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One piece on a sheet.

    `drawing` is the name that the sheet's drawings are handed over by, `by` takes its frame to the sheet's. `own` are
    layers of this piece alone, in the frame of the drawing and painted after it.
    """

    drawing: str
    by: Affine
    own: tuple[Layer, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A page with pieces on it, in mm; `page` is the bed or the paper, `layers` are its own, painted last."""

    title: str
    note: str
    page: Box
    placed: tuple[Placed, ...]
    layers: tuple[Layer, ...] = ()
    number: str = ""
    revision: str = ""
    spec: str = ""
