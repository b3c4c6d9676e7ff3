"""Minutes of a step: hands-on on a quantity, unattended, and how much fits a lot."""

import math
from dataclasses import dataclass

from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter
from planner.kitchen.flow import Flows
from planner.kitchen.foods import Component
from planner.kitchen.route import measured_foods, worked_foods
from planner.kitchen.work import Operation, Per


@dataclass(frozen=True)
class Effort:
    """What one step of a route asks for.

    Attributes
    ----------
    fraction
        Mass out / mass in.
    minutes_per_gram, minutes_per_lot
        Hands-on book minutes, on grams going in and once per lot.
    unattended, finish
        Minutes after the hands-on start, and hands-on minutes to take it out.
    stretches
        It may be taken out later than when it is done.
    largest, vessel
        Most grams going in of one lot (infinite where nothing bounds it): in all, and by what it
        is in alone, however long that keeps hands busy.
    unit_grams
        Per equipment use: what one unit takes, grams going in (infinite: not bounded).
    """

    operation: Operation
    fraction: float
    minutes_per_gram: float
    minutes_per_lot: float
    unattended: int
    finish: int
    stretches: bool
    largest: float
    vessel: float
    unit_grams: tuple[float, ...]

    def hands_on(self, grams: float) -> float:
        """Book minutes of one lot of ``grams`` going in."""
        return self.minutes_per_lot + grams * self.minutes_per_gram

    def quickest(self, grams: float) -> int:
        """Least minutes from start to end of the first lot of ``grams``."""
        hands = math.ceil(self.hands_on(min(grams, self.largest)))
        return hands + self.unattended + self.finish


class Efforts:
    """Efforts of a kitchen's steps, worked out once each."""

    def __init__(self, catalog: Catalog, converter: Converter, flows: Flows) -> None:
        self._catalog = catalog
        self._flows = flows
        self._converter = converter
        self._known: dict[tuple[str, int], Effort] = {}

    def of(self, component: Component, index: int) -> Effort:
        """Effort of step ``index`` of a component's route."""
        key = (component.id, index)
        if key not in self._known:
            self._known[key] = self._effort(component, index)
        return self._known[key]

    def _effort(self, component: Component, index: int) -> Effort:
        step = component.route[index]
        operation = self._catalog.operations[step.operation]
        per_gram, per_lot = self._rate(component, index, operation)
        # A vessel must take what is in it at its largest: rice goes in dry and comes out swollen.
        fraction = self._flows.of(component)[index].fraction
        units = tuple(
            self._grams(component, use.holds or self._catalog.equipment[use.equipment].holds)
            / max(1.0, fraction)
            for use in operation.equipment
        )
        limits = [
            unit * min(use.max_units, self._catalog.equipment[use.equipment].count)
            for unit, use in zip(units, operation.equipment, strict=True)
        ]
        if operation.lot_limit is not None:
            limits.append(self._grams(component, operation.lot_limit))
        vessel = min(limits, default=math.inf)
        if per_gram > 0:
            limits.append(self._catalog.kitchen.rules.lot_minutes / per_gram)
        unattended = step.unattended_minutes
        return Effort(
            operation=operation,
            fraction=fraction,
            minutes_per_gram=per_gram,
            minutes_per_lot=per_lot,
            unattended=operation.unattended_minutes if unattended is None else unattended,
            finish=operation.finish_minutes,
            stretches=operation.finish_minutes == 0 or operation.finish_within_minutes is None,
            largest=min(limits, default=math.inf),
            vessel=vessel,
            unit_grams=units,
        )

    def _rate(self, component: Component, index: int, operation: Operation) -> tuple[float, float]:
        """(minutes per gram going in, minutes per lot)."""
        step = component.route[index]
        rates = {rate.food: rate.minutes_per for rate in operation.rates}
        rate = operation.minutes_per
        for food in reversed(worked_foods(self._catalog, component)):
            rate = rates.get(food, rate)
        if step.minutes_per is not None:
            rate = step.minutes_per
        if operation.per is Per.LOT:
            return 0.0, operation.each_lot_minutes + rate
        return rate / self._grams(component, Amount(1.0, operation.per.value)), (
            operation.each_lot_minutes
        )

    def _grams(self, component: Component, amount: Amount | None) -> float:
        """Grams of ``amount`` of what goes into the route, by the nearest food that can say."""
        if amount is None:
            return math.inf
        failure: ConversionError | None = None
        for food in measured_foods(self._catalog, component):
            try:
                return self._converter.grams(food, amount)
            except ConversionError as error:
                failure = failure or error
        raise failure or ValueError(f"{component.id}: nothing is measured")
