"""A table on a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.messages import Said
from panelart.sheets.paper import Column


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A table of a station."""

    title: Said
    columns: tuple[Column, ...]
    rows: tuple[tuple[Said, ...], ...]
    remark: Said = ""
