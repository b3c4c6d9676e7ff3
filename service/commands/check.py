"""``check``: everything that is wrong with a kitchen file."""

from pathlib import Path

from planner.kitchen.cautions import cautions_of_kitchen
from planner.kitchen.reading import KitchenErrors, read_kitchen
from service.commands.exits import Exit
from service.commands.inputs import error_lines, read_file
from service.commands.output import say, warn


def check(path: Path) -> Exit:
    """Report every error of the file, then what a food code may not allow."""
    data = read_file(path)
    try:
        kitchen = read_kitchen(data)
    except KitchenErrors as errors:
        for line in error_lines(errors):
            say(line)
        warn(f"{path}: {len(errors.errors)} errors.")
        return Exit.BAD_INPUT
    notes = cautions_of_kitchen(kitchen)
    for note in notes:
        warn(f"warning: {note}")
    say(
        f"{path}: no errors. {kitchen.name}: {len(kitchen.dishes)} dishes, "
        f"{len(kitchen.components)} components, {len(kitchen.services)} services, "
        f"{len(kitchen.cooks)} cooks; {len(notes)} warnings."
    )
    return Exit.ON_TIME
