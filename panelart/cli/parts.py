"""`panelart parts`: the catalogue listed, searched, told and drawn; what is measured before cutting."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart import __version__
from panelart.canonical import Struct
from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import require_ending
from panelart.cli.options import DRAWINGS, YAML, PlainFormat, TextOrJson, spec_file
from panelart.cli.terminal import terminal
from panelart.cli.usage import Refused, refuse, refuse_name
from panelart.cli.values import file, text
from panelart.messages import cli as said
from panelart.messages import cli_help_lists as help_
from panelart.messages import cli_usage

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from panelart.catalogue import KnobEntry
    from panelart.catalogue.absent import Absent
    from panelart.catalogue.search import Found
    from panelart.catalogue.symbols import SymbolEntry
    from panelart.drawing.representation import Drawing
    from panelart.model.component import Component

PICTURE_DPI = 160.0
"""Resolution of pictures: fine enough to read the smallest figures on screen."""


MAX_OUTLINED = 3
"""Of more pages than this, SVG keeps words as text in fonts that the file carries."""


ALL_ENDINGS = (".pdf", ".svg")


def _names() -> Iterable[str]:
    from panelart import catalogue

    return (*catalogue.names(), *catalogue.knob_names())


@command(extensions=True)
def parts(
    words: Annotated[list[str] | None, argument(help_.name_or_words(), text("NAME|WORD", _names))] = None,
    format_: TextOrJson = PlainFormat.TEXT,
    out: Annotated[Path | None, option("-o --out", help_.part_drawing(), file(*DRAWINGS, *YAML))] = None,
    all_: Annotated[bool, option("--all", help_.whole_catalogue())] = False,
    own: Annotated[Path | None, option("--catalogue", help_.part_file(), file(*YAML))] = None,
    knobs: Annotated[bool, option("--knobs", help_.knobs())] = False,
    symbols: Annotated[bool, option("--symbols", help_.symbols())] = False,
    measure: Annotated[Path | None, option("--measure", help_.measure(), spec_file())] = None,
) -> None:
    """List, search, describe or draw catalogue parts."""
    query = " ".join(words or ()).strip()
    if measure is not None:
        _measure(measure, format_, out)
        return
    if all_:
        if out is None:
            refuse("--all", cli_usage.needs("--out"))
        _draw_all(out)
        return
    shelf = _shelf(own)
    query = _name_now(query, shelf)
    if out is not None:
        _draw_one(query, shelf, out)
    else:
        _answer(query, {kind for kind, asked in (("symbols", symbols), ("knobs", knobs)) if asked}, shelf, format_)


def _answer(query: str, kinds: set[str], shelf: _Shelf, format_: PlainFormat) -> None:
    """Tell the one that is named, or list what is found; `kinds` are those that alone are asked for."""
    if kinds == {"symbols"} and query in shelf.symbols:
        _tell_symbol(query, shelf, format_)
    elif kinds or not _told(query, shelf, format_):
        _list(query, kinds or {"parts", "knobs", "symbols"}, shelf, format_)


def _name_now(name: str, shelf: _Shelf) -> str:
    """The name that an entry has now, by an old one; a name on the shelf and any other words as they are."""
    from panelart.catalogue.renamed import RENAMED

    return name if name in shelf.parts else RENAMED.get(name, name)


def _measure(spec: Path, format_: PlainFormat, out: Path | None) -> None:
    """Print what is measured on the parts of a panel, or write the form for it."""
    from panelart.checks.measuring import parts_to_measure
    from panelart.pipeline import read
    from panelart.reports import measuring as report

    if out is not None:
        require_ending(out, (*YAML, *DRAWINGS))
    panel = read(spec)
    to_measure = parts_to_measure(panel)
    if out is None:
        _print(report.measure_json(to_measure) if format_ is PlainFormat.JSON else report.measure_table(to_measure))
    elif not to_measure:
        _print(report.measure_table(to_measure))
    elif out.suffix.lower() in YAML:
        if out.exists():
            refuse("--out", said.form_exists(out.name), said.form_elsewhere())
        from panelart.writers import write_all

        write_all({out.name: report.measure_file(panel, to_measure, out.name).encode()}, out.parent)
        print(out)
    else:
        from panelart.sheets.measure_form import measure_form

        _write(measure_form(panel, to_measure, f"panelart {__version__}"), out)


def _width() -> int:
    return terminal(sys.stdout).width


class _Shelf(Struct, frozen=True, kw_only=True):
    """What is looked in: the built-in catalogue, or a part file; by name and by words."""

    part: Callable[[str], Component]
    parts: Sequence[str]
    knob: Callable[[str], KnobEntry]
    knobs: Sequence[str]
    searched: Callable[[str], Found]
    symbols: Sequence[str]
    whole: bool


def _part_file(path: Path) -> bytes:
    """What is in a part file. Raises SpecError when it cannot be read."""
    from panelart.cli.tables import reason_of
    from panelart.diagnostics import Problem, SpecError, Where
    from panelart.messages import cli_lists

    try:
        return path.read_bytes()
    except OSError as error:
        says = cli_lists.part_file_unreadable(reason_of(error))
        raise SpecError([Problem(where=Where(path.as_posix(), 1, 1), says=says)]) from error


def _shelf(own: Path | None) -> _Shelf:
    """The shelf of a part file, or the built-in one. Raises SpecError and OSError."""
    from panelart import catalogue
    from panelart.catalogue.search import search, search_among
    from panelart.catalogue.symbols import symbol_names

    if own is None:
        return _Shelf(
            part=catalogue.component,
            parts=catalogue.names(),
            knob=catalogue.knob,
            knobs=catalogue.knob_names(),
            searched=search,
            symbols=symbol_names(),
            whole=True,
        )
    contents = catalogue.read_contents(_part_file(own), own.as_posix(), catalogue.component)
    return _Shelf(
        part=contents.components.__getitem__,
        parts=tuple(contents.components),
        knob=contents.knobs.__getitem__,
        knobs=tuple(contents.knobs),
        searched=lambda query: search_among(query, (*contents.components.values(), *contents.knobs.values())),
        symbols=(),
        whole=False,
    )


def _told(name: str, shelf: _Shelf, format_: PlainFormat) -> bool:
    """Print the page of a part or knob; whether there is one of that name."""
    from panelart.reports import parts as report

    if name in shelf.parts:
        part = shelf.part(name)
        _print(report.part_page(part, _width()) if format_ is PlainFormat.TEXT else report.part_json(part))
    elif name in shelf.knobs:
        entry = shelf.knob(name)
        _print(report.knob_page(entry, _width()) if format_ is PlainFormat.TEXT else report.knob_json(entry))
    else:
        return False
    return True


def _tell_symbol(name: str, shelf: _Shelf, format_: PlainFormat) -> None:
    """Print the page of a symbol, and others that its name finds: it may be a word, as fuse and earth are."""
    from panelart.catalogue.symbols import symbol
    from panelart.processes.registry import processes
    from panelart.reports import parts as report

    entry = symbol(name)
    others = [one for one in _matching_symbols(name, shelf) if one.name != name]
    if format_ is PlainFormat.JSON:
        _print(report.symbol_json(entry, processes(), others))
        return
    page = report.symbol_page(entry, processes(), _width())
    _print("\n\n".join([page, report.symbols_section(others)] if others else [page]))


class _Found(Struct, frozen=True, kw_only=True):
    """What a search brought; `absent` is what the catalogue leaves out, `near` what has another size than stated.

    `colours` are those asked for that the first part is not sold in.
    """

    parts: Sequence[Component]
    knobs: Sequence[KnobEntry]
    symbols: Sequence[SymbolEntry]
    absent: Sequence[Absent]
    near: Sequence[Component | KnobEntry] = ()
    colours: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        """Whether there is anything."""
        return bool(self.parts or self.knobs or self.symbols or self.absent or self.near)


def _list(query: str, kinds: set[str], shelf: _Shelf, format_: PlainFormat) -> None:
    from panelart.reports import parts as report

    found = _found(query, kinds, shelf)
    if not found:
        _refuse_kinds(query, shelf)
        refuse_name(said.no_match(query), query, (*shelf.parts, *shelf.knobs), said.parts(), listed_by="parts")
    if format_ is PlainFormat.JSON:
        _print(report.parts_json(found.parts, found.knobs, found.symbols, found.absent, found.near))
    else:
        by_chapter = not query and shelf.whole
        _print("\n\n".join(_sections(found, by_chapter=by_chapter)))


def _refuse_kinds(query: str, shelf: _Shelf) -> None:
    """End the command for words of which nothing was found, with the kinds they are nearest to, where some are."""
    from panelart.catalogue.search import nearest_kinds
    from panelart.messages import catalogue

    kinds = nearest_kinds(query) if shelf.whole else ()
    if kinds:
        raise Refused(said.no_match(query), catalogue.nearest_kinds([kind.title for kind in kinds]))


def _found(query: str, kinds: set[str], shelf: _Shelf) -> _Found:
    """What of the wanted kinds a query asks for; all of it for ''."""
    brought = _searched(query, shelf) if query else _all(shelf)
    return _Found(
        parts=brought.parts if "parts" in kinds else (),
        knobs=brought.knobs if "knobs" in kinds else (),
        symbols=_matching_symbols(query, shelf) if "symbols" in kinds else (),
        absent=brought.absent if "parts" in kinds else (),
        near=brought.near if "parts" in kinds else (),
        colours=brought.colours if "parts" in kinds else (),
    )


def _all(shelf: _Shelf) -> _Found:
    """All that is on a shelf."""
    return _Found(
        parts=[shelf.part(name) for name in shelf.parts],
        knobs=[shelf.knob(name) for name in shelf.knobs],
        symbols=(),
        absent=(),
    )


def _searched(query: str, shelf: _Shelf) -> _Found:
    """What a search brings; what is left out is told of the catalogue only."""
    from panelart.catalogue.absent import absent
    from panelart.catalogue.colours import not_sold_in

    found = shelf.searched(query)
    knobs = frozenset(shelf.knobs)
    return _Found(
        colours=not_sold_in(query, shelf.part(found.parts[0])) if found.parts else (),
        parts=[shelf.part(name) for name in found.parts],
        knobs=[shelf.knob(name) for name in found.knobs],
        symbols=(),
        absent=absent(query, found) if shelf.whole else (),
        near=[shelf.knob(name) if name in knobs else shelf.part(name) for name in found.near],
    )


def _matching_symbols(query: str, shelf: _Shelf) -> list[SymbolEntry]:
    from panelart.catalogue.search import fits
    from panelart.catalogue.symbols import symbol

    symbols = map(symbol, shelf.symbols)
    return [one for one in symbols if fits(query, one.name, one.title, one.number, *one.words)]


def _sections(found: _Found, *, by_chapter: bool) -> Iterator[str]:
    """What was found, kind by kind; the parts by the chapters of the whole catalogue where that is wanted."""
    from panelart.reports import parts as report

    if found.parts:
        yield report.parts_list(None if by_chapter else found.parts)
    if found.colours:
        yield report.colours_section(found.parts[0], found.colours)
    if found.knobs:
        yield report.knobs_section(found.knobs)
    if found.symbols:
        yield report.symbols_section(found.symbols)
    if found.near:
        yield report.near_section(found.near)
    if found.absent:
        yield report.absent_section(found.absent, _width())


def _draw_one(name: str, shelf: _Shelf, out: Path) -> None:
    from panelart.sheets.part_sheet import part_sheets

    require_ending(out, DRAWINGS)
    if not name:
        refuse("--out", said.no_part_named(), said.part_to_draw())
    if name not in shelf.parts:
        refuse_name(said.unknown_part(name), name, shelf.parts, said.parts(), listed_by="parts")
    _write(part_sheets(shelf.part(name), f"panelart {__version__}"), out)


def _draw_all(out: Path) -> None:
    from panelart.sheets.catalogue import catalogue_sheets

    require_ending(out, ALL_ENDINGS)
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


def _print(text: str) -> None:
    sys.stdout.write(text if text.endswith("\n") else f"{text}\n")
