"""`linewright report`: the hand-over set of a design."""

from __future__ import annotations

from pathlib import Path
from typing import Any

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
@click.option("--waste", type=Amount(Dimension.RATIO, most=1.0), help="Allowance on lengths.  [default: 5 %]")
@click.option("--spares", type=Amount(Dimension.RATIO, most=1.0), help="Allowance on small parts.  [default: 0 %]")
@click.option("--coupling", type=Amount(Dimension.LENGTH), help="Tube that a coupling weighs against.  [default: 1 m]")
@click.option("--cylinder", type=Amount(Dimension.MASS, 0.1), help="Refrigerant in a cylinder.  [default: 10 kg]")
@paper_option
@revision_option
@books_option
@json_option
@units_option
def command(
    design: Path,
    output: Path,
    stock: str | None,
    prices: str | None,
    *,
    waste: float | None,
    spares: float | None,
    coupling: float | None,
    cylinder: float | None,
    paper: str | None,
    revisions: tuple[Revision, ...],
    books: tuple[Path, ...],
    units: str | None,
    as_json: bool,
) -> None:
    """Write the hand-over set of DESIGN: take-off, schedules, sheets, drawings, check, calculations, cautions."""
    from dataclasses import replace

    from linewright.app.drawings import Request
    from linewright.app.handover import CONTENTS, Buying, hand_over
    from linewright.app.output_folder import check_folder, write_folder
    from linewright.takeoff import Settings, read_prices, read_stock

    stated = {"waste": waste, "spares": spares, "coupling_m": coupling, "cylinder_kg": cylinder}
    settings = replace(Settings(), **{name: number for name, number in stated.items() if number is not None})
    with faults_shown(as_json=as_json):
        check_folder(output, CONTENTS)
        project = open_project(design, books)
        buying = Buying(
            settings,
            None if stock is None else read_stock(stock),
            None if prices is None else read_prices(prices),
        )
        system = unit_system(units, project.loaded.design.units)
        drawn = Request(paper or "", revisions)
        made = hand_over(project, buying, system, _progress, drawn=drawn)
        write_folder(output, made.files)
    click.echo(f"wrote {len(made.files)} files to {output}", err=True)
    if as_json:
        write_json(made.summary)


def _progress(text: str) -> None:
    click.echo(f"{text} ...", err=True)
