"""The picture of the shadows: red is what is hidden from there, amber what is hidden from elsewhere."""

from __future__ import annotations

import numpy as np
import pypdfium2
from msgspec.structs import replace

from panelart.checks.shadows import Eye, Look, hidden_ink, worst_look
from panelart.checks.survey import survey
from panelart.sheets.shadows import LOST, LOST_ELSEWHERE, shadow_picture
from panelart.writers import pdf, svg
from tests.checks.builders import front, knob, layout, legend

HIGH = Look(height=400, aside=0, eye=Eye(100, 450, 600))
LOW = Look(height=-400, aside=0, eye=Eye(100, -350, 600))


def made():
    panel = layout(
        knob("RV1", 100, 50, 24),
        legend("RV1", "BELOW", (95, 34, 105, 37.9)),
        legend("RV1", "ABOVE", (95, 63, 105, 65)),
        legend("RV1", "CLEAR", (20, 63, 30, 65)),
        front("RV1", knob("RV1", 100, 50, 8).contour, "nut"),
    )
    return survey(replace(panel, envelopes=tuple(replace(one, height=16.0) for one in panel.envelopes)))


def test_red_and_amber():
    panel = made()
    hidden = hidden_ink(panel, [LOW, HIGH])
    drawing = shadow_picture(panel, hidden, HIGH, ranged=True)
    (findings,) = [layer for layer in drawing.layers if layer.name == "findings"]
    fills = [item.fill for item in findings.items[1:]]
    assert sorted(fill.colour for fill in fills) == sorted([LOST.colour, LOST_ELSEWHERE.colour])
    assert "400 mm above the centre" in drawing.note
    assert svg(drawing) == svg(shadow_picture(panel, hidden, HIGH, ranged=True))


def test_the_worst_place_hides_most():
    assert worst_look(made(), [LOW, HIGH]) is HIGH  # four millimetres of a letter against two


def test_a_clear_panel_says_so():
    panel = survey(layout(knob("RV1", 100, 50, 24), legend("RV1", "CLEAR", (20, 63, 30, 65))))
    drawing = shadow_picture(panel, hidden_ink(panel, [HIGH]), HIGH, ranged=False)
    labels = [item.label for layer in drawing.layers if layer.name == "notes" for item in layer.items]
    assert any("All legends and marks are visible" in label for label in labels)


def test_the_shadow_is_on_the_page_where_a_ray_says():
    """pdfium draws it; below the knob, inside the shadow of its top, the face is another colour than beside it."""
    panel = survey(layout(knob("RV1", 100, 50, 24)))
    page = pypdfium2.PdfDocument(pdf([shadow_picture(panel, (), HIGH, ranged=False)]))[0]
    pixels = np.asarray(page.render(scale=4).to_pil().convert("RGB"), dtype=int)
    per_mm = 4 * 72 / 25.4

    def at(x, y):
        return pixels[int(len(pixels) - (y + 4) * per_mm), int((x + 4) * per_mm)]

    # The top of the knob, 10 mm over the face, is thrown to 450 - (450 - y) x 600 / 590: from 38 to 31.02 mm.
    assert not np.array_equal(at(100, 33), at(20, 33))
    assert np.array_equal(at(100, 30.5), at(20, 33))
