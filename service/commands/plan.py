"""``plan``: plan one day from a kitchen file, without storing anything."""

import datetime as dt
import threading
from pathlib import Path

from service.commands.display import PlanDisplay
from service.commands.exits import Exit, exit_of
from service.commands.inputs import day_of, usable_kitchen
from service.commands.interrupts import stop_on_interrupt
from service.commands.output import remarks, results, say, warn
from service.commands.summary import summary_lines
from service.errors import UserError
from service.planning import Made, MakePlan
from service.sheet_files import INDEX, write_sheet_files
from service.solving import Order, SolveError, StoppedError, solve
from service.stored_words import STOPPED_EARLY
from service.values import PlanChoices
from service.whole_files import write_whole
from web.language import SOURCE, speaking

STANDARD_OUTPUT = Path("-")


def plan(
    path: Path,
    date: dt.datetime | None,
    choices: PlanChoices,
    make: MakePlan,
    *,
    json_out: Path | None,
    html: Path | None,
    language: str = SOURCE,
) -> Exit:
    """Plan, write what was asked for, the sheets in ``language``, and say how it stands."""
    data, kitchen = usable_kitchen(path)
    order = Order(data, day_of(kitchen, date), choices)
    stop = threading.Event()
    with stop_on_interrupt(stop), PlanDisplay(remarks(), choices) as display:
        try:
            solved = solve(
                order, make, on_first=display.first, on_progress=display.progress, stop=stop
            )
        except StoppedError:
            return Exit.INTERRUPTED
        except SolveError as error:
            if error.refused:
                raise UserError(f"{path}: {error}") from None
            warn(f"{path}: {error}\n{error.details}")
            return Exit.FAILED
    if not solved.finished:
        warn(STOPPED_EARLY)
    with speaking(language):
        _write(solved.made, json_out, html)
    if json_out != STANDARD_OUTPUT:
        for line in summary_lines(solved.made):
            say(line)
    return exit_of(solved.made.plan)


def _write(made: Made, json_out: Path | None, html: Path | None) -> None:
    try:
        if json_out == STANDARD_OUTPUT:
            results().out(made.texts.document)
        elif json_out is not None:
            write_whole(json_out, made.texts.document + "\n")
            warn(f"Plan file: {json_out}")
        if html is not None:
            write_sheet_files(html, made)
            warn(f"Sheets: {(html / INDEX).resolve().as_uri()}")
    except OSError as error:
        raise UserError(
            f"{error.filename}: it cannot be written ({error.strerror}). Name another place."
        ) from None
