"""Why a file that a spec names cannot be read."""

from __future__ import annotations

from panelart.messages import Said
from panelart.messages import spec as said


def why_unreadable(error: OSError) -> Said:
    """What the system says, or that there is no such file."""
    return error.strerror.lower() if error.strerror else said.no_such_file()
