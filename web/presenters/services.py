"""Services with expected portions, buffer and total apart."""

from dataclasses import dataclass

from planner.sheet.types import KitchenSheet, ServiceLine
from web.language import ngettext
from web.presenters.clock import clock, short_date
from web.presenters.preferences import Preferences
from web.presenters.quantities import portions


@dataclass(frozen=True, slots=True)
class DishView:
    """One dish of a service.

    ``expected`` is whole, so that it and ``buffer`` add up to ``total``; ``forecast`` is what it
    was rounded up from, empty where that was whole.
    """

    name: str
    expected: str
    forecast: str
    buffer: str
    total: str


@dataclass(frozen=True, slots=True)
class ServiceView:
    """One service. ``date`` is empty where it is on the day of the sheet."""

    name: str
    date: str
    covers: str
    due: str
    doors: str
    dishes: tuple[DishView, ...]


def service_views(sheet: KitchenSheet, preferences: Preferences) -> tuple[ServiceView, ...]:
    """All services of the sheet, as given."""
    return tuple(_service(service, sheet, preferences) for service in sheet.services)


def _service(service: ServiceLine, sheet: KitchenSheet, preferences: Preferences) -> ServiceView:
    return ServiceView(
        name=service.name,
        date="" if service.date == sheet.date else short_date(service.date),
        covers=ngettext("%(n)s cover", "%(n)s covers", service.covers),
        # The date stands beside the name, so the times need not say the day again.
        due=clock(service.due, preferences).time,
        doors=clock(service.doors, preferences).time,
        dishes=tuple(
            _dish(name, expected, buffer, total) for name, expected, buffer, total in service.dishes
        ),
    )


def _dish(name: str, expected: float, buffer: int, total: int) -> DishView:
    whole, forecast = str(total - buffer), portions(expected)
    return DishView(
        name=name,
        expected=whole,
        forecast=forecast if forecast != whole else "",
        buffer=f"{buffer:+}" if buffer else "0",
        total=str(total),
    )
