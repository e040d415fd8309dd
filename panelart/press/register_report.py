"""A decision on register in words and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from panelart.geometry import Point, Vector
from panelart.messages import Said
from panelart.messages import press_register as said
from panelart.press.advice import Advice
from panelart.press.fitting import Fit
from panelart.press.register import Registration

WORST = 3
"""How many of the worst places of the marking are listed."""


def register_text(done: Registration) -> str:
    """What was fitted, how well, and whether the piece can be printed."""
    return "\n".join(map(str, _lines(done)))


def _lines(done: Registration) -> Iterator[Said]:
    fit = done.fit
    if fit is not None:
        yield from _map_lines(fit, len(done.used))
        yield ""
        yield from _point_lines(done, fit)
        yield ""
        for length in done.lengths:
            told = said.length(
                dimension=length.says, measured=length.measured, finished=length.finished, cut=length.cut
            )
            yield f"  {told}"
        for aim in done.aims[:WORST]:
            yield f"  {said.marking_error(marking=aim.what, error=aim.error)}"
    for remark in done.remarks:
        yield said.note_line(remark=remark)
    for refusal in done.refusals:
        yield said.error_line(refusal=refusal)
    yield said.in_register(maximum=done.tolerance) if done.printable else said.not_in_register()


def _map_lines(fit: Fit, features: int) -> Iterator[Said]:
    fitted = said.fitted_with_growth if fit.grown else said.fitted
    yield fitted(model=fit.model.says, count=features)
    origin = fit.map.apply(Point(0.0, 0.0))
    yield f"  {said.origin(x=origin.x, y=origin.y, rotation=fit.map.turn_deg)}"
    across, up = fit.map.stretch
    if max(abs(across - 1.0), abs(up - 1.0)) <= 1e-9:
        return
    if abs(fit.map.shear_deg) > 1e-9:
        yield f"  {said.scales_and_shear(across=across, upright=up, shear=fit.map.shear_deg)}"
    else:
        yield f"  {said.scales(across=across, upright=up)}"


def _point_lines(done: Registration, fit: Fit) -> Iterator[Said]:
    """The table of points, in columns that keep their width."""
    names = [one.feature.name for one in (*done.used, *(out.measured for out in done.outliers))]
    first = str(said.heading_feature())
    widest = max(map(len, (first, *names)))
    headings = map(str, (said.heading_error_x(), said.heading_error_y(), said.heading_error()))
    yield f"  {first:<{widest}}  {'  '.join(f'{heading:>8}' for heading in headings)}"

    def row(name: str, off: Vector) -> str:
        return f"  {name:<{widest}}  {off.x:8.3f}  {off.y:8.3f}  {off.length:8.3f}"

    for one, off in zip(done.used, fit.residuals, strict=True):
        yield row(one.feature.name, off)
    for outlier in done.outliers:
        yield f"{row(outlier.measured.feature.name, outlier.off)}  {said.not_used()}"
    yield f"  {said.errors_of_points(rms=fit.rms, maximum=fit.worst)}"


def register_json(done: Registration) -> str:
    """The same for programs; lengths in mm, the map as a, b, c, d, e, f."""
    fit = done.fit
    told: dict[str, Any] = {"printable": done.printable, "tolerance_mm": done.tolerance}
    if fit is not None:
        told |= {
            "model": fit.model.value,
            "matrix": [_figure(value, 12) for value in fit.map.matrix],
            "turn_deg": _figure(fit.map.turn_deg),
            "scale": [_figure(value, 9) for value in fit.map.stretch],
            "outline_growth_mm": _figure(fit.growth) if fit.grown else None,
            "rms_mm": _figure(fit.rms),
            "largest_mm": _figure(fit.worst),
            "scatter_mm": _figure(done.scatter),
            "features": [
                {"feature": one.feature.name, "off_mm": [_figure(off.x), _figure(off.y)]}
                for one, off in zip(done.used, fit.residuals, strict=True)
            ],
        }
    told |= {
        "left_out": [
            {"feature": one.measured.feature.name, "off_mm": [_figure(one.off.x), _figure(one.off.y)]}
            for one in done.outliers
        ],
        "worst": [{"what": str(aim.what), "within_mm": _figure(aim.error)} for aim in done.aims[:WORST]],
        "lengths": [
            {"name": one.name, "measured_mm": _figure(one.measured), "finished_mm": one.finished, "cut_mm": one.cut}
            for one in done.lengths
        ],
        "remarks": list(map(str, done.remarks)),
        "refusals": list(map(str, done.refusals)),
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _figure(value: float, places: int = 6) -> float:
    return round(value, places) + 0.0


def advice_text(found: Sequence[Advice], noise: float, tolerance: float) -> str:
    """Which features to measure, and what they give."""
    if not found:
        return str(said.too_few_features())
    lines = [str(said.advice(uncertainty=noise, maximum=tolerance))]
    for advice in found:
        names = [feature.name for feature in advice.features]
        lines.append(f"  {said.advised(count=len(names), error=advice.error, features=names)}")
    return "\n".join(lines)
