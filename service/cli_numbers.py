"""Commands about the kitchen's own numbers: what dishes cost, what guests will order."""

import datetime as dt
from pathlib import Path
from typing import Annotated

import typer

from service.cli_options import Day, KitchenFile, finish


def costs(
    file: KitchenFile,
    date: Annotated[
        dt.datetime | None,
        typer.Option(
            "--date",
            formats=["%Y-%m-%d"],
            metavar="YYYY-MM-DD",
            help="A day of the week that is summed up; default: today in the kitchen's time zone.",
        ),
    ] = None,
    csv_out: Annotated[
        Path | None,
        typer.Option("--csv", metavar="OUT", help="Write the dishes here instead; '-': print."),
    ] = None,
) -> None:
    """What dishes cost, what is thrown away, and what a yield point or a minute is worth."""

    def work() -> int:
        from service.commands.costs import costs as run

        return run(file, date, csv_out)

    finish(work)


def forecast(
    file: KitchenFile,
    sales: Annotated[
        Path,
        typer.Argument(
            metavar="SALES",
            help="Sales history, CSV: date, service, dish, count, maybe ran_out (yes or no); "
            "guests as the dish 'covers'.",
            show_default=False,
        ),
    ],
    date: Day = None,
    country: Annotated[
        str | None, typer.Option("--country", metavar="CC", help="Its public holidays count.")
    ] = None,
    region: Annotated[
        str | None, typer.Option("--region", metavar="RR", help="Those of this part of it, too.")
    ] = None,
    match: Annotated[
        list[str] | None,
        typer.Option(
            "--match", metavar="SERVICE=NAME", help="What the history calls a service of the file."
        ),
    ] = None,
    with_statsmodels: Annotated[
        bool,
        typer.Option("--with-statsmodels", help="Try exponential smoothing too (extra: forecast)."),
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option("--write", metavar="OUT", help="Write a kitchen file with the forecast."),
    ] = None,
) -> None:
    """Forecast a day's covers, menu mix and portions from what was sold."""

    def work() -> int:
        from service.commands.forecast import Asked
        from service.commands.forecast import forecast as run

        return run(file, sales, date, Asked(country, region, match or [], with_statsmodels, out))

    finish(work)
