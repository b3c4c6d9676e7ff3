"""A kitchen with one more of a place or vessel, planned from its lots on."""

from planner.batches import plan_batches
from planner.kitchen.document import Kitchen
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.kitchenry import Kitchenry
from planner.schedule.search import SearchOptions
from planner.troubles.left import Left, left
from planner.troubles.plated import Plated


def with_one_more(kitchen: Kitchen, resource: str) -> Kitchen:
    """The kitchen with one more of a resource of the scheduling problem."""
    kind, _, name = resource.partition(":")
    if kind == "station":
        stations = [
            one.model_copy(update={"places": one.places + 1}) if one.id == name else one
            for one in kitchen.stations
        ]
        return kitchen.model_copy(update={"stations": stations})
    equipment = [
        one.model_copy(update={"count": one.count + 1}) if one.id == name else one
        for one in kitchen.equipment
    ]
    return kitchen.model_copy(update={"equipment": equipment})


def left_with_one_more(
    kit: Kitchenry, resource: str, plated: Plated, options: SearchOptions
) -> Left:
    """What is left short and late: lots may be larger where a vessel bounds them."""
    wider = kitchenry(with_one_more(kit.catalog.kitchen, resource), kit.date)
    demands, quantities = quantities_of(wider)
    workload, solution = plan_batches(wider, demands, quantities, options)
    return left(workload.problem, solution.timetable, plated)
