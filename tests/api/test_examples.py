"""The examples in the documentation of the front door and in README are run as they stand there."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

from panelart.api import changed, components, result, specs

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(autouse=True)
def at_the_root(monkeypatch) -> None:
    """Examples name the demos as they are seen from the root."""
    monkeypatch.chdir(ROOT)


@pytest.mark.parametrize("module", [changed, components, result, specs], ids=lambda module: module.__name__)
def test_examples_of_the_documentation_hold(module) -> None:
    done = doctest.testmod(module, optionflags=doctest.ELLIPSIS)
    assert done.failed == 0
    assert done.attempted > 0


def from_python() -> list[str]:
    section = README.partition("## From Python\n")[2].partition("\n## ")[0]
    return re.findall(r"```python\n(.*?)```", section, flags=re.DOTALL)


def test_the_blocks_in_readme_run_as_they_stand(tmp_path, monkeypatch, capsys) -> None:
    """In a folder with the example of the spec in it; what they print is shown as comments."""
    blocks = from_python()
    assert blocks
    example = re.findall(r"```yaml\n(.*?)```", README, flags=re.DOTALL)[0]
    (tmp_path / "front.yaml").write_text(example, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    for block in blocks:
        exec(compile(block, "README.md", "exec"), names)
        told = re.findall(r"^# > ?(.*)", block, flags=re.MULTILINE)
        assert capsys.readouterr().out.splitlines() == told
    pictures = tmp_path / "out" / "panel.png", ROOT / "demo" / "pictures" / "from-python.png"
    made, shown = (Image.open(path).convert("RGB") for path in pictures)
    assert made.size == shown.size, "python demo/pictures.py from-python"
    assert max(ImageStat.Stat(ImageChops.difference(made, shown)).mean) < 0.5
    assert {"cutouts.dxf", "proof.pdf"} <= {path.name for path in (tmp_path / "out").iterdir()}
