"""A server of the page running in a thread, for tests that speak to it over a real socket."""

from __future__ import annotations

import asyncio
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx

from panelart.viewer import address
from panelart.viewer.access import Keys
from panelart.viewer.listing import Listing
from panelart.viewer.questions import Questions
from panelart.viewer.serve import PageServer
from panelart.viewer.session import Session

KEYS = Keys(edit="e" * 40, look="l" * 40)

SMALL = """\
# A small panel of an invented maker.
panelart: 1

panel:
  title: Relay box, front
  number: NW-900-01
  revision: A
  size: [120, 60]   # as drawn
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#30343A"}

marking:
  process: digital-print
  ink: {name: white, colour: "#F4F4EF"}
  lettering: {cap_height: 3}

parts:
  - {ref: S1, part: toggle-12, at: [25, 30], legend: Power, positions: {up: "On", down: "Off"}}
  - {ref: DS1, part: led-5-bezel, at: [60, 30], legend: Ready}  # green
  - ref: J1
    part: socket-4
    at: [95, 30]
    legend: Out
"""


@dataclass(frozen=True, slots=True)
class Running:
    """A server at work on a spec."""

    spec: Path
    port: int
    desk: Session
    asking: Questions | None = None

    @property
    def base(self) -> str:
        """The address of the page with all rights."""
        return f"http://127.0.0.1:{self.port}/{KEYS.edit}/"

    @property
    def look(self) -> str:
        """The address for looking only."""
        return f"http://127.0.0.1:{self.port}/{KEYS.look}/"

    def client(self) -> httpx.Client:
        """Speaks as the page does."""
        return httpx.Client(base_url=self.base, headers={"Origin": f"http://127.0.0.1:{self.port}"}, timeout=20.0)

    def settle(self, *, revision: str | None = None, seconds: float = 20.0) -> None:
        """Waits until nothing is being laid out, and, where given, a state is shown."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if self.asking is not None and self.asking.busy:
                time.sleep(0.01)
                continue
            state = self.desk.state
            shown = None if state.shown is None else state.shown.revision
            if not state.step and (state.problems or (shown and shown == (revision or state.revision))):
                return
            time.sleep(0.01)
        raise TimeoutError(f"still '{self.desk.state.step}'")


@contextmanager
def running(
    spec: Path, port: int | None = None, listing: Listing | None = None, drafted: str | None = None
) -> Iterator[Running]:
    """Serve a spec on the loopback until the block ends, with the questions of a list where it is drafted from one."""
    listener = socket.socket()
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listener.bind(("127.0.0.1", port or 0))
    taken = listener.getsockname()[1]
    with Session(spec, "2026-01-01") as desk, ExitStack() as opened:
        asking = None if listing is None else opened.enter_context(Questions(listing, desk, drafted))
        server = PageServer(desk, KEYS, address.names("127.0.0.1", taken), asking)
        thread = threading.Thread(target=lambda: asyncio.run(server.serve([listener])), daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.005)
        try:
            yield Running(spec, taken, desk, asking)
        finally:
            server.should_exit = True
            thread.join(10.0)
            listener.close()
