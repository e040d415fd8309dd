"""`panelart shop-file`: the limits of a process as a shop file, to be corrected to what the shop holds."""

from __future__ import annotations

import sys
from typing import Annotated

from panelart.cli.declaring import argument, command
from panelart.cli.options import PROCESS
from panelart.cli.usage import refuse_name
from panelart.messages import cli_help_press as help_
from panelart.messages import cli_press as said


@command(help_.shop_file_means(), extensions=True)
def shop_file(
    process: Annotated[str | None, argument(help_.process_or_all(), PROCESS)] = None,
) -> None:
    """Print a shop file for a marking process."""
    from panelart.processes.registry import processes
    from panelart.spec.shop import shop_text

    known = processes()
    if process is not None and process not in known:
        refuse_name(said.unknown_process(process), process, known, said.processes())
    sys.stdout.write(shop_text([known[process]] if process is not None else list(known.values())))
