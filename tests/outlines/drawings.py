"""Drawings for the tests, written by ezdxf, and what this project reads of them."""

from __future__ import annotations

import io
from collections.abc import Callable

import ezdxf

from panelart.diagnostics import Problem, Where
from panelart.outlines.dxf import Source
from panelart.outlines.reading import read_outline
from panelart.outlines.sorted_out import DrawnOutline, Turned

SPEC = Where("panel.yaml", 4, 12)


def drawing(draw: Callable, *, unit: int = 4, version: str = "R2000"):
    document = ezdxf.new(version)
    document.header["$INSUNITS"] = unit
    draw(document.modelspace())
    return document


def dxf(draw: Callable, *, unit: int = 4, version: str = "R2000") -> bytes:
    text = io.StringIO()
    drawing(draw, unit=unit, version=version).write(text)
    return text.getvalue().encode("utf-8")


def read(
    data: bytes, *, layers: tuple[str, ...] = (), unit: str = "", svg: bool = False, laid: Turned | None = None
) -> tuple[DrawnOutline | None, tuple[Problem, ...]]:
    source = Source(data=data, file="front.dxf", layers=layers, unit=unit, where_layer=SPEC, where_unit=SPEC)
    return read_outline(source, laid or Turned(), svg=svg)


def outline(data: bytes, **more) -> DrawnOutline:
    found, problems = read(data, **more)
    assert problems == ()
    assert found is not None
    return found


def loop(space, points, **attributes) -> None:
    for start, end in zip(points, [*points[1:], points[0]], strict=True):
        space.add_line(start, end, dxfattribs=attributes)


ELL = [(0, 0), (180, 0), (180, 60), (80, 60), (80, 120), (0, 120)]


def ell(space) -> None:
    loop(space, ELL)
