"""Benchmark of the lettering: 300 legends set, once the fonts are known, and again in a size not seen before.

    python tests/benchmarks/lettering.py

Seconds are the processor's. A bar that is missed makes the exit status 1.
"""

from __future__ import annotations

import sys
import time

from panelart.lettering.setting import set_words

WORDS = [f"{text} {n}" for n in range(50) for text in ("OUTPUT", "Voltage", "+48 V", "INPUT GAIN", "Größe", "dB")]

BARS = {"known": 0.15, "another size": 0.3}
"""Most seconds for the 300."""


def seconds(height: float) -> float:
    """What it takes to set them all."""
    start = time.process_time()
    for text in WORDS:
        set_words(text, "plain", height)
    return time.process_time() - start


def main() -> None:
    """Measure and print; exit 1 where a bar is missed."""
    seconds(3.0)
    taken = {"known": seconds(3.0), "another size": seconds(3.1)}
    for what, bar in BARS.items():
        print(f"300 legends, {what}: {taken[what]:.3f} s (bar {bar:g}: {'kept' if taken[what] <= bar else 'MISSED'})")
    sys.exit(any(taken[what] > bar for what, bar in BARS.items()))


if __name__ == "__main__":
    main()
