from __future__ import annotations

import io
import math

import numpy as np
import pytest
from PIL import Image

from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Box, Point, circle
from panelart.lettering.outline import shape_of
from panelart.writers import png
from tests.writers.sample import sample


def disc(d: float, page: Box) -> Drawing:
    item = Item(shape=shape_of(circle(d, page.centre)), fill=Paint(colour="#000000"))
    return Drawing(title="T", note="N", page=page, trim=page, layers=(Layer(name="a", items=(item,)),))


@pytest.mark.parametrize(
    ("dpi", "size"), [(300, (3000, 1500)), (100, (1000, 500)), (72.0, (720, 360)), (12.7, (127, 64))]
)
def test_pixels_follow_the_resolution(dpi: float, size: tuple[int, int]) -> None:
    picture = Image.open(io.BytesIO(png(sample(), dpi)))
    assert picture.size == size
    # PNG states pixels a metre as a whole number.
    assert picture.info["dpi"][0] == pytest.approx(dpi, abs=0.02)


def test_paper_is_white() -> None:
    picture = Image.open(io.BytesIO(png(sample(), 50))).convert("RGBA")
    assert picture.getpixel((2, 2)) == (255, 255, 255, 255)


def test_area_of_a_disc() -> None:
    page = Box(-30, -30, 30, 30)
    grey = np.asarray(Image.open(io.BytesIO(png(disc(50.8, page), 600))).convert("L"), dtype=float)
    area = float((255 - grey).sum()) / 255 * (25.4 / 600) ** 2
    assert area == pytest.approx(math.pi * 25.4**2, rel=0.0005)


def test_up_is_up() -> None:
    page = Box(0, 0, 50.8, 50.8)
    item = Item(shape=shape_of(circle(10, Point(10, 40))), fill=Paint(colour="#FF0000"))
    drawing = Drawing(title="T", note="N", page=page, trim=page, layers=(Layer(name="a", items=(item,)),))
    picture = Image.open(io.BytesIO(png(drawing, 25.4))).convert("RGB")  # a pixel a millimetre
    assert picture.getpixel((10, 10)) == (255, 0, 0)
    assert picture.getpixel((10, 40)) == (255, 255, 255)


@pytest.mark.parametrize("dpi", [0, -1, math.nan, math.inf])
def test_refuses_a_resolution_that_is_none(dpi: float) -> None:
    with pytest.raises(ValueError, match="pixels an inch"):
        png(sample(), dpi)


def test_refuses_pictures_beyond_memory() -> None:
    with pytest.raises(ValueError, match="too many"):
        png(sample(), 4000)
