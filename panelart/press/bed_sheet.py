"""The loads of a nest as sheets of artwork, and as a list."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from itertools import groupby

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drawing.layers import CUT_LINE, NOTES, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.drawing.sheets import Placed, Sheet
from panelart.geometry import Affine
from panelart.messages import Message, press
from panelart.messages import press_pieces as said
from panelart.model.layout import Layout
from panelart.press.bed import Load, Nest, Spot
from panelart.press.bed_marks import lettered_number, origin_mark
from panelart.press.heights import heights_told
from panelart.texts.cells import guarded_row

COLUMNS = ("load", "piece", "panel", "x_mm", "y_mm", "turn_deg", "jig", "pocket")


class AlikeLoads(Struct, frozen=True, kw_only=True):
    """Loads one after the other, numbered from 1, that hold the same: `load` is the first of them."""

    first: int
    last: int
    load: Load

    @property
    def count(self) -> int:
        """How many there are."""
        return self.last - self.first + 1

    @property
    def pieces(self) -> Message:
        """The numbers of all their pieces."""
        return _pieces(self.load.first, self.load.first + self.count * len(self.load.spots) - 1)

    def file_name(self, loads: int) -> str:
        """The name of their artwork among that of so many loads."""
        wide = len(str(loads))
        last = "" if self.count == 1 else f"-{self.last:0{wide}}"
        return f"bed-{self.first:0{wide}}{last}.pdf"


def alike_loads(nested: Nest) -> list[AlikeLoads]:
    """The loads of a nest, neighbours that hold the same as one."""
    runs = groupby(enumerate(nested.loads, 1), key=lambda pair: (pair[1].jig, pair[1].spots))
    found = (list(run) for _, run in runs)
    return [AlikeLoads(first=run[0][0], last=run[-1][0], load=run[0][1]) for run in found]


def load_sheet(
    nested: Nest,
    loads: AlikeLoads,
    drawings: Sequence[Drawing],
    gap: float,
    own: Callable[[int, int], tuple[Layer, ...]] | None = None,
) -> Sheet:
    """Loads that are alike as a page of the bed's size; drawings are named 0, 1, ... as the nest's kinds.

    Pieces of one load have their own numbers, those of several the numbers of their pockets. `own` gives what only one
    piece carries, by the number of the piece and its kind.
    """
    load = loads.load
    pockets = nested.jigs[load.jig]
    placed: list[Placed] = []
    notes: list[Item] = []
    for number, spot in load.numbered:
        kind = nested.kinds[spot.kind]
        trim = drawings[spot.kind].trim
        by = Affine(e=-trim.left, f=-trim.bottom).then(spot.map(kind))
        layers = () if own is None else own(number, spot.kind)
        placed.append(Placed(drawing=str(spot.kind), by=by, own=layers))
        told = (
            f"{number} {kind.name}" if loads.count == 1 else str(said.pocket_note(pockets.index(spot) + 1, kind.name))
        )
        notes += lettered_number(told, spot.box(kind), gap)
    notes += origin_mark(nested.bed)
    bed = (nested.bed.width, nested.bed.height)
    total = len(nested.loads)
    title = (
        press.load_title(load=loads.first, loads=total, pieces=loads.pieces)
        if loads.count == 1
        else press.loads_title(first=loads.first, last=loads.last, loads=total, pieces=loads.pieces)
    )
    return Sheet(
        title=str(title),
        note=f"{press.load_note(bed=bed, jig=load.jig + 1)} {press.load_print_note()}",
        page=nested.bed,
        placed=tuple(placed),
        layers=(Layer(name=NOTES, items=_not_printed(notes, drawings), step=Step.LEGEND, printed=False),),
    )


def _not_printed(notes: Sequence[Item], drawings: Sequence[Drawing]) -> tuple[Item, ...]:
    """Notes on the plate of the cutting lines, which no press prints: in plain colours they would be on all plates."""
    lines = [item.stroke for drawing in drawings for layer in drawing.layers if layer.name == OUTLINE
             for item in layer.items]  # fmt: skip
    paint = next((line for line in lines if line is not None and line.plate is not None), CUT_LINE)
    return tuple(replace(item, fill=item.fill and paint, stroke=item.stroke and paint) for item in notes)


def bed_csv(nested: Nest, values: Sequence[Sequence[Mapping[str, str]]] = ()) -> bytes:
    """Every piece with its load, place and pocket, and with its values where pieces vary: by kind, then in turn."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    names = list(dict.fromkeys(name for rows in values for row in rows[:1] for name in row))
    writer.writerow(guarded_row((*COLUMNS, *names)))
    turns = [iter(rows) for rows in values]
    for which, load in enumerate(nested.loads, 1):
        pockets = nested.jigs[load.jig]
        for number, spot in load.numbered:
            name = nested.kinds[spot.kind].name
            place = f"{spot.at.x:.3f}", f"{spot.at.y:.3f}", "90" if spot.turned else "0"
            own = next(turns[spot.kind], {}) if turns else {}
            line = (which, number, name, *place, load.jig + 1, pockets.index(spot) + 1)
            writer.writerow(guarded_row((*line, *(own.get(key, "") for key in names))))
    return text.getvalue().encode("utf-8")


def bed_text(nested: Nest, layouts: Sequence[Layout]) -> str:
    """The loads and how full they are, and heights; neighbouring loads that are alike share a line."""
    lines: list[Message] = []
    for loads in alike_loads(nested):
        one = loads.count == 1
        line = said.load_line if one else said.load_lines
        lines.append(
            line(
                loads=said.load(loads.first) if one else said.load_range(first=loads.first, last=loads.last),
                pieces=loads.pieces,
                kinds=_kinds(nested, loads.load.spots),
                jig=loads.load.jig + 1,
                usage=round(100 * nested.usage(loads.load), 1),
            )
        )
    total = said.bed_total(
        pieces=said.pieces(count=sum(len(load.spots) for load in nested.loads)),
        loads=said.loads(count=len(nested.loads)),
        jigs=said.jigs(count=len(nested.jigs)),
    )
    return "\n".join(map(str, (*lines, total, *heights_told(layouts))))


def _kinds(nested: Nest, spots: Sequence[Spot]) -> list[Message]:
    counts = Counter(nested.kinds[spot.kind].name for spot in spots)
    return [said.pieces_of(quantity=count, name=name) for name, count in counts.items()]


def _pieces(first: int, last: int) -> Message:
    return said.piece(number=first) if first == last else said.piece_range(first=first, last=last)


def one_colour_a_plate(drawings: Sequence[Drawing]) -> tuple[tuple[Drawing, ...], tuple[str, ...]]:
    """The drawings with every plate in the colour that it has where it first comes, and remarks on those changed.

    One ink is one ink on a bed; panels may show it in colours that differ a little.
    """
    colours: dict[str, str] = {}
    remarks: list[str] = []
    for drawing in drawings:
        for paint in _paints(drawing):
            if paint.plate is not None and colours.setdefault(paint.plate, paint.colour) != paint.colour:
                remark = str(
                    said.plate_in_another_colour(
                        plate=paint.plate, colour=paint.colour, panel=drawing.title, shown=colours[paint.plate]
                    )
                )
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
