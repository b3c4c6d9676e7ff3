"""Every id that is referred to exists and is of the right kind."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, Place, places, suggestion
from planner.wording import counted, sentence

_NO_STATION = sentence("no station has this id")
_NO_CUT = sentence("no cut has this id")


def check_references(catalog: Catalog) -> Iterator[FileError]:
    """Yield each reference to what is not there, with the id that looks most like it."""
    yield from _operations(catalog)
    yield from _components(catalog)
    yield from _dishes_and_services(catalog)
    yield from _cooks(catalog)
    yield from _walks(catalog)
    yield from _stock(catalog)


def _missing(
    place: Place, value: str, wrong: str, known: Collection[str], list_names: str
) -> Iterator[FileError]:
    if value not in known:
        yield place.error(
            value,
            wrong,
            suggestion(value, known)
            + sentence("use the id of one, or add it under {list_names}", list_names=list_names),
        )


def _food(catalog: Catalog, place: Place, value: str) -> Iterator[FileError]:
    yield from _missing(
        place,
        value,
        sentence("no ingredient or component has this id"),
        catalog.foods,
        sentence("ingredients or components"),
    )


def _by_product(catalog: Catalog, place: Place, value: str) -> Iterator[FileError]:
    ingredient = catalog.ingredients.get(value)
    if ingredient is None:
        known = [item for item, food in catalog.ingredients.items() if food.by_product]
        yield from _missing(
            place, value, sentence("no by-product has this id"), known, "ingredients"
        )
    elif not ingredient.by_product:
        yield place.error(
            value,
            sentence("{ingredient} is bought, not a by-product", ingredient=ingredient.name),
            sentence("mark '{value}' with by_product: true, or name another", value=value),
        )


def _operations(catalog: Catalog) -> Iterator[FileError]:
    for place, operation in places("operations", catalog.kitchen.operations):
        yield from _missing(
            place.field("station"), operation.station, _NO_STATION, catalog.stations, "stations"
        )
        for below, rate in place.items("rates", operation.rates):
            yield from _food(catalog, below.field("food"), rate.food)
        for below, entry in place.items("yields", operation.yields):
            yield from _food(catalog, below.field("food"), entry.food)
            if entry.cut is not None:
                yield from _missing(below.field("cut"), entry.cut, _NO_CUT, catalog.cuts, "cuts")
            for deeper, trim in below.items("trim", entry.trim):
                yield from _by_product(catalog, deeper.field("item"), trim.item)
        for below, use in place.items("equipment", operation.equipment):
            yield from _missing(
                below.field("equipment"),
                use.equipment,
                sentence("no equipment has this id"),
                catalog.equipment,
                "equipment",
            )


def _components(catalog: Catalog) -> Iterator[FileError]:
    for place, component in places("components", catalog.kitchen.components):
        for below, entry in place.items("inputs", component.inputs):
            yield from _food(catalog, below.field("item"), entry.item)
            yield from _in_stock(catalog, below.field("item"), entry.item)
            for deeper, item in below.items("may_use", entry.may_use):
                yield from _by_product(catalog, deeper, item)
        for below, step in place.items("route", component.route):
            yield from _missing(
                below.field("operation"),
                step.operation,
                sentence("no operation has this id"),
                catalog.operations,
                "operations",
            )
            if step.cut is not None:
                yield from _missing(below.field("cut"), step.cut, _NO_CUT, catalog.cuts, "cuts")


def _in_stock(catalog: Catalog, place: Place, item: str) -> Iterator[FileError]:
    """A by-product is never bought: alone it serves only where some of it was counted."""
    ingredient = catalog.ingredients.get(item)
    if ingredient is None or not ingredient.by_product:
        return
    if all(stock.item != item for stock in catalog.kitchen.raw_stock):
        yield place.error(
            item,
            sentence(
                "{ingredient} is a by-product, which is never bought, and none is in stock",
                ingredient=ingredient.name,
            ),
            sentence(
                "name a bought food here and put '{item}' under may_use, or count it in raw_stock",
                item=item,
            ),
        )


def _dishes_and_services(catalog: Catalog) -> Iterator[FileError]:
    for place, dish in places("dishes", catalog.kitchen.dishes):
        for below, portion in place.items("components", dish.components):
            yield from _food(catalog, below.field("item"), portion.item)
            yield from _in_stock(catalog, below.field("item"), portion.item)
    for place, service in places("services", catalog.kitchen.services):
        for below, line in place.items("mix", service.mix):
            yield from _missing(
                below.field("dish"),
                line.dish,
                sentence("no dish has this id"),
                catalog.dishes,
                "dishes",
            )


def _cooks(catalog: Catalog) -> Iterator[FileError]:
    for place, cook in places("cooks", catalog.kitchen.cooks):
        for below, station in place.items("stations", cook.stations or ()):
            yield from _missing(below, station, _NO_STATION, catalog.stations, "stations")
        if cook.learns_from is not None:
            yield from _missing(
                place.field("learns_from"),
                cook.learns_from,
                sentence("no cook has this id"),
                catalog.cooks,
                "cooks",
            )


def _walks(catalog: Catalog) -> Iterator[FileError]:
    """Pairs of stations that are there, each pair once."""
    place = Place("rules").field("changeovers")
    seen: dict[frozenset[str], str] = {}
    for below, walk in place.items("walks", catalog.kitchen.rules.changeovers.walks):
        for name in ("station", "other"):
            yield from _missing(
                below.field(name), getattr(walk, name), _NO_STATION, catalog.stations, "stations"
            )
        pair = frozenset((walk.station, walk.other))
        if len(pair) == 1:
            yield below.field("other").error(
                walk.other,
                sentence("this is the same station"),
                sentence("name the one at the other end of the way"),
            )
        elif pair in seen:
            yield below.field("other").error(
                walk.other,
                sentence("the same two stations stand at {path}", path=seen[pair]),
                sentence("keep one of them"),
            )
        seen.setdefault(pair, below.path)


def _stock(catalog: Catalog) -> Iterator[FileError]:
    for place, prepared in places("prepared", catalog.kitchen.prepared):
        component = catalog.components.get(prepared.item)
        if component is None:
            yield from _misplaced(place, prepared.item, _COMPONENT, catalog)
        elif prepared.after_step is not None and prepared.after_step >= len(component.route):
            steps = len(component.route)
            yield place.field("after_step").error(
                prepared.after_step,
                sentence(
                    "the route of {component} has {steps}, so nothing is left to do after this one",
                    component=component.name,
                    steps=counted("{n} step", "{n} steps", steps),
                ),
                sentence(
                    "leave after_step out where it is finished; else count the steps already done"
                ),
            )
    for list_name in ("raw_stock", "deliveries"):
        for place, stock in places(list_name, getattr(catalog.kitchen, list_name)):
            if stock.item not in catalog.ingredients:
                yield from _misplaced(place, stock.item, _INGREDIENT, catalog)


@dataclass(frozen=True, slots=True)
class _Kind:
    """A kind of food: its list, and what is said where food of the other kind stands instead."""

    lists: str
    none: str
    other: str
    remedy: str


_COMPONENT = _Kind(
    "components",
    sentence("no component has this id"),
    sentence("this is an ingredient"),
    sentence("count it under raw_stock, or name the component meant"),
)
_INGREDIENT = _Kind(
    "ingredients",
    sentence("no ingredient has this id"),
    sentence("this is a component"),
    sentence("count it under prepared, or name the ingredient meant"),
)


def _misplaced(place: Place, item: str, kind: _Kind, catalog: Catalog) -> Iterator[FileError]:
    below = place.field("item")
    known, others = catalog.components, catalog.ingredients
    if kind is _INGREDIENT:
        yield from _food_of(below, item, kind, others, known)
    else:
        yield from _food_of(below, item, kind, known, others)


def _food_of(
    place: Place, item: str, kind: _Kind, known: Collection[str], others: Collection[str]
) -> Iterator[FileError]:
    if item in others:
        yield place.error(item, kind.other, kind.remedy)
    else:
        yield from _missing(place, item, kind.none, known, kind.lists)
