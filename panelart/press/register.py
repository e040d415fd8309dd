"""Whether one piece can be printed in register, and by which map: measured points in, a decision out.

What cannot be fitted is told apart first: points that were mirrored, two that were exchanged, single ones that lie
where the others do not put them. Then the plainest map that nothing speaks strongly against is taken (`plausible.py`):
shift and turn, with growth of the outline, a scale, a stretch. The error is stated where it matters, at the legends,
and not only at the points that were fitted: the two are not related (Fitzpatrick 2009, Proc. SPIE 7261).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Point, Vector
from panelart.lettering.outline import bounds
from panelart.messages import Message, Said, english
from panelart.messages import press_register as said
from panelart.messages.errors import said_by
from panelart.model.layout import Layout
from panelart.press.fitting import SURE, Fit, Model, Sight, TooFewError, fitted, mirrored_fit
from panelart.press.measured import Measured
from panelart.press.plausible import MAX_SCALE, candidates, chosen, criterion, errors_at, explained, plausible

NOISE: Final = 0.05
"""How far a coordinate is off at most, 19 times in 20, where nothing else is said: a crosshair set by eye. Mm."""

SIGMAS: Final = 2.0
"""Standard deviations in the noise as it is stated."""

OUTLYING: Final = 5.0
"""How many of its own standard deviations a point lies from where the others put it, to be left out."""

INCH: Final = 25.4

ODD_SCALE: Final = 300e-6
"""A scale further from 1 than this is the printer's or the units', hardly the part's (common practice)."""


class Outlier(Struct, frozen=True, kw_only=True):
    """A point left out, and how far it is from where the others put it."""

    measured: Measured
    off: Vector


class Aim(Struct, frozen=True, kw_only=True):
    """A place of the marking and the radius, in mm, that holds its error 95 times in 100."""

    what: Said
    at: Point
    error: float


class Length(Struct, frozen=True, kw_only=True):
    """The outline across or up, as measured and as it should be: once coated, and as it was cut."""

    name: str
    measured: float
    finished: float
    cut: float

    @property
    def says(self) -> Message:
        """Its name for people."""
        return said.width() if self.name == "width" else said.height()


class Registration(Struct, frozen=True, kw_only=True):
    """The decision on one piece.

    `refusals` say why it cannot be printed; none means that it can. `scatter` is the standard deviation of one
    measured coordinate that the errors are reckoned with. `aims` are all places of the marking, the worst first.
    """

    fit: Fit | None
    used: tuple[Measured, ...]
    outliers: tuple[Outlier, ...]
    refusals: tuple[Said, ...]
    remarks: tuple[Said, ...]
    scatter: float
    tolerance: float
    aims: tuple[Aim, ...]
    lengths: tuple[Length, ...] = ()

    @property
    def printable(self) -> bool:
        """Whether the piece can be printed in register."""
        return not self.refusals


def registered(
    layout: Layout,
    measured: Sequence[Measured],
    *,
    model: Model | None = None,
    noise: float = NOISE,
    tolerance: float | None = None,
) -> Registration:
    """Fit measured points and decide. `model` None takes the plainest that explains them.

    `noise` is how far a measured coordinate is off at most, 19 times in 20; `tolerance` the register error allowed,
    that of the panel when None, both in mm.
    """
    allowed = layout.panel.marking.register if tolerance is None else tolerance
    sigma = noise / SIGMAS
    blank = Registration(
        fit=None,
        used=tuple(measured),
        outliers=(),
        refusals=(),
        remarks=(),
        scatter=sigma,
        tolerance=allowed,
        aims=(),
    )
    try:
        maps = _maps(measured, model, sigma)
    except TooFewError as error:
        return replace(blank, refusals=(said.measure_more(reason=said_by(error)),))
    first = chosen(maps, sigma)
    fit, used = first, tuple(measured)
    outliers: tuple[Outlier, ...] = ()
    if not explained(first, sigma):
        wrong = _mixed_up(measured, model, sigma)
        if wrong is not None:
            return replace(blank, fit=first, refusals=(wrong,))
        fit, used, outliers = _without_outliers(measured, first, model, sigma)
        maps = _maps(used, model, sigma)
    scatter = max(sigma, fit.scatter or 0.0)
    aims = _aims(layout, fit, plausible(maps, sigma), sigma, scatter)
    done = replace(blank, fit=fit, used=used, outliers=outliers, scatter=scatter, aims=aims)
    done = replace(done, lengths=_lengths(layout, used, fit))
    return replace(done, refusals=tuple(_refusals(done)), remarks=tuple(_remarks(done, layout, sigma)))


def sights(measured: Sequence[Measured]) -> list[Sight]:
    """Measured features as the fit takes them."""
    return [
        Sight(at=one.feature.at, seen=one.seen, across=one.feature.across, grows=one.feature.grows) for one in measured
    ]


