"""`python -m panelart.lettering.store_widths`: measures every glyph of our fonts and keeps what was measured.

To be run when the fonts have been built anew.
"""

from __future__ import annotations

import sys

from panelart.lettering.fonts import open_font
from panelart.lettering.glyph_widths import FILES, store_widths
from panelart.lettering.measures import measured_glyph


def main() -> None:
    """Write the file of each font and say so."""
    for name in FILES:
        numbers = range(open_font(name).face.face.glyph_count)
        found = ((number, measured_glyph(name, number)) for number in numbers)
        path = store_widths(name, ((number, widths.stroke, widths.gap) for number, widths in found))
        sys.stdout.write(f"{path.name}: {len(numbers)} glyphs\n")


if __name__ == "__main__":
    main()
