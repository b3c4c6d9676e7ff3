"""What the cooks tell of a morning: ticks and weights, some of them wrong."""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from planner.floor.ticks import Act, Tick, Weighed, Weight
from planner.lots.types import Lot
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from tests.bench.learning.clocked import Clocked
from tests.bench.learning.cooked import Cooked
from tests.bench.learning.truth import Truth


@dataclass(frozen=True, slots=True)
class Slips:
    """Shares of batches that are weighed, and of what goes wrong; grams. All invented.

    ``unticked`` are not ticked at all, ``forgotten`` ticked done half an hour to four hours late,
    ``together`` begun and done in one. ``tare``: the container was weighed with the food, half the
    time that of what came out; ``unit``: ounces were typed in as grams.
    """

    weighed: float = 0.5
    division: float = 5.0
    unticked: float = 0.05
    forgotten: float = 0.05
    together: float = 0.03
    tare: float = 0.04
    unit: float = 0.02


SLIPS = Slips()
_OUNCE = 28.349523125
"""Grams: NIST Handbook 44, Appendix C."""
_TARES = (250.0, 1500.0)
_LATE = (30.0, 240.0)


@dataclass(frozen=True, slots=True)
class Told:
    """Ticks of a day, and the keys of the tests whose weights are wrong."""

    ticks: tuple[Tick, ...]
    wrong: frozenset[str]


def told(
    sheet: KitchenSheet,
    lots: dict[str, Lot],
    truth: Truth,
    day: int,
    cooked: Cooked,
    clocked: Clocked,
    slips: Slips = SLIPS,
) -> Told:
    """Ticks and weights of every batch of the day."""
    ticks: list[Tick] = []
    wrong: set[str] = set()
    for cook in sheet.cooks:
        for batch in cook.batches:
            if batch.part != "work":
                continue
            name = f"{day} {batch.operation} {'+'.join(batch.components)} {batch.tasks[0].lot}"
            dice = random.Random(f"{truth.seed} told {name}")  # noqa: S311 - a draw, no secret
            key = f"{day:02d}-{batch.cook}-{batch.number:02d}"
            ticks += _timed(batch, key, dice, clocked, slips)
            if dice.random() < slips.weighed:
                weights, bad = _weights(batch, lots, dice, cooked, slips)
                ids = tuple(task.id for task in batch.tasks)
                at = clocked.ends[batch.tasks[-1].task]
                ticks += [
                    Tick(f"{key}-{w.kind.value}", Act.WEIGHED, at, batch.cook, ids, weight=w)
                    for w in weights
                ]
                if bad:
                    wrong.add(f"floor-{sheet.date}-{key}-{Weighed.GROSS.value}")
    return Told(tuple(ticks), frozenset(wrong))


def _timed(
    batch: SheetBatch, key: str, dice: random.Random, clocked: Clocked, slips: Slips
) -> Iterator[Tick]:
    luck, late = dice.random(), dice.uniform(*_LATE)
    ids = tuple(task.id for task in batch.tasks)
    first, last = batch.tasks[0].task, batch.tasks[-1].task
    begun = clocked.starts[first] - clocked.set_ups[first]
    done = clocked.ends[last]
    if luck < slips.unticked:
        return
    if luck < slips.unticked + slips.forgotten:
        done += late
    elif luck < slips.unticked + slips.forgotten + slips.together:
        begun = done - 0.2
    yield Tick(f"{key}-begun", Act.BEGUN, begun, batch.cook, ids)
    yield Tick(f"{key}-done", Act.DONE, done, batch.cook, ids)


def _weights(
    batch: SheetBatch, lots: dict[str, Lot], dice: random.Random, cooked: Cooked, slips: Slips
) -> tuple[tuple[Weight, Weight], bool]:
    """(gross and usable as the scale and the cook have them, whether they are wrong)."""
    worked = {task.lot for task in batch.tasks}
    gross = sum(cooked.grams_in[lots[lot].index] for lot in worked)
    usable = sum(cooked.grams_out[lots[lot].index] for lot in worked)
    luck, tare, of_gross = dice.random(), dice.uniform(*_TARES), dice.random() < 0.5
    bad = luck < slips.tare + slips.unit
    if luck < slips.tare:
        gross, usable = (gross + tare, usable) if of_gross else (gross, usable + tare)
    elif bad:
        gross, usable = (gross / _OUNCE, usable) if of_gross else (gross, usable / _OUNCE)
    step = slips.division
    shown = [step * round(grams / step) for grams in (gross, usable)]
    return (Weight(Weighed.GROSS, shown[0]), Weight(Weighed.USABLE, shown[1])), bad
