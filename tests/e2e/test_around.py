"""What stands around the sheet: overview, tables, the book, history of the address, paper."""

from __future__ import annotations

import io
import re

import pdfplumber
import pytest
from playwright.sync_api import Page, expect

from tests.e2e.conftest import CLINIC
from tests.e2e.steps import at_revision, select, set_length, shown
from tests.web.server import Client


def turn_to(page: Page, address: str) -> None:
    page.evaluate("to => { location.hash = to }", f"#/1/{address}")


def cell(page: Page, row: str, column: str) -> str:
    """What stands in a cell of the table that is shown."""
    heads = [head.inner_text() for head in page.get_by_role("columnheader").all()]
    at = next(i for i, head in enumerate(heads) if head.startswith(column))
    return page.get_by_role("row").filter(has=page.locator(f'td:text-is("{row}")')).locator("td").nth(at).inner_text()


def paste(page: Page, text: str) -> None:
    """Paste as a spreadsheet would have it."""
    page.evaluate(
        """text => {
          const data = new DataTransfer();
          data.setData("text/plain", text);
          const event = new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true});
          document.activeElement.dispatchEvent(event);
        }""",
        text,
    )


def focus_cell(page: Page, row: int, column: int) -> None:
    page.locator(f'[data-cell="{row}-{column}"]').focus()


def runs_of(served: int) -> dict[str, float]:
    with Client(served) as client:
        return {one["id"]: one["length_m"] for one in client.get("/api/designs/1/evaluation")["systems"][0]["runs"]}


def test_the_overview_tells_how_each_system_stands(page: Page) -> None:
    page.keyboard.press("o")
    rows = page.get_by_role("table", name="Systems").get_by_role("row")
    expect(rows).to_have_count(4)
    expect(rows.nth(1)).to_contain_text("within")
    expect(rows.nth(1)).to_contain_text("16.10 kg")
    expect(rows.nth(3)).to_contain_text("over")
    expect(page.get_by_role("table", name="Books")).to_contain_text("demonstration")
    expect(page.locator("section.page")).to_contain_text("never a pass")
    page.get_by_label("Units").select_option("ip")
    expect(rows.nth(1)).to_contain_text("lb")
    rows.nth(3).get_by_role("link").click()
    expect(page.get_by_role("img", name=re.compile("system upper"))).to_be_visible()


def test_a_run_list_is_pasted_from_a_spreadsheet(page: Page, served: int) -> None:
    """Three lengths and a new branch with its unit, as one change that is taken back as one."""
    before = runs_of(served)
    turn_to(page, "table/runs/ground")
    focus_cell(page, 0, 0)
    paste(page, "From\tTo\tLength [m]\tModel\nJ2\tU1\t8\t\nJ2\tU2\t9,5\t\nJ1\tJ2\t5\t\nJ2\tU99\t4\tcassette 3.6\n")
    at_revision(page, 2)
    expect(page.get_by_role("main").get_by_role("status")).to_contain_text("one change")
    after = runs_of(served)
    assert {name: length for name, length in after.items() if before.get(name) != length} == {
        "U1": 8,
        "U2": 9.5,
        "J2": 5,
        "U99": 4,
    }
    expect(page.locator('td:text-is("U99")').first).to_be_visible()
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    assert runs_of(served) == before


def test_cells_are_pasted_where_they_are_pasted(page: Page, served: int) -> None:
    turn_to(page, "table/runs/ground")
    expect(page.get_by_role("grid", name="runs")).to_be_visible()
    heads = [head.inner_text() for head in page.get_by_role("columnheader").all()]
    names = [row.locator("td").nth(heads.index("to")).inner_text() for row in page.get_by_role("row").all()[1:3]]
    focus_cell(page, 0, next(i for i, head in enumerate(heads) if head.startswith("length")))
    paste(page, "8\n9")
    at_revision(page, 2)
    after = runs_of(served)
    assert [after[name] for name in names] == [8, 9]


def test_a_block_of_cells_is_marked_filled_copied_and_emptied(page: Page, served: int) -> None:
    """Three lengths marked by keys; the column of bends marked with the mouse, filled and emptied again."""
    turn_to(page, "table/runs/ground")
    expect(page.get_by_role("grid", name="runs")).to_be_visible()
    heads = [head.inner_text() for head in page.get_by_role("columnheader").all()]
    length, bends = (next(i for i, head in enumerate(heads) if head.startswith(word)) for word in ("length", "bends"))
    names = [row.locator("td").nth(heads.index("to")).inner_text() for row in page.get_by_role("row").all()[1:4]]
    focus_cell(page, 0, length)
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("Shift+ArrowDown")
    expect(page.locator("td.marked")).to_have_count(3)
    paste(page, "7")
    at_revision(page, 2)
    assert [runs_of(served)[name] for name in names] == [7, 7, 7]
    assert copied(page) == "7\n7\n7"
    page.locator(f'[data-cell="0-{bends}"]').click()
    page.locator(f'[data-cell="1-{bends}"]').click(modifiers=["Shift"])
    expect(page.locator("td.marked")).to_have_count(2)
    paste(page, "2")
    at_revision(page, 3)
    assert [cell(page, name, "bends") for name in names[:2]] == ["2", "2"]
    page.keyboard.press("Delete")
    at_revision(page, 4)
    expect(page.locator(f'[data-cell="0-{bends}"]')).not_to_have_text("2")


