"""`panelart check`: the findings of a panel."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.canonical import Struct
from panelart.cli.declaring import command, option
from panelart.cli.options import (
    ANSWERS,
    DRAWINGS,
    LISTS,
    Format,
    IgnorePlacement,
    Quiet,
    Shop,
    SideOf,
    Spec,
)
from panelart.cli.usage import refuse
from panelart.cli.values import DAY, file, text
from panelart.messages import cli as said
from panelart.messages import cli_help, cli_usage
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.diagnostics import SpecError
    from panelart.reports.text import Detail


@command(cli_help.exit_1_for_errors(), extensions=True)
def check(
    spec: Spec,
    format_: Annotated[Format, option("--format", cli_help.format_of_findings())] = Format.TEXT,
    quiet: Quiet = False,
    verbose: Annotated[bool, option("-v --verbose", cli_help.verbose())] = False,
    explain: Annotated[str | None, option("--explain", help_.explain(), text("REF"))] = None,
    out: Annotated[Path | None, option("-o --out", help_.explain_out(), file(*DRAWINGS))] = None,
    suggest: Annotated[bool, option("--suggest", help_.suggest())] = False,
    components: Annotated[Path | None, option("--components", help_.components(), file(*LISTS))] = None,
    side: Annotated[SideOf | None, option("--side", help_.components_side())] = None,
    answers: Annotated[list[Path] | None, option("--answers", help_.components_answers(), file(*ANSWERS))] = None,
    baseline: Annotated[Path | None, option("--baseline", help_.baseline(), file(".json"))] = None,
    write_baseline: Annotated[Path | None, option("--write-baseline", help_.write_baseline(), file(".json"))] = None,
    date: Annotated[str, option("--date", help_.date_of_waivers(), DAY)] = "",
    shop: Shop = None,
    ignore_placement: IgnorePlacement = False,
) -> None:
    """Check a panel and report the findings."""
    from panelart.cli.findings import detail_of

    if explain is not None:
        from panelart.cli.explain import explain as explained

        explained(spec, explain, out, ignore_placement=ignore_placement)
        return
    if out is not None:
        refuse("--out", said.out_only_with_explain())
    if format_ is not Format.TEXT:
        for option, given in (
            ("--suggest", suggest),
            ("--components", components is not None),
            ("--quiet", quiet),
            ("--verbose", verbose),
        ):
            if given:
                refuse(option, cli_usage.text_only())
    _check(
        _Task(
            spec=spec,
            format_=format_,
            detail=detail_of(quiet=quiet, verbose=verbose),
            today=date or dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat(),
            shop=shop,
            ignore_placement=ignore_placement,
            suggest=suggest,
            components=components,
            side=side or "",
            answers=tuple(answers or ()),
            baseline=baseline,
            write_baseline=write_baseline,
        )
    )


class _Task(Struct, frozen=True, kw_only=True):
    """What is checked and told; the names are those of the options."""

    spec: Path
    format_: Format
    detail: Detail
    today: str
    shop: Path | None
    ignore_placement: bool
    suggest: bool
    components: Path | None
    side: str
    answers: tuple[Path, ...]
    baseline: Path | None
    write_baseline: Path | None

    @property
    def takes_one(self) -> bool:
        """Whether what is asked is of one panel, not of a set."""
        files = (self.baseline, self.write_baseline)
        return self.suggest or self.format_ is not Format.TEXT or any(file is not None for file in files)


def _check(task: _Task) -> None:
    from panelart import api
    from panelart.cli.exits import EXIT_FINDINGS, end
    from panelart.cli.findings import print_built, print_for_programs, print_untranslated
    from panelart.spec.translations import LONGEST

    if not task.takes_one and _checked_as_set(task):
        return
    try:
        panel = api.load(task.spec, language=LONGEST, shop=task.shop)
        result = api.build(panel, ignore_placement=task.ignore_placement, today=task.today, baseline=task.baseline)
    except api.SpecError as error:
        _print_problems(error, task.format_)
        raise
    inspection = result.inspection
    if task.write_baseline is not None:
        from panelart.writers import write_all

        write_all({task.write_baseline.name: result.baseline.encode("utf-8")}, task.write_baseline.parent)
        print(task.write_baseline)
        return
    if task.format_ is Format.TEXT:
        print_built(result.built, str(task.spec), task.detail)
    else:
        print_for_programs(inspection, task.format_)
    print_untranslated(panel, task.detail)
    if task.suggest:
        from panelart.cli.suggest import print_suggestions

        print_suggestions(task.spec, inspection, task.today)
    differs = _differs(task, {"": task.spec})
    if differs or inspection.failed:
        end(EXIT_FINDINGS)


def _checked_as_set(task: _Task) -> bool:
    """Whether the spec holds several panels, which are then checked one after the other."""
    from panelart.cli.exits import EXIT_FINDINGS, end
    from panelart.cli.findings import print_set
    from panelart.cli.sets import build_set
    from panelart.spec.read import panel_names

    names = panel_names(task.spec)
    if not names:
        return False
    built = build_set(task.spec, names, task.shop, task.today, ignore_placement=task.ignore_placement)
    failed = print_set(built, str(task.spec), task.detail)
    differs = _differs(task, {name: task.spec.with_name(f"{task.spec.name}#{name}") for name in names})
    if failed or differs:
        end(EXIT_FINDINGS)
    return True


def _differs(task: _Task, specs: Mapping[str, Path]) -> bool:
    """Whether panels, by their names in a set, differ from the component list; printed how.

    They are read once more, as the findings are of the longest words of all languages, which no list has.
    """
    from panelart.cli.components import print_differences
    from panelart.pipeline import read

    if task.components is None:
        return False
    panels = {name: read(spec, task.shop) for name, spec in specs.items()}
    return print_differences(panels, task.components, task.side, task.answers)


def _print_problems(error: SpecError, format_: Format) -> None:
    """What stops a check, for a program that reads the output; people read it where all commands say it."""
    from panelart.reports.problems import json_problems, junit_problems, sarif_problems

    written = {Format.JSON: json_problems, Format.SARIF: sarif_problems, Format.JUNIT: junit_problems}.get(format_)
    if written is not None:
        sys.stdout.write(written(error.problems))
