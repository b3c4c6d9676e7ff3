"""The command line: names, options and help. The work is in ``service.commands``, loaded when it is
asked for, so that help comes at once.
"""

import datetime as dt
from importlib.metadata import version
from pathlib import Path
from typing import Annotated

import typer

from service.cli_numbers import costs, forecast, sales_app
from service.cli_options import (
    EXIT_CODES,
    Day,
    DeterministicLimit,
    KitchenFile,
    SchemaName,
    Seconds,
    Seed,
    finish,
    maker,
)

app = typer.Typer(
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    add_completion=False,
    help="From forecast covers and recipes to a timed prep sheet for every cook.",
    epilog=EXIT_CODES,
)


@app.callback(invoke_without_command=True)
def _top(
    show_version: Annotated[
        bool, typer.Option("--version", is_eager=True, help="Show the version and stop.")
    ] = False,
) -> None:
    if show_version:
        typer.echo(f"prepwright {version('prepwright')}")
        raise typer.Exit


@app.command(epilog=EXIT_CODES)
def demo(
    context: typer.Context,
    once: Annotated[
        bool, typer.Option("--once", help="Plan, write the sheets, sum up, and stop.")
    ] = False,
    date: Day = None,
    seconds: Seconds = None,
    with_past: Annotated[
        int,
        typer.Option(
            "--with-past",
            metavar="DAYS",
            min=0,
            max=60,
            help="Invent so many past days first, planned and ticked, for the manager's pages; "
            "some seconds each.",
        ),
    ] = 0,
) -> None:
    """Plan the bundled kitchen for today, write its sheets and serve them until Ctrl-C."""

    def work() -> int:
        from service.commands.demo import demo as run
        from service.settings import load_settings

        return run(load_settings(), date, seconds, maker(context), once=once, past=with_past)

    finish(work)


@app.command()
def check(file: KitchenFile) -> None:
    """Report everything that is wrong with a kitchen file, and what a food code may not allow."""

    def work() -> int:
        from service.commands.check import check as run

        return run(file)

    finish(work)


@app.command(epilog=EXIT_CODES)
def plan(
    context: typer.Context,
    file: KitchenFile,
    date: Day = None,
    json_out: Annotated[
        Path | None,
        typer.Option("--json", metavar="OUT", help="Write the plan file here; '-': print it."),
    ] = None,
    seconds: Seconds = None,
    deterministic_limit: DeterministicLimit = None,
    seed: Seed = None,
    html: Annotated[
        Path | None,
        typer.Option("--html", metavar="DIR", help="Write the sheets into this folder."),
    ] = None,
) -> None:
    """Plan one day from a kitchen file. Ctrl-C ends the search and keeps what it has found."""

    def work() -> int:
        from service.commands.inputs import choices_of
        from service.commands.plan import plan as run
        from service.settings import load_settings

        settings = load_settings()
        choices = choices_of(settings, seconds, deterministic_limit, seed)
        return run(
            file,
            date,
            choices,
            maker(context),
            json_out=json_out,
            html=html,
            language=settings.language,
        )

    finish(work)


@app.command()
def why(
    context: typer.Context,
    file: KitchenFile,
    component: Annotated[
        str, typer.Argument(help="Id of a component or ingredient.", show_default=False)
    ],
    date: Day = None,
) -> None:
    """Explain a quantity: from the guests, through buffers and yields, down to the shelf."""

    def work() -> int:
        from service.commands.inputs import choices_of
        from service.commands.why import explain
        from service.settings import load_settings

        return explain(file, component, date, choices_of(load_settings()), maker(context))

    finish(work)


@app.command(epilog=EXIT_CODES)
def replan(
    file: KitchenFile,
    plan_file: Annotated[
        Path,
        typer.Option("--plan", metavar="PLAN", help="The plan file that was being followed."),
    ],
    now: Annotated[str, typer.Option("--now", metavar="HH:MM", help="What time it is.")],
    date: Annotated[
        dt.datetime | None,
        typer.Option(
            "--date",
            formats=["%Y-%m-%d"],
            metavar="YYYY-MM-DD",
            help="The day of the plan file; a check, if given.",
        ),
    ] = None,
    cook_gone: Annotated[
        list[str] | None, typer.Option("--cook-gone", metavar="ID", help="Leaves now.")
    ] = None,
    cook_late: Annotated[
        list[str] | None,
        typer.Option("--cook-late", metavar="ID=HH:MM", help="Has not been in, and comes then."),
    ] = None,
    overran: Annotated[
        list[str] | None,
        typer.Option("--overran", metavar="BATCH=HH:MM", help="Begun, and done then only."),
    ] = None,
    equipment_down: Annotated[
        list[str] | None,
        typer.Option("--equipment-down", metavar="ID[=UNITS]", help="Out of use from now on."),
    ] = None,
    covers: Annotated[
        list[str] | None,
        typer.Option("--covers", metavar="SERVICE=N", help="A service expects so many now."),
    ] = None,
    delivery_late: Annotated[
        list[str] | None,
        typer.Option(
            "--delivery-late",
            metavar="ITEM=HH:MM|never",
            help="Today's deliveries of an ingredient come then, or not at all.",
        ),
    ] = None,
    spoiled: Annotated[
        list[str] | None,
        typer.Option("--spoiled", metavar="BATCH", help="What it gave is discarded."),
    ] = None,
    json_out: Annotated[
        Path | None,
        typer.Option("--json", metavar="OUT", help="Write the replan file here; '-': print it."),
    ] = None,
    seconds: Annotated[
        float,
        typer.Option("--seconds", metavar="S", min=0, max=3600, help="Longest search in seconds."),
    ] = 2.0,
) -> None:
    """Plan the rest of a day anew after something has happened, changing as little as possible.

    Options for events may be given several times. A BATCH is the id of a lot in the plan file.
    """

    def work() -> int:
        from service.commands.event_options import EventOptions
        from service.commands.inputs import choices_of
        from service.commands.replan import replan as run
        from service.settings import load_settings

        events = EventOptions(
            cook_gone=tuple(cook_gone or ()),
            cook_late=tuple(cook_late or ()),
            overran=tuple(overran or ()),
            equipment_down=tuple(equipment_down or ()),
            covers=tuple(covers or ()),
            delivery_late=tuple(delivery_late or ()),
            spoiled=tuple(spoiled or ()),
        )
        choices = choices_of(load_settings(), seconds)
        return run(file, plan_file, date, now, events, choices, json_out=json_out)

    finish(work)


