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
from panelart.cli.options import ANSWERS, LISTS, PART_FILE, YAML, Grid, SideOf, Spec
from panelart.cli.tables import read_list_file, reason_of
from panelart.cli.usage import refuse
from panelart.cli.values import file, text, whole_number
from panelart.diagnostics import Severity
from panelart.messages import cli_help, reports
from panelart.messages import cli_help_lists as help_
from panelart.messages import cli_lists as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from panelart.drafting.arrange import Arranged, Request
    from panelart.drafting.draft import Heading
    from panelart.drafting.plan import Wish
    from panelart.drafting.tried import Tried
    from panelart.lists.answers import Answers, Place
    from panelart.lists.listed import ComponentList
    from panelart.lists.matching import Matcher
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
    side: Annotated[SideOf | None, option("--side", help_.side())] = None,
    grid: Grid = "1",
    hand: Annotated[Hand | None, option("--hand", help_.hand())] = None,
    catalogue: Annotated[list[str] | None, option("--catalogue", cli_help.catalogue(), PART_FILE)] = None,
    alternatives: Annotated[
        int, option("--alternatives", help_.alternatives_written(), whole_number(minimum=1, maximum=MAX_ALTERNATIVES))
    ] = 1,
    column: Annotated[list[str] | None, option("--column", help_.column(), text("ROLE=COLUMN"))] = None,
    answers: Annotated[list[Path] | None, option("--answers", help_.answers(), file(*ANSWERS))] = None,
    spreadsheet: Annotated[bool, option("--spreadsheet", help_.spreadsheet())] = False,
    left_out: Annotated[bool, option("--left-out", help_.left_out())] = False,
    force: Annotated[bool, option("--force", help_.force())] = False,
) -> None:
    """Write a first spec from a component list."""
    from panelart.cli.questions import Asking, kept_rooms, write_questions
    from panelart.drafting.arrange import Request
    from panelart.drafting.draft import Heading
    from panelart.drafting.sides import sides_of
    from panelart.lists.read import read_list

    spec = out or parts.with_suffix(".yaml")
    earlier = _earlier(spec, force=force)
    request = Request(wish=_wish(size, stock_sizes), grid=_step(grid), maximum=alternatives)
    own, given = tuple(catalogue or ()), answers or []
    matcher = _matcher([*own], spec.parent)
    asking = Asking(file=parts.name, spec=spec, given=given, names=_names(own, spec), spreadsheet=spreadsheet)
    answered = asking.answers()
    listed = read_list(read_list_file(parts), parts.name, matcher, _columns(column or []), answered)
    sides = sides_of(listed) if side is None else (side.value,)
    _require_side(listed, sides[0])
    heading = Heading(
        title=title or parts.stem,
        hand=None if hand is None else hand.value,
        alone=len(sides) == 1,
        catalogue=own,
    )
    headings = [_of_side(heading, one, titled=bool(title)) for one in sides]
    if earlier is not None and given:
        headings = _kept(headings, earlier, listed, kept_rooms(asking, answered))
    _tell_list(parts.name, listed, answered, left_out=left_out)
    found, remarks = _drafted_sides(listed, headings, request, spec, matcher)
    print(*remarks, sep="\n")
    names = _names_of(spec, max(map(len, found.values())))
    asked = write_questions(asking, listed, matcher, _rooms(found, names))
    _write(found, names, spec, str(said.arrangements(headings[0].title)))
    _end_told(found, asked)


def _rooms(found: dict[str, list[Tried]], names: Sequence[str]) -> dict[str, dict[str, Place]]:
    """The places kept for parts that are not decided, by the file and the ref."""
    return {
        name: {ref: at for made in found.values() for ref, at in _nth(made, number).arranged.rooms.items()}
        for number, name in enumerate(names)
    }


def _nth(made: list[Tried], number: int) -> Tried:
    """A draft by its number; the last of a side that has fewer than the other."""
    return made[min(number, len(made) - 1)]


def _end_told(found: dict[str, list[Tried]], asked: int) -> None:
    """Tell what came out, of two panels under the name of each, and end with findings where there are errors."""
    for name, made in found.items():
        _tell(made, asked if len(found) == 1 else 0, name if len(found) > 1 else "")
    blank = [_is_blank(made[0], name) for name, made in found.items()]
    if any(blank) or any(made[0].errors for made in found.values()):
        end(EXIT_FINDINGS)


def _is_blank(best: Tried, side: str) -> bool:
    """Whether a panel has no part, which is told."""
    blank = not best.built.layout.panel.parts
    if blank:
        print(said.blank_panel(side, best.arranged.plan.size))
    return blank


def _require_side(listed: ComponentList, side: str) -> None:
    """Nothing where a list has parts for a side, or for no side at all. Raises Refused where all are on the other."""
    sides = {item.side for item in listed.items}
    if sides and side not in sides:
        refuse("", said.nothing_on_side(side), said.other_side(sides.pop()))


def _earlier(spec: Path, *, force: bool) -> Path | None:
    """The spec where there is one already; refused unless it may be written over."""
    require_ending(spec, YAML)
    if not spec.exists():
        return None
    if not force:
        refuse("--out", said.spec_exists(str(spec)), said.overwrite_hint())
    return spec


def _of_side(heading: Heading, side: str, *, titled: bool) -> Heading:
    """The heading of one side; the title that is given names the side only where there are two."""
    title = heading.title if titled and heading.alone else str(said.draft_title(heading.title, side))
    return replace(heading, title=title, side=side)


