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


@dataclass(frozen=True, slots=True)
class Use:
    """How learned figures are planned with; ``quantile`` is None for the mean.

    A figure is used from ``least`` batches on; before that the file's own stands.
    """

    quantile: float | None = None
    least: float = 3.0

    def __post_init__(self) -> None:
        if self.quantile is not None and not 0.5 <= self.quantile < 1:
            raise ValueError(f"a cautious quantile lies from 0.5 to below 1, not {self.quantile}")
        if not self.least > 0:
            raise ValueError(f"a figure is used from one batch or more, not from {self.least}")


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

    The file's own are not lost: the kitchen given stays as it is, and ``before`` of each change
    takes it back. Set-ups are whole minutes, as the file has them, and stay at least one.
    """
    chosen = use or Use()
    values: dict[Key, float] = {}
    figures: dict[Key, Learned] = {}
    for skill in learned:
        for figure in skill.figures:
            if figure.batches >= chosen.least:
                values[figure.key] = _written(figure, planned_value(figure, skill.spread, chosen))
                figures[figure.key] = figure
    changed = kitchen.model_copy(
        update={
            "operations": tuple(_operation(one, values, figures) for one in kitchen.operations),
            "components": tuple(_component(one, values) for one in kitchen.components),
            "cooks": tuple(_cook(one, values) for one in kitchen.cooks),
        }
    )
    changes = tuple(
        Change(key, _written(figures[key], figures[key].book), value, figures[key].batches)
        for key, value in sorted(values.items())
        if not math.isclose(value, _written(figures[key], figures[key].book))
    )
    return changed, changes


def _written(figure: Learned, value: float) -> float:
    if figure.key.kind is Kind.SET_UP:
        return float(max(1, round(value)))
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
