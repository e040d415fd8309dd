from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.viewer.running import SMALL, Running, running


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    """A small spec in a folder of its own."""
    path = tmp_path / "box.yaml"
    path.write_bytes(SMALL.encode())
    return path


@pytest.fixture
def served(spec: Path) -> Iterator[Running]:
    """That spec on its page, laid out."""
    with running(spec) as server:
        server.settle()
        yield server
