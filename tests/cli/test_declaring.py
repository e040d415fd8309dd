"""A made-up command, declared as all are: what is typed and what its function is handed, what help says of it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import click
import pytest

from panelart.cli.declaring import argument, click_command, command, option
from panelart.cli.usage import usage_text
from panelart.cli.values import FOLDER, file, length, text
from panelart.messages import cli_help
from panelart.messages import cli_help_press as help_


class Finish(StrEnum):
    MATT = "matt"
    GLOSS = "gloss"


HANDED: dict[str, Any] = {}


@command(help_.bed_exit())
def trial(
    spec: Annotated[Path, argument(cli_help.spec(), file(".yaml", metavar="SPEC"))],
    fonts: Annotated[list[str] | None, argument(help_.ink_name(), text("FONT"))] = None,
    out: Annotated[Path | None, option("-o --out", cli_help.output_folder(), FOLDER)] = None,
    gap: Annotated[float, option("--gap", help_.gap(), length(maximum=20.0, zero=True))] = 7.5,
    finish: Annotated[Finish, option("--finish", help_.ink_colour())] = Finish.MATT,
    also: Annotated[list[str] | None, option("--also", cli_help.catalogue(), text("NAME"))] = None,
    turn: Annotated[bool, option("--turn/--no-turn", help_.turn())] = True,
    quiet: Annotated[bool, option("-q --quiet", cli_help.quiet())] = False,
) -> None:
    HANDED.update(locals())


USUAL = {
    "spec": Path("a.yaml"), "fonts": None, "out": None, "gap": 7.5, "finish": Finish.MATT, "also": None,
    "turn": True, "quiet": False,
}  # fmt: skip


def run(*words: str) -> None:
    HANDED.clear()
    click_command("trial", help_.bed(), trial).main(list(words), prog_name="panelart trial", standalone_mode=False)


@pytest.mark.parametrize(
    ("words", "given"),
    [
        ((), {}),
        (("--finish", "gloss"), {"finish": Finish.GLOSS}),
        (("--gap=0",), {"gap": 0.0}),
        (("-qo", "x"), {"quiet": True, "out": Path("x")}),
        (("--no-turn", "--also", "b", "--also", "c"), {"turn": False, "also": ["b", "c"]}),
        (("plain", "--quiet", "bold"), {"fonts": ["plain", "bold"], "quiet": True}),
        (("--", "--quiet"), {"fonts": ["--quiet"]}),
    ],
)
def test_the_function_is_handed_what_is_typed_in_its_types(words: Sequence[str], given: dict[str, Any]) -> None:
    run("a.yaml", *words)
    assert USUAL | given == HANDED


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Argument SPEC is required"),
        (("a.yaml", "--finish", "mat"), "--finish: Unknown value 'mat'. Did you mean 'matt'?"),
        (("a.yaml", "--gap", "20.1"), "--gap: '20.1' is not an accepted length. "),
        (("a.yaml", "--gap", "nan"), "--gap: 'nan' is not an accepted length. "),
        (("a.yaml", "--gap"), "Option --gap requires a value\nHelp: panelart trial --help"),
        (("a.yaml", "--quiet=1"), "Option --quiet takes no value\nHelp: panelart trial --help"),
        (("a.yaml", "--no-trn"), "Unknown option '--no-trn'. Did you mean '--no-turn'?"),
    ],
)
def test_what_cannot_be_used_is_told_and_nothing_is_run(words: Sequence[str], told: str) -> None:
    with pytest.raises(click.UsageError) as slip:
        run(*words)
    assert usage_text(slip.value).startswith(f"error: {told}")
    assert HANDED == {}


def test_help_has_all_of_it_in_the_words_of_messages(capsys: pytest.CaptureFixture[str]) -> None:
    run("--help")
    assert (
        capsys.readouterr().out
        == """\
Usage: panelart trial [OPTIONS] SPEC [FONT...]

  Nest panels on a printer bed: artwork, jigs, list.

  Exit code 1 if a panel has findings at error level; runs of pieces with
  variables are not printed then.

Arguments:
  SPEC       Spec of the panel (YAML); FILE#NAME selects one panel of several.
  [FONT...]  Name of the ink's plate.

Options:
  -o, --out DIR        Output folder.
  --gap MM             Distance between pieces. [default: 7.5]
  --finish matt|gloss  Colour of the ink on screen. [default: matt]
  --also NAME          Part file of your own, relative to the spec; may be
                       repeated.
  --turn / --no-turn   Allow pieces to be turned by 90° (not for a coat with
                       grain). [default: turn]
  -q, --quiet          Print errors and warnings only, one line each; nothing
                       if there are none.
  --help               Print this help and exit.
"""
    )


def test_what_is_declared_as_neither_is_a_fault() -> None:
    @command()
    def bare(spec: Path) -> None:
        raise AssertionError(spec)

    with pytest.raises(TypeError, match="spec is neither an argument nor an option"):
        click_command("bare", help_.bed(), bare)
