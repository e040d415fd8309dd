"""Colours of a PDF: Separations with screen colours of their own, runs of inks, pictures.

On screen an ink runs from white paper to its colour in a straight line of red, green and blue; several inks of one run
add what each takes from the white. In a file made for a printing condition these are sRGB by a profile, since device
colours would there mean the condition's own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.drawing.representation import Paint, Ramp, Raster
from panelart.writers.figures import rgb
from panelart.writers.pdf_objects import Entries, Name, ObjectFile, Ref, Value
from panelart.writers.srgb import srgb_profile


class Colours(Struct, frozen=True, kw_only=True):
    """The colour spaces of a file: what screens show (device or sRGB), and one Separation a plate, by its name."""

    screen: Value
    spaces: Mapping[str, Ref]
    shown: Mapping[str, str]

    @staticmethod
    def put(file: ObjectFile, plates: Mapping[str, str], *, managed: bool) -> Colours:
        """Write the spaces for plates and their colours on screen; `managed` gives these a profile."""
        screen: Value = Name("DeviceRGB")
        if managed:
            profile = file.stream(srgb_profile(), {"N": 3, "Alternate": Name("DeviceRGB")})
            screen = file.put([Name("ICCBased"), profile])
        spaces = {name: file.put(_separation(name, colour, screen)) for name, colour in plates.items()}
        return Colours(screen=screen, spaces=spaces, shown=plates)

    def shading(self, file: ObjectFile, ramp: Ramp) -> Ref:
        """Write a run of colour: axial or radial, over one plate or several, which it paints at once."""
        plates = list(dict.fromkeys(paint.plate for _, paint in ramp.stops if paint.plate is not None))
        start, end = ramp.start, ramp.end
        coords: Sequence[float] = (start.x, start.y, end.x, end.y)
        if ramp.round:
            coords = (start.x, start.y, 0.0, start.x, start.y, start.distance(end))
        return file.put(
            {
                "ShadingType": 3 if ramp.round else 2,
                "ColorSpace": self._space(file, plates),
                "Coords": coords,
                "Function": _run(ramp, plates),
                "Extend": [True, True],
            }
        )

    def _space(self, file: ObjectFile, plates: Sequence[str]) -> Value:
        if not plates:
            return self.screen
        if len(plates) == 1:
            return self.spaces[plates[0]]
        ranges = {"Domain": [0, 1] * len(plates), "Range": [0, 1] * 3}
        inks = [rgb(self.shown[name]) for name in plates]
        tint = file.stream(_mixed(inks).encode("ascii"), {"FunctionType": 4, **ranges})
        about: Entries = {"Subtype": Name("DeviceN"), "Colorants": {name: self.spaces[name] for name in plates}}
        return file.put([Name("DeviceN"), [Name(name) for name in plates], self.screen, tint, about])

    def picture(self, file: ObjectFile, picture: Raster) -> Ref:
        """Write a picture: in one ink as shares of it, else in the colours of the screen."""
        ink = picture.ink
        if ink is None:
            space = self.screen
        elif ink.plate is not None:
            space = self.spaces[ink.plate]
        else:
            space = file.put([Name("Indexed"), self.screen, 255, _steps_to(ink.colour)])
        size = {"Width": picture.width, "Height": picture.height, "BitsPerComponent": 8}
        kind = {"Type": Name("XObject"), "Subtype": Name("Image")}
        return file.stream(picture.pixels, {**kind, **size, "ColorSpace": space})


def _separation(plate: str, colour: str, screen: Value) -> Value:
    tint: Entries = {"FunctionType": 2, "Domain": [0, 1], "C0": [1, 1, 1], "C1": rgb(colour), "N": 1}
    return [Name("Separation"), Name(plate), screen, tint]


def _mixed(inks: Sequence[tuple[float, float, float]]) -> str:
    """A PostScript function of the shares of the inks: white, less what each takes from red, green and blue."""
    count = len(inks)
    steps: list[str] = []
    for part in range(3):
        steps.append("1")
        for index, ink in enumerate(inks):
            # The shares lie under the parts that are done and the sum so far.
            steps.append(f"{part + count - index} index {1 - ink[part]:.6f} mul sub")
    steps.append(f"{3 + count} 3 roll " + "pop " * count)
    return "{ " + " ".join(steps) + "}"


def _shares(paint: Paint, plates: Sequence[str]) -> Sequence[float]:
    """How much of each plate a stop has; without plates its red, green and blue."""
    if not plates:
        return rgb(paint.shown)
    return [paint.tint if paint.plate == plate else 0.0 for plate in plates]


def _run(ramp: Ramp, plates: Sequence[str]) -> Value:
    """Shares of the inks, or the plain colour, along the run."""
    stops = [_shares(paint, plates) for _, paint in ramp.stops]
    pieces: list[Value] = [
        {"FunctionType": 2, "Domain": [0, 1], "C0": one, "C1": other, "N": 1} for one, other in pairwise(stops)
    ]
    if len(pieces) == 1:
        return pieces[0]
    bounds = [at for at, _ in ramp.stops[1:-1]]
    whole: Entries = {"FunctionType": 3, "Domain": [0, 1], "Bounds": bounds, "Encode": [0, 1] * len(pieces)}
    return {**whole, "Functions": pieces}


def _steps_to(colour: str) -> bytes:
    """256 steps from white to a colour."""
    parts = rgb(colour)
    return bytes(round(255 - share / 255 * (255 - 255 * part)) for share in range(256) for part in parts)
