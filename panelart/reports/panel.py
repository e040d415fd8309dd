"""The panel as JSON: everything that the spec says, declared defaults filled in, copies written out, in mm.

A key whose default follows from other keys, such as the register of the process, is null where it is left out.
"""

from __future__ import annotations

import json
from typing import Any, Final

from panelart.model.panel import Panel
from panelart.source.facts import as_json

VERSION: Final = 1


def panel_json(panel: Panel) -> str:
    """The resolved panel as JSON text that ends with a line end.

    Keys are those of the spec; keys of lengths end in `_mm`, of angles in `_deg`. `parts` has one entry a part, its
    place from the datum.
    """
    said: dict[str, Any] = as_json(panel.facts)
    said["parts"] = [as_json(part.facts) for part in panel.parts]
    document = {"version": VERSION, "fingerprint": panel.fingerprint, **said}
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"
