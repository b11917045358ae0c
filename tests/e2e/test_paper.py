"""What stands above a printed sheet, and where one that goes over several pages is parted."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
import pytest
from playwright.sync_api import Page, expect

from bench.designs import tree_of
from linewright.document.saving import dump_design
from tests.e2e.steps import select
from tests.handover.paper import sizes, texts
from tests.web.server import Client

Words = list[dict[str, Any]]
#: From where to where each printed page shows the sheet, and the words of its table on it with their heights [px].
LEAVES = """() => {
  dispatchEvent(new Event("beforeprint"));
  const found = [...document.querySelectorAll(".leaf svg")].map((svg) => {
    const { y, height } = svg.viewBox.baseVal;
    const words = [...svg.querySelectorAll('text[data-id^="unit:"]')].map((text) => {
      const baseline = Number(text.getAttribute("y")), size = Number.parseFloat(getComputedStyle(text).fontSize);
      return [text.dataset.id, baseline - size * 0.75, baseline];
    });
    return [y, y + height, words.filter(([, above, below]) => below > y && above < y + height)];
  });
  dispatchEvent(new Event("afterprint"));
  return found;
}"""
SAME_PX = 0.5


def _show_tall(page: Page, served: int, width: int) -> None:
    with Client(served) as client:
        made = client.post("/api/projects/1/designs", {"name": "tall", "text": dump_design(tree_of(64))})["id"]
    page.set_viewport_size({"width": width, "height": 700})
    page.evaluate("to => { location.hash = to }", f"#/{made}/sheet")
    expect(page.get_by_role("table").get_by_role("row")).to_have_count(65)


def _first_page(printed: bytes) -> Words:
    with pdfplumber.open(io.BytesIO(printed)) as pages:
        return pages.pages[0].extract_words()


def _line(words: Words, *named: str) -> Words:
    """Give the words of the first line in which these stand one behind the other."""
    texts = [word["text"] for word in words]
    at = next(i for i in range(len(texts)) if texts[i : i + len(named)] == list(named))
    return words[at : at + len(named)]


@pytest.mark.parametrize(("width", "paper"), [(1280, "A4"), (1920, "A3"), (3840, "A4")])
def test_what_stands_above_a_printed_sheet_covers_nothing(page: Page, served: int, width: int, paper: str) -> None:
    """Of a sheet as wide as a large screen little is left of its own edge on paper."""
    _show_tall(page, served, width)
    select(page, "J12")
    page.keyboard.type("12")
    expect(page.get_by_text("As it would be; nothing is changed yet.")).to_be_visible()
    printed = page.pdf(prefer_css_page_size=True, format=paper)
    first = _first_page(printed)
    caution = _line(first, "not", "for", "construction", "before", "a", "licensed", "engineer", "has", "approved", "it")
    would = _line(first, "As", "it", "would", "be;", "nothing", "is", "changed", "yet.")
    (title,) = _line(first, "Timing")
    assert caution[-1]["x1"] < would[0]["x0"]
    assert max(word["bottom"] for word in (*caution, *would)) < title["top"]
    assert all("Asitwouldbe;" in words for words in texts(printed))


@pytest.mark.parametrize("width", [1280, 1920])
def test_a_sheet_over_several_pages_is_parted_between_its_rows(page: Page, served: int, width: int) -> None:
    """No word of the table is cut, though nowhere is a place at which the tree beside it is not parted either."""
    _show_tall(page, served, width)
    leaves = page.evaluate(LEAVES)
    assert len(leaves) == 2
    assert sum(len(words) for _, _, words in leaves) > 64 * 6
    for top, bottom, words in leaves:
        cut = [name for name, above, below in words if above < top - SAME_PX or below > bottom + SAME_PX]
        assert cut == [], f"{top} to {bottom}"


@pytest.mark.parametrize("width", [1024, *(pytest.param(one, marks=pytest.mark.soak) for one in (1280, 1440)), 1920])
def test_a_tall_sheet_is_printed_upright_and_all_of_it(page: Page, served: int, width: int) -> None:
    """What is out of view on the screen stands on paper, with its words; and no empty page behind it."""
    _show_tall(page, served, width)
    shown = page.locator('[data-id$="/unit"]').count()
    assert shown < 40
    printed = page.pdf(prefer_css_page_size=True, format="A3", landscape=True)
    words = texts(printed)
    assert all(words)
    found = {(round(wide), round(high)) for wide, high in sizes(printed)}
    assert len(found) == 1
    ((wide, high),) = found
    assert wide < high
    assert all(f"U{number}" in " ".join(words) for number in range(64))
    expect(page.locator('[data-id$="/unit"]')).to_have_count(shown)
