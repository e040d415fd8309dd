"""Kinds of arguments of measuring and marking: places in micrometres, scales, lengths of tool paths, areas of ink."""

from __future__ import annotations

from typing import Annotated, Final, TypeAlias

from panelart.messages import figures
from panelart.messages.shown import Shown

FineMm: TypeAlias = Annotated[float, Shown(lambda value: f"{value + 0.0:.3f} mm", (0.0, -0.0004, 1 / 3, 4999.9994))]
"""A length in mm to the micrometre: '0.043 mm'."""

FineDegrees: TypeAlias = Annotated[float, Shown(lambda value: f"{value + 0.0:.4f}°", (0.0, 359.99999, -0.00004))]
"""An angle in degrees to four decimals: '0.0412°'."""

Factor: TypeAlias = Annotated[float, Shown(lambda value: f"{value:.6f}", (1.0, 0.9999997, 1 / 3))]
"""A scale to one part in a million: '1.000312'."""

Ppm: TypeAlias = Annotated[float, Shown(lambda value: f"{value:+.0f} ppm", (0.0, 312.4, -9999.6))]
"""A deviation in parts per million, with its sign: '+312 ppm'."""

RoughPercent: TypeAlias = Annotated[float, Shown(lambda value: f"{float(f'{value:.2g}'):g} %", (0.0, 0.0123, 99.9))]
"""A share in percent to two figures: '0.012 %', '3.4 %'."""

Metres: TypeAlias = Annotated[float, Shown(lambda value: figures.measured(value, "m"), (0.0, 0.0004, 123.456))]
"""A length in metres: '1.23 m'."""

SquareCm: TypeAlias = Annotated[float, Shown(lambda value: figures.measured(value, "cm²"), (0.0, 0.0004, 1234.567))]
"""An area in cm²: '3.20 cm²'."""

SquareMm: TypeAlias = Annotated[float, Shown(lambda value: figures.measured(value, "mm²"), (0.0, 0.0004, 1234.567))]
"""An area in mm²: '3.20 mm²'."""

PLACE: Final = Shown(lambda where: getattr(where, "short", str(where)), ("a-file.yaml:1:1",), "front.yaml:14:5")
Place: TypeAlias = Annotated[object, PLACE]
"""A place in a file, by the file's bare name: 'front.yaml:14:5'."""