def copied(page: Page) -> str:
    """What Ctrl+C would give to a spreadsheet."""
    found: str = page.evaluate(
        """() => {
          const data = new DataTransfer();
          document.activeElement.dispatchEvent(
            new ClipboardEvent("copy", {clipboardData: data, bubbles: true, cancelable: true}));
          return data.getData("text/plain");
        }"""
    )
    return found


def test_a_pasted_list_that_is_not_understood_names_its_rows_and_changes_nothing(page: Page, served: int) -> None:
    before = runs_of(served)
    turn_to(page, "table/runs/ground")
    focus_cell(page, 0, 0)
    paste(page, "to\tlength\nU1\t5 m\nU2\tfive\nU3\tfour\n")
    said = page.get_by_role("alert").filter(has_text="row")
    expect(said).to_contain_text("row 3")
    expect(said).to_contain_text("row 4")
    assert runs_of(served) == before
    expect(page.locator("output")).to_have_text("not made")


def test_a_cell_is_changed_by_keys(page: Page) -> None:
    page.keyboard.press("t")
    expect(page.get_by_role("grid", name="rooms")).to_be_visible()
    heads = [head.inner_text() for head in page.get_by_role("columnheader").all()]
    at = next(i for i, head in enumerate(heads) if head.startswith("cooling"))
    focus_cell(page, 0, 0)
    for _ in range(at):
        page.keyboard.press("ArrowRight")
    page.keyboard.type("9.5")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    expect(page.locator(f'[data-cell="0-{at}"]')).to_have_text("9.5")
    expect(page.locator(f'[data-cell="1-{at}"]')).to_be_focused()
    page.keyboard.type("lots")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert").filter(has_text="lots")).to_be_visible()
    expect(page.get_by_role("grid").get_by_role("textbox")).to_have_value("lots")
    page.keyboard.press("Escape")
    expect(page.locator(f'[data-cell="1-{at}"]')).to_be_focused()


def test_a_room_is_typed_and_taken_away(page: Page) -> None:
    turn_to(page, "table/rooms")
    grid = page.get_by_role("grid", name="rooms")
    expect(grid).to_be_visible()
    count = grid.get_by_role("row").count()
    for column, text in ((0, "attic"), (1, "ground")):
        focus_cell(page, count - 2, column)
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.get_by_role("button", name="Add the new row").click()
    at_revision(page, 2)
    expect(grid.get_by_role("row")).to_have_count(count + 1)
    focus_cell(page, count - 2, 0)
    page.keyboard.press("Delete")
    at_revision(page, 3)
    expect(grid.get_by_role("row")).to_have_count(count)


def test_values_of_what_is_picked_are_changed_beside_the_sheet(page: Page, served: int) -> None:
    select(page, "U1")
    page.locator("summary").click()
    page.get_by_label("bends").fill("3")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    page.get_by_label("model").select_option("cassette 5.6")
    at_revision(page, 3)
    with Client(served) as client:
        system = client.get("/api/designs/1/evaluation")["systems"][0]
    assert {one["id"]: one["model"] for one in system["units"]}["U1"] == "cassette 5.6"
    page.get_by_label("bends").fill("many")
    page.keyboard.press("Enter")
    expect(page.get_by_label("bends")).to_have_value("many")
    expect(page.locator("aside [role=alert]").filter(has_text="many")).to_be_visible()


def test_a_value_of_a_book_is_corrected_and_everything_is_judged_by_it(page: Page, served: int) -> None:
    turn_to(page, "book/tidewater-r32")
    expect(page.get_by_role("heading", name="limits")).to_be_visible()
    page.get_by_role("button", name="Take it into the project").click()
    field = page.get_by_label("Only what says")
    field.fill("after_first_branch")
    value = page.get_by_role("button", name=re.compile("40 m: correct it"))
    value.first.click()
    page.keyboard.type("forty")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert").filter(has_text="forty")).to_be_visible()
    page.get_by_role("main").get_by_role("textbox").nth(1).fill("30 m")
    page.keyboard.press("Enter")
    expect(page.get_by_role("main").get_by_role("status")).to_contain_text("revision 2 of the book")
    page.get_by_role("link", name="Sheet", exact=True).click()
    expect(page.get_by_role("link", name="ground: over")).to_be_visible()
    turn_to(page, "book/tidewater-r32")
    # What was corrected here can be taken back as long as the page stands.
    with Client(served) as client:
        assert client.get("/api/books/2")["head"] == 2


