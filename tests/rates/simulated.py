"""Kitchens with known figures, and mornings ticked in them, to hold what is learned against."""

import math
from dataclasses import dataclass

import numpy as np

from planner.rates.fit import Beliefs
from planner.rates.types import Book, Key, Kind, Observation

SKILL = "knife"


@dataclass(frozen=True)
class Ticked:
    """A simulated kitchen: the truth, the file's figures, and what was ticked."""

    truth: dict[Key, float]
    books: dict[Key, Book]
    observations: tuple[Observation, ...]
    wrong: frozenset[int]
    """Indexes of the batches that were ticked wrongly."""


def cook_key(cook: str) -> Key:
    return Key(Kind.SLOWNESS, cook=cook, skill=SKILL)


def ticked_kitchen(
    seed: int,
    *,
    batches: int = 60,
    operations: int = 2,
    foods: int = 3,
    cooks: int = 3,
    forgotten: float = 0.05,
    shared: float = 0.05,
    held: Beliefs | None = None,
) -> Ticked:
    """A kitchen drawn about its file as the beliefs say, some ticks hours late or all at once."""
    dice = np.random.default_rng(seed)
    beliefs = held or Beliefs()
    set_ups = [Key(Kind.SET_UP, operation=f"work{i}") for i in range(operations)]
    rates = [
        Key(Kind.RATE, operation=f"work{i}", food=f"food{j}")
        for i in range(operations)
        for j in range(foods)
    ]
    people = [cook_key(f"cook{i}") for i in range(cooks)]
    books = {
        **{key: Book(key, float(dice.uniform(1, 5))) for key in set_ups},
        **{key: Book(key, float(dice.uniform(2, 12))) for key in rates},
        **{key: Book(key, float(dice.uniform(0.8, 1.25))) for key in people},
    }
    between = math.sqrt(
        beliefs.cooks_weight * beliefs.cooks**2 / dice.chisquare(beliefs.cooks_weight)
    )
    sds = {Kind.SET_UP: beliefs.set_up, Kind.RATE: beliefs.rate, Kind.SLOWNESS: between}
    truth = {
        key: book.value * math.exp(dice.normal(0, sds[key.kind])) for key, book in books.items()
    }
    spread = math.sqrt(
        beliefs.spread_weight * beliefs.spread**2 / dice.chisquare(beliefs.spread_weight)
    )
    found, wrong = [], set()
    for index in range(batches):
        rate = rates[dice.integers(len(rates))]
        set_up = set_ups[int(rate.operation[4:])] if dice.random() < 0.8 else None
        cook = people[dice.integers(len(people))]
        units = float(dice.uniform(0.3, 6))
        minutes = units * truth[rate] * truth[cook]
        minutes += truth[set_up] if set_up else 0.0
        minutes *= math.exp(dice.normal(0, spread))
        luck = dice.random()
        if luck < forgotten:
            minutes += float(dice.uniform(30, 240))
        elif luck < forgotten + shared:
            minutes = float(dice.uniform(0, 1))
        if luck < forgotten + shared:
            wrong.add(index)
        found.append(Observation(SKILL, cook, rate, set_up, units, minutes, source=f"b{index}"))
    return Ticked(truth, books, tuple(found), frozenset(wrong))
