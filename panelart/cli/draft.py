"""`panelart draft`: a component list to a first spec; `panelart arrange`: places for parts that have none."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from msgspec.structs import replace

from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import LISTS, PART_FILE, YAML, Grid, SideOf, Spec
from panelart.cli.tables import read_list_file, reason_of
from panelart.cli.usage import refuse
from panelart.cli.values import file, text, whole_number
from panelart.diagnostics import Severity
from panelart.messages import cli_help, reports
from panelart.messages import cli_help_lists as help_
from panelart.messages import cli_lists as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.drafting.arrange import Arranged, Request
    from panelart.drafting.draft import Heading
    from panelart.drafting.plan import Wish
    from panelart.drafting.tried import Tried
    from panelart.lists.matching import Matcher
    from panelart.lists.read import ComponentList
    from panelart.messages import Said
    from panelart.model.component import Component

MAX_ALTERNATIVES = 6


class Hand(StrEnum):
    """The operator's hand."""

    BARE = "bare"
    GLOVED = "gloved"


@command(help_.draft_means(), help_.draft_exit(), extensions=True)
def draft(
    parts: Annotated[Path, argument(help_.component_list(), file(*LISTS, metavar="COMPONENTS"))],
    out: Annotated[Path | None, option("-o --out", help_.spec_file(), file(*YAML))] = None,
    size: Annotated[str, option("--size", help_.panel_size(), text("WxH"))] = "smallest",
    stock_sizes: Annotated[str, option("--stock-sizes", help_.stock_sizes(), text("WxH,..."))] = "",
    title: Annotated[str, option("--title", help_.title(), text("TEXT"))] = "",
    side: Annotated[SideOf, option("--side", help_.side())] = SideOf.FRONT,
    grid: Grid = "1",
    hand: Annotated[Hand | None, option("--hand", help_.hand())] = None,
    catalogue: Annotated[list[str] | None, option("--catalogue", cli_help.catalogue(), PART_FILE)] = None,
    alternatives: Annotated[
        int, option("--alternatives", help_.alternatives_written(), whole_number(minimum=1, maximum=MAX_ALTERNATIVES))
    ] = 1,
    force: Annotated[bool, option("--force", help_.force())] = False,
) -> None:
    """Write a first spec from a component list."""
    from panelart.drafting.arrange import Request
    from panelart.drafting.draft import Heading
    from panelart.lists.read import read_list

    spec = out if out is not None else parts.with_suffix(".yaml")
    require_ending(spec, YAML)
    if spec.exists() and not force:
        refuse("--out", said.spec_exists(str(spec)), said.overwrite_hint())
    request = Request(wish=_wish(size, stock_sizes), grid=_step(grid), maximum=alternatives)
    matcher = _matcher(catalogue or [], spec.parent)
    listed = read_list(read_list_file(parts), parts.name, matcher)
    heading = Heading(
        title=title or str(said.draft_title(parts.stem, side.value)),
        hand=hand.value if hand else None,
        side=side.value,
        catalogue=tuple(catalogue or ()),
    )
    found, remarks = _drafted(listed, heading, request, spec, matcher)
    _tell_headers(parts.name, listed)
    for remark in remarks or map(str, listed.remarks):
        print(remark)
    if not found:
        refuse("", said.nothing_to_arrange(side.value))
    _write(found, spec, str(said.arrangements(heading.title)))
    _tell(found, len(listed.questions))
    if found[0].errors:
        end(EXIT_FINDINGS)


def _drafted(
    listed: ComponentList, heading: Heading, request: Request, spec: Path, matcher: Matcher
) -> tuple[list[Tried], list[str]]:
    """First specs of one side of a list, built, and what was remarked at the last of them; none for an empty side."""
    from panelart.drafting.draft import drafts
    from panelart.drafting.tried import tried

    remarks: list[str] = []

    def make(white: float) -> list[Arranged]:
        made = drafts(listed, heading, replace(request, white=white), spec.parent, matcher)
        remarks[:] = made[0].remarks if made else [*map(str, listed.remarks)]
        return [one.arranged for one in made]

    if not any(item.side == heading.side for item in listed.known):
        return [], remarks
    return tried(make, spec.as_posix(), spec.parent), remarks


