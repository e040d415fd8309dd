"""panelart: from a list of panel components to checked cutouts, placed legends and the files to make them."""

from __future__ import annotations

__version__ = "0.1.0"
