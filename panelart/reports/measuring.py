"""What is measured before cutting, as a table for people, as JSON, and as a form that is a part file."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, Final

from panelart.catalogue import Dimension
from panelart.checks.measuring import BOARD, PartToMeasure, in_words
from panelart.figure import Figure, Known
from panelart.messages import Said, reports
from panelart.messages import sheets_measuring as said
from panelart.model.panel import Panel
from panelart.reports.layout import columns, folded

VERSION: Final = 1
_WIDTH: Final = 110
_STANDINGS: Final = {
    Known.MEMORY: said.from_memory,
    Known.TYPICAL: said.typical,
    Known.LOOKED_UP: said.see_caution,
}
_REFS: Final = 4
"""So many refs are named in the table; the others are counted."""


def measure_table(parts: Sequence[PartToMeasure]) -> str:
    """One line a dimension; part and refs in the first line of a part."""
    if not parts:
        return str(said.nothing_to_measure())
    rows: list[tuple[Said, ...]] = [
        (said.part(), said.refs(), said.dimension(), said.figure_used(), said.range_met(), said.standing())
    ]
    for part in parts:
        names: tuple[Said, Said] = (part.component.name, _refs(part.refs))
        for dimension in part.dimensions:
            figure = dimension.figure
            span = "" if figure.met is None else said.span(*(f"{end:g}" for end in figure.met))
            rows.append((*names, in_words(dimension), _used(figure), span, _STANDINGS[figure.known]()))
            names = ("", "")
    return "\n".join(columns(rows, right=frozenset({3})))


def _used(figure: Figure) -> str:
    return f"{figure.value:g}°" if figure.unit == "deg" else f"{figure.value:g} {figure.unit}".strip()


def _refs(refs: Sequence[str]) -> str:
    named: tuple[Said, ...] = tuple(refs)
    if len(refs) > _REFS:
        named = (*refs[: _REFS - 1], reports.more_refs(len(refs) - _REFS + 1))
    return ", ".join(map(str, named))


def measure_json(parts: Sequence[PartToMeasure]) -> str:
    """The same as JSON text."""
    document = {
        "version": VERSION,
        "to_measure": [
            {
                "part": part.component.name,
                "title": part.component.title,
                "refs": list(part.refs),
                "dimensions": [_dimension(dimension) for dimension in part.dimensions],
            }
            for part in parts
        ],
    }
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def _dimension(dimension: Dimension) -> dict[str, Any]:
    figure = dimension.figure
    return {
        "piece": dimension.piece,
        "name": dimension.name,
        "value": figure.value,
        "unit": figure.unit,
        "span": None if figure.span is None else list(figure.span),
        "known": figure.known.value,
        "source": figure.source,
    }


def measure_file(panel: Panel, parts: Sequence[PartToMeasure], file: str) -> str:
    """The form as the text of a part file called `file`: a blank for each dimension, with what is known of it."""
    lines = [
        *_remark(said.file_title(panel=panel.title), ""),
        *_remark(said.file_fill_in(), ""),
        *_remark(said.file_name_it(file=file), ""),
        "panelart-catalogue: 1",
        "parts:",
    ]
    by_name: dict[str, list[PartToMeasure]] = {}
    for part in parts:
        by_name.setdefault(part.component.name, []).append(part)
    named = 0
    for name, kinds in by_name.items():
        refs = tuple(ref for kind in kinds for ref in kind.refs)
        if name in refs or name == _UNNAMED:
            lines += _remark(said.file_written_out(part=name), "  ")
            continue
        named += 1
        lines += _remark(said.file_part(title=kinds[0].component.title, refs=refs), "  ")
        lines += [f"  {name}:", f"    like: {name}", "    measured:", "      by:", "      date:"]
        lines += _blanks(dict.fromkeys(dimension for kind in kinds for dimension in kind.dimensions))
    if not named:
        lines[-1 if lines[-1] == "parts:" else lines.index("parts:")] = "parts: {}"
    return "\n".join(lines) + "\n"


_UNNAMED: Final = "part"
"""What a part is called that is written out in a spec without a ref."""


_REMARKS: Final = 28
"""Where the remark on a blank begins, behind its indentation."""


def _blanks(dimensions: Iterable[Dimension]) -> Iterator[str]:
    pieces: dict[str, dict[str, Figure]] = {}
    for dimension in dimensions:
        pieces.setdefault(dimension.piece, {}).setdefault(dimension.name, dimension.figure)
    for piece, figures in pieces.items():
        if piece == BOARD:
            for figure in figures.values():
                yield from _remark(said.file_board_height(about=_about(figure)), "    ")
            continue
        if not piece:
            for name in figures:
                yield from _remark(said.file_no_key(dimension=name.replace("_", " ")), "    ")
            continue
        yield f"    {piece}:"
        for name, figure in figures.items():
            yield f"      {f'{name}:':<{_REMARKS}}# {_about(figure)}"


def _about(figure: Figure) -> Said:
    unit: Said = said.degrees() if figure.unit == "deg" else figure.unit
    used, standing = f"{figure.value:g}", _STANDINGS[figure.known]()
    if figure.span is None:
        return said.file_figure(unit=unit, used=used, standing=standing)
    lowest, highest = (f"{end:g}" for end in figure.span)
    return said.file_figure_met(unit=unit, used=used, lowest=lowest, highest=highest, standing=standing)


def _remark(text: Said, indent: str) -> list[str]:
    return folded(text, _WIDTH, f"{indent}# ", f"{indent}# ")
