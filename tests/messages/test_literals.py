"""No sentence for users stands in the code: all are in the catalogue."""

from __future__ import annotations

import ast

import pytest

from tests.messages.literals import CALLS, DATA, MODULES, ROOT, SITES, literals_by_module, sentences


def test_no_module_has_sentences_in_its_code():
    found = literals_by_module()
    assert found == {}, "declare them in panelart/messages, as told in DEVELOPERS.md under 'A sentence for users'"


def test_every_exception_is_of_something_that_is_there():
    for pattern in MODULES:
        assert list(ROOT.glob(pattern)), pattern
    for module, _, _ in SITES:
        assert (ROOT / module).is_file(), module
    assert all([*CALLS.values(), *MODULES.values(), *(reason for *_, reason in DATA), *(why for *_, why in SITES)])


@pytest.mark.parametrize(
    "code",
    [
        'problems.add(where, "the sheet is missing")',
        'problems.add(where, f"{ref} is missing")',
        'problems.add(where, said.x(), "accepted: one of " + names)',
        'Problem(where=where, says="no such file", accepts="")',
        'raise SpecError([Problem(where=where, says="no such file")])',
        'raise UnknownFontError(f"no font {name!r} here")',
        'click.Option(help="Print the version and stop.")',
        'print("nothing was written")',
        'page.add(NOTES, [words("To be measured", at).item])',
        'TITLES = {"a": "Toggle switches"}',
        'def f():\n    return f"{count} files written"',
        'text = "at least one" if one else ""',
        "try:\n    f()\nexcept ValueError as error:\n    fail(str(error))",
        'try:\n    f()\nexcept (KeyError, ValueError) as error:\n    fail(f"{error}")',
    ],
)
def test_a_sentence_in_the_code_is_found(code):
    assert len(sentences(ast.parse(code))) == 1


@pytest.mark.parametrize(
    "code",
    [
        '"""Documentation of two words."""',
        'def f():\n    """What it gives."""',
        'x = 1\n"""What x is."""',
        'raise ValueError("two rules have this name")',
        'assert x, "the reader was here before"',
        'x: "int | None" = None',
        'def f(x: "dict[str, int] | None") -> "int | None": ...',
        'problems.add(where, said.unknown(name="OUT", known=["a", "b"]))',
        'path / "front-panel.svg"',
        'open("cut_size.csv")',
        'row["cap_height"]',
        'f"{width}x{height}"',
        'f"{one}, {other}"',
        'print("done")',  # one word: too many keys and names are one word
        '@rule(Severity.ERROR, says="{subject} is too small", fix="Make it larger.")\ndef small(): ...',
        'Field("size", doc="Width and height.")',
        "SVG = '<svg version=\"1.1\" xml lang>'",
        "try:\n    f()\nexcept OSError as error:\n    fail(str(error))",
        "try:\n    f()\nexcept ValueError as error:\n    raise KeyError from error",
    ],
)
def test_documentation_data_and_what_programmers_are_told_are_not(code):
    assert sentences(ast.parse(code)) == []
