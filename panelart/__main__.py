"""`python -m panelart`: the command line, where its program is not on the path."""

from __future__ import annotations

from panelart.cli import main

if __name__ == "__main__":
    main()
