"""A picture of a flat thing as an eye sees it: in perspective, and blurred as eyes blur, in light and not in colours.

Pictures are rows of bytes from the top, three of red, green and blue a pixel. The view is the plane through the middle
of the thing that faces the eye: what is in it is 1:1 at the middle, and nearly one angle a millimetre all over.
"""

from __future__ import annotations

import math
from typing import Any, Final

import numpy as np

from panelart.canonical import Struct
from panelart.checks.shadows import Eye
from panelart.geometry import Box, Point

Pixels = np.ndarray[tuple[int, int, int], np.dtype[np.uint8]]
Light = np.ndarray[Any, np.dtype[np.floating[Any]]]

_REACH: Final = 4.0
"""Standard deviations after which a blur is cut off: what is beyond is 0.01 percent."""

_STEPS: Final = 65535

_LINEAR_BELOW: Final = 0.04045
_LINEAR_LIGHT_BELOW: Final = 0.0031308


class View(Struct, frozen=True, kw_only=True):
    """The map from the face, mm, to what faces the eye, mm from the middle, right and up: homogeneous, 3 by 3 rows."""

    rows: tuple[tuple[float, float, float], ...]
    distance: float

    def seen(self, at: Point) -> Point:
        """Where a place of the face is seen."""
        x, y, w = np.array(self.rows) @ np.array([at.x, at.y, 1.0])
        return Point(float(x / w), float(y / w))

    def box(self, of: Box) -> Box:
        """The box round a box of the face as it is seen."""
        corners = ((of.left, of.bottom), (of.right, of.bottom), (of.right, of.top), (of.left, of.top))
        return Box.around(self.seen(Point(*corner)) for corner in corners)


def view_of(eye: Eye, middle: Point) -> View:
    """What faces an eye that looks at a place of the face, its eyes level along the face.

    A point of the face is (x, y, 0), its place in the view the crossing of the sight line with the plane through the
    middle.
    """
    from_eye = np.array([middle.x - eye.x, middle.y - eye.y, -eye.z])
    distance = math.sqrt(float(from_eye @ from_eye))
    ahead = from_eye / distance
    right = np.array([1.0, 0.0, 0.0]) - ahead[0] * ahead
    right /= math.sqrt(float(right @ right))
    up = np.cross(right, ahead)
    origin = np.array([eye.x, eye.y, eye.z])
    # distance * (P - E) . axis / (P - E) . ahead, with P = (x, y, 0)
    rows = tuple(
        (float(by * axis[0]), float(by * axis[1]), float(-by * (origin @ axis)))
        for axis, by in ((right, distance), (up, distance), (ahead, 1.0))
    )
    return View(rows=rows, distance=distance)


def seen_through(view: View, pixels: Pixels, page: Box, seen: Box, per_mm: float, paper: int = 255) -> Pixels:
    """A picture of a box of the face as it is seen, within a box of the view, with so many pixels a millimetre."""
    from PIL import Image

    high, wide = pixels.shape[:2]
    size = (max(round(seen.width * per_mm), 1), max(round(seen.height * per_mm), 1))
    to_seen = np.array([[1.0 / per_mm, 0.0, seen.left], [0.0, -1.0 / per_mm, seen.top], [0.0, 0.0, 1.0]])
    to_pixel = np.array(
        [
            [wide / page.width, 0.0, -page.left * wide / page.width],
            [0.0, -high / page.height, page.top * high / page.height],
            [0.0, 0.0, 1.0],
        ]
    )
    back = to_pixel @ np.linalg.inv(np.array(view.rows)) @ to_seen
    back /= back[2, 2]
    image = Image.fromarray(pixels).transform(
        size,
        Image.Transform.PERSPECTIVE,
        tuple(back.ravel()[:8].tolist()),
        resample=Image.Resampling.BICUBIC,
        fillcolor=(paper, paper, paper),
    )
    found: Pixels = np.asarray(image, dtype=np.uint8)
    return found


def blurred(pixels: Pixels, deviation: float) -> Pixels:
    """A picture blurred by a Gaussian of so many pixels, in light: sRGB is made linear and back (IEC 61966-2-1)."""
    stored = np.arange(256) / 255.0
    light = np.where(stored <= _LINEAR_BELOW, stored / 12.92, ((stored + 0.055) / 1.055) ** 2.4).astype(np.float32)
    soft = np.clip(gaussian(light[pixels], deviation), 0.0, 1.0)
    # The way back by a table: a step of it is less than a sixth of the darkest step of the picture.
    steps = np.arange(_STEPS + 1) / _STEPS
    back = np.where(steps <= _LINEAR_LIGHT_BELOW, steps * 12.92, 1.055 * np.power(steps, 1.0 / 2.4) - 0.055)
    table = np.round(255.0 * back).astype(np.uint8)
    found: Pixels = table[(soft * _STEPS + 0.5).astype(np.uint16)]
    return found


def gaussian(light: Light, deviation: float) -> Light:
    """Rows and columns, with any further axis, blurred by a Gaussian; the edges go on beyond the picture."""
    reach = max(math.ceil(_REACH * deviation), 1)
    taps = np.exp(-0.5 * (np.arange(-reach, reach + 1) / deviation) ** 2)
    taps = (taps / taps.sum()).astype(light.dtype)
    for axis in (0, 1):
        room = [(reach, reach) if each == axis else (0, 0) for each in range(light.ndim)]
        padded = np.pad(light, room, mode="edge")
        length = light.shape[axis]
        total = np.zeros_like(light)
        for number, tap in enumerate(taps):
            near = slice(number, number + length)
            total += tap * (padded[near] if axis == 0 else padded[:, near])
        light = total
    return light
