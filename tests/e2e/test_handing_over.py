"""The hand-over set, asked for on the page: how it is wanted, what is refused, what comes of it."""

from __future__ import annotations

import io
import re
import zipfile
from time import sleep

import pdfplumber
import pytest
from playwright.sync_api import Page, expect

from linewright.draw.paper import PAPERS
from tests.e2e.steps import barriers
from tests.web.server import Client


def made(page: Page) -> dict[str, bytes]:
    """The files of the set that is being made."""
    with page.expect_download(timeout=60_000) as download:
        page.get_by_role("link", name=re.compile(r"Save .*clinic\.zip")).click(timeout=60_000)
    with zipfile.ZipFile(download.value.path()) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.mark.soak
def test_the_hand_over_set_is_made_as_on_the_command_line_where_nothing_is_chosen(page: Page, served: int) -> None:
    page.keyboard.press("o")
    page.get_by_role("button", name="Hand-over set").click()
    page.get_by_role("button", name="Make the set").click()
    files = made(page)
    assert {"caution.txt", "not-judged.txt", "check.txt", "schedules.xlsx", "contents.json"} <= set(files)
    with Client(served) as client:
        asked = client.post("/api/projects/1/jobs", {"kind": "hand-over", "design": 1})
        while client.get(f"/api/jobs/{asked['id']}")["state"] in {"queued", "running"}:
            sleep(0.2)
        plain = client.ask("GET", f"/api/jobs/{asked['id']}/result").body
    with zipfile.ZipFile(io.BytesIO(plain)) as archive:
        assert files == {name: archive.read(name) for name in archive.namelist()}


def test_a_set_has_the_paper_and_the_revision_that_were_chosen(page: Page) -> None:
    page.keyboard.press("o")
    page.get_by_label("Units").select_option("ip")
    page.get_by_role("button", name="Hand-over set").click()
    dialog = page.get_by_role("dialog", name="Hand-over set")
    papers = dialog.get_by_label("Paper of the drawings")
    assert papers.locator("option").evaluate_all("all => all.map(one => one.value)") == ["", *PAPERS]
    papers.select_option("A2")
    dialog.get_by_label("Paper of the documents").select_option("letter")
    dialog.get_by_label("Mark").fill("B")
    dialog.get_by_label("What for").fill("for tender, all trades")
    dialog.get_by_label("Allowance on lengths").fill("120 %")
    assert barriers(page) == []
    # The day is missing and the allowance too large: both are said, each beside its field, and no job is begun.
    dialog.get_by_role("button", name="Make the set").click()
    expect(dialog.get_by_role("alert")).to_have_count(2)
    expect(dialog.get_by_label("Mark")).to_have_accessible_description(
        re.compile("is no revision: expected a mark, a day")
    )
    expect(dialog.get_by_label("Allowance on lengths")).to_have_accessible_description(
        "120 % is out of range: 0 % to 100 %"
    )
    assert barriers(page) == []
    dialog.get_by_label("Day").fill("2026-11-20")
    dialog.get_by_label("Allowance on lengths").fill("8 %")
    dialog.get_by_label("Prices that are invented").check()
    dialog.get_by_role("button", name="Make the set").click()
    expect(dialog).to_be_hidden()
    files = made(page)
    drawn = {
        name: data.decode() for name, data in files.items() if name.endswith(".svg") and name.startswith("drawings/")
    }
    assert drawn
    for text in drawn.values():
        assert 'width="594mm" height="420mm"' in text or 'width="420mm" height="594mm"' in text
        assert ">B</text>" in text
        assert ">2026-11-20</text>" in text
    assert any("for tender, all trades" in text for text in drawn.values())
    with pdfplumber.open(io.BytesIO(files["report.pdf"])) as report:
        assert (report.pages[0].width, report.pages[0].height) == (612, 792)
        assert "B, 2026-11-20" in report.pages[0].extract_text()
    with pdfplumber.open(io.BytesIO(files["drawings.pdf"])) as paper:
        # A2 is 420 mm x 594 mm; 25.4 mm are 72 points.
        assert {
            tuple(sorted((round(one.width * 25.4 / 72), round(one.height * 25.4 / 72)))) for one in paper.pages
        } == {(420, 594)}
    assert "XTS" in files["contents.json"].decode()
    assert " ft" in files["check.txt"].decode()
    # What was chosen is there again; Escape leaves it, and nothing is asked for.
    page.get_by_role("button", name="Hand-over set").click()
    expect(dialog.get_by_label("Mark")).to_have_value("B")
    expect(papers).to_have_value("A2")
    expect(dialog.get_by_label("Prices that are invented")).to_be_checked()
    page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()


def test_a_paper_that_is_too_small_is_told_and_another_can_be_chosen(page: Page) -> None:
    page.keyboard.press("o")
    page.get_by_role("button", name="Hand-over set").click()
    page.get_by_label("Paper of the drawings").select_option("A4")
    page.get_by_role("button", name="Make the set").click()
    said = page.get_by_role("alert").filter(has_text="has no room on 'A4'")
    expect(said).to_contain_text("expected A3 or a larger paper", timeout=60_000)
    expect(page.get_by_role("link", name=re.compile("Save"))).to_have_count(0)
    page.get_by_role("button", name="Hand-over set").click()
    expect(page.get_by_label("Paper of the drawings")).to_have_value("A4")
