"""Nobody but the page itself reaches the spec: origin as in the WHATWG Fetch standard, Host as in RFC 9110.

DNS rebinding, cross-site requests, path traversal, oversized and slow requests as OWASP's guides describe them.
"""

from __future__ import annotations

import http.client
import socket
import time
from pathlib import Path

import httpx
import pytest

from panelart.viewer import guard
from tests.viewer.running import KEYS, SMALL, Running

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
    for path in ("change", "undo", "redo"):
        body = {**CHANGE, "revision": served.desk.state.revision}
        assert httpx.post(f"{served.look}{path}", headers=headers, json=body).status_code == 403
    assert served.spec.read_text() == SMALL


@pytest.mark.parametrize(
    "path",
    [
        "page/../guard.py",
        "page/%2e%2e/guard.py",
        "page/..%2fguard.py",
        "page/..%2f..%2f..%2f..%2fetc%2fpasswd",
        "page//etc/passwd",
        "page/%2fetc%2fpasswd",
        "page/..%5cguard.py",
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
    large = b"x" * (guard.MOST_BODY + 1)
    assert asked(served, f"/{KEYS.edit}/change", headers, "POST", large)[0] == 413
    chunks = (b"y" * 4096 for _ in range(guard.MOST_BODY // 4096 + 1))
    told = {"Origin": f"http://127.0.0.1:{served.port}"}
    assert httpx.post(f"{served.base}change", headers=told, content=chunks).status_code == 413


def test_a_slow_client_is_let_go_and_holds_up_nobody(served: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "BODY_SECONDS", 0.6)
    with socket.create_connection(("127.0.0.1", served.port), 10) as line:
        head = (
            f"POST /{KEYS.edit}/change HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n"
            f"Origin: http://127.0.0.1:{served.port}\r\nContent-Length: 100\r\n\r\n{{"
        )
        line.sendall(head.encode())
        before = time.monotonic()
        assert httpx.get(f"{served.base}scene").status_code == 200
        assert time.monotonic() - before < 0.5
        assert line.recv(64).split()[1] == b"408"


@pytest.mark.parametrize(
    "body", [b"", b"{", b"[]", b"null", b'"x"', b"\xff\xfe", b'{"do": 1}', b'{"do": "format disk"}']
)
def test_a_change_that_is_none_is_told_so(served: Running, body: bytes) -> None:
    with served.client() as page:
        answer = page.post("change", content=body)
    assert answer.status_code in (400, 409)
    assert served.spec.read_text() == SMALL


def test_hostile_art_in_the_spec_never_reaches_the_page(served: Running) -> None:
    """Art with a script and a link elsewhere: the spec is refused, and what is shown stays the last good picture."""
    (served.spec.parent / "art.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" onload="alert(1)"><script>alert(2)</script>'
        '<image href="http://evil.example/x.png"/><path d="M0 0h10v10z"/></svg>'
    )
    served.spec.write_text(SMALL + "\nart:\n  - {svg: art.svg, at: [60, 50], width: 10}\n")
    time.sleep(0.3)
    served.settle()
    state = served.desk.state
    assert state.problems
    assert any("script" in one.message for one in state.problems)
    with served.client() as page:
        for path in ("picture.svg", "scene", "view/plate-white.svg"):
            text = page.get(path).text
            assert "alert" not in text
            assert "evil" not in text


def test_words_of_the_spec_are_words_on_the_page(spec: Path, served: Running) -> None:
    """A legend and a title that would be markup in HTML come out as letters, in outlines and in labels."""
    hostile = SMALL.replace("legend: Out", 'legend: "<script>alert(3)</script>"').replace(
        "title: Relay box, front", 'title: "<img src=x onerror=alert(4)>"'
    )
    spec.write_text(hostile)
    time.sleep(0.3)
    served.settle()
    with served.client() as page:
        picture = page.get("picture.svg").text
        assert "<script" not in picture
        assert "<img" not in picture
        assert page.get("scene").headers["content-type"] == "application/json"
