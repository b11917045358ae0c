"""The page in a browser: from the key that sets a length to the sheet that is painted with it."""

from __future__ import annotations

import gzip
import json
import shutil
import tempfile
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from statistics import quantiles
from typing import Any, NamedTuple

from playwright.sync_api import Page, sync_playwright

from bench.answers import serving_design
from bench.designs import tree_of
from linewright.app.shipped import PACKAGE
from linewright.document.saving import dump_design

PRESSES = 30
#: Presses before those that count.
BEFORE = 3
#: Between one length and the next: somebody who types fast [ms].
PAUSE_MS = 400
#: Notes the key and the first change of the sheet after it in the browser's own record of what it does.
WATCH = """() => {
  window.changes = 0;
  let waiting = false;
  addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    performance.mark("key");
    waiting = true;
  }, true);
  new MutationObserver(() => {
    if (!waiting) return;
    waiting = false;
    performance.mark("changed");
    window.changes += 1;
  }).observe(document.querySelector("svg"), { subtree: true, childList: true, attributes: true, characterData: true });
}"""


class Painted(NamedTuple):
    """The 95th of the times, and the least [ms]: from the key to the changed sheet, and to its presentation.

    presented : the browser has drawn the first frame with the changed sheet and given it to the screen
    """

    changed: tuple[float, float]
    presented: tuple[float, float]


def painted_times() -> Painted:
    """Time keys that set a length in a design of 64 units, by the browser's own record.

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
        started.start_tracing(page=page, categories=["devtools.timeline", "blink.user_timing"])
        _press(page)
        found = times_in(json.loads(started.stop_tracing())["traceEvents"])
        started.close()
    if len(found) != PRESSES + BEFORE:
        raise ValueError(f"{PRESSES + BEFORE} keys, but {len(found)} changed sheets that were presented")
    changed, presented = zip(*found[BEFORE:], strict=True)
    return Painted(_of(changed), _of(presented))


def times_in(events: list[dict[str, Any]]) -> list[tuple[float, float]]:
    """Give for each key when the sheet had changed, and when the frame with it was presented [ms after the key].

    A browser says of each of its frames from when to when the page was at work on it, and later when it was presented.
    """
    events = sorted(events, key=lambda event: event["ts"])
    marks = [(event["name"], event["ts"]) for event in events if event.get("cat") == "blink.user_timing"]
    edges = [event for event in events if event["name"] == "AnimationFrame" and event["ph"] in "be"]
    frames = [(begin["args"]["id"], end["ts"]) for begin, end in pairwise(edges) if begin["ph"] == "b"]
    presented = {e["args"]["id"]: e["ts"] for e in events if e["name"] == "AnimationFrame::Presentation"}
    found = []
    for (first, pressed), (second, changed) in pairwise(marks):
        if (first, second) == ("key", "changed"):
            frame = next(frame for frame, end in frames if end >= changed)
            found.append(((changed - pressed) / 1e3, (presented[frame] - pressed) / 1e3))
    return found


def _of(times: Sequence[float]) -> tuple[float, float]:
    return quantiles(times, n=20)[-1], min(times)


def script_kilobytes() -> float:
    """The script of the page, compressed as servers compress [kB]."""
    scripts = (PACKAGE / "web" / "static" / "assets").glob("*.js")
    return sum(len(gzip.compress(path.read_bytes())) for path in scripts) / 1000


def _press(page: Page) -> None:
    for press in range(PRESSES + BEFORE):
        page.keyboard.type(f"{20 + press}")
        page.keyboard.press("Enter")
        page.wait_for_function(f"window.changes === {press + 1}")
        page.wait_for_function("document.querySelector('aside input') === null")
        page.wait_for_timeout(PAUSE_MS)
