"""`panelart draft`: a component list to a first spec; `panelart arrange`: places for parts that have none."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import drawing_bytes, require_ending
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import ANSWERS, LISTS, PART_FILE, YAML, Grid, OpenPage, Port, SideOf, Spec
from panelart.cli.tables import read_list_file, reason_of
from panelart.cli.usage import refuse
from panelart.cli.values import file, text, whole_number
from panelart.diagnostics import Severity
from panelart.extras import require
from panelart.messages import cli_help, reports
from panelart.messages import cli_help_lists as help_
from panelart.messages import cli_lists as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from panelart.cli.questions import Asking
    from panelart.drafting.arrange import Request
    from panelart.drafting.listed import Drafted, Wishes
    from panelart.drafting.nudging import Nudged, Step
    from panelart.drafting.plan import Wish
    from panelart.drafting.tried import Tried
    from panelart.lists.answers import Answers
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
    view: Annotated[bool, option("--view", help_.view_questions())] = False,
    open_: OpenPage = False,
    port: Port = None,
) -> None:
    """Write a first spec from a component list."""
    from panelart.cli.questions import Asking
    from panelart.drafting.arrange import Request
    from panelart.drafting.listed import Wishes
    from panelart.lists.read import read_list

    spec, on_page = out or parts.with_suffix(".yaml"), view or open_
    _require_page(alternatives, wanted=on_page)
    request = Request(wish=_wish(size, stock_sizes), grid=_step(grid), maximum=alternatives)
    own, given, columns = tuple(catalogue or ()), answers or [], _columns(column or [])
    asking = Asking(
        file=parts.name, spec=spec, given=given, names=_names(own, spec), spreadsheet=spreadsheet, page=on_page
    )
    continued = asking.is_begun and not force
    earlier = _earlier(spec, force=force or continued)
    matcher = _matcher([*own], spec.parent)
    answered = asking.answers()
    listed = read_list(read_list_file(parts), parts.name, matcher, columns, answered)
    sides = _sides(listed, side, parts if on_page else None)
    wishes = Wishes(
        spec=spec, sides=sides, request=request, stem=parts.stem, title=title, hand=hand and hand.value, catalogue=own
    )
    _tell_list(parts.name, listed, answered, left_out=left_out)
    if continued:
        print(said.draft_continued(spec.as_posix()))
        text = None
    else:
        text = _drafted(asking, listed, wishes, matcher, earlier)
    if on_page:
        _serve(parts, asking, columns, wishes, matcher, port, text, opened=open_)


def _drafted(asking: Asking, listed: ComponentList, wishes: Wishes, matcher: Matcher, earlier: Path | None) -> str:
    """Draft, write and tell; ends with findings where there are errors and no page that shows them. The spec's text."""
    from panelart.cli.questions import kept_rooms, questions_of
    from panelart.drafting.listed import Earlier, drafted

    kept = None
    if earlier is not None and asking.read:
        kept = Earlier(text=_text(earlier), rooms=kept_rooms(asking, asking.answers()))
    made = drafted(listed, wishes, matcher, kept)
    print(*made.remarks, sep="\n")
    asked = questions_of(asking, listed, matcher, made.rooms)
    _write(made, asked.files, wishes.spec, asked.says)
    for found in made.found.values():
        _tell_ideas(found)
    if _tell_all(made.found, asked.count) and not asking.page:
        end(EXIT_FINDINGS)
    return made.texts[wishes.spec.name]


def _require_page(alternatives: int, *, wanted: bool) -> None:
    """Nothing where a page can show what is asked for, and there is a server for it. Raises Refused."""
    if wanted:
        require("page")
    if wanted and alternatives != 1:
        refuse("--alternatives", said.page_of_one_arrangement(), said.without_alternatives())


def _serve(
    parts: Path,
    asking: Asking,
    columns: Mapping[str, str],
    wishes: Wishes,
    matcher: Matcher,
    port: int | None,
    text: str | None,
    *,
    opened: bool,
) -> None:
    """Ask on the page; `text` is the draft where it is just made."""
    from panelart.cli.pages import LOCAL, serve_page
    from panelart.viewer.listing import Listing

    own = asking.beside.resolve()
    listing = Listing(
        file=parts,
        answers=asking.beside,
        given=tuple(path for path in asking.given if path.resolve() != own),
        columns=columns,
        wishes=wishes,
        matcher=matcher,
        names=tuple(asking.names),
    )
    serve_page(wishes.spec, LOCAL, port, opened=opened, listing=listing, drafted=text)


