"""Which maps the measured points speak for: the plainest is taken, and the others are reckoned with.

Maps are compared by Schwarz's criterion (Annals of Statistics 6(2), 1978, 461-464) with the noise of measuring known:
sum of squares over the noise, and for each figure solved for the logarithm of the number of coordinates. A difference
above 6 is strong evidence (Kass and Raftery, Journal of the American Statistical Association 90, 1995, 773-795).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any, Final, cast

from msgspec.structs import replace

from panelart.geometry import Point
from panelart.press.fitting import SURE, Fit, Model, Sight, TooFewError, fitted

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating[Any]]

CHANCE: Final = 3.09
"""Normal deviate of 1 in 1000: what a sum of squares is held against before anything is called wrong."""

CLEAR: Final = 4.0
"""How many standard deviations a growth, a scale or a stretch stands off nothing, to be believed."""

STRONG: Final = 6.0
"""Difference of the criterion from which on one map is preferred to a plainer one, and another no longer counts."""

_SHARE: Final = 0.95
_HALVINGS: Final = 20
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
    return fit.squares / sigma**2 + figures * math.log(fit.model.freedoms + fit.grown + fit.spare)


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
    return fit.squares <= limit * sigma**2


def errors_at(
    places: Sequence[Point], fit: Fit, maps: Sequence[Fit], sigma: float, scatter: float
) -> tuple[float, ...]:
    """The radius, mm, that holds the error of a map 95 times in 100, at each of the places.

    Each of the plausible maps is true with the share that the criterion gives it (half of the difference is the
    logarithm of the odds, as Kass and Raftery have it); about it the truth is scattered by what was measured.
    """
    import numpy as np

    least = min(criterion(other, sigma) for other in maps)
    odds = np.array([math.exp((least - criterion(other, sigma)) / 2) for other in maps])
    off = np.array([[fit.map.apply(at).distance(other.map.apply(at)) for other in maps] for at in places])
    deviation = np.array([[scatter * other.deviation_at(at) for other in maps] for at in places])
    low, high = np.zeros(len(places)), (off + SURE * deviation).max(axis=1)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        held = within(middle[:, np.newaxis], off, deviation) @ (odds / odds.sum()) >= _SHARE
        low, high = np.where(held, low, middle), np.where(held, middle, high)
    return tuple(high.tolist())


def within(radius: Array, off: Array, deviation: Array) -> Array:
    """The share of a normal scatter, alike in all directions about a point `off` the middle, within a circle.

    Arrays of lengths above 0 (`off` may be 0), mm, of one shape or spread to one.
    """
    import numpy as np

    radius, off, deviation = (each[..., np.newaxis] for each in (radius, off, deviation))
    # Strips across the way to the point: each as much as lies in it, times what of it lies within the circle.
    angle = (np.arange(_STRIPS) + 0.5) * (math.pi / _STRIPS)
    chord = radius * np.sin(angle)
    dense = np.exp(-(((radius * np.cos(angle) - off) / deviation) ** 2) / 2) / (deviation * math.sqrt(2 * math.pi))
    at, held = _normal()
    inside = np.interp(chord / deviation, at, held)
    return cast("Array", (dense * inside * chord).sum(axis=-1) * math.pi / _STRIPS)


@cache
def _normal() -> tuple[Array, Array]:
    """Shares of a normal scatter that lie within so many standard deviations of the middle."""
    import numpy as np

    at = np.linspace(0.0, 6.0, 3001)
    return at, np.array([math.erf(x / math.sqrt(2)) for x in at.tolist()])


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
