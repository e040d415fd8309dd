"""`panelart draft`: a component list to a first spec; `panelart arrange`: places for parts that have none."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import Spec, app

if TYPE_CHECKING:
    from panelart.drafting.arrange import Arranged
    from panelart.drafting.tried import Tried
    from panelart.lists.matching import Matcher
    from panelart.lists.read import ComponentList
    from panelart.model.component import Component

_MAX_ALTERNATIVES = 6

Grid = Annotated[str, typer.Option("--grid", metavar="STEP", help="What distances are rounded to: mm, 'inch', 'HP'.")]


@app.command()
def draft(
    parts: Annotated[
        Path, typer.Argument(metavar="PARTS", help="The list: CSV, TSV, XLSX or ODS.", show_default=False)
    ],
    size: Annotated[
        str, typer.Option("--size", metavar="WxH", help="260x110; 260x or x110 with one side free; 3U; smallest.")
    ] = "smallest",
    sizes: Annotated[
        str, typer.Option("--sizes", metavar="LIST", help="Sizes to choose the smallest from: 160x100,200x120.")
    ] = "",
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="The spec; by default the list's name, .yaml.")
    ] = None,
    title: Annotated[str, typer.Option("--title", metavar="TEXT", help="What the panel is.")] = "",
    side: Annotated[
        str, typer.Option("--side", metavar="SIDE", help="The parts of which side: front or rear.")
    ] = "front",
    grid: Grid = "1",
    hand: Annotated[
        str, typer.Option("--hand", metavar="HAND", help="Hold the standards' spacing for a bare or gloved hand.")
    ] = "",
    catalogue: Annotated[
        list[str] | None,
        typer.Option("--catalogue", metavar="FILE", help="A file of parts of your own, relative to the spec."),
    ] = None,
    alternatives: Annotated[
        int, typer.Option("--alternatives", metavar="N", help="Write N arrangements and a picture of them.", min=1)
    ] = 1,
    force: Annotated[bool, typer.Option("--force", help="Write over a spec that is there.")] = False,
) -> None:
    """Write a first spec for a list of components, arranged and checked. What is not known stays in it as a question.

    Exit 1 when the first panel has findings at error level, 2 when the list cannot be read or does not fit.
    """
    from panelart.drafting.arrange import Request
    from panelart.drafting.draft import Heading, drafts
    from panelart.drafting.sizes import grid_step, size_wish
    from panelart.drafting.tried import tried
    from panelart.lists.read import read_list

    spec = out if out is not None else parts.with_suffix(".yaml")
    if spec.suffix.lower() not in (".yaml", ".yml"):
        raise typer.BadParameter(f"'{spec.name}' does not end in .yaml", param_hint="--out")
    if spec.exists() and not force:
        raise typer.BadParameter(f"'{spec}' is there already; --force writes over it", param_hint="--out")
    _one_of(side, ("front", "rear"), "--side")
    _one_of(hand, ("", "bare", "gloved"), "--hand")
    try:
        wish, step = size_wish(size, sizes), grid_step(grid)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--size or --grid") from None
    matcher = _matcher(catalogue or [], spec.parent)
    listed = read_list(read_bytes(parts), parts.name, matcher)
    heading = Heading(
        title=title or f"{parts.stem}, {side}", hand=hand or None, side=side, catalogue=tuple(catalogue or ())
    )
    maximum = min(alternatives, _MAX_ALTERNATIVES)
    remarks: list[str] = []

    def make(white: float) -> list[Arranged]:
        made = drafts(
            listed, heading, Request(wish=wish, grid=step, white=white, maximum=maximum), spec.parent, matcher
        )
        remarks[:] = made[0].remarks if made else [*map(str, listed.remarks)]
        return [one.arranged for one in made]

    found = tried(make, spec.as_posix(), spec.parent) if any(item.side == side for item in listed.known) else []
    print(f"{parts.name}: {listed.form}; {_headers(listed)}")
    for remark in remarks or map(str, listed.remarks):
        print(remark)
    if not found:
        print(f"error: no part of the {side} is known, so there is nothing to arrange", file=sys.stderr)
        raise typer.Exit(2)
    _write(found, spec, f"{heading.title}: arrangements")
    _tell(found, len(listed.questions))
    if found[0].errors:
        raise typer.Exit(1)


@app.command()
def arrange(
    spec: Spec,
    grid: Grid = "1",
    alternatives: Annotated[
        int, typer.Option("--alternatives", metavar="N", help="Also draw N arrangements side by side.", min=1)
    ] = 1,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Print what would change, and change nothing.")] = False,
) -> None:
    """Give a place to each part of a spec that has no `at:`, and write it into the file; nothing else is changed.

    Exit 1 when the panel then has findings at error level, 2 when the spec cannot be read or the parts do not fit.
    """
    from panelart.drafting.arrange import Request, arranged, without_place
    from panelart.drafting.sizes import grid_step
    from panelart.drafting.tried import tried
    from panelart.source.edit import difference
    from panelart.writers import write_all

    try:
        step = grid_step(grid)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--grid") from None
    text = _text(spec)
    if not without_place(text, spec.as_posix()):
        print(f"{spec}: every part has its place; take out an `at:` to have one arranged")
        return
    maximum = min(alternatives, _MAX_ALTERNATIVES)
    found = tried(
        lambda white: arranged(text, spec.as_posix(), spec.parent, Request(grid=step, white=white, maximum=maximum)),
        spec.as_posix(),
        spec.parent,
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
        raise typer.Exit(1)


def _one_of(word: str, known: tuple[str, ...], option: str) -> None:
    if word not in known:
        names = ", ".join(name for name in known if name)
        raise typer.BadParameter(f"'{word}' is none of {names}", param_hint=option)


def read_bytes(path: Path) -> bytes:
    """A list's bytes, up to one more than is accepted. Raises SpecError when it cannot be read."""
    from panelart.diagnostics import Problem, SpecError, Where
    from panelart.lists.tables import MAX_BYTES

    try:
        with path.open("rb") as file:
            return file.read(MAX_BYTES + 1)
    except OSError as error:
        why = (error.strerror or "no such file").lower()
        where = Where(path.as_posix(), 1, 1)
        raise SpecError([Problem(where=where, says=f"the list cannot be read: {why}", accepts="")]) from error


