"""Pad printing: a cliché an ink with the base among them, read back from the files by other readers."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest

from panelart.pipeline import Built, build, write
from panelart.processes.process import Emulsion
from panelart.sheets.purchasing import bought
from panelart.sheets.stations import Section, stations
from panelart.spec.read import panel_from_text

SPEC = """
panelart: 1
panel:
  title: Pump
  number: TK-1
  size: [90, 60]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "COAT", name: NAME}
  FLANGES
marking:
  process: pad-print
  inks: [{name: red, colour: "#B81F20"}, {name: white, colour: "#F6F6F2"}, {name: yellow, colour: "#E8B400"}]
  lettering: {font: {weight: bold}, cap_height: 4, styles: {name: {ink: white}, title: {ink: yellow}}}
  backgrounds: [{ink: red, tint: TINT, area: {rectangle: [50, 8, 30, 20]}}]
  MORE
parts: [{ref: S1, part: toggle-12, at: [25, 30], legend: POWER}]
texts: [{text: STOP, at: [53, 16], cap_height: 5}]
"""
DARK, LIGHT = "#22262B", "#E4E6E4"


@cache
def built(coat: str = DARK, name: str = "graphite", flanges: str = "", more: str = "", tint: int = 100) -> Built:
    text = SPEC
    for word, value in (("COAT", coat), ("NAME", name), ("FLANGES", flanges), ("MORE", more), ("TINT", str(tint))):
        text = text.replace(word, value)
    return build(panel_from_text(text))


@cache
def files(coat: str = DARK) -> dict[str, bytes]:
    return write(built(coat))


def station(made: Built) -> Section:
    return next(one for one in stations(made.layout) if one.name == "Pad printing")


def told(made: Built) -> str:
    return " ".join(map(str, (*station(made).steps, *station(made).cautions)))


def seen(data: bytes, layers: tuple[str, ...], dpi: float = 254) -> np.ndarray:
    """What some layers of a PDF put within its trim, as another program renders it: 10 dots a mm, true where inked."""
    shown = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as file:
        page = file.pages[0]
        page.MediaBox = page.CropBox = page.TrimBox
        config = file.Root.OCProperties.D
        if "/AS" in config:  # what is set for viewing and printing would go before what is turned off here
            del config["/AS"]
        for group in file.Root.OCProperties.OCGs:
            if "/Usage" in group:
                del group["/Usage"]
        config.OFF = pikepdf.Array([group for group in file.Root.OCProperties.OCGs if str(group.Name) not in layers])
        file.save(shown)
    page = pypdfium2.PdfDocument(shown.getvalue())[0]
    return np.asarray(page.render(scale=dpi / 72).to_pil().convert("L"), dtype=int) < 250


def apart(one: np.ndarray, other: np.ndarray) -> int:
    """Dots of one view that are not inked in the other, nor beside a dot that is."""
    height, width = min(one.shape[0], other.shape[0]), min(one.shape[1], other.shape[1])
    padded = np.pad(other[:height, :width], 1)
    near = np.any([padded[y : y + height, x : x + width] for y in range(3) for x in range(3)], axis=0)
    return int((one[:height, :width] & ~near).sum())


# --- positives


def test_there_is_a_positive_for_the_base_and_for_each_ink() -> None:
    made = files()
    films = [name for name in made if name.startswith("film-")]
    assert films == ["film-base.pdf", "film-red.pdf", "film-white.pdf", "film-yellow.pdf"]
    assert station(built()).files == (*films, "artwork.pdf", "plates.csv")
    assert b"\nbase,base,," in made["plates.csv"]


@pytest.mark.parametrize(
    ("film", "layers"),
    [
        ("film-base.pdf", ("base",)),
        ("film-red.pdf", ("background", "legend-red")),
        ("film-white.pdf", ("legend-white",)),
        ("film-yellow.pdf", ("legend-yellow",)),
    ],
)
def test_a_positive_is_the_artworks_plate_seen_from_behind(film: str, layers: tuple[str, ...]) -> None:
    """The base, read back by pdfium from its positive, is all the base of the artwork and nothing else; so each ink."""
    asked, positive = seen(files()["artwork.pdf"], layers), seen(files()[film], layers)
    # The two pages end within one dot of each other; what is mirrored begins where the narrower one ends.
    mirrored = asked[:, : min(asked.shape[1], positive.shape[1])][:, ::-1]
    assert asked.sum() > 200
    assert apart(mirrored, positive) == 0
    assert apart(positive, mirrored) == 0
    assert apart(asked, positive) > 100  # it is mirrored: emulsion down


def test_the_base_lies_under_the_inks_that_need_it_and_inside_them() -> None:
    art = files()["artwork.pdf"]
    base, red, yellow, white = (
        seen(art, layers) for layers in (("base",), ("background",), ("legend-yellow",), ("legend-white",))
    )
    assert apart(base, red | yellow) == 0
    assert base[red].mean() > 0.9
    assert base[white].mean() < 0.01


def test_a_light_coat_needs_no_base() -> None:
    assert "film-base.pdf" not in files(LIGHT)
    assert "base" not in [one.title for one in bought(built(LIGHT).layout.panel)]
    assert "twice" not in told(built(LIGHT))


def test_the_emulsion_is_down_unless_the_spec_says_otherwise() -> None:
    assert built().layout.panel.marking.printing.emulsion is Emulsion.DOWN
    assert built(more="emulsion: up").layout.panel.marking.printing.emulsion is Emulsion.UP
    with pikepdf.open(io.BytesIO(files()["film-base.pdf"])) as file:
        assert "emulsion down (mirrored)" in str(file.docinfo["/Subject"])


# --- what is done, minded, bought


def test_the_steps_name_every_plate_in_the_order_of_printing() -> None:
    said = told(built())
    assert "etched 0.025 mm deep: base, red, white, yellow." in said
    assert "Print the base (base) first, under red, yellow." in said
    assert "Print white twice" in said
    assert "ink spreads by about 0.05 mm" in said
    # Red begins at x 50 and ends at 80: the widest plate is that, 30 mm; the pad follows the largest.
    red = next(one for one in seen_sizes() if one[0] == "red")
    assert red[1:] == pytest.approx((30.0, 20.0), abs=0.01)


def seen_sizes() -> list[tuple[str, float, float]]:
    from panelart.marking.separation import separations
    from panelart.sheets.marking import work_of

    layout = built().layout
    return [(plate.name, plate.width, plate.height) for plate in work_of(layout, separations(layout)).plates]


@pytest.mark.parametrize(
    ("changed", "words", "times"),
    [
        ({}, "safety data sheets", 1),
        ({}, "support its face", 0),
        ({"flanges": "flanges: {top: {length: 15}}"}, "support its face", 1),
        ({}, "textured", 0),
        ({"name": "graphite fine texture"}, "textured", 1),
        ({}, "wider than about 10 mm print unevenly: base, red.", 1),
        ({}, "halftone", 0),
        ({"tint": 40}, "halftone", 1),
        ({}, "in sections", 0),
    ],
)
def test_cautions_come_where_they_belong(changed: dict[str, Any], words: str, times: int) -> None:
    assert told(built(**changed)).count(words) == times


def test_what_is_bought_has_a_cliche_and_white_ink_for_the_base() -> None:
    rows = [(one.kind, one.title, one.quantity) for one in bought(built().layout.panel)]
    assert [title for kind, title, _ in rows if kind == "legend plate"] == [
        "Cliché, base",
        "Cliché, red",
        "Cliché, white",
        "Cliché, yellow",
    ]
    assert ("consumable", "Printing pad, silicone, 20 % or more larger than its print", 4) in rows
    assert ("consumable", "Pad printing ink, opaque white (base)", 1) in rows
    assert ("consumable", "Hardener for the pad printing inks", 1) in rows


def test_colour_does_not_bleed_and_pictures_need_an_ink() -> None:
    assert all(ground.bleed is None for ground in built().layout.panel.marking.printing.backgrounds)
    assert not built().layout.panel.marking.process.press_colours
