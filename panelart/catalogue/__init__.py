"""The parts a panel is made of: what hole each needs, what it hides, and where every number comes from.

Data files in `parts/` hold families and single parts; part files of the user's own and of other packages have the same
form (`table`). Nothing is read before a part is asked for.
"""

from __future__ import annotations

from panelart.catalogue.cautions import caution
from panelart.catalogue.installed import component, knob, knob_names, names
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.library import Contents, component_from, read_contents, read_file
from panelart.catalogue.overrides import OVERRIDES, overridden
from panelart.catalogue.search import matching
from panelart.catalogue.standing import Dimension, dimensions_to_measure, is_doubtful, to_measure

__all__ = [
    "OVERRIDES",
    "Contents",
    "Dimension",
    "KnobEntry",
    "caution",
    "component",
    "component_from",
    "dimensions_to_measure",
    "is_doubtful",
    "knob",
    "knob_names",
    "matching",
    "names",
    "overridden",
    "read_contents",
    "read_file",
    "to_measure",
]
