"""What stops a command, for people: each error with the line of the spec and a caret, then how many in which files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.diagnostics import Problem
from panelart.messages import diagnostics
from panelart.messages import reports as said
from panelart.reports.excerpt import Source, excerpt, no_source
from panelart.reports.layout import ERROR, folded, marked, painted


def errors_text(
    problems: Sequence[Problem], *, source: Source = no_source, width: int = 100, colour: bool = False
) -> str:
    """The errors as lines of text, the last without a line end.

    The first line of each is `file:line:column: error: message` and never broken, so that editors can follow it.
    """
    lines = [line for problem in problems for line in _lines(problem, source, width, colour=colour)]
    files = tuple(dict.fromkeys(problem.where.file for problem in problems))
    return "\n".join([*lines, str(said.errors_in_files(said.errors(len(problems)), files))])


def _lines(problem: Problem, source: Source, width: int, *, colour: bool) -> Iterator[str]:
    severity = painted(said.error(), ERROR, colour=colour)
    yield str(said.error_in_file(where=problem.where, severity=severity, message=problem.message))
    yield from marked(excerpt(problem.where, source, width), colour=colour)
    if problem.hint:
        yield from folded(diagnostics.hint_line(hint=problem.hint), width)
