"""The page as a designer uses it: by keys, in a real browser."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from linewright.app.shipped import PACKAGE
from tests.e2e.conftest import CLINIC
from tests.e2e.steps import add_unit, at_revision, elsewhere, limit, revision, select, set_length, told
from tests.web.server import Client, serving


def test_arrows_walk_and_the_working_stands_beside(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    first = page.locator("aside h2").inner_text()
    page.keyboard.press("ArrowDown")
    assert page.locator("aside h2").inner_text() != first
    select(page, "J2")
    expect(page.locator("aside select")).to_have_value("ground/run:J2.length")
    page.locator("aside select").select_option("ground/run:J2.gas_od")
    expect(page.locator("aside pre")).to_contain_text("ground/run:J2.gas_od")
    page.locator("svg").first.focus()
    page.keyboard.press("Escape")
    page.locator("header strong").click()
    page.keyboard.press("Escape")
    expect(page.locator("aside")).to_contain_text("Nothing selected")


def test_what_is_walked_to_comes_into_view(page: Page) -> None:
    page.set_viewport_size({"width": 1280, "height": 420})
    mark = page.locator("rect.mark")
    for _ in range(12):
        page.keyboard.press("ArrowDown")
        expect(mark).to_be_in_viewport(ratio=0.9)
    for _ in range(12):
        page.keyboard.press("ArrowUp")
        expect(mark).to_be_in_viewport(ratio=0.9)


def test_a_length_is_changed_a_limit_line_is_crossed_and_it_is_taken_back(page: Page) -> None:
    assert "limit-over" not in limit(page)
    set_length(page, "U1", "45")
    at_revision(page, 2)
    assert "limit-over" in limit(page)
    expect(page.get_by_role("link", name="ground: over")).to_be_visible()
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    assert "limit-over" not in limit(page)
    page.keyboard.press("Control+Shift+z")
    at_revision(page, 4)
    assert "limit-over" in limit(page)
    expect(elsewhere(page)).to_have_count(0)


def test_a_branch_is_removed_with_all_beyond_it_and_comes_back(page: Page) -> None:
    units = page.locator('[data-id^="unit:"][data-id$="/unit"]')
    before = units.count()
    select(page, "J6")
    page.keyboard.press("Delete")
    at_revision(page, 2)
    expect(units).to_have_count(before - 2)
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    expect(units).to_have_count(before)


@pytest.mark.parametrize(("text", "said"), [("4 furlongs", "furlongs"), ("1,5 m", "comma"), ("99x", "99x")])
def test_what_is_not_understood_stays_in_the_field_with_the_message(page: Page, text: str, said: str) -> None:
    set_length(page, "U1", text)
    field = page.locator("aside input")
    expect(page.locator("#length-said")).to_contain_text(said)
    expect(field).to_have_value(text)
    field.fill("7 m")
    field.press("Enter")
    at_revision(page, 2)
    expect(field).to_have_count(0)


def test_inch_pound_and_back(page: Page) -> None:
    page.get_by_label("Units").select_option("ip")
    expect(page.locator('[data-id="lanes/reach"]')).to_have_text("reach, ft")
    set_length(page, "U1", "20")
    at_revision(page, 2)
    told(page, "U1", "actual 20.0 ft")
    page.get_by_label("Units").select_option("si")
    told(page, "U1", "actual 6.1 m")


def test_systems_axis_and_physics(page: Page) -> None:
    page.get_by_role("link", name="upper:").click()
    expect(page.locator("svg")).to_have_attribute("aria-label", re.compile("system upper"))
    page.get_by_label("Axis").select_option("equivalent")
    expect(page.locator('[data-id="lanes/reach"]')).to_have_text("eq. reach, m")
    page.get_by_role("checkbox", name="physics").check()
    expect(page.locator('[data-id="lanes/loss"]')).to_have_text("loss, K")


def test_eight_units_are_built_from_nothing_by_keyboard(page: Page, served: int) -> None:
    """A new design, a system with its first unit, seven units more: two at joints of their own, five at a header."""
    page.keyboard.press("o")
    page.get_by_role("button", name="New design").focus()
    page.keyboard.press("Enter")
    page.keyboard.type("Sheds")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Sheds")).to_be_visible()
    page.keyboard.press("s")
    expect(page.get_by_role("form", name="New system")).to_be_visible()
    page.get_by_label("Book").select_option("tidewater-r32")
    expect(page.get_by_label("First indoor unit")).not_to_have_value("")
    page.get_by_label("Length of the pipe to it").press_sequentially("20")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    select(page, "U1")
    for number, at in ((3, "8"), (4, "4")):
        add_unit(page, at=at)
        at_revision(page, number)
    page.keyboard.press("ArrowLeft")
    joint = page.locator("aside h2").inner_text()
    assert joint.startswith("J")
    page.keyboard.press("h")
    at_revision(page, 5)
    for number in range(6, 11):
        add_unit(page)
        at_revision(page, number)
    with Client(served) as client:
        (line,) = client.get("/api/designs/2/systems")
        fittings = client.get("/api/designs/2/evaluation")["systems"][0]["fittings"]
    assert line["units"] == 8
    assert {one["id"]: one["kind"] for one in fittings}[joint] == "header"
    page.keyboard.press("Control+z")
    at_revision(page, 11)
    expect(page.locator('[data-id^="unit:"][data-id$="/unit"]')).to_have_count(7)


def test_a_unit_that_cannot_be_added_leaves_the_form_and_says_why(page: Page) -> None:
    select(page, "J2")
    page.keyboard.press("u")
    page.get_by_label("Length of its own run").fill("five")
    page.keyboard.press("Enter")
    expect(page.get_by_role("form", name="New unit")).to_contain_text("five")
    assert revision(page) == 1
    page.get_by_role("button", name="New system").click()
    expect(page.get_by_role("form", name="New system")).not_to_contain_text("five")
    page.get_by_label("Name", exact=True).press("Escape")
    page.keyboard.press("u")
    expect(page.get_by_label("Model")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.get_by_role("form", name="New unit")).to_have_count(0)


def test_a_joint_is_put_on_a_run_by_its_letter(page: Page) -> None:
    select(page, "U1")
    page.keyboard.press("j")
    page.keyboard.type("2")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    told(page, "U1", "actual 4.0 m")


def test_a_branch_is_hung_elsewhere_by_keys_and_by_dragging(page: Page, served: int) -> None:
    def before(run: str) -> str:
        with Client(served) as client:
            runs = client.get("/api/designs/1/evaluation")["systems"][0]["runs"]
        return str({one["id"]: one["from"] for one in runs}[run])

    assert before("U1") == "J2"
    select(page, "U1")
    page.keyboard.press("m")
    select(page, "J4")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    assert before("U1") == "J4"
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    page.locator('[data-id="run:U9"]').hover(force=True)
    page.mouse.down()
    page.locator('[data-id="node:J2"]').first.hover(force=True)
    page.mouse.up()
    at_revision(page, 4)
    assert before("U9") == "J2"


def test_history_compares_names_and_restores(page: Page) -> None:
    set_length(page, "U1", "7")
    at_revision(page, 2)
    set_length(page, "U2", "4")
    at_revision(page, 3)
    page.get_by_role("button", name="History").click()
    entries = page.get_by_role("listitem")
    expect(entries).to_have_count(3)
    first = entries.nth(2)
    first.get_by_role("button", name="Compare").click()
    expect(first.get_by_role("row")).to_have_count(2)
    expect(first).to_contain_text("ground/run:U1 length")
    first.get_by_role("button", name="Name").click()
    page.get_by_role("dialog").get_by_role("textbox").fill("for tender")
    page.keyboard.press("Enter")
    expect(entries.nth(2)).to_contain_text('"for tender"')
    entries.nth(2).get_by_role("button", name="Restore").click()
    at_revision(page, 4)
    expect(entries).to_have_count(4)
    told(page, "U1", "actual 6.0 m")
    page.get_by_role("button", name="Undo").click()
    at_revision(page, 5)
    told(page, "U1", "actual 7.0 m")


def test_the_sheet_is_a_table_for_who_does_not_see_it(page: Page) -> None:
    table = page.get_by_role("table")
    expect(table.get_by_role("row")).to_have_count(11)
    heads = [head.inner_text() for head in table.get_by_role("columnheader").all()]
    assert heads[:3] == ["room", "unit", "reach, m"]
    expect(table.get_by_role("row").nth(1)).to_contain_text("Entrance hall")
    expect(table.get_by_role("row").nth(1)).to_contain_text("within")


def test_two_pages_on_one_design(page: Page, browser: Browser, served: int) -> None:
    """What is changed elsewhere is told; another run goes in beside it, the same run shows both versions."""
    other = browser.new_page(viewport={"width": 1700, "height": 1000})
    other.goto(f"http://127.0.0.1:{served}/")
    other.get_by_role("img", name="Harbour clinic").wait_for()
    set_length(other, "U1", "8")
    at_revision(other, 2)
    expect(elsewhere(page)).to_be_visible()
    set_length(page, "U2", "4")
    at_revision(page, 3)
    expect(elsewhere(other)).to_be_visible()
    set_length(other, "U2", "5")
    expect(other.locator("#length-said")).to_contain_text("it was 3 m, you wanted 5 m, it is 4 m now")
    other.locator("aside input").press("Escape")
    other.get_by_role("button", name="Look at the last revision").click()
    at_revision(other, 3)
    set_length(other, "U2", "5")
    at_revision(other, 4)
    other.close()


def test_what_is_typed_while_the_program_is_gone_is_sent_when_it_is_back(browser: Browser, database: Path) -> None:
    with serving(database) as port, Client(port) as client:
        client.post("/api/projects", {"name": "Quay"})
        client.post("/api/projects/1/designs", {"name": "clinic", "text": CLINIC})
        page = browser.new_page(viewport={"width": 1700, "height": 1000})
        page.goto(f"http://127.0.0.1:{port}/")
        page.get_by_role("img", name="Harbour clinic").wait_for()
        set_length(page, "U1", "8")
        at_revision(page, 2)
    set_length(page, "U2", "4")
    expect(page.locator("output")).to_contain_text("1 not yet sent")
    with serving(database, port) as again, Client(again) as client:
        expect(page.locator("output")).to_have_text("revision 3", timeout=15_000)
        assert client.get("/api/designs/1")["head"] == 3
        page.close()


def test_the_script_of_the_page_is_small() -> None:
    """120 kB or less, compressed as servers compress."""
    scripts = list((PACKAGE / "web" / "static" / "assets").glob("*.js"))
    assert scripts
    assert sum(len(gzip.compress(path.read_bytes())) for path in scripts) < 120_000


def test_the_page_asks_nobody_else(page: Page) -> None:
    """All of it comes from this server: no other host is named in what it loads."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.reload()
    page.get_by_role("img", name="Harbour clinic").wait_for()
    assert len(asked) > 5
    assert all(url.startswith(("http://127.0.0.1:", "data:")) for url in asked)


def test_from_an_empty_database_to_a_first_system(browser: Browser, database: Path) -> None:
    with serving(database) as port, Client(port) as client:
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.goto(f"http://127.0.0.1:{port}/")
        page.get_by_role("button", name="Begin one").click()
        page.keyboard.type("Boat shed")
        page.keyboard.press("Enter")
        expect(page.get_by_role("form", name="New system")).to_be_visible()
        expect(page.get_by_label("First indoor unit")).not_to_have_value("")
        page.get_by_label("Length of the pipe to it").fill("12")
        page.keyboard.press("Enter")
        at_revision(page, 2)
        expect(page.get_by_role("img", name=re.compile("system main"))).to_be_visible()
        assert [one["name"] for one in client.get("/api/projects")] == ["Boat shed"]
        page.close()