def test_a_row_of_a_book_is_added_and_taken_away(page: Page) -> None:
    """A limit that was left out when the book was typed: the design is judged by it at once."""
    turn_to(page, "book/tidewater-r32")
    page.get_by_role("button", name="Take it into the project").click()
    page.get_by_role("button", name="Rows of limits").click()
    page.get_by_label("measure, new row").fill("main_length")
    page.get_by_label("max, new row").fill("ten")
    page.get_by_role("button", name="Add the row").click()
    expect(page.get_by_role("alert").filter(has_text="ten")).to_be_visible()
    page.get_by_label("max, new row").fill("10 m")
    page.get_by_label("page, new row").first.fill("99")
    page.get_by_role("button", name="Add the row").click()
    expect(page.get_by_role("main").get_by_role("status")).to_contain_text("revision 2 of the book")
    page.get_by_role("link", name="Sheet", exact=True).click()
    expect(page.get_by_role("link", name="ground: over")).to_be_visible()
    turn_to(page, "book/tidewater-r32")
    page.get_by_role("button", name="Rows of limits").click()
    page.get_by_role("button", name=re.compile("of limits away")).last.click()
    expect(page.get_by_role("main").get_by_role("status")).to_contain_text("revision 3 of the book")
    page.get_by_role("link", name="Sheet", exact=True).click()
    expect(page.get_by_role("link", name="ground: within")).to_be_visible()


def test_the_place_stands_in_the_address(page: Page) -> None:
    turn_to(page, "sheet/upper")
    expect(page.get_by_role("img", name=re.compile("system upper"))).to_be_visible()
    turn_to(page, "table/units/quay")
    expect(page.get_by_role("grid", name="units")).to_be_visible()
    page.reload()
    expect(page.get_by_role("grid", name="units")).to_be_visible()
    page.go_back()
    expect(page.get_by_role("img", name=re.compile("system upper"))).to_be_visible()


def test_a_design_is_saved_and_brought_in_again(page: Page, served: int) -> None:
    """What leaves the page as a file comes back as the same design."""
    set_length(page, "U1", "7")
    at_revision(page, 2)
    page.keyboard.press("o")
    with page.expect_download() as started:
        page.get_by_role("button", name="Save as a file").click()
    assert started.value.suggested_filename == "clinic.design.yaml"
    text = started.value.path().read_text(encoding="utf-8")
    assert text != CLINIC
    chosen = {"name": "again.design.yaml", "mimeType": "text/yaml", "buffer": text.encode()}
    page.locator("input[type=file]").set_input_files(chosen)  # type: ignore[arg-type]
    expect(page.get_by_role("heading", name="again")).to_be_visible()
    with Client(served) as client:
        first, second = (client.get(f"/api/designs/{number}/evaluation")["systems"] for number in (1, 2))
    assert first == second


def test_what_has_no_table_is_changed_in_the_text(page: Page, served: int) -> None:
    """The standard for refrigerant in rooms, as one change that is taken back; what is wrong is told by its line."""
    page.keyboard.press("o")
    page.get_by_text("The design as text").click()
    area = page.get_by_role("textbox", name="The design as text")
    expect(area).to_have_value(re.compile("# "))
    before = area.input_value()
    area.fill(before + "refrigerant: {profile: en-3780}\n")
    page.get_by_role("button", name="Set", exact=True).click()
    expect(page.locator("output")).to_have_text("not made")
    said = page.get_by_role("alert").filter(has_text="en-3780")
    expect(said).to_contain_text(f"line {before.count(chr(10)) + 1}")
    area.fill(before + "refrigerant: {profile: en-378, access: general}\n")
    page.get_by_role("button", name="Set", exact=True).click()
    at_revision(page, 2)
    with Client(served) as client:
        assert client.get("/api/designs/1/evaluation")["systems"][0]["refrigerant"]["profile"] == "en-378"
    page.get_by_role("button", name="Undo").click()
    at_revision(page, 3)
    expect(area).to_have_value(before)


def test_a_file_that_is_no_design_is_refused_with_what_is_wrong(page: Page) -> None:
    page.keyboard.press("o")
    chosen = {"name": "shopping.yaml", "mimeType": "text/yaml", "buffer": b"eggs: 12\n"}
    page.locator("input[type=file]").set_input_files(chosen)  # type: ignore[arg-type]
    expect(page.locator(".notice[role=alert]")).to_contain_text("linewright")
    expect(page.get_by_role("heading", name="clinic")).to_be_visible()