def _tell_all(found: Mapping[str, Sequence[Tried]], asked: int) -> bool:
    """Tell what came out, of two panels under the name of each; whether a panel is blank or has errors."""
    for name, made in found.items():
        _tell(made, asked if len(found) == 1 else 0, name if len(found) > 1 else "")
    blank = [_is_blank(made[0], name) for name, made in found.items()]
    return any(blank) or any(made[0].errors for made in found.values())


def _is_blank(best: Tried, side: str) -> bool:
    """Whether a panel has no part, which is told."""
    blank = not best.built.layout.panel.parts
    if blank:
        print(said.blank_panel(side, best.arranged.plan.size))
    return blank


def _sides(listed: ComponentList, side: SideOf | None, on_page: Path | None) -> tuple[str, ...]:
    """The sides that are drafted. Raises Refused where all parts are on the other, or two are to be on one page.

    `on_page` is the file of a list that is asked about on a page.
    """
    from panelart.drafting.sides import sides_of

    sides = sides_of(listed) if side is None else (side.value,)
    told = {item.side for item in listed.items}
    if told and sides[0] not in told:
        refuse("", said.nothing_on_side(sides[0]), said.other_side(told.pop()))
    if on_page is not None and side is None and len(told) > 1:
        refuse("--view", said.page_of_one_side(), said.type_a_side(str(on_page), *sides[:2]))
    return sides


def _earlier(spec: Path, *, force: bool) -> Path | None:
    """The spec where there is one already; refused unless it may be written over."""
    require_ending(spec, YAML)
    if not spec.exists():
        return None
    if not force:
        refuse("--out", said.spec_exists(str(spec)), said.overwrite_hint())
    return spec


@command(help_.arrange_means(), help_.arrange_exit(), extensions=True)
def arrange(
    spec: Spec,
    grid: Grid = "1",
    alternatives: Annotated[
        int, option("--alternatives", help_.alternatives_drawn(), whole_number(minimum=1, maximum=MAX_ALTERNATIVES))
    ] = 1,
    nudge: Annotated[bool, option("--nudge", help_.nudge())] = False,
    enlarge: Annotated[bool, option("--enlarge", help_.enlarge())] = False,
    dry_run: Annotated[bool, option("--dry-run", help_.dry_run())] = False,
) -> None:
    """Place the parts that have no position; on request move others by the minimum that clears findings."""
    from panelart.drafting.arrange import Request, without_place
    from panelart.source.edit import difference

    request = Request(grid=_step(grid), maximum=alternatives)
    text, file = _text(spec), spec.as_posix()
    missing = bool(without_place(text, file))
    if not missing and not nudge:
        print(said.all_placed(spec))
        return
    if nudge and alternatives != 1:
        refuse("--nudge", said.nudge_of_one_arrangement(), said.without_alternatives())
    found = _placed(text, spec, request, nudge=nudge, enlarge=enlarge) if missing else []
    after = found[0].arranged.text if found else text
    nudged = _nudged(after, spec) if nudge else None
    after = after if nudged is None else nudged.text
    sys.stdout.write(difference(text, after, spec.name))
    _write_arranged(spec, "" if dry_run or after == text else after, found)
    if _told(found, nudged):
        end(EXIT_FINDINGS)


def _told(found: Sequence[Tried], nudged: Nudged | None) -> bool:
    """Tell what came out; whether there are findings at error level."""
    if nudged is None:
        _tell(found, 0)
        return bool(found[0].errors)
    _tell_nudged(nudged)
    return bool(nudged.errors)


def _write_arranged(spec: Path, text: str, found: Sequence[Tried]) -> None:
    """Write the spec, '' where it stays, and a picture of several arrangements."""
    from panelart.writers import write_folders

    files = {spec: text.encode("utf-8")} if text else {}
    if len(found) > 1:
        out = spec.with_name(f"{spec.stem}-alternatives.png")
        files[out] = _side_by_side(found, out, spec.stem)
    write_folders([(path.parent, {path.name: data}) for path, data in files.items()])
    for path in files:
        print(path)


