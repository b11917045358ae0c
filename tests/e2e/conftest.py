"""A browser and a server with the clinic in it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from linewright.app.shipped import shipped
from tests.web.server import Client, serving

CLINIC = next(shipped("examples").glob("harbour-clinic/*.design.yaml")).read_text(encoding="utf-8")
QUIET = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The Chromium of this machine; where there is none, nothing of this was tested, and that is said loudly."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        pytest.fail("there is no chromium on this machine: install it (Debian: apt-get install chromium)")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=QUIET)
        yield started
        started.close()


@pytest.fixture
def database(tmp_path: Path) -> Path:
    return tmp_path / "a.db"


@pytest.fixture
def served(database: Path) -> Iterator[int]:
    """Port of a server with the clinic in it."""
    with serving(database) as port:
        with Client(port) as client:
            client.post("/api/projects", {"name": "Quay"})
            client.post("/api/projects/1/designs", {"name": "clinic", "text": CLINIC})
        yield port


@pytest.fixture
def page(browser: Browser, served: int) -> Iterator[Page]:
    """The page, with the clinic's first system on it; a fault on its console fails the test."""
    context = browser.new_context(viewport={"width": 1700, "height": 1000})
    opened = context.new_page()
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    opened.on("pageerror", lambda error: said.append(str(error)))
    opened.goto(f"http://127.0.0.1:{served}/")
    opened.get_by_role("img", name="Harbour clinic").wait_for()
    yield opened
    context.close()
    # What the browser itself says of answers that refuse, or of a server that is gone, is no fault of the page.
    assert [text for text in said if not text.startswith("Failed to load resource")] == []
