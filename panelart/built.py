"""Writes the index that is built with the package, after data files or the code that reads them have changed.

`python -m panelart.built` writes it, `python -m panelart.built --check` says whether it is current.
"""

from __future__ import annotations

import sys
from typing import Final

from panelart.catalogue import cautions, library, symbols, vocabulary
from panelart.checks import abbreviations, limits, materials
from panelart.lettering import glyph_widths, measured_faces, measures
from panelart.lists import words
from panelart.source.built import INDEX, Table, built

TABLES: Final[tuple[Table, ...]] = (
    library.COMPONENTS,
    library.KNOBS,
    cautions.BUILT,
    symbols.BUILT,
    vocabulary.BUILT,
    words.BUILT,
    limits.BUILT,
    materials.BUILT,
    abbreviations.BUILT,
    measured_faces.BUILT,
    glyph_widths.BUILT,
    measures.GAPS,
)
"""All that is kept."""


def main() -> int:
    """Write the index, or with --check compare it. Raises SpecError when a data file has a problem."""
    made = built(TABLES)
    if "--check" in sys.argv[1:]:
        return 0 if INDEX.is_file() and INDEX.read_bytes() == made else 1
    INDEX.write_bytes(made)
    return 0


if __name__ == "__main__":
    sys.exit(main())
