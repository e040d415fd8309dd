"""How long texts take to be understood: `python tests/benchmarks/texts.py`.

Prints processor time for 1,000 distinct texts, the best of several runs, and for importing the room in a fresh process
beyond what it shares with every command. Nothing is remembered between texts. The bar is 50 ms for 1,000.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

import yaml  # noqa: E402

from panelart.texts.parse import parse  # noqa: E402

RUNS = 15

IMPORTED = """
import time, re, decimal, enum, panelart.messages
begun = time.process_time()
import panelart.texts.parse
print(time.process_time() - begun)
"""


def texts(count: int = 1000) -> list[str]:
    """Texts of the table, and the same with other figures and names, all distinct."""
    table = yaml.safe_load((ROOT / "tests" / "texts" / "table.yaml").read_text(encoding="utf-8"))
    found = dict.fromkeys(text for section in table for text in section["texts"])
    number = 0
    while len(found) < count:
        number += 1
        for form in ("OUTPUT {}", "{} mV/div", "S{}", "CH {} LEVEL", "{} kHz", "GAIN {} dB", "{}-{}0 V"):
            found[form.format(number, number)] = None
    return list(found)[:count]


def best(all_texts: list[str]) -> float:
    """Seconds of processor time for all of them, the best of several runs."""
    runs = []
    for _ in range(RUNS):
        begun = time.process_time()
        for text in all_texts:
            parse(text)
        runs.append(time.process_time() - begun)
    return min(runs)


def importing() -> float:
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, "-c", IMPORTED]
    return min(
        float(subprocess.run(command, env=env, capture_output=True, text=True, check=True).stdout) for _ in range(RUNS)
    )


if __name__ == "__main__":
    distinct = texts()
    print(f"{len(distinct)} distinct texts: {best(distinct) * 1000:.1f} ms")
    print(f"import of the room: {importing() * 1000:.1f} ms")
