"""A plan's costs in words and figures: food and hands of each dish and component, side by side."""

from collections.abc import Iterator

from planner.money.types import DayCosts, DishDay
from planner.sheet.types import KitchenSheet
from web.language import _, pgettext
from web.money.view import money
from web.presenters.clock import duration, short_date
from web.presenters.csv_text import csv_text, plain_text
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass
from web.presenters.tables import Table

HEADS = (
    "date",
    "kind",
    "name",
    "service",
    "service_date",
    "portions",
    "grams",
    "food_cost",
    "hands_minutes",
    "hands_cost",
    "total_cost",
    "price",
    "currency",
)


def day_facts(costs: DayCosts) -> tuple[tuple[str, str], ...]:
    """What stands above all."""
    return (
        (_("Food"), _money(sum(one.food for one in costs.dishes))),
        (_("Hands"), _money(costs.labor)),
        (_("Wages"), _money(costs.wages)),
    )


def day_tables(costs: DayCosts, sheet: KitchenSheet, preferences: Preferences) -> tuple[Table, ...]:
    """Dishes, how the wages paid come about, and components."""
    return (
        _dishes(costs, sheet),
        _wages(costs),
        _components(costs, preferences),
    )


def day_csv(sheet: KitchenSheet, costs: DayCosts) -> str:
    """The same in a file: minutes whole, money to the cent; it adds up as the page does."""
    return csv_text(HEADS, ((sheet.date.isoformat(), *row, sheet.currency) for row in _rows(costs)))


def _rows(costs: DayCosts) -> Iterator[tuple[object, ...]]:
    for one in costs.dishes:
        yield (
            "dish" if one.dish else "own stock",
            plain_text(one.dish),
            plain_text(one.service),
            "" if one.date is None else one.date.isoformat(),
            one.portions or "",
            "",
            f"{one.food / 100:.2f}",
            one.minutes,
            f"{one.labor / 100:.2f}",
            f"{one.together / 100:.2f}",
            "" if one.price is None else f"{one.price / 100:.2f}",
        )
    for each in costs.components:
        yield (
            "component",
            plain_text(each.component),
            "",
            "",
            "",
            f"{each.grams:.1f}",
            f"{each.food / 100:.2f}",
            each.minutes,
            f"{each.labor / 100:.2f}",
            f"{(each.food + each.labor) / 100:.2f}",
            "",
        )


def _dishes(costs: DayCosts, sheet: KitchenSheet) -> Table:
    priced = any(one.price for one in costs.dishes)
    heads = [_("Dish"), _("Portions"), _("Food"), _("Minutes"), _("Hands"), _("Together")]
    heads.append(_("One portion"))
    if priced:
        heads.append(_("Food, of the price"))
    rows = [_dish(one, sheet, priced) for one in costs.dishes]
    food = sum(one.food for one in costs.dishes)
    total = [pgettext("sum", "All"), "", _money(food), duration(costs.minutes)]
    total += [_money(costs.labor), _money(food + costs.labor), *([""] * (2 if priced else 1))]
    return Table(
        id="dishes",
        caption=_("By dish"),
        note=_(
            "Food of the portions by the prices and yields of the kitchen file. Hands are this "
            "plan's minutes at the wages of those who work them, with set-up, changeover and "
            "cleaning; of a dish of another day, only what is done today."
        ),
        heads=tuple(heads),
        rows=(*rows, tuple(total)),
        numbers=frozenset(range(1, len(heads))),
        totals=1,
    )


def _dish(one: DishDay, sheet: KitchenSheet, priced: bool) -> tuple[str, ...]:
    each = _money(round(one.together / one.portions)) if one.portions else ""
    cells = [
        _name(one, sheet),
        str(one.portions) if one.portions else "",
        _money(one.food) if one.portions else "",
        duration(one.minutes),
        _money(one.labor),
        _money(one.together),
        each,
    ]
    if priced:
        cells.append("" if one.food_share is None else f"{one.food_share:.0%}".replace("%", " %"))
    return tuple(cells)


def _name(one: DishDay, sheet: KitchenSheet) -> str:
    if not one.dish:
        return _("The kitchen's own stock")
    if one.date is None or one.date == sheet.date:
        return f"{one.dish} ({one.service})"
    return f"{one.dish} ({one.service}, {short_date(one.date)})"


def _components(costs: DayCosts, preferences: Preferences) -> Table:
    rows = [
        (
            one.component,
            mass(one.grams, preferences) if one.grams else "",
            _money(one.food) if one.grams else "",
            duration(one.minutes),
            _money(one.labor),
        )
        for one in costs.components
    ]
    return Table(
        id="components",
        caption=_("By component"),
        note=_(
            "Food of what is finished today. What goes into another component stands with both, so "
            "food is not added up; minutes and hands are each counted once."
        ),
        heads=(_("Component"), _("Finished"), _("Food"), _("Minutes"), _("Hands")),
        rows=(
            *rows,
            (pgettext("sum", "All"), "", "", duration(costs.minutes), _money(costs.labor)),
        ),
        numbers=frozenset({1, 2, 3, 4}),
        totals=1,
    )


def _wages(costs: DayCosts) -> Table:
    left = costs.paid - costs.minutes
    return Table(
        id="paid",
        caption=_("What is paid"),
        heads=(_("Minutes"), _("Time"), _("Wages")),
        rows=(
            (_("Hands on food, as above"), duration(costs.minutes), _money(costs.labor)),
            (
                _("Waiting, breaks, the line, station set-up, and who learns"),
                duration(left),
                _money(costs.wages - costs.labor),
            ),
            (_("Paid"), duration(costs.paid), _money(costs.wages)),
        ),
        numbers=frozenset({1, 2}),
        totals=1,
    )


def _money(hundredths: int) -> str:
    return money(hundredths / 100)
