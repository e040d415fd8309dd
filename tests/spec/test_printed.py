"""What the spec says of printing: what it means, and what is said of slips."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from panelart.diagnostics import SpecError
from panelart.model.printing import Gradient, Photo, Solid, Thin
from panelart.spec.read import panel_from_text
from tests.spec.samples import BURNT, CUT, PRINTED, SCREENED

LAST = "{ink: amber, to: {tint: 0}, round: true}"


def printing(text: str, folder: Path | None = None):
    return panel_from_text(text, folder=folder).marking.printing


def told(text: str, folder: Path | None = None) -> str:
    with pytest.raises(SpecError) as caught:
        panel_from_text(text, folder=folder)
    return "\n".join(str(problem) for problem in caught.value.problems)


def test_everything_written_is_meant() -> None:
    found = printing(PRINTED)
    assert (found.base.choke, found.base.thin, found.base.under) == (0.15, Thin.NONE, ("blue",))
    assert found.trap == 0.25
    flat, run, round_ = (ground.colour for ground in found.backgrounds)
    assert flat == Solid(ink="blue", tint=0.8)
    assert isinstance(run, Gradient)
    assert (run.start.y, run.end.y) == (20, 40)  # over the circle's box, upwards
    assert isinstance(round_, Gradient)
    assert (round_.round, round_.start) == (True, (60, 30))
    assert [ground.bleed for ground in found.backgrounds] == [1.5, None, 2.0]
    assert (found.overlay.inset, found.overlay.reverse, found.overlay.colour) == (1, True, "#F0F0F0")
    assert printing(BURNT).laser.spacing == 0.1
    assert printing(CUT).engraving.cutters == (0.25, 0.5, 1.0)
    assert printing(SCREENED).emulsion.value == "down"


@pytest.mark.parametrize(
    ("coat", "expected"), [("#101010", True), ("#767676", True), ("#787878", False), ("#FFFFFF", False)]
)
def test_base_is_under_inks_on_dark_faces(coat, expected) -> None:
    text = PRINTED.replace("process: overlay", "process: digital-print").replace("#2B3036", coat)
    text = text[: text.index("  overlay: {")] + text[text.index("parts:") :]
    text = text.replace("  base: {choke: 0.15, thin: none, under: [blue]}\n", "")
    found = printing(text).base
    # L* 50 of CIELAB lies between sRGB grey 118 and 119 (CIE 15; 118.9 by the formula).
    assert (found is not None) is expected
    if found:
        assert found.under == ("blue", "amber")  # white needs none


@pytest.mark.parametrize(("sample", "change", "message"), [
    (PRINTED, ("under: [blue]", "under: [bleu]"), "Unknown ink 'bleu'; Did you mean 'blue'"),
    (PRINTED, ("{ink: blue, tint: 80,", "{ink: blu, tint: 80,"), "Unknown ink 'blu'"),
    (PRINTED, ("tint: 80", "tint: 0"), "Accepted: a number, 1 to 100 %"),
    (PRINTED, ("to: {ink: amber, tint: 20}, run: 90", "run: 90"), "Background of one colour has 'run'"),
    (PRINTED, ("edge: short", "edge: short, bleed: 2"), "stops short of the edge, but has a 'bleed'"),
    (PRINTED, ("inset: 1,", "inset: 40,"), "leaves no label film"),
    (PRINTED, ('colour: "#F0F0F0"', "colour: grey"), "Accepted: clear or a colour #RRGGBB"),
    (PRINTED, ("process: overlay", "process: digital-print"), "Key 'overlay' is not accepted with the"),
    (PRINTED, ("  trap: 0.25\n", "  trap: 3\n"), "Accepted: a length"),
    (PRINTED, (LAST, "{picture: none.png, box: [0, 0, 10, 10]}"), "Cannot read the picture 'none.png'"),
    (PRINTED, (LAST, "{picture: /etc/x.png, box: [0, 0, 10, 10]}"), "relative to the file"),
    (PRINTED, (LAST, "{picture: a.png, box: [500, 0, 10, 10]}"), "The box is outside the panel"),
    (CUT, ("engraving: {", "trap: 0.1\n  engraving: {"), "Key 'trap' is not accepted with the process engraving"),
    (CUT, ("  engraving:", "  cutter: 0.3\n  engraving:"), "both 'cutter' and 'cutters'"),
    (CUT, ("[0.25, 0.5, 1 mm]", "[0]"), "more than 0"),
    (BURNT, ("spacing: 0.1", "spacing: 0"), "0.01 to 1 mm"),
    (SCREENED, ("emulsion: down", "backgrounds: [{picture: a.png, box: [0, 0, 10, 10]}]"), "needs an ink"),
])  # fmt: skip
def test_slips(tmp_path: Path, sample: str, change: tuple[str, str], message: str) -> None:
    assert change[0] in sample
    assert message in told(sample.replace(*change), tmp_path).replace("\n  hint: ", "; ")


def png(pixels: list[tuple[int, ...]], size: tuple[int, int]) -> bytes:
    picture = Image.new("RGBA", size)
    picture.putdata(pixels)
    kept = io.BytesIO()
    picture.save(kept, "PNG")
    return kept.getvalue()


def test_a_picture_is_read_with_its_cover(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(png([(255, 0, 0, 255), (0, 0, 0, 0)], (2, 1)))
    text = PRINTED.replace(LAST, "{picture: a.png, box: [10, 10, 20, 10]}")
    photo = printing(text, tmp_path).backgrounds[-1].colour
    assert isinstance(photo, Photo)
    assert (photo.width, photo.height, photo.pixels) == (2, 1, bytes((255, 0, 0, 255, 0, 0, 0, 0)))


@pytest.mark.parametrize(
    "data", [b"", b"no picture", b"\x89PNG\r\n\x1a\n" + bytes(50), png([(0, 0, 0, 255)], (1, 1))[:-30]]
)
def test_a_broken_picture_is_told(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "a.png").write_bytes(data)
    text = PRINTED.replace(LAST, "{picture: a.png, box: [10, 10, 20, 10]}")
    assert "is not a readable PNG picture" in told(text, tmp_path)
