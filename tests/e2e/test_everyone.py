"""The page for everyone: by rules that a program can check, by fingers, at other sizes."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.e2e.steps import at_revision, barriers, select, set_length, shown


def test_nothing_stands_in_anybodys_way(page: Page) -> None:
    assert barriers(page) == []
    select(page, "U1")
    assert barriers(page) == []
    page.keyboard.press("u")
    expect(page.get_by_label("Model")).to_be_focused()
    assert barriers(page) == []
    page.keyboard.press("Escape")
    set_length(page, "U1", "nonsense")
    page.keyboard.type("7")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="History").click()
    expect(page.get_by_role("listitem").first).to_be_visible()
    assert barriers(page) == []
    page.get_by_role("button", name="New system").click()
    assert barriers(page) == []


@pytest.mark.parametrize(
    "address", ["overview", "table/rooms", "table/runs/ground", "table/fittings/ground", "book/tidewater-r32"]
)
def test_nor_around_the_sheet(page: Page, address: str) -> None:
    page.evaluate("to => { location.hash = to }", f"#/1/{address}")
    expect(page.get_by_role("heading", level=1)).to_be_attached()
    shown(page, address)
    assert barriers(page) == []


def test_nor_in_what_opens_above_it(page: Page) -> None:
    page.keyboard.press("?")
    expect(page.get_by_role("dialog")).to_be_visible()
    assert barriers(page) == []
    page.get_by_role("dialog").get_by_role("button", name="Look around").click()
    expect(page.get_by_role("region", name="Looking around")).to_be_visible()
    assert barriers(page) == []
    page.keyboard.press("Escape")
    page.keyboard.press("/")
    page.keyboard.type("hall")
    expect(page.get_by_role("listbox").get_by_role("option")).to_have_count(1)
    assert barriers(page) == []


@pytest.mark.parametrize(
    ("width", "height"), [(1280, 720), (1440, 900), (1920, 1080), (3840, 2160), (1024, 768), (820, 1180)]
)
def test_nothing_hangs_over_the_edge(page: Page, width: int, height: int) -> None:
    """Only the sheet itself may be larger than its place, and scrolls there."""
    page.set_viewport_size({"width": width, "height": height})
    select(page, "U1")
    for view in ("sheet", "overview", "table", "book"):
        page.get_by_role("link", name={"table": "Tables"}.get(view, view.capitalize()), exact=True).click()
        shown(page, view)
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert over <= 0, f"{view} at {width}"


def test_a_finger_does_what_keys_do(browser: Browser, served: int) -> None:
    """On a tablet, without a keyboard: a length, a unit, a branch hung elsewhere, taken back."""
    context = browser.new_context(viewport={"width": 1180, "height": 820}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(f"http://127.0.0.1:{served}/")
    page.get_by_role("img", name="Harbour clinic").wait_for()
    page.locator('[data-id="run:U1"]').tap(force=True)
    page.get_by_role("button", name="Length").tap()
    page.get_by_label("Length of U1").fill("7")
    page.get_by_role("button", name="Set", exact=True).tap()
    at_revision(page, 2)
    page.get_by_role("button", name="Hang elsewhere").tap()
    page.locator('[data-id="run:J4"]').tap(force=True)
    page.get_by_role("button", name="Hang it here").tap()
    at_revision(page, 3)
    page.get_by_role("button", name="Undo").tap()
    at_revision(page, 4)
    small = page.evaluate(
        """() => [...document.querySelectorAll("button, select, a, label, input:not([type=checkbox])")]
        .filter((one) => one.offsetParent !== null && one.getBoundingClientRect().height < 24).length"""
    )
    assert small == 0
    context.close()


def test_single_letters_can_be_switched_off(page: Page) -> None:
    """Success criterion 2.1.4 of WCAG: who speaks to a machine must not set off keys by words."""
    page.keyboard.press("?")
    page.get_by_label("single letters and signs are keys").uncheck()
    page.get_by_role("button", name="Close").click()
    select(page, "U1")
    page.keyboard.type("7")
    page.keyboard.press("u")
    expect(page.locator("aside input")).to_have_count(0)
    page.reload()
    page.get_by_role("img", name="Harbour clinic").wait_for()
    select(page, "U1")
    page.keyboard.press("u")
    expect(page.get_by_role("form", name="New unit")).to_have_count(0)
    set_by_button(page)


def set_by_button(page: Page) -> None:
    page.get_by_role("button", name="Length").click()
    page.get_by_label("Length of U1").fill("7")
    page.keyboard.press("Enter")
    at_revision(page, 2)
