"""A kitchen with what was learned in place of what its file says.

At the *mean*, a batch takes what it takes on average, so that a day's minutes add up. At a cautious
*quantile*, each batch takes no longer than planned with that chance: a plan with room in it.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import NormalDist

from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, FoodRate, Step
from planner.kitchen.work import Cook, Operation, Skill
from planner.rates.types import Key, Kind, Learned, SkillRates

_PACE = (0.2, 3.0)
"""What the kitchen file allows."""
_DIGITS = 4
_EXACT = 1e-6


@dataclass(frozen=True, slots=True)
class Use:
    """How learned figures are planned with; ``quantile`` is None for the mean.

    A skill's figures are used from ``least`` batches of it on, all of them, since they were learned
    together; before that the file's own stand.
    """

    quantile: float | None = None
    least: int = 5

    def __post_init__(self) -> None:
        if self.quantile is not None and not 0.5 <= self.quantile < 1:
            raise ValueError(f"a cautious quantile lies from 0.5 to below 1, not {self.quantile}")
        if self.least < 1:
            raise ValueError(f"figures are used from one batch or more, not from {self.least}")


@dataclass(frozen=True, slots=True)
class Change:
    """One figure that is planned with otherwise: what it was, and is now."""

    key: Key
    before: float
    after: float
    batches: float


def planned_value(figure: Learned, spread: float, use: Use) -> float:
    """Minutes (or slowness) to plan with; ``spread`` is that of batches about the figures.

    Log-normal: mean = median x exp(variance / 2). A cook's slowness is planned at its median, since
    the doubt of batches is in the rate that it multiplies already.
    """
    if figure.key.kind is Kind.SLOWNESS:
        return figure.value
    variance = figure.doubt**2 + spread**2
    if use.quantile is None:
        return figure.value * math.exp(variance / 2)
    return figure.value * math.exp(NormalDist().inv_cdf(use.quantile) * math.sqrt(variance))


def with_rates(
    kitchen: Kitchen, learned: Iterable[SkillRates], use: Use | None = None
) -> tuple[Kitchen, tuple[Change, ...]]:
    """The kitchen with learned figures, and what changed in it.

    The kitchen given stays as it is, and ``taken_back`` puts its figures into place again. Set-ups
    are whole minutes, as the file has them, and stay at least one; at a quantile they are rounded
    up.
    """
    chosen = use or Use()
    values: dict[Key, float] = {}
    figures: dict[Key, Learned] = {}
    for skill in learned:
        if skill.batches < chosen.least:
            continue
        for figure in skill.figures:
            if figure_in(kitchen, figure.key) is None:
                continue  # Of a food or step that the file has no more: ticks outlive it.
            values[figure.key] = _written(
                figure,
                planned_value(figure, skill.spread, chosen),
                cautious=chosen.quantile is not None,
            )
            figures[figure.key] = figure
    changed = kitchen.model_copy(
        update={
            "operations": tuple(_operation(one, values, figures) for one in kitchen.operations),
            "components": tuple(_component(one, values) for one in kitchen.components),
            "cooks": tuple(_cook(one, values) for one in kitchen.cooks),
        }
    )
    changes = []
    for key, value in sorted(values.items()):
        before = figure_in(kitchen, key)
        if before is not None and not math.isclose(value, before, rel_tol=1e-3):
            changes.append(Change(key, before, value, figures[key].batches))
    return changed, tuple(changes)


def figure_in(kitchen: Kitchen, key: Key) -> float | None:
    """What a kitchen file has for a figure; None where it has no such operation, food or cook."""
    if key.kind is Kind.SLOWNESS:
        paces = (
            skill.pace
            for cook in kitchen.cooks
            if cook.id == key.cook
            for skill in cook.skills
            if skill.skill == key.skill
        )
        pace = next(paces, None)
        return None if pace is None else 1 / pace
    operation = next((one for one in kitchen.operations if one.id == key.operation), None)
    if operation is None:
        return None
    if key.kind is Kind.SET_UP:
        return float(operation.set_up_minutes)
    return _rate_in(kitchen, operation, key)


def _rate_in(kitchen: Kitchen, operation: Operation, key: Key) -> float | None:
    if key.step >= 0:
        component = next((one for one in kitchen.components if one.id == key.food), None)
        if component is None or key.step >= len(component.route):
            return None
        step = component.route[key.step]
        return step.minutes_per if step.operation == key.operation else None
    foods = {one.id for one in kitchen.ingredients} | {one.id for one in kitchen.components}
    if key.food not in foods:
        return None
    own = next((rate.minutes_per for rate in operation.rates if rate.food == key.food), None)
    return operation.minutes_per if own is None else own


def taken_back(kitchen: Kitchen, earlier: Kitchen, keys: Iterable[Key]) -> Kitchen:
    """The kitchen with these figures as they were in an earlier file, entries and sources alike."""
    back = frozenset(keys)
    operations = {one.id: one for one in earlier.operations}
    components = {one.id: one for one in earlier.components}
    cooks = {one.id: one for one in earlier.cooks}
    return kitchen.model_copy(
        update={
            "operations": tuple(
                _operation_back(one, operations[one.id], back) if one.id in operations else one
                for one in kitchen.operations
            ),
            "components": tuple(
                _component_back(one, components[one.id], back) if one.id in components else one
                for one in kitchen.components
            ),
            "cooks": tuple(
                _cook_back(one, cooks[one.id], back) if one.id in cooks else one
                for one in kitchen.cooks
            ),
        }
    )


def _operation_back(now: Operation, then: Operation, back: frozenset[Key]) -> Operation:
    foods = {k.food for k in back if k.kind is Kind.RATE and k.operation == now.id and k.step < 0}
    before = {rate.food: rate for rate in then.rates}
    rates = [before.get(rate.food) if rate.food in foods else rate for rate in now.rates]
    set_up = Key(Kind.SET_UP, operation=now.id) in back
    return now.model_copy(
        update={
            "rates": tuple(rate for rate in rates if rate is not None),
            "set_up_minutes": then.set_up_minutes if set_up else now.set_up_minutes,
        }
    )


def _component_back(now: Component, then: Component, back: frozenset[Key]) -> Component:
    steps = {k.step for k in back if k.kind is Kind.RATE and k.food == now.id and k.step >= 0}
    route = tuple(
        step.model_copy(update={"minutes_per": then.route[index].minutes_per})
        if index in steps and index < len(then.route)
        else step
        for index, step in enumerate(now.route)
    )
    return now.model_copy(update={"route": route})


def _cook_back(now: Cook, then: Cook, back: frozenset[Key]) -> Cook:
    paces = {skill.skill: skill.pace for skill in then.skills}
    skills = tuple(
        skill.model_copy(update={"pace": paces[skill.skill]})
        if Key(Kind.SLOWNESS, cook=now.id, skill=skill.skill) in back and skill.skill in paces
        else skill
        for skill in now.skills
    )
    return now.model_copy(update={"skills": skills})


def _written(figure: Learned, value: float, *, cautious: bool) -> float:
    if figure.key.kind is Kind.SET_UP:
        # Rounded down, half of all quantiles would be less sure than they say.
        return float(max(1, math.ceil(value - _EXACT) if cautious else round(value)))
    if figure.key.kind is Kind.SLOWNESS:
        return 1 / min(max(round(1 / value, _DIGITS), _PACE[0]), _PACE[1])
    return round(value, _DIGITS)


def _operation(
    operation: Operation, values: Mapping[Key, float], figures: Mapping[Key, Learned]
) -> Operation:
    set_up = values.get(Key(Kind.SET_UP, operation=operation.id))
    rates = {rate.food: rate for rate in operation.rates}
    for key, value in values.items():
        if key.kind is Kind.RATE and key.operation == operation.id and key.step < 0:
            source = f"learned from {figures[key].batches:.0f} batches"
            rates[key.food] = FoodRate(food=key.food, minutes_per=value, source=source)
    return operation.model_copy(
        update={
            "rates": tuple(rates.values()),
            "set_up_minutes": operation.set_up_minutes if set_up is None else int(set_up),
        }
    )


def _component(component: Component, values: Mapping[Key, float]) -> Component:
    route = tuple(_step(component, i, step, values) for i, step in enumerate(component.route))
    return component.model_copy(update={"route": route})


def _step(component: Component, index: int, step: Step, values: Mapping[Key, float]) -> Step:
    key = Key(Kind.RATE, operation=step.operation, food=component.id, step=index)
    return step.model_copy(update={"minutes_per": values[key]}) if key in values else step


def _cook(cook: Cook, values: Mapping[Key, float]) -> Cook:
    return cook.model_copy(
        update={"skills": tuple(_skill(cook, skill, values) for skill in cook.skills)}
    )


def _skill(cook: Cook, skill: Skill, values: Mapping[Key, float]) -> Skill:
    key = Key(Kind.SLOWNESS, cook=cook.id, skill=skill.skill)
    return skill.model_copy(update={"pace": 1 / values[key]}) if key in values else skill


def differing(earlier: Kitchen, later: Kitchen) -> frozenset[Key]:
    """Figures that the two files have differently."""
    keys = {Key(Kind.SET_UP, operation=one.id) for one in later.operations}
    keys |= {
        Key(Kind.RATE, operation=one.id, food=rate.food)
        for one in later.operations
        for rate in one.rates
    }
    keys |= {
        Key(Kind.RATE, operation=step.operation, food=one.id, step=index)
        for one in later.components
        for index, step in enumerate(one.route)
        if step.minutes_per is not None
    }
    keys |= {
        Key(Kind.SLOWNESS, cook=one.id, skill=skill.skill)
        for one in later.cooks
        for skill in one.skills
    }
    return frozenset(key for key in keys if figure_in(earlier, key) != figure_in(later, key))
