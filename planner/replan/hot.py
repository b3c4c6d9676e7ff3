"""Food that came hot out of a begun lot: since when, and until when it must be cold."""

from planner.kitchen.catalog import Catalog
from planner.kitchen.cooling import CoolingChain, cooling_chains
from planner.lots.types import Lot, Part, Workload
from planner.replan.begun import Standing, alone_after, on_route, work_of
from planner.schedule.problem import Problem


def cold_by(catalog: Catalog, old: Workload, day: Standing, lot: Lot, component: str) -> int | None:
    """When the step after a begun lot must have started, for its food to be cold in time.

    By the unattended minutes that are still to come; None: no clock runs.
    """
    made = catalog.components[component]
    latest: list[int] = []
    for chain in cooling_chains(catalog, made):
        if not chain.hot <= lot.step < chain.cold:
            continue
        ahead = sum(_alone(catalog, component, i) for i in range(lot.step + 1, chain.cold + 1))
        for hot in behind(old, lot, chain.hot):
            since, most = clock_of(old.problem, hot, chain)
            if since in day.ended:
                latest.append(day.ended[since] + most - ahead)
    return min(latest, default=None)


def behind(old: Workload, lot: Lot, step: int) -> tuple[Lot, ...]:
    """Lots of an earlier step of its own route that a lot's food came from; itself at its own."""
    if lot.step < step:
        return ()
    here = {lot.index: lot}
    for _ in range(lot.step - step):
        here = {
            index: old.lots[index]
            for one in here.values()
            for index, _ in one.upstream
            if on_route(old.lots[index], one)
        }
    return tuple(here.values())


def clock_of(problem: Problem, hot: Lot, chain: CoolingChain) -> tuple[int, int]:
    """The task whose end a clock counts from, and its minutes from there."""
    if chain.from_start:
        return work_of(hot), chain.limit.minutes - slowest(problem, hot)
    finish = (item.task for item in hot.tasks if item.part is Part.FINISH)
    return next(finish, work_of(hot)), chain.limit.minutes + alone_after(hot)


def slowest(problem: Problem, lot: Lot) -> int:
    """Minutes of a lot's hands-on work by the slowest cook who may do it."""
    return max(problem.tasks[work_of(lot)].minutes.values(), default=0)


def _alone(catalog: Catalog, component: str, index: int) -> int:
    step = catalog.components[component].route[index]
    own = step.unattended_minutes
    return catalog.operations[step.operation].unattended_minutes if own is None else own
