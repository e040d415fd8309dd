"""The catalogue for people and for programs: lists, and all that is known of one part, knob or symbol.

In JSON, numbers carry their unit in the key (`value_mm`, `value_deg`, `height_mm`); a fact of another unit has `value`
and `unit`. Places are from the part's centre, x right, y up, seen from the front. `version` rises when a key changes
its meaning or goes away; keys may be added without that.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Final

from panelart.catalogue import KnobEntry, caution, to_measure
from panelart.catalogue.absent import Absent
from panelart.catalogue.chapters import chapter_of, chapters, variants
from panelart.catalogue.cited import Cited
from panelart.catalogue.colours import sold_in
from panelart.catalogue.facts import Line, cable_said, facts_of
from panelart.catalogue.symbols import SymbolEntry
from panelart.cutouts.describe import ONE_FLAT, TWO_FLATS, Size, size_of
from panelart.figure import Figure, Known
from panelart.geometry import Contour
from panelart.lettering.cuts import BOLD, LIGHT, MEDIUM
from panelart.lettering.setting import set_words
from panelart.messages import Message, Said, english
from panelart.messages import reports_catalogue as said
from panelart.model.circuit import Circuit
from panelart.model.component import Component, Envelope, Opening
from panelart.model.fasteners import Board, Fastener
from panelart.model.look import Look
from panelart.model.motion import Motion, MotionKind
from panelart.processes.process import Process
from panelart.reports.layout import columns, folded

VERSION: Final = 1

_KEYS: Final = 10
"""Columns for the name of a fact."""

_STANDINGS: Final = {
    Known.PROVED: said.proved,
    Known.LOOKED_UP: said.read_in_source,
    Known.TYPICAL: said.typical,
    Known.MEMORY: said.from_memory,
    Known.GIVEN: said.given,
}
_ROUND: Final = {
    ONE_FLAT: said.size_with_flat,
    TWO_FLATS: said.size_with_flats,
    "key": said.size_with_key,
    "profile": said.size_cut_off,
}
"""Rounds that are not full, by their form."""

_OBLONG: Final = {"slot": said.size_slot, "trapezoid": said.size_trapezoid, "profile": said.size_profile}
"""Openings without a round, by their form."""


# --- lists


def parts_list(parts: Sequence[Component] | None = None) -> str:
    """Names and titles: the whole catalogue by chapter, or some parts in their order."""
    if parts is not None:
        return "\n".join(columns([(part.name, part.title) for part in parts]))
    lines: list[str] = []
    for chapter in chapters():
        members = [part for family in chapter.families for part in family.parts]
        lines += [str(said.heading(chapter.title, len(members))), ""]
        lines += [*columns([(one.name, one.title) for one in members]), ""]
    return "\n".join(lines).rstrip("\n")


def knobs_list(knobs: Sequence[KnobEntry]) -> str:
    """Names and titles of knobs."""
    return "\n".join(columns([(knob.name, knob.title) for knob in knobs]))


def knobs_section(knobs: Sequence[KnobEntry]) -> str:
    """The knobs under their heading."""
    return f"{said.heading(said.knobs(), len(knobs))}\n\n{knobs_list(knobs)}"


def symbols_section(symbols: Sequence[SymbolEntry]) -> str:
    """Names, titles and numbers of symbols, under their heading."""
    rows = columns([(symbol.name, symbol.title, _number(symbol)) for symbol in symbols])
    return "\n".join([str(said.heading(said.symbols(), len(symbols))), "", *rows])


def absent_list(absent: Iterable[Absent], width: int = 100) -> str:
    """What is left out on purpose: title, why, and what to take instead."""
    return "\n".join(
        line
        for one in absent
        for line in (str(one.title), *_folded(said.absent_instead(one.why, one.instead), width, "  "))
    )


def colours_section(part: Component, asked: Sequence[str]) -> str:
    """That a part is not sold in the colours asked for, and in which it is."""
    return f"{said.not_sold_in(part.name, asked, sold_in(part))}."


def near_section(near: Sequence[Component | KnobEntry]) -> str:
    """Entries of another size than the one stated, under their heading."""
    return "\n".join([str(said.near()), "", *columns([(one.name, one.title) for one in near])])


def absent_section(absent: Iterable[Absent], width: int = 100) -> str:
    """What is left out, under its heading."""
    return f"{said.absent()}\n\n{absent_list(absent, width)}"


def _number(symbol: SymbolEntry) -> Said:
    remembered = symbol.known is Known.MEMORY and symbol.number
    return said.number_from_memory(symbol.number) if remembered else symbol.number


# --- one of them


def part_page(part: Component, width: int = 100) -> str:
    """All that is known of a part, for people; lines are kept to a width."""
    lines = [str(part.title), "", *_about(part, width), ""]
    sources = Cited()
    lines += _holes(part.openings, sources)
    lines += _room(part.front, said.envelope_in_front, sources)
    lines += _room(part.rear, said.envelope_behind, sources)
    lines += _facts(part, sources, width)
    if part.board is not None:
        lines += _folded(said.on_a_board(_board_line(part.board)), width)
        lines += [*_figures(part.board.figures, sources), ""]
    measured = to_measure(part)
    if measured:
        names = tuple(dict.fromkeys(_spoken(one.name) for one in measured))
        lines += [*_folded(said.measure(names), width), ""]
    if part.note:
        lines += [*_folded(part.note, width), ""]
    if part.cautions:
        lines.append(str(said.cautions()))
        lines += [line for key in part.cautions for line in (*_folded(caution(key), width, "  "), "")]
    lines += [str(said.sources()), *_cited(sources, width)]
    return "\n".join(lines).rstrip("\n")


def _holes(openings: Sequence[Opening], sources: Cited) -> Iterator[str]:
    """The holes with their figures; those alike but for their places are told once."""
    for number, opening in enumerate(openings, start=1):
        if number > 1 and _told(opening) == _told(openings[number - 2]):
            continue
        yield str(_opening_line(number, _alike(openings[number - 1 :]), opening))
        yield from (*_figures(opening.figures, sources), "")


def _room(
    envelopes: Iterable[Envelope], side: Callable[[str, Message, float], Message], sources: Cited
) -> Iterator[str]:
    """The room that a part takes on one side of the sheet, with its figures."""
    for envelope in envelopes:
        line = side(envelope.what, _size(envelope.contour), envelope.height)
        cable = cable_said(envelope)
        yield str(line if cable is None else said.with_cable(line, cable))
        yield from (*_figures(envelope.figures, sources), "")


def _about(part: Component, width: int) -> list[str]:
    shaft = part.shaft
    facts: tuple[tuple[Message, Said], ...] = (
        (said.name(), part.name),
        (said.standard(), part.standard),
        (said.sheet(), "" if part.thickness is None else said.thickness(*part.thickness)),
        (said.shaft(), "" if shaft is None else said.shaft_size(shaft.diameter, shaft.length)),
        (said.positions(), ", ".join(part.positions)),
        (said.variants(), ", ".join(variants(part))),
        (said.words(), ", ".join(part.words)),
    )
    return [line for key, text in facts if text for line in _fact(key, text, width)]


def _facts(part: Component, sources: Cited, width: int) -> Iterator[str]:
    """What is known besides the shape; facts without figures follow each other closely."""
    apart = True
    for fact in facts_of(part):
        if fact.lines and not apart:
            yield ""
        yield from _folded(fact.heading, width)
        yield from _told_lines(fact.lines, sources)
        apart = bool(fact.lines)
        if apart:
            yield ""
    if not apart:
        yield ""


def _board_line(board: Board) -> Message:
    """Where the footprint lies, in one line."""
    x, y = (round(figure.value, 3) for figure in board.offset)
    if board.on_edge:
        return said.board_edge(x, y)
    offset = said.board_offset(x, y)
    return offset if board.height is None else said.board_spaced(offset, board.height.value)


def _fact(key: Message, text: Said, width: int = 100) -> list[str]:
    return _folded(f"{key!s:<{_KEYS}}{text}", width, "", " " * _KEYS)


def knob_page(knob: KnobEntry, width: int = 100) -> str:
    """All that is known of a knob."""
    sources = Cited()
    lines = [str(knob.title), "", *_fact(said.name(), knob.name), *_fact(said.pointer(), knob.pointer), ""]
    lines += _figures(knob.figures, sources)
    if knob.note:
        lines += ["", *_folded(knob.note, width)]
    return "\n".join([*lines, "", str(said.sources()), *_cited(sources, width)])


def symbol_page(symbol: SymbolEntry, processes: Mapping[str, Process], width: int = 100) -> str:
    """All that is known of a symbol, and from which height on each process holds it."""
    lines = [str(symbol.title), "", *_fact(said.name(), symbol.name)]
    if symbol.number:
        lines += _fact(said.number(), _number(symbol))
    if symbol.note:
        lines += _fact(said.note(), symbol.note, width)
    lines += [*_fact(said.words(), ", ".join(symbol.words), width), "", str(said.symbol_heights())]
    for process in processes.values():
        light, medium, bold = (_stepped(minimum_height(symbol.name, font, process)) for font in _SYMBOL_FONTS)
        lines.append(f"  {said.symbol_height(process.title, light, medium, bold)}")
    return "\n".join(lines)


_SYMBOL_FONTS: Final = (LIGHT.symbols, MEDIUM.symbols, BOLD.symbols)

_STEP: Final = 0.05
"""Heights are told in steps of this, mm."""


def _stepped(height: float) -> float:
    return math.ceil(height / _STEP - 1e-9) * _STEP


def minimum_height(symbol: str, font: str, process: Process) -> float:
    """The height in mm from which on a process holds the strokes of a symbol and keeps its gaps open.

    `font` is one of the fonts of symbols. Lengths are those of the stroke meter (`panelart.lettering.measures`).
    """
    from panelart.lettering.measures import widths  # it measures with shapely, which few commands on parts need

    found = widths(set_words(symbol, font, 1.0))
    held = (process.line_minimum.value / found.stroke, process.open_gap / found.gap)
    return max(process.cap_height_minimum.value, *held)


def _opening_line(number: int, alike: int, opening: Opening) -> Message:
    """An opening, or several alike, with its size."""
    role, size = opening.role.value, _size(opening.contour)
    line = said.opening(number, role, size) if alike == 1 else said.openings(number, number + alike - 1, role, size)
    sunk = opening.countersink
    return line if sunk is None else said.with_countersink(line, sunk.diameter, sunk.angle)


def _told(opening: Opening) -> tuple[object, ...]:
    """What makes two openings one line: all but their places."""
    shape = tuple(figure for figure in opening.figures if figure.name not in ("x", "y"))
    return opening.role, _size(opening.contour), shape, opening.countersink


def _alike(openings: Sequence[Opening]) -> int:
    first = _told(openings[0])
    return next((count for count, one in enumerate(openings) if _told(one) != first), len(openings))


def _size(contour: Contour) -> Message:
    size = size_of(contour)
    width, height = round(size.width, 2), round(size.height, 2)
    if size.form == "round":
        return said.size_round(width)
    if size.diameter is not None and size.across is not None:
        return _ROUND[size.form](round(size.diameter, 2), round(size.across, 2))
    if size.form == "rectangle":
        return said.size_rectangle(width, height)
    return _OBLONG[size.form](width, height)


def _cited(sources: Cited, width: int) -> list[str]:
    """The sources by their letters."""
    return [line for letter, source in sources for line in _folded(f"{letter:<3} {source}", width, "  ", " " * 6)]


def _figures(figures: Sequence[Figure], sources: Cited) -> list[str]:
    """A line a dimension: name, value with tolerance, the span met, its standing, and the letter of its source."""
    rows = [(*_row(figure), _STANDINGS[figure.known](), sources.letters(figure)) for figure in figures]
    return [f"  {line}" for line in columns(rows)] if rows else []


def _told_lines(told: Sequence[Line], sources: Cited) -> list[str]:
    """The same for lines of facts, whose values are told as they are."""
    rows = [
        (line.name, line.value, _span(line.figure), _STANDINGS[line.figure.known](), sources.letters(line.figure))
        for line in told
    ]
    return [f"  {line}" for line in columns(rows)] if rows else []


def _span(figure: Figure) -> Said:
    return "" if figure.met is None else said.span(*figure.met)


def _row(figure: Figure) -> tuple[str, str, Said]:
    unit = "°" if figure.unit == "deg" else f" {figure.unit}" if figure.unit else ""
    value = f"{figure.value:g}{unit}"
    if figure.tolerance is not None:
        low, high = figure.tolerance
        value += f" ({low:+g}/{high:+g})"
    return _spoken(figure.name), value, _span(figure)


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _folded(text: Said, width: int, first: str = "", later: str | None = None) -> list[str]:
    return folded(text, width, first, first if later is None else later)


# --- for programs


def parts_json(
    parts: Iterable[Component],
    knobs: Iterable[KnobEntry] = (),
    symbols: Iterable[SymbolEntry] = (),
    absent: Iterable[Absent] = (),
    near: Iterable[Component | KnobEntry] = (),
) -> str:
    """A list of parts, knobs and symbols, of what was looked for and is left out, and of near sizes, as JSON text."""
    return _text(
        {
            "version": VERSION,
            "parts": [_brief(part) for part in parts],
            "knobs": [_knob(knob) for knob in knobs],
            "symbols": [_symbol(symbol) for symbol in symbols],
            "absent": [
                {"name": one.name, "title": one.title, "why": one.why, "instead": one.instead} for one in absent
            ],
            "near": [{"name": one.name, "title": one.title} for one in near],
        }
    )


def part_json(part: Component) -> str:
    """All that is known of a part as JSON text."""
    return _text({"version": VERSION, "part": _part(part)})


def knob_json(knob: KnobEntry) -> str:
    """All that is known of a knob as JSON text."""
    return _text({"version": VERSION, "knob": _knob(knob)})


def symbol_json(symbol: SymbolEntry, processes: Mapping[str, Process], others: Iterable[SymbolEntry] = ()) -> str:
    """All that is known of a symbol as JSON text, with its minimum heights by font of symbols and by process.

    `others` are listed beside it.
    """
    heights = {
        font: {name: _round(minimum_height(symbol.name, font, process)) for name, process in processes.items()}
        for font in _SYMBOL_FONTS
    }
    told = _symbol(symbol) | {"minimum_heights_mm": heights}
    return _text({"version": VERSION, "symbol": told, "symbols": [_symbol(one) for one in others]})


def _text(document: dict[str, Any]) -> str:
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def _brief(part: Component) -> dict[str, Any]:
    return {
        "name": part.name,
        "title": part.title,
        "family": part.family,
        "chapter": english(chapter_of(part)),
        "measure_before_cutting": bool(to_measure(part)),
    }


def _part(part: Component) -> dict[str, Any]:
    shaft = part.shaft
    return {
        **_brief(part),
        "standard": part.standard,
        "words": list(part.words),
        "variants": list(variants(part)),
        "thickness_mm": None if part.thickness is None else [_round(part.thickness[0]), _round(part.thickness[1])],
        "shaft": None if shaft is None else {"diameter_mm": _round(shaft.diameter), "length_mm": _round(shaft.length)},
        "motion": part.motion.kind.value,
        "positions": list(part.positions),
        "openings": [_opening(opening) for opening in part.openings],
        "front": [_envelope(envelope, "height_mm") for envelope in part.front],
        "rear": [_envelope(envelope, "depth_mm") for envelope in part.rear],
        "to_measure": [_figure(figure) for figure in to_measure(part)],
        "cautions": [{"name": key, "text": caution(key)} for key in part.cautions],
        "note": part.note,
        **_besides_shape(part),
    }


def _besides_shape(part: Component) -> dict[str, Any]:
    """What is known of a part besides its shape."""
    return {
        "board": None if part.board is None else _board(part.board),
        "operation": None if part.motion.kind is MotionKind.NONE else _operation(part.motion),
        "circuit": None if part.circuit is None else _circuit(part.circuit),
        "look": None if part.look is None else _look(part.look),
        "fasteners": [_fastener(fastener) for fastener in part.fasteners],
        "mass": _figure_or_none(part.mass),
    }


def _figure_or_none(figure: Figure | None) -> dict[str, Any] | None:
    return None if figure is None else _figure(figure)


def _operation(motion: Motion) -> dict[str, Any]:
    """How a control moves; angles are clockwise from straight up."""
    return {
        "kind": motion.kind.value,
        "action": None if motion.action is None else motion.action.value,
        "stops": None if motion.stops is None else motion.stops.value,
        "phase_deg": motion.phase,
        "ways": [
            {
                "angles_deg": list(way.angles),
                "index_deg": way.index,
                "fewest": way.fewest,
                "most": way.most,
                "known": way.known.value,
                "source": "; ".join(dict.fromkeys(figure.source for figure in way.figures)),
            }
            for way in motion.ways
        ],
        "rotation": _figure_or_none(motion.rotation),
        "electrical": _figure_or_none(motion.electrical),
        "tapers": [{"law": law, **_figure(figure)} for law, figure in motion.tapers],
        "turns": _figure_or_none(motion.turns),
        "detents": _figure_or_none(motion.detents),
        "travel": _figure_or_none(motion.travel),
        "throw": _figure_or_none(motion.throw),
    }


def _circuit(circuit: Circuit) -> dict[str, Any]:
    return {
        "kind": circuit.kind.value,
        "volts": _figure_or_none(circuit.volts),
        "amps": _figure_or_none(circuit.amps),
        "watts": _figure_or_none(circuit.watts),
        "category": circuit.category,
        "safety": None if circuit.safety is None else circuit.safety.value,
    }


def _look(look: Look) -> dict[str, Any]:
    return {
        "colours": list(look.colours),
        "lens": list(look.lens),
        "lit": look.lit.value,
        "insert": look.insert,
        "digits": look.digits,
        "meter": look.meter,
        "details": [
            {
                "what": detail.what,
                **_outline(size_of(detail.contour)),
                "recessed": detail.recessed,
                "figures": [_figure(figure) for figure in detail.figures],
            }
            for detail in look.details
        ],
    }


def _fastener(fastener: Fastener) -> dict[str, Any]:
    return {
        "what": fastener.what,
        "thread": fastener.thread,
        "count": fastener.count,
        "spanner": _figure_or_none(fastener.across),
        "torque": None if fastener.torque is None else [_figure(figure) for figure in fastener.torque],
        "side": "rear" if fastener.from_rear else "front",
        "supplied": fastener.supplied,
    }


def _board(board: Board) -> dict[str, Any]:
    return {
        "offset_mm": [_round(figure.value) for figure in board.offset],
        "height_mm": None if board.height is None else _round(board.height.value),
        "on_edge": board.on_edge,
        "figures": [_figure(figure) for figure in board.figures],
    }


def _opening(opening: Opening) -> dict[str, Any]:
    sunk = opening.countersink
    return {
        "role": opening.role.value,
        **_outline(size_of(opening.contour)),
        "passes": None if opening.passes is None else _outline(size_of(opening.passes)),
        "countersink": None
        if sunk is None
        else {"diameter_mm": _round(sunk.diameter), "angle_deg": _round(sunk.angle), "from_rear": sunk.from_rear},
        "figures": [_figure(figure) for figure in opening.figures],
    }


def _envelope(envelope: Envelope, measure: str) -> dict[str, Any]:
    return {
        "what": envelope.what,
        **_outline(size_of(envelope.contour)),
        measure: _round(envelope.height),
        "covers": envelope.covers,
        "role": envelope.role.value,
        "travel_mm": _round(envelope.travel),
        "sweeps_mm": _round(envelope.sweeps),
        "cable_bend_mm": _round(envelope.cable),
        "cable_way": (envelope.cable_way or "out") if envelope.cable else "",
        "figures": [_figure(figure) for figure in envelope.figures],
    }


def _outline(size: Size) -> dict[str, Any]:
    return {
        "form": size.form,
        "at_mm": [_round(size.centre.x), _round(size.centre.y)],
        "across_mm": _round(size.width),
        "upright_mm": _round(size.height),
        "diameter_mm": None if size.diameter is None else _round(size.diameter),
    }


def _figure(figure: Figure) -> dict[str, Any]:
    plain = figure.unit in ("mm", "deg")
    unit = f"_{figure.unit}" if plain else ""
    return {
        "name": figure.name,
        f"value{unit}": _round(figure.value),
        **({} if plain else {"unit": figure.unit}),
        f"tolerance{unit}": _pair(figure.tolerance),
        f"span{unit}": _pair(figure.span),
        "source": figure.source,
        "known": figure.known.value,
    }


def _knob(knob: KnobEntry) -> dict[str, Any]:
    return {
        "name": knob.name,
        "title": knob.title,
        "family": knob.family,
        "diameter_mm": _round(knob.diameter),
        "height_mm": _round(knob.height),
        "bore_mm": None if knob.bore is None else _round(knob.bore),
        "pointer": knob.pointer,
        "words": list(knob.words),
        "figures": [_figure(figure) for figure in knob.figures],
        "note": knob.note,
    }


def _symbol(symbol: SymbolEntry) -> dict[str, Any]:
    return {
        "name": symbol.name,
        "title": symbol.title,
        "number": symbol.number,
        "known": symbol.known.value if symbol.number else "",
        "words": list(symbol.words),
        "note": symbol.note,
    }


def _pair(pair: tuple[float, float] | None) -> list[float] | None:
    return None if pair is None else [_round(pair[0]), _round(pair[1])]


def _round(value: float) -> float:
    # Adding 0.0 turns a rounded -0.0 into 0.0.
    return round(float(value), 6) + 0.0
