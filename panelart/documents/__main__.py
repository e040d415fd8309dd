"""Prints README's table of files: `python -m panelart.documents`."""

from __future__ import annotations

from panelart.documents.table import table

if __name__ == "__main__":
    print(table())  # noqa: T201  # this program is there to print it
