"""What dishes want of components and ingredients, one joint buffer per service included."""

import datetime as dt
import math
from collections import defaultdict
from dataclasses import dataclass

from planner.demand.forecast import dish_demands, joint_grams
from planner.demand.types import DishDemand
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.foods import Portion
from planner.kitchen.hours import DAY
from planner.quantities.types import Reason, Share, Want
from planner.units import standard_unit


@dataclass(frozen=True, slots=True)
class _Line:
    demand: DishDemand
    portion: Portion
    grams: float
    """Grams of one portion."""


def demands_of(catalog: Catalog, date: dt.date) -> tuple[DishDemand, ...]:
    """Demands of the planned day and of the days the kitchen looks ahead."""
    ahead = dt.timedelta(days=catalog.kitchen.rules.lookahead_days)
    return dish_demands(catalog.kitchen, date, date + ahead)


def dish_wants(
    catalog: Catalog, converter: Converter, demands: tuple[DishDemand, ...]
) -> dict[str, list[Want]]:
    """Wants by item id. An item in several dishes of a service gets one joint buffer.

    Dishes' own buffers are for each dish to be safe by itself; an item they share is safe with
    less, since not all of them sell above expectation on one day. Food that keeps to another day
    may have a level of its own: what is left of it is no loss yet.
    """
    lines: dict[tuple[str, str], list[_Line]] = defaultdict(list)
    for demand in demands:
        for portion in catalog.dishes[demand.dish].components:
            grams = converter.grams(portion.item, portion.amount)
            lines[portion.item, demand.service].append(_Line(demand, portion, grams))
    wants: dict[str, list[Want]] = defaultdict(list)
    for (item, service), group in lines.items():
        separate = sum(line.grams * line.demand.total for line in group)
        if separate <= 0:
            continue
        per_portion: dict[str, float] = defaultdict(float)
        for line in group:
            per_portion[line.demand.dish] += line.grams
        joint = separate
        if len(per_portion) > 1:
            joint = joint_grams(catalog.kitchen, catalog.services[service], per_portion)
            # Whatever else sells, the dearest of the dishes is covered for its own total.
            joint = max(joint, *(line.grams * line.demand.total for line in group))
        if has_own_level(catalog, item):
            kept = catalog.kitchen.rules.kept_level
            more = joint_grams(catalog.kitchen, catalog.services[service], per_portion, kept)
            joint = max(joint, more)
        joint = _whole_pieces(group, joint)
        wants[item] += [_want(line, joint / separate) for line in group if line.demand.total]
    return wants


def has_own_level(catalog: Catalog, item: str) -> bool:
    """Whether it is food that keeps beyond the day it is made, and the kitchen has a level for it.

    What is left of such food is no loss yet.
    """
    component = catalog.components.get(item)
    if component is None or component.shelf_life_days < 2:
        return False
    return catalog.kitchen.rules.kept_level is not None


def _whole_pieces(group: list[_Line], grams: float) -> float:
    """Round up to whole pieces where the dishes count them (eggs, portions of fish)."""
    units = {line.portion.amount.unit for line in group}
    if len(units) != 1 or standard_unit(units.pop()) is not None:
        return grams
    piece = group[0].grams / group[0].portion.amount.number
    return math.ceil(grams / piece - 1e-9) * piece if piece > 0 else grams


def _want(line: _Line, factor: float) -> Want:
    demand = line.demand
    total = line.grams * demand.total * factor
    expected = min(line.grams * demand.expected, total)
    return Want(
        reason=Reason.DISH,
        consumer=demand.dish,
        consumer_name=f"{demand.dish_name}, {demand.service_name}",
        grams=total,
        expected=expected,
        buffer=total - expected,
        due=demand.due,
        until=demand.until,
        doors=demand.doors,
        day=demand.doors // DAY,
        lateness_weight=demand.lateness_weight,
        shares=(Share(demand.service, demand.dish, demand.total, total),),
    )
