"""Writes `index.txt` anew after a data file has changed: `python -m panelart.catalogue.index`."""

from __future__ import annotations

from panelart.catalogue.library import INDEX, index_text


def write_index() -> None:
    """Write which file each name stands in. Raises SpecError when a data file has a problem."""
    INDEX.write_text(index_text(), "utf-8", newline="\n")


if __name__ == "__main__":
    write_index()
