"""The table of commands and what they share."""

from __future__ import annotations

import os
import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart import __version__
from panelart.cli.parts import parts

if TYPE_CHECKING:
    from panelart.checks import Inspection
    from panelart.checks.baseline import Known
    from panelart.diagnostics import SpecError
    from panelart.model.panel import Panel

app = typer.Typer(
    name="panelart",
    help="From a list of panel components to checked cutouts, placed legends and the files to make them.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

Spec = Annotated[Path, typer.Argument(metavar="SPEC", help="The panel's YAML file.", show_default=False)]


Shop = Annotated[
    Path | None,
    typer.Option("--shop", metavar="FILE", help="A shop's own figures, in the place of the file that the spec names."),
]
Fresh = Annotated[bool, typer.Option("--fresh", help="Leave an accepted placement (.placement.json) out of account.")]


ALL = "all"


class Format(StrEnum):
    """How findings are printed."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"
    JUNIT = "junit"


def _version(asked: bool) -> None:
    if asked:
        print(f"panelart {__version__}")
        raise typer.Exit


@app.callback()
def options(
    _: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """From a list of panel components to checked cutouts, placed legends and the files to make them."""


@app.command()
def check(
    spec: Spec,
    format_: Annotated[
        Format, typer.Option("--format", help="Text for people; JSON, SARIF or JUnit XML for programs.")
    ] = Format.TEXT,
    baseline: Annotated[
        Path | None,
        typer.Option("--baseline", metavar="FILE", help="Findings that were there before, which are set apart."),
    ] = None,
    write_baseline: Annotated[
        Path | None,
        typer.Option("--write-baseline", metavar="FILE", help="Write what is found now as a baseline, and stop."),
    ] = None,
    date: Annotated[
        str,
        typer.Option("--date", metavar="YYYY-MM-DD", help="The day waivers are held against; today by default."),
    ] = "",
    why: Annotated[
        str | None, typer.Option("--why", metavar="REF", help="Print all places of that part's legends instead.")
    ] = None,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="With --why: draw the places (.svg, .pdf, .png).")
    ] = None,
    fresh: Fresh = False,
    shop: Shop = None,
    suggest: Annotated[
        bool,
        typer.Option("--suggest", help="Also print edits of the spec, each tried: it clears its finding, makes none."),
    ] = False,
    list_: Annotated[
        Path | None,
        typer.Option(
            "--list", metavar="PARTS", help="Also hold the panel against a component list; exit 1 if it differs."
        ),
    ] = None,
    side: Annotated[
        str, typer.Option("--side", metavar="SIDE", help="With --list: the parts of which side, front or rear.")
    ] = "",
) -> None:
    """Lay the panel out and print what is wrong with it. Exit 1 when anything is at error level."""
    import datetime as dt

    if why is not None:
        from panelart.cli.why import why as explain

        explain(spec, why, out, fresh=fresh)
        return
    if suggest and format_ is not Format.TEXT:
        raise typer.BadParameter("is for people: it goes with --format text", param_hint="--suggest")
    if list_ is not None and format_ is not Format.TEXT:
        raise typer.BadParameter("is for people: it goes with --format text", param_hint="--list")
    if side not in ("", "front", "rear"):
        raise typer.BadParameter(f"'{side}' is neither front nor rear", param_hint="--side")
    if out is not None:
        raise typer.BadParameter("goes with --why only; `make` writes the panel's files", param_hint="--out")
    from panelart.diagnostics import SpecError
    from panelart.pipeline import build, read, read_placement
    from panelart.spec.tongues import LONGEST

    require_date(date)
    today = date or dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    asks_one = suggest or format_ is not Format.TEXT or (baseline, write_baseline, list_) != (None, None, None)
    if not asks_one and _checked_as_set(spec, shop, today, fresh=fresh):
        return
    try:
        known = None if baseline is None else _read_baseline(baseline)
        panel = read(spec, shop, LONGEST)
        accepted = None if fresh else read_placement(spec)
        inspection = build(panel, accepted, today=today, baseline=known).inspection
    except SpecError as error:
        _print_problems(error, format_)
        raise
    if write_baseline is not None:
        from panelart.checks.baseline import baseline_text

        write_baseline.write_text(baseline_text((*inspection.findings, *inspection.known)), encoding="utf-8")
        print(write_baseline)
        return
    print_findings(inspection, format_)
    _tell_untranslated(panel)
    if suggest:
        from panelart.cli.suggested import print_suggestions

        print_suggestions(spec, inspection, today)
    if list_ is not None:
        from panelart.cli import EXIT_FINDINGS
        from panelart.cli.buying import hold_against

        if hold_against(panel, list_, side):
            raise typer.Exit(EXIT_FINDINGS)
    _exit_by(inspection)


def _checked_as_set(spec: Path, shop: Path | None, today: str, *, fresh: bool) -> bool:
    """Whether the spec holds several panels, which are then checked one after the other."""
    from panelart.cli import EXIT_FINDINGS
    from panelart.cli.sets import build_set, check_set
    from panelart.spec.read import panel_names

    names = panel_names(spec)
    if names and check_set(build_set(spec, names, shop, today, fresh=fresh)):
        raise typer.Exit(EXIT_FINDINGS)
    return bool(names)


@app.command()
def make(
    spec: Spec,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="DIR", help="Folder for the files; by default the spec's name."),
    ] = None,
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Date printed on the proof; none by default.")
    ] = "",
    rear: Annotated[bool, typer.Option("--rear", help="Also write the cut layer as seen from the rear.")] = False,
    fresh: Fresh = False,
    shop: Shop = None,
    accept: Annotated[
        bool,
        typer.Option("--accept", help="Keep where the legends stand in SPEC's .placement.json, to stay there later."),
    ] = False,
    language: Annotated[
        str,
        typer.Option(
            "--language", metavar="TAG|all", help="A language of the spec's `languages`, or all, each in a folder."
        ),
    ] = "",
) -> None:
    """Write artwork, cut layer, proof and lists: all of them, or none. Exit 1 when anything is at error level.

    Of a spec with several panels each is made in a folder of its name, beside lists for all of them.
    """
    from panelart.cli import EXIT_FINDINGS
    from panelart.cli.sets import build_set, check_set, write_set
    from panelart.pipeline import build, placement_path, read, read_placement, write
    from panelart.spec.read import panel_names
    from panelart.spec.tongues import AS_WRITTEN
    from panelart.writers import write_all

    require_date(date)
    names = panel_names(spec)
    if names and not accept and not language:
        panels = build_set(spec, names, shop, date, fresh=fresh)
        write_set(panels, out if out is not None else Path(spec.stem), date, rear=rear)
        if check_set(panels):
            raise typer.Exit(EXIT_FINDINGS)
        return
    panel = read(spec, shop, AS_WRITTEN if language in ("", ALL) else language)
    accepted = None if fresh else read_placement(spec)
    folder = out if out is not None else Path(spec.stem)
    made = {folder: build(panel, accepted, today=date)}
    if language == ALL:
        made = {folder / AS_WRITTEN: made[folder]}
        made |= {folder / name: build(read(spec, shop, name), accepted, today=date) for name in panel.languages}
    written = {place: write(built, date=date, rear=rear) for place, built in made.items()}
    for place, files in written.items():
        write_all(files, place)
        for name in files:
            print(place / name)
    if accept:
        kept = placement_path(spec)
        write_all({kept.name: next(iter(made.values())).placement}, kept.parent)
        print(kept)
    for place, built in made.items():
        if len(made) > 1:
            print(f"\n{place.name}")
        print_findings(built.inspection, Format.TEXT)
    if language:
        _tell_untranslated(panel)
    if any(built.inspection.failed for built in made.values()):
        raise typer.Exit(EXIT_FINDINGS)


def _tell_untranslated(panel: Panel) -> None:
    """What a language has no word for, as notes beside the findings."""
    for one in panel.untranslated:
        text = " ".join(one.text.split())
        print(f"{one.where}: note: {one.language} has no word for “{text}”", file=sys.stderr)


@app.command()
def schema(
    keys: Annotated[bool, typer.Option("--keys", help="Print the description of every key instead.")] = False,
) -> None:
    """Print the JSON Schema of the spec, for editors that complete and check."""
    import json

    from panelart.spec.language import json_schema, key_reference

    print(key_reference() if keys else json.dumps(json_schema(), indent=2, ensure_ascii=False))


@app.command()
def rules(
    name: Annotated[str | None, typer.Argument(metavar="RULE", help="One rule, for its page.")] = None,
    markdown: Annotated[
        bool, typer.Option("--markdown", help="All pages and all limits in Markdown, as panelart/checks/RULES.md.")
    ] = False,
) -> None:
    """List the rules, or print the page of one."""
    from panelart.checks import RULES
    from panelart.diagnostics import did_you_mean

    if markdown:
        from panelart.reports.rule_reference import rule_reference

        sys.stdout.write(rule_reference())
        return
    if name is None:
        widest = max(map(len, RULES))
        for rule in RULES.values():
            print(f"{rule.name:<{widest}}  {rule.severity.value:<7}  {rule.doc.splitlines()[0]}")
        return
    if name not in RULES:
        print(f"error: there is no rule '{name}'; {did_you_mean(name, RULES, 'rules')}", file=sys.stderr)
        raise typer.Exit(2)
    print(f"{name} ({RULES[name].severity.value})\n\n{RULES[name].doc}")


def _read_baseline(path: Path) -> Known:
    from panelart.checks.baseline import read_baseline
    from panelart.diagnostics import Problem, SpecError, Where

    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        why = (getattr(error, "strerror", None) or "it is no text").lower()
        problem = Problem(
            where=Where(path.as_posix(), 1, 1),
            says=f"the baseline cannot be read: {why}",
            accepts="accepted: a file that `panelart check SPEC --write-baseline FILE` wrote",
        )
        raise SpecError([problem]) from error
    return read_baseline(text, path.as_posix())


app.command()(parts)


def require_date(date: str) -> None:
    """Nothing, or a day as YYYY-MM-DD. Raises typer.BadParameter."""
    import datetime as dt

    if not date:
        return
    try:
        fits = dt.date.fromisoformat(date).isoformat() == date
    except ValueError:
        fits = False
    if not fits:
        raise typer.BadParameter(f"'{date}' is not a date of the form YYYY-MM-DD", param_hint="--date")


def print_findings(inspection: Inspection, format_: Format) -> None:
    """Print findings in a form."""
    if format_ is Format.JSON:
        from panelart.reports.json import json_report

        sys.stdout.write(json_report(inspection))
    elif format_ is Format.SARIF:
        from panelart.reports.sarif import sarif_report

        sys.stdout.write(sarif_report(inspection))
    elif format_ is Format.JUNIT:
        from panelart.reports.junit import junit_report

        sys.stdout.write(junit_report(inspection))
    else:
        from panelart.reports.text import text_report

        colour = sys.stdout.isatty() and "NO_COLOR" not in os.environ
        width = os.get_terminal_size().columns if sys.stdout.isatty() else 100
        print(text_report(inspection, width=width, colour=colour))


def _print_problems(error: SpecError, format_: Format) -> None:
    """What stops a check, for a program that reads the output; people read it where all commands say it."""
    from panelart.reports.problems import json_problems, junit_problems, sarif_problems

    written = {Format.JSON: json_problems, Format.SARIF: sarif_problems, Format.JUNIT: junit_problems}.get(format_)
    if written is not None:
        sys.stdout.write(written(error.problems))


def _exit_by(inspection: Inspection) -> None:
    from panelart.cli import EXIT_FINDINGS

    if inspection.failed:
        raise typer.Exit(EXIT_FINDINGS)
