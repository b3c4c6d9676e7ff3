"""Dishes short or late for want of food that they take as it is, with nothing to prepare."""

import math
from collections.abc import Iterator
from dataclasses import replace

from planner.demand.types import DishDemand
from planner.lots.types import Workload
from planner.plan import Remedy, Trouble
from planner.quantities.compute import all_draws, plated
from planner.quantities.making import Kitchenry
from planner.quantities.supply import allotments_of
from planner.quantities.types import Quantities, Want
from planner.troubles.naming import Naming


def plated_troubles(
    kit: Kitchenry,
    demands: tuple[DishDemand, ...],
    quantities: Quantities,
    workload: Workload,
) -> tuple[Trouble, ...]:
    """What nobody has is short, in portions; what a delivery brings after it is due is late.

    No lot is made of such food, so no schedule can say it.
    """
    naming = Naming(kit, workload, quantities.pulls)
    draws = all_draws(kit, demands, quantities.needs)
    allotted = allotments_of(kit.catalog, kit.converter, draws, kit.date)
    found: list[Trouble] = []
    for draw, want in plated(kit, demands):
        parts = allotted.get(draw.key, ())
        missing = sum(
            part.end - part.begin
            for part in parts
            if not part.supply.available or part.supply.at >= want.until
        )
        found += _short(naming, draw.ingredient, want, missing)
        comes = [p.supply.at for p in parts if p.supply.available and p.supply.at < want.until]
        late = max(comes, default=0) - want.due
        if late > 0:
            found.append(_late(naming, draw.ingredient, want, late))
    return tuple(found)


def beside(remedies: tuple[Remedy, ...], plated: tuple[Trouble, ...]) -> tuple[Remedy, ...]:
    """What ``remedies`` leave, with what no schedule can change counted in."""
    short = sum(one.portions for one in plated if one.kind == "short")
    late = sum(one.minutes for one in plated if one.kind == "late")
    return tuple(
        replace(
            one,
            short_portions=one.short_portions + short,
            short_portions_before=one.short_portions_before + short,
            late_minutes=one.late_minutes + late,
            late_minutes_before=one.late_minutes_before + late,
            solves=one.solves and not plated,
        )
        for one in remedies
    )


def _short(naming: Naming, item: str, want: Want, missing: float) -> Iterator[Trouble]:
    for share in want.shares:
        portions = math.ceil(share.portions * missing - 1e-6)
        if portions > 0:
            count = f"{portions} portion{'' if portions == 1 else 's'} short"
            dish = naming.promise(f"{share.service}:{share.dish}")
            text = f"{dish}: {count}, for want of {naming.raw_food(item)}"
            yield Trouble("short", item, text, 0, portions, naming.lack(item), "food")


def _late(naming: Naming, item: str, want: Want, minutes: int) -> Trouble:
    dishes = " and ".join(naming.promise(f"{s.service}:{s.dish}") for s in want.shares)
    text = (
        f"{naming.raw_food(item)}, to be ready by {naming.clock(want.due)} for {dishes}, is "
        f"{minutes} min late"
    )
    portions = sum(share.portions for share in want.shares)
    binding = f"its delivery comes at {naming.clock(want.due + minutes)}"
    return Trouble("late", item, text, minutes, portions, binding, "food")
