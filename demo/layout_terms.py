"""Make demo/pictures/layout-terms.png, the pairs of panelart/drafting/layout.md: `python demo/layout_terms.py`.

Each pair is two real panels of the same parts: at the left with what a term of the cost avoids, at the right without.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

import panelart

HERE = Path(__file__).parent
FONT = HERE.parent / "fonts" / "built" / "PanelartPlain-Medium.ttf"
WIDTH, GAP, HIGH = 460, 40, 34

HEAD = """\
panelart: 1
panel:
  title: Pair
  size: [{0}, {1}]
  sheet: {{material: aluminium, thickness: 2}}
  coat: {{kind: powder, thickness: 0.08, colour: "#2B3036"}}
marking:
  process: digital-print
  ink: {{name: white, colour: "#F1F1EC"}}
  lettering: {{font: plain, cap_height: 3.5, case: upper}}
parts:
"""

Places = tuple[tuple[str, float, float], ...]

LED, SWITCH, KNOB, JACK, METER = "led-5-bezel", "toggle-12", "pot-m10", "jack-635", "meter-48x24"

PAIRS: tuple[tuple[str, tuple[float, float], Places, Places], ...] = (
    (
        "MIXED_LEVELS: display above control",
        (120.0, 76.0),
        ((METER, 34.0, 38.0), (KNOB, 72.0, 38.0), (KNOB, 100.0, 38.0)),
        ((METER, 60.0, 56.0), (KNOB, 46.0, 22.0), (KNOB, 74.0, 22.0)),
    ),
    (
        "PLUGGED_BESIDE: connectors below, cables off the controls",
        (120.0, 76.0),
        ((JACK, 22.0, 56.0), (KNOB, 60.0, 56.0), (JACK, 98.0, 56.0), (KNOB, 60.0, 22.0)),
        ((KNOB, 46.0, 56.0), (KNOB, 74.0, 56.0), (JACK, 46.0, 20.0), (JACK, 74.0, 20.0)),
    ),
    (
        "PARTED: a kind keeps its row",
        (120.0, 76.0),
        ((LED, 22.0, 54.0), (KNOB, 60.0, 54.0), (KNOB, 98.0, 54.0), (KNOB, 40.0, 22.0), (SWITCH, 80.0, 22.0)),
        ((KNOB, 28.0, 54.0), (KNOB, 60.0, 54.0), (KNOB, 92.0, 54.0), (LED, 44.0, 22.0), (SWITCH, 76.0, 22.0)),
    ),
    (
        "BROKEN, OFF_MIDDLE: rows share their columns",
        (120.0, 76.0),
        ((LED, 22.0, 56.0), (LED, 42.0, 56.0), (LED, 71.0, 56.0), (SWITCH, 28.0, 22.0), (SWITCH, 60.0, 22.0), (SWITCH, 92.0, 22.0)),  # noqa: E501  # a row of the table
        ((LED, 28.0, 56.0), (LED, 60.0, 56.0), (LED, 92.0, 56.0), (SWITCH, 28.0, 22.0), (SWITCH, 60.0, 22.0), (SWITCH, 92.0, 22.0)),  # noqa: E501  # a row of the table
    ),
    (
        "RAGGED: rows of one kind have one number",
        (120.0, 76.0),
        ((SWITCH, 20.0, 54.0), (SWITCH, 46.0, 54.0), (SWITCH, 72.0, 54.0), (SWITCH, 98.0, 54.0), (SWITCH, 46.0, 22.0), (SWITCH, 72.0, 22.0)),  # noqa: E501  # a row of the table
        ((SWITCH, 28.0, 54.0), (SWITCH, 60.0, 54.0), (SWITCH, 92.0, 54.0), (SWITCH, 28.0, 22.0), (SWITCH, 60.0, 22.0), (SWITCH, 92.0, 22.0)),  # noqa: E501  # a row of the table
    ),
    (
        "STOP_INSIDE: an emergency stop at the edge",
        (230.0, 90.0),
        (("pushbutton-22", 28.0, 45.0), ("emergency-stop-22", 115.0, 45.0), ("pushbutton-22", 202.0, 45.0)),
        (("pushbutton-22", 28.0, 45.0), ("pushbutton-22", 63.0, 45.0), ("emergency-stop-22", 190.0, 45.0)),
    ),
)  # fmt: skip


def drawn(size: tuple[float, float], places: Places) -> Image.Image:
    """A panel of these parts, as wide as half a pair."""
    parts = "".join(
        f"  - {{ref: X{number}, part: {part}, at: [{x}, {y}]}}\n" for number, (part, x, y) in enumerate(places)
    )
    built = panelart.build(panelart.load(HEAD.format(*size) + parts))
    picture = Image.open(io.BytesIO(built.files["panel.png"])).convert("RGB")
    return picture.resize((WIDTH, round(picture.height * WIDTH / picture.width)), Image.Resampling.LANCZOS)


def pairs() -> Iterator[tuple[str, Image.Image, Image.Image]]:
    """Each pair with its words."""
    for words, size, avoided, preferred in PAIRS:
        yield words, drawn(size, avoided), drawn(size, preferred)


def main() -> None:
    """Draw all pairs on one sheet, two pairs beside each other."""
    made = list(pairs())
    block = 2 * WIDTH + GAP
    rows = [made[at : at + 2] for at in range(0, len(made), 2)]
    heights = [HIGH + max(left.height for _, left, _ in row) + GAP for row in rows]
    sheet = Image.new("RGB", (2 * block + GAP, sum(heights)), "white")
    pen, font = ImageDraw.Draw(sheet), ImageFont.truetype(str(FONT), 22)
    top = 0
    for row, height in zip(rows, heights, strict=True):
        for column, (words, avoided, preferred) in enumerate(row):
            left = column * (block + GAP)
            pen.text((left, top + 4), words, fill="black", font=font)
            sheet.paste(avoided, (left, top + HIGH))
            sheet.paste(preferred, (left + WIDTH + GAP // 2, top + HIGH))
            middle = top + HIGH + avoided.height
            pen.line((left, top + HIGH, left + WIDTH, middle), fill="#C03030", width=4)
        top += height
    path = HERE / "pictures" / "layout-terms.png"
    sheet.save(path, optimize=True)
    print(path.relative_to(HERE.parent), f"{path.stat().st_size} bytes")


if __name__ == "__main__":
    main()
