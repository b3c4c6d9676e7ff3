"""Dishes short or late for want of food that they take as it is, with nothing to prepare."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.demand.types import DishDemand
from planner.lots.lacking import Shared
from planner.lots.types import Workload
from planner.plan import Trouble
from planner.quantities.compute import plated
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities, Want
from planner.troubles.naming import Naming
from planner.wording import sentence


@dataclass(frozen=True, slots=True)
class Lack:
    """Portions of a dish at a service that lack an ingredient which it takes as it is.

    ``promise`` is ``service:dish``, as in the scheduling problem; ``too_late`` are the portions
    that a delivery comes too late for, which buying more does not change.
    """

    promise: str
    item: str
    portions: int
    too_late: int
    weight: int = 1
    """How much a portion of the dish matters."""


@dataclass(frozen=True, slots=True)
class Plated:
    """What no schedule can change: no lot is made of such food."""

    lacks: tuple[Lack, ...] = ()
    late: tuple[Trouble, ...] = ()

    def bought(self) -> "Plated":
        """What is left where all that nobody has is got."""
        found = (replace(one, portions=one.too_late) for one in self.lacks)
        return Plated(tuple(one for one in found if one.portions), self.late)


def plated_wants(
    kit: Kitchenry,
    demands: tuple[DishDemand, ...],
    quantities: Quantities,
    workload: Workload,
    food: Shared,
) -> Plated:
    """What nobody has is lacking, in portions; what a delivery brings after it is due is late.

    ``food`` is how raw food was shared out.
    """
    naming = Naming(kit, workload, quantities.pulls)
    lacks: list[Lack] = []
    late: list[Trouble] = []
    for draw, want in plated(kit, demands):
        parts = food.allotted.get(draw.key, ())
        usable = [part for part in parts if part.supply.available]
        after = sum(part.end - part.begin for part in usable if part.supply.at >= want.until)
        nobody = sum(part.end - part.begin for part in parts if not part.supply.available)
        weight = kit.catalog.dishes[want.consumer].weight
        lacks += _lacks(draw.ingredient, want, (nobody + after, after), weight)
        comes = [part.supply.at for part in usable if part.supply.at < want.until]
        minutes = max(comes, default=0) - want.due
        if minutes > 0:
            late.append(_late(naming, draw.ingredient, want, minutes))
    return Plated(tuple(lacks), tuple(late))


def _lacks(item: str, want: Want, missing: tuple[float, float], weight: int) -> Iterator[Lack]:
    """``missing`` are the fraction that nobody has in time, and of that what comes too late."""
    for share in want.shares:
        portions, after = (math.ceil(share.portions * part - 1e-6) for part in missing)
        if portions > 0:
            yield Lack(f"{share.service}:{share.dish}", item, portions, after, weight)


def _late(naming: Naming, item: str, want: Want, minutes: int) -> Trouble:
    dishes = " and ".join(naming.promise(f"{s.service}:{s.dish}") for s in want.shares)
    text = sentence(
        "{what}, to be ready by {at} for {services}, is {n} min late",
        what=naming.raw_food(item),
        at=naming.clock(want.due),
        services=dishes,
        n=minutes,
    )
    portions = sum(share.portions for share in want.shares)
    binding = sentence("its delivery comes at {at}", at=naming.clock(want.due + minutes))
    return Trouble("late", item, text, minutes, portions, binding, "food")
