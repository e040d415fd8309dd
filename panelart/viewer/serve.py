"""The server running: one spec, until it is told to stop."""

from __future__ import annotations

import asyncio
import socket
from pathlib import Path
from typing import Final

import uvicorn

from panelart.viewer.access import Keys
from panelart.viewer.server import Pages
from panelart.viewer.session import Session

MAX_CONNECTIONS: Final = 64
"""Connections at once; a page has two or three."""


class PageServer(uvicorn.Server):
    """A server that lets go of listening pages when it is told to stop."""

    def __init__(self, session: Session, keys: Keys, hosts: frozenset[str]) -> None:
        """The session is open as long as the server runs."""
        self._pages = Pages(session)
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


def serve(spec: Path, keys: Keys, hosts: frozenset[str], listener: socket.socket, today: str) -> None:
    """Show one spec on a socket that is bound already; ends when it is interrupted."""
    with Session(spec, today) as session:
        asyncio.run(PageServer(session, keys, hosts).serve([listener]))
