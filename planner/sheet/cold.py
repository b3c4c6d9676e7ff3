"""By when food that came hot from the heat must be cold, by the clock of this plan."""

from collections.abc import Iterable

from planner.clock import clock
from planner.kitchen.cooling import CoolingChain
from planner.kitchen.safety import fahrenheit
from planner.lots.cooling import chains_into
from planner.lots.types import Lot, Part
from planner.sheet.view import PlanView
from planner.wording import degrees, sentence


def cold_by(view: PlanView, lot: Lot) -> str | None:
    """The line of a batch that cools, or None where no clock runs out with it today."""
    components = [share.component for share in lot.shares]
    times = [
        since + chain.limit.minutes
        for chain in chains_into(view.catalog, components, lot.step)
        for since in _since(view, lot, chain)
    ]
    reached = view.step(lot).temperature_c
    if not times or reached is None:
        return None
    return sentence(
        "At {warm} or below by {at}; the clock runs since the food left the heat.",
        warm=degrees(reached, fahrenheit(reached)),
        at=clock(min(times)),
    )


def _since(view: PlanView, lot: Lot, chain: CoolingChain) -> Iterable[int]:
    """When the lots that the food comes hot from are over, or begin where it was held hot."""
    here = {lot.index}
    for _ in range(lot.step - chain.hot):
        here = {
            index
            for one in here
            for index, _ in view.lots[one].upstream
            if view.lots[index].step == view.lots[one].step - 1
            and {s.component for s in view.lots[index].shares}
            & {s.component for s in view.lots[one].shares}
        }
    for index in sorted(here):
        hot = view.lots[index]
        done = {
            item.part: view.assignments[item.task]
            for item in hot.tasks
            if item.task in view.assignments
        }
        if Part.WORK not in done:
            continue
        if chain.from_start:
            yield done[Part.WORK].start
        elif Part.FINISH in done:
            yield done[Part.FINISH].end
        else:
            yield done[Part.WORK].end + hot.unattended
