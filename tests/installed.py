"""Distributions for a test: a real one in a folder on the path, as an installer records it."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeAlias

import pytest

from panelart.messages.message import _CATALOGUE as CATALOGUE

Install: TypeAlias = Callable[..., Path]


@pytest.fixture
def forgotten() -> Iterator[None]:
    """Modules named house_* and the sentences that they declare are gone after a test."""
    known, sentences = set(sys.modules), set(CATALOGUE)
    yield
    for name in set(sys.modules) - known:
        if name.startswith("house_"):
            del sys.modules[name]
    for id_ in set(CATALOGUE) - sentences:
        if CATALOGUE[id_].module.startswith("house_"):
            del CATALOGUE[id_]


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, forgotten: None) -> Install:  # noqa: ARG001  # for what it does afterwards
    """Records a distribution with its entry points and modules in a folder on the path; modules are named house_*."""

    def installed(name: str, entries: str, **modules: str) -> Path:
        folder = tmp_path / name
        record = folder / f"{name.replace('-', '_')}-1.0.dist-info"
        record.mkdir(parents=True)
        (record / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n", encoding="utf-8")
        (record / "entry_points.txt").write_text(textwrap.dedent(entries), encoding="utf-8")
        for module, source in modules.items():
            (folder / f"{module}.py").write_text(source, encoding="utf-8")
        monkeypatch.syspath_prepend(str(folder))
        return folder

    return installed
