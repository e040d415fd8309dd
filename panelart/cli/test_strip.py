"""`panelart test-strip`: a chart that finds what a shop's marking holds, and its limits put into the shop file."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.options import PROCESS, YAML, OutDrawing
from panelart.cli.usage import refuse, refuse_name
from panelart.cli.values import file, text
from panelart.messages import cli_help, cli_usage
from panelart.messages import cli_help_press as help_
from panelart.messages import cli_press as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.model.panel import Ink
    from panelart.processes.process import Process

MAX_LIMIT = 20.0


@command(help_.test_strip_means(), extensions=True)
def test_strip(
    process: Annotated[str, argument(cli_help.process(), PROCESS)],
    out: OutDrawing = None,
    ink: Annotated[str, option("--ink", help_.ink_name(), text("NAME"))] = "black",
    colour: Annotated[str, option("--colour", help_.ink_colour(), text("#RRGGBB"))] = "#101214",
    limits: Annotated[str | None, option("--limits", help_.strip_limits(), text("LIMIT=MM,..."))] = None,
    shop: Annotated[Path | None, option("--shop", help_.strip_shop(), file(*YAML))] = None,
    reason: Annotated[str | None, option("--reason", help_.strip_reason(), text("TEXT"))] = None,
) -> None:
    """Draw a test strip for a marking process."""
    from panelart.model.panel import Ink
    from panelart.processes.registry import processes

    known = processes()
    if process not in known:
        refuse_name(said.unknown_process(process), process, known, said.processes())
    _require_task(limits, shop, out)
    if not re.fullmatch(r"#[0-9A-Fa-f]{6}", colour):
        refuse("--colour", said.not_a_colour(colour), said.accepted_colour())
    held = None if limits is None else _limits(limits)
    if out is not None:
        _draw(known[process], Ink(name=ink, colour=colour), out)
    if held is not None and shop is not None:
        _save(known[process], held, shop, str(said.strip_reason()) if reason is None else reason)


def _require_task(limits: str | None, shop: Path | None, out: Path | None) -> None:
    """A strip to be drawn, or limits with the shop file that takes them. Raises Refused for neither and for half."""
    if (limits is None) != (shop is None):
        given, other = ("--limits", "--shop") if shop is None else ("--shop", "--limits")
        refuse(given, cli_usage.needs(other))
    if limits is None and out is None:
        refuse("", said.strip_without_task(), said.strip_tasks())


def _draw(process: Process, ink: Ink, out: Path) -> None:
    """Write the strip of a process. Raises Refused when the process cannot lay down the ink."""
    from panelart.press.strip import ink_strip

    require_ending(out)
    try:
        write_drawing(ink_strip(process, ink), out)
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
