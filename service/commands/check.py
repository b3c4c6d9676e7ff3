"""``check``: everything that is wrong with a kitchen file."""

from pathlib import Path

from planner.kitchen.cautions import cautions_of_kitchen
from planner.kitchen.reading import KitchenErrors, read_kitchen
from service.commands.exits import Exit
from service.commands.inputs import error_lines, read_file
from service.commands.output import say, warn
from web.presenters.counting import counted


def check(path: Path) -> Exit:
    """Report every error of the file, then what a food code may not allow."""
    data = read_file(path)
    try:
        kitchen = read_kitchen(data)
    except KitchenErrors as errors:
        for line in error_lines(errors):
            say(line)
        warn(f"{path}: {counted(len(errors.errors), 'error', 'errors')}.")
        return Exit.BAD_INPUT
    notes = cautions_of_kitchen(kitchen)
    for note in notes:
        warn(f"warning: {note}")
    held = (
        counted(len(kitchen.dishes), "dish", "dishes"),
        counted(len(kitchen.components), "component", "components"),
        counted(len(kitchen.services), "service", "services"),
        counted(len(kitchen.cooks), "cook", "cooks"),
    )
    warnings = counted(len(notes), "warning", "warnings")
    say(f"{path}: no errors. {kitchen.name}: {', '.join(held)}; {warnings}.")
    return Exit.ON_TIME
