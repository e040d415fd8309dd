"""What passes between a shell and the program while a line is completed: a script for each shell, one protocol.

The script sets a variable and calls the program with the line so far; the program answers with a line for each
completion, of three fields with tabs between them: `plain`, a word and what it means; `dir`; or `file` and the endings
that files may have, with spaces between them (none for any). Names of files are found by the shell, which knows how it
quotes them.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from click.shell_completion import BashComplete, FishComplete, ShellComplete, ZshComplete, add_completion_class

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem


def script(shell: str) -> str:
    """The script of a shell: bash, zsh or fish. Raises OSError for another."""
    return Path(__file__).with_name(f"completion.{shell}").read_text(encoding="utf-8")


def use() -> None:
    """Answer the scripts of this program, not those that click writes itself."""
    for shell in (_Bash, _Zsh, _Fish):
        add_completion_class(shell)


class _Answering(ShellComplete):
    """The answer in the form of this program's scripts."""

    def format_completion(self, item: CompletionItem[Any]) -> str:
        """One line of the answer."""
        return f"{item.type}\t{item.value}\t{' '.join((item.help or '').split())}"


class _Bash(_Answering, BashComplete):
    name: ClassVar[str] = "bash"

    def get_completion_args(self) -> tuple[list[str], str]:
        """The words before the one to complete, and that one."""
        words, incomplete = super().get_completion_args()
        # To bash, a sign between an option and its value is a word of its own.
        before = ("", *words)
        given = [word for last, word in zip(before, words, strict=False) if word != "=" or not last.startswith("--")]
        return given, incomplete


class _Zsh(_Answering, ZshComplete):
    name: ClassVar[str] = "zsh"


class _Fish(_Answering, FishComplete):
    name: ClassVar[str] = "fish"
