"""A book printed for the person who compares it with the maker's pages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.book.bands import Bands
from linewright.book.compiled import CompiledBook
from linewright.book.measures import FACTS
from linewright.book.roles import line_rates
from linewright.book.schema import BoundTable, FittingRow, HeaderRow, Limit, RoundAt, SizeRow, UnitSizing
from linewright.book.services import without_services
from linewright.engine.measures import variant_words
from linewright.model.values import Role
from linewright.report.book_boxes import box_words, standing_words
from linewright.report.book_notes import notes_in
from linewright.report.book_sections import whole_sections
from linewright.report.condition_words import condition_words, conditions_words, need_words
from linewright.report.page import Page
from linewright.report.table import Column
from linewright.units import Amount, Dimension, UnitSystem, show, tube_name


def book_text(compiled: CompiledBook, *, line: str, system: UnitSystem, colour: bool) -> str:
    """Write the tables of a book with their pages."""
    page, book = Page(colour=colour), compiled.book
    page.title(f"{book.id}: {line}")
    page.text(f"{book.kind}; capacity index in {book.index.unit}; lengths from {book.origin}")
    _outdoor(page, compiled, system)
    _indoor(page, compiled, system)
    _boxes(page, compiled, system)
    _sizes(page, compiled, system)
    _fittings(page, compiled)
    _limits(page, compiled, system)
    _charge(page, compiled, system)
    for name, lines in whole_sections(book, system):
        _heading(page, name, None)
        for written in lines:
            page.text(written.strip(), indent=len(written) - len(written.lstrip()))
    if lacking := list(without_services(book)):
        _heading(page, "Not in the book", None)
        for what, names in lacking:
            page.text(f"{what}: {', '.join(names)}")
    if notes := list(notes_in(book)):
        _heading(page, "Notes", None)
        for note in notes:
            page.text(note)
    return str(page)


def _outdoor(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    outdoor = compiled.book.outdoor
    _heading(page, "Outdoor groups", outdoor.page)
    rows = []
    for group in outdoor.groups:
        count = _range(group.indoor_count.min, group.indoor_count.max, Dimension.NUMBER, system)
        ratio = _range(group.connection_ratio.min, group.connection_ratio.max, Dimension.RATIO, system)
        rows.append([group.id or "-", f"{group.index:g}", count, ratio, " + ".join(group.modules)])
    page.table(
        (
            Column("group"),
            Column("index", right=True),
            Column("units", right=True),
            Column("ratio", right=True),
            Column("modules"),
        ),
        rows,
    )


def _indoor(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    indoor = compiled.book.indoor
    _heading(page, "Indoor units", indoor.page)
    rows = [
        [
            model.model,
            f"{model.index:g}",
            show(model.cooling_w, Dimension.POWER, system),
            show(model.sensible_w, Dimension.POWER, system),
            show(model.heating_w, Dimension.POWER, system),
            _pair(model.ports, system),
        ]
        for model in indoor.models
    ]
    columns = (
        Column("model", most=18),
        Column("index", right=True),
        Column("cooling", right=True),
        Column("sensible", right=True),
    )
    page.table((*columns, Column("heating", right=True), Column("ports")), rows)


def _boxes(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    boxes = compiled.book.boxes
    if boxes is None:
        return
    _heading(page, "Mode boxes", boxes.page)
    columns = (Column("box", most=12), *(Column(name, right=True) for name in ("ports", "index", "page")), Column("of"))
    rows = [
        [
            model.model,
            str(model.ports),
            f"{model.index:g}",
            "-" if model.page is None else str(model.page),
            "; ".join(box_words(model, system)),
        ]
        for model in boxes.models
    ]
    page.table(columns, rows)
    for line in standing_words(boxes):
        page.text(line)


def _sizes(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    sizing = compiled.book.sizing
    _heading(page, f"Main, by {sizing.main.by}", sizing.main.page)
    if compiled.main is not None:
        page.table(_BANDS, list(_size_rows(compiled.main, system)))
    else:
        page.table(_BANDS, [[name, _pair(row.sizes, system)] for name, row in compiled.main_by_group.items()])
    _heading(page, "Other runs, by the index downstream", sizing.branch.page)
    page.table(_BANDS, list(_size_rows(compiled.branch, system)))
    if compiled.below_box is not None and sizing.below_box is not None:
        _heading(page, "Runs behind a mode box, by the index downstream", sizing.below_box.page)
        page.table(_BANDS, list(_size_rows(compiled.below_box, system)))
    if isinstance(sizing.unit, UnitSizing):
        page.text("A unit's own run has the unit's port sizes.")
    elif compiled.unit_run is not None:
        _heading(page, "A unit's own run, by its index", sizing.unit.page)
        page.table(_BANDS, list(_size_rows(compiled.unit_run, system)))
    for action in sizing.actions:
        kind = "elective" if action.when is None else f"mandatory when {condition_words(action.when, system)}"
        lines = " and ".join(role.word for role in action.lines)
        page.text(f"action {action.id} (page {action.page}): {lines} of {action.runs}, {action.steps} up; {kind}")


def _fittings(page: Page, compiled: CompiledBook) -> None:
    _heading(page, "Fittings", compiled.book.fittings.page)
    columns = (Column("fitting"), Column("index", right=True), Column("model"))
    joints = (
        ("first joint", compiled.first),
        ("other joints", compiled.joint),
        ("outdoor joints", compiled.outdoor_joint),
        ("joints behind a box", compiled.below_box_joint),
    )
    rows = [[name, _edge(bands, i), row.model] for name, bands in joints if bands for i, row in enumerate(bands.rows)]
    for name, headers in (("headers", compiled.header), ("headers behind a box", compiled.below_box_header)):
        if headers is not None:
            rows += [[name, _edge(headers, i), f"{row.model}, {row.ports} ports"] for i, row in enumerate(headers.rows)]
    page.table(columns, rows)


def _limits(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    _heading(page, "Limits", None)
    rows = []
    for limit in compiled.book.limits:
        name = f"{limit.measure} ({words})" if (words := variant_words(limit)) else limit.measure.value
        if limit.when:
            name += f", when {conditions_words(limit.when, system)}"
        bounds = "; ".join(_bounds(limit, system))
        wider = "; ".join(_wider(limit, system))
        rows.append([name, bounds, "-" if limit.page is None else str(limit.page), wider])
    page.table(
        (
            Column("limit", most=24),
            Column("bound", most=18),
            Column("page", right=True),
            Column("wider bounds"),
        ),
        rows,
    )


def _charge(page: Page, compiled: CompiledBook, system: UnitSystem) -> None:
    charge = compiled.book.charge
    _heading(page, "Additional charge", charge.page)
    for role, table in line_rates(charge):
        for size, rate in table.items():
            page.text(f"{role.word} {tube_name(size, system)}: {show(rate, Dimension.LINEAR_MASS, system)}")
    by_name = (("group", charge.group), ("module", charge.module), ("indoor", charge.indoor), ("box", charge.box))
    for name, masses in by_name:
        for key, mass in masses.items():
            page.text(f"{name} {key}: {show(mass, Dimension.MASS, system)}")
    for band in charge.connection_ratio:
        edge = band.upto or band.below
        word = "up to" if band.upto is not None else "below"
        ratio = show(edge.value, Dimension.RATIO, system) if edge is not None else "?"
        page.text(f"connection ratio {word} {ratio}: {show(band.add_kg, Dimension.MASS, system)}")
    others = (
        ("each indoor unit", charge.indoor_each_kg),
        ("each mode box", charge.box_each_kg),
        ("constant", charge.constant_kg),
        ("not below", charge.min_kg),
        ("not above", charge.max_kg),
    )
    for name, given in others:
        if given is not None:
            page.text(f"{name}: {show(given, Dimension.MASS, system)}")
    if charge.round is not None:
        what = "each term" if charge.round.at is RoundAt.TERM else "the total"
        page.text(f"{what} rounded {charge.round.mode} to {charge.round.step}")


_BANDS = (Column("index", most=20), Column("tubes"))


def _size_rows(bands: Bands[SizeRow], system: UnitSystem) -> Iterator[list[str]]:
    for i, row in enumerate(bands.rows):
        yield [_edge(bands, i), _pair(row.sizes, system)]


def _edge(bands: Bands[FittingRow] | Bands[HeaderRow] | Bands[SizeRow], position: int) -> str:
    edge = bands.edges[position]
    return f"{'up to' if edge.inclusive else 'below'} {edge.value:g}"


def _pair(sizes: Mapping[Role, float], system: UnitSystem) -> str:
    return ", ".join(f"{role.word} {tube_name(size, system)}" for role, size in sizes.items())


def _bounds(limit: Limit, system: UnitSystem) -> Iterator[str]:
    for sense, bound in (("min", limit.min), ("max", limit.max)):
        if isinstance(bound, Amount):
            yield f"{sense} {_show(limit, bound, system)}"
        elif isinstance(bound, BoundTable):
            yield f"{sense} by {bound.by}"
        elif bound is not None:
            yield f"{sense} by the {bound}"


def _wider(limit: Limit, system: UnitSystem) -> Iterator[str]:
    for relaxed in limit.relaxed:
        amount = relaxed.max or relaxed.min
        needs = [need_words(need, system) for need in relaxed.needs]
        if amount is not None:
            page = f" (page {relaxed.page})" if relaxed.page is not None else ""
            yield f"{_show(limit, amount, system)}{page} with {', '.join(needs)}"


def _show(limit: Limit, amount: Amount, system: UnitSystem) -> str:
    dimension = FACTS[limit.measure].dimension
    return f"{amount.value:g}" if dimension is Dimension.NUMBER else show(amount.value, dimension, system)


def _range(least: Amount | None, most: Amount | None, dimension: Dimension, system: UnitSystem) -> str:
    def words(amount: Amount | None) -> str:
        if amount is None:
            return "-"
        return f"{amount.value:g}" if dimension is Dimension.NUMBER else show(amount.value, dimension, system)

    return f"{words(least)} to {words(most)}"


def _heading(page: Page, text: str, number: int | None) -> None:
    page.blank()
    page.title(text + (f", page {number}" if number is not None else ""))
