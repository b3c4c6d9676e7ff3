"""What is true of one simulated kitchen, and what each of its days brings.

Every draw is named by seed, day and what it is for, so that two ways to plan meet the same guests,
the same bags of onions and the same hands, whatever they asked for before: common random numbers.
Truth lies evenly about the file. A kitchen whose handbook flatters it would gain more by learning.
"""

import math
import random
from collections.abc import Mapping
from dataclasses import dataclass, replace

from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.rates.types import Key
from planner.yields.keys import YieldKey, yields_of
from tests.bench.learning.house import COVERS


@dataclass(frozen=True, slots=True)
class Spreads:
    """How far truth lies from the file, and how days and loads differ; all invented.

    Attributes
    ----------
    kitchen
        A yield of the kitchen about the file's, in points of one hundred (in proportion for what
        swells).
    day, load
        The same of a day's crate about the kitchen's, and of a load of a kilogram about that.
    level, weekday, guests
        Logarithms: all guests, each weekday's and one day's about what is believed.
    mix
        Logarithm of a dish's share.
    rate, set_up, cook, batch
        Logarithms of minutes: of a rate, a set-up, a cook and one batch.
    drift
        Points that a yield moves, for better or worse, with a new crop.
    """

    kitchen: float = 0.05
    day: float = 0.015
    load: float = 0.025
    level: float = 0.07
    weekday: float = 0.06
    guests: float = 0.10
    mix: float = 0.20
    rate: float = 0.35
    set_up: float = 0.40
    cook: float = 0.15
    batch: float = 0.20
    drift: float = 0.06

    def none(self) -> "Spreads":
        """A world that is as the file says, every day."""
        return Spreads(*(0.0 for _ in self.__slots__))


WORLD = Spreads()
_CROPS = 3
"""Yields that change where there is a new crop."""
_NEW_CROP = (20, 40)
_LEAST, _MOST = 0.3, 0.99


@dataclass(frozen=True, slots=True)
class Truth:
    """One kitchen.

    Attributes
    ----------
    yields, later
        Mass out / mass in of one load in the mean; ``later`` from day ``changes`` on (None: never).
    minutes
        Factors on the file's rates and set-ups, and on cooks' minutes by skill; made as asked for.
    """

    seed: int
    spreads: Spreads
    yields: Mapping[YieldKey, float]
    later: Mapping[YieldKey, float]
    changes: int | None
    covers: tuple[float, ...]
    mix: Mapping[str, float]

    def gauss(self, what: str) -> float:
        """A standard normal draw of its own for ``what``."""
        # Text seeds are hashed the same everywhere.
        return random.Random(f"{self.seed} {what}").gauss(0.0, 1.0)  # noqa: S311 - no secret

    def usual_yield(self, day: int, key: YieldKey) -> float:
        """The mean yield of a day: the kitchen's, its crate's with it."""
        new = self.changes is not None and day >= self.changes
        mean = (self.later if new else self.yields)[key]
        return _bounded(mean, mean + self.spreads.day * _size(mean) * self.gauss(f"{day} {key}"))

    def load_yield(self, day: int, key: YieldKey, grams: float, which: str) -> float:
        """The yield of one load of ``grams``."""
        mean = self.usual_yield(day, key)
        sd = self.spreads.load * _size(mean) / math.sqrt(max(grams, 100.0) / 1000)
        return _bounded(mean, mean + sd * self.gauss(f"{day} {key} {which}"))

    def rate_factor(self, key: Key) -> float:
        """True minutes per unit / the file's."""
        return self._factor(self.spreads.rate, f"rate {key.operation} {key.food} {key.step}")

    def set_up_factor(self, operation: str) -> float:
        """True minutes of a set-up / the file's."""
        return self._factor(self.spreads.set_up, f"set-up {operation}")

    def slowness(self, cook: str, skill: str) -> float:
        """A cook's minutes / those that the file takes for granted."""
        return self._factor(self.spreads.cook, f"slowness {cook} {skill}")

    def batch_factor(self, day: int, which: str) -> float:
        """One batch's minutes / those of its figures."""
        return self._factor(self.spreads.batch, f"{day} batch {which}")

    def orders(self, day: int, weekday: int) -> tuple[int, tuple[str, ...]]:
        """(guests, dishes they order in the order in which they come)."""
        dice = random.Random(f"{self.seed} {day} orders")  # noqa: S311 - a draw, no secret
        spread = self.spreads.guests
        mean = self.covers[weekday]
        if spread == 0:
            guests = round(mean)
            ordered = [dish for dish, m in self.mix.items() for _ in range(round(guests * m))]
        else:
            guests = max(0, round(mean * math.exp(spread * dice.gauss(0, 1) - spread**2 / 2)))
            ordered = [
                dish
                for dish, share in self.mix.items()
                for _ in range(guests)
                if dice.random() < share
            ]
        dice.shuffle(ordered)
        return guests, tuple(ordered)

    def _factor(self, spread: float, what: str) -> float:
        return math.exp(spread * self.gauss(what)) if spread else 1.0


def truth_of(kitchen: Kitchen, seed: int, spreads: Spreads = WORLD) -> Truth:
    """Draw one kitchen about its file. Every other one gets a new crop on the way."""
    blank = Truth(seed, spreads, {}, {}, None, (), {})
    book = {key: one.usual.fraction for key, one in yields_of(Catalog(kitchen)).items()}
    learnable = {key: value for key, value in book.items() if not math.isclose(value, 1.0)}
    yields = dict(book)
    for key, value in learnable.items():
        yields[key] = _bounded(
            value, value + spreads.kitchen * _size(value) * blank.gauss(f"{key}")
        )
    dice = random.Random(f"{seed} crop")  # noqa: S311 - a draw, no secret
    changes = dice.randint(*_NEW_CROP) if seed % 2 and spreads.drift else None
    later = dict(yields)
    if changes is not None:
        for key in dice.sample(sorted(learnable), _CROPS):
            moved = dice.choice((-1, 1)) * spreads.drift * _size(yields[key])
            later[key] = _bounded(yields[key], yields[key] + moved)
    (service,) = kitchen.services
    level = spreads.level * blank.gauss("level")
    return replace(
        blank,
        yields=yields,
        later=later,
        changes=changes,
        covers=tuple(
            believed * math.exp(level + spreads.weekday * blank.gauss(f"weekday {n}"))
            for n, believed in enumerate(COVERS)
        ),
        mix={
            line.dish: min(
                0.9, line.per_cover * math.exp(spreads.mix * blank.gauss(f"mix {line.dish}"))
            )
            for line in service.mix
        },
    )


def _size(fraction: float) -> float:
    """What swells varies in proportion."""
    return max(1.0, fraction)


def _bounded(mean: float, value: float) -> float:
    """No food comes out of a trim heavier than it went in."""
    return max(_LEAST, value) if mean > 1 else min(max(_LEAST, value), max(_MOST, mean))
