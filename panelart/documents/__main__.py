"""Prints README's table of files: `python -m panelart.documents`; `--write README.md` puts it there."""

from __future__ import annotations

from panelart.documents.table import table
from panelart.source.generated import print_or_write

if __name__ == "__main__":
    print_or_write("python -m panelart.documents", "files", table)
