"""Work that an earlier day should have begun: which steps, on which lots, how many days ago."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.lots.types import Lot, Workload
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.timing import timings


@dataclass(frozen=True, slots=True)
class EarlyStart:
    """First steps of a component that do not fit into the planned day before it is wanted."""

    name: str
    steps: str
    """Names of their operations, in order."""
    days: int
    """How many days before the planned one the first of them had to start."""
    lots: set[int]
    alone: bool
    """Whether some of it is done by itself: then the start is missed, not only the hands."""


def started_earlier(kit: Kitchenry, workload: Workload) -> Iterator[EarlyStart]:
    """Every component whose start was missed, whether it keeps as finished food or not.

    What must be fresh may well be thawed, soaked or brined the day before.
    """
    missed: dict[str, list[Lot]] = defaultdict(list)
    for lot in workload.lots:
        if lot.missed and len(lot.shares) == 1:
            missed[lot.shares[0].component].append(lot)
    for component, lots in missed.items():
        spec = kit.catalog.components[component]
        last = max(lot.step for lot in lots)
        grams = sum(lot.grams_out for lot in lots if lot.step == last)
        timed = timings(
            kit.calendar, kit.flows, kit.efforts, spec, grams, min(lot.due for lot in lots)
        )
        early = [step for step, timing in enumerate(timed) if timing.day < 0]
        gone = {lot.index for lot in lots if lot.step in early}
        if gone:
            names = [kit.catalog.operations[spec.route[step].operation].name for step in early]
            alone = any(kit.efforts.of(spec, step).unattended for step in early)
            yield EarlyStart(spec.name, ", ".join(names), -timed[early[0]].day, gone, alone)
