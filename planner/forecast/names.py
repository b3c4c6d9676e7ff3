"""A history's names as the kitchen has them; what nobody knows is asked about, never guessed."""

import difflib
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.forecast.history import COVERS, Sale
from planner.kitchen.document import Kitchen

LEFT_OUT = ""
"""An answer: lines of that name are not kept."""
SERVICE, DISH = "service", "dish"
_NEAR = 3

Answers = Mapping[tuple[str, str], str]
"""(service or dish, what the history calls it) -> what the kitchen calls it, or ``LEFT_OUT``; its
own name where it is kept as it is, such as a dish that is no longer made."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """A name that neither the kitchen file nor the kept history has; ``near`` look like it.

    ``line`` is the first that has it, of ``lines``.
    """

    field: str
    value: str
    line: int
    lines: int
    near: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KnownNames:
    """Services by name and dishes by id, with what a history may call them, in lower case."""

    services: Mapping[str, str]
    dishes: Mapping[str, str]

    def of(self, field: str) -> Mapping[str, str]:
        """Of one of the two."""
        return self.services if field == SERVICE else self.dishes


@dataclass(frozen=True, slots=True)
class Settled:
    """Lines in the kitchen's names, what nobody knows, and how many lines were left out."""

    sales: tuple[Sale, ...]
    unknown: tuple[Unknown, ...]
    left_out: int


def known_names(kitchen: Kitchen, kept: Iterable[tuple[str, str]] = ()) -> KnownNames:
    """Names of the kitchen file and of ``kept`` (service, dish): ids and names, however written.

    Services of a name are one, whatever day they are on.
    """
    services: dict[str, str] = {}
    dishes = {_folded(COVERS): COVERS}
    for service, dish in kept:
        services[_folded(service)] = service
        dishes[_folded(dish)] = dish
    for one in kitchen.services:
        services[_folded(one.id)] = services[_folded(one.name)] = one.name
    for plate in kitchen.dishes:
        dishes[_folded(plate.name)] = plate.id
    # An id says more surely what is meant than another dish's name.
    dishes |= {_folded(plate.id): plate.id for plate in kitchen.dishes}
    return KnownNames(services, dishes)


def settled(sales: Sequence[Sale], known: KnownNames, answers: Answers) -> Settled:
    """Give lines the kitchen's names.

    Lines that an answer puts under one name are summed; that others repeat each other is for
    ``history_of`` to find.
    """
    asked: Counter[tuple[str, str]] = Counter()
    first: dict[tuple[str, str], int] = {}
    found: list[Sale] = []
    summed: dict[tuple[object, ...], int] = {}
    left_out = 0
    for sale in sales:
        said = {SERVICE: sale.service, DISH: sale.dish}
        names: dict[str, str] = {}
        for field, value in said.items():
            name = answers.get((field, value), known.of(field).get(_folded(value)))
            if name is None:
                asked[field, value] += 1
                first.setdefault((field, value), sale.line)
            else:
                names[field] = name
        if LEFT_OUT in names.values():
            left_out += 1
        elif len(names) == len(said):
            one = replace(sale, service=names[SERVICE], dish=names[DISH])
            if any((field, value) in answers for field, value in said.items()):
                key = (one.date, one.service, one.dish)
                if key in summed:
                    at = summed[key]
                    found[at] = replace(found[at], count=found[at].count + one.count)
                    continue
                summed[key] = len(found)
            found.append(one)
    unknown = tuple(
        Unknown(field, value, first[field, value], lines, _near(value, known.of(field)))
        for (field, value), lines in asked.items()
    )
    return Settled(tuple(found), unknown, left_out)


def _near(value: str, known: Mapping[str, str]) -> tuple[str, ...]:
    close = difflib.get_close_matches(_folded(value), list(known), n=_NEAR)
    return tuple(dict.fromkeys(known[one] for one in close))


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()
