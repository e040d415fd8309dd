"""Nobody but the page itself reaches the spec: origin as in the WHATWG Fetch standard, Host as in RFC 9110.

DNS rebinding, cross-site requests, path traversal, oversized and slow requests as OWASP's guides describe them.
"""

from __future__ import annotations

import contextlib
import http.client
import socket
from collections.abc import Iterator

import httpx
import pytest

from panelart.viewer import access
from tests.viewer.running import KEYS, SMALL, Running, running


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    """One server for all: nothing here may change its spec."""
    spec = tmp_path_factory.mktemp("guarded") / "box.yaml"
    spec.write_bytes(SMALL.encode())
    with running(spec) as server:
        server.settle()
        yield server
        assert spec.read_bytes() == SMALL.encode()


CHANGE = {"do": "move", "refs": ["S1"], "by": [1, 0]}


def asked(
    served: Running, path: str, headers: dict[str, str], method: str = "GET", body: bytes = b""
) -> tuple[int, str]:
    """A request with just these headers, as no library would shape it."""
    speaker = http.client.HTTPConnection("127.0.0.1", served.port, timeout=15)
    speaker.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
    for name, value in headers.items():
        speaker.putheader(name, value)
    if body:
        speaker.putheader("Content-Length", str(len(body)))
    speaker.endheaders(body or None)
    answer = speaker.getresponse()
    text = answer.read().decode()
    speaker.close()
    return answer.status, text


def own(served: Running) -> dict[str, str]:
    return {"Host": f"127.0.0.1:{served.port}"}


def test_the_page_is_there_for_who_has_its_address(served: Running) -> None:
    for path in ("", "scene", "picture.svg", "page/main.js", "source"):
        assert asked(served, f"/{KEYS.edit}/{path}", own(served))[0] == 200
    assert asked(served, f"/{KEYS.edit}/", {"Host": f"localhost:{served.port}"})[0] == 200


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", "[::1].evil:{port}", ""]
)
def test_a_name_that_is_not_its_own_gets_nothing(served: Running, host: str) -> None:
    status, text = asked(served, f"/{KEYS.edit}/source", {"Host": host.format(port=served.port)})
    assert status in (400, 421)
    assert "toggle" not in text


def test_two_names_get_nothing(served: Running) -> None:
    with socket.create_connection(("127.0.0.1", served.port), 10) as line:
        name = f"127.0.0.1:{served.port}"
        line.sendall(f"GET /{KEYS.edit}/source HTTP/1.1\r\nHost: {name}\r\nHost: {name}\r\n\r\n".encode())
        assert line.recv(64).split()[1] in (b"400", b"421")


def raw(served: Running, request: str, *, until: int = 1) -> bytes:
    """What comes back for bytes that no library would send; reads until so many answers or the end of the line."""
    with socket.create_connection(("127.0.0.1", served.port), 10) as line:
        line.settimeout(5)
        line.sendall(request.format(port=served.port, edit=KEYS.edit, look=KEYS.look).encode())
        got = b""
        with contextlib.suppress(TimeoutError):
            while got.count(b"HTTP/1.1 ") < until or b"\r\n\r\n" not in got:
                more = line.recv(65536)
                if not more:
                    break
                got += more
        return got


HEAD = "Host: 127.0.0.1:{port}\r\n"
OWN = "Origin: http://127.0.0.1:{port}\r\n"
UNDO = "POST /{edit}/undo HTTP/1.1\r\n" + HEAD + OWN
UPGRADE = (
    "Origin: http://evil.example\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
    "Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n"
)
TWO = "Origin: http://evil.example\r\nOrigin: null\r\n"


