"""Lookups by id over a kitchen, made once and shared by everything that follows."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Protocol, TypeVar

from planner.kitchen.cuts import STARTER_CUTS
from planner.kitchen.day import Service
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Cut, Dish, Ingredient
from planner.kitchen.work import Cook, Equipment, Operation, Station


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


_Element = TypeVar("_Element", bound=_HasId)


def _by_id(elements: Iterable[_Element]) -> Mapping[str, _Element]:
    return MappingProxyType({element.id: element for element in elements})


@dataclass(frozen=True)
class Catalog:
    """A kitchen's elements by id. Where ids repeat (an error of the file) the last one stands."""

    kitchen: Kitchen

    @cached_property
    def ingredients(self) -> Mapping[str, Ingredient]:
        """What is bought, and the by-products."""
        return _by_id(self.kitchen.ingredients)

    @cached_property
    def operations(self) -> Mapping[str, Operation]:
        """Movements and processes."""
        return _by_id(self.kitchen.operations)

    @cached_property
    def components(self) -> Mapping[str, Component]:
        """What is prepared."""
        return _by_id(self.kitchen.components)

    @cached_property
    def foods(self) -> Mapping[str, Ingredient | Component]:
        """Ingredients and components, which share their ids."""
        return MappingProxyType({**self.components, **self.ingredients})

    @cached_property
    def dishes(self) -> Mapping[str, Dish]:
        """What a guest orders."""
        return _by_id(self.kitchen.dishes)

    @cached_property
    def services(self) -> Mapping[str, Service]:
        """Services of all dates."""
        return _by_id(self.kitchen.services)

    @cached_property
    def stations(self) -> Mapping[str, Station]:
        """Places to work."""
        return _by_id(self.kitchen.stations)

    @cached_property
    def equipment(self) -> Mapping[str, Equipment]:
        """Vessels and machines."""
        return _by_id(self.kitchen.equipment)

    @cached_property
    def cooks(self) -> Mapping[str, Cook]:
        """People who prep."""
        return _by_id(self.kitchen.cooks)

    @cached_property
    def cuts(self) -> Mapping[str, Cut]:
        """The starter cuts, with the kitchen's own added or in their stead."""
        return _by_id((*STARTER_CUTS, *self.kitchen.cuts))

    def food(self, item: str) -> Ingredient | Component:
        """Return the ingredient or component called ``item``.

        Raises
        ------
        KeyError
            Neither has that id; a kitchen that was read and checked has none such.
        """
        found = self.foods.get(item)
        if found is None:
            raise KeyError(f"no ingredient or component has the id {item!r}")
        return found

    def name(self, item: str) -> str:
        """What people call the ingredient or component ``item``."""
        return self.food(item).name