def _placed(text: str, spec: Path, request: Request, *, nudge: bool, enlarge: bool) -> list[Tried]:
    """The parts without place placed: in the room there is, else on a larger panel, else over others that then move."""
    from panelart.diagnostics import SpecError
    from panelart.drafting.tried import arranged_larger, arranged_over, arranged_well

    file, folder = spec.as_posix(), spec.parent
    try:
        return arranged_well(text, file, folder, request)
    except SpecError:
        if enlarge:
            return arranged_larger(text, file, folder, request)
        if nudge:
            return arranged_over(text, file, folder)
        raise


def _nudged(text: str, spec: Path) -> Nudged:
    """The smallest moves that clear the findings; on a terminal each state that was built is told."""
    from panelart.drafting.nudging import nudged

    def tell(built: int, maximum: int, findings: int) -> None:
        print(f"\r{said.nudging(built, maximum, findings)}", end="", file=sys.stderr, flush=True)

    shows = sys.stderr.isatty()
    found = nudged(text, spec.as_posix(), spec.parent, tell=tell if shows else None)
    if shows:
        print(file=sys.stderr)
    return found


def _tell_nudged(nudged: Nudged) -> None:
    """Each move with what it clears, what is left and why, and how good the moves are."""
    for step in nudged.steps:
        print(_step_told(step))
        if step.clears:
            print(f"  {said.clears(step.clears)}")
    for left in nudged.left:
        print(said.still_found(left.finding.rule, left.finding.says, left.why))
    if not nudged.steps:
        print(said.nothing_moved())
    elif nudged.proved:
        print(said.moved_least(nudged.cost))
    else:
        print(said.moved_in_all(nudged.cost, nudged.bound))


def _step_told(step: Step) -> Said:
    """A move: what, from where to where, by how much."""
    by, more = said.moved_by(*step.by), len(step.refs) - 1
    if more:
        return said.several_moved(step.refs[0], more, step.start, step.end, by)
    return said.one_moved(step.refs[0], step.start, step.end, by)


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


def _write(made: Drafted, more: Mapping[Path, bytes], spec: Path, says: Sequence[Said]) -> None:
    """Write the specs, a picture where there are several, and all that goes with them: together, or nothing."""
    from panelart.writers import write_folders

    files = {spec.parent / name: text.encode("utf-8") for name, text in made.texts.items()}
    if len(made.texts) > 1:
        out = spec.with_name(f"{spec.stem}-alternatives.png")
        arrangements = [one for found in made.found.values() for one in found]
        files[out] = _side_by_side(arrangements, out, str(said.arrangements(made.title)))
    write_folders([(path.parent, {path.name: data}) for path, data in {**files, **more}.items()])
    print(*says, *files, sep="\n")


def _side_by_side(found: Sequence[Tried], out: Path, title: str) -> bytes:
    """Arrangements in one picture."""
    from panelart.sheets.beside import side_by_side

    panels = [
        (one.built.layout, str(said.arrangement(number, one.arranged.plan.size)))
        for number, one in enumerate(found, start=1)
    ]
    return drawing_bytes(side_by_side(panels, title), out)


def _tell_ideas(found: Sequence[Tried]) -> None:
    """What each of several arrangements is the best of, with its figures."""
    ideas = {
        "overall": said.idea_overall(),
        "rows": said.idea_rows(),
        "columns": said.idea_columns(),
        "mirrored": said.idea_mirrored(),
        "compact": said.idea_compact(),
        "generous": said.idea_generous(),
        "another": said.idea_another(),
    }
    for number, one in enumerate(found if len(found) > 1 else (), start=1):
        plan = one.arranged.plan
        if plan.figures is not None:
            own = plan.figures
            figures = [
                said.area(round(own.area)),
                said.lines(own.lines),
                said.pitches(own.pitches),
                said.reach(round(own.reach)),
            ]
            print(said.alternative(number, ideas[plan.idea], plan.size, figures))


def _tell(found: Sequence[Tried], questions: int, name: str = "") -> None:
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
