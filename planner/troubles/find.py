"""What is late, what is short, and which resource binds."""

from collections import defaultdict

from planner.lots.promises import OWN
from planner.lots.types import Part, Workload
from planner.plan import Trouble
from planner.quantities.making import Kitchenry
from planner.schedule.assemble import Incumbent, incumbent_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable
from planner.troubles.binding import Cause, causes_of, heaviest


def troubles_of(
    kit: Kitchenry, workload: Workload, tables: Tables, timetable: Timetable
) -> tuple[Trouble, ...]:
    """Late lots, latest first, then what cannot be made, dish by dish."""
    plan = incumbent_of(tables, timetable)
    late = _late(kit, workload, tables, plan)
    return (*late, *_short(kit, workload, tables, plan))


def _late(kit: Kitchenry, workload: Workload, tables: Tables, plan: Incumbent) -> list[Trouble]:
    worst: dict[tuple[str, int], tuple[int, int]] = {}
    portions: dict[tuple[str, int], int] = defaultdict(int)
    for index, item in plan.by_task.items():
        task = tables.problem.tasks[index]
        if task.due is None or item.end <= task.due:
            continue
        lot = workload.lots[task.lot]
        key = (lot.component, task.due)
        portions[key] += max((n for _, _, n in lot.dishes), default=0)
        worst[key] = max(worst.get(key, (0, index)), (item.end - task.due, index))
    found = []
    for (component, due), (minutes, index) in worst.items():
        name = kit.catalog.components[component].name
        binding = heaviest(causes_of(tables, plan, index))
        text = f"{name}, due {_clock(due)}, is ready {minutes} min late"
        found.append(
            Trouble(
                "late",
                component,
                text,
                minutes,
                portions[component, due],
                describe(kit, workload, tables, binding, tables.problem.tasks[index].family),
            )
        )
    return sorted(found, key=lambda trouble: (-trouble.minutes, trouble.item))


def _short(kit: Kitchenry, workload: Workload, tables: Tables, plan: Incumbent) -> list[Trouble]:
    """Per promise: its shortest component, and the hands-on minutes its missing lots would take."""
    missing: dict[int, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for index, job in enumerate(tables.problem.jobs):
        if index not in plan.done:
            for serving in job.serves:
                missing[serving.promise][serving.component].append(index)
    found = []
    for promise, by_component in sorted(missing.items()):
        amounts = {
            component: sum(
                s.portions
                for job in jobs
                for s in tables.problem.jobs[job].serves
                if s.promise == promise and s.component == component
            )
            for component, jobs in by_component.items()
        }
        worst = max(amounts, key=lambda component: (amounts[component], component))
        spec = tables.problem.promises[promise]
        portions = min(amounts[worst], spec.portions) if spec.portions > 1 else amounts[worst]
        jobs = _unmade(tables, plan, [job for js in by_component.values() for job in js])
        minutes = round(sum(item.book_minutes for job in jobs for item in workload.lots[job].tasks))
        name = kit.catalog.components[worst].name
        amount = f"{portions} portion{'' if portions == 1 else 's'} short"
        if spec.id.startswith(f"{OWN}:"):
            amount = f"about {portions} kg short"
        text = f"{name} for {_promise_name(kit, spec.id)}: {amount}"
        found.append(
            Trouble(
                "short", worst, text, minutes, portions, _why_short(kit, workload, tables, jobs)
            )
        )
    return found


def _unmade(tables: Tables, plan: Incumbent, jobs: list[int]) -> list[int]:
    """These jobs and all they need that is not made either."""
    found: list[int] = []
    stack = list(jobs)
    while stack:
        job = stack.pop()
        if job not in found and job not in plan.done:
            found.append(job)
            stack.extend(tables.problem.jobs[job].needs)
    return sorted(found)


def _why_short(kit: Kitchenry, workload: Workload, tables: Tables, jobs: list[int]) -> str:
    for job in jobs:
        reason = tables.problem.jobs[job].impossible
        if reason:
            return reason
    for job in jobs:
        for task in tables.problem.jobs[job].tasks:
            family = tables.problem.families[tables.problem.tasks[task].family]
            if not tables.problem.tasks[task].minutes:
                name = kit.catalog.operations[family.operation.split(":")[0]]
                return f"nobody who is in has the skill '{name.skill}' at {name.station}"
            if tables.earliest[task] + tables.least[task] > tables.latest[task]:
                return "the bare minutes of its route do not fit before service"
    hands = [
        item.task for job in jobs for item in workload.lots[job].tasks if item.part is Part.WORK
    ]
    scarce = min(hands, key=lambda t: len(tables.problem.tasks[t].minutes), default=None)
    if scarce is None:
        return "cook hours"
    return _cook_hours(kit, workload, tables, tables.problem.tasks[scarce].family)


def describe(
    kit: Kitchenry, workload: Workload, tables: Tables, cause: Cause | None, family: int
) -> str:
    """A cause in words."""
    if cause is None:
        return "nothing but its own minutes"
    if cause.kind == "resource":
        return f"{resource_name(kit, tables.problem.resources[cause.what].id)} in use"
    if cause.kind == "delivery":
        return f"its delivery comes at {_clock(tables.problem.tasks[cause.what].release)}"
    if cause.kind == "process":
        spec = tables.problem.families[cause.what]
        name = kit.catalog.operations[spec.operation.split(":")[0]].name
        return f"unattended minutes of its own route ({name.lower()})"
    if cause.kind == "away":
        return f"{kit.catalog.cooks[workload.cooks[cause.what]].name} is away from prep"
    return _cook_hours(kit, workload, tables, family)


def _cook_hours(kit: Kitchenry, workload: Workload, tables: Tables, family: int) -> str:
    operation = tables.problem.families[family].operation.split(":")[0]
    skill = kit.catalog.operations[operation].skill
    able = [
        name
        for name in workload.cooks
        if any(own.skill == skill for own in kit.catalog.cooks[name].skills)
    ]
    if len(able) == len(workload.cooks):
        return "cook hours"
    return f"cook hours: {len(able)} of {len(workload.cooks)} cooks have the skill '{skill}'"


def resource_name(kit: Kitchenry, resource: str) -> str:
    """What people call a resource of the problem."""
    kind, _, name = resource.partition(":")
    if kind == "station":
        return kit.catalog.stations[name].name
    return kit.catalog.equipment[name].name


def _promise_name(kit: Kitchenry, promise: str) -> str:
    service, _, dish = promise.partition(":")
    if service == OWN:
        return "the kitchen's own par or batch"
    return f"{kit.catalog.dishes[dish].name}, {kit.catalog.services[service].name}"


def _clock(minutes: int) -> str:
    return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"
