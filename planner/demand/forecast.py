"""What the services of a stretch of days ask for, dish by dish."""

import datetime as dt
from collections.abc import Mapping

from planner.demand.portions import (
    Agreed,
    AtCosts,
    AtLevel,
    BufferRule,
    Covers,
    Draw,
    Flat,
    Portions,
    joint_quantile,
    portions_to_prepare,
)
from planner.demand.types import DishDemand
from planner.kitchen.base import clock_minutes
from planner.kitchen.day import MixLine, Service
from planner.kitchen.document import Kitchen, Rules
from planner.kitchen.foods import Dish
from planner.wording import sentence

_DAY = 1440


def dish_demands(kitchen: Kitchen, date_from: dt.date, date_to: dt.date) -> tuple[DishDemand, ...]:
    """Portions of every dish at the services dated ``date_from`` to ``date_to``, both included.

    Times are minutes after midnight of ``date_from``. In order of opening, then of the menu mix.
    """
    dishes = {dish.id: dish for dish in kitchen.dishes}
    services = sorted(
        (service for service in kitchen.services if date_from <= service.date <= date_to),
        key=lambda service: (service.date, clock_minutes(service.opens)),
    )
    return tuple(
        _demand(service, line, dishes[line.dish], kitchen.rules, date_from)
        for service in services
        for line in service.mix
    )


def joint_grams(
    kitchen: Kitchen,
    service: Service,
    portion_grams: Mapping[str, float],
    least: float | None = None,
) -> float:
    """Grams of one component that the dishes of ``service`` take together, buffer included once.

    ``least`` is a level that dishes have at least, where theirs is set by a level or by costs.
    ``portion_grams`` gives grams per portion by dish id; dishes not on the service's menu count
    for nothing. Flat and agreed buffers hold no chance to share, so there the totals add up.
    Where dishes aim at different levels the highest holds.
    """
    dishes = {dish.id: dish for dish in kitchen.dishes}
    covers = covers_of(service, kitchen.rules)
    draws: list[Draw] = []
    levels: list[float] = []
    for line in service.mix:
        grams = portion_grams.get(line.dish, 0.0)
        if grams == 0:
            continue
        rule = _no_lower(buffer_rule(service, dishes[line.dish], kitchen.rules), least)
        total = portions_to_prepare(covers, line.per_cover, rule).total
        draws.append(Draw(grams, line.per_cover, total))
        match rule:
            case AtLevel(level):
                levels.append(level)
            case AtCosts():
                levels.append(rule.ratio)
    if not levels or max(levels) <= 0:
        return sum(draw.grams * draw.total for draw in draws)
    return joint_quantile(covers, draws, max(levels))


def _no_lower(rule: BufferRule, least: float | None) -> BufferRule:
    own = rule.level if isinstance(rule, AtLevel) else None
    own = rule.ratio if isinstance(rule, AtCosts) else own
    return rule if own is None or least is None or own >= least else AtLevel(least)


def covers_of(service: Service, rules: Rules) -> Covers:
    """Return the service's covers and their spread; a guaranteed count has none."""
    if service.guaranteed:
        return Covers(service.covers)
    spread = rules.covers_spread if service.covers_spread is None else service.covers_spread
    return Covers(service.covers, spread)


def buffer_rule(service: Service, dish: Dish, rules: Rules) -> BufferRule:
    """How a dish's buffer is set: the agreed overset, a flat share, its costs, or a level."""
    if service.guaranteed:
        return Agreed(service.overset)
    if service.buffer_fraction is not None:
        return Flat(service.buffer_fraction)
    shortage, leftover = dish.shortage_cost, dish.leftover_cost
    if shortage is not None and leftover is not None and shortage + leftover > 0:
        return AtCosts(shortage, leftover)
    return AtLevel(rules.service_level if service.service_level is None else service.service_level)


def _demand(
    service: Service, line: MixLine, dish: Dish, rules: Rules, midnight_of: dt.date
) -> DishDemand:
    midnight = (service.date - midnight_of).days * _DAY
    doors = midnight + clock_minutes(service.opens)
    plating = service.plating_set_up_minutes
    rule = buffer_rule(service, dish, rules)
    portions = portions_to_prepare(covers_of(service, rules), line.per_cover, rule)
    return DishDemand(
        service=service.id,
        service_name=service.name,
        dish=dish.id,
        dish_name=dish.name,
        date=service.date,
        doors=doors,
        due=doors - (rules.plating_set_up_minutes if plating is None else plating),
        until=midnight + clock_minutes(service.closes),
        expected=portions.expected,
        buffer=portions.buffer,
        total=portions.total,
        weight=dish.weight,
        lateness_weight=service.weight,
        reason=_reason(service, line.per_cover, rule, portions),
    )


def _reason(service: Service, per_cover: float, rule: BufferRule, portions: Portions) -> str:
    expected = sentence(
        "{covers} covers x {per_cover:g} = {expected:.4g} expected",
        covers=service.covers,
        per_cover=per_cover,
        expected=portions.expected,
    )
    match rule:
        case Agreed(overset):
            return sentence(
                "{covers} guaranteed + {overset} overset covers x {per_cover:g} -> {total}",
                covers=service.covers,
                overset=overset,
                per_cover=per_cover,
                total=portions.total,
            )
        case Flat(fraction):
            return sentence(
                "{expected}; {fraction:.3g} % on top -> {total}",
                expected=expected,
                fraction=fraction * 100,
                total=portions.total,
            )
        case AtLevel(level):
            return sentence(
                "{expected}; {level:.3g} % service level -> {total}",
                expected=expected,
                level=level * 100,
                total=portions.total,
            )
        case AtCosts(shortage, leftover):
            return sentence(
                "{expected}; a portion short costs {shortage:.2f}, one left over "
                "{leftover:.2f}: {ratio:.3g} % level -> {total}",
                expected=expected,
                shortage=shortage,
                leftover=leftover,
                ratio=rule.ratio * 100,
                total=portions.total,
            )
