"""`linewright report`: the hand-over set of a design."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linewright.app.option_values import COUPLING, CYLINDER, NITROGEN, NITROGEN_AT, SPARES, WASTE, Amount, amount
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
from linewright.cli.papers import Named, paper_option, revision_option
from linewright.draw.paper.facts import Revision

if TYPE_CHECKING:
    from linewright.takeoff import PriceList


class Quantity(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A quantity with its unit."""

    name = "quantity"

    def __init__(self, kind: Amount) -> None:
        """Keep what it measures and its bounds."""
        self.kind = kind

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:  # noqa: ANN401
        """Read it."""
        try:
            return amount(str(value), self.kind)
        except ValueError as error:
            self.fail(str(error), param, ctx)


@click.command("report")
@design_argument
@click.option("-o", "--output", type=click.Path(path_type=Path), required=True, help="Folder to write.")
@click.option("--stock", "stock", help="Lengths of tube that are sold (CSV or XLSX).")
@click.option("--prices", "prices", help="Prices by item of the take-off (CSV or XLSX).")
@click.option("--invented-prices", is_flag=True, help="Prices that are invented, to compare and to try out.")
@click.option("--waste", type=Quantity(WASTE), help="Allowance on lengths.  [default: 5 %]")
@click.option("--spares", type=Quantity(SPARES), help="Allowance on small parts.  [default: 0 %]")
@click.option("--coupling", type=Quantity(COUPLING), help="Tube that a coupling weighs against.  [default: 1 m]")
@click.option("--cylinder", type=Quantity(CYLINDER), help="Refrigerant in a cylinder.  [default: 10 kg]")
@click.option("--nitrogen", type=Quantity(NITROGEN), help="Cylinder of nitrogen.  [default: 50 L]")
@click.option("--nitrogen-at", type=Quantity(NITROGEN_AT), help="Its pressure.  [default: 200 bar]")
@click.option("--system", "systems", multiple=True, help="Only this system; may be given several times.")
@click.option("--as-built", is_flag=True, help="Take lengths as built where they are stated.")
@paper_option
@revision_option
@click.option(
    "--document-paper", type=Named(["a4", "letter"]), default="a4", help="Paper of the documents.  [default: a4]"
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

    from linewright.app.handover import CONTENTS, Buying, hand_over
    from linewright.app.output_folder import check_folder, write_folder
    from linewright.app.set_options import SetOptions
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
        options = SetOptions(paper or "", document_paper, revisions)
        made = hand_over(project, buying, system, _progress, front=options.front, drawn=options.drawn, systems=systems)
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
