"""Completion as real shells do it: a line is typed at a terminal, the key TAB, and what the program then is handed.

The program that is called keeps the words that it is handed; asked for completions, it is the real one.
"""

from __future__ import annotations

import contextlib
import os
import pty
import select
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from panelart.cli.completion import Shell
from tests.commands import run_within

ROOT = Path(__file__).parents[2]
PROGRAM = """\
#!/bin/sh
if [ -n "$_PANELART_COMPLETE" ]; then exec "{python}" -m panelart "$@"; fi
printf '%s\\n' "$@" > "{kept}.new" && mv "{kept}.new" "{kept}"
"""
STARTED = {
    Shell.BASH: (("bash", "--norc", "--noprofile", "-i"), "source {script}"),
    Shell.ZSH: (("zsh", "-f", "-i"), "autoload -U compinit; compinit -u -D; source {script}"),
    Shell.FISH: (("fish", "--no-config", "-i"), "source {script}"),
}
CASES = [
    ("qqq", ["qqq"]),
    ("drill", ["drill-template"]),
    ("check --verb", ["check", "--verbose"]),
    ("check x.yaml --format js", ["check", "x.yaml", "--format", "json"]),
    ("check x.yaml --format=sa", ["check", "x.yaml", "--format=sarif"]),
    ("check fro", ["check", "front.yaml"]),
    ("check fol", ["check", "folder"]),
    ("check folder/w", ["check", "folder/with space.yml"]),
    ("bom front.yaml --out pa", ["bom", "front.yaml", "--out", "parts.csv"]),
    ("bom front.yaml --out=pa", ["bom", "front.yaml", "--out=parts.csv"]),
    ("make front.yaml -o f", ["make", "front.yaml", "-o", "folder"]),
    ("rules legend-under-k", ["rules", "legend-under-knob"]),
    ("parts iec-c14-filt", ["parts", "iec-c14-filter"]),
    ("shop-file engr", ["shop-file", "engraving"]),
    ("completion f", ["completion", "fish"]),
]
"""What is typed before the key, and the words after it; the first is completed with nothing."""


@pytest.fixture
def work(tmp_path: Path) -> Path:
    """A folder to type in, with the program beside it."""
    program = tmp_path / "bin" / "panelart"
    program.parent.mkdir()
    program.write_text(PROGRAM.format(python=sys.executable, kept=tmp_path / "kept"))
    program.chmod(0o755)
    folder = tmp_path / "work"
    (folder / "folder").mkdir(parents=True)
    for name in ("front.yaml", "frost.txt", "parts.csv", "parts.dxf", "folder/with space.yml", "folder/wrong.pdf"):
        (folder / name).write_text("")
    return folder


@contextlib.contextmanager
def terminal(words: tuple[str, ...], work: Path) -> Iterator[int]:
    """A shell at a terminal of its own, as the number of the file to type into."""
    env = {
        "PATH": f"{work.parent / 'bin'}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
        "HOME": str(work.parent),
        "LC_ALL": "C.UTF-8",
        "TERM": "xterm",
    }
    typed, shown = pty.openpty()
    own = f"import os, sys; os.login_tty({shown}); os.execvp(sys.argv[1], sys.argv[1:])"
    shell = subprocess.Popen([sys.executable, "-c", own, *words], cwd=work, env=env, pass_fds=[shown])
    os.close(shown)
    try:
        yield typed
    finally:
        shell.kill()
        shell.wait()
        os.close(typed)


def handed(typed: int, line: str, kept: Path, within: float = 30.0) -> list[str]:
    """The words that the program is handed for a line. Fails when it is not called."""
    kept.unlink(missing_ok=True)
    os.write(typed, line.encode())
    ends, shown = time.monotonic() + within, b""
    while not kept.exists():
        assert time.monotonic() < ends, shown
        if select.select([typed], [], [], 0.02)[0]:
            shown += os.read(typed, 65536)
    return [word.removesuffix("/") for word in kept.read_text().splitlines()]  # zsh takes it away before the program


@pytest.mark.few(1)
@pytest.mark.parametrize("shell", Shell)
def test_the_shell_completes(shell: Shell, work: Path) -> None:
    words, start = STARTED[shell]
    if shutil.which(words[0]) is None:
        pytest.skip(f"{words[0]} is not installed")
    script = work.parent / "script"
    script.write_text(run_within("completion", shell, cwd=work).stdout)
    kept = work.parent / "kept"
    with terminal(words, work) as typed:
        handed(typed, f"{start.format(script=script)}; panelart ready\r", kept)
        found = {line: handed(typed, f"panelart {line}\t\r", kept) for line, _ in CASES}
    assert found == dict(CASES)


def test_a_shell_without_a_script_is_refused(work: Path) -> None:
    done = run_within("completion", "bsh", cwd=work)
    assert done.returncode == 2
    assert "SHELL: Unknown value 'bsh'. Did you mean 'bash'?" in done.stderr
