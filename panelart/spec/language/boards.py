"""Circuit boards behind the panel, and which parts sit on each."""

from __future__ import annotations

from panelart.source.nouns import Noun, key
from panelart.source.schema import Length, ListOf, MapOf
from panelart.spec.language import kinds

_HEIGHT = Length(above=0, maximum=200)


class Board(Noun):
    """Circuit board behind the panel and the parts on it.

    Parts on one board must reach the panel together: each needs its own distance from the board's surface to the rear
    face of the panel, which the catalogue states as the height of a part on a board. Of a board at right angles to the
    panel, the places of the parts at its edge must put its surface in one plane.
    """

    name = key(kinds.LINE, default="", says="Name of the board, for sheets and findings.")
    parts = key(
        ListOf(of=kinds.REF, what="refs", minimum=1),
        required=True,
        says="Parts on the board; J* means all refs that begin with J.",
    )
    gap = key(
        _HEIGHT,
        otherwise="what the parts need",
        says="Distance from the surface of the board to the rear face of the panel, if spacers fix it.",
    )
    spacers = key(
        MapOf(keys=kinds.REF, of=_HEIGHT, what="refs, each with a height"),
        default=(),
        says="Height of the spacers or sockets on the board, below parts: `{RV1: 3.5}`.",
    )
    heights = key(
        MapOf(keys=kinds.REF, of=_HEIGHT, what="refs, each with a height"),
        default=(),
        says=(
            "Distance from the surface of the board to the rear face of the panel that parts need, if the catalogue "
            "has none or yours differs: `{S1: 12}`."
        ),
    )
