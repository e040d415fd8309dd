"""Least squares: the map that takes a panel's features to where they were measured on the printer's bed.

Shift and turn, or a similarity, of points alone start from Umeyama's closed form (IEEE TPAMI 13(4), 1991, 376-380);
touched edges give one equation each, across the edge, and are brought in by Gauss-Newton steps. The covariance of the
solved parameters gives the error to expect at any other place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import Enum
from typing import TYPE_CHECKING, Any, Final

from panelart.canonical import Struct
from panelart.geometry import Affine, Point, Vector
from panelart.messages import Message
from panelart.messages import press_register as said

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating[Any]]

_STEPS: Final = 50
_STILL: Final = 1e-11
"""Steps of Gauss-Newton at the most, and the step below which it stands still, mm and radians over the panel."""

SURE: Final = 2.4477
"""Radius over standard deviation of the circle that holds 95 % of a normal scatter in the plane: sqrt(-2 ln 0.05)."""


UNMOVED: Final = Vector(0.0, 0.0)


class Model(Enum):
    """What the map may do."""

    RIGID = "rigid"
    SIMILARITY = "similarity"
    AFFINE = "affine"

    @property
    def freedoms(self) -> int:
        """How many figures are solved for."""
        return {Model.RIGID: 3, Model.SIMILARITY: 4, Model.AFFINE: 6}[self]

    @property
    def says(self) -> Message:
        """The same for people."""
        return {Model.RIGID: said.rigid, Model.SIMILARITY: said.similarity, Model.AFFINE: said.affine}[self]()


class Sight(Struct, frozen=True, kw_only=True):
    """One measured feature: where it should be on the panel, and where it was on the bed, mm.

    A touched edge has `across`, its outward normal: only that part of the difference counts, and `at` is any point
    of it. `grows` is how the feature moves when the outline grows by 1 mm all round; nothing for openings and marks.
    """

    at: Point
    seen: Point
    across: Vector | None = None
    grows: Vector = UNMOVED

    @property
    def equations(self) -> int:
        """One for an edge, two for a point."""
        return 2 if self.across is None else 1


class Fit(Struct, frozen=True, kw_only=True):
    """The solved map, panel to bed.

    `growth` is by how much the outline is larger all round than it should be, 0.0 unless solved for. `residuals` are
    measured less expected, on the bed, in the order of the sights. `spare` is the number of equations over what is
    needed; `covariance` that of the parameters, for a scatter of 1 mm, about `centre`.
    """

    model: Model
    map: Affine
    growth: float
    grown: bool
    residuals: tuple[Vector, ...]
    spare: int
    centre: Point
    covariance: Array

    @property
    def squares(self) -> float:
        """Sum of the squared distances, mm²."""
        return math.fsum(off.dot(off) for off in self.residuals)

    @property
    def rms(self) -> float:
        """Root of the mean squared distance."""
        return math.sqrt(self.squares / len(self.residuals))

    @property
    def worst(self) -> float:
        """The largest distance."""
        return max(off.length for off in self.residuals)

    @property
    def scatter(self) -> float | None:
        """Standard deviation of one coordinate, from the residuals; None when nothing is left to tell it by."""
        if self.spare <= 0:
            return None
        return math.sqrt(self.squares / self.spare)

    @property
    def growth_deviation(self) -> float:
        """Standard deviation of the growth, for a scatter of 1 mm."""
        return math.sqrt(max(float(self.covariance[-1, -1]), 0.0)) if self.grown else 0.0

    @property
    def scale_deviation(self) -> float:
        """Standard deviation of the scale, for a scatter of 1 mm; 0 for a rigid map."""
        if self.model is Model.RIGID:
            return 0.0
        return math.sqrt(max(float(self.covariance[0, 0]), 0.0))

    def off(self, sight: Sight) -> Vector:
        """How far another sight is from where this map expects it, on the bed."""
        return _system([sight], self.model, self.map, self.centre, self.growth, growth=False).residuals[0]

    def deviation_at(self, place: Point) -> float:
        """Standard deviation, along its worst direction, of where the map puts a place, for a scatter of 1 mm."""
        import numpy as np

        rows = design(self.model, self.map, place, self.centre)
        if self.grown:
            rows = np.hstack((rows, np.zeros((2, 1))))
        spread = rows @ self.covariance @ rows.T
        return math.sqrt(max(float(np.linalg.eigvalsh(spread)[-1]), 0.0))


class TooFewError(ValueError):
    """What was measured does not settle the map."""


def fitted(sights: Sequence[Sight], model: Model, *, growth: bool = False) -> Fit:
    """The map with the least sum of squared residuals; `growth` also solves for the outline's growth.

    Never a reflection. Raises TooFewError when the sights leave the map open.
    """
    import numpy as np

    wanted = model.freedoms + growth
    if sum(sight.equations for sight in sights) < wanted:
        raise TooFewError(said.too_few_coordinates(model=model.says, coordinates=wanted))
    centre = _middle([sight.at for sight in sights])
    map_, grown = _start(sights, model, centre), 0.0
    for _ in range(_STEPS):
        system = _system(sights, model, map_, centre, grown, growth=growth)
        solved, _, rank, _ = np.linalg.lstsq(system.design, system.off, rcond=1e-9)
        if rank < wanted:
            raise TooFewError(said.features_ambiguous(model=model.says))
        map_ = _stepped(model, map_, centre, solved)
        grown += float(solved[-1]) if growth else 0.0
        if np.max(np.abs(solved)) < _STILL:
            break
    system = _system(sights, model, map_, centre, grown, growth=growth)
    return Fit(
        model=model,
        map=map_,
        growth=grown,
        grown=growth,
        residuals=system.residuals,
        spare=len(system.off) - wanted,
        centre=centre,
        covariance=np.linalg.inv(system.design.T @ system.design),
    )


def umeyama(pairs: Sequence[tuple[Point, Point]], *, scaled: bool) -> Affine:
    """The similarity, or with `scaled` false the rigid motion, nearest to pairs of (from, to); closed form, no mirror.

    Raises TooFewError when the points all lie in one place.
    """
    import numpy as np

    here = np.array([pair[0] for pair in pairs])
    there = np.array([pair[1] for pair in pairs])
    mean_here, mean_there = here.mean(axis=0), there.mean(axis=0)
    a, b = here - mean_here, there - mean_there
    spread = float((a * a).sum()) / len(pairs)
    if spread < 1e-12:
        raise TooFewError(said.features_coincide())
    u, d, v = np.linalg.svd(b.T @ a / len(pairs))
    sign = 1.0 if float(np.linalg.det(u) * np.linalg.det(v)) >= 0.0 else -1.0
    turn = u @ np.diag([1.0, sign]) @ v
    scale = float(d[0] + sign * d[1]) / spread if scaled else 1.0
    if scale <= 0.0:
        raise TooFewError(said.points_coincide())
    move = mean_there - scale * turn @ mean_here
    return _affine(scale * turn, move)


def mirrored_fit(sights: Sequence[Sight]) -> Affine | None:
    """The best rigid map that exchanges left and right, for telling that points were mirrored; None for under 3."""
    points = [sight for sight in sights if sight.across is None]
    if len(points) < 3:
        return None
    flipped = umeyama([(sight.at.mirrored(), sight.seen) for sight in points], scaled=False)
    return Affine(a=-1.0).then(flipped)


def _affine(linear: Array, move: Array) -> Affine:
    (a, c), (b, d) = linear.tolist()
    return Affine(a, b, c, d, *move.tolist())


def _middle(points: Sequence[Point]) -> Point:
    return Point(math.fsum(p.x for p in points) / len(points), math.fsum(p.y for p in points) / len(points))


def _start(sights: Sequence[Sight], model: Model, centre: Point) -> Affine:
    points = [(sight.at, sight.seen) for sight in sights if sight.across is None]
    if len({at for at, _ in points}) >= 2:
        return umeyama(points, scaled=model is not Model.RIGID)
    # Edges alone: the panel is taken to lie within some 30 degrees of straight.
    shift = _middle([sight.seen for sight in sights]).minus(centre)
    return Affine(e=shift.x, f=shift.y)


class _System(Struct, frozen=True):
    """Equations about a map: rows, what is left to explain, and the residuals as vectors on the bed."""

    design: Array
    off: Array
    residuals: tuple[Vector, ...]


def _system(
    sights: Sequence[Sight], model: Model, map_: Affine, centre: Point, grown: float, *, growth: bool
) -> _System:
    import numpy as np

    rows: list[Array] = []
    offs: list[float] = []
    residuals: list[Vector] = []
    for sight in sights:
        at = sight.at.moved(sight.grows.scaled(grown))
        if sight.across is not None:
            # The nearest point of the edge, as the map stands, is the one that was touched.
            along = sight.across.perpendicular
            at = at.moved(along.scaled(map_.inverse().apply(sight.seen).minus(at).dot(along)))
        two = design(model, map_, at, centre)
        if growth:
            moved = np.array([[map_.a, map_.c], [map_.b, map_.d]]) @ np.array(sight.grows)
            two = np.hstack((two, moved.reshape(2, 1)))
        off = sight.seen.minus(map_.apply(at))
        if sight.across is None:
            rows += [two[0], two[1]]
            offs += [off.x, off.y]
        else:
            # A normal goes over by the inverse transpose.
            normal = Vector(
                map_.d * sight.across.x - map_.b * sight.across.y, map_.a * sight.across.y - map_.c * sight.across.x
            ).unit
            rows.append(np.array(normal) @ two)
            offs.append(off.dot(normal))
            off = normal.scaled(off.dot(normal))
        residuals.append(off)
    return _System(np.array(rows), np.array(offs), tuple(residuals))


def design(model: Model, map_: Affine, at: Point, centre: Point) -> Array:
    """How the place of a point changes with the parameters; those of a similarity begin with the scale."""
    import numpy as np

    arm = at.minus(centre)
    if model is Model.AFFINE:
        return np.array([[arm.x, arm.y, 0.0, 0.0, 1.0, 0.0], [0.0, 0.0, arm.x, arm.y, 0.0, 1.0]])
    out = Vector(map_.a * arm.x + map_.c * arm.y, map_.b * arm.x + map_.d * arm.y)
    if model is Model.RIGID:
        return np.array([[-out.y, 1.0, 0.0], [out.x, 0.0, 1.0]])
    return np.array([[out.x, -out.y, 1.0, 0.0], [out.y, out.x, 0.0, 1.0]])


def _stepped(model: Model, map_: Affine, centre: Point, step: Array) -> Affine:
    """The map after a step of its parameters, about the features' middle."""
    here = map_.apply(centre)
    values: list[float] = step.tolist()
    if model is Model.AFFINE:
        axx, axy, ayx, ayy, dx, dy = values[:6]
        a, b, c, d = map_.a + axx, map_.b + ayx, map_.c + axy, map_.d + ayy
    else:
        scale, turn, dx, dy = (0.0, *values[:3]) if model is Model.RIGID else values[:4]
        cos, sin = (1.0 + scale) * math.cos(turn), (1.0 + scale) * math.sin(turn)
        a, b = cos * map_.a - sin * map_.b, sin * map_.a + cos * map_.b
        c, d = cos * map_.c - sin * map_.d, sin * map_.c + cos * map_.d
    return Affine(a, b, c, d, here.x + dx - a * centre.x - c * centre.y, here.y + dy - b * centre.x - d * centre.y)
