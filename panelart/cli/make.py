"""`panelart make`: every file of a panel."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import command
from panelart.cli.options import DIR, DateInFiles, IgnorePlacement, Quiet, Shop, Spec
from panelart.messages import cli as said
from panelart.messages import cli_help
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from panelart.pipeline import Built
    from panelart.reports.text import Detail

ALL = "all"


@command(help_.make(), help_.make_all_or_none(), cli_help.exit_1_for_errors())
def make(
    spec: Spec,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar=DIR, help=str(cli_help.output_folder_or_name()))
    ] = None,
    date: DateInFiles = "",
    language: Annotated[
        str, typer.Option("--language", metavar="TAG|all", help=str(help_.language()), show_default=False)
    ] = "",
    rear_view: Annotated[bool, typer.Option("--rear-view", help=str(help_.rear_view()))] = False,
    shop: Shop = None,
    save_placement: Annotated[bool, typer.Option("--save-placement", help=str(help_.save_placement()))] = False,
    ignore_placement: IgnorePlacement = False,
    quiet: Quiet = False,
    verbose: Annotated[bool, typer.Option("--verbose", "-v", help=str(cli_help.verbose_make()))] = False,
) -> None:
    """Write all files of a panel."""
    from panelart.cli import EXIT_FINDINGS
    from panelart.cli.findings import detail_of, print_built, print_set, print_untranslated
    from panelart.cli.sets import build_set, write_set
    from panelart.pipeline import build, placement_path, read, read_placement, write
    from panelart.spec.read import panel_names
    from panelart.spec.tongues import AS_WRITTEN
    from panelart.writers import write_all

    detail = detail_of(quiet=quiet, verbose=verbose)
    folder = out if out is not None else Path(spec.stem)
    names = panel_names(spec)
    if names and not save_placement and not language:
        panels = build_set(spec, names, shop, date, ignore_placement=ignore_placement)
        made_files = write_set(panels, folder, date, rear_view=rear_view)
        failed = print_set(panels, str(spec), detail)
        print_written(made_files, detail, apart=_any(panels.values()))
        if failed:
            raise typer.Exit(EXIT_FINDINGS)
        return
    panel = read(spec, shop, AS_WRITTEN if language in ("", ALL) else language)
    saved = None if ignore_placement else read_placement(spec)
    made = {folder: build(panel, saved, today=date)}
    if language == ALL:
        made = {folder / AS_WRITTEN: made[folder]}
        made |= {folder / name: build(read(spec, shop, name), saved, today=date) for name in panel.languages}
    written = {place: write(built, date=date, rear=rear_view) for place, built in made.items()}
    for place, files in written.items():
        write_all(files, place)
    kept = placement_path(spec)
    if save_placement:
        write_all({kept.name: next(iter(made.values())).placement}, kept.parent)
    for number, (place, built) in enumerate(made.items()):
        if len(made) > 1 and not quiet:
            print(f"{'' if number == 0 else chr(10)}{place.name}")
        print_built(built, str(spec), detail)
    if language:
        print_untranslated(panel)
    print_written({place: tuple(files) for place, files in written.items()}, detail, apart=_any(made.values()))
    if save_placement and not quiet:
        print(said.placement_saved(kept))
    if any(built.inspection.failed for built in made.values()):
        raise typer.Exit(EXIT_FINDINGS)


def _any(built: Iterable[Built]) -> bool:
    return any(one.inspection.findings for one in built)


def print_written(written: Mapping[Path, tuple[str, ...]], detail: Detail, *, apart: bool) -> None:
    """How many files were written into each folder, and in full which for whom; `apart` from what stands above."""
    from panelart.cli.terminal import terminal
    from panelart.reports.text import Detail
    from panelart.reports.written import written_text

    if detail is Detail.QUIET:
        return
    if apart:
        print()
    for folder, names in written.items():
        print(said.files_written(len(names), folder))
        if detail is Detail.VERBOSE:
            print(written_text(names, terminal(sys.stdout).width))
