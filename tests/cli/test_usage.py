"""The command line when it is mistyped: what was found, what is accepted, the nearest name; and what help lists."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from panelart.cli.commands import COMMANDS, RETIRED_COMMANDS, RETIRED_OPTIONS
from tests.commands import Done, run_within


def run(*words: object) -> Done:
    return run_within(*words, cwd=Path.cwd())


def options_of(command: str) -> set[str]:
    """The options of a command as its help names them."""
    lines = run(command, "--help").stdout.partition("Options:")[2].splitlines()
    return {word.strip(",") for line in lines if line.startswith("  -") for word in line.split() if word[:2] == "--"}


def test_help_lists_every_command_in_its_order() -> None:
    listed = [line.split()[0] for line in run("--help").stdout.partition("Commands:\n")[2].splitlines()]
    assert listed == list(COMMANDS)
    assert all("..." not in line for line in run("--help").stdout.partition("Commands:\n")[2].splitlines())


@pytest.mark.parametrize(("old", "new"), RETIRED_COMMANDS.items())
def test_an_old_command_is_answered_with_its_name_now(old: str, new: str) -> None:
    for typed in (old, f"{old}s"):
        done = run(typed)
        assert done.returncode == 2
        if typed == old:
            assert f"Unknown command '{old}'. Did you mean '{new}'?" in done.stderr
    assert new in COMMANDS
    assert old not in COMMANDS


@pytest.mark.parametrize(("command", "old"), RETIRED_OPTIONS)
def test_an_old_option_is_answered_with_its_name_now(command: str, old: str) -> None:
    new = RETIRED_OPTIONS[command, old]
    done = run(command, "x", old)
    assert done.returncode == 2
    assert f"Unknown option '{old}'. Did you mean '{new}'?" in done.stderr
    assert new in options_of(command)
    assert old not in options_of(command)


def test_no_name_holds_the_word_that_is_kept_for_later() -> None:
    assert not [name for name in COMMANDS if "verify" in name]
    assert not [option for name in COMMANDS for option in options_of(name) if "verify" in option]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("chek",), "Unknown command 'chek'. Did you mean 'check'?"),
        (("qqq",), "Unknown command 'qqq'\n"),
        (("check",), "Argument SPEC is required"),
        (("inspect", "x"), "Option --measured is required"),
        (("bed", "x", "--bed"), "Option --bed requires a value"),
        (("check", "x", "--formt", "json"), "Unknown option '--formt'. Did you mean '--format'?"),
        (("schema", "--qqq"), "Unknown option '--qqq'. Accepted options: --help, --markdown, --modules"),
        (("compare", "x", "y", "y z"), "Unexpected arguments: 'y z'"),
        (("check", "x", "--format", "jsn"), "--format: Unknown value 'jsn'. Did you mean 'json'?"),
        (("drill-template", "x", "--paper", "A3b"), "--paper: Unknown value 'A3b'. "),
        (("bed", "x", "--bed", "1x1", "--gap", "wide"), "--gap: 'wide' is not an accepted length. Accepted: "),
        (("view", "x", "--port", "0"), "--port: '0' is not an accepted number. Accepted: a whole number from"),
        (("make", "x", "--date", "1.2.2026"), "--date: '1.2.2026' is not a date. Accepted: YYYY-MM-DD"),
        (("make", "x", "--quiet", "--verbose"), "--quiet: Not accepted together with --verbose"),
        (("check", "x", "--format", "json", "--quiet"), "--quiet: Accepted with --format text only"),
        (("test-strip", "digital-print", "--shop", "x"), "--shop: Requires --limits"),
    ],
)  # fmt: skip
def test_what_is_mistyped_is_told_in_our_words(words: tuple[str, ...], told: str) -> None:
    done = run(*words)
    assert done.returncode == 2
    assert done.stdout == ""
    assert f"error: {told}" in done.stderr
    assert "Usage:" not in done.stderr


@pytest.mark.parametrize("command", ["make", "check", "view"])
def test_a_name_that_is_not_utf_8_is_refused(tmp_path: Path, command: str) -> None:
    """As a file system hands it over: bytes that are no text."""
    name = os.fsdecode(b"caf\xe9.yaml")
    try:
        (tmp_path / name).write_text("panelart: 1\n", "utf-8")
    except OSError:
        pytest.skip("the file system takes no such name")
    done = subprocess.run(
        [sys.executable, "-m", "panelart", command, name], cwd=tmp_path, capture_output=True, check=False
    )
    assert done.returncode == 2
    assert b"is not text in UTF-8" in done.stderr
    assert b"Traceback" not in done.stderr
