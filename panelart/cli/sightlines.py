"""`panelart sightlines`: what the hardware hides from an eye that does not look straight at the panel."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from panelart.cli.declaring import command
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.eye_place import Apart, Aside, Distance, Height, Lean, eye_range
from panelart.cli.options import OutDrawing, Spec
from panelart.cli.usage import refuse
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from panelart.checks.shadows import HiddenInk, Look
    from panelart.checks.survey import Survey

_TRIED = 8
"""For the picture so many letters' own worst places of the eye are tried beside those of the grid."""


@command(help_.sightlines_means(), extensions=True)
def sightlines(
    spec: Spec,
    height: Height = "",
    aside: Aside = "",
    distance: Distance = "",
    lean: Lean = "",
    apart: Apart = "",
    out: OutDrawing = None,
) -> None:
    """Report legends hidden from the operator's eye."""
    from panelart.checks.shadows import looks
    from panelart.checks.survey import survey
    from panelart.checks.worst_eye import worst_ink
    from panelart.pipeline import lay_out, read

    if out is not None:
        require_ending(out)
    panel = read(spec)
    if panel.operator.eye is None and not height:
        refuse("--height", said.no_eye(), said.give_height())
    seen = eye_range(panel, height=height, aside=aside, distance=distance, lean=lean, apart=apart)
    made = survey(lay_out(panel))
    places = looks(panel, seen)
    hidden = worst_ink(made, seen)
    _print(made, places, hidden)
    if out is not None:
        _draw(made, places, hidden, out)
        print(out)


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
        print(said.hidden_ink(f"{100 * one.share:5.1f} %", named, one.look, one.by))
    total = len(made.legends.things)
    count = len({id(one.ink) for one in hidden})
    print(said.all_visible(total - count, total, said.eye_anywhere() if len(places) > 1 else places[0]))


def _draw(made: Survey, places: tuple[Look, ...], hidden: tuple[HiddenInk, ...], out: Path) -> None:
    from panelart.checks.shadows import worst_look
    from panelart.sheets.shadows import shadow_picture

    # From where most is hidden: a place of the grid, or the worst one of a letter that has much ink hidden.
    maximum = sorted(hidden, key=lambda one: -one.share * float(one.piece.area))[:_TRIED]
    candidates = tuple(dict.fromkeys((*places, *(one.look for one in maximum))))
    write_drawing(shadow_picture(made, hidden, worst_look(made, candidates), ranged=len(places) > 1), out)
