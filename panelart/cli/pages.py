"""The page of a spec served on this computer: its addresses are told, then it is there until it is interrupted."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from panelart.cli.exits import EXIT_WRITE, end
from panelart.messages import cli as said

if TYPE_CHECKING:
    from panelart.viewer.listing import Listing

LOCAL = "127.0.0.1"
"""The address that only this computer reaches."""


def serve_page(
    spec: Path,
    host: str,
    port: int | None,
    *,
    opened: bool,
    listing: Listing | None = None,
    drafted: str | None = None,
) -> None:
    """Serve a spec, with the questions of the list that it is drafted from; `opened` in the browser at once."""
    from panelart.viewer import address

    try:
        listener = address.listening(host, port)
    except OSError as error:
        print(said.cannot_listen(host, error.strerror or error), file=sys.stderr)
        end(EXIT_WRITE)
    taken = listener.getsockname()[1]
    keys = address.keys(spec, address.kept_secret(address.state_folder()))
    shown = f"[{host}]" if ":" in host else host
    print(said.page_address(spec, f"http://{shown}:{taken}/{keys.edit}/"))
    print(said.page_address_read_only(f"http://{shown}:{taken}/{keys.look}/"))
    print(said.stop_with(), flush=True)
    if opened:
        import webbrowser

        webbrowser.open(f"http://{shown}:{taken}/{keys.edit}/")
    today = dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    from panelart.viewer.serve import serve

    serve(spec, keys, address.names(host, taken), listener, today, listing, drafted)
