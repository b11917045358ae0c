"""A book made quick to look up, and everything that can be wrong with one before a design meets it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from linewright.book.bands import Bands, compile_bands
from linewright.book.box_checks import check_boxes
from linewright.book.capacity import ModeTables, compile_mode
from linewright.book.charge_checks import Step, check_charge, check_fittings, round_step
from linewright.book.family_checks import check_family
from linewright.book.limit_checks import check_limits
from linewright.book.measures import FACTS
from linewright.book.naming import check_known, check_names, check_once, group_name
from linewright.book.options import Moved, merged
from linewright.book.quantities import Report
from linewright.book.roles import is_recovery, sides
from linewright.book.rule_checks import check_rules
from linewright.book.schema import (
    Book,
    BoundRow,
    BoundTable,
    ChargeBand,
    CountBy,
    FittingRow,
    FittingTable,
    Group,
    HeaderRow,
    HeaderTable,
    IndoorModel,
    Limit,
    MainBy,
    MeasureUse,
    OutdoorModule,
    SizeRow,
    SizeTable,
    UnitSizing,
)
from linewright.book.service_checks import check_services
from linewright.model.values import Role
from linewright.units import Dimension

__all__ = ["CompiledBook", "Report", "Step", "compile_book", "group_name"]


class CompiledBook(NamedTuple):
    """A book and its tables by key."""

    book: Book
    modules: Mapping[str, OutdoorModule]
    groups: Mapping[tuple[str, ...], Group]
    models: Mapping[str, IndoorModel]
    model_at: Mapping[str, int]
    main: Bands[SizeRow] | None
    main_by_group: Mapping[str, SizeRow]
    branch: Bands[SizeRow]
    unit_run: Bands[SizeRow] | None
    module_pipe: Bands[SizeRow] | None
    below_box: Bands[SizeRow] | None
    first: Bands[FittingRow] | None
    joint: Bands[FittingRow] | None
    outdoor_joint: Bands[FittingRow] | None
    header: Bands[HeaderRow] | None
    below_box_joint: Bands[FittingRow] | None
    below_box_header: Bands[HeaderRow] | None
    bounds: Mapping[tuple[int, str], Bands[BoundRow]]
    ratio_charge: Bands[ChargeBand] | None
    round_step: Step | None
    ladders: Mapping[Role, tuple[float, ...]]
    recovery: bool
    sides: Mapping[Role, Role]
    cooling: ModeTables
    heating: ModeTables | None
    term_bands: Mapping[int, Bands[ChargeBand]]
    variants: dict[frozenset[str], CompiledBook]
    moved: Moved = Moved({}, ())

    def with_options(self, options: Iterable[str]) -> CompiledBook:
        """Give the book as it reads with options on; made once for each set of them."""
        wanted = frozenset(options)
        if wanted not in self.variants:
            book, moved = merged(self.book, wanted)
            self.variants[wanted] = compile_book(book, _keep_silent)._replace(moved=moved)
        return self.variants[wanted]

    @property
    def asks_demand(self) -> bool:
        """Whether a rule of the book asks for the load that the rooms have at one time."""
        options = (limit for option in self.book.options for limit in option.limits)
        uses = (use for limit in (*self.book.limits, *options) for use in _uses(limit))
        return any(use.count_by is CountBy.SIMULTANEOUS for use in uses)

    def where(self, path: str) -> str:
        """Give the place in the file behind a path of the book as it reads."""
        return self.moved.where(path)

    def group_of(self, modules: tuple[str, ...]) -> Group | None:
        """Give the group that these modules form, in any order."""
        return self.groups.get(tuple(sorted(modules)))


def _uses(limit: Limit) -> Iterator[MeasureUse]:
    yield limit
    yield from limit.when
    yield from (need for relaxed in limit.relaxed for need in relaxed.needs)


def compile_book(book: Book, report: Report) -> CompiledBook:
    """Make a book quick to look up; every fault goes to `report` with its path."""
    told: set[tuple[str, str]] = set()

    def note(path: str, message: str, expected: str = "") -> None:
        told.add((path, message))
        report(path, message, expected)

    compiled = _compile(book, note)
    _check_options(book, report, told=told)
    return compiled


def _compile(book: Book, report: Report) -> CompiledBook:
    check_names(book, report)
    check_family(book, report)
    check_boxes(book, report)
    check_services(book, report)
    check_limits(book, report)
    check_fittings(book, report)
    check_charge(book, report)
    check_rules(book, report)
    sizing, fittings = book.sizing, book.fittings
    by_group = sizing.main.by is MainBy.GROUP
    return CompiledBook(
        book=book,
        modules={module.model: module for module in book.outdoor.modules},
        groups={tuple(sorted(group.modules)): group for group in book.outdoor.groups},
        models={model.model: model for model in book.indoor.models},
        model_at={model.model: position for position, model in enumerate(book.indoor.models)},
        main=None if by_group else _sizes(sizing.main, "sizing.main", report),
        main_by_group=_sizes_by_group(book, report) if by_group else {},
        branch=_sizes(sizing.branch, "sizing.branch", report),
        unit_run=None if isinstance(sizing.unit, UnitSizing) else _sizes(sizing.unit, "sizing.unit", report),
        module_pipe=None if sizing.module is None else _sizes(sizing.module, "sizing.module", report),
        below_box=None if sizing.below_box is None else _sizes(sizing.below_box, "sizing.below_box", report),
        first=_fittings(fittings.first, "fittings.first.rows", report),
        joint=_fittings(fittings.joint, "fittings.joint.rows", report),
        outdoor_joint=_fittings(fittings.outdoor_joint, "fittings.outdoor_joint.rows", report),
        header=_headers(fittings.header, "fittings.header.rows", report),
        below_box_joint=_fittings(fittings.below_box, "fittings.below_box.rows", report),
        below_box_header=_headers(fittings.below_box_header, "fittings.below_box_header.rows", report),
        bounds=_bound_tables(book, report),
        ratio_charge=_ratio_charge(book, report),
        round_step=round_step(book, report),
        ladders={role: tuple(sorted(sizes)) for role, sizes in book.tubes.ladders.items()},
        recovery=is_recovery(book),
        sides=sides(book),
        cooling=compile_mode(book.capacity.cooling, "capacity.cooling", book, report=report),
        heating=_heating(book, report),
        term_bands=_term_bands(book, report),
        variants={},
    )


def _keep_silent(path: str, message: str, expected: str = "") -> None:
    """A book with options was checked with them when it was loaded."""


def _check_options(book: Book, report: Report, *, told: AbstractSet[tuple[str, str]]) -> None:
    """Read the book with each option on, and note what is wrong that was not told of the book itself."""
    for i, option in enumerate(book.options):
        with_it, moved = merged(book, {option.id})

        def note(path: str, message: str, expected: str = "", *, to: Moved = moved, at: str = f"options[{i}]") -> None:
            place = to.where(path)
            if place.startswith(at):
                report(place, message, expected)
            elif (place, message) not in told:
                report(at, f"with this option on, at {place}: {message}", expected)

        if with_it != book:
            _compile(with_it, note)


def _term_bands(book: Book, report: Report) -> dict[int, Bands[ChargeBand]]:
    found = {}
    for i, term in enumerate(book.charge.terms):
        if term.rows:
            dimension = FACTS[term.by].dimension if term.by is not None else Dimension.NUMBER
            path = f"charge.terms[{i}].rows"
            found[i] = compile_bands(term.rows, path, dimension=dimension, report=report, page=term.page)
    return found


def _heating(book: Book, report: Report) -> ModeTables | None:
    mode = book.capacity.heating
    return None if mode is None else compile_mode(mode, "capacity.heating", book, report=report)


def _sizes(table: SizeTable, path: str, report: Report) -> Bands[SizeRow]:
    if table.by is not MainBy.OUTDOOR_INDEX and path != "sizing.main":
        report(f"{path}.by", "only the main is looked up by something else than its index", "no key 'by' here")
    for i, row in enumerate(table.rows):
        if row.group:
            message = "a row is for one group only where the main is looked up by group"
            report(f"{path}.rows[{i}].group", message, "sizing.main with by: group")
    return compile_bands(table.rows, f"{path}.rows", dimension=Dimension.NUMBER, report=report, page=table.page)


def _sizes_by_group(book: Book, report: Report) -> dict[str, SizeRow]:
    rows = book.sizing.main.rows
    groups = [group_name(group) for group in book.outdoor.groups]
    named = {row.group: row for row in reversed(rows)}
    check_once([row.group for row in rows], "sizing.main.rows", "group", report=report)
    for i, row in enumerate(rows):
        where = f"sizing.main.rows[{i}].group"
        if not row.group:
            report(where, "the main is looked up by group, and the row names none", "group: the name of a group")
        check_known(row.group, groups, where, what="outdoor group", report=report)
    for i, name in enumerate(groups):
        if name not in named and "" not in named:
            report(f"outdoor.groups[{i}]", f"no row of sizing.main is for the group '{name}'", "a row for each group")
    return named


def _fittings(table: FittingTable | None, path: str, report: Report) -> Bands[FittingRow] | None:
    if table is None:
        return None
    return compile_bands(table.rows, path, dimension=Dimension.NUMBER, report=report, page=table.page)


def _headers(table: HeaderTable | None, path: str, report: Report) -> Bands[HeaderRow] | None:
    if table is None:
        return None
    return compile_bands(
        table.rows,
        path,
        dimension=Dimension.NUMBER,
        report=report,
        page=table.page,
        strict=False,
    )


def _bound_tables(book: Book, report: Report) -> dict[tuple[int, str], Bands[BoundRow]]:
    found = {}
    for i, limit in enumerate(book.limits):
        for sense, bound in (("max", limit.max), ("min", limit.min)):
            if isinstance(bound, BoundTable):
                path = f"limits[{i}].{sense}.rows"
                dimension = FACTS[bound.by].dimension
                found[i, sense] = compile_bands(bound.rows, path, dimension=dimension, report=report, page=limit.page)
    return found


def _ratio_charge(book: Book, report: Report) -> Bands[ChargeBand] | None:
    rows = book.charge.connection_ratio
    if not rows:
        return None
    return compile_bands(
        rows, "charge.connection_ratio", dimension=Dimension.RATIO, report=report, page=book.charge.page
    )
