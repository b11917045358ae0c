"""The smallest example, as the tests of edits use it."""

from linewright.document.files import design_from_text
from tests.house.files import ROOT

TEXT = (ROOT / "examples" / "boat-house" / "boat-house.design.yaml").read_text(encoding="utf-8")
BOAT_HOUSE = design_from_text(TEXT, "boat-house.design.yaml").design
