"""Who may speak to the page's server: an ASGI layer that stands before everything else.

The page edits a file on this computer, so another site open in the same browser must reach neither its pages nor its
answers. Three things keep it out: a name that the server goes by (a site that points its own name at 127.0.0.1 sends
that name as Host), the page's own origin on everything that changes a file, and a token in the address that no other
page can know. Bodies are bounded in size and in the time they take.
"""

from __future__ import annotations

import asyncio
import hmac
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from enum import Enum
from typing import Any, TypeAlias

from panelart.canonical import Struct
from panelart.messages import Said
from panelart.messages import viewer as said

Scope: TypeAlias = MutableMapping[str, Any]
Message: TypeAlias = MutableMapping[str, Any]
Receive: TypeAlias = Callable[[], Awaitable[Message]]
Send: TypeAlias = Callable[[Message], Awaitable[None]]
App: TypeAlias = Callable[[Scope, Receive, Send], Awaitable[None]]

MAX_BODY = 64 * 1024
"""Bytes of a request; an edit has a few hundred."""

BODY_SECONDS = 10.0
"""Within which the whole of a request's body must have come."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
"""The content security policy: nothing inline, nothing from elsewhere."""

HEADERS = (
    (b"content-security-policy", POLICY.encode("ascii")),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Right(Enum):
    """What a token allows."""

    EDIT = "edit"
    LOOK = "look"


class Keys(Struct, frozen=True, kw_only=True):
    """The two tokens: `edit` allows everything, `look` looking only."""

    edit: str
    look: str

    def right(self, token: str) -> Right | None:
        """What a token allows, None for one that is neither. Takes as long for any."""
        known = None
        for key, right in ((self.edit, Right.EDIT), (self.look, Right.LOOK)):
            if hmac.compare_digest(key.encode(), token.encode("utf-8", "replace")):
                known = right
        return known


class _RefusedError(Exception):
    def __init__(self, status: int, why: Said) -> None:
        self.status, self.why = status, why


class Guard(Struct, frozen=True, kw_only=True):
    """Lets through what carries a token, under one of the `hosts` (name:port), with its right in the scope."""

    app: App
    keys: Keys
    hosts: frozenset[str]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or pass it on with `right` in its scope."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        try:
            right = self._admitted(scope)
            body = await _body(scope, receive)
        except _RefusedError as refused:
            await _answer(send, refused.status, str(refused.why))
            return
        await self.app({**scope, "right": right}, _replayed(body, receive), _with_headers(send))

    def _admitted(self, scope: Scope) -> Right:
        """The right that a request has. Raises _RefusedError."""
        self._require_host(scope)
        right = self._right(scope)
        origin = self._origin(scope)
        if scope["method"] not in ("GET", "HEAD"):
            if origin is None:
                raise _RefusedError(403, said.origin_missing())
            if right is not Right.EDIT:
                raise _RefusedError(403, said.address_read_only())
        return right

    def _require_host(self, scope: Scope) -> None:
        host = _only(scope, b"host")
        if host is None or host.lower() not in self.hosts:
            raise _RefusedError(421, said.host_unknown())

    def _right(self, scope: Scope) -> Right:
        """What the token in the address allows."""
        path: str = scope["path"]
        token, _, _ = path.removeprefix("/").partition("/")
        right = self.keys.right(token)
        if right is None:
            raise _RefusedError(403, said.token_missing())
        return right

    def _origin(self, scope: Scope) -> str | None:
        """The page that a request comes from, which is one of our own; None where it names none."""
        origin = _only(scope, b"origin")
        if origin is None and any(key == b"origin" for key, _ in scope["headers"]):
            raise _RefusedError(400, said.origins_repeated())
        if origin is not None and origin.lower() not in {f"http://{name}" for name in self.hosts}:
            raise _RefusedError(403, said.origin_unknown())
        return origin


def _only(scope: Scope, name: bytes) -> str | None:
    """The one value of a header; of several none counts."""
    values = [value for key, value in scope["headers"] if key == name]
    return values[0].decode("latin-1") if len(values) == 1 else None


async def _body(scope: Scope, receive: Receive) -> bytes:
    told = _only(scope, b"content-length")
    if told is not None and (not told.isascii() or not told.isdigit() or len(told) > 20 or int(told) > MAX_BODY):
        raise _RefusedError(413, said.request_too_large(maximum=MAX_BODY))
    if scope["method"] in ("GET", "HEAD"):
        return b""
    got = bytearray()
    try:
        async with asyncio.timeout(BODY_SECONDS):
            while True:
                message = await receive()
                if message["type"] == "http.disconnect":
                    raise _RefusedError(400, said.request_incomplete())
                got += message.get("body", b"")
                if len(got) > MAX_BODY:
                    raise _RefusedError(413, said.request_too_large(maximum=MAX_BODY))
                if not message.get("more_body", False):
                    return bytes(got)
    except TimeoutError:
        raise _RefusedError(408, said.request_too_slow(seconds=BODY_SECONDS)) from None


def _replayed(body: bytes, receive: Receive) -> Receive:
    first = True

    async def next_message() -> Message:
        nonlocal first
        if first:
            first = False
            return {"type": "http.request", "body": body, "more_body": False}
        return await receive()

    return next_message


def _with_headers(send: Send, extra: Iterable[tuple[bytes, bytes]] = HEADERS) -> Send:
    kept = tuple(extra)

    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            own = {name for name, _ in kept}
            headers = [pair for pair in message.get("headers", ()) if pair[0].lower() not in own]
            message = {**message, "headers": [*headers, *kept]}
        await send(message)

    return sent


async def _answer(send: Send, status: int, why: str) -> None:
    body = why.encode()
    plain = _with_headers(send)
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode())]
    await plain({"type": "http.response.start", "status": status, "headers": headers})
    await plain({"type": "http.response.body", "body": body})
