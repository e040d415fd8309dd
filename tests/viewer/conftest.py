from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from panelart.viewer.listing import Listing
from tests.readers import CHROMIUM
from tests.viewer.listed import asking, draft, listed
from tests.viewer.running import SMALL, Running, running

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    """A small spec in a folder of its own."""
    path = tmp_path / "box.yaml"
    path.write_bytes(SMALL.encode())
    return path


@pytest.fixture
def served(spec: Path) -> Iterator[Running]:
    """That spec on its page, laid out."""
    with running(spec) as server:
        server.settle()
        yield server


OFF_THE_NETWORK = [
    "--no-sandbox",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-sync",
    "--no-first-run",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """A browser that is not ours: Debian's Chromium by Playwright."""
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as play:
        made = play.chromium.launch(executable_path=CHROMIUM, args=OFF_THE_NETWORK)
        yield made
        made.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of which every slip of script is a failure, and every request elsewhere."""
    made = browser.new_page(viewport={"width": 1280, "height": 720})
    slips: list[str] = []
    made.on("pageerror", lambda error: slips.append(str(error)))
    made.on(
        "request",
        lambda request: (
            slips.append(request.url)
            if "//127.0.0.1:" not in request.url and not request.url.startswith(("data:", "blob:"))
            else None
        ),
    )
    made.on(
        "console", lambda message: slips.append(message.text) if "Content Security Policy" in message.text else None
    )
    yield made
    made.close()
    assert not slips


@pytest.fixture(scope="session")
def first_draft(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The files of the first draft of a list, by name."""
    folder = tmp_path_factory.mktemp("first-draft")
    draft(folder)
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture
def listing(tmp_path: Path, first_draft: dict[str, bytes]) -> Listing:
    """That list and its draft in a folder of its own."""
    for name, data in first_draft.items():
        (tmp_path / name).write_bytes(data)
    return listed(tmp_path)


@pytest.fixture
def asked(listing: Listing) -> Iterator[Running]:
    """The page that asks about the list."""
    with asking(listing) as running:
        yield running
