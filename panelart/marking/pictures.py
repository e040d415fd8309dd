"""Where a placed picture covers the face: its pixels that cover by half or more, as one area."""

from __future__ import annotations

import shapely

from panelart.geometry import Box
from panelart.marking.areas import united
from panelart.model.printing import Photo


def cover(photo: Photo, box: Box) -> shapely.Geometry:
    """The area of a picture in a box: all of the box, unless some of its pixels cover by less than half."""
    import numpy as np

    alpha = np.frombuffer(photo.pixels, dtype=np.uint8).reshape(photo.height, photo.width, 4)[:, :, 3]
    solid = alpha >= 128
    if solid.all():
        return shapely.box(box.left, box.bottom, box.right, box.top)
    wide, high = box.width / photo.width, box.height / photo.height
    # Each row as runs of pixels that cover: where a run begins and where it ends.
    edges = np.diff(np.pad(solid.astype(np.int8), ((0, 0), (1, 1))), axis=1)
    rows, starts = np.nonzero(edges == 1)
    _, stops = np.nonzero(edges == -1)
    tops = box.top - rows * high
    return united(shapely.box(box.left + starts * wide, tops - high, box.left + stops * wide, tops))
