"""All quantities of a day: wants flow from dishes through components down to what is pulled."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable

from planner.demand.types import DishDemand
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.flow import Flows
from planner.measures import AsPurchased
from planner.quantities.credits import TrimPool, trim_pool
from planner.quantities.effort import Efforts
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.making import ComponentDay, component_day
from planner.quantities.order import consumers_first
from planner.quantities.pulls import pull_lines
from planner.quantities.supply import Draw, allotments_of, draws_of, in_turn
from planner.quantities.timing import Calendar
from planner.quantities.types import Alert, ComponentNeed, Quantities, Want
from planner.quantities.wants import demands_of, dish_wants
from planner.wording import grams_text, sentence, short_date


def kitchenry(kitchen: Kitchen, date: dt.date) -> Kitchenry:
    """Look-ups for one kitchen on one day."""
    catalog = Catalog(kitchen)
    converter = Converter(kitchen)
    flows = Flows(catalog, converter)
    efforts = Efforts(catalog, converter, flows)
    return Kitchenry(catalog, converter, flows, efforts, Calendar(catalog, date), date)


def quantities_of(kit: Kitchenry) -> tuple[tuple[DishDemand, ...], Quantities]:
    """Demands and quantities of ``kit.date``.

    Worked out twice where by-products may stand in for raw food: once without, to know what trim
    the day leaves, and once with those credits off.
    """
    demands = demands_of(kit.catalog, kit.date)
    days = _flow(kit, demands, TrimPool())
    if any(taken.may_use for c in kit.catalog.kitchen.components for taken in c.inputs):
        needs = [day.need for day in days]
        days = _flow(kit, demands, _trim(kit, all_draws(kit, demands, needs), needs))
    needs = [day.need for day in days if day.need.wants or day.need.makings]
    pulls, alerts = pull_lines(kit, all_draws(kit, demands, needs))
    return demands, Quantities(
        needs=tuple(needs),
        pulls=pulls,
        alerts=(*_no_service(kit, demands), *alerts, *_missed(days), *_expired(kit, days)),
        ahead=_ahead(kit, days),
        by_component={need.component: need for need in needs},
    )


def _trim(kit: Kitchenry, draws: list[Draw], needs: list[ComponentNeed]) -> TrimPool:
    allotted = allotments_of(kit.catalog, kit.converter, draws, kit.date)
    return trim_pool(
        kit.catalog, kit.converter, kit.efforts, kit.calendar, kit.date, needs, allotted
    )


def _flow(kit: Kitchenry, demands: tuple[DishDemand, ...], pool: TrimPool) -> list[ComponentDay]:
    """Consumers first, each passing on to its inputs what it takes of them."""
    wants: dict[str, list[Want]] = defaultdict(list)
    for item, found in dish_wants(kit.catalog, kit.converter, demands).items():
        wants[item] += found
    days: list[ComponentDay] = []
    for component in consumers_first(kit.catalog):
        ordered = sorted(wants[component], key=lambda w: (w.due, w.consumer, w.consumer_name))
        day = component_day(kit, kit.catalog.components[component], ordered, pool)
        days.append(day)
        for item, want in day.input_wants:
            wants[item].append(want)
    return days


def all_draws(
    kit: Kitchenry, demands: tuple[DishDemand, ...], needs: Iterable[ComponentNeed]
) -> list[Draw]:
    """Draws of every making, and of dishes that take an ingredient as it is; first due first."""
    draws = [*draws_of(kit.catalog, needs), *(draw for draw, _ in plated(kit, demands))]
    return in_turn(draws)


def plated(kit: Kitchenry, demands: tuple[DishDemand, ...]) -> list[tuple[Draw, Want]]:
    """What the planned day's dishes take of ingredients as they are, with the want behind each.

    Their draws are numbered from -1 down: no making is behind them.
    """
    wants = [
        (item, want)
        for item, found in dish_wants(kit.catalog, kit.converter, demands).items()
        if item in kit.catalog.ingredients
        for want in found
        if want.day == 0
    ]
    return [
        (Draw(item, want.consumer, -1 - index, 0, AsPurchased(want.grams), want.due), want)
        for index, (item, want) in enumerate(wants)
    ]


def _no_service(kit: Kitchenry, demands: tuple[DishDemand, ...]) -> list[Alert]:
    if any(demand.date == kit.date for demand in demands):
        return []
    dates = sorted({service.date for service in kit.catalog.kitchen.services})
    if len(kit.catalog.kitchen.services) == 1:
        known = sentence("its only service is on {date}", date=short_date(dates[0]))
    elif len(dates) == 1:
        known = sentence("its services are all on {date}", date=short_date(dates[0]))
    else:
        known = sentence(
            "its services are from {date} to {date_2}",
            date=short_date(dates[0]),
            date_2=short_date(dates[-1]),
        )
    text = sentence(
        "The kitchen file has no service on {date}; {known}.",
        date=short_date(kit.date),
        known=known,
    )
    return [Alert("no service", "", text)]


def _missed(days: list[ComponentDay]) -> list[Alert]:
    """One alert for each route of which nothing has been begun.

    What goes into a making that was missed itself is late with it, and is no start of its own;
    part-made food was started, and is on hand.
    """
    late_with = {
        (draw.item, day.need.component, draw.due)
        for day in days
        for making in day.need.makings
        if making.missed
        for draw in making.draws
    }
    found = []
    for day in days:
        item = day.need.component
        missed = [
            making
            for making in day.need.makings
            if making.missed
            and making.first_step == 0
            and (item, making.want.consumer, making.want.due) not in late_with
        ]
        if missed:
            grams = grams_text(sum(making.grams for making in missed))
            text = sentence(
                "{amount} of {need} should have been started on an earlier day and is not on hand.",
                amount=grams,
                need=day.need.name,
            )
            dishes = ((s.service, s.dish) for making in missed for s in making.want.shares)
            held = tuple(dict.fromkeys(making.want.consumer_name for making in missed))
            found.append(Alert("missed start", item, text, held, tuple(dict.fromkeys(dishes))))
    return found


def _expired(kit: Kitchenry, days: list[ComponentDay]) -> list[Alert]:
    found = [
        Alert(
            "use-by",
            stock.item,
            sentence(
                "{amount} of {name} is past its use-by ({date}) and is not counted; discard it "
                "as the local food code says.",
                amount=stock.amount,
                name=kit.catalog.name(stock.item),
                date=short_date(stock.use_by),
            ),
        )
        for day in days
        for stock in day.expired
    ]
    found += [
        Alert(
            "use-by",
            raw.item,
            sentence(
                "{amount} of {name} is past its use-by ({date}) and is not counted; discard it "
                "as the local food code says.",
                amount=raw.amount,
                name=kit.catalog.name(raw.item),
                date=short_date(raw.use_by),
            ),
        )
        for raw in kit.catalog.kitchen.raw_stock
        if raw.use_by is not None and raw.use_by < kit.date
    ]
    return found


def _ahead(kit: Kitchenry, days: list[ComponentDay]) -> tuple[str, ...]:
    """What starts on later days, one line per day, in the order of the names."""
    names: dict[int, set[str]] = defaultdict(set)
    for day in days:
        for start, _ in day.later:
            names[start].add(day.need.name)
    return tuple(
        f"{short_date(kit.date + dt.timedelta(days=start))}: {'; '.join(sorted(found))}."
        for start, found in sorted(names.items())
    )
