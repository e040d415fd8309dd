"""Sheets: finished drawings put down on a larger page, each by a map of its own, with what only that piece carries."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.drawing.representation import Layer
from panelart.geometry import Affine, Box


class Placed(Struct, frozen=True, kw_only=True):
    """One piece on a sheet.

    `drawing` is the name that the sheet's drawings are handed over by, `by` takes its frame to the sheet's. `own` are
    layers of this piece alone, in the frame of the drawing and painted after it.
    """

    drawing: str
    by: Affine
    own: tuple[Layer, ...] = ()


class Sheet(Struct, frozen=True, kw_only=True):
    """A page with pieces on it, in mm; `page` is the bed or the paper, `layers` are its own, painted last."""

    title: str
    note: str
    page: Box
    placed: tuple[Placed, ...]
    layers: tuple[Layer, ...] = ()
    number: str = ""
    revision: str = ""
    spec: str = ""
