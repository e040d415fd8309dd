"""Pictures of pixels made ready to be placed: composed on white, or turned into shares of one ink."""

from __future__ import annotations

from panelart.drawing.representation import Paint, Raster
from panelart.lettering.outline import bounds
from panelart.model.printing import Background, Photo


def raster(photo: Photo, background: Background, ink: Paint | None) -> Raster:
    """The picture in the box of its background. What is only partly covered is seen on white."""
    import numpy as np

    pixels = np.frombuffer(photo.pixels, dtype=np.uint8).reshape(-1, 4).astype(np.float64)
    cover = pixels[:, 3:] / 255.0
    seen = pixels[:, :3] * cover + 255.0 * (1.0 - cover)
    if ink is not None:
        # Shares of red, green and blue in how light a colour is: WCAG 2, here on the values as they are stored.
        seen = 255.0 - seen @ np.array([0.2126, 0.7152, 0.0722])
    data: bytes = np.round(seen).astype(np.uint8).tobytes()
    return Raster(width=photo.width, height=photo.height, pixels=data, box=bounds(background.area or ()), ink=ink)
