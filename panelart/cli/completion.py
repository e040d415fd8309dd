"""`panelart completion`: the script that makes a shell complete what is typed after `panelart`."""

from __future__ import annotations

import sys
from enum import StrEnum
from typing import Annotated

from panelart.cli.declaring import argument, command
from panelart.cli.values import one_of
from panelart.messages import cli_help as help_


class Shell(StrEnum):
    """A shell that has a script."""

    BASH = "bash"
    ZSH = "zsh"
    FISH = "fish"


@command(help_.completion_bash(), help_.completion_zsh(), help_.completion_fish())
def completion(shell: Annotated[Shell, argument(help_.shell(), one_of(Shell, "SHELL"))]) -> None:
    """Print the completion script for a shell."""
    from panelart.cli.shells import script

    sys.stdout.write(script(shell.value))
