"""The loads of a nest as sheets of artwork, and as a list."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from panelart.drawing.layers import NOTES
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine
from panelart.press.bed import Load, Nest
from panelart.press.bed_marks import lettered_number, origin_mark

COLUMNS = ("load", "piece", "panel", "x_mm", "y_mm", "turn_deg", "jig", "pocket")


def load_sheet(
    nested: Nest,
    load: Load,
    drawings: Sequence[Drawing],
    gap: float,
    own: Callable[[int, int], tuple[Layer, ...]] | None = None,
) -> Sheet:
    """One load as a page of the bed's size; drawings are named 0, 1, ... as the nest's kinds.

    `own` gives what only one piece carries, by the number of the piece and its kind.
    """
    placed: list[Placed] = []
    notes: list[Item] = []
    for number, spot in load.numbered:
        kind = nested.kinds[spot.kind]
        trim = drawings[spot.kind].trim
        by = Affine(e=-trim.left, f=-trim.bottom).then(spot.map(kind))
        layers = () if own is None else own(number, spot.kind)
        placed.append(Placed(drawing=str(spot.kind), by=by, own=layers))
        notes += lettered_number(f"{number} {kind.name}", spot.box(kind), gap)
    notes += origin_mark(nested.bed)
    which = nested.loads.index(load) + 1
    last = load.first + len(load.spots) - 1
    return Sheet(
        title=f"Bed load {which} of {len(nested.loads)}, pieces {load.first} to {last}",
        note=(
            f"{nested.bed.width:g} x {nested.bed.height:g} mm, 1:1, zero at the lower left, seen from the front. "
            f"Jig {load.jig + 1}. Notes, outlines and openings are not printed."
        ),
        page=nested.bed,
        placed=tuple(placed),
        layers=(Layer(name=NOTES, items=tuple(notes), step=Step.LEGEND),),
    )


def bed_csv(nested: Nest, values: Sequence[Sequence[Mapping[str, str]]] = ()) -> bytes:
    """Every piece with its load, place and pocket, and with its values where pieces vary: by kind, then in turn."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    names = list(dict.fromkeys(name for rows in values for row in rows[:1] for name in row))
    writer.writerow((*COLUMNS, *names))
    turns = [iter(rows) for rows in values]
    for which, load in enumerate(nested.loads, 1):
        pockets = nested.jigs[load.jig]
        for number, spot in load.numbered:
            name = nested.kinds[spot.kind].name
            place = f"{spot.at.x:.3f}", f"{spot.at.y:.3f}", "90" if spot.turned else "0"
            own = next(turns[spot.kind], {}) if turns else {}
            line = (which, number, name, *place, load.jig + 1, pockets.index(spot) + 1)
            writer.writerow((*line, *(own.get(key, "") for key in names)))
    return text.getvalue().encode("utf-8")


def bed_text(nested: Nest) -> str:
    """The loads and how full they are; neighbouring loads that are alike share a line."""
    lines: list[str] = []
    runs = groupby(enumerate(nested.loads, 1), key=lambda pair: (pair[1].jig, pair[1].spots))
    for (jig, spots), run in runs:
        alike = list(run)
        (which, load), (last, end) = alike[0], alike[-1]
        loads = f"load {which}" if which == last else f"loads {which} to {last}"
        pieces = _range("piece", load.first, end.first + len(spots) - 1)
        counts = Counter(nested.kinds[spot.kind].name for spot in spots)
        told = ", ".join(f"{count} x {name}" for name, count in counts.items())
        each = "" if which == last else " each"
        lines.append(f"{loads}: {pieces}, {told}{each}; jig {jig + 1}, {100 * nested.usage(load):.1f} % of the bed")
    total = sum(len(load.spots) for load in nested.loads)
    counted = [_count(total, "piece"), "in", _count(len(nested.loads), "load") + ",", _count(len(nested.jigs), "jig")]
    return "\n".join([*lines, " ".join(counted)])


def _range(what: str, first: int, last: int) -> str:
    return f"{what} {first}" if first == last else f"{what}s {first} to {last}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def one_colour_a_plate(drawings: Sequence[Drawing]) -> tuple[tuple[Drawing, ...], tuple[str, ...]]:
    """The drawings with every plate in the colour that it has where it first comes, and remarks on those changed.

    One ink is one ink on a bed; panels may show it in colours that differ a little.
    """
    colours: dict[str, str] = {}
    remarks: list[str] = []
    for drawing in drawings:
        for paint in _paints(drawing):
            if paint.plate is not None and colours.setdefault(paint.plate, paint.colour) != paint.colour:
                remark = f"{paint.plate} is {paint.colour} on {drawing.title}; shown as {colours[paint.plate]}"
                if remark not in remarks:
                    remarks.append(remark)
    if not remarks:
        return tuple(drawings), ()
    return tuple(_repainted(drawing, colours) for drawing in drawings), tuple(remarks)


def _paints(drawing: Drawing) -> list[Paint]:
    return [paint for layer in drawing.layers for item in layer.items for paint in _of(item) if paint is not None]


def _of(item: Item) -> list[Paint | None]:
    ramped = [] if item.ramp is None else [paint for _, paint in item.ramp.stops]
    return [item.fill, item.stroke, None if item.picture is None else item.picture.ink, *ramped]


def _repainted(drawing: Drawing, colours: Mapping[str, str]) -> Drawing:
    def paint(one: Paint | None) -> Paint | None:
        if one is None or one.plate is None:
            return one
        return replace(one, colour=colours[one.plate])

    def new(item: Item) -> Item:
        ramp, picture = item.ramp, item.picture
        if ramp is not None:
            ramp = replace(ramp, stops=tuple((at, paint(one) or one) for at, one in ramp.stops))
        if picture is not None:
            picture = replace(picture, ink=paint(picture.ink))
        return replace(item, fill=paint(item.fill), stroke=paint(item.stroke), ramp=ramp, picture=picture)

    layers = tuple(
        replace(
            layer,
            items=tuple(new(item) for item in layer.items),
        )
        for layer in drawing.layers
    )
    return replace(drawing, layers=layers)