@command(help_.arrange_means(), help_.arrange_exit(), extensions=True)
def arrange(
    spec: Spec,
    grid: Grid = "1",
    alternatives: Annotated[
        int, option("--alternatives", help_.alternatives_drawn(), whole_number(minimum=1, maximum=MAX_ALTERNATIVES))
    ] = 1,
    dry_run: Annotated[bool, option("--dry-run", help_.dry_run())] = False,
) -> None:
    """Place the parts that have no position."""
    from panelart.drafting.arrange import Request, arranged, without_place
    from panelart.drafting.tried import tried
    from panelart.source.edit import difference
    from panelart.writers import write_all

    step = _step(grid)
    text = _text(spec)
    if not without_place(text, spec.as_posix()):
        print(said.all_placed(spec))
        return
    file, folder = spec.as_posix(), spec.parent
    found = tried(
        lambda white: arranged(text, file, folder, Request(grid=step, white=white, maximum=alternatives)), file, folder
    )
    after = found[0].arranged.text
    sys.stdout.write(difference(text, after, spec.name))
    if not dry_run:
        write_all({spec.name: after.encode("utf-8")}, spec.parent)
        print(spec)
    if len(found) > 1:
        _draw(found, spec.with_name(f"{spec.stem}-alternatives.png"), spec.stem)
    _tell(found, 0)
    if found[0].errors:
        end(EXIT_FINDINGS)


def _wish(size: str, stock_sizes: str) -> Wish:
    from panelart.drafting.sizes import size_wish

    try:
        return size_wish(size, stock_sizes)
    except ValueError as error:
        refuse("--stock-sizes" if stock_sizes else "--size", said_by(error))


def _step(grid: str) -> float:
    from panelart.drafting.sizes import grid_step

    try:
        return grid_step(grid)
    except ValueError as error:
        refuse("--grid", said_by(error))


def _text(path: Path) -> str:
    from panelart.diagnostics import Problem, SpecError, Where
    from panelart.source import yaml
    from panelart.spec import read as spec_files

    try:
        data = spec_files.read_bytes(path)
    except OSError as error:
        where = Where(path.as_posix(), 1, 1)
        raise SpecError([Problem(where=where, says=said.spec_unreadable(reason_of(error)))]) from error
    yaml.read(data, path.as_posix())
    return data.decode("utf-8")


def _matcher(files: list[str], folder: Path) -> Matcher:
    from panelart.catalogue import read_file
    from panelart.lists.matching import Matcher

    own: dict[str, Component] = {}
    for name in files:
        own |= read_file(read_list_file(folder / name), name)
    return Matcher(own)


def _tell_headers(file: str, listed: ComponentList) -> None:
    header = listed.header
    print(said.list_read(file, listed.form, tuple(header.columns)))
    for written, column in header.loosely:
        print(said.header_read_as(written, column))
    if header.unused:
        print(said.headers_unused(header.unused))


def _write(found: list[Tried], spec: Path, title: str) -> None:
    from panelart.writers import write_all

    names = [spec.name, *(f"{spec.stem}-{number}{spec.suffix}" for number in range(2, len(found) + 1))]
    files = {name: one.arranged.text.encode("utf-8") for name, one in zip(names, found, strict=True)}
    write_all(files, spec.parent)
    for name in names:
        print(spec.parent / name)
    if len(found) > 1:
        _draw(found, spec.with_name(f"{spec.stem}-alternatives.png"), title)


def _draw(found: list[Tried], out: Path, title: str) -> None:
    from panelart.sheets.beside import side_by_side

    panels = [
        (one.built.layout, str(said.arrangement(number, one.arranged.plan.size)))
        for number, one in enumerate(found, start=1)
    ]
    write_drawing(side_by_side(panels, title), out)
    print(out)


def _tell(found: list[Tried], questions: int) -> None:
    best = found[0]
    count = best.built.inspection.count
    findings: list[Said] = [
        reports.errors(count(Severity.ERROR)),
        reports.warnings(count(Severity.WARNING)),
        reports.notes(count(Severity.NOTE)),
    ]
    findings += [said.questions(questions)] if questions else []
    print(said.arranged(len(best.built.layout.panel.parts), best.arranged.plan.size, findings))