def _kept(
    headings: Sequence[Heading], earlier: Path, listed: ComponentList, rooms: Mapping[str, Place]
) -> list[Heading]:
    """The headings with the places and the size of an earlier draft, which answers are to keep."""
    from panelart.drafting.draft import drafted_places

    text, kept = _text(earlier), []
    for heading in headings:
        size, places = drafted_places(text, earlier.as_posix(), heading.side)
        refs = {item.ref for item in listed.items if item.side == heading.side}
        own = {ref: at for ref, at in {**rooms, **places}.items() if ref in refs}
        kept.append(replace(heading, size=size, places=own) if own or len(headings) == 1 else heading)
    return kept


def _drafted_sides(
    listed: ComponentList, headings: Sequence[Heading], request: Request, spec: Path, matcher: Matcher
) -> tuple[dict[str, list[Tried]], list[str]]:
    """First specs of sides of a list by the side, and what was remarked, of the list first."""
    from panelart.drafting.sides import drafted_alike

    told = [*map(str, listed.remarks)]
    remarks: dict[str, list[str]] = {}
    by_side = {one.side: one for one in headings}

    def draft_side(side: str, wish: Wish | None) -> list[Tried]:
        asked, heading = request, by_side[side]
        if wish is not None:
            size = (wish.width, wish.height) if heading.places else heading.size
            asked, heading = replace(request, wish=wish), replace(heading, size=size)
        made, remarked = _drafted(listed, heading, asked, spec, matcher)
        remarks[side] = remarked[len(told) :]
        return made

    if len(headings) == 1:
        found = {headings[0].side: draft_side(headings[0].side, None)}
    else:
        found = drafted_alike(draft_side, tuple(by_side), [one.side for one in headings if one.places])
    return found, [*told, *dict.fromkeys(line for side in found for line in remarks[side])]


def _drafted(
    listed: ComponentList, heading: Heading, request: Request, spec: Path, matcher: Matcher
) -> tuple[list[Tried], list[str]]:
    """First specs of one side of a list, built, and what was remarked at the last of them."""
    from panelart.drafting.draft import drafts
    from panelart.drafting.sides import with_room
    from panelart.drafting.tried import tried

    remarks: list[str] = []

    def make(white: float) -> list[Arranged]:
        asked = replace(request, white=white)
        made = with_room(
            lambda size: drafts(listed, replace(heading, size=size), asked, spec.parent, matcher), heading.size
        )
        remarks[:] = made[0].remarks
        return [one.arranged for one in made]

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


def _columns(wishes: list[str]) -> dict[str, str]:
    from panelart.lists.columns import ROLES, asked_columns

    try:
        return asked_columns(wishes)
    except ValueError as error:
        refuse("--column", said_by(error), said.columns_accepted(ROLES))


def _names(catalogue: Sequence[str], spec: Path) -> tuple[str, ...]:
    """The names of all parts, those of part files too."""
    from panelart.catalogue import names, read_file

    own = [name for one in catalogue for name in read_file(read_list_file(spec.parent / one), one)]
    return (*names(), *own)


def _tell_list(file: str, listed: ComponentList, answered: Answers, *, left_out: bool) -> None:
    """The account of all rows first, then how the columns were read, and on request the rows that were left out."""
    from panelart.cli.columns import columns_shown
    from panelart.lists.account import Fate
    from panelart.messages import component_lists_account as account
    from panelart.messages import component_lists_answers as asking

    for line in listed.account.says:
        print(line)
    roles = tuple(column.role for column in listed.columns.columns if column.role)
    print(said.list_read(file, listed.form, tuple(dict.fromkeys(roles))))
    print(*columns_shown(listed, answered), sep="\n")
    if listed.others:
        print(asking.sheets_left_out(listed.others))
    if left_out:
        for row in listed.account.rows:
            if row.fate not in (Fate.TAKEN, Fate.ASKED, Fate.TO_MEASURE, Fate.NO_PART):
                print(account.row_left_out(row.row, row.words, row.kind or row.fate.value, row.why))


def _names_of(spec: Path, count: int) -> list[str]:
    """The files of a draft and its alternatives."""
    return [spec.name, *(f"{spec.stem}-{number}{spec.suffix}" for number in range(2, count + 1))]


def _write(found: dict[str, list[Tried]], names: Sequence[str], spec: Path, title: str) -> None:
    """Write each arrangement as a spec, of two sides as one of both, and a picture where there are several."""
    from panelart.drafting.sides import set_text
    from panelart.writers import write_all

    files: dict[str, bytes] = {}
    for number, name in enumerate(names):
        texts = {side: _nth(made, number).arranged.text for side, made in found.items()}
        text = set_text(texts) if len(texts) > 1 else next(iter(texts.values()))
        files[name] = text.encode("utf-8")
    write_all(files, spec.parent)
    for name in names:
        print(spec.parent / name)
    if len(names) > 1:
        _draw([one for made in found.values() for one in made], spec.with_name(f"{spec.stem}-alternatives.png"), title)


def _draw(found: list[Tried], out: Path, title: str) -> None:
    from panelart.sheets.beside import side_by_side

    panels = [
        (one.built.layout, str(said.arrangement(number, one.arranged.plan.size)))
        for number, one in enumerate(found, start=1)
    ]
    write_drawing(side_by_side(panels, title), out)
    print(out)


def _tell(found: list[Tried], questions: int, name: str = "") -> None:
    """What came out; of several panels under the name of each."""
    best = found[0]
    count = best.built.inspection.count
    findings: list[Said] = [
        reports.errors(count(Severity.ERROR)),
        reports.warnings(count(Severity.WARNING)),
        reports.notes(count(Severity.NOTE)),
    ]
    findings += [said.questions(questions)] if questions else []
    told = said.arranged(len(best.built.layout.panel.parts), best.arranged.plan.size, findings)
    print(said.of_panel(name, told) if name else told)
