"""What is short, what is late, and which resource binds."""

from collections import defaultdict

from planner.lots.types import Lot, Workload
from planner.plan import Trouble
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import PullLine
from planner.ready import minutes_alone
from planner.schedule.assemble import incumbent_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable
from planner.troubles.case import Case
from planner.troubles.causes import Cause, causes_of, heaviest
from planner.troubles.closed import closed_troubles
from planner.troubles.naming import Naming
from planner.troubles.plated import Plated
from planner.troubles.short import short_troubles
from planner.wording import sentence


def troubles_of(
    kit: Kitchenry,
    workload: Workload,
    tables: Tables,
    timetable: Timetable,
    plated: Plated,
    pulls: tuple[PullLine, ...] = (),
) -> tuple[Trouble, ...]:
    """What cannot be made or served, then what is late; of each the most serious first.

    ``plated`` is what no schedule can change; ``pulls`` tell how much there is of raw food that
    runs out.
    """
    plan = incumbent_of(tables, timetable)
    case = Case(workload, tables, plan, Naming(kit, workload, pulls, plan.rests))
    short = short_troubles(case, plated.lacks)
    return (*short, *closed_troubles(case, short), *plated.late, *_late(case))


def _late(case: Case) -> list[Trouble]:
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
        text = _late_text(case, component, case.naming.clock(due), late, minutes)
        portions = sum(max((n for _, _, n in lot.dishes), default=0) for lot in late)
        weight = minutes * problem.tasks[index].due_weight
        cause = _held_up(case, index)
        binding = case.naming.cause(cause, index)
        resource = problem.resources[cause.what].id if cause and cause.kind == "resource" else ""
        trouble = Trouble(
            "late",
            component,
            text,
            minutes,
            portions,
            binding,
            resource=resource,
            task=index,
        )
        found.append((weight, trouble))
    found.sort(key=lambda entry: (-entry[0], entry[1].text))
    return [trouble for _weight, trouble in found]


def _late_text(case: Case, component: str, at: str, lots: list[Lot], minutes: int) -> str:
    name, services = case.naming.component(component), case.naming.services(lots)
    if not services:
        return sentence("{what}, to be ready by {at}, is {n} min late", what=name, at=at, n=minutes)
    return sentence(
        "{what}, to be ready by {at} for {services}, is {n} min late",
        what=name,
        at=at,
        services=services,
        n=minutes,
    )


def _held_up(case: Case, task: int) -> Cause | None:
    """What a late task's chain of causes weighs most on.

    A cook may have waited for food of another route; that is no step of the one that is late.
    """
    job = case.tables.problem.tasks[task].lot
    route = case.with_needs([job])
    causes = [
        cause
        for cause in causes_of(case.tables, case.plan, task)
        if cause.kind != "process" or case.tables.problem.tasks[cause.what].lot in route
    ]
    return heaviest(tuple(causes))
