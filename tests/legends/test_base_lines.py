"""Made-up rows of many kinds, one name in each lengthened: every row has one base line in the finished PDF.

The lines are read by poppler's pdftotext, which knows nothing of how they were made. A name's line is the one nearest
to its part: the last above it. Each row is written again in another order and with everything 0.1 mm farther right and
up, and must come out the same.
"""

from __future__ import annotations

import random
import re
import shutil
import subprocess
from pathlib import Path

import pytest

import panelart as pa

HEAD = """panelart: 1
panel: {{title: Rows, size: [{width:.1f}, 130], sheet: {{material: aluminium 5754, thickness: 2}}}}
marking:
  process: digital-print
  ink: {{name: black, colour: "#111111"}}
  lettering: {{font: plain, cap_height: 3, case: upper, text: live}}
  viewing_distance: 500
parts:
"""
PARTS_AT = 60.0
"""Height of the parts on a panel of 130 mm, whose middle is that of the page."""

MM = 25.4 / 72.0

KINDS = {
    "buttons": (("pushbutton-22",), 38.0),
    "jacks": (("bnc",), 34.0),
    "lamps": (("led-5-bezel",), 30.0),
    "lamps of unlike size": (("lamp-6", "lamp-10", "lamp-8"), 36.0),
    "a lamp between jacks": (("bnc", "bnc", "lamp-8"), 36.0),
    "unlike jacks": (("bnc", "jack-635", "socket-4"), 36.0),
    "glands M16, M25": (("gland-m16", "gland-m25"), 46.0),
    "glands M12 to M32": (("gland-m12", "gland-m32", "gland-m16", "gland-m25"), 52.0),
    "fuses": (("fuse-5x20",), 36.0),
    "switches": (("toggle-12",), 40.0),
    "knobs": (("pot-m7",), 36.0),
}
"""Parts, which follow each other in this order, and how far apart they are, mm."""

MORE = {"toggle-12": ", positions: {up: On, down: Off}", "pot-m7": ", knob: {diameter: 16, height: 14}"}

NAMES = ("Lift", "Feed pump", "Return", "Drain valve", "Mixer", "Boiler", "Vent fan", "Heat trace", "Tank level")
LONGER = ("circulation", "circulation two", "circulation secondary")


class Row:
    """A row by a seed: what its names are and which of them is lengthened."""

    def __init__(self, kind: str, seed: int) -> None:
        chance = random.Random(f"{kind} {seed}")
        self.parts, pitch = KINDS[kind]
        self.names = chance.sample(NAMES, chance.randint(4, 6))
        longer = chance.randrange(len(self.names))
        self.names[longer] += f" {LONGER[seed % len(LONGER)]}"
        self.pitch = round(pitch * chance.choice((0.9, 1.0, 1.2)), 1)
        self.order = chance.sample(range(len(self.names)), len(self.names))

    def spec(self, *, by: float = 0.0, shuffled: bool = False) -> str:
        lines = []
        for number, name in enumerate(self.names):
            part = self.parts[number % len(self.parts)]
            at = f"[{40 + by + self.pitch * number:.2f}, {PARTS_AT + by:.2f}]"
            lines.append(f"  - {{ref: X{number}, part: {part}, at: {at}, legend: {name}{MORE.get(part, '')}}}\n")
        if shuffled:
            lines = [lines[number] for number in self.order]
        return HEAD.format(width=82 + self.pitch * (len(self.names) - 1)) + "".join(lines)


Words = dict[str, tuple[float, float]]
"""By word its middle from the left of the page, and the bottom of its box over the middle of the page, in mm."""


def words_of(row: Row, spec: str, folder: Path) -> Words:
    """The words of the names in the artwork, as poppler reads them."""
    folder.mkdir()
    path = folder / "front.yaml"
    path.write_text(spec)
    result = pa.build(pa.load(path))
    assert result.layout.proof is not None
    assert result.layout.proof.proven
    result.write(folder / "out", only=["artwork.pdf"])
    (pdf,) = (folder / "out").glob("**/artwork.pdf")
    told = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    page = re.search(r'<page width="[\d.]+" height="([\d.]+)"', told)
    assert page is not None
    middle = float(page[1]) / 2
    box = r'xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<'
    own = {word.upper() for name in row.names for word in name.split()}
    found = {
        word: (round((float(left) + float(right)) / 2 * MM, 2), round((middle - float(bottom)) * MM, 2))
        for left, right, bottom, word in re.findall(box, told)
        if word in own
    }
    assert found.keys() == own
    return found


def lines_of(row: Row, words: Words) -> dict[str, float]:
    """By name its lowest line; all names of these rows are above their parts."""
    return {name: min(words[word.upper()][1] for word in name.split()) for name in row.names}


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")
@pytest.mark.few(8)
@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("kind", KINDS)
def test_a_row_with_a_longer_name_has_one_base_line_however_it_is_written_and_wherever_it_is(
    kind: str, seed: int, tmp_path: Path
) -> None:
    row = Row(kind, seed)
    words = words_of(row, row.spec(), tmp_path / "row")
    lines = lines_of(row, words)
    assert max(lines.values()) - min(lines.values()) <= 0.02, lines
    assert min(lines.values()) > PARTS_AT - 65.0  # above the parts
    assert words_of(row, row.spec(shuffled=True), tmp_path / "shuffled") == words
    moved = words_of(row, row.spec(by=0.1), tmp_path / "moved")
    for word, (x, y) in words.items():
        assert moved[word] == pytest.approx((x + 0.1, y + 0.1), abs=0.02), word
