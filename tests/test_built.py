"""The index that is built with the package says what the data files say, or nothing."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Iterator
from functools import cache, partial
from pathlib import Path

import msgspec
import pytest
from msgspec import structs

from panelart import catalogue
from panelart.built import TABLES
from panelart.catalogue import library
from panelart.checks import abbreviations, limits, materials
from panelart.messages.catalogue import own_figure
from panelart.source import built
from panelart.source.built import Row, Table

ROOT = Path(__file__).parent.parent


@cache
def rows_of(table: Table) -> tuple[Row, ...]:
    """What the data files give, made once for all tests: the gaps of letters take half a minute."""
    return tuple(table.make())


@pytest.mark.full
def test_the_index_is_current() -> None:
    """After a change of a data file or of the code that reads it: python -m panelart.built."""
    made = [structs.replace(table, make=partial(rows_of, table)) for table in TABLES]
    current = built.INDEX.read_bytes() == built.built(made)
    assert current, "python -m panelart.built"


SLOW = {"gaps"}
"""Tables that take half a minute to make."""


@pytest.mark.parametrize(
    "table",
    [pytest.param(table, id=table.name, marks=[pytest.mark.full] if table.name in SLOW else []) for table in TABLES],
)
def test_every_row_is_what_the_data_file_gives(table: Table) -> None:
    rows = rows_of(table)
    assert rows
    for name, file, value in rows:
        kept = table.get(name)
        assert kept == value
        # Equality takes 1 for 1.0 and for true; what is written does not. The order of sets is another in every run.
        one, other = (msgspec.msgpack.encode(each, order="deterministic") for each in (kept, value))
        assert one == other
        assert table.file_of(name) == file
    for file in {file for _, file, _ in rows}:
        assert table.names(file) == tuple(name for name, of, _ in rows if of == file)


def test_no_row_hangs_on_the_language_that_is_spoken() -> None:
    """A figure without a source is told to be the user's own, in a sentence; all that is built in names its source."""
    things = (*map(catalogue.component, catalogue.names()), *map(catalogue.knob, catalogue.knob_names()))
    assert str(own_figure()) not in {figure.source for thing in things for figure in thing.figures}


# --- what is not as it was when the index was built


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """A copy of the package that a test may change."""
    shutil.copytree(ROOT / "panelart", tmp_path / "panelart", ignore=shutil.ignore_patterns("__pycache__", "viewer"))
    return tmp_path / "panelart"


SHOWN = """
from panelart.catalogue import library
from panelart.checks import limits
from panelart.source.yaml import read
print(library.component("bnc").openings[0].figures[0].value, library.COMPONENTS.get("bnc") is not None,
      library.COMPONENTS.get("toggle-mini") is not None, "tnc-twin" in library.names(),
      limits.BUILT.get("limits") is None)
"""


def _shown(package: Path) -> list[str]:
    """A size of a part, whether the index has it and one of another file, whether there is a new part, no limits."""
    done = subprocess.run(
        [sys.executable, "-B", "-c", SHOWN], cwd=package.parent, env={"PYTHONPATH": str(package.parent)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    return done.stdout.split()


def test_a_changed_data_file_is_read_and_no_other(package: Path) -> None:
    assert _shown(package) == ["9.7", "True", "True", "False", "False"]
    file = package / "catalogue" / "parts" / library.file_of("bnc")
    text = file.read_text(encoding="utf-8")
    changed = text.replace("value: 9.7,", "value: 9.75,").replace("  tnc:", "  tnc-twin:")
    file.write_text(changed, encoding="utf-8")
    assert _shown(package) == ["9.75", "False", "True", "True", "False"]


@pytest.mark.parametrize("code", ["catalogue/entries.py", "source/yaml.py", "source/built.py"])
def test_after_a_change_of_the_code_nothing_of_it_is_taken(package: Path, code: str) -> None:
    with (package / code).open("a", encoding="utf-8") as file:
        file.write("\n# another\n")
    assert _shown(package)[:3] == ["9.7", "False", "False"]


@pytest.mark.few(2)
@pytest.mark.parametrize(
    "content",
    [
        None,
        b"",
        b"\x93\x01",
        built._SIGNATURE,
        built._SIGNATURE + b"\x01\x00\x00\x00\xc1",
        built._SIGNATURE + b"\x01\x00\x00\x00\x07",
        b"panelart index 0\n",
    ],
)
def test_without_an_index_everything_is_read(package: Path, content: bytes | None) -> None:
    index = package / "built.index"
    index.unlink() if content is None else index.write_bytes(content)
    assert _shown(package) == ["9.7", "False", "False", "False", "True"]


@pytest.fixture
def no_index(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    caches = (built._index, built._same, library.component, library._names_in, library._file_of, limits.standard,
              materials._materials, abbreviations.known_abbreviations)  # fmt: skip
    monkeypatch.setattr(built, "INDEX", ROOT / "nowhere")
    for kept in caches:
        kept.cache_clear()
    yield
    for kept in caches:
        kept.cache_clear()


@pytest.mark.usefixtures("no_index")
def test_names_and_tables_are_the_same_without_an_index(monkeypatch: pytest.MonkeyPatch) -> None:
    bare = (library.names(), library.component("bnc"), dict(limits.standard()), materials._materials(),
            abbreviations.known_abbreviations(), library.file_of("bnc"))  # fmt: skip
    monkeypatch.undo()
    for kept in (built._index, built._same, library.component, library._names_in, library._file_of, limits.standard,
                  materials._materials, abbreviations.known_abbreviations):  # fmt: skip
        kept.cache_clear()
    assert bare == (library.names(), library.component("bnc"), dict(limits.standard()), materials._materials(),
                    abbreviations.known_abbreviations(), library.file_of("bnc"))  # fmt: skip
    assert limits.BUILT.get("limits") is not None


@pytest.mark.parametrize("left", [0.3, 0.9, 0.999])
def test_an_index_that_was_cut_off_gives_what_it_still_has(package: Path, left: float) -> None:
    index = package / "built.index"
    data = index.read_bytes()
    index.write_bytes(data[: int(len(data) * left)])
    assert _shown(package)[0] == "9.7"
