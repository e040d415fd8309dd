"""README's table of DXF layers: `python -m panelart.documents.layers --write README.md`."""

from __future__ import annotations

from panelart.messages import machines as said
from panelart.model.machine import CUT_LAYERS
from panelart.source.generated import print_or_write


def layer_table() -> str:
    """Every layer in Markdown: its name, its colour with the contrast on white and on black, its line, its contents."""
    head = (said.column_layer(), said.column_colour(), said.column_line(), said.column_meaning())
    lines = [_row(*head), "| --- | --- | --- | --- |"]
    for layer in CUT_LAYERS:
        white, black = contrasts(layer.colour)
        colour = f"{layer.colour} ({white:.1f}, {black:.1f})"
        lines.append(_row(f"`{layer.name}`", colour, layer.line.value, layer.says))
    return "\n".join(lines)


def contrasts(colour: int) -> tuple[float, float]:
    """The contrast of a colour number of DXF on white and on black, by WCAG 2.2, 1.4.3."""
    from ezdxf.colors import aci2rgb

    red, green, blue = (_linear(value / 255) for value in aci2rgb(colour))
    light = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return 1.05 / (light + 0.05), (light + 0.05) / 0.05


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _row(*cells: object) -> str:
    return f"| {' | '.join(str(cell) for cell in cells)} |"


if __name__ == "__main__":
    print_or_write("python -m panelart.documents.layers", "layers", layer_table)
