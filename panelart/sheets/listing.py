"""A table on a sheet."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.messages import Said
from panelart.sheets.paper import Column


class Listing(Struct, frozen=True, kw_only=True):
    """A table of a station."""

    title: Said
    columns: tuple[Column, ...]
    rows: tuple[tuple[Said, ...], ...]
    remark: Said = ""