def test_everything_is_packed(page: Page) -> None:
    page.keyboard.press("o")
    page.get_by_role("button", name="Pack everything").click()
    with page.expect_download(timeout=20_000) as started:
        page.get_by_role("link", name="Save project.zip").click()
    assert started.value.path().read_bytes()[:2] == b"PK"


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("sheet/ground", ["Harbour clinic", "NOT FOR CONSTRUCTION", "Entrance hall"]),
        ("overview", ["Systems", "never a pass"]),
        ("table/rooms", ["cooling"]),
    ],
)
def test_what_is_shown_is_printed(page: Page, address: str, words: list[str]) -> None:
    """On paper stand the words of the sheet, and nothing that is there to be pressed."""
    turn_to(page, address)
    shown(page, address)
    expect(page.locator("svg, section.page").first).to_be_visible()
    with pdfplumber.open(io.BytesIO(page.pdf(prefer_css_page_size=True, format="A3", landscape=True))) as paper:
        texts = [" ".join(sheet.extract_text().split()) for sheet in paper.pages]
    assert all(word in " ".join(texts) for word in words)
    assert "Undo" not in " ".join(texts)
    if address.startswith("sheet"):
        assert len(texts) == 1
    assert "revision 1" in " ".join(texts)


def test_the_first_look_around(page: Page) -> None:
    page.get_by_role("button", name="Look around").click()
    tour = page.get_by_role("region", name="Looking around")
    for step in range(1, 7):
        expect(tour).to_contain_text(f"{step} of 6")
        expect(page.locator(".pointed")).to_have_count(1)
        page.keyboard.press("Enter")
    expect(tour).to_have_count(0)
    page.reload()
    page.get_by_role("img", name="Harbour clinic").wait_for()
    expect(page.get_by_text("New here?")).to_have_count(0)


def test_several_are_picked_and_changed_as_one(page: Page, served: int) -> None:
    select(page, "U1")
    page.keyboard.press("Shift+ArrowDown")
    expect(page.locator("aside h2")).to_have_text("2 picked")
    page.locator('[data-id="run:U3"]').click(force=True, modifiers=["Shift"])
    expect(page.locator("aside h2")).to_have_text("3 picked")
    names = page.locator("aside .names").inner_text().split(", ")
    page.keyboard.type("11")
    page.keyboard.press("Enter")
    at_revision(page, 2)
    assert [runs_of(served)[name] for name in names] == [11, 11, 11]
    page.keyboard.press("Control+z")
    at_revision(page, 3)
    select(page, "J6")
    page.keyboard.press("a")
    expect(page.locator("aside h2")).to_have_text("3 picked")
    page.keyboard.press("Delete")
    at_revision(page, 4)
    assert not {"J6", "U9", "U10"} & set(runs_of(served))


def test_anything_is_found(page: Page) -> None:
    page.keyboard.press("/")
    page.keyboard.type("ultra")
    expect(page.get_by_role("listbox").get_by_role("option")).to_have_count(1)
    page.keyboard.press("Enter")
    expect(page.locator("aside h2")).to_have_text("U8")
    page.keyboard.press("/")
    page.keyboard.type("upper")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(page.get_by_role("img", name=re.compile("system upper"))).to_be_visible()
    expect(page.locator("rect.mark")).to_be_in_viewport()


def test_the_sheet_is_shown_larger_smaller_and_whole(page: Page) -> None:
    def width() -> float:
        return float(page.locator(".sheet > svg").get_attribute("width") or 0)

    before = width()
    page.keyboard.press("+")
    assert width() == pytest.approx(before * 1.2)
    page.keyboard.press("-")
    assert width() == pytest.approx(before)
    page.set_viewport_size({"width": 1700, "height": 600})
    page.keyboard.press("f")
    expect(page.get_by_role("button", name="Whole sheet")).to_have_attribute("aria-pressed", "true")
    assert (
        page.evaluate(
            "(() => { const one = document.querySelector('.sheet'); return one.scrollHeight - one.clientHeight; })()"
        )
        <= 4
    )
    page.keyboard.press("w")
    expect(page.locator("aside")).to_have_count(0)


def test_the_working_stays_beside_what_is_picked_when_the_book_names_other_units(page: Page) -> None:
    page.get_by_label("Units").select_option("ip")
    select(page, "U1")
    expect(page.locator("aside pre")).to_contain_text("ft")


def test_a_margin_shows_how_it_comes_about(page: Page) -> None:
    page.locator('[data-id="margin:limit:after_first_branch"]').click(force=True)
    expect(page.locator("aside select")).to_have_value("ground/limit:after_first_branch")
    expect(page.locator("aside pre")).to_contain_text("40")
    select(page, "U1")
    expect(page.locator("aside select")).to_have_value("ground/run:U1.length")
