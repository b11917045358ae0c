"""The page in a browser: from the key that sets a length to the sheet that is painted with it."""

from __future__ import annotations

import gzip
import shutil
import tempfile
from pathlib import Path
from statistics import quantiles
from typing import NamedTuple

from playwright.sync_api import Page, sync_playwright

from bench.answers import serving_design
from bench.designs import tree_of
from linewright.app.shipped import PACKAGE
from linewright.document.saving import dump_design

PRESSES = 30
#: Between one length and the next: somebody who types fast [ms].
PAUSE_MS = 400
#: Between one key and the next: ten keys a second.
KEY_MS = 100
#: Notes the times from a key to when the sheet has changed, to when the first frame with it is done, and to the second
#: frame after it, which is the time that counts: by then the first one has surely been shown.
WATCH = """() => {
  window.times = [];
  window.steps = [];
  let pressed = 0;
  addEventListener("keydown", (event) => { if (event.key === "Enter") pressed = performance.now(); }, true);
  new MutationObserver(() => {
    const since = pressed;
    if (since === 0) return;
    pressed = 0;
    const step = { changed: performance.now() - since, done: 0 };
    const channel = new MessageChannel();
    channel.port1.onmessage = () => { step.done = performance.now() - since; };
    requestAnimationFrame(() => {
      channel.port2.postMessage(null);
      requestAnimationFrame(() => { window.steps.push(step); window.times.push(performance.now() - since); });
    });
  }).observe(document.querySelector("svg"), { subtree: true, childList: true, attributes: true, characterData: true });
}"""


class Painted(NamedTuple):
    """The 95th of the times, and the least [ms]: to the changed sheet, to its first frame, to the frame after that."""

    changed: tuple[float, float]
    done: tuple[float, float]
    shown: tuple[float, float]


def painted_times(key_ms: float) -> Painted:
    """Time keys that set a length in a design of 64 units, typed so fast.

    What is typed is worked out while it is typed; with no time between keys none of it can be.

    Raises RuntimeError where no browser is at hand.
    """
    browser = shutil.which("chromium") or shutil.which("google-chrome")
    if browser is None:
        raise RuntimeError("there is no chromium on this machine")
    design = tree_of(64)
    run = design.systems[0].runs[20].to
    with (
        tempfile.TemporaryDirectory() as folder,
        serving_design(Path(folder), dump_design(design)) as port,
        sync_playwright() as playwright,
    ):
        started = playwright.chromium.launch(executable_path=browser, args=["--no-sandbox", "--disable-gpu"])
        # The page forbids what it does not need itself; whoever measures it does.
        page = started.new_context(viewport={"width": 1920, "height": 1080}, bypass_csp=True).new_page()
        page.goto(f"http://127.0.0.1:{port}/")
        page.locator(f'[data-id="run:{run}"]').first.click(force=True)
        page.evaluate(WATCH)
        found = _press(page, key_ms)
        started.close()
    return Painted(*(_of(found, name) for name in Painted._fields))


def _of(found: list[dict[str, float]], name: str) -> tuple[float, float]:
    times = [one[name] for one in found]
    return quantiles(times, n=20)[-1], min(times)


def script_kilobytes() -> float:
    """The script of the page, compressed as servers compress [kB]."""
    scripts = (PACKAGE / "web" / "static" / "assets").glob("*.js")
    return sum(len(gzip.compress(path.read_bytes())) for path in scripts) / 1000


def _press(page: Page, key_ms: float) -> list[dict[str, float]]:
    for press in range(PRESSES + 3):
        page.keyboard.type(f"{20 + press}", delay=key_ms)
        page.keyboard.press("Enter")
        page.wait_for_function(f"window.times.length === {press + 1}")
        page.wait_for_function("document.querySelector('aside input') === null")
        page.wait_for_timeout(PAUSE_MS)
    steps, times = page.evaluate("window.steps"), page.evaluate("window.times")
    return [{**step, "shown": time} for step, time in zip(steps, times, strict=True)][3:]
