"""A command as a person types it: in the quick run within this process, in the full run in a process of its own.

What is refused before any work is tried in many ways, and always within this process.
"""

from __future__ import annotations

import contextlib
import io
import os
import subprocess
import sys
from pathlib import Path
from unittest import mock

from panelart.cli import main
from tests import effort

ROOT = Path(__file__).parents[1]

Done = subprocess.CompletedProcess[str]


def run(*words: object, cwd: Path) -> Done:
    """What a command says on either stream, and its exit code."""
    return run_apart(*words, cwd=cwd) if effort.is_full() else run_within(*words, cwd=cwd)


def run_apart(*words: object, cwd: Path) -> Done:
    env = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    command = [sys.executable, "-c", "from panelart.cli import main; main()", *map(str, words)]
    return subprocess.run(command, cwd=cwd, env=env, capture_output=True, text=True, check=False)


def run_within(*words: object, cwd: Path) -> Done:
    typed = [str(word) for word in words]
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True) for _ in range(2))
    code = 0
    with (
        contextlib.chdir(cwd),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
        mock.patch.object(sys, "argv", ["panelart", *typed]),
        mock.patch.dict(os.environ, {"NO_COLOR": "1"}),
    ):
        try:
            main()
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else int(end.code is not None)
    told, complained = (stream.buffer.getvalue().decode("utf-8") for stream in (out, err))
    return subprocess.CompletedProcess(typed, code, told, complained)
