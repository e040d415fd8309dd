"""Finds sentences for users that stand in the code instead of in the catalogue: texts of two words or more.

Every text in a module of the package counts, wherever it is passed, unless it is documentation, told to programmers or
data of a kind that is listed here with its reason.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).parents[2]

CALLS: Final = {
    "rule": "a rule's two sentences register themselves in the catalogue",
    "Limit": "a rule's own limit, in the words of limits.yaml: what it limits, and where it comes from",
    "cases": "specs, the examples of a rule",
    "Field": "the sentence of a declared key stands beside the key",
    "key": "as above",
    **dict.fromkeys(
        ("AmountKind", "AnyNode", "Choice", "ListOf", "MapOf", "Text", "TupleOf", "pair"),
        "what a declared key holds, in nouns beside the key",
    ),
    "_dimension": "declares a key",
    "counted": "the plural of a sentence of the catalogue, where it is declared",
    "Process": "a process's title and the sources of its figures are names, told as they are",
    "Published": "the source of a law is a name, told as it is",
    "Outline": "the sentence of a declared shape stands beside it, as that of a key",
    "Record": "what a declared noun is called",
    "ValueError": "told to programmers; where one is shown to a user, the place that shows it is found",
    "TypeError": "told to programmers",
    "KeyError": "told to programmers",
    "LookupError": "told to programmers",
    "AssertionError": "told to programmers",
    "AttributeError": "told to programmers",
    "brief": "how nouns show themselves to programmers",
    "NotImplementedError": "told to programmers",
    "NoSuchGlyphError": "told to programmers: fonts are built with what they have",
    "NoSuchStyleError": "told to programmers: styles are named in the code",
    "RuntimeError": "told to programmers",
    "MalformedProblemError": "told to programmers: the solver's own input",
    "DimensionError": "told to programmers",
    "listed": "words and names that texts are recognised by",
    "_row": "a unit of the table, with its name",
    "Source": "the name of a standard that a unit is from",
    "compile": "a pattern",
    "fullmatch": "a pattern",
    "TypeVar": "a name in the code",
    "cast": "a type",
    "Thread": "a thread's name",
}
"""Functions whose texts are no sentences for users, with the reason."""

MODULES: Final = {
    "panelart/messages/*": "the catalogue itself",
    "panelart/lettering/face/*": "builds the fonts of the house; run by who works on them",
    "panelart/legends/solver/*": "knows no panels and no users",
    "panelart/texts/opposites.py": "names on panels in many languages, by which they are recognised",
    "panelart/texts/words.py": "as above",
    "panelart/texts/lookalikes.py": "as above",
    "panelart/writers/pdf*.py": "operators of PDF",
    "panelart/writers/typefaces.py": "PostScript of a character map",
    "panelart/writers/xmp.py": "markup of metadata",
    "panelart/writers/srgb.py": "the name of a standard in a colour profile",
}
"""Modules without sentences for users, with the reason."""

DATA: Final = (
    (r"<\?xml |<!|<[a-z]+[ >]", "markup"),
    (r"^[\w-]+/[\w-]+; charset", "a media type"),
    (r"^[\w.]+ \| [\w.]+( \||$)", "a type"),
)
"""Patterns of texts that are data, with the reason."""

_YAML: Final = (
    r"^(found|could not find|did not find|expected|unexpected|unknown|undefined|invalid|incompatible|cannot start|"
    r"mapping (values|keys)|sequence entries|maximum nesting|while|document start|alphabetic or|block )"
)
_NOUNS: Final = (
    r"^((relative|horizontal|vertical) position|position by axes|rotary positions|range of positions|thickness range|"
    r"names of a grid|end of the gradient)$"
)
SITES: Final = (
    *(
        (f"panelart/spec/language/{module}.py", _NOUNS, "what a declared noun is called")
        for module in ("controls", "panel", "parts", "places", "printing")
    ),
    ("panelart/spec/language/printing.py", r"^as given for the process$", "what several declared keys have in common"),
    ("panelart/spec/language/whole.py", r"^panelart (spec|modules), version 1$", "the titles of the JSON Schemas"),
    ("panelart/spec/shop.py", r"^# plates: \{base: base,", "keys and values of a shop file"),
    ("panelart/source/yaml.py", _YAML, "what the YAML library says of an error, by which the error is recognised"),
    ("panelart/model/component.py", r"^(countersink|minimum) ", "names of figures, by which they are found"),
    ("panelart/checks/cases.py", r"^panelart: 1\n", "keys and values of a spec"),
    ("panelart/checks/clearances.py", r"^cap travel$", "the name of an envelope in the catalogue's files"),
    ("panelart/cutouts/describe.py", r"^(one flat|two flats)$", "forms of openings, as programs read them"),
    ("panelart/cli/bom.py", r"^legend plate$", "as in processes/process.py"),
    ("panelart/processes/process.py", r"^legend plate$", "a kind of what is bought, as programs read it"),
    ("panelart/lists/matching.py", r"^[a-z]+ [a-z]+( \d)?$", "words that parts are recognised by"),
    ("panelart/drafting/draft.py", r"^  [a-z]+: \{", "keys and values of a spec"),
    ("panelart/viewer/server.py", r"^: still here\n", "a comment in a stream of events, which no page shows"),
    ("panelart/canonical.py", r"has no canonical bytes$", "told to programmers, in the text of a TypeError"),
    ("panelart/texts/units.py", r"^(from memory|common practice)$", "how well a row of the table is known"),
    ("panelart/texts/units.py", r"^(gal \((US|UK|Imp|imp)\)|(cu|sq)\.? (ft|in)|g rms)$", "symbols of units"),
    ("panelart/writers/runs.py", r"^an item$", "told to programmers, in the text of a ValueError"),
    ("panelart/outlines/dxf.py", r"^the text of error", "what the library says of a file that it cannot read"),
    ("panelart/source/edit.py", r"No newline at end of file", "a line of a patch, which other programs read"),
    ("panelart/writers/svg.py", r"^title desc$", "ids of elements"),
)
"""Texts of single modules that are data: module, pattern, reason."""

_PROGRAMMERS: Final = {"ValueError", "TypeError", "KeyError", "LookupError", "ArithmeticError", "Exception"}
_PROSE: Final = re.compile(r"[A-Za-z]{2,},? [A-Za-z(\x00]|\x00 [a-z]{2,}")
_LETTERS: Final = re.compile(r"[A-Za-z]{2,}")


def literals_by_module() -> dict[str, list[str]]:
    """The sentences in the code of each module that has any: line and text."""
    found: dict[str, list[str]] = {}
    for path in sorted((ROOT / "panelart").rglob("*.py")):
        module = path.relative_to(ROOT).as_posix()
        if any(fnmatch(module, pattern) for pattern in MODULES):
            continue
        data = [re.compile(pattern) for where, pattern, _ in SITES if where == module]
        sites = [
            f"{line}: {text}"
            for line, text in sentences(ast.parse(path.read_text(encoding="utf-8")))
            if not any(pattern.search(text) for pattern in data)
        ]
        if sites:
            found[module] = sites
    return found


def sentences(tree: ast.Module) -> list[tuple[int, str]]:
    """Line and text of each sentence in a module's code, and of each exception of programmers that is shown."""
    return sorted({*_literals(tree), *_shown_exceptions(tree)})


