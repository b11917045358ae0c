"""Doubts about limits, pages and the standing of a book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linewright.book.audit.doubts import Doubt
from linewright.book.audit.services import supply_tables
from linewright.book.audit.tables import capacity_tables, fitting_tables, header_tables, size_tables
from linewright.book.measures import FACTS, MeasureName
from linewright.book.roles import line_rates
from linewright.book.schema import Book, Limit, Status
from linewright.units import Amount, Dimension

#: Metres beyond which a bound is likely in another unit: of a total, of a level, of any other length. Documents go to
#: about 1000, 110 and 240 m (common practice, no source).
LONGEST_TOTAL_M, LONGEST_LEVEL_M, LONGEST_M = 1500.0, 150.0, 320.0
#: On these nearly every document says something (common practice, no source).
USUAL = (
    (MeasureName.FARTHEST_ACTUAL, MeasureName.FARTHEST_EQUIVALENT),
    (MeasureName.TOTAL_LENGTH,),
    (MeasureName.LEVEL_OUTDOOR_ABOVE,),
    (MeasureName.LEVEL_OUTDOOR_BELOW,),
    (MeasureName.LEVEL_BETWEEN_INDOOR,),
    (MeasureName.INDOOR_COUNT,),
    (MeasureName.CONNECTION_RATIO,),
)


def limits_missing(book: Book) -> Iterator[Doubt]:
    """A measure on which documents as a rule state a bound has none."""
    stated = {limit.measure for limit in (*book.limits, *(one for option in book.options for one in option.limits))}
    for names in USUAL:
        if not stated.intersection(names):
            said = f"no limit on {' or '.join(names)}, on which most documents state one"
            yield Doubt("limit-missing", "limits", None, said, "the page on lengths, levels and combinations")


def limits_twice(book: Book) -> Iterator[Doubt]:
    """The same measure in the same variant and under the same conditions is bounded twice."""
    seen: dict[str, int] = {}
    for i, limit in enumerate(book.limits):
        for sense in ("max", "min"):
            if getattr(limit, sense) is None:
                continue
            key = f"{sense} {_without_bounds(limit)}"
            if key in seen:
                said = f"limits[{seen[key]}] bounds {limit.measure} in the same way"
                yield Doubt("limit-twice", f"limits[{i}]", limit.page, said, "one of the two, or a condition left out")
            seen.setdefault(key, i)


def _without_bounds(limit: Limit) -> str:
    return repr(replace(limit, max=None, min=None, page=None, note="", relaxed=()))


def odd_bounds(book: Book) -> Iterator[Doubt]:
    """A bound on a length that no building has, or on a ratio that looks like a percentage."""
    for i, limit in enumerate(book.limits):
        dimension = FACTS[limit.measure].dimension
        for sense in ("max", "min"):
            bound = getattr(limit, sense)
            if not isinstance(bound, Amount):
                continue
            path = f"limits[{i}].{sense}"
            if dimension is Dimension.LENGTH and bound.value > _longest(limit.measure):
                yield Doubt("odd-length", path, limit.page, f"{bound.value:g} m", "the unit: metres or feet")
            if dimension is Dimension.RATIO and bound.value > 5:
                yield Doubt("odd-ratio", path, limit.page, f"a ratio of {bound.value:g}", "a percent sign left out")


def _longest(measure: MeasureName) -> float:
    if measure is MeasureName.TOTAL_LENGTH:
        return LONGEST_TOTAL_M
    return LONGEST_LEVEL_M if measure.startswith("level_") else LONGEST_M


def odd_ratios(book: Book) -> Iterator[Doubt]:
    """A ratio of a group that looks like a percentage without its sign."""
    for i, group in enumerate(book.outdoor.groups):
        for sense in ("max", "min"):
            bound = getattr(group.connection_ratio, sense)
            if bound is not None and bound.value > 5:
                path, page = f"outdoor.groups[{i}].connection_ratio.{sense}", group.page or book.outdoor.page
                yield Doubt("odd-ratio", path, page, f"a ratio of {bound.value:g}", "a percent sign left out")


def unneeded_actions(book: Book) -> Iterator[Doubt]:
    """An elective size action that no wider bound needs is never carried out."""
    limits = (*book.limits, *(one for option in book.options for one in option.limits))
    needed = {need.action for limit in limits for relaxed in limit.relaxed for need in relaxed.needs}
    for i, action in enumerate(book.sizing.actions):
        if action.when is None and action.id not in needed:
            said = f"no wider bound needs {action.id}, so that it is never carried out"
            yield Doubt("action-unneeded", f"sizing.actions[{i}]", action.page, said, "a when:, or a need left out")


def idle_modules(book: Book) -> Iterator[Doubt]:
    """A module that stands in no group can be used by no design."""
    used = {name for group in book.outdoor.groups for name in group.modules}
    for i, module in enumerate(book.outdoor.modules):
        if module.model not in used:
            said = f"{module.model} is in no group, so that no design can use it"
            page = module.page or book.outdoor.page
            yield Doubt("module-unused", f"outdoor.modules[{i}]", page, said, "a group of this module alone")


def outdoor_joints(book: Book) -> Iterator[Doubt]:
    """Where modules are combined, something joins them."""
    groups = [i for i, group in enumerate(book.outdoor.groups) if len(group.modules) > 1]
    if groups and book.fittings.outdoor_joint is None:
        said = f"{len(groups)} groups have several modules, and no table says what joins them"
        yield Doubt(
            "outdoor-joint-missing", "fittings", book.fittings.page, said, "outdoor_joint:, on a page of its own"
        )


def rates_missing(book: Book) -> Iterator[Doubt]:
    """A tube that a table gives and that the charge does not list leaves the charge unknown."""
    for role, rates in line_rates(book.charge):
        if not rates:
            continue
        sizes = {row.sizes[role] for _, table in size_tables(book) for row in table.rows if role in row.sizes}
        missing = sorted(size for size in sizes if not any(abs(size - listed) <= 1e-4 for listed in rates))
        if missing:
            said = f"no rate for {', '.join(f'{size * 1000:g} mm' for size in missing)}, which size tables give"
            yield Doubt("rate-missing", f"charge.{role}", book.charge.page, said, "a column left out")


def pages(book: Book) -> Iterator[Doubt]:
    """A table or a limit without its page cannot be compared with the document."""
    tables: list[tuple[str, int | None]] = [
        ("outdoor", book.outdoor.page),
        ("indoor", book.indoor.page),
        *((path, table.page) for path, table in size_tables(book)),
        *((path, table.page or book.fittings.page) for path, table in fitting_tables(book)),
        *((path, table.page or book.fittings.page) for path, table in header_tables(book)),
        ("tubes", book.tubes.page),
        *capacity_tables(book),
        *((f"limits[{i}]", limit.page) for i, limit in enumerate(book.limits)),
        *((f"sizing.actions[{i}]", action.page) for i, action in enumerate(book.sizing.actions)),
    ]
    if book.fittings.allowance:
        tables.append(("fittings.allowance_page", book.fittings.allowance_page or book.fittings.page))
    if book.boxes is not None:
        tables.append(("boxes", book.boxes.page))
    tables += [(path, table.page) for path, table in supply_tables(book)]
    if book.indoor.condensate is not None:
        tables.append(("indoor.condensate", book.indoor.condensate.page))
    tables.append(("charge", book.charge.page))
    for path, page in tables:
        if page is None:
            yield Doubt("page-missing", path, None, "nobody could lay it beside the document", "page:")


def standing(book: Book) -> Iterator[Doubt]:
    """Who typed a book and who compared it stands in it."""
    if book.status is not Status.DEMONSTRATION and not book.document.checked_by:
        said = f"{book.status}, and nobody is named who compared it with the document"
        yield Doubt("unchecked", "document.checked_by", None, said, "a second person")
    if book.status is Status.CHECKED and book.document.checked_by == book.document.typed_by:
        said = "typed and compared by the same person"
        yield Doubt("unchecked", "document.checked_by", None, said, "a second person")
