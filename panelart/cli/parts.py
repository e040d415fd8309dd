"""`panelart parts`: the catalogue listed, searched, told and drawn."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from panelart import __version__

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from panelart.catalogue import KnobEntry
    from panelart.drawing.representation import Drawing
    from panelart.model.component import Component

PICTURE_DPI = 160.0
"""Resolution of pictures: fine enough to read the smallest figures on screen."""


MAX_OUTLINED = 3
"""Of more pages than this, SVG keeps words as text in fonts that the file carries."""


class Format(StrEnum):
    """How parts are printed."""

    TEXT = "text"
    JSON = "json"


def parts(
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[NAME | WORD...]", help="A name, or words to search for.", show_default=False),
    ] = None,
    format_: Annotated[Format, typer.Option("--format", help="Text for people, or JSON for programs.")] = Format.TEXT,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="FILE", help="Draw the part named: .svg, .pdf or .png."),
    ] = None,
    own: Annotated[
        Path | None,
        typer.Option("--catalogue", metavar="FILE", help="Look in a part file of your own instead."),
    ] = None,
    sheet: Annotated[
        Path | None,
        typer.Option("--sheet", metavar="FILE", help="Draw the whole catalogue with knobs and symbols: .pdf or .svg."),
    ] = None,
    symbols: Annotated[bool, typer.Option("--symbols", help="List symbols instead of parts.")] = False,
    knobs: Annotated[bool, typer.Option("--knobs", help="List knobs instead of parts.")] = False,
) -> None:
    """List the catalogue, search it by words, or tell and draw one part, knob or symbol by name."""
    query = " ".join(words or ()).strip()
    if sheet is not None:
        _draw_all(sheet)
        return
    shelf = _shelf(own)
    if out is not None:
        _draw_one(query, shelf, out)
    elif symbols or knobs or not _told(query, shelf, format_):
        kinds = {kind for kind, asked in (("symbols", symbols), ("knobs", knobs)) if asked}
        _list(query, kinds or {"parts", "knobs", "symbols"}, shelf, format_)


def _width() -> int:
    return os.get_terminal_size().columns if sys.stdout.isatty() else 100


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelf:
    """What is looked in: the built-in catalogue, or a part file; by name and by words."""

    part: Callable[[str], Component]
    parts: Sequence[str]
    knob: Callable[[str], KnobEntry]
    knobs: Sequence[str]
    matching: Callable[[str], Sequence[str]]
    symbols: Sequence[str]


def _shelf(own: Path | None) -> _Shelf:
    """The shelf of a part file, or the built-in one. Raises SpecError and OSError."""
    from panelart import catalogue
    from panelart.catalogue.search import fits
    from panelart.catalogue.symbols import symbol_names

    if own is None:
        return _Shelf(
            part=catalogue.component,
            parts=catalogue.names(),
            knob=catalogue.knob,
            knobs=catalogue.knob_names(),
            matching=catalogue.matching,
            symbols=symbol_names(),
        )
    contents = catalogue.read_contents(own.read_bytes(), own.as_posix())
    components = contents.components

    def matching(query: str) -> list[str]:
        return [one.name for one in components.values() if fits(query, one.name, one.title, one.family, *one.words)]

    return _Shelf(
        part=components.__getitem__,
        parts=tuple(components),
        knob=contents.knobs.__getitem__,
        knobs=tuple(contents.knobs),
        matching=matching,
        symbols=(),
    )


def _told(name: str, shelf: _Shelf, format_: Format) -> bool:
    """Print the page of a part or knob; whether there is one of that name."""
    from panelart.reports import parts as report

    if name in shelf.parts:
        part = shelf.part(name)
        _print(report.part_page(part, _width()) if format_ is Format.TEXT else report.part_json(part))
    elif name in shelf.knobs:
        entry = shelf.knob(name)
        _print(report.knob_page(entry, _width()) if format_ is Format.TEXT else report.knob_json(entry))
    else:
        return False
    return True


def _list(query: str, kinds: set[str], shelf: _Shelf, format_: Format) -> None:
    from panelart.catalogue.absent import absent
    from panelart.catalogue.search import fits
    from panelart.catalogue.symbols import symbol
    from panelart.reports import parts as report

    found = [shelf.part(name) for name in (shelf.matching(query) if query else shelf.parts) if "parts" in kinds]
    knobs = [shelf.knob(name) for name in shelf.knobs if "knobs" in kinds]
    knobs = [one for one in knobs if fits(query, one.name, one.title, one.family, *one.words)]
    symbols = [symbol(name) for name in shelf.symbols if "symbols" in kinds]
    symbols = [one for one in symbols if fits(query, one.name, one.title, one.number, *one.words)]
    left_out = absent(query) if query and shelf.symbols and "parts" in kinds else ()
    if not (found or knobs or symbols or left_out):
        _refuse(f"nothing is called '{query}' or is found by these words", query, (*shelf.parts, *shelf.knobs))
    if format_ is Format.JSON:
        _print(report.parts_json(found, knobs, symbols, left_out))
        return
    by_chapter = not query and bool(shelf.symbols)
    pieces = [report.parts_list(None if by_chapter else found)] if found else []
    pieces += [f"Knobs ({len(knobs)})\n\n{report.knobs_list(knobs)}"] if knobs else []
    pieces += [f"Symbols ({len(symbols)})\n\n{report.symbols_list(symbols)}"] if symbols else []
    pieces += [f"Not in the catalogue, on purpose\n\n{report.absent_list(left_out, _width())}"] if left_out else []
    _print("\n\n".join(pieces))


def _draw_one(name: str, shelf: _Shelf, out: Path) -> None:
    from panelart.sheets.part_sheet import part_sheets

    _require_ending(out, (".svg", ".pdf", ".png"), "--out")
    if name not in shelf.parts:
        _refuse(f"no part has the name '{name}'", name, shelf.parts)
    _write(part_sheets(shelf.part(name), f"panelart {__version__}"), out)


def _draw_all(out: Path) -> None:
    from panelart.sheets.catalogue import catalogue_sheets

    _require_ending(out, (".pdf", ".svg"), "--sheet")
    _write(catalogue_sheets(f"panelart {__version__}"), out)


def _write(pages: Sequence[Drawing], out: Path) -> None:
    from panelart.sheets.paper import stacked
    from panelart.writers import pdf, png, svg, write_all

    match out.suffix.lower():
        case ".pdf":
            data = pdf(pages, live=True)  # so that a name is found by searching
        case ".svg":
            # As outlines, forty pages of small print would be more than most programs care to open.
            data = svg(stacked(pages), live=len(pages) > MAX_OUTLINED)
        case _:
            data = png(stacked(pages), PICTURE_DPI)
    write_all({out.name: data}, out.parent)
    print(out)


def _require_ending(out: Path, endings: tuple[str, ...], option: str) -> None:
    if out.suffix.lower() not in endings:
        accepted = f"{', '.join(endings[:-1])} or {endings[-1]}"
        raise typer.BadParameter(f"'{out.name}' does not end in {accepted}", param_hint=option)


def _refuse(message: str, name: str, known: Sequence[str]) -> NoReturn:
    from panelart.diagnostics import did_you_mean

    print(f"error: {message}; {did_you_mean(name, known, 'parts')}", file=sys.stderr)
    raise typer.Exit(2)


def _print(text: str) -> None:
    sys.stdout.write(text if text.endswith("\n") else f"{text}\n")
