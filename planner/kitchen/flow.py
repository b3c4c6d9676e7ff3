"""Grams through a route: what goes in at each step and what comes out, recipes included."""

from dataclasses import dataclass

from planner.kitchen.base import Fraction
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.foods import Component
from planner.kitchen.route import NO_LOSS, stated_fraction
from planner.wording import sentence


class FlowError(ValueError):
    """A recipe whose inputs, yields and measured output cannot all hold."""


@dataclass(frozen=True, slots=True)
class StepFlow:
    """One step's grams per gram of the finished component, and where its yield comes from.

    ``grams_in`` is all that is in the pot: what the step before gives and what joins here.
    """

    grams_in: float
    grams_out: float
    source: str

    @property
    def fraction(self) -> float:
        """Mass out / mass in."""
        return self.grams_out / self.grams_in


Flow = tuple[StepFlow, ...]
"""A route's steps, first to last."""


class Flows:
    """Flows of a kitchen's components, worked out once each."""

    def __init__(self, catalog: Catalog, converter: Converter) -> None:
        self._catalog = catalog
        self._converter = converter
        self._known: dict[str, Flow] = {}

    def of(self, component: Component) -> Flow:
        """Flow of a component's route; errors as :func:`route_flow`."""
        if component.id not in self._known:
            self._known[component.id] = route_flow(self._catalog, self._converter, component)
        return self._known[component.id]


def route_flow(catalog: Catalog, converter: Converter, component: Component) -> Flow:
    """Flow of a route, per gram finished.

    A recipe's output is measured, and its inputs join where they say. What the yields that its
    steps state do not explain happens at :func:`measured_step`.

    Raises
    ------
    FlowError
        A recipe states a yield at every step, or what joins afterwards weighs as much as it makes.
    ConversionError
        An amount of a recipe cannot become grams.
    """
    stated = [stated_fraction(catalog, component, i) for i in range(len(component.route))]
    if component.makes is None:
        return _chain([entry or _NOTHING_LOST for entry in stated])
    makes = converter.grams(component.id, component.makes)
    joins = [0.0] * len(stated)
    for taken in component.inputs:
        if taken.amount is not None:
            joins[taken.after_step] += converter.grams(taken.item, taken.amount)
    measured = measured_step(catalog, component)
    if measured is None:
        raise FlowError(sentence("every step states a yield, and the output is measured as well"))
    fractions = [1.0 if entry is None else entry.fraction for entry in stated]
    into, carried, later = 0.0, 1.0, 0.0
    for index, joining in enumerate(joins):
        if index <= measured:
            into = (into * fractions[index - 1] if index else 0.0) + joining
        else:
            later = (later + joining) * fractions[index]
            carried *= fractions[index]
    if into <= 0 or makes <= later:
        raise FlowError(
            sentence(
                "what goes in after '{operation}' comes to {n:.0f} g of the {n_2:.0f} g made",
                operation=component.route[measured].operation,
                n=later,
                n_2=makes,
            )
        )
    fractions[measured] = (makes - later) / carried / into
    flow: list[StepFlow] = []
    grams = 0.0
    for index, joining in enumerate(joins):
        entry = stated[index]
        source = component.makes_source if index == measured else NO_LOSS
        grams += joining
        given = grams * fractions[index]
        flow.append(
            StepFlow(grams / makes, given / makes, source if entry is None else entry.source)
        )
        grams = given
    return tuple(flow)


def measured_step(catalog: Catalog, component: Component) -> int | None:
    """Index of the step at which a recipe's measured output falls short of what went in.

    Where its last input joins; if that step states a yield of its own, the nearest before it that
    states none, or else the first after it. None where every step states one.
    """
    steps = range(len(component.route))
    joined = min(max(taken.after_step for taken in component.inputs), steps[-1])
    nearest: list[int] = [*reversed(steps[: joined + 1]), *steps[joined + 1 :]]
    for index in nearest:
        if stated_fraction(catalog, component, index) is None:
            return index
    return None


_NOTHING_LOST = Fraction(fraction=1.0, source=NO_LOSS)


def _chain(fractions: list[Fraction]) -> Flow:
    """Back from a gram finished, through each step's yield."""
    flow: list[StepFlow] = []
    out = 1.0
    for entry in reversed(fractions):
        flow.append(StepFlow(out / entry.fraction, out, entry.source))
        out /= entry.fraction
    return tuple(reversed(flow))
