"""Remedies on the sheet: looked for by one key, looked at before they are made, made by one key."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.e2e.steps import at_revision, barriers, limit, select, set_length

OVER = "45.0 of 40.0 m"


@pytest.fixture
def too_long(page: Page) -> Page:
    """The ground floor of the clinic with its branch longer than the book allows."""
    assert "over" not in limit(page)
    set_length(page, "J3", "20")
    at_revision(page, 2)
    expect(page.locator('line[data-id^="limit:after_first_branch"].lw-limit-over').first).to_be_attached()
    page.keyboard.press("Escape")
    return page


def looked_for(page: Page) -> None:
    page.keyboard.press("r")
    expect(page.get_by_role("button", name="Stop")).to_have_count(0, timeout=20_000)
    expect(page.get_by_role("listbox", name="Remedies")).to_be_focused()


def margin(page: Page) -> str:
    return " ".join(page.locator('[data-id^="margin:limit:after_first_branch"]').all_text_contents())


def test_a_remedy_is_looked_at_and_then_made_and_taken_back(too_long: Page) -> None:
    page = too_long
    looked_for(page)
    options = page.get_by_role("listbox", name="Remedies").get_by_role("option")
    assert options.count() >= 2
    would = page.locator(".would")
    expect(would).to_have_text("As it would be; nothing is changed yet.")
    expect(page.locator('[data-id^="margin:limit:after_first_branch"]', has_text=OVER)).to_have_count(0)
    # The one that was found first stays chosen where the list is put in order.
    while options.nth(0).get_attribute("aria-selected") == "false":
        page.keyboard.press("ArrowUp")
    first = options.nth(0).inner_text()
    page.keyboard.press("ArrowDown")
    expect(options.nth(1)).to_have_attribute("aria-selected", "true")
    page.keyboard.press("ArrowUp")
    expect(options.nth(0)).to_have_attribute("aria-selected", "true")
    assert options.nth(0).inner_text() == first
    expect(page.locator("aside")).to_contain_text(OVER)
    at_revision(page, 2)
    page.keyboard.press("Enter")
    at_revision(page, 3)
    expect(would).to_have_text("")
    assert OVER not in margin(page)
    page.keyboard.press("Control+z")
    at_revision(page, 4)
    expect(page.locator('[data-id^="margin:limit:after_first_branch"]', has_text=OVER).first).to_be_attached()


def test_a_remedy_is_looked_at_on_another_axis(too_long: Page) -> None:
    page = too_long
    looked_for(page)
    expect(page.locator(".would")).to_have_text(re.compile("As it would be"))
    page.get_by_label("Axis").select_option("equivalent")
    expect(page.locator('[data-id="lanes/reach"]')).to_have_text("eq. reach, m")
    expect(page.locator(".would")).to_have_text(re.compile("As it would be"))
    at_revision(page, 2)


def test_who_leaves_changes_nothing(too_long: Page) -> None:
    page = too_long
    before = margin(page)
    looked_for(page)
    expect(page.locator(".would")).to_have_text(re.compile("As it would be"))
    page.keyboard.press("Escape")
    expect(page.get_by_role("listbox", name="Remedies")).to_have_count(0)
    expect(page.locator(".would")).to_have_text("")
    at_revision(page, 2)
    assert margin(page) == before


def test_a_margin_that_was_pointed_at_is_cured_alone(too_long: Page) -> None:
    page = too_long
    page.locator('[data-id="margin:limit:after_first_branch"]').click(force=True)
    looked_for(page)
    expect(page.get_by_role("heading", name="Remedies for ground/limit:after_first_branch")).to_be_visible()
    assert barriers(page) == []


def test_what_holds_has_no_remedy(page: Page) -> None:
    page.keyboard.press("r")
    expect(page.locator("aside")).to_contain_text("Nothing fails here")
    assert barriers(page) == []
    page.keyboard.press("Escape")
    expect(page.locator("aside")).to_contain_text("Nothing selected")


def test_a_run_says_how_far_it_may_grow(page: Page) -> None:
    select(page, "J3")
    page.keyboard.press("g")
    room = page.get_by_role("region", name="Room to grow")
    expect(room).to_contain_text("holds to 15.000 m", timeout=15_000)
    expect(room).to_contain_text("after_first_branch")
    assert barriers(page) == []
    page.keyboard.press("Escape")
    expect(room).to_have_count(0)
