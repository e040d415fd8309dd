"""`panelart check`: the findings of a panel."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cli.declaring import command, option
from panelart.cli.options import (
    ANSWERS,
    DRAWINGS,
    LISTS,
    Cluster,
    Every,
    Format,
    IgnorePlacement,
    Quiet,
    Shard,
    Shop,
    SideOf,
    Specs,
)
from panelart.cli.specs import are_several, by_panel, specs_of
from panelart.cli.usage import refuse
from panelart.cli.values import DAY, file, text
from panelart.messages import cli as said
from panelart.messages import cli_help, cli_usage
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.cli.several import How, Outcome
    from panelart.diagnostics import SpecError
    from panelart.messages import Message
    from panelart.reports.text import Detail


@command(cli_help.exit_1_for_errors(), extensions=True)
def check(
    specs: Specs,
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
    every: Every = False,
    shard: Shard = None,
    cluster: Cluster = "",
) -> None:
    """Check a panel and report the findings."""
    from panelart.cli.findings import detail_of
    from panelart.cli.several import How

    how = How(every=every, shard=shard, cluster=cluster)
    several = are_several(specs) or how.spread
    if several:
        of_one = {"--explain": explain, "--suggest": suggest, "--components": components, "--baseline": baseline,
                  "--write-baseline": write_baseline}  # fmt: skip
        _refuse_given(of_one, said.of_one_spec())
    if explain is not None:
        from panelart.cli.explain import explain as explained

        explained(specs[0], explain, out, ignore_placement=ignore_placement)
        return
    if out is not None:
        refuse("--out", said.out_only_with_explain())
    if format_ is not Format.TEXT:
        of_text = {"--suggest": suggest, "--components": components, "--quiet": quiet, "--verbose": verbose}
        _refuse_given(of_text, cli_usage.text_only())
    task = _Task(
        spec=specs[0],
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
    if several:
        _check_several(task, by_panel(specs_of(specs)), how)
    else:
        _check_one(task)


def _refuse_given(options: Mapping[str, object], why: Message) -> None:
    """Refuse the first of the options that is given, if any is. Raises Refused."""
    for name, given in options.items():
        if given:
            refuse(name, why)


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

    @property
    def asked(self) -> _Task:
        """All that decides what is told, but for the day."""
        return replace(self, today="")

    @property
    def quiet(self) -> bool:
        """Whether only errors and warnings are told."""
        from panelart.reports.text import Detail

        return self.detail is Detail.QUIET


def _check_one(task: _Task) -> None:
    from panelart.cli.exits import EXIT_FINDINGS, end
    from panelart.spec.read import panel_names

    names = () if task.takes_one else panel_names(task.spec)
    failed = _checked_as_set(task, names) if names else _checked(task).code != 0
    if failed:
        end(EXIT_FINDINGS)


def _check_several(task: _Task, specs: tuple[Path, ...], how: How) -> None:
    """Check specs over the cores of this machine, and print what is told of each, in order."""
    from panelart.cli.several import Work, done, print_texts, print_totals
    from panelart.reports.several import json_of, junit_of, sarif_of

    joined = {Format.JSON: json_of, Format.SARIF: sarif_of, Format.JUNIT: junit_of}.get(task.format_)
    tasks = [replace(task, spec=spec) for spec in specs]
    results = done(Work(run=_checked, day=task.today), tasks, how)
    if joined is None:
        quiet = task.quiet
        print_totals(print_texts(results, apart=not quiet), quiet=quiet)
    else:
        ended = list(results)
        sys.stdout.write(joined([(one.spec.as_posix(), one.ended.out) for one in ended if one.ended.out]))
        print_totals(print_texts([one.told_apart for one in ended], apart=False), quiet=True)


def _checked(task: _Task) -> Outcome:
    """Check one panel and print what is found; what it rests on. Raises SpecError, OSError."""
    from panelart import api
    from panelart.cli.exits import EXIT_FINDINGS
    from panelart.cli.findings import print_built, print_for_programs, print_untranslated
    from panelart.cli.several import Outcome
    from panelart.spec.translations import LONGEST

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
        return Outcome(code=0, panels=(panel,))
    if task.format_ is Format.TEXT:
        print_built(result.built, str(task.spec), task.detail)
    else:
        print_for_programs(inspection, task.format_)
    print_untranslated(panel, task.detail)
    if task.suggest:
        from panelart.cli.suggest import print_suggestions

        print_suggestions(task.spec, inspection, task.today)
    differs = _differs(task, {"": task.spec})
    return Outcome(code=EXIT_FINDINGS if differs or inspection.failed else 0, panels=(panel,))


def _checked_as_set(task: _Task, names: tuple[str, ...]) -> bool:
    """Check the panels of a spec one after the other; whether there are errors or differences from a list."""
    from panelart.cli.findings import print_set
    from panelart.cli.sets import build_set

    built = build_set(task.spec, names, task.shop, task.today, ignore_placement=task.ignore_placement)
    failed = print_set(built, str(task.spec), task.detail)
    differs = _differs(task, {name: task.spec.with_name(f"{task.spec.name}#{name}") for name in names})
    return failed or differs


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
