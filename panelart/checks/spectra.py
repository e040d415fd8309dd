"""Glyphs as spectra: how far two of them are apart for an eye that blurs, without a picture of either.

The Fourier transform of a polygon is exact: for every edge e with its middle m the frequency f gives
(f x e) sinc(f . e) exp(-2 pi i f . m) i / (2 pi |f|²). A Gaussian blur multiplies it by a Gaussian, so that the
difference of two blurred glyphs is a sum over the few frequencies that an eye passes (Parseval).
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final, TypeAlias

import numpy as np
import shapely

from panelart.checks.bodies import Numbers
from panelart.checks.ink import filled
from panelart.geometry import Point
from panelart.lettering.fonts import open_font
from panelart.lettering.motion import Motion, moved

PERIOD: Final = 2.4
"""The field that a glyph is seen in, over its cap height: what is blurred must not reach round it."""

FINEST: Final = 9.0
"""Periods a cap height up to which glyphs are compared: finer ones are lost to eyes that take one for another."""

WIDEST: Final = 1.6
"""Wider glyphs, over the cap height, are no single characters that could be taken for each other."""

_LOST: Final = 1e-7
"""Frequencies that count for less do not add up to a thousandth of a glyph."""

_SLIPS: Final = 9
"""Places across in which two glyphs are laid on each other."""

Spectrum: TypeAlias = np.ndarray[tuple[int], np.dtype[np.complex128]]


@lru_cache(maxsize=1)
def _field() -> tuple[Numbers, Numbers]:
    """Frequencies, one row each, in periods a cap height, and how much each counts; half a plane, mirrored twice."""
    count = int(np.ceil(FINEST * PERIOD))
    across, up = np.meshgrid(np.arange(count + 1) / PERIOD, np.arange(-count, count + 1) / PERIOD)
    frequencies = np.stack([across.ravel(), up.ravel()], axis=1)
    return frequencies, np.where(frequencies[:, 0] == 0.0, 1.0, 2.0) / PERIOD**2


def spectrum(ground: shapely.Geometry, frequencies: Numbers) -> Spectrum:
    """The Fourier transform of a polygon's area at rows of frequencies."""
    found = np.zeros(len(frequencies), dtype=np.complex128)
    for piece in shapely.get_parts(ground):
        outer = shapely.geometry.polygon.orient(piece)
        for ring in (outer.exterior, *outer.interiors):
            corners = shapely.get_coordinates(ring)
            edges = np.diff(corners, axis=0)
            middles = corners[:-1] + edges / 2.0
            turn = np.outer(frequencies[:, 0], edges[:, 1]) - np.outer(frequencies[:, 1], edges[:, 0])
            wave = np.exp(-2j * np.pi * (frequencies @ middles.T))
            found += (turn * np.sinc(frequencies @ edges.T) * wave).sum(axis=1)
    squares = (frequencies**2).sum(axis=1)
    rest = squares == 0.0
    return np.where(rest, float(ground.area), found * 1j / (2.0 * np.pi * np.where(rest, 1.0, squares)))


@lru_cache(maxsize=4096)
def of_glyph(font: str, number: int, spread: float) -> Spectrum | None:
    """A glyph of cap height 1, the middle of its ink over the origin; None where it has no ink or is too wide.

    `spread` is how far ink spreads beyond the outline, over the cap height.
    """
    opened = open_font(font)
    box = opened.box(number)
    if box is None or box.width > WIDEST * opened.cap_units:
        return None
    # Made small first: chords stray by a thousandth of the cap height.
    scale = 1.0 / opened.cap_units
    middle = Point(-(box.left + box.right) / 2.0 * scale, -0.5)
    ground = filled(moved(opened.outline(number), Motion(middle, 0.0, scale)))
    if spread > 0.0:
        ground = shapely.buffer(ground, spread)
    return spectrum(ground, _field()[0])


def apart(glyph: Spectrum, others: Numbers, metric: Numbers, blur: float, slip: float) -> Numbers:
    """How far each of other glyphs is from one, once they are blurred: the square of what the two do not share.

    `others` has one spectrum a row; `metric` gives the square of the angle of a step in cap heights, `blur` the
    standard deviation and `slip` how far sideways two may be laid on each other, in the unit of that angle; the answer
    is in its square.
    """
    frequencies, counts = _field()
    inverse = np.linalg.inv(metric)
    x, y = frequencies.T
    bend = inverse[0, 0] * x * x + 2.0 * inverse[0, 1] * x * y + inverse[1, 1] * y * y
    weights = np.exp(-4.0 * np.pi**2 * blur**2 * bend) * counts
    kept = weights > _LOST
    weights, one, rows = weights[kept], glyph[kept], others[:, kept]
    ways = np.linspace(-slip, slip, _SLIPS) / np.sqrt(metric[0, 0])
    moved = (one * weights) * np.exp(2j * np.pi * np.outer(ways, x[kept]))
    # Sums of products instead of a product of matrices: small ones are slowed by threads of the library.
    shared = np.einsum("sf,gf->sg", moved.real, rows.real) + np.einsum("sf,gf->sg", moved.imag, rows.imag)
    squares = _power(one, weights) + _power(rows, weights) - 2.0 * shared.max(axis=0)
    found: Numbers = np.maximum(squares, 0.0) * math.sqrt(float(np.linalg.det(metric)))
    return found


def _power(spectra: Numbers, weights: Numbers) -> Numbers:
    found: Numbers = np.einsum("...f,f->...", spectra.real**2 + spectra.imag**2, weights)
    return found
