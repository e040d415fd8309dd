"""A decision on register in words and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from panelart.geometry import Point
from panelart.press.advice import Advice
from panelart.press.register import Registration

WORST = 3
"""How many of the worst places of the marking are listed."""


def register_text(done: Registration) -> str:
    """What was fitted, how well, and whether the piece can be printed."""
    return "\n".join(_lines(done))


def _lines(done: Registration) -> Iterator[str]:
    fit = done.fit
    if fit is not None:
        origin = fit.map.apply(Point(0.0, 0.0))
        yield f"{fit.model.words}{', outline grown' if fit.grown else ''}, from {len(done.used)} features"
        yield f"  lower-left corner at {origin.x:.3f}, {origin.y:.3f}; turned {fit.map.turn_deg:.4f}°"
        across, up = fit.map.stretch
        if max(abs(across - 1.0), abs(up - 1.0)) > 1e-9:
            sheared = f", shear {fit.map.shear_deg:.4f}°" if abs(fit.map.shear_deg) > 1e-9 else ""
            yield f"  scale across {across:.6f}, up {up:.6f}{sheared}"
        yield ""
        widest = max(len(one.feature.name) for one in (*done.used, *(out.measured for out in done.outliers)))
        yield f"  {'feature':<{widest}}  {'off x':>8}  {'off y':>8}  {'off':>7}"
        for one, off in zip(done.used, fit.residuals, strict=True):
            yield f"  {one.feature.name:<{widest}}  {off.x:8.3f}  {off.y:8.3f}  {off.length:7.3f}"
        for outlier in done.outliers:
            off = outlier.off
            name = outlier.measured.feature.name
            yield f"  {name:<{widest}}  {off.x:8.3f}  {off.y:8.3f}  {off.length:7.3f}  left out"
        yield f"  RMS {fit.rms:.3f} mm, largest {fit.worst:.3f}"
        yield ""
        for length in done.lengths:
            yield (
                f"  {length.name} {length.measured:.2f} mm measured, {length.finished:.2f} finished, "
                f"{length.cut:.2f} as cut"
            )
        for aim in done.aims[:WORST]:
            yield f"  {aim.what} lands within {aim.error:.3f} mm, 95 times in 100"
    for remark in done.remarks:
        yield f"note: {remark}"
    for refusal in done.refusals:
        yield f"error: {refusal}"
    if done.printable:
        yield f"in register: the worst legend is within {done.tolerance:g} mm"
    else:
        yield "NOT IN REGISTER: do not print this piece with this artwork"


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
        "worst": [{"what": aim.what, "within_mm": _figure(aim.error)} for aim in done.aims[:WORST]],
        "lengths": [
            {"name": one.name, "measured_mm": _figure(one.measured), "finished_mm": one.finished, "cut_mm": one.cut}
            for one in done.lengths
        ],
        "remarks": list(done.remarks),
        "refusals": list(done.refusals),
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _figure(value: float, places: int = 6) -> float:
    return round(value, places) + 0.0


def advice_text(found: Sequence[Advice], noise: float, tolerance: float) -> str:
    """Which features to measure, and what they give."""
    lines = [f"measured to ±{noise:g} mm, the worst legend lands within (95 times in 100; register {tolerance:g} mm):"]
    for advice in found:
        names = ", ".join(feature.name for feature in advice.features)
        lines.append(f"  {len(advice.features)} features  {advice.error:.3f} mm  {names}")
    if not found:
        lines.append("  this panel has too few corners and openings to be found by")
    return "\n".join(lines)
