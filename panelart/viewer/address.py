"""The page's addresses: where it listens, and the tokens, which stay the same for a spec from run to run.

A page that is open when the server ends finds it again when it comes back: same port, same token. The tokens come
from a secret in the user's own state folder that nobody else can read.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
import socket
from contextlib import suppress
from pathlib import Path
from typing import Final

from panelart.messages import viewer as said
from panelart.viewer.guard import Keys

FIRST_PORT: Final = 8747
PORTS_TRIED: Final = 40

SECRET_BYTES: Final = 32


def keys(spec: Path, secret: bytes) -> Keys:
    """The tokens of one spec."""
    place = os.fsencode(spec.resolve())
    edit, look = (
        hmac.new(secret, right + b"\0" + place, hashlib.sha256).hexdigest()[:40] for right in (b"edit", b"look")
    )
    return Keys(edit=edit, look=look)


def kept_secret(folder: Path) -> bytes:
    """The secret in a folder, made the first time; one for this run only where the folder cannot be written."""
    path = folder / "view-secret"
    with suppress(OSError):
        kept = path.read_bytes()
        if len(kept) == SECRET_BYTES:
            return kept
    fresh = secrets.token_bytes(SECRET_BYTES)
    with suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
            file.write(fresh)
    return fresh


def state_folder() -> Path:
    """Where a program keeps what is to last, by the XDG base directory specification; on Windows its local folder."""
    told = os.environ.get("XDG_STATE_HOME", "") or os.environ.get("LOCALAPPDATA", "")
    return (Path(told) if Path(told).is_absolute() else Path.home() / ".local" / "state") / "panelart"


def listening(host: str, port: int | None) -> socket.socket:
    """A socket that listens on the host; without a port on the first free one. Raises OSError."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    tried = range(FIRST_PORT, FIRST_PORT + PORTS_TRIED) if port is None else (port,)
    last: OSError | None = None
    for number in tried:
        listener = socket.socket(family, socket.SOCK_STREAM)
        if os.name == "posix":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, number))
            listener.listen()  # a port that is bound only could be bound a second time
        except OSError as error:
            listener.close()
            last = error
            continue
        return listener
    raise last or OSError(said.no_free_port(first=FIRST_PORT, last=FIRST_PORT + PORTS_TRIED - 1))


def names(host: str, port: int) -> frozenset[str]:
    """The names (with port) that a browser may call this server by."""
    shown = f"[{host}]" if ":" in host else host
    loopback = {"127.0.0.1", "localhost", "[::1]"} if host in LOOPBACK else {shown}
    return frozenset(f"{name}:{port}" for name in loopback)


LOOPBACK: Final = frozenset({"127.0.0.1", "::1", "localhost"})
