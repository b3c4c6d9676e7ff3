"""Finished food on the shelf: what guests take of it, what keeps and what is thrown away. Grams."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.kitchen.base import Amount
from planner.kitchen.day import PreparedStock

_CRUMB = 0.5
"""Grams: nobody counts or misses less."""


@dataclass(slots=True)
class Held:
    """Food of one making; ``raw`` is grams as purchased that went into a gram of it."""

    component: str
    grams: float
    made: dt.date
    use_by: dt.date
    raw: float


@dataclass(frozen=True, slots=True)
class Served:
    """A service: portions sold by dish, orders turned away, components and dishes that ran out."""

    sold: Mapping[str, int]
    turned_away: int
    ran_out: frozenset[str]
    out: frozenset[str]


@dataclass
class Shelf:
    """All finished food, what goes off first in front."""

    held: list[Held] = field(default_factory=list)

    def put(self, one: Held) -> None:
        """Add food of one making."""
        if one.grams > _CRUMB:
            self.held.append(one)
            self.held.sort(key=lambda held: held.use_by)

    def grams(self, component: str) -> float:
        """What there is of a component."""
        return sum(one.grams for one in self.held if one.component == component)

    def take(self, component: str, grams: float) -> tuple[float, float]:
        """Take up to ``grams``: (grams taken, raw grams that went into them)."""
        taken = raw = 0.0
        for one in self.held:
            if one.component == component and taken < grams:
                part = min(one.grams, grams - taken)
                one.grams -= part
                taken += part
                raw += part * one.raw
        return taken, raw

    def serve(
        self, orders: tuple[str, ...], dishes: Mapping[str, Mapping[str, float]]
    ) -> tuple[Served, float]:
        """Guests in their order; who finds something missing is turned away: (result, raw eaten).

        A dish goes out where all that it takes is there, else nothing of it does.
        """
        there = {one.component: 0.0 for one in self.held}
        for one in self.held:
            there[one.component] += one.grams
        eaten: dict[str, float] = defaultdict(float)
        sold: dict[str, int] = defaultdict(int)
        lacking: set[str] = set()
        out: set[str] = set()
        away = 0
        for dish in orders:
            takes = dishes[dish]
            missing = [
                item
                for item, grams in takes.items()
                if there.get(item, 0.0) - eaten[item] < grams - _CRUMB
            ]
            if missing:
                away += 1
                lacking.update(missing)
                out.add(dish)
                continue
            sold[dish] += 1
            for item, grams in takes.items():
                eaten[item] += grams
        raw = sum(self.take(item, grams)[1] for item, grams in eaten.items())
        return Served(dict(sold), away, frozenset(lacking), frozenset(out)), raw

    def clear(self, today: dt.date) -> float:
        """Throw away what may not be used tomorrow: raw grams that went into it."""
        gone = [one for one in self.held if one.use_by <= today]
        self.held = [one for one in self.held if one.use_by > today and one.grams > _CRUMB]
        return sum(one.grams * one.raw for one in gone)

    def counted(self) -> tuple[PreparedStock, ...]:
        """The shelf as it is counted in the morning, to the gram."""
        return tuple(
            PreparedStock(
                item=one.component,
                amount=Amount(float(int(one.grams)), "g"),
                made=one.made,
                use_by=one.use_by,
            )
            for one in self.held
            if one.grams >= 1
        )
