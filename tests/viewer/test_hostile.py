"""Specs that mean harm: what is in them stays letters and shapes."""

from __future__ import annotations

import time
from pathlib import Path

from tests.viewer.running import SMALL, Running


def test_hostile_art_in_the_spec_never_reaches_the_page(served: Running) -> None:
    """Art with a script and a link elsewhere: the spec is refused, and what is shown stays the last good picture."""
    (served.spec.parent / "art.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" onload="alert(1)"><script>alert(2)</script>'
        '<image href="http://evil.example/x.png"/><path d="M0 0h10v10z"/></svg>'
    )
    served.spec.write_text(SMALL + "\nart:\n  - {svg: art.svg, at: [60, 50], width: 10}\n")
    time.sleep(0.3)
    served.settle()
    state = served.desk.state
    assert state.problems
    assert any("script" in one.message for one in state.problems)
    with served.client() as page:
        for path in ("picture.svg", "scene", "view/plate-white.svg"):
            text = page.get(path).text
            assert "alert" not in text
            assert "evil" not in text


def test_words_of_the_spec_are_words_on_the_page(spec: Path, served: Running) -> None:
    """A legend and a title that would be markup in HTML come out as letters, in outlines and in labels."""
    hostile = SMALL.replace("legend: Out", 'legend: "<script>alert(3)</script>"').replace(
        "title: Relay box, front", 'title: "<img src=x onerror=alert(4)>"'
    )
    spec.write_text(hostile)
    time.sleep(0.3)
    served.settle()
    with served.client() as page:
        picture = page.get("picture.svg").text
        assert "<script" not in picture
        assert "<img" not in picture
        assert page.get("scene").headers["content-type"] == "application/json"
