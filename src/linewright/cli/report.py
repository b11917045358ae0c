"""`linewright report`: the hand-over set of a design."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linewright.app.project import open_project
from linewright.cli.common import (
    books_option,
    design_argument,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)
from linewright.cli.papers import paper_option, revision_option
from linewright.draw.paper.facts import Revision
from linewright.units import Dimension, UnitFault, UnitSystem, parse_as, show

if TYPE_CHECKING:
    from linewright.takeoff import PriceList


class Amount(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A quantity with its unit, 0 or more."""

    name = "quantity"

    def __init__(self, dimension: Dimension, least: float = 0.0, most: float = 1000.0) -> None:
        """Keep what it measures, the least and the most that it may be, in SI."""
        self.dimension, self.least, self.most = dimension, least, most

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:  # noqa: ANN401
        """Read it."""
        try:
            number = parse_as(str(value), self.dimension)
        except UnitFault as error:
            self.fail(str(error), param, ctx)
        if not self.least <= number <= self.most:
            bounds = [show(bound, self.dimension, UnitSystem.SI) for bound in (self.least, self.most)]
            self.fail(f"{value} is out of range: {bounds[0]} to {bounds[1]}", param, ctx)
        return number


@click.command("report")
@design_argument
@click.option("-o", "--output", type=click.Path(path_type=Path), required=True, help="Folder to write.")
@click.option("--stock", "stock", help="Lengths of tube that are sold (CSV or XLSX).")
@click.option("--prices", "prices", help="Prices by item of the take-off (CSV or XLSX).")
@click.option("--invented-prices", is_flag=True, help="Prices that are invented, to compare and to try out.")
@click.option("--waste", type=Amount(Dimension.RATIO, most=1.0), help="Allowance on lengths.  [default: 5 %]")
@click.option("--spares", type=Amount(Dimension.RATIO, most=1.0), help="Allowance on small parts.  [default: 0 %]")
@click.option("--coupling", type=Amount(Dimension.LENGTH), help="Tube that a coupling weighs against.  [default: 1 m]")
@click.option("--cylinder", type=Amount(Dimension.MASS, 0.1), help="Refrigerant in a cylinder.  [default: 10 kg]")
@click.option("--nitrogen", type=Amount(Dimension.VOLUME, 1e-3), help="Cylinder of nitrogen.  [default: 50 L]")
@click.option("--nitrogen-at", type=Amount(Dimension.PRESSURE, 1e5, 1e8), help="Its pressure.  [default: 200 bar]")
@click.option("--system", "systems", multiple=True, help="Only this system; may be given several times.")
@click.option("--as-built", is_flag=True, help="Take lengths as built where they are stated.")
@paper_option
@revision_option
@click.option(
    "--document-paper", type=click.Choice(["a4", "letter"]), default="a4", help="Paper of the documents.  [default: a4]"
)
@books_option
@json_option
@units_option
def command(
    design: Path,
    output: Path,
    stock: str | None,
    prices: str | None,
    *,
    invented_prices: bool,
    waste: float | None,
    spares: float | None,
    coupling: float | None,
    cylinder: float | None,
    nitrogen: float | None,
    nitrogen_at: float | None,
    systems: tuple[str, ...],
    as_built: bool,
    paper: str | None,
    revisions: tuple[Revision, ...],
    document_paper: str,
    books: tuple[Path, ...],
    units: str | None,
    as_json: bool,
) -> None:
    """Write the hand-over set of DESIGN: PDF, take-off, schedules, drawings, check, calculations, cautions."""
    from dataclasses import replace

    from linewright.app.drawings import Request
    from linewright.app.handover import CONTENTS, Buying, hand_over
    from linewright.app.output_folder import check_folder, write_folder
    from linewright.draw.paper.facts import Revision
    from linewright.report.pdf import Front, Paper
    from linewright.takeoff import Settings, read_stock

    if prices is not None and invented_prices:
        raise click.UsageError("--prices and --invented-prices exclude each other")
    stated = {"waste": waste, "spares": spares, "coupling_m": coupling, "cylinder_kg": cylinder}
    stated |= {"nitrogen_m3": nitrogen, "nitrogen_pa": nitrogen_at}
    known: dict[str, Any] = {name: number for name, number in stated.items() if number is not None}
    settings = replace(Settings(as_built=as_built), **known)
    with faults_shown(as_json=as_json):
        check_folder(output, CONTENTS)
        project = open_project(design, books)
        buying = Buying(
            settings,
            None if stock is None else read_stock(stock),
            _prices(prices, invented=invented_prices),
        )
        system = unit_system(units, project.loaded.design.units)
        last = revisions[-1] if revisions else Revision("", "", "")
        front = Front(last.mark, last.date, Paper(document_paper))
        drawn = Request(paper or "", revisions)
        made = hand_over(project, buying, system, _progress, front=front, drawn=drawn, systems=systems)
        write_folder(output, made.files)
    click.echo(f"wrote {len(made.files)} files to {output}", err=True)
    if as_json:
        write_json(made.summary)


def _prices(name: str | None, *, invented: bool) -> PriceList | None:
    from linewright.takeoff import invented_prices, read_prices

    if invented:
        return invented_prices()
    return None if name is None else read_prices(name)


def _progress(text: str) -> None:
    click.echo(f"{text} ...", err=True)
