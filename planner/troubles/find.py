"""What is short, what is late, and which resource binds."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.lots.promises import OWN
from planner.lots.types import Lot, Part, Workload
from planner.plan import Trouble
from planner.quantities.making import Kitchenry
from planner.quantities.types import PullLine
from planner.ready import minutes_alone
from planner.schedule.assemble import Incumbent, incumbent_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable
from planner.troubles.binding import causes_of, heaviest
from planner.troubles.naming import Naming


@dataclass(frozen=True, slots=True)
class _Case:
    """One plan to be looked at."""

    workload: Workload
    tables: Tables
    plan: Incumbent
    naming: Naming


@dataclass(frozen=True, slots=True)
class _Reason:
    """Why something is not made: what ``lacks``, in words, and how many minutes are missing."""

    lacks: str
    binding: str
    minutes: int


def troubles_of(
    kit: Kitchenry,
    workload: Workload,
    tables: Tables,
    timetable: Timetable,
    pulls: tuple[PullLine, ...] = (),
) -> tuple[Trouble, ...]:
    """What cannot be made, then what is late; of each the most serious first.

    ``pulls`` tell how much there is of raw food that runs out.
    """
    case = _Case(workload, tables, incumbent_of(tables, timetable), Naming(kit, workload, pulls))
    return (*_short(case), *_late(case))


def _late(case: _Case) -> list[Trouble]:
    worst: dict[tuple[str, int], tuple[int, int]] = {}
    lots: dict[tuple[str, int], list[Lot]] = defaultdict(list)
    problem = case.tables.problem
    for index, item in case.plan.by_task.items():
        task = problem.tasks[index]
        if task.due is None or item.end <= task.due:
            continue
        lot = case.workload.lots[task.lot]
        key = (lot.component, task.due + minutes_alone(lot))
        lots[key].append(lot)
        worst[key] = max(worst.get(key, (0, index)), (item.end - task.due, index))
    found = []
    for (component, due), (minutes, index) in worst.items():
        late = lots[component, due]
        text = (
            f"{case.naming.component(component)}, to be ready by {case.naming.clock(due)}"
            f"{case.naming.for_services(late)}, is {minutes} min late"
        )
        portions = sum(max((n for _, _, n in lot.dishes), default=0) for lot in late)
        weight = minutes * problem.tasks[index].due_weight
        found.append(
            (weight, Trouble("late", component, text, minutes, portions, _held_up(case, index)))
        )
    found.sort(key=lambda entry: (-entry[0], entry[1].text))
    return [trouble for _weight, trouble in found]


def _held_up(case: _Case, task: int) -> str:
    """What a late task's chain of causes weighs most on.

    A cook may have waited for food of another route; that is no step of the one that is late.
    """
    job = case.tables.problem.tasks[task].lot
    route = _with_needs(case, [job])
    causes = [
        cause
        for cause in causes_of(case.tables, case.plan, task)
        if cause.kind != "process" or case.tables.problem.tasks[cause.what].lot in route
    ]
    return case.naming.cause(heaviest(tuple(causes)), task)


def _short(case: _Case) -> list[Trouble]:
    """Per promise: its shortest component, and why that is not made."""
    missing: dict[int, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for index, job in enumerate(case.tables.problem.jobs):
        if index not in case.plan.done:
            for serving in job.serves:
                missing[serving.promise][serving.component].append(index)
    promises = case.tables.problem.promises
    found = [
        (promises[promise].id.startswith(f"{OWN}:"), promises[promise].weight, trouble)
        for promise, by_component in sorted(missing.items())
        for trouble in [_short_of(case, promise, by_component)]
    ]
    found.sort(key=lambda entry: (entry[0], -entry[1] * entry[2].portions, entry[2].text))
    return [trouble for _own, _weight, trouble in found]


def _short_of(case: _Case, promise: int, by_component: dict[str, list[int]]) -> Trouble:
    problem = case.tables.problem
    amounts = {
        component: sum(
            serving.portions
            for job in jobs
            for serving in problem.jobs[job].serves
            if serving.promise == promise and serving.component == component
        )
        for component, jobs in by_component.items()
    }
    dead = {job for jobs in by_component.values() for job in jobs if _lacks_food(case, job)}
    # Where one component lacks raw food nobody makes the others in vain: as short, but no cause.
    worst = max(amounts, key=lambda c: (amounts[c], any(job in dead for job in by_component[c]), c))
    spec = problem.promises[promise]
    portions = min(amounts[worst], spec.portions) if spec.portions > 1 else amounts[worst]
    reason = _reason(case, by_component, worst, dead)
    name = case.naming.component(worst)
    if spec.id.startswith(f"{OWN}:"):
        text, unit = f"{name}, the kitchen's own par or batch: about {portions} kg short", "kg"
    else:
        count = f"{portions} portion{'' if portions == 1 else 's'} short"
        text, unit = f"{case.naming.promise(spec.id)}: {count}, for want of {name}", "portions"
    return Trouble(
        "short", worst, text, reason.minutes, portions, reason.binding, reason.lacks, unit
    )


def _reason(case: _Case, by_component: dict[str, list[int]], worst: str, dead: set[int]) -> _Reason:
    every = [job for jobs in by_component.values() for job in jobs]
    if not any(job in dead for job in by_component[worst]):
        return _why(case, by_component[worst], [job for job in every if job not in dead])
    # What has its food and is not made either lacks something else besides.
    alive = [job for job in by_component[worst] if job not in dead]
    binding = case.naming.no_food(_unmade(case, sorted(dead)))
    if not alive:
        return _Reason("food", binding, 0)
    other = _why(case, alive, alive)
    minutes = 0 if other.lacks == "route" else other.minutes
    return _Reason("food", f"{binding}; and {other.binding}", minutes)


def _why(case: _Case, named: list[int], every: list[int]) -> _Reason:
    """Why lots that lack no food are not made; ``every`` lot of the promise counts for minutes."""
    tables, lots = case.tables, case.workload.lots
    jobs = _unmade(case, named)
    minutes = round(
        sum(item.book_minutes for job in _unmade(case, every) for item in lots[job].tasks)
    )
    too_long = 0
    for job in jobs:
        for task in tables.problem.jobs[job].tasks:
            if not tables.problem.tasks[task].minutes:
                return _Reason("skill", case.naming.nobody_can(task), minutes)
            over = tables.earliest[task] + tables.least[task] - tables.latest[task]
            too_long = max(too_long, over)
    if too_long:
        missed = any(lots[job].missed for job in jobs)
        return _Reason("route", case.naming.too_long(too_long, missed=missed), too_long)
    hands = [item.task for job in jobs for item in lots[job].tasks if item.part is Part.WORK]
    scarce = min(hands, key=lambda t: len(tables.problem.tasks[t].minutes), default=None)
    binding = "cook hours" if scarce is None else case.naming.cook_hours(scarce)
    return _Reason("hands", binding, minutes)


def _lacks_food(case: _Case, job: int) -> bool:
    return any(case.tables.problem.jobs[one].impossible for one in _unmade(case, [job]))


def _unmade(case: _Case, jobs: Iterable[int]) -> list[int]:
    """These jobs and all they need that is not made either."""
    return sorted(_with_needs(case, [job for job in jobs if job not in case.plan.done], made=False))


def _with_needs(case: _Case, jobs: Iterable[int], *, made: bool = True) -> set[int]:
    """These jobs and all they need, and so on; without what is ``made`` if that is False."""
    found: set[int] = set()
    stack = list(jobs)
    while stack:
        job = stack.pop()
        if job not in found and (made or job not in case.plan.done):
            found.add(job)
            stack.extend(case.tables.problem.jobs[job].needs)
    return found
