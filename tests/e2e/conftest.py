"""A browser and a server with the clinic in it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, sync_playwright

from linewright.app.shipped import shipped
from tests.e2e.steps import shown
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
# The process that paints serves all pages of a context: to start one takes longer than to open the page.
QUIET += ["--renderer-process-limit=1", "--disable-site-isolation-trials"]
SIZE: ViewportSize = {"width": 1700, "height": 1000}


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


@pytest.fixture(scope="session")
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Where the pages of all tests open, with one that stays: the process that paints ends with the last of them."""
    found = browser.new_context(viewport=SIZE)
    found.new_page()
    yield found
    found.close()


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
def page(context: BrowserContext, served: int) -> Iterator[Page]:
    """The page, with the clinic's first system on it; a fault on its console fails the test.

    Each test has a page, an address and a database of its own; what the page kept of its user is forgotten.
    """
    opened = context.new_page()
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    opened.on("pageerror", lambda error: said.append(str(error)))
    opened.goto(f"http://127.0.0.1:{served}/")
    shown(opened, "sheet")
    yield opened
    opened.evaluate("localStorage.clear()")
    opened.close()
    # What the browser itself says of answers that refuse, or of a server that is gone, is no fault of the page.
    assert [text for text in said if not text.startswith("Failed to load resource")] == []
