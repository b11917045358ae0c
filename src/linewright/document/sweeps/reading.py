"""The file of a sweep into values: every fault at once."""

from __future__ import annotations

from linewright.document.decode import decode_at
from linewright.document.header import SWEEP, check_header
from linewright.document.parsing import pairs, parse_text
from linewright.document.source import Mapping, Node, Sequence, Source
from linewright.document.sweeps.axes import axis_at, place_of
from linewright.document.sweeps.values import MOST_ROWS, Axis, ChartOf, Combine, Sweep, SweepHead
from linewright.errors import one_of, quoted

VARY = "vary"


def sweep_from_text(text: str, file: str) -> Sweep:
    """Read a sweep; raises InputFaultsError with every fault."""
    source = parse_text(text, file)
    check_header(source, SWEEP, SweepHead)
    source.nodes[""] = source.root
    if not isinstance(source.root, Mapping):
        source.refuse()
    axes, rest = _parted(source, source.root)
    head: SweepHead = decode_at(source, rest, SweepHead, "")
    named = ("systems[", "show[", "chart.")
    places = {path: place_of(node, path) for path, node in source.nodes.items() if path.startswith(named)}
    found = Sweep(head.title, head.combine, axes, head.systems, head.show, head.chart, places)
    _check_names(source, axes)
    _check_chart(source, head.chart, axes)
    _check_rows(source, found)
    source.refuse()
    return found


def _parted(source: Source, root: Node) -> tuple[tuple[Axis, ...], Mapping]:
    """What is varied, and the other keys."""
    entries = list(root.value)
    varied = [item for key, item in entries if key.value == VARY]
    others = [(key, item) for key, item in entries if key.value != VARY]
    if len(varied) > 1:
        list(pairs(source, Mapping("", entries, root.start_mark, root.end_mark), ""))
    rest = Mapping("", others, root.start_mark, root.end_mark, flow_style=False)
    if not varied:
        source.fault(VARY, f"the key '{VARY}' is missing", "a list of what is varied", node=root, value="")
        return (), rest
    node = varied[0]
    source.nodes[VARY] = node
    if not isinstance(node, Sequence) or not node.value:
        source.fault(VARY, "nothing is varied", "a list of one or more", node=node)
        return (), rest
    return tuple(axis_at(source, item, f"{VARY}[{i}]") for i, item in enumerate(node.value)), rest


def _check_names(source: Source, axes: tuple[Axis, ...]) -> None:
    first: dict[str, int] = {}
    for i, axis in enumerate(axes):
        if axis.name and axis.name in first:
            message = f"the name {quoted(axis.name)} is used twice, first in {VARY}[{first[axis.name]}]"
            source.fault(f"{VARY}[{i}].name", message, "each name once")
        first.setdefault(axis.name, i)


def _check_chart(source: Source, chart: ChartOf | None, axes: tuple[Axis, ...]) -> None:
    names = [axis.name for axis in axes if axis.name]
    for key in ("across", "lines"):
        name = getattr(chart, key, "")
        if name and name not in names:
            message = f"nothing that is varied is called {quoted(name)}"
            source.fault(f"chart.{key}", message, one_of(name, names, otherwise="a name under vary"))


def _check_rows(source: Source, found: Sweep) -> None:
    if source.faulty:
        return
    counts = {axis.name: len(axis.cases) for axis in found.axes}
    if found.combine is Combine.ZIP and len(set(counts.values())) > 1:
        said = ", ".join(f"{name} {count}" for name, count in counts.items())
        source.fault(VARY, f"the lists that are zipped are not equally long: {said}", "as many values in each")
    elif found.rows > MOST_ROWS:
        source.fault(VARY, f"the sweep has {found.rows:,} rows", f"at most {MOST_ROWS:,}")