def _literals(tree: ast.Module) -> Iterator[tuple[int, str]]:
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(tree):
        text = _text(node, parents)
        if text is not None and _is_prose(text) and not _excused(node, parents):
            yield node.lineno, text.replace("\x00", "{}")  # type: ignore[attr-defined]


def _text(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> str | None:
    """A whole text, what is filled in as one character; None for anything else and for pieces of an f-string."""
    if isinstance(node, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "\x00" for part in node.values)
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and not isinstance(parents[node], ast.JoinedStr):
        return node.value
    return None


def _is_prose(text: str) -> bool:
    if len(_LETTERS.findall(text)) < 2 or not _PROSE.search(text):
        return False
    return not any(re.search(pattern, text) for pattern, _ in DATA)


def _excused(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> bool:
    if isinstance(parents[node], ast.Expr):
        return True  # a docstring
    child = node
    while (above := parents.get(child)) is not None:
        if isinstance(above, ast.Assert) and above.msg is child:
            return True
        if isinstance(above, ast.Call) and child is not above.func and _name(above.func) in CALLS:
            return True
        if isinstance(above, ast.arg | ast.AnnAssign) and above.annotation is child:
            return True  # a type in quotes
        if isinstance(above, ast.stmt) and not isinstance(above, ast.Assert):
            return isinstance(above, ast.FunctionDef) and above.returns is child
        child = above
    return False


def _name(called: ast.expr) -> str:
    if isinstance(called, ast.Subscript):
        return _name(called.value)
    return called.attr if isinstance(called, ast.Attribute) else called.id if isinstance(called, ast.Name) else ""


def _shown_exceptions(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Where the text of an exception that is told to programmers goes into another text."""
    for handler in ast.walk(tree):
        if isinstance(handler, ast.ExceptHandler) and handler.name and _caught(handler) & _PROGRAMMERS:
            for node in ast.walk(handler):
                if _shows(node, handler.name):
                    yield node.lineno, f"the text of {handler.name}, caught in line {handler.lineno}"  # type: ignore[attr-defined]


def _caught(handler: ast.ExceptHandler) -> set[str]:
    types = handler.type.elts if isinstance(handler.type, ast.Tuple) else [handler.type] if handler.type else []
    return {_name(one) for one in types}


def _shows(node: ast.AST, name: str) -> bool:
    if isinstance(node, ast.FormattedValue):
        shown: ast.expr | None = node.value
    elif isinstance(node, ast.Call) and _name(node.func) == "str" and node.args:
        shown = node.args[0]
    else:
        return False
    return isinstance(shown, ast.Name) and shown.id == name
