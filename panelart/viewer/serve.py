"""The server running: one spec, until it is told to stop."""

from __future__ import annotations

import asyncio
import socket
from contextlib import ExitStack
from pathlib import Path
from typing import Final

import uvicorn

from panelart.viewer.access import Keys
from panelart.viewer.listing import Listing
from panelart.viewer.questions import Questions
from panelart.viewer.server import Pages
from panelart.viewer.session import Session

MAX_CONNECTIONS: Final = 64
"""Connections at once; a page has two or three."""


class PageServer(uvicorn.Server):
    """A server that lets go of listening pages when it is told to stop."""

    def __init__(self, session: Session, keys: Keys, hosts: frozenset[str], questions: Questions | None = None) -> None:
        """The session, and the questions of a list where the spec is drafted from one, are open as long as it runs."""
        self._pages = Pages(session, questions)
        super().__init__(
            uvicorn.Config(
                self._pages.application(keys, hosts),
                log_level="warning",
                access_log=False,
                server_header=False,
                limit_concurrency=MAX_CONNECTIONS,
                timeout_keep_alive=5,
                timeout_graceful_shutdown=2,
                proxy_headers=False,
                ws="none",
            )
        )

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End the streams, then the rest."""
        self._pages.end()
        await super().shutdown(sockets)


def serve(
    spec: Path,
    keys: Keys,
    hosts: frozenset[str],
    listener: socket.socket,
    today: str,
    listing: Listing | None = None,
    drafted: str | None = None,
) -> None:
    """Show one spec on a socket that is bound already; ends when it is interrupted.

    `listing` is the list that it is drafted from, to be asked about; `drafted` the draft where it is just made.
    """
    with Session(spec, today) as session, ExitStack() as opened:
        asking = None if listing is None else opened.enter_context(Questions(listing, session, drafted))
        asyncio.run(PageServer(session, keys, hosts, asking).serve([listener]))
