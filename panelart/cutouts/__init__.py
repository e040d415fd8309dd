"""Openings, envelopes and the sizes that leave the cutter: a panel in, what its parts need in the metal out."""

from __future__ import annotations

from panelart.cutouts.blank import blank
from panelart.cutouts.cutting import cut, cut_flanges, cut_outline
from panelart.cutouts.envelopes import stand
from panelart.cutouts.masks import masks

__all__ = ["blank", "cut", "cut_flanges", "cut_outline", "masks", "stand"]
