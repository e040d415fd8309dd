"""How many parts of the catalogue are cut by published figures: README's sentence, worked out from the figures.

`python -m panelart.catalogue.published`; `--write README.md` puts it there.
"""

from __future__ import annotations

import textwrap
from collections import Counter

from panelart.catalogue import library
from panelart.catalogue.standing import to_measure
from panelart.figure import Known
from panelart.messages import catalogue as said
from panelart.source.generated import print_or_write


def standings() -> str:
    """How many parts there are, and of how many no figure, some typical or some recalled figure decides the cut."""
    count = Counter(_weakest(name) for name in library.names())
    told = said.standings(
        parts=count.total(), published=count[None], typical=count[Known.TYPICAL], recalled=count[Known.MEMORY]
    )
    return textwrap.fill(f"{told}.", width=120)


def _weakest(name: str) -> Known | None:
    """The weakest standing of the figures that a part is cut by; None where all are published."""
    known = {figure.known for figure in to_measure(library.component(name))}
    return next((one for one in (Known.MEMORY, Known.TYPICAL) if one in known), None)


if __name__ == "__main__":
    print_or_write("python -m panelart.catalogue.published", "standings", standings)
