"""`panelart legibility`: which legends a reader is likely to misread, and the panel as that reader sees it."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

from panelart.cli.declaring import command, option
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.eye_place import Apart, Aside, Distance, Height, Lean, eye_range
from panelart.cli.options import DRAWINGS, PlainFormat, Spec, TextOrJson
from panelart.cli.usage import refuse
from panelart.cli.values import file, text
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from collections.abc import Sequence

    from panelart.checks.misreading import MixUp, Seen, Slip
    from panelart.checks.shadows import Look
    from panelart.checks.survey import Survey
    from panelart.model.panel import Sight

ACUITY: Final = (0.05, 3.0)
AGE: Final = (5.0, 110.0)
ILLUMINANCE: Final = (0.001, 200_000.0)
"""What the options take, as the keys of `operator.sight` do."""


@command(help_.legibility_means(), extensions=True)
def legibility(
    spec: Spec,
    acuity: Annotated[str, option("--acuity", help_.acuity(), text("NUMBER"))] = "",
    age: Annotated[str, option("--age", help_.age(), text("YEARS"))] = "",
    illuminance: Annotated[str, option("--illuminance", help_.illuminance(), text("LUX"))] = "",
    distance: Distance = "",
    height: Height = "",
    aside: Aside = "",
    lean: Lean = "",
    apart: Apart = "",
    format_: TextOrJson = PlainFormat.TEXT,
    out: Annotated[Path | None, option("-o --out", help_.legibility_sheet(), file(*DRAWINGS))] = None,
) -> None:
    """Report legends that a reader is likely to misread."""
    from panelart.checks.misreading import mix_ups, reading_place, seen_words, slips
    from panelart.checks.survey import survey
    from panelart.model.panel import Sight
    from panelart.pipeline import lay_out, read

    if out is not None:
        require_ending(out)
    panel = read(spec)
    usual = panel.operator.sight
    sight = Sight(
        acuity=_number(acuity, "--acuity", ACUITY) if acuity else usual.acuity,
        age=_number(age, "--age", AGE) if age else usual.age,
        illuminance=_number(illuminance, "--illuminance", ILLUMINANCE) if illuminance else usual.illuminance,
    )
    eyes = eye_range(panel, height=height, aside=aside, distance=distance, lean=lean, apart=apart)
    look = reading_place(panel, eyes)
    made = survey(lay_out(panel))
    seen = seen_words(made, look, sight)
    found, mixed = slips(seen), mix_ups(seen)
    if format_ is PlainFormat.JSON:
        print(json.dumps(_document(made, look, sight, seen, found, mixed), ensure_ascii=False, indent=2))
    else:
        _print(made, look, sight, seen, found, mixed)
    if out is not None:
        from panelart.documents.seen import legibility_sheet

        write_drawing(legibility_sheet(made, look, sight, seen, found, mixed), out)
        if format_ is PlainFormat.TEXT:
            print(out)


def _number(given: str, name: str, accepted: tuple[float, float]) -> float:
    try:
        value = float(given)
    except ValueError:
        value = math.nan
    if not accepted[0] <= value <= accepted[1]:
        refuse(name, said.out_of_range(given), said.accepted_numbers(*accepted))
    return value


def _print(
    made: Survey, look: Look, sight: Sight, seen: Sequence[Seen], found: Sequence[Slip], mixed: Sequence[MixUp]
) -> None:
    from panelart.checks.misreading import usual_resolution, worst_first
    from panelart.messages import sheets_legibility as sheets
    from panelart.sheets.legibility import conditions, sentence

    for one, said_of_it in worst_first(seen, found, mixed):
        print(sentence(made, one, said_of_it))
    count = len({id(slip.words) for slip in found})
    total = len(seen)
    print(sheets.misread_count(count=count, total=total) if count else sheets.none_misread(total=total))
    print(conditions(look, sight, usual_resolution(seen, sight)))


def _document(
    made: Survey, look: Look, sight: Sight, seen: Sequence[Seen], found: Sequence[Slip], mixed: Sequence[MixUp]
) -> dict[str, Any]:
    """Everything as data: angles in minutes of arc, lengths in mm, chances 0 to 1."""
    return {
        "panel": made.panel.title,
        "reader": {
            "acuity": sight.acuity,
            "age": sight.age,
            "illuminance_lx": sight.illuminance,
            "eye_height_mm": look.height,
            "eye_aside_mm": look.aside,
            "eye_off_face_mm": round(look.eye.z, 3),
            "eyes_apart_mm": look.apart,
        },
        "legends": [
            {
                "of": one.words.owner,
                "style": one.words.kind,
                "text": one.words.text,
                "cap_height_mm": round(one.words.cap_height, 3),
                "angle_arcmin": round(one.angle, 2),
                "resolved_arcmin": round(one.resolved, 3),
                "contrast": round(one.contrast, 3),
                "readable": one.readable,
            }
            for one in seen
        ],
        "misread": [
            {
                "of": slip.words.owner,
                "style": slip.words.kind,
                "text": slip.words.text,
                "character": slip.character,
                "taken_for": slip.taken,
                "chance": round(slip.chance, 4),
            }
            for slip in found
        ],
        "confused": [
            {
                "of": [words.owner for words in (pair.one, pair.other)],
                "texts": [words.text for words in (pair.one, pair.other)],
                "chance": round(pair.chance, 4),
            }
            for pair in mixed
        ],
    }