@app.command()
def explain(
    context: typer.Context,
    file: KitchenFile,
    date: Day = None,
    batch: Annotated[
        int | None,
        typer.Option(
            "--batch", metavar="N", min=1, help="Why batch N is when it is, and with that cook."
        ),
    ] = None,
    plan_file: Annotated[
        Path | None,
        typer.Option(
            "--plan",
            metavar="PLAN",
            help="About the plan in this plan file, made from FILE; default: plan the day first.",
        ),
    ] = None,
    late: Annotated[
        bool, typer.Option("--late", help="How each late item came about; the default.")
    ] = False,
    scarce: Annotated[
        bool,
        typer.Option("--scarce", help="What more of each thing that binds would bring."),
    ] = False,
    seconds: Seconds = None,
    deterministic_limit: DeterministicLimit = None,
    seed: Seed = None,
    tries: Annotated[
        float,
        typer.Option(
            "--tries",
            metavar="S",
            min=0,
            max=600,
            help="Seconds for each change that is tried; 0: with --batch, none is.",
        ),
    ] = 2.0,
    budget: Annotated[
        float,
        typer.Option(
            "--budget", metavar="S", min=0, max=3600, help="Seconds for all changes of --scarce."
        ),
    ] = 60.0,
) -> None:
    """Explain the schedule: why then, why this cook, why late, and what would be worth having."""

    def work() -> int:
        from service.commands.explain import Questions
        from service.commands.explain import explain as run
        from service.commands.inputs import choices_of
        from service.settings import load_settings

        ask = Questions(batch, late, scarce, tries, budget)
        choices = choices_of(load_settings(), seconds, deterministic_limit, seed)
        return run(file, date, choices, maker(context), ask, plan_file=plan_file)

    finish(work)


@app.command()
def compare(
    file: KitchenFile,
    date: Day = None,
    without: Annotated[
        list[str] | None,
        typer.Option("--without", metavar="COOK", help="This cook is out; may be repeated."),
    ] = None,
    covers: Annotated[
        list[str] | None,
        typer.Option(
            "--covers",
            metavar="[SERVICE=]N",
            help="Other covers: '+20%', '-10%' or '120', of all services of the day or of one.",
        ),
    ] = None,
    equipment: Annotated[
        list[str] | None,
        typer.Option("--equipment", metavar="ID=N", help="So many of a kind of equipment."),
    ] = None,
    places: Annotated[
        list[str] | None,
        typer.Option("--places", metavar="STATION=N", help="Room for so many at a station."),
    ] = None,
    shift: Annotated[
        list[str] | None,
        typer.Option(
            "--shift",
            metavar="COOK=WHEN",
            help="'-30' minutes, '+60', or '07:00-15:00'; 'all=-30' moves everybody's.",
        ),
    ] = None,
    json_out: Annotated[
        Path | None,
        typer.Option("--json", metavar="OUT", help="Write it as JSON here; '-': print it."),
    ] = None,
    seconds: Seconds = None,
    deterministic_limit: DeterministicLimit = None,
    seed: Seed = None,
) -> None:
    """Plan a day as it is and with changes, side by side. Nothing is stored."""

    def work() -> int:
        from service.commands.changes import Wanted
        from service.commands.compare import compare as run
        from service.commands.inputs import choices_of
        from service.settings import load_settings

        wanted = Wanted(
            without=tuple(without or ()),
            covers=tuple(covers or ()),
            equipment=tuple(equipment or ()),
            places=tuple(places or ()),
            shift=tuple(shift or ()),
        )
        choices = choices_of(load_settings(), seconds, deterministic_limit, seed)
        return run(file, date, choices, wanted, json_out=json_out)

    finish(work)


app.command()(costs)
app.command()(forecast)
app.add_typer(sales_app, name="sales")


@app.command()
def serve(context: typer.Context) -> None:
    """Serve the pages and the API at PREPWRIGHT_HOST and PREPWRIGHT_PORT until Ctrl-C."""

    def work() -> int:
        from service.commands.serve import serve as run
        from service.settings import load_settings

        return run(load_settings(), maker(context))

    finish(work)


@app.command()
def schema(
    name: Annotated[SchemaName, typer.Argument(help="Which file's.", show_default=False)],
) -> None:
    """Print the JSON Schema of the kitchen file or the plan file."""

    def work() -> int:
        from planner.kitchen.schema import schema_text as kitchen_schema
        from planner.plan_file.schema import schema_text as plan_schema

        text = {SchemaName.KITCHEN: kitchen_schema, SchemaName.PLAN: plan_schema}[name]
        typer.echo(text(), nl=False)
        return 0

    finish(work)


def main() -> None:
    """Run the command line."""
    app()


if __name__ == "__main__":
    main()
