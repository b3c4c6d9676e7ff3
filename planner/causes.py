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
from planner.quantities.wants import has_own_level
from planner.wording import grams_text, sentence

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
            return Trace(sentence("{name}: nothing is wanted today.", name=name), 0.0)
        if item in self.told:
            return Trace(
                sentence(
                    "{name}: make {amount}, explained above",
                    name=name,
                    amount=grams_text(need.to_make),
                ),
                need.to_make,
            )
        self.told.add(item)
        wanted = sum(want.grams for want in need.wants)
        wants = tuple(self._want(item, want) for want in added_up(need.wants))
        children = [
            Trace(sentence("wanted: {amount}", amount=grams_text(wanted)), wanted, children=wants),
            *stock_lines(need.stock),
            *self._own_wants(need),
            *not_started(need),
            *made_for_later(need),
            *self._route(need),
        ]
        if with_inputs:
            children += [self._input(need, entry) for entry in need.inputs]
        text = sentence("{name}: make {amount} today", name=name, amount=grams_text(need.to_make))
        if need.to_make < LEAST_GRAMS:
            text = sentence(
                "{name}: nothing to make today, stock is enough or its day is not here", name=name
            )
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
                return Trace(sentence("{name}: nothing is wanted today.", name=food.name), 0.0)
            text = sentence(
                "{food}: {amount} as purchased, not on the pull list",
                food=food.name,
                amount=grams_text(taken),
            )
            return Trace(text, taken, children=takers)
        need = line.need.grams
        children = (
            Trace(
                sentence("needed as purchased: {amount}", amount=grams_text(need)),
                need,
                children=takers,
            ),
            Trace(rounding(line), line.pulled.grams),
            *supply_lines(line),
        )
        text = sentence(
            "{food}: pull {pulled}, as purchased",
            food=food.name,
            pulled=whole_units(line),
        )
        return Trace(text, line.pulled.grams, children=children)

    def _want(self, item: str, want: Want) -> Trace:
        text = f"{want.consumer_name}{day_text(want, self.plan.date)}: {grams_text(want.grams)}"
        if want.reason is Reason.COMPONENT:
            up = self.component(want.consumer, with_inputs=False)
            return Trace(sentence("into {text}", text=text), want.grams, children=(up,))
        reckoned = sentence(
            "{amount} expected + {amount_2} for whole portions and buffer",
            amount=grams_text(want.expected),
            amount_2=grams_text(want.buffer),
        )
        text = f"{text} = {reckoned}"
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
        text = self._portions(item, share)
        if demand is None:
            return Trace(f"{self._name(share.dish)}: {text}", share.grams)
        return Trace(
            f"{text}: {demand.reason} ({_reckoned(demand)})",
            share.grams,
        )

    def _portions(self, item: str, share: Share) -> str:
        """Portions, grams of each, and what sharing one buffer takes off or keeping adds."""
        dish = self.catalog.dishes.get(share.dish)
        lines = [line for line in dish.components if line.item == item] if dish else []
        if not lines:
            return sentence("{n} portions", n=share.portions)
        each = sum(self.converter.grams(item, line.amount) for line in lines)
        less = share.portions * each - share.grams
        if less < -LEAST_GRAMS and has_own_level(self.catalog, item):
            return sentence(
                "{n} portions x {amount}, and {amount_more} more since it keeps",
                n=share.portions,
                amount=grams_text(each),
                amount_more=grams_text(-less),
            )
        if less <= LEAST_GRAMS:
            return sentence("{n} portions x {amount}", n=share.portions, amount=grams_text(each))
        return sentence(
            "{n} portions x {amount}, less {amount_less}: dishes share one buffer",
            n=share.portions,
            amount=grams_text(each),
            amount_less=grams_text(less),
        )

    def _own_wants(self, need: ComponentNeed) -> Iterator[Trace]:
        """What the kitchen adds itself: up to par, up to whole batches."""
        component = self.catalog.components[need.component]
        for making in need.makings:
            grams = grams_text(making.grams)
            if making.want.reason is Reason.PAR:
                yield Trace(
                    sentence(
                        "up to its par of {amount}: {amount_2} more",
                        amount=component.par,
                        amount_2=grams,
                    ),
                    making.grams,
                )
            elif making.want.reason is Reason.BATCH:
                rules = [
                    sentence("at least {amount}", amount=component.batch_minimum)
                    if component.batch_minimum
                    else "",
                    sentence("in multiples of {amount}", amount=component.batch_multiple)
                    if component.batch_multiple
                    else "",
                ]
                rule = ", ".join(word for word in rules if word)
                yield Trace(
                    sentence(
                        "rounded up to a batch ({rule}): {amount} more", rule=rule, amount=grams
                    ),
                    making.grams,
                )

    def _route(self, need: ComponentNeed) -> Iterator[Trace]:
        """Steps from the last back to the first, after a recipe's measured output."""
        component = self.catalog.components[need.component]
        if component.makes is not None:
            batch = self.converter.grams(component.id, component.makes)
            yield Trace(
                sentence(
                    "recipe: one batch {makes}; times {to_make:.3g}",
                    makes=_makes(component),
                    to_make=need.to_make / batch,
                ),
                need.to_make,
                sources=(component.makes_source,),
            )
        for step in reversed(need.steps):
            name = self.catalog.operations[step.operation].name
            text = sentence(
                "{name}: {amount} out of {amount_in}, yield {n:.4g} %",
                name=name,
                amount=grams_text(step.grams_out),
                amount_in=grams_text(step.grams_in),
                n=step.fraction * 100,
            )
            if step.from_stock > 0:
                text += "; " + sentence(
                    "{amount} part-made stock comes in after it",
                    amount=grams_text(step.from_stock),
                )
            yield Trace(text, step.grams_in, sources=(step.source,))

    def _input(self, need: ComponentNeed, entry: InputNeed) -> Trace:
        food = self.catalog.food(entry.item)
        kind = sentence("as purchased") if isinstance(food, Ingredient) else sentence("prepared")
        children = [self._credit(entry, credit) for credit in entry.credits]
        line = self.pulls.get(entry.item)
        if line is not None:
            children.append(
                Trace(
                    sentence(
                        "pull for the whole kitchen: {pulled}, {left_over}",
                        pulled=whole_units(line),
                        left_over=left_over(line),
                    ),
                    line.pulled.grams,
                )
            )
        text = sentence(
            "takes {amount} of {food}, {kind}",
            amount=grams_text(entry.grams),
            food=food.name,
            kind=kind,
        )
        if entry.grams < LEAST_GRAMS and entry.credits:
            text = sentence("takes no {food}: by-products stand in for all of it", food=food.name)
        if entry.step:
            route = self.catalog.components[need.component].route
            before = self.catalog.operations[route[entry.step - 1].operation].name
            text += "; " + sentence("goes in after {before}", before=before)
        return Trace(text, entry.grams, children=tuple(children))

    def _credit(self, entry: InputNeed, credit: Credit) -> Trace:
        return Trace(
            sentence(
                "credit: {amount} of {by_product} from {after} stand in for {food}",
                amount=grams_text(credit.grams),
                by_product=self._name(credit.by_product),
                after=self._after(credit),
                food=self._name(entry.item),
            ),
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
                        sentence(
                            "{need} takes {amount}", need=need.name, amount=grams_text(entry.grams)
                        ),
                        entry.grams,
                        children=(*(self._credit(entry, one) for one in entry.credits), up),
                    )
        # Served as it is: a dish takes it from the shelf, with nothing prepared in between.
        for taker, grams in line.wanted_by if line else ():
            if taker not in explained:
                yield Trace(
                    sentence(
                        "{name} takes {amount}", name=self._name(taker), amount=grams_text(grams)
                    ),
                    grams,
                )

    def _by_product(self, food: Ingredient) -> Trace:
        credits_ = [
            (need, entry, credit)
            for need in self.plan.quantities.needs
            for entry in need.inputs
            for credit in entry.credits
            if credit.by_product == food.id
        ]
        if not credits_:
            return Trace(
                sentence("{food}: a by-product; nothing takes it today.", food=food.name), 0.0
            )
        children = tuple(
            Trace(
                sentence("into {need}", need=need.name),
                credit.grams,
                children=(self._credit(entry, credit),),
            )
            for need, entry, credit in credits_
        )
        total = sum(credit.grams for _need, _entry, credit in credits_)
        text = sentence(
            "{food}: a by-product, never pulled; {amount} put to use today",
            food=food.name,
            amount=grams_text(total),
        )
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
    if guessed:
        return sentence("is taken to make {amount}", amount=component.makes)
    return sentence("makes {amount}", amount=component.makes)


def _reckoned(demand: DishDemand) -> str:
    """The portions as a sum that adds up: whole portions, then the buffer on top."""
    whole = demand.total - demand.buffer
    expected = sentence("{n:.4g} expected", n=demand.expected)
    if abs(whole - demand.expected) > _LEAST_PORTIONS:
        expected += ", " + sentence("whole {n}", n=whole)
    buffer = sentence("{n} buffer", n=abs(demand.buffer))
    return f"{expected} {'+' if demand.buffer >= 0 else '-'} {buffer}"
