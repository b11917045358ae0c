"""What is typed is looked at ahead: the sheet as it would be, while nothing is changed yet."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

from tests.e2e.steps import at_revision, limit, select, told

WOULD = "As it would be; nothing is changed yet."


def would(page: Page) -> Locator:
    return page.locator(".would")


def test_a_limit_is_seen_crossed_before_the_length_is_set_and_who_leaves_changes_nothing(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("45")
    expect(would(page)).to_have_text(WOULD)
    assert "limit-over" in limit(page)
    told(page, "U1", "actual 45.0 m")
    at_revision(page, 1)
    page.locator("aside input").press("Escape")
    expect(would(page)).to_have_text("")
    assert "limit-over" not in limit(page)
    at_revision(page, 1)


def test_what_was_seen_is_what_is_made(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("45")
    expect(would(page)).to_have_text(WOULD)
    painted = page.locator("svg").first.inner_html()
    page.keyboard.press("Enter")
    at_revision(page, 2)
    expect(would(page)).to_have_text("")
    assert page.locator("svg").first.inner_html() == painted
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    assert "limit-over" not in limit(page)


def test_what_is_not_understood_shows_the_sheet_as_it_is_until_it_is_mended(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("45")
    expect(would(page)).to_have_text(WOULD)
    page.keyboard.type(" furlongs")
    expect(would(page)).to_have_text("")
    assert "limit-over" not in limit(page)
    expect(page.locator("#length-said")).to_have_text("")
    page.keyboard.press("Enter")
    expect(page.locator("#length-said")).to_contain_text("furlongs")
    expect(would(page)).to_have_text("")
    page.locator("aside input").fill("45 m")
    expect(would(page)).to_have_text(WOULD)


def test_another_run_that_is_picked_is_the_one_that_is_meant(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("33")
    told(page, "U1", "actual 33.0 m")
    page.locator('[data-id="run:U2"]').click(force=True)
    told(page, "U2", "actual 33.0 m")
    expect(would(page)).to_have_text(WOULD)
    told(page, "U1", "actual 6.0 m")


def test_a_joint_is_seen_before_it_is_there(page: Page) -> None:
    joint = page.locator('[data-id="node:J7"]')
    select(page, "U1")
    page.keyboard.press("j")
    page.keyboard.type("1")
    expect(would(page)).to_have_text(WOULD)
    expect(joint).to_be_attached()
    page.locator("aside input").press("Escape")
    expect(joint).to_have_count(0)
    at_revision(page, 1)


def test_another_axis_and_other_units_show_it_anew(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("45")
    expect(would(page)).to_have_text(WOULD)
    page.get_by_label("Axis").select_option("equivalent")
    expect(page.locator('[data-id="lanes/reach"]')).to_have_text("eq. reach, m")
    told(page, "U1", "actual 45.0 m")
    page.get_by_label("Units").select_option("ip")
    expect(page.locator('[data-id="lanes/reach"]')).to_have_text("eq. reach, ft")
    told(page, "U1", "actual 45.0 ft")
    expect(would(page)).to_have_text(WOULD)
    at_revision(page, 1)


def test_who_leaves_the_sheet_leaves_what_was_typed(page: Page) -> None:
    select(page, "U1")
    page.keyboard.type("45")
    expect(would(page)).to_have_text(WOULD)
    page.get_by_role("link", name=re.compile("^upper")).first.click()
    expect(page.locator("svg").first).to_have_attribute("aria-label", re.compile("system upper"))
    expect(would(page)).to_have_text("")
