"""Every pair of colours that words on the page have, light and dark: contrast as WCAG 2.2 reckons it.

4.5 to 1 for words (1.4.3), 3 to 1 for what shows where the keyboard is and for signs (1.4.11).
"""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

STYLE = (files("panelart.viewer") / "page" / "style.css").read_text(encoding="utf-8")

WORDS = [
    (colour, ground)
    for colour in ("text", "quiet", "accent", "error", "warning", "note")
    for ground in ("paper", "ground")
] + [("paper", sign) for sign in ("accent", "error", "warning", "note", "text")]

SIGNS = [("choice", "paper"), ("choice", "ground"), ("frame", "ground")]


def schemes() -> dict[str, dict[str, str]]:
    """The variables of each scheme as the style sheet sets them; the dark ones stand twice and alike."""
    blocks = re.findall(r"(:root[^{]*)\{([^}]*)\}", STYLE)
    light = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", blocks[0][1]))
    dark = [dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", inside)) for _, inside in blocks[1:] if "--ground" in inside]
    assert len(dark) == 2
    assert dark[0] == dark[1]
    return {"light": light, "dark": {**light, **dark[0]}}


def luminance(colour: str) -> float:
    """Relative luminance of sRGB, WCAG 2.2, definitions."""
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_reckoning_is_the_published_one() -> None:
    """Black on white is 21, and #767676 the lightest grey that reads on white, as WCAG's own texts have it."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    ("colour", "ground", "minimum"), [(*pair, 4.5) for pair in WORDS] + [(*pair, 3.0) for pair in SIGNS]
)
def test_contrast(scheme: str, colour: str, ground: str, minimum: float) -> None:
    named = schemes()[scheme]
    assert contrast(named[colour], named[ground]) >= minimum


def test_the_remaining_pairs() -> None:
    """White on the signs of clearances; what came and went in a difference, on the ground that it stands on."""
    named = schemes()
    assert contrast("#ffffff", named["light"]["guide"]) >= 4.5
    (light, *dark) = re.findall(r"ins \{[^}]*color: (#[0-9a-f]{6})", STYLE)
    assert contrast(light, named["light"]["ground"]) >= 4.5
    assert dark
    for one in dark:
        assert contrast(one, named["dark"]["ground"]) >= 4.5
