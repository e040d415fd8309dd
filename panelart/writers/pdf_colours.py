"""Colours of a PDF that reportlab cannot write: Separations with screen colours of their own, runs of inks, pictures.

On screen an ink runs from white paper to its colour in a straight line of red, green and blue; several inks of one run
add what each takes from the white. In a file made for a printing condition these are sRGB by a profile, since device
colours would there mean the condition's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from panelart.canonical import Struct
from panelart.drawing.representation import Paint, Ramp, Raster
from panelart.geometry import Box
from panelart.writers.figures import rgb
from panelart.writers.srgb import srgb_profile

if TYPE_CHECKING:
    import pikepdf


class Colours(Struct, frozen=True, kw_only=True):
    """The colour spaces of a file: what screens show (device or sRGB), and one Separation a plate, by its name."""

    screen: pikepdf.Object
    spaces: Mapping[str, pikepdf.Object]
    shown: Mapping[str, str]

    @staticmethod
    def of(file: pikepdf.Pdf, plates: Mapping[str, str], *, managed: bool) -> Colours:
        """The spaces for plates and their colours on screen; `managed` gives these a profile."""
        import pikepdf

        screen: pikepdf.Object = pikepdf.Name.DeviceRGB
        if managed:
            profile = file.make_stream(srgb_profile())
            profile.N = 3
            profile.Alternate = pikepdf.Name.DeviceRGB
            screen = file.make_indirect(pikepdf.Array([pikepdf.Name.ICCBased, profile]))
        spaces = {name: _separation(file, name, colour, screen) for name, colour in plates.items()}
        return Colours(screen=screen, spaces=spaces, shown=plates)


def _separation(file: pikepdf.Pdf, name: str, colour: str, screen: Any) -> pikepdf.Object:
    import pikepdf

    tint = pikepdf.Dictionary(
        FunctionType=2,
        Domain=[0, 1],
        C0=[1, 1, 1],
        C1=[round(share, 6) for share in rgb(colour)],
        N=1,
    )
    space = pikepdf.Array([pikepdf.Name.Separation, pikepdf.Name(f"/{name}"), screen, tint])
    return file.make_indirect(space)


def shading(file: pikepdf.Pdf, ramp: Ramp, colours: Colours) -> pikepdf.Object:
    """A run of colour: axial or radial, over one plate or several, which it paints at once."""
    import pikepdf

    plates = plates_of(ramp)
    kind, coords = coordinates(ramp)
    made = pikepdf.Dictionary(
        ShadingType=kind,
        ColorSpace=_space(file, plates, colours),
        Coords=coords,
        Function=_run(ramp, plates),
        Extend=[True, True],
    )
    return file.make_indirect(made)


def _space(file: pikepdf.Pdf, plates: list[str], colours: Colours) -> Any:
    if not plates:
        return colours.screen
    if len(plates) == 1:
        return colours.spaces[plates[0]]
    import pikepdf

    names = pikepdf.Array([pikepdf.Name(f"/{name}") for name in plates])
    inks = [rgb(colours.shown[name]) for name in plates]
    tint = file.make_stream(mixed(inks).encode("ascii"))
    tint.FunctionType = 4
    tint.Domain = pikepdf.Array([0, 1] * len(plates))
    tint.Range = pikepdf.Array([0, 1] * 3)
    known = pikepdf.Dictionary({f"/{name}": colours.spaces[name] for name in plates})
    about = pikepdf.Dictionary(Subtype=pikepdf.Name.DeviceN, Colorants=known)
    return file.make_indirect(pikepdf.Array([pikepdf.Name.DeviceN, names, colours.screen, tint, about]))


def mixed(inks: list[tuple[float, float, float]]) -> str:
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


def plates_of(ramp: Ramp) -> list[str]:
    """The plates that a run of colour is printed with, in its order."""
    return list(dict.fromkeys(paint.plate for _, paint in ramp.stops if paint.plate is not None))


def coordinates(ramp: Ramp) -> tuple[int, list[float]]:
    """The type of its shading, 2 straight or 3 round, and where it runs."""
    start, end = ramp.start, ramp.end
    if ramp.round:
        return 3, [round(value, 6) for value in (start.x, start.y, 0.0, start.x, start.y, start.distance(end))]
    return 2, [round(value, 6) for value in (start.x, start.y, end.x, end.y)]


def shares(paint: Paint, plates: list[str]) -> list[float]:
    """How much of each plate a stop has; without plates its red, green and blue."""
    if not plates:
        return [round(share, 6) for share in rgb(paint.shown)]
    return [round(paint.tint, 6) if paint.plate == plate else 0.0 for plate in plates]


def _run(ramp: Ramp, plates: list[str]) -> Any:
    """Shares of the inks, or the plain colour, along the run."""
    import pikepdf

    pieces = [
        pikepdf.Dictionary(FunctionType=2, Domain=[0, 1], C0=shares(one, plates), C1=shares(other, plates), N=1)
        for (_, one), (_, other) in pairwise(ramp.stops)
    ]
    if len(pieces) == 1:
        return pieces[0]
    return pikepdf.Dictionary(
        FunctionType=3,
        Domain=[0, 1],
        Functions=pikepdf.Array(pieces),
        Bounds=[round(at, 6) for at, _ in ramp.stops[1:-1]],
        Encode=[0, 1] * len(pieces),
    )


def image(file: pikepdf.Pdf, picture: Raster, colours: Colours) -> pikepdf.Object:
    """A picture: in one ink as shares of it, else in the colours of the screen."""
    import pikepdf

    made = file.make_stream(picture.pixels)
    made.Type, made.Subtype = pikepdf.Name.XObject, pikepdf.Name.Image
    made.Width, made.Height, made.BitsPerComponent = picture.width, picture.height, 8
    ink = picture.ink
    if ink is None:
        made.ColorSpace = colours.screen
    elif ink.plate is not None:
        made.ColorSpace = colours.spaces[ink.plate]
    else:
        made.ColorSpace = file.make_indirect(
            pikepdf.Array(
                [
                    pikepdf.Name.Indexed,
                    colours.screen,
                    255,
                    pikepdf.String(steps_to(ink.colour)),
                ]
            )
        )
    return file.make_indirect(made)


def steps_to(colour: str) -> bytes:
    """256 steps from white to a colour."""
    parts = rgb(colour)
    return bytes(round(255 - share / 255 * (255 - 255 * part)) for share in range(256) for part in parts)


def box_matrix(box: Box) -> str:
    """The six figures that put the unit square of an image into a box."""
    return " ".join(f"{value:.9g}" for value in (box.width, 0, 0, box.height, box.left, box.bottom))
