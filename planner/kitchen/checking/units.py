"""Units of the kitchen's own, pieces and packs are entered so that each means one thing."""

import math
from collections.abc import Iterator

from planner.kitchen.base import Amount, Weight
from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.measuring import Measuring
from planner.kitchen.conversion import ConversionError
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Ingredient
from planner.units import UNIT_NAMES, Dimension, standard_unit
from planner.wording import sentence

_SAME = 1e-3
"""Relative: two entries for one unit that differ by less are the same figure, rounded."""


def check_units(catalog: Catalog) -> Iterator[FileError]:
    """Yield each definition of a unit, piece or pack that contradicts itself or another."""
    for place, unit in places("units", catalog.kitchen.units):
        yield from _new_name(place.field("name"), unit.name)
        yield from _equals(place.field("equals"), unit.equals)
    measuring = Measuring(catalog)
    for place, ingredient in places("ingredients", catalog.kitchen.ingredients):
        yield from _weights(place, ingredient.weights)
        yield from _purchase(place.field("purchase"), ingredient, measuring)
        if ingredient.pull_unit is not None:
            yield from measuring.unit(
                place.field("pull_unit"), ingredient.pull_unit, ingredient.id, ingredient.pull_unit
            )
    for place, component in places("components", catalog.kitchen.components):
        yield from _weights(place, component.weights)


def _new_name(place: Place, name: str) -> Iterator[FileError]:
    """A name of the closed list keeps its meaning; every other must fit into an amount."""
    if name in UNIT_NAMES:
        yield place.error(
            name,
            sentence("this is a unit of measure already"),
            sentence(
                "choose another name, such as each, bunch or sixth pan; for a volume "
                "enter the food's density"
            ),
        )
    else:
        yield from _writable(place, name)


def _writable(place: Place, name: str) -> Iterator[FileError]:
    try:
        readable = Amount.parse(f"1 {name}").unit == name
    except ValueError:
        readable = False
    if not readable:
        yield place.error(
            name,
            sentence("an amount cannot be written with this name"),
            sentence("begin with a letter; letters, digits, single spaces and hyphens may follow"),
        )


def _equals(place: Place, equals: Amount) -> Iterator[FileError]:
    if standard_unit(equals.unit) is None:
        yield place.error(
            equals,
            sentence("'{unit}' is no unit of measure", unit=equals.unit),
            sentence("give it in one of: {units}", units=", ".join(UNIT_NAMES)),
        )
    elif equals.number == 0:
        yield place.error(
            equals, sentence("a unit of no size"), sentence("enter an amount above zero")
        )


def _weights(place: Place, weights: tuple[Weight, ...]) -> Iterator[FileError]:
    for below, entry in place.items("weights", weights):
        yield from _new_name(below.field("unit"), entry.unit)
        standard = standard_unit(entry.weight.unit)
        if standard is None or standard.dimension is not Dimension.MASS:
            yield below.field("weight").error(
                entry.weight,
                sentence("this is not a mass"),
                sentence("weigh one and enter grams, such as '120 g'"),
            )
        elif entry.weight.number == 0:
            yield below.field("weight").error(
                entry.weight,
                sentence("a piece of no weight"),
                sentence("weigh one and enter grams, such as '120 g'"),
            )


def _purchase(place: Place, food: Ingredient, measuring: Measuring) -> Iterator[FileError]:
    unit, holds = food.purchase.unit, food.purchase.holds
    yield from _writable(place.field("unit"), unit)
    entered = any(entry.unit == unit for entry in food.weights)
    if holds.unit == unit and standard_unit(unit) is None and not entered:
        yield place.field("holds").error(
            holds,
            sentence("this says a '{unit}' by itself", unit=unit),
            sentence(
                "say what one '{unit}' holds by weight, or enter its weight under "
                "weights of '{id}'",
                unit=unit,
                id=food.id,
            ),
        )
        return
    broken = tuple(measuring.amount(place.field("holds"), food.id, holds))
    yield from broken
    if not broken and (entered or standard_unit(unit) is not None):
        yield from _agreeing(place.field("holds"), food, measuring)


def _agreeing(place: Place, food: Ingredient, measuring: Measuring) -> Iterator[FileError]:
    """A pack whose unit has a weight already must hold just that weight."""
    unit, holds = food.purchase.unit, food.purchase.holds
    try:
        one = measuring.converter.grams_per(food.id, unit)
        held = measuring.converter.grams(food.id, holds)
    except ConversionError:
        return
    if not math.isclose(one, held, rel_tol=_SAME):
        yield place.error(
            holds,
            sentence(
                "one '{unit}' of {food} weighs {n:g} g elsewhere and {n_2:g} g here",
                unit=unit,
                food=food.name,
                n=one,
                n_2=held,
            ),
            sentence("enter one weight, or give the pack a name of its own, such as case"),
        )
