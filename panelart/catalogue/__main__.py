"""Prints the key reference of part files: `python -m panelart.catalogue`; `--write PAGE` puts it into own-parts.md."""

from __future__ import annotations

from panelart.catalogue.table import FILE
from panelart.source.generated import print_or_write
from panelart.source.reference import key_reference


def keys() -> str:
    """All keys of a part file, table by table."""
    return key_reference(FILE).strip()


if __name__ == "__main__":
    print_or_write("python -m panelart.catalogue", "keys", keys)
