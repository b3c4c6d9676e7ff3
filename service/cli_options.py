"""Options that several commands have, and how a command ends."""

import datetime as dt
from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from service.errors import UserError

if TYPE_CHECKING:
    from service.planning import MakePlan

EXIT_CODES = (
    "Exit codes: 0 done, and everything due is made on time; 1 the program failed; 2 a wrong "
    "option, setting or file; 3 something is late; 4 something cannot be made; 130 interrupted "
    "with nothing to keep."
)


class SchemaName(StrEnum):
    """Files whose shape is published."""

    KITCHEN = "kitchen"
    PLAN = "plan"


KitchenFile = Annotated[
    Path, typer.Argument(metavar="FILE", help="A kitchen file.", show_default=False)
]
Day = Annotated[
    dt.datetime | None,
    typer.Option(
        "--date",
        formats=["%Y-%m-%d"],
        metavar="YYYY-MM-DD",
        help="The day to plan; default: today in the kitchen's time zone.",
    ),
]
Seconds = Annotated[
    float | None,
    typer.Option(
        "--seconds",
        metavar="S",
        min=0,
        max=3600,
        help="Longest search in seconds; default: PREPWRIGHT_PLAN_SECONDS.",
    ),
]
DeterministicLimit = Annotated[
    float | None,
    typer.Option(
        "--deterministic-limit",
        metavar="X",
        min=0.001,
        max=10_000,
        help="Longest search in the solver's own time units, in place of --seconds: the same "
        "file, limit and seed give the same plan.",
    ),
]
Seed = Annotated[
    int | None,
    typer.Option(
        "--seed",
        metavar="N",
        min=0,
        max=2**31 - 1,
        help="Seeds the search; default: PREPWRIGHT_SEED.",
    ),
]


def maker(context: typer.Context) -> "MakePlan":
    """What makes plans: handed in by tests, else planner's own."""
    from service.planning import make_plan

    given: Any = context.obj
    return make_plan if given is None else given


def finish(work: Callable[[], int]) -> None:
    """Do the work and end with its code; what the user can mend is said without a traceback."""
    try:
        code = work()
    except UserError as error:
        typer.echo(str(error), err=True)
        code = 2
    except KeyboardInterrupt:
        code = 130
    raise typer.Exit(int(code))