@pytest.mark.parametrize(
    ("request_", "statuses"),
    [
        ("GET /{edit}/source HTTP/1.0\r\n\r\n", (400, 421)),
        ("GET http://127.0.0.1:{port}/{edit}/source HTTP/1.1\r\nHost: evil.example\r\n\r\n", (400, 421)),
        ("GET http://evil.example/{edit}/source HTTP/1.1\r\n" + HEAD + "\r\n", (400, 403)),
        ("GET //{edit}/source HTTP/1.1\r\n" + HEAD + "\r\n", (403, 404)),
        ("GET /x/../{edit}/source HTTP/1.1\r\n" + HEAD + "\r\n", (403,)),
        ("OPTIONS * HTTP/1.1\r\n" + HEAD + "\r\n", (400, 403, 405)),
        ("TRACE /{edit}/source HTTP/1.1\r\n" + HEAD + "\r\n", (403, 405)),
        ("GET /{edit}/source HTTP/1.1\r\nhost: [::1]:{port}\r\nX-Forwarded-Host: evil.example\r\n\r\n", (200,)),
        ("GET /{edit}/source HTTP/1.1\r\nHost: [::ffff:127.0.0.1]:{port}\r\n\r\n", (421,)),
        ("GET /{edit}/source HTTP/1.1\r\nHost: localhost.:{port}\r\n\r\n", (421,)),
        ("GET /{edit}/source HTTP/1.1\r\n" + HEAD + TWO + "\r\n", (400, 403)),
        (UNDO + OWN + "Content-Length: 2\r\n\r\n{{}}", (400, 403)),
        (UNDO + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{{}}", (400,)),
        (UNDO + "Content-Length: " + "9" * 5000 + "\r\n\r\n{{}}", (400, 413)),
        ("GET /{look}/events HTTP/1.1\r\n" + HEAD + UPGRADE + "\r\n", (400, 403, 404)),
    ],
)  # fmt: skip
def test_odd_requests_reach_nothing_that_plain_ones_do_not(
    served: Running, request_: str, statuses: tuple[int, ...]
) -> None:
    """RFC 9110 and 9112: no Host, two of one header, targets in absolute form, lengths that differ, upgrades."""
    answer = raw(served, request_)
    assert int(answer.split()[1]) in statuses
    if 200 not in statuses:
        assert b"toggle" not in answer
    assert served.spec.read_text() == SMALL


def test_a_head_has_no_body_and_the_headers_of_all(served: Running) -> None:
    answer = httpx.head(f"{served.base}source")
    assert (answer.status_code, answer.content) == (200, b"")
    assert "script-src 'self'" in answer.headers["content-security-policy"]


def test_requests_on_one_line_are_each_looked_at(served: Running) -> None:
    """The second of two sent together has no right from the first, nor has what pretends to be the first's body."""
    good = "GET /{look}/scene HTTP/1.1\r\n" + HEAD + "\r\n"
    bad = "GET /{edit}/source HTTP/1.1\r\nHost: evil.example\r\n\r\n"
    answer = raw(served, good + bad, until=2)
    assert [part[:3] for part in answer.split(b"HTTP/1.1 ")[1:]] == [b"200", b"421"]
    hidden = (
        "POST /{look}/undo HTTP/1.1\r\n" + HEAD + "Transfer-Encoding: chunked\r\nContent-Length: 4\r\n\r\n"
        "0\r\n\r\nGET /{edit}/source HTTP/1.1\r\nHost: evil.example\r\n\r\n"
    )
    assert b"toggle" not in raw(served, hidden, until=2)


def test_many_idle_lines_do_not_stop_the_page(served: Running) -> None:
    """Lines that ask for nothing; those of one browser to one server are six."""
    lines = [socket.create_connection(("127.0.0.1", served.port), 10) for _ in range(30)]
    assert httpx.get(f"{served.base}source").status_code == 200
    for line in lines:
        line.close()


@pytest.mark.parametrize("token", ["", "x", "e" * 39, "e" * 41, "%00", "é" * 20, "l" * 39])
def test_no_token_or_a_wrong_one_gets_nothing(served: Running, token: str) -> None:
    answer = httpx.get(f"http://127.0.0.1:{served.port}/{token}/source")
    assert answer.status_code == 403
    assert "toggle" not in answer.text


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:{port}", "http://127.0.0.1:1"])
def test_another_site_can_neither_read_nor_write(served: Running, origin: str) -> None:
    headers = {"Origin": origin.format(port=served.port)}
    assert httpx.get(f"{served.base}source", headers=headers).status_code == 403
    revision = served.desk.state.revision
    answer = httpx.post(f"{served.base}change", headers=headers, json={**CHANGE, "revision": revision})
    assert answer.status_code == 403
    assert served.spec.read_text() == SMALL


def test_a_change_without_an_origin_is_refused(served: Running) -> None:
    revision = served.desk.state.revision
    assert httpx.post(f"{served.base}change", json={**CHANGE, "revision": revision}).status_code == 403
    assert served.spec.read_text() == SMALL


def test_no_answer_allows_another_site_in(served: Running) -> None:
    answer = httpx.options(f"{served.base}change", headers={"Origin": "http://evil.example"})
    assert answer.status_code == 403
    for response in (answer, httpx.get(served.base), httpx.get(f"{served.base}nothing")):
        assert not [name for name in response.headers if name.startswith("access-control")]
        assert "script-src 'self'" in response.headers["content-security-policy"]
        assert "unsafe" not in response.headers["content-security-policy"]
        assert response.headers["x-content-type-options"] == "nosniff"
        assert response.headers["referrer-policy"] == "no-referrer"


def test_looking_only_is_looking_only(served: Running) -> None:
    headers = {"Origin": f"http://127.0.0.1:{served.port}"}
    assert httpx.get(f"{served.look}scene").status_code == 200
    for path in ("change", "undo", "redo", "answer", "arrange"):
        body = {**CHANGE, "revision": served.desk.state.revision}
        assert httpx.post(f"{served.look}{path}", headers=headers, json=body).status_code == 403
    assert served.spec.read_text() == SMALL


@pytest.mark.parametrize(
    "path",
    [
        pytest.param("page/../access.py", id="page/../guard.py"),
        pytest.param("page/%2e%2e/access.py", id="page/%2e%2e/guard.py"),
        pytest.param("page/..%2faccess.py", id="page/..%2fguard.py"),
        "page/..%2f..%2f..%2f..%2fetc%2fpasswd",
        "page//etc/passwd",
        "page/%2fetc%2fpasswd",
        pytest.param("page/..%5caccess.py", id="page/..%5cguard.py"),
        "page/main.js%00.css",
        "files/..%2fbox.yaml",
        "files/box.yaml",
        "view/..%2f..%2fsource.svg",
        "secret.txt",
    ],
)
def test_no_file_but_the_page_s_own_is_served(served: Running, path: str) -> None:
    (served.spec.parent / "secret.txt").write_text("not for you")
    status, text = asked(served, f"/{KEYS.edit}/{path}", own(served))
    assert status in (400, 404)
    assert "not for you" not in text
    assert "root:" not in text
    assert "def " not in text


def test_a_body_too_large_is_refused_told_or_not(served: Running) -> None:
    headers = own(served) | {"Origin": f"http://127.0.0.1:{served.port}"}
    large = b"x" * (access.MAX_BODY + 1)
    assert asked(served, f"/{KEYS.edit}/change", headers, "POST", large)[0] == 413
    chunks = (b"y" * 4096 for _ in range(access.MAX_BODY // 4096 + 1))
    told = {"Origin": f"http://127.0.0.1:{served.port}"}
    assert httpx.post(f"{served.base}change", headers=told, content=chunks).status_code == 413


def test_a_slow_client_is_let_go_and_holds_up_nobody(served: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(access, "BODY_SECONDS", 3.0)
    with socket.create_connection(("127.0.0.1", served.port), 10) as line:
        head = (
            f"POST /{KEYS.edit}/change HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n"
            f"Origin: http://127.0.0.1:{served.port}\r\nContent-Length: 100\r\n\r\n{{"
        )
        line.sendall(head.encode())
        assert httpx.get(f"{served.base}scene").status_code == 200
        line.setblocking(False)
        with pytest.raises(BlockingIOError):  # the page was answered while the slow one still has its time
            line.recv(64)
        line.settimeout(20)
        assert line.recv(64).split()[1] == b"408"


@pytest.mark.parametrize(
    "body", [b"", b"{", b"[]", b"null", b'"x"', b"\xff\xfe", b'{"do": 1}', b'{"do": "format disk"}']
)
def test_a_change_that_is_none_is_told_so(served: Running, body: bytes) -> None:
    with served.client() as page:
        answer = page.post("change", content=body)
    assert answer.status_code in (400, 409)
    assert served.spec.read_text() == SMALL
