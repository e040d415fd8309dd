"""`panelart shadows`: what the hardware hides from an eye that does not look straight at the panel."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import Spec, app

if TYPE_CHECKING:
    from panelart.checks.shadows import HiddenInk, Look
    from panelart.checks.survey import Survey
    from panelart.model.panel import EyeRange, Panel

_TRIED = 8
"""For the picture so many letters' own worst places of the eye are tried beside those of the grid."""


@app.command()
def shadows(
    spec: Spec,
    height: Annotated[
        str,
        typer.Option(
            "--height", metavar="MM or LOW..HIGH", help="The eye above the middle of the panel: seated..standing."
        ),
    ] = "",
    aside: Annotated[
        str, typer.Option("--aside", metavar="MM or LEFT..RIGHT", help="The eye right of the middle of the panel.")
    ] = "",
    distance: Annotated[
        str, typer.Option("--distance", metavar="MM", help="From the eye level to the middle of the panel.")
    ] = "",
    lean: Annotated[str, typer.Option("--lean", metavar="DEGREES", help="How far the panel leans back.")] = "",
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="FILE", help="Draw it: .svg, .pdf or .png, by the name's ending."),
    ] = None,
) -> None:
    """Tell which letters and marks the knobs, levers, bezels and plugs hide, how much, and from where.

    The eye is where the options say, else where the spec says (`operator: {eye: ...}`).
    """
    from panelart.checks.shadows import looks
    from panelart.checks.survey import survey
    from panelart.checks.worst_eye import worst_ink
    from panelart.pipeline import lay_out, read

    panel = read(spec)
    seen = _seen(panel, height=height, aside=aside, distance=distance, lean=lean)
    made = survey(lay_out(panel))
    places = looks(panel, seen)
    hidden = worst_ink(made, seen)
    _print(made, places, hidden)
    if out is not None:
        _draw(made, places, hidden, out)
        print(out)


def _seen(panel: Panel, *, height: str, aside: str, distance: str, lean: str) -> EyeRange:
    from panelart.model.panel import EyeRange

    told = panel.operator.eye
    if told is None and not height:
        raise typer.BadParameter("the spec does not say where the eye is; give --height", param_hint="--height")
    usual = told or EyeRange(
        distance=panel.marking.viewing_distance, height=(0.0, 0.0), aside=(0.0, 0.0), lean_deg=0.0, where=panel.where
    )
    seen = EyeRange(
        distance=_range(distance, "--distance")[0] if distance else usual.distance,
        height=_range(height, "--height") if height else usual.height,
        aside=_range(aside, "--aside") if aside else usual.aside,
        lean_deg=_range(lean, "--lean")[0] if lean else usual.lean_deg,
        where=usual.where,
    )
    if seen.distance <= 0 or not -90 <= seen.lean_deg <= 90 or min(map(seen.off_the_face, seen.height)) <= 0:
        raise typer.BadParameter("the eye would not be in front of the face", param_hint="--distance")
    return seen


def _range(text: str, name: str) -> tuple[float, float]:
    low, _, high = text.partition("..")
    try:
        ends = (float(low), float(high or low))
    except ValueError:
        ends = (math.nan, math.nan)
    if not (all(map(math.isfinite, ends)) and ends[0] <= ends[1]):
        raise typer.BadParameter(f"'{text}' is not a number, nor LOW..HIGH", param_hint=name)
    return ends


def _print(made: Survey, places: tuple[Look, ...], hidden: tuple[HiddenInk, ...]) -> None:
    worst: dict[tuple[str, str], HiddenInk] = {}
    inks: dict[tuple[str, str], dict[int, HiddenInk]] = {}
    for one in hidden:
        key = (one.ink.owner, one.ink.kind)
        inks.setdefault(key, {}).setdefault(id(one.ink), one)
        if key not in worst or one.share > worst[key].share:
            worst[key] = one
    for key, one in sorted(worst.items(), key=lambda item: (-item[1].share, item[0])):
        named = made.named([found.ink for found in inks[key].values()])
        print(f"{100 * one.share:5.1f} %  {named}: from {one.look}, by {' and '.join(one.by)}")
    total = len(made.legends.things)
    count = len({id(one.ink) for one in hidden})
    where = "everywhere in the range of the eye" if len(places) > 1 else str(places[0])
    print(f"{total - count} of {total} legends and marks are clear from {where}")


def _draw(made: Survey, places: tuple[Look, ...], hidden: tuple[HiddenInk, ...], out: Path) -> None:
    from panelart.checks.shadows import worst_look
    from panelart.cli.drawn import write_drawing
    from panelart.sheets.shadows import shadow_picture

    # From where most is hidden: a place of the grid, or the worst one of a letter that has much ink hidden.
    maximum = sorted(hidden, key=lambda one: -one.share * float(one.piece.area))[:_TRIED]
    candidates = tuple(dict.fromkeys((*places, *(one.look for one in maximum))))
    write_drawing(shadow_picture(made, hidden, worst_look(made, candidates), ranged=len(places) > 1), out)