def _maps(measured: Sequence[Measured], model: Model | None, sigma: float) -> tuple[Fit, ...]:
    """The map of the model asked for, or those that explain the points, or the rigid one where none does."""
    seen = sights(measured)
    if model is not None:
        return (fitted(seen, model),)
    return candidates(seen, sigma) or (fitted(seen, Model.RIGID),)


def _best(measured: Sequence[Measured], model: Model | None, sigma: float) -> Fit:
    """The one of them that is taken."""
    return chosen(_maps(measured, model, sigma), sigma)


def _mixed_up(measured: Sequence[Measured], model: Model | None, sigma: float) -> Message | None:
    """Points that would fit if they were unmirrored, or if two of them changed places."""
    return _mirrored(measured, sigma) or _mistaken_unit(measured) or _exchanged(measured, model, sigma)


def _mistaken_unit(measured: Sequence[Measured]) -> Message | None:
    try:
        scale = fitted(sights(measured), Model.SIMILARITY).map.stretch[0]
    except TooFewError:
        return None
    for factor, unit in (
        (1.0 / INCH, said.inches()),
        (0.1, said.centimetres()),
        (1000.0, said.micrometres()),
        (72.0 / INCH, said.points()),
    ):
        if abs(scale / factor - 1.0) < MAX_SCALE:
            return said.unit_mistaken(unit=unit)
    return None


def _mirrored(measured: Sequence[Measured], sigma: float) -> Message | None:
    points = [one for one in measured if one.feature.across is None]
    flipped = mirrored_fit(sights(points))
    if flipped is None or _flat([one.feature.at for one in points]):
        return None
    offs = [one.seen.minus(flipped.apply(one.feature.at)).length for one in points]
    turned = fitted(sights(points), Model.RIGID)
    rms = math.sqrt(math.fsum(off * off for off in offs) / len(offs))
    if rms > max(10.0 * sigma, 0.02 * turned.rms):
        return None
    # A reflection's x axis goes to the angle A; its mirror lies at half of that.
    mirror = (flipped.turn_deg / 2.0) % 180.0
    if abs(mirror - 90.0) < 15.0:
        return said.mirrored_across()
    if min(mirror, 180.0 - mirror) < 15.0:
        return said.mirrored_upright()
    return said.axes_exchanged()


def _flat(points: Sequence[Point]) -> bool:
    """Whether points lie near one line, where a mirror image looks like the thing."""
    far = max(combinations(points, 2), key=lambda pair: pair[0].distance(pair[1]), default=None)
    if far is None or far[0] == far[1]:
        return True
    along = far[1].minus(far[0]).unit
    return max(abs(point.minus(far[0]).cross(along)) for point in points) < 1.0


def _exchanged(measured: Sequence[Measured], model: Model | None, sigma: float) -> Message | None:
    points = [number for number, one in enumerate(measured) if one.feature.across is None]
    found: list[tuple[int, int]] = []
    for i, j in combinations(points, 2):
        swapped = list(measured)
        swapped[i] = replace(measured[i], seen=measured[j].seen)
        swapped[j] = replace(measured[j], seen=measured[i].seen)
        try:
            fit = _best(swapped, model, sigma)
        except TooFewError:
            continue
        if fit.spare > 0 and explained(fit, sigma):
            found.append((i, j))
    if not found:
        return None
    pairs = [said.pair(one=measured[i].feature.name, other=measured[j].feature.name) for i, j in found]
    return said.points_exchanged(pairs=pairs)


def _without_outliers(
    measured: Sequence[Measured], fit: Fit, model: Model | None, sigma: float
) -> tuple[Fit, tuple[Measured, ...], tuple[Outlier, ...]]:
    """Leave out, one at a time, the point that the others explain best without, until the rest are explained.

    Of three, one at the most; and each has then to lie clearly off where the rest put it. What cannot be explained so
    is the piece's own, and nothing is left out for it.
    """
    used, left_out = list(measured), list[Measured]()
    while not explained(fit, sigma):
        leaner = _leaner(used, model, sigma) if 3 * len(left_out) + 3 <= len(measured) else None
        if leaner is None:
            return _best(measured, model, sigma), tuple(measured), ()
        fit, one = leaner
        used.remove(one)
        left_out.append(one)
    outliers = tuple(Outlier(measured=one, off=fit.off(sights([one])[0])) for one in left_out)
    for outlier in outliers:
        own = math.hypot(1.0, fit.deviation_at(outlier.measured.feature.at)) * max(sigma, fit.scatter or 0.0)
        if outlier.off.length <= OUTLYING * own:
            return _best(measured, model, sigma), tuple(measured), ()
    return fit, tuple(used), outliers


def _leaner(used: Sequence[Measured], model: Model | None, sigma: float) -> tuple[Fit, Measured] | None:
    """The best fit of all but one, and the one; None where what is left would not check itself."""
    best: tuple[Fit, Measured] | None = None
    for one in used:
        rest = [other for other in used if other is not one]
        try:
            fit = _best(rest, model, sigma)
        except TooFewError:
            continue
        if fit.spare >= 1 and (best is None or criterion(fit, sigma) < criterion(best[0], sigma)):
            best = fit, one
    return best


