"""What a kitchen file must hold beyond the shape of its fields, one room per kind of rule."""

from collections.abc import Callable, Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.amounts import check_amounts
from planner.kitchen.checking.buffers import check_buffers
from planner.kitchen.checking.cooling import check_cooling
from planner.kitchen.checking.cycles import check_cycles
from planner.kitchen.checking.days import check_days
from planner.kitchen.checking.exposure import check_exposure
from planner.kitchen.checking.names import check_names
from planner.kitchen.checking.people import check_people
from planner.kitchen.checking.recipes import check_recipes
from planner.kitchen.checking.references import check_references
from planner.kitchen.checking.units import check_units
from planner.kitchen.checking.yields import check_yields
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import FileError

Check = Callable[[Catalog], Iterator[FileError]]

CHECKS: tuple[Check, ...] = (
    check_names,
    check_references,
    check_cycles,
    check_units,
    check_amounts,
    check_recipes,
    check_yields,
    check_buffers,
    check_people,
    check_days,
    check_cooling,
    check_exposure,
)


def check_kitchen(kitchen: Kitchen) -> Iterator[FileError]:
    """Everything wrong with a kitchen whose fields are each well formed.

    A rule that rests on another (the weight of a food that is not known) keeps quiet where that
    other one is broken.
    """
    catalog = Catalog(kitchen)
    for check in CHECKS:
        yield from check(catalog)
