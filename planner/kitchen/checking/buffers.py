"""A buffer is set one way only, so that nothing entered is passed over in silence."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.day import Service
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Dish
from planner.wording import sentence


def check_buffers(catalog: Catalog) -> Iterator[FileError]:
    """Yield each setting of a buffer that another one would overrule, or that lacks its other half.

    A dish's costs do stand beside a service's level: they are the dish's own.
    """
    for place, dish in places("dishes", catalog.kitchen.dishes):
        yield from _costs(place, dish)
    for place, service in places("services", catalog.kitchen.services):
        if service.guaranteed:
            yield from _guaranteed(place, service)
        else:
            yield from _forecast(place, service)


def _costs(place: Place, dish: Dish) -> Iterator[FileError]:
    costs = {"shortage_cost": dish.shortage_cost, "leftover_cost": dish.leftover_cost}
    missing = [name for name, cost in costs.items() if cost is None]
    if len(missing) == 1:
        yield place.field(missing[0]).error(
            None,
            sentence(
                "the two costs of a dish are weighed against each other, and this one is missing"
            ),
            sentence("enter it, or leave both out"),
        )
    elif not missing and not any(costs.values()):
        yield place.field("shortage_cost").error(
            dish.shortage_cost,
            sentence("a portion short costs nothing, and neither does one left over"),
            sentence("enter what they cost, or leave both out"),
        )


def _guaranteed(place: Place, service: Service) -> Iterator[FileError]:
    for name in ("covers_spread", "service_level", "buffer_fraction"):
        value = getattr(service, name)
        if value is not None:
            yield place.field(name).error(
                value,
                sentence("a guaranteed count is no forecast: its buffer is the overset agreed"),
                sentence("leave this out and enter the overset, or leave guaranteed out"),
            )


def _forecast(place: Place, service: Service) -> Iterator[FileError]:
    if service.overset:
        yield place.field("overset").error(
            service.overset,
            sentence("an overset is agreed above a guaranteed count, and this is a forecast"),
            sentence("mark the service with guaranteed: true, or leave the overset out"),
        )
    if service.buffer_fraction is not None and service.service_level is not None:
        yield place.field("buffer_fraction").error(
            service.buffer_fraction,
            sentence("the service_level {n:g} sets a buffer already", n=service.service_level),
            sentence("keep one of the two"),
        )
