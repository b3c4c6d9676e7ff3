"""Commands about the kitchen's own numbers: what dishes cost, what guests will order."""

import datetime as dt
from pathlib import Path
from typing import Annotated

import typer

from service.cli_options import Day, KitchenFile, finish
from service.sales_choices import Differ

sales_app = typer.Typer(no_args_is_help=True, help="Keep what was sold, which forecasts need.")

KitchenSlug = Annotated[
    str,
    typer.Argument(
        metavar="KITCHEN",
        help="A stored kitchen, by its name in addresses.",
        show_default=False,
    ),
]


@sales_app.command("import")
def sales_import(
    kitchen: KitchenSlug,
    sales: Annotated[
        Path,
        typer.Argument(
            metavar="SALES",
            help="CSV: date, service, dish, count, ran_out if known; guests as the dish 'covers'.",
            show_default=False,
        ),
    ],
    service: Annotated[
        list[str] | None,
        typer.Option("--service", metavar="NAME=NAME", help="Which service the file calls NAME."),
    ] = None,
    dish: Annotated[
        list[str] | None,
        typer.Option(
            "--dish",
            metavar="NAME=ID",
            help="Which dish the file calls NAME; NAME=NAME: keep it, it is no longer made.",
        ),
    ] = None,
    leave_out: Annotated[
        list[str] | None,
        typer.Option("--leave-out", metavar="NAME", help="A service or dish that is not kept."),
    ] = None,
    differing: Annotated[
        Differ,
        typer.Option(help="What to do with counts other than those kept."),
    ] = Differ.ASK,
) -> None:
    """Keep a file of sales, wholly or not at all; the same file twice changes nothing."""

    def work() -> int:
        from service.commands.sales import SalesOptions, import_sales
        from service.settings import load_settings

        options = SalesOptions(service or (), dish or (), leave_out or (), differing)
        return import_sales(load_settings(), kitchen, sales, options)

    finish(work)


@sales_app.command("back")
def sales_back(
    kitchen: KitchenSlug,
    entry: Annotated[int, typer.Argument(metavar="N", min=1, help="Number of the entry.")],
) -> None:
    """Bring again what stood before an entry of the history."""

    def work() -> int:
        from service.commands.sales import put_back
        from service.settings import load_settings

        return put_back(load_settings(), kitchen, entry)

    finish(work)


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
