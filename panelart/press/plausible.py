"""Which maps the measured points speak for: the plainest is taken, and the others are reckoned with.

Maps are compared by Schwarz's criterion (Annals of Statistics 6(2), 1978, 461-464) with the noise of measuring known:
sum of squares over the noise, and for each figure solved for the logarithm of the number of coordinates. A difference
above 6 is strong evidence (Kass and Raftery, Journal of the American Statistical Association 90, 1995, 773-795).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.geometry import Point
from panelart.press.fitting import SURE, Fit, Model, Sight, TooFewError, fitted

CHANCE: Final = 3.09
"""Normal deviate of 1 in 1000: what a sum of squares is held against before anything is called wrong."""

CLEAR: Final = 4.0
"""How many standard deviations a growth, a scale or a stretch stands off nothing, to be believed."""

STRONG: Final = 6.0
"""Difference of the criterion from which on one map is preferred to a plainer one, and another no longer counts."""

_SHARE: Final = 0.95
_HALVINGS: Final = 24
_STRIPS: Final = 96
"""How finely the error to expect is found: halvings of a radius, strips of a circle."""

UNSEEN: Final = 0.05
"""Growth of an outline by a coat thicker or thinner than planned, mm (common practice for powder: 0.06 to 0.12)."""

MAX_GROWTH: Final = 1.0
MAX_SCALE: Final = 0.01
"""No coat makes an outline grow by more mm, and no printer's scale is further from 1: such points are mistaken."""

WIDER: Final = (
    (Model.RIGID, True),
    (Model.SIMILARITY, False),
    (Model.SIMILARITY, True),
    (Model.AFFINE, False),
    (Model.AFFINE, True),
)
"""Maps wider than a rigid one, by what they may do and whether the outline may have grown; the plainest first."""


def candidates(sights: Sequence[Sight], sigma: float) -> tuple[Fit, ...]:
    """The maps that explain the points and are possible, the plainest first; none where none does.

    `sigma` is the standard deviation of a measured coordinate, mm. One wider than rigid has to leave something that
    checks it. Raises TooFewError where the points do not settle even a rigid one.
    """
    rigid = fitted(sights, Model.RIGID)
    found = [rigid] if explained(rigid, sigma) else []
    grows = any(sight.grows.length for sight in sights)
    for model, growth in WIDER:
        if growth and not grows:
            continue
        try:
            fits = [fitted(sights, model, growth=growth)]
        except TooFewError:
            fits = list(_unseen(sights, model)) if growth else []
        found += [fit for fit in fits if fit.spare > 0 and explained(fit, sigma) and _possible(fit)]
    return tuple(found)


def _unseen(sights: Sequence[Sight], model: Model) -> Iterator[Fit]:
    """The maps where the outline has grown or shrunk by as much as may well be, and the points cannot tell it."""
    for growth in (-UNSEEN, UNSEEN):
        moved = [replace(sight, at=sight.at.moved(sight.grows.scaled(growth))) for sight in sights]
        try:
            yield replace(fitted(moved, model), growth=growth)
        except TooFewError:
            return


def chosen(maps: Sequence[Fit], sigma: float) -> Fit:
    """The plainest that none of the others is strong evidence against, and whose figures are more than chance.

    Raises ValueError for no maps.
    """
    least = min(criterion(fit, sigma) for fit in maps)
    near = [fit for fit in maps if criterion(fit, sigma) <= least + STRONG]
    return next((fit for fit in near if believed(fit, sigma)), near[0])


def plausible(maps: Sequence[Fit], sigma: float) -> tuple[Fit, ...]:
    """Those without strong evidence against them."""
    least = min((criterion(fit, sigma) for fit in maps), default=0.0)
    return tuple(fit for fit in maps if criterion(fit, sigma) <= least + STRONG)


def criterion(fit: Fit, sigma: float) -> float:
    """Schwarz's criterion but for what is the same for all maps of the points: less is better."""
    figures = fit.model.freedoms + (fit.growth != 0.0)
    squares = math.fsum(off.dot(off) for off in fit.residuals) / sigma**2
    return squares + figures * math.log(fit.model.freedoms + fit.grown + fit.spare)


def explained(fit: Fit, sigma: float) -> bool:
    """Whether the residuals are no more than the noise makes, 999 times in 1000 (Wilson and Hilferty 1931).

    A mirror image, or something of another size, explains nothing.
    """
    if fit.map.area < 0.0 or abs(math.sqrt(abs(fit.map.area)) - 1.0) > MAX_SCALE:
        return False
    if fit.spare <= 0:
        return True
    share = 2.0 / (9.0 * fit.spare)
    limit = fit.spare * (1.0 - share + CHANCE * math.sqrt(share)) ** 3
    return math.fsum(off.dot(off) for off in fit.residuals) <= limit * sigma**2


def error_at(place: Point, fit: Fit, maps: Sequence[Fit], sigma: float, scatter: float) -> float:
    """The radius, mm, that holds the error of a map at a place 95 times in 100.

    Each of the plausible maps is true with the share that the criterion gives it (half of the difference is the
    logarithm of the odds, as Kass and Raftery have it); about it the truth is scattered by what was measured.
    """
    here = fit.map.apply(place)
    least = min(criterion(other, sigma) for other in maps)
    odds = [math.exp((least - criterion(other, sigma)) / 2) for other in maps]
    around = [
        (share / math.fsum(odds), here.distance(other.map.apply(place)), scatter * other.deviation_at(place))
        for share, other in zip(odds, maps, strict=True)
    ]
    low, high = 0.0, max(off + SURE * deviation for _, off, deviation in around)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        held = math.fsum(share * _within(middle, off, deviation) for share, off, deviation in around)
        low, high = (low, middle) if held >= _SHARE else (middle, high)
    return high


def _within(radius: float, off: float, deviation: float) -> float:
    """The share of a normal scatter, alike in all directions about a point `off` the middle, within a circle."""
    import numpy as np

    if deviation <= 0.0:
        return 1.0 if off <= radius else 0.0
    # Strips across the way to the point: each as much as lies in it, times what of it lies within the circle.
    at = radius * np.cos((np.arange(_STRIPS) + 0.5) * (math.pi / _STRIPS))
    chord = np.sqrt(radius**2 - at**2)
    dense = np.exp(-(((at - off) / deviation) ** 2) / 2) / (deviation * math.sqrt(2 * math.pi))
    inside = np.array([math.erf(half / (deviation * math.sqrt(2))) for half in chord])
    return float((dense * inside * chord).sum() * math.pi / _STRIPS)


def believed(fit: Fit, sigma: float) -> bool:
    """Whether what a wider map adds is more than chance."""
    if fit.grown and abs(fit.growth) <= CLEAR * sigma * fit.growth_deviation:
        return False
    across, up = fit.map.stretch
    match fit.model:
        case Model.RIGID:
            return True
        case Model.SIMILARITY:
            return abs(across - 1.0) > CLEAR * sigma * fit.scale_deviation
        case Model.AFFINE:
            shear = abs(math.radians(fit.map.shear_deg))
            return max(abs(across - up), shear) > CLEAR * sigma * fit.scale_deviation


def _possible(fit: Fit) -> bool:
    """Whether growth and scales are no more than can be."""
    worst = max(abs(scale - 1.0) for scale in fit.map.stretch)
    return abs(fit.growth) <= MAX_GROWTH and worst <= MAX_SCALE
