"""Dishes that a batch is for: in full on a screen, in few words on paper."""

import re

from web.language import _, ngettext

_NAMED = 3
"""On paper more dishes than this are counted by service; starting guess."""

_BRACKETS = re.compile(r"\([^)]*\)")


def dish_text(dishes: tuple[str, ...]) -> str:
    """Dishes, each named once with its services: ``Soup (Lunch, Dinner); Tart (Dinner)``."""
    services: dict[str, list[str]] = {}
    for text in dishes:
        dish, service = _parted(text)
        found = services.setdefault(dish, [])
        if service:
            found.append(service)
    return "; ".join(
        f"{dish} ({_services(found)})" if found else dish for dish, found in services.items()
    )


def dish_words(dishes: tuple[str, ...]) -> str:
    """Services with the first words of their dishes, or how many they are.

    ``Lunch, Dinner: Onion soup; Banquet: Smoked fish``, and where more than three are to be named
    ``Lunch: 4 dishes; Dinner: 2 dishes``. Containers and labels say what the food is; the dishes
    stand in full on the kitchen page.
    """
    by_service: dict[str, list[str]] = {}
    for text in dict.fromkeys(dishes):
        dish, service = _parted(text)
        by_service.setdefault(service, []).append(_first_words(dish, service))
    by_dishes: dict[tuple[str, ...], list[str]] = {}
    for service, found in by_service.items():
        by_dishes.setdefault(tuple(found), []).append(service)
    if sum(map(len, by_dishes)) > _NAMED:
        return "; ".join(
            _of([service], ngettext("%(n)s dish", "%(n)s dishes", len(found)))
            for service, found in by_service.items()
        )
    return "; ".join(_of(services, ", ".join(found)) for found, services in by_dishes.items())


def _of(services: list[str], words: str) -> str:
    named = _services(list(filter(None, services)), f" {_('and')} ")
    return f"{named}: {words}" if named else words


def _services(names: list[str], apart: str = "; ") -> str:
    """Names of services; ``apart`` keeps them so where one has a comma, as in ``Dinner, Thu``."""
    return (apart if any("," in name for name in names) else ", ").join(names)


def _parted(text: str) -> tuple[str, str]:
    """Dish and service of ``Soup (thick) (Lunch)``; no service where no bracket ends the text."""
    dish, bracket, service = text.removesuffix(")").rpartition(" (")
    return (dish, service) if bracket and text.endswith(")") else (text, "")


def _first_words(dish: str, service: str) -> str:
    """``Banquet: roast beet, goat cheese (no nuts)`` of a banquet: ``roast beet (no nuts)``.

    What stands in brackets stays, for it tells apart what else would read the same.
    """
    head, colon, rest = dish.partition(": ")
    if colon and service.startswith(head):
        dish = rest
    words, _comma, tail = dish.partition(",")
    return " ".join([words, *_BRACKETS.findall(tail)])
