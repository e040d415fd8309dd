"""Benchmark of the lettering: 300 legends set, once the fonts are known, and again in a size not seen before; and of
the measure of strokes: 62 letters of a font that is not ours, then 300 legends in ours and in that one.

    python tests/benchmarks/lettering.py

Seconds are the processor's. A bar that is missed makes the exit status 1. The other font is DejaVu Sans of Debian's
fonts-dejavu-core; where it is not installed, ours is read as a file.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from panelart.lettering.fonts import fonts_folder
from panelart.lettering.measures import widths
from panelart.lettering.setting import set_words

WORDS = [f"{text} {n}" for n in range(50) for text in ("OUTPUT", "Voltage", "+48 V", "INPUT GAIN", "Größe", "dB")]

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"

DEJAVU = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
OTHER = str(DEJAVU if DEJAVU.is_file() else fonts_folder() / "built" / "PanelartPlain-Light.ttf")

BARS = {
    "300 legends, known": 0.15,
    "300 legends, another size": 0.3,
    "strokes of 62 letters of another font": 0.5,
    "strokes of 300 legends in ours": 0.5,
    "strokes of 300 legends in another font": 1.0,
}
"""Most seconds for each."""


def seconds(height: float) -> float:
    """What it takes to set them all."""
    start = time.process_time()
    for text in WORDS:
        set_words(text, "plain-light", height)
    return time.process_time() - start


def measuring(words: list[str], font: str) -> float:
    """What it takes to measure the strokes and gaps of words, once they are set."""
    settings = [set_words(text, font, 3.0) for text in words]
    start = time.process_time()
    for setting in settings:
        widths(setting)
    return time.process_time() - start


def main() -> None:
    """Measure and print; exit 1 where a bar is missed."""
    seconds(3.0)
    taken = dict(
        zip(
            BARS,
            (
                seconds(3.0),
                seconds(3.1),
                measuring(list(LETTERS), OTHER),
                measuring(WORDS, "plain"),
                measuring(WORDS, OTHER),
            ),
            strict=True,
        )
    )
    for what, bar in BARS.items():
        print(f"{what}: {taken[what]:.3f} s (bar {bar:g}: {'kept' if taken[what] <= bar else 'MISSED'})")
    sys.exit(any(taken[what] > bar for what, bar in BARS.items()))


if __name__ == "__main__":
    main()
