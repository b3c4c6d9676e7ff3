"""A plan's money: food by the file, hands by the plan, side by side for each dish and component."""

from collections import defaultdict
from collections.abc import Mapping

from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.money.food import FoodCost, costing, food_costs, plate_lines
from planner.money.labor import OWN, HandsPaid, LaborCosts, labor_costs
from planner.money.types import ComponentDay, DayCosts, DishDay
from planner.plan import Plan
from planner.quantities.kitchenry import Kitchenry

_NONE = HandsPaid(0, 0)


def day_costs(kitchen: Kitchen, plan: Plan) -> DayCosts:
    """What the dishes and components of a plan cost.

    ``kitchen`` must be the one the plan was made from.
    """
    kit = costing(kitchen, plan.date)
    foods, labor = food_costs(kit), labor_costs(plan)
    return DayCosts(
        dishes=_dishes(kit, plan, foods, labor),
        components=_components(kit, plan, foods, labor),
        minutes=labor.total.minutes,
        labor=labor.total.cents,
        paid=sum(one.paid for one in plan.labor.cooks),
        wages=sum(round(one.wages * 100) for one in plan.labor.cooks),
    )


def _dishes(
    kit: Kitchenry, plan: Plan, foods: Mapping[str, FoodCost], labor: LaborCosts
) -> tuple[DishDay, ...]:
    """Dishes in the order of their services; last, what no guest ordered."""
    left = dict(labor.by_dish)
    found = []
    for demand in sorted(plan.demands, key=lambda one: (one.doors, one.service, one.dish)):
        hands = left.pop((demand.service, demand.dish), _NONE)
        if hands.minutes or demand.date == plan.date:
            found.append(_dish(kit, demand, foods, hands))
    own = left.pop((OWN, OWN), _NONE)
    # Of a service that is struck out by now, what was worked for it is nobody's.
    minutes = own.minutes + sum(one.minutes for one in left.values())
    cents = own.cents + sum(one.cents for one in left.values())
    if minutes or cents:
        found.append(DishDay(OWN, OWN, None, 0, 0, minutes, cents))
    return tuple(found)


def _dish(
    kit: Kitchenry, demand: DishDemand, foods: Mapping[str, FoodCost], hands: HandsPaid
) -> DishDay:
    dish = kit.catalog.dishes[demand.dish]
    plate = sum(line.cost for line in plate_lines(kit, dish, foods))
    return DishDay(
        dish=demand.dish_name,
        service=demand.service_name,
        date=demand.date,
        portions=demand.total,
        food=round(plate * demand.total * 100),
        minutes=hands.minutes,
        labor=hands.cents,
        price=None if dish.price is None else round(dish.price * 100),
    )


def _components(
    kit: Kitchenry, plan: Plan, foods: Mapping[str, FoodCost], labor: LaborCosts
) -> tuple[ComponentDay, ...]:
    """Components that are worked on, dearest in hands first."""
    made: defaultdict[str, float] = defaultdict(float)
    done = {item.task for item in plan.solution.timetable.assignments}
    for lot in plan.workload.lots:
        if lot.finishes and all(task.task in done for task in lot.tasks):
            for share in lot.shares:
                made[share.component] += share.grams
    found = [
        ComponentDay(
            component=kit.catalog.name(name),
            grams=made[name],
            food=round(made[name] * foods[name].per_gram * 100),
            minutes=hands.minutes,
            labor=hands.cents,
        )
        for name, hands in labor.by_component.items()
    ]
    return tuple(sorted(found, key=lambda one: (-one.labor, one.component)))