def _aims(layout: Layout, fit: Fit, maps: Sequence[Fit], sigma: float, scatter: float) -> tuple[Aim, ...]:
    """Every legend and mark with its error at the worst corner of its box, the largest first."""
    worst = [
        (what, max(corners, key=lambda corner: max(_farthest(corner, fit, other, scatter) for other in maps)))
        for what, corners in _marked(layout)
    ]
    errors = errors_at([at for _, at in worst], fit, maps, sigma, scatter) if worst else ()
    aims = [Aim(what=what, at=at, error=error) for (what, at), error in zip(worst, errors, strict=True)]
    return tuple(sorted(aims, key=lambda aim: (-aim.error, english(aim.what))))


def _farthest(place: Point, fit: Fit, other: Fit, scatter: float) -> float:
    """How far off a place may be where another map is the true one, mm."""
    return fit.map.apply(place).distance(other.map.apply(place)) + SURE * scatter * other.deviation_at(place)


def _marked(layout: Layout) -> Iterator[tuple[Said, tuple[Point, ...]]]:
    for legend in layout.legends:
        yield said.legend_of(text=" ".join(legend.text.split()), ref=legend.ref), legend.box.corners
    for mark in layout.marks:
        yield said.mark_of(kind=mark.kind, ref=mark.ref), bounds(mark.shape).corners


def aim_points(layout: Layout) -> tuple[Point, ...]:
    """The corners of every legend and mark: where the marking has to land."""
    return tuple(corner for _, corners in _marked(layout) for corner in corners)


def _lengths(layout: Layout, used: Sequence[Measured], fit: Fit) -> tuple[Length, ...]:
    """Width and height of the outline, where features of both sides were measured, back in the panel's own frame."""
    back = fit.map.inverse()
    finished, cut = layout.panel.outline.bounds, layout.cut_outline.bounds
    across: dict[str, list[float]] = {}
    for one in used:
        place = back.apply(one.seen)
        for axis, (low, high) in (("x", ("left", "right")), ("y", ("bottom", "top"))):
            way, value = (one.feature.grows.x, place.x) if axis == "x" else (one.feature.grows.y, place.y)
            if way:
                across.setdefault(high if way > 0 else low, []).append(value)
    means = {side: math.fsum(values) / len(values) for side, values in across.items()}
    found: list[Length] = []
    for name, low, high, wide, bare in (
        ("width", "left", "right", finished.width, cut.width),
        ("height", "bottom", "top", finished.height, cut.height),
    ):
        if low in means and high in means:
            found.append(Length(name=name, measured=means[high] - means[low], finished=wide, cut=bare))
    return tuple(found)


def _refusals(done: Registration) -> Iterator[Message]:
    assert done.fit is not None
    if abs(done.fit.map.stretch[0] - 1.0) > MAX_SCALE or done.fit.map.area < 0.0:
        yield said.size_mismatch()
    for one, off in zip(done.used, done.fit.residuals, strict=True):
        if off.length > done.tolerance:
            yield said.feature_off(feature=one.feature.name, error=off.length, maximum=done.tolerance)
    if done.aims and done.aims[0].error > done.tolerance:
        aim = done.aims[0]
        yield said.marking_off(marking=aim.what, error=aim.error, maximum=done.tolerance)


def _remarks(done: Registration, layout: Layout, sigma: float) -> Iterator[Message]:
    fit = done.fit
    assert fit is not None
    for outlier in done.outliers:
        one = outlier.measured
        yield said.outlier(feature=one.feature.name, line=one.line, error=outlier.off.length)
    if fit.spare == 0:
        yield said.not_redundant()
    elif len(done.used) == 2:
        yield said.checked_by_distance_only()
    if fit.scatter is not None and not explained(fit, sigma):
        yield said.scatter(found=SIGMAS * fit.scatter, expected=SIGMAS * sigma)
    if fit.grown:
        grown = said.outline_larger if fit.growth >= 0.0 else said.outline_smaller
        yield grown(growth=abs(fit.growth))
    yield from _odd_scales(fit)
    if layout.panel.coat.build > 0.0:
        yield from _bare_sizes(done.lengths, sigma)


def _odd_scales(fit: Fit) -> Iterator[Message]:
    """Scales that are hardly the part's."""
    across, up = fit.map.stretch
    for odd_scale, scale in ((said.scale_across, across), (said.scale_upright, up)):
        if abs(scale - 1.0) > ODD_SCALE:
            yield odd_scale(deviation=1e6 * (scale - 1.0))


def _bare_sizes(lengths: Sequence[Length], sigma: float) -> Iterator[Message]:
    """Lengths of a coated panel that measure as the bare metal does, where the two can be told apart."""
    for length in lengths:
        told_apart = abs(length.finished - length.cut) > 3.0 * sigma
        if told_apart and abs(length.measured - length.cut) < abs(length.measured - length.finished):
            yield said.bare_size(
                dimension=length.says, measured=length.measured, cut=length.cut, finished=length.finished
            )
