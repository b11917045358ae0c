"""The first key of a document: what it is and the version of its format."""

from __future__ import annotations

from linewright.document.plans import HEADER, plan
from linewright.document.source import Mapping, Scalar, Source
from linewright.errors import nearest, quoted

BOOK = "book/1"
DESIGN = "design/1"
SWEEP = "sweep/1"
KNOWN = (BOOK, DESIGN, SWEEP)
KINDS = tuple(known.partition("/")[0] for known in KNOWN)
_LONGEST_VERSION = 6
#: So many keys of a kind tell a document that only lacks its header from one of another program.
_TELLING = 3


def states_book(source: Source) -> bool:
    """Say whether a document says of itself that it is a book, of whatever version."""
    entries = source.root.value if isinstance(source.root, Mapping) else []
    stated = next((item.value for key, item in entries if key.value == HEADER and isinstance(item, Scalar)), "")
    return str(stated).partition("/")[0] == BOOK.partition("/")[0]


def check_header(source: Source, wanted: str, declared: type) -> None:
    """Note a missing header; raise InputFaultsError for a document that is something else than `wanted`.

    wanted : str — `book/1`, `design/1` or `sweep/1`
    declared : type — the value class of such a document
    """
    right = f"{HEADER}: {wanted}"
    if not isinstance(source.root, Mapping):
        what = "one text" if isinstance(source.root, Scalar) else "a list"
        source.fault(
            "", f"the document is {what}, not a mapping of keys to values", f"a document that begins with {right}"
        )
        source.refuse()
        return
    keys = {key.value: item for key, item in source.root.value if isinstance(key, Scalar)}
    if HEADER in keys:
        source.nodes[HEADER] = keys[HEADER]
        _check_stated(source, keys[HEADER].value if isinstance(keys[HEADER], Scalar) else "", wanted)
        return
    known = {field.key for field in plan(declared)}
    if nearest(HEADER, (key for key in keys if key not in known)) is None:
        message = f"this does not say what it is: the key '{HEADER}' is missing"
        source.fault(HEADER, message, right, value="")
    if len(known & keys.keys()) < _TELLING:
        source.refuse()


def _check_stated(source: Source, stated: str, wanted: str) -> None:
    """Stop at a document that is known to be another; a misspelt header is one fault among others."""
    if stated == wanted:
        return
    kind, _, version = wanted.partition("/")
    stated_kind, _, stated_version = stated.partition("/")
    right = f"{HEADER}: {wanted}"
    if stated_kind == kind and _is_number(stated_version):
        if int(stated_version) > int(version):
            source.fault(HEADER, f"the format {stated} is newer than this program", f"{right}, or a newer Linewright")
        else:
            source.fault(HEADER, f"the format {stated} is not known", right)
        source.refuse()
    if stated_kind != kind and stated_kind in KINDS:
        source.fault(HEADER, f"this is a {stated_kind}, not a {kind}", f"a document that begins with {right}")
        source.refuse()
    source.fault(HEADER, f"{quoted(stated)} is no kind of document" if stated else "nothing is written here", right)
    if nearest(stated, KNOWN) != wanted:
        source.refuse()


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= _LONGEST_VERSION
