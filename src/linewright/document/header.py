"""The first key of a document: what it is and the version of its format."""

from __future__ import annotations

from linewright.document.decode import HEADER
from linewright.document.source import Mapping, Scalar, Source

BOOK = "book/1"
DESIGN = "design/1"


def check_header(source: Source, wanted: str) -> None:
    """Raise InputFaultsError unless the document says that it is `wanted` (`book/1`, `design/1`)."""
    stated = _stated(source)
    kind, _, version = wanted.partition("/")
    if stated is None:
        source.fault("", f"this does not say what it is: key '{HEADER}' is missing", f"{HEADER}: {wanted}")
    elif stated != wanted:
        got_kind, _, got_version = stated.partition("/")
        newer = got_kind == kind and got_version.isdigit() and int(got_version) > int(version)
        message = f"format {stated} is newer than this program" if newer else f"this is '{stated}', not a {kind}"
        source.fault(HEADER, message, f"{HEADER}: {wanted}")
    source.refuse()


def _stated(source: Source) -> str | None:
    if not isinstance(source.root, Mapping):
        return None
    for key, item in source.root.value:
        if key.value == HEADER:
            source.nodes[HEADER] = item
            return str(item.value) if isinstance(item, Scalar) else ""
    return None
