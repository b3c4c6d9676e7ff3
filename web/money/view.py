"""Costs in words and figures: dishes, waste, and what a yield point or a minute is worth."""

from dataclasses import dataclass

from planner.kitchen.work import Per
from planner.money.report import KitchenCosts
from planner.money.standard import DishCost
from planner.money.worth import MinuteWorth
from web.language import _
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, number
from web.presenters.tables import Table

_SHOWN = 10
"""Lines of a list of what is worth most: the rest is worth less than reading it."""


@dataclass(frozen=True, slots=True)
class LineView:
    """A food on a plate."""

    name: str
    mass: str
    cost: str


@dataclass(frozen=True, slots=True)
class DishView:
    """A dish: what one portion costs, and of what."""

    name: str
    food: str
    minutes: str
    hands: str
    total: str
    portions: str
    """Expected in the week; empty: none."""
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True)
class CostsView:
    """The page."""

    facts: tuple[tuple[str, str], ...]
    dishes: tuple[DishView, ...]
    tables: tuple[Table, ...]


def costs_view(costs: KitchenCosts, preferences: Preferences) -> CostsView:
    """All of a kitchen's costs; dishes by what a portion costs, dearest first."""
    dishes = sorted(costs.dishes, key=lambda one: -one.total)
    return CostsView(
        facts=_facts(costs),
        dishes=tuple(_dish(one, costs, preferences) for one in dishes),
        tables=tuple(
            table
            for table in (_waste(costs, preferences), _points(costs), _minutes(costs))
            if table.rows
        ),
    )


def money(value: float) -> str:
    """An amount in the kitchen's money: ``1,234.50``."""
    return f"{value:,.2f}"


def _facts(costs: KitchenCosts) -> tuple[tuple[str, str], ...]:
    if not costs.portions:
        return ((_("Week from %(date)s", date=long_date(costs.week)), _("no services")),)
    return (
        (_("Food of the week"), money(costs.food_of_week)),
        (_("Hands of the week"), money(costs.hands_of_week)),
        (_("Thrown away"), money(sum(one.cost for one in costs.waste))),
    )


def _dish(dish: DishCost, costs: KitchenCosts, preferences: Preferences) -> DishView:
    portions = costs.portions.get(dish.dish, 0.0)
    return DishView(
        name=dish.name,
        food=money(dish.food),
        minutes=number(dish.hands.minutes, 1),
        hands=money(dish.hands.cost),
        total=money(dish.total),
        portions=number(portions, 0) if portions else "",
        lines=tuple(
            LineView(line.name, mass(line.grams, preferences), money(line.cost))
            for line in sorted(dish.lines, key=lambda line: -line.cost)
        ),
    )


def _waste(costs: KitchenCosts, preferences: Preferences) -> Table:
    return Table(
        id="waste",
        caption=_("What is thrown away"),
        note=_(
            "Trim of no use, by the yields in the kitchen file, at the price as purchased. What is "
            "kept goes to other food and is not thrown away."
        ),
        heads=(_("Ingredient"), _("Thrown away"), _("Kept"), _("Cost in the week")),
        rows=tuple(
            (
                one.name,
                mass(one.grams, preferences),
                mass(one.kept, preferences) if one.kept else "",
                money(one.cost),
            )
            for one in costs.waste[:_SHOWN]
        ),
        numbers=frozenset({1, 2, 3}),
    )


def _points(costs: KitchenCosts) -> Table:
    return Table(
        id="points",
        caption=_("What a yield point is worth"),
        note=_("If a step's yield were one percent point higher, so much less would be bought."),
        heads=(_("Component"), _("Operation"), _("Yield now"), _("Saved in a week")),
        rows=tuple(
            (one.name, one.operation, f"{one.fraction * 100:.0f} %", money(one.saved))
            for one in costs.points[:_SHOWN]
        ),
        numbers=frozenset({2, 3}),
    )


def _minutes(costs: KitchenCosts) -> Table:
    return Table(
        id="minutes",
        caption=_("What a minute is worth"),
        note=_(
            "If the work took one minute less for each kilo, litre or piece (or no time, where it "
            "takes less than one), so much less would be worked, at the mean wage of those who can."
        ),
        heads=(_("Operation"), _("Food"), _("Minutes now"), _("In a week"), _("Saved in a week")),
        rows=tuple(
            (
                one.operation,
                one.food,
                _per(one),
                _("%(minutes)s min", minutes=number(one.minutes, 0)),
                money(one.saved),
            )
            for one in costs.minutes[:_SHOWN]
        ),
        numbers=frozenset({2, 3, 4}),
    )


def _per(one: MinuteWorth) -> str:
    """``4.5 per kg``, ``3 per piece``."""
    minutes = number(one.rate, 2)
    if one.per == Per.EACH:
        return _("%(minutes)s per piece", minutes=minutes)
    return _("%(minutes)s per %(unit)s", minutes=minutes, unit=one.per)
