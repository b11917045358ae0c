"""What a designer does on the page, and what is looked at."""

from __future__ import annotations

from contextlib import suppress

from playwright.sync_api import Locator, Page, expect

from tests.house.files import ROOT

AXE = (ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
#: How often a line is aimed at, and how long after a click nothing is picked where it was missed [ms].
_AIMS, _MISSED_MS = 3, 2_000
LEVELS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def barriers(page: Page) -> list[str]:
    """What stands in somebody's way, by the rules of WCAG 2.2 AA that a program can check."""
    page.evaluate(AXE)
    found = page.evaluate("levels => axe.run(document, {runOnly: {type: 'tag', values: levels}})", LEVELS)
    assert len(found["passes"]) > 10
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in found["violations"]]


def shown(page: Page, address: str) -> None:
    """Wait until the view at an address of the page stands there with what it shows, in its own type."""
    there = {
        "sheet": page.get_by_role("img", name="Harbour clinic"),
        "overview": page.get_by_role("table", name="Books").get_by_role("row").nth(1),
        "table": page.get_by_role("grid").get_by_role("row").nth(1),
        "book": page.get_by_role("heading", name="limits"),
    }
    there[address.partition("/")[0]].wait_for()
    page.evaluate("async () => { await document.fonts.ready }")


def select(page: Page, run: str) -> None:
    """Select a run by its line on the sheet; who aimed where it stood before the sheet was drawn anew aims again."""
    line, head = page.locator(f'[data-id="run:{run}"]').first, page.locator("aside h2")
    for _ in range(_AIMS):
        line.click(force=True)
        with suppress(AssertionError):
            expect(head).to_have_text(run, timeout=_MISSED_MS)
            return
    expect(head).to_have_text(run)


def set_length(page: Page, run: str, text: str) -> None:
    select(page, run)
    page.keyboard.type(text)
    page.keyboard.press("Enter")


def revision(page: Page) -> int:
    return int(page.locator("output").get_attribute("data-head") or 0)


def at_revision(page: Page, number: int) -> None:
    expect(page.locator("output")).to_have_text(f"revision {number}")


def limit(page: Page) -> str:
    """Class of the line of the limit after the first branch."""
    found = page.locator('line[data-id^="limit:after_first_branch"]').first
    return found.get_attribute("class") or ""


def add_unit(page: Page, *, at: str = "") -> None:
    """Add a unit at what is selected, by keys alone."""
    page.keyboard.press("u")
    expect(page.get_by_label("Model")).to_be_focused()
    expect(page.get_by_label("Model")).not_to_have_value("")
    page.keyboard.press("Tab")
    if at:
        page.keyboard.type(at)
        page.keyboard.press("Tab")
    page.keyboard.type("5")
    page.keyboard.press("Enter")
    expect(page.get_by_role("form", name="New unit")).to_have_count(0)


def elsewhere(page: Page) -> Locator:
    """What says that others changed the design."""
    return page.locator(".notice", has_text="Changed elsewhere")


def told(page: Page, run: str, text: str) -> None:
    """What is said of a run to who points at it."""
    line = page.locator(f'[data-id="run:{run}"]')

    def holds() -> bool:
        page.mouse.move(1, 1)
        line.hover(force=True)
        return text in (line.locator("title").text_content(timeout=1000) or "")

    for _ in range(20):
        if holds():
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"{run} is not told to be {text}")
