"""Runs of colour and pictures as objects of a file of sheets, where each is written once for all pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from panelart.drawing.representation import Ramp, Raster
from panelart.writers.figures import decimal, rgb
from panelart.writers.pdf_colours import coordinates, mixed, plates_of, shares, steps_to
from panelart.writers.pdf_objects import ObjectFile, name


def put_ramp(file: ObjectFile, ramp: Ramp, spaces: Mapping[str, int], colours: Mapping[str, str]) -> int:
    """A shading; `spaces` are the objects of the plates, `colours` what a screen shows of them."""
    plates = plates_of(ramp)
    kind, place = coordinates(ramp)
    runs = [
        f"<< /FunctionType 2 /Domain [0 1] /C0 {_listed(one)} /C1 {_listed(other)} /N 1 >>"
        for one, other in pairwise(shares(paint, plates) for _, paint in ramp.stops)
    ]
    run = runs[0]
    if len(runs) > 1:
        bounds = _listed([at for at, _ in ramp.stops[1:-1]])
        encode = _listed([0, 1] * len(runs))
        functions = " ".join(runs)
        run = f"<< /FunctionType 3 /Domain [0 1] /Functions [{functions}] /Bounds {bounds} /Encode {encode} >>"
    space = _space(file, plates, spaces, colours)
    return file.put(
        f"<< /ShadingType {kind} /ColorSpace {space} /Coords {_listed(place)} /Function {run} /Extend [true true] >>"
    )


def _space(file: ObjectFile, plates: Sequence[str], spaces: Mapping[str, int], colours: Mapping[str, str]) -> str:
    if not plates:
        return "/DeviceRGB"
    if len(plates) == 1:
        return f"{spaces[plates[0]]} 0 R"
    count = len(plates)
    entries = f"/FunctionType 4 /Domain {_listed([0, 1] * count)} /Range {_listed([0, 1] * 3)}"
    tint = file.stream(entries, mixed([rgb(colours[plate]) for plate in plates]).encode("ascii"))
    names = " ".join(name(plate) for plate in plates)
    known = " ".join(f"{name(plate)} {spaces[plate]} 0 R" for plate in plates)
    return f"[/DeviceN [{names}] /DeviceRGB {tint} 0 R << /Subtype /DeviceN /Colorants << {known} >> >>]"


def put_picture(file: ObjectFile, picture: Raster, spaces: Mapping[str, int]) -> int:
    """An image."""
    ink = picture.ink
    if ink is None:
        space = "/DeviceRGB"
    elif ink.plate is not None:
        space = f"{spaces[ink.plate]} 0 R"
    else:
        space = f"[/Indexed /DeviceRGB 255 <{steps_to(ink.colour).hex()}>]"
    entries = f"/Type /XObject /Subtype /Image /Width {picture.width} /Height {picture.height}"
    return file.stream(f"{entries} /BitsPerComponent 8 /ColorSpace {space}", picture.pixels)


def _listed(values: Sequence[float]) -> str:
    return f"[{' '.join(decimal(value, 6) for value in values)}]"
