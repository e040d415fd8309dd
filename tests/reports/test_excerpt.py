"""The line of a file with a caret: tabs, wide and combining characters, signs that drive a terminal, long lines."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.diagnostics import Problem, Where
from panelart.reports.errors import errors_text
from panelart.reports.excerpt import excerpt

GUTTER = 8


def columns(text: str) -> int:
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def shown(line: str, column: int, width: int = 100) -> tuple[str, str]:
    found = excerpt(Where("a.yaml", 12, column), lambda _: line, width)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("line", "column", "text", "caret"),
    [
        ("  size: [20, 30]", 9, "  size: [20, 30]", 8),
        ("a:\tb", 4, "a:  b", 4),
        ("\ta", 2, "    a", 4),
        ("日本: x", 5, "日本: x", 6),
        ("e\u0301: x", 5, "e\u0301: x", 3),
        ("a\x1b[31mb", 7, "a\N{REPLACEMENT CHARACTER}[31mb", 6),
        ("a\u202eb", 3, "a\N{REPLACEMENT CHARACTER}b", 2),
        ("end", 4, "end", 3),
        ("short", 40, "short", 5),
    ],
)
def test_the_caret_is_under_the_place(line: str, column: int, text: str, caret: int) -> None:
    above, below = shown(line, column)
    assert above == f"   12 | {text}"
    assert below == f"      | {' ' * caret}^"


@given(
    line=st.text(st.sampled_from("ab 日\t\u0301{},:"), min_size=1, max_size=300).filter(str.strip),
    place=st.integers(0, 400),
    width=st.integers(20, 130),
)
def test_a_long_line_is_clipped_round_the_place(line: str, place: int, width: int) -> None:
    above, below = shown(line, place + 1, width)
    assert max(columns(above), columns(below)) <= width
    if place < len(line) and line[place] not in "\t\u0301" and not line[place].isspace():
        before = below[GUTTER:].index("^")
        reached = 0
        for character in above[GUTTER:]:
            if reached == before and not unicodedata.combining(character):
                assert character == line[place]
                break
            reached += columns(character)


def test_no_line_no_excerpt() -> None:
    assert excerpt(Where("a.yaml", 1, 1), lambda _: None, 80) is None
    assert excerpt(Where("a.yaml", 1, 1), lambda _: "   ", 80) is None


def test_errors_end_with_how_many_in_which_files() -> None:
    problems = [
        Problem(where=Where("a.yaml", 2, 3), says="Found 'x'", accepts="Accepted: y"),
        Problem(where=Where("b.yaml", 1, 1), says="No size"),
    ]
    lines = {"a.yaml": "  x: 1", "b.yaml": None}
    text = errors_text(problems, source=lambda where: lines[where.file])
    assert text.splitlines() == [
        "a.yaml:2:3: error: Found 'x'",
        "    2 |   x: 1",
        "      |   ^",
        "  hint: Accepted: y",
        "b.yaml:1:1: error: No size",
        "2 errors in a.yaml and b.yaml",
    ]
    assert errors_text(problems[1:]).splitlines()[-1] == "1 error in b.yaml"
    assert "\x1b[31merror\x1b[0m" in errors_text(problems, colour=True)