def _text(path: Path) -> str:
    from panelart.diagnostics import Problem, SpecError, Where
    from panelart.source import yaml
    from panelart.spec import read as spec_files

    try:
        data = spec_files.read_bytes(path)
    except OSError as error:
        why = (error.strerror or "no such file").lower()
        where = Where(path.as_posix(), 1, 1)
        raise SpecError([Problem(where=where, says=f"the spec cannot be read: {why}", accepts="")]) from error
    yaml.read(data, path.as_posix())
    return data.decode("utf-8")


def _matcher(files: list[str], folder: Path) -> Matcher:
    from panelart.catalogue import read_file
    from panelart.lists.matching import Matcher

    own: dict[str, Component] = {}
    for name in files:
        own |= read_file(read_bytes(folder / name), name)
    return Matcher(own)


def _headers(listed: ComponentList) -> str:
    header = listed.header
    words = f"columns {', '.join(header.columns)}"
    if header.loosely:
        words += f"; {', '.join(f'{written!r} is taken for {column}' for written, column in header.loosely)}"
    if header.unused:
        words += f"; not used: {', '.join(header.unused)}"
    return words


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
    from panelart.cli.drawn import write_drawing
    from panelart.sheets.beside import side_by_side

    panels = [
        (one.built.layout, f"{number}: {one.arranged.plan.size[0]:g} x {one.arranged.plan.size[1]:g} mm")
        for number, one in enumerate(found, start=1)
    ]
    write_drawing(side_by_side(panels, title), out)
    print(out)


def _tell(found: list[Tried], questions: int) -> None:
    best = found[0]
    width, height = best.arranged.plan.size
    counts = {"error": 0, "warning": 0, "note": 0}
    for finding in best.built.inspection.findings:
        counts[finding.severity.value] += 1
    parts = len(best.built.layout.panel.parts)
    asked = f", {questions} parts left as questions" if questions else ""
    print(
        f"{parts} parts on {width:g} x {height:g} mm{asked}; "
        f"{counts['error']} errors, {counts['warning']} warnings, {counts['note']} notes"
    )
