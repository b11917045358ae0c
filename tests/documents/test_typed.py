"""A document as it was typed."""

from __future__ import annotations

import pytest

from linewright.document.typed import typed_values
from linewright.errors import InputFaultsError

BOOK = """\
id: inland   # the name it goes by
limits:
  - {measure: main_length, max: 360 ft, page: 20}
  - measure: farthest_actual
    max: unknown
charge: {liquid: {1/2 in: 0.063 lb/ft}}
units: [a, 1, 2.50]
"""


def test_values_stay_as_they_were_typed() -> None:
    assert typed_values(BOOK, "a.book.yaml") == {
        "id": "inland",
        "limits": [
            {"measure": "main_length", "max": "360 ft", "page": "20"},
            {"measure": "farthest_actual", "max": "unknown"},
        ],
        "charge": {"liquid": {"1/2 in": "0.063 lb/ft"}},
        "units": ["a", "1", "2.50"],
    }


def test_json_is_read_as_well() -> None:
    assert typed_values('{"a": [1, "2 m", true]}', "a.json") == {"a": ["1", "2 m", "true"]}


def test_what_is_no_document_is_refused() -> None:
    with pytest.raises(InputFaultsError, match="YAML"):
        typed_values("a: [1, 2", "a.yaml")
