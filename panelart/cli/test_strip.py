"""`panelart test-strip`: a chart that finds what a shop's marking holds, and its limits put into the shop file."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.options import DRAWINGS, PROCESS, YAML
from panelart.cli.usage import refuse, refuse_name
from panelart.cli.values import file, text
from panelart.messages import cli_help, cli_usage
from panelart.messages import cli_help_press as help_
from panelart.messages import cli_press as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.processes.process import Process

MAX_LIMIT = 20.0
INK = ("black", "#101214")
PATHS = (*DRAWINGS, ".dxf")
"""Endings of a strip that is paths of cutters or of a beam."""


@command(help_.test_strip_means(), extensions=True)
def test_strip(
    process: Annotated[str, argument(cli_help.process(), PROCESS)],
    out: Annotated[Path | None, option("-o --out", cli_help.output_drawing(), file(*PATHS))] = None,
    ink: Annotated[str | None, option("--ink", help_.ink_name(), text("NAME"))] = None,
    colour: Annotated[str | None, option("--colour", help_.ink_colour(), text("#RRGGBB"))] = None,
    limits: Annotated[str | None, option("--limits", help_.strip_limits(), text("LIMIT=MM,..."))] = None,
    shop: Annotated[Path | None, option("--shop", help_.strip_shop(), file(*YAML))] = None,
    reason: Annotated[str | None, option("--reason", help_.strip_reason(), text("TEXT"))] = None,
) -> None:
    """Draw a test strip for a marking process."""
    from panelart.processes.registry import processes

    known = processes()
    if process not in known:
        refuse_name(said.unknown_process(process), process, known, said.processes())
    _require_task(limits, shop, out)
    if colour is not None and not re.fullmatch(r"#[0-9A-Fa-f]{6}", colour):
        refuse("--colour", said.not_a_colour(colour), said.accepted_colour())
    held = None if limits is None else _limits(limits)
    if out is not None:
        _draw(known[process], ink, colour, out)
    if held is not None and shop is not None:
        _save(known[process], held, shop, str(said.strip_reason()) if reason is None else reason)


def _require_task(limits: str | None, shop: Path | None, out: Path | None) -> None:
    """A strip to be drawn, or limits with the shop file that takes them. Raises Refused for neither and for half."""
    if (limits is None) != (shop is None):
        given, other = ("--limits", "--shop") if shop is None else ("--shop", "--limits")
        refuse(given, cli_usage.needs(other))
    if limits is None and out is None:
        refuse("", said.strip_without_task(), said.strip_tasks())


def _draw(process: Process, ink: str | None, colour: str | None, out: Path) -> None:
    """Write the strip of a process. Raises Refused for an ink that it cannot lay down, or where it lays none."""
    from panelart.model.panel import Ink
    from panelart.press.beam_strip import beam_strip
    from panelart.press.cutter_strip import cutter_strip
    from panelart.press.strip import ink_strip
    from panelart.processes.process import BeamLines, CutterPaths

    if process.gives(CutterPaths) or process.gives(BeamLines):
        if ink is not None or colour is not None:
            refuse("--ink" if colour is None else "--colour", said.strip_without_ink(process.title.lower()))
        require_ending(out, PATHS)
        write_drawing(cutter_strip(process) if process.gives(CutterPaths) else beam_strip(process), out)
    else:
        require_ending(out)
        try:
            write_drawing(ink_strip(process, Ink(name=ink or INK[0], colour=colour or INK[1])), out)
        except ValueError as error:
            refuse("--ink", said_by(error))
    print(out)


def _save(process: Process, limits: Mapping[str, float], shop: Path, reason: str) -> None:
    """Put limits into a shop file; a new one where there is none."""
    from panelart.spec.shop_edit import not_text, with_limits
    from panelart.writers import write_all

    try:
        before = shop.read_bytes().decode("utf-8") if shop.exists() else ""
    except UnicodeDecodeError:
        raise not_text(shop) from None
    after = with_limits(before, shop, process.name, limits, reason)
    write_all({shop.name: after.encode("utf-8")}, shop.parent)
    print(shop)
    for name, value in limits.items():
        print(said.limit_saved(process.name, name, value, reason, getattr(process, name).value))


def _limits(text: str) -> dict[str, float]:
    from panelart.press.strip import LIMITS

    found: dict[str, float] = {}
    for one in text.split(","):
        name, given, figure = one.partition("=")
        try:
            value = float(figure)
        except ValueError:
            value = -1.0
        if not given or name.strip() not in LIMITS or not 0.0 < value <= MAX_LIMIT:
            refuse("--limits", said.not_a_limit(one), said.accepted_limits(tuple(LIMITS), MAX_LIMIT))
        found[name.strip()] = value
    return found
