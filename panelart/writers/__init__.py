"""Writers: a drawing in, the bytes of a file out. They know no panels and make no decision about layout.

Each format's library is imported when the format is written, so that importing this room costs nothing.
"""

from __future__ import annotations

from panelart.writers.dxf import dxf
from panelart.writers.files import write_all, write_folders
from panelart.writers.pdf import pdf
from panelart.writers.png import dots, png
from panelart.writers.svg import svg
from panelart.writers.whole import settle

__all__ = ["dots", "dxf", "pdf", "png", "settle", "svg", "write_all", "write_folders"]
