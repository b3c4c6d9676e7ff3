"""Ids and names are each given once, and nothing is listed twice where one of them would count."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import TypeVar

from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Component, FoodYield, Ingredient, Input
from planner.wording import sentence

_Element = TypeVar("_Element")


def check_names(catalog: Catalog) -> Iterator[FileError]:
    """Yield each id or name that stands a second time."""
    kitchen = catalog.kitchen
    foods: tuple[tuple[Place, Ingredient | Component], ...] = (
        *places("ingredients", kitchen.ingredients),
        *places("components", kitchen.components),
    )
    yield from _unique("id", ((place, food.id, food.id) for place, food in foods))
    yield from _unique("name", ((place, food.name, _plain(food.name)) for place, food in foods))
    for list_name in ("cuts", "operations", "dishes", "services", "stations", "equipment", "cooks"):
        elements = tuple(places(list_name, getattr(kitchen, list_name)))
        yield from _unique("id", ((place, element.id, element.id) for place, element in elements))
        if list_name != "services":  # Every day has its dinner.
            yield from _unique(
                "name", ((place, element.name, _plain(element.name)) for place, element in elements)
            )
    yield from _unique(
        "name",
        (
            (place, service.name, (_plain(service.name), service.date))
            for place, service in places("services", kitchen.services)
        ),
    )
    yield from _unique(
        "name", ((place, unit.name, unit.name) for place, unit in places("units", kitchen.units))
    )
    yield from _listed_twice(kitchen)


def _plain(name: str) -> str:
    """A name as the ear takes it: 'Diced  Onion' and 'diced onion' are one."""
    return " ".join(name.casefold().split())


def _unique(field: str, named: Iterable[tuple[Place, str, Hashable]]) -> Iterator[FileError]:
    """Compare elements by the last of each three; the middle one is what the file says."""
    first: dict[Hashable, Place] = {}
    for place, name, key in named:
        if key in first:
            yield place.field(field).error(
                name,
                sentence("{path} has the same {field}", path=first[key].path, field=field),
                sentence("give each its own {field}, or remove one of the two", field=field),
            )
        first.setdefault(key, place)


def _listed_twice(kitchen: Kitchen) -> Iterator[FileError]:
    for place, operation in places("operations", kitchen.operations):
        yield from _once(place, "rates", operation.rates, lambda rate: rate.food)
        yield from _once(place, "yields", operation.yields, _of_a_cut)
        yield from _once(place, "equipment", operation.equipment, lambda use: use.equipment)
        for below, on_food in place.items("yields", operation.yields):
            yield from _once(below, "trim", on_food.trim, lambda trim: trim.item)
    for place, ingredient in places("ingredients", kitchen.ingredients):
        yield from _once(place, "weights", ingredient.weights, lambda entry: entry.unit)
    for place, component in places("components", kitchen.components):
        yield from _once(place, "weights", component.weights, lambda entry: entry.unit)
        yield from _once(place, "inputs", component.inputs, _taken)
        for below, entry in place.items("inputs", component.inputs):
            yield from _once(below, "may_use", entry.may_use, lambda item: item)
    for place, dish in places("dishes", kitchen.dishes):
        yield from _once(place, "components", dish.components, lambda portion: portion.item)
    for place, service in places("services", kitchen.services):
        yield from _once(place, "mix", service.mix, lambda line: line.dish)
    for place, cook in places("cooks", kitchen.cooks):
        yield from _once(place, "skills", cook.skills, lambda skill: skill.skill)
        yield from _once(place, "stations", cook.stations or (), lambda station: station)


def _taken(entry: Input) -> str:
    """What may stand once: butter goes in at the start and again at the end."""
    return f"{entry.item}, after_step {entry.after_step}" if entry.after_step else entry.item


def _of_a_cut(entry: FoodYield) -> str:
    """What may stand once: onion, and onion in medium dice."""
    return f"{entry.food}, cut {entry.cut}" if entry.cut else entry.food


def _once(
    place: Place,
    name: str,
    elements: tuple[_Element, ...],
    key: Callable[[_Element], Hashable],
) -> Iterator[FileError]:
    seen: dict[Hashable, Place] = {}
    for below, element in place.items(name, elements):
        word = key(element)
        if word in seen:
            yield below.error(
                word,
                sentence(
                    "'{word}' is listed here twice, first at {path}",
                    word=word,
                    path=seen[word].path,
                ),
                sentence("keep one of the two"),
            )
        seen.setdefault(word, below)
