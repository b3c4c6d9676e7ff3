"""What a quantity of today follows from: guests, wants, stock, yields, credits, the shelf."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from planner.cause_lines import (
    LEAST_GRAMS,
    added_up,
    day_text,
    left_over,
    made_for_later,
    not_started,
    rounding,
    stock_lines,
    supply_lines,
    whole_units,
)
from planner.demand.types import DishDemand
from planner.kitchen.base import STARTING_GUESS
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Ingredient
from planner.plan import Plan
from planner.quantities.types import (
    ComponentNeed,
    Credit,
    InputNeed,
    PullLine,
    Reason,
    Share,
    Trace,
    Want,
)
from planner.wording import grams_text

_LEAST_PORTIONS = 0.05
"""A smaller rest does not show."""


@dataclass(frozen=True)
class Causes:
    """The causes of one number: each component is explained where it is first met."""

    kitchen: Kitchen
    plan: Plan
    told: set[str] = field(default_factory=set)
    """Components explained so far."""

    @cached_property
    def catalog(self) -> Catalog:
        """The kitchen by id."""
        return Catalog(self.kitchen)

    @cached_property
    def converter(self) -> Converter:
        """Amounts to grams."""
        return Converter(self.kitchen)

    @cached_property
    def needs(self) -> Mapping[str, ComponentNeed]:
        """What is to be made, by component."""
        return {need.component: need for need in self.plan.quantities.needs}

    @cached_property
    def pulls(self) -> Mapping[str, PullLine]:
        """What is to be pulled, by ingredient."""
        return {line.ingredient: line for line in self.plan.quantities.pulls}

    def component(self, item: str, *, with_inputs: bool) -> Trace:
        """A component's number, from its wants to its route; told once, then referred to."""
        name = self._name(item)
        need = self.needs.get(item)
        if need is None or not (need.wants or need.makings):
            return Trace(f"{name}: nothing is wanted today.", 0.0)
        if item in self.told:
            return Trace(f"{name}: make {grams_text(need.to_make)}, explained above", need.to_make)
        self.told.add(item)
        wanted = sum(want.grams for want in need.wants)
        wants = tuple(self._want(item, want) for want in added_up(need.wants))
        children = [
            Trace(f"wanted: {grams_text(wanted)}", wanted, children=wants),
            *stock_lines(need.stock),
            *self._own_wants(need),
            *not_started(need),
            *made_for_later(need),
            *self._route(need),
        ]
        if with_inputs:
            children += [self._input(need, entry) for entry in need.inputs]
        text = f"{name}: make {grams_text(need.to_make)} today"
        if need.to_make < LEAST_GRAMS:
            text = f"{name}: nothing to make today, stock is enough or its day is not here"
        return Trace(text, need.to_make, children=tuple(children))

    def ingredient(self, food: Ingredient) -> Trace:
        """An ingredient's pull, from what takes it to whole units."""
        if food.by_product:
            return self._by_product(food)
        takers = tuple(self._takers(food.id))
        line = self.pulls.get(food.id)
        if line is None:
            taken = sum(taker.grams for taker in takers)
            if not takers:
                return Trace(f"{food.name}: nothing is wanted today.", 0.0)
            text = f"{food.name}: {grams_text(taken)} as purchased, not on the pull list"
            return Trace(text, taken, children=takers)
        need = line.need.grams
        children = (
            Trace(f"needed as purchased: {grams_text(need)}", need, children=takers),
            Trace(rounding(line), line.pulled.grams),
            *supply_lines(line),
        )
        text = f"{food.name}: pull {whole_units(line)}, as purchased"
        return Trace(text, line.pulled.grams, children=children)

    def _want(self, item: str, want: Want) -> Trace:
        text = f"{want.consumer_name}{day_text(want, self.plan.date)}: {grams_text(want.grams)}"
        if want.reason is Reason.COMPONENT:
            up = self.component(want.consumer, with_inputs=False)
            return Trace(f"into {text}", want.grams, children=(up,))
        text += (
            f" = {grams_text(want.expected)} expected + {grams_text(want.buffer)} for whole "
            "portions and buffer"
        )
        shares = tuple(self._share(item, share) for share in want.shares)
        return Trace(text, want.grams, children=shares)

    def _share(self, item: str, share: Share) -> Trace:
        demand = next(
            (
                one
                for one in self.plan.demands
                if one.service == share.service and one.dish == share.dish
            ),
            None,
        )
        text = f"{share.portions} portions{self._portion(item, share)}"
        if demand is None:
            return Trace(f"{self._name(share.dish)}: {text}", share.grams)
        return Trace(
            f"{text}: {demand.reason} ({_reckoned(demand)})",
            share.grams,
        )

    def _portion(self, item: str, share: Share) -> str:
        """Grams of one portion, and what sharing one buffer among dishes takes off."""
        dish = self.catalog.dishes.get(share.dish)
        lines = [line for line in dish.components if line.item == item] if dish else []
        if not lines:
            return ""
        each = sum(self.converter.grams(item, line.amount) for line in lines)
        less = share.portions * each - share.grams
        shared = f", less {grams_text(less)}: dishes share one buffer" if less > LEAST_GRAMS else ""
        return f" x {grams_text(each)}{shared}"

    def _own_wants(self, need: ComponentNeed) -> Iterator[Trace]:
        """What the kitchen adds itself: up to par, up to whole batches."""
        component = self.catalog.components[need.component]
        for making in need.makings:
            grams = grams_text(making.grams)
            if making.want.reason is Reason.PAR:
                yield Trace(f"up to its par of {component.par}: {grams} more", making.grams)
            elif making.want.reason is Reason.BATCH:
                rules = [
                    f"at least {component.batch_minimum}" if component.batch_minimum else "",
                    f"in multiples of {component.batch_multiple}"
                    if component.batch_multiple
                    else "",
                ]
                rule = ", ".join(word for word in rules if word)
                yield Trace(f"rounded up to a batch ({rule}): {grams} more", making.grams)

    def _route(self, need: ComponentNeed) -> Iterator[Trace]:
        """Steps from the last back to the first, after a recipe's measured output."""
        component = self.catalog.components[need.component]
        if component.makes is not None:
            batch = self.converter.grams(component.id, component.makes)
            yield Trace(
                f"recipe: one batch {_makes(component)}; times {need.to_make / batch:.3g}",
                need.to_make,
                sources=(component.makes_source,),
            )
        for step in reversed(need.steps):
            name = self.catalog.operations[step.operation].name
            text = (
                f"{name}: {grams_text(step.grams_out)} out of {grams_text(step.grams_in)}, yield "
                f"{step.fraction * 100:.4g} %"
            )
            if step.from_stock > 0:
                text += f"; {grams_text(step.from_stock)} part-made stock comes in after it"
            yield Trace(text, step.grams_in, sources=(step.source,))

    def _input(self, need: ComponentNeed, entry: InputNeed) -> Trace:
        food = self.catalog.food(entry.item)
        kind = "as purchased" if isinstance(food, Ingredient) else "prepared"
        children = [self._credit(entry, credit) for credit in entry.credits]
        line = self.pulls.get(entry.item)
        if line is not None:
            children.append(
                Trace(
                    f"pull for the whole kitchen: {whole_units(line)}, {left_over(line)}",
                    line.pulled.grams,
                )
            )
        text = f"takes {grams_text(entry.grams)} of {food.name}, {kind}"
        if entry.grams < LEAST_GRAMS and entry.credits:
            text = f"takes no {food.name}: by-products stand in for all of it"
        if entry.step:
            route = self.catalog.components[need.component].route
            before = self.catalog.operations[route[entry.step - 1].operation].name
            text += f"; goes in after {before}"
        return Trace(text, entry.grams, children=tuple(children))

    def _credit(self, entry: InputNeed, credit: Credit) -> Trace:
        return Trace(
            f"credit: {grams_text(credit.grams)} of {self._name(credit.by_product)} from "
            f"{self._after(credit)} stand in for {self._name(entry.item)}",
            credit.grams,
        )

    def _after(self, credit: Credit) -> str:
        if credit.from_component not in self.catalog.components:
            return credit.from_component
        component = self.catalog.components[credit.from_component]
        operation = component.route[credit.from_step].operation
        return f"{component.name}, {self.catalog.operations[operation].name}"

    def _takers(self, item: str) -> Iterator[Trace]:
        line = self.pulls.get(item)
        explained = set()
        for need in self.plan.quantities.needs:
            for entry in need.inputs:
                if entry.item == item:
                    explained.add(need.component)
                    up = self.component(need.component, with_inputs=False)
                    yield Trace(
                        f"{need.name} takes {grams_text(entry.grams)}",
                        entry.grams,
                        children=(*(self._credit(entry, one) for one in entry.credits), up),
                    )
        # Served as it is: a dish takes it from the shelf, with nothing prepared in between.
        for taker, grams in line.wanted_by if line else ():
            if taker not in explained:
                yield Trace(f"{self._name(taker)} takes {grams_text(grams)}", grams)

    def _by_product(self, food: Ingredient) -> Trace:
        credits_ = [
            (need, entry, credit)
            for need in self.plan.quantities.needs
            for entry in need.inputs
            for credit in entry.credits
            if credit.by_product == food.id
        ]
        if not credits_:
            return Trace(f"{food.name}: a by-product; nothing takes it today.", 0.0)
        children = tuple(
            Trace(f"into {need.name}", credit.grams, children=(self._credit(entry, credit),))
            for need, entry, credit in credits_
        )
        total = sum(credit.grams for _need, _entry, credit in credits_)
        text = f"{food.name}: a by-product, never pulled; {grams_text(total)} put to use today"
        return Trace(text, total, children=children)

    def _name(self, item: str) -> str:
        known = (
            self.catalog.components.get(item)
            or self.catalog.ingredients.get(item)
            or self.catalog.dishes.get(item)
        )
        return known.name if known else item


def _makes(component: Component) -> str:
    """What a batch makes, by how that is known."""
    guessed = component.makes_source == STARTING_GUESS
    return f"{'is taken to make' if guessed else 'makes'} {component.makes}"


def _reckoned(demand: DishDemand) -> str:
    """The portions as a sum that adds up: whole portions, then the buffer on top."""
    whole = demand.total - demand.buffer
    expected = f"{demand.expected:.4g} expected"
    if abs(whole - demand.expected) > _LEAST_PORTIONS:
        expected += f", whole {whole}"
    return f"{expected} {'+' if demand.buffer >= 0 else '-'} {abs(demand.buffer)} buffer"
