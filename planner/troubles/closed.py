"""Food that is made, and ready only after a service it is for has closed.

A lot that is pooled over several services may be late for one and in time for the next; for the
first it is as if it had not been made.
"""

from collections import defaultdict

from planner.lots.types import Lot
from planner.plan import Trouble
from planner.ready import minutes_alone
from planner.troubles.case import Case
from planner.troubles.causes import causes_of, heaviest
from planner.wording import counted, sentence


def closed_troubles(case: Case, known: list[Trouble]) -> list[Trouble]:
    """Portions short by service and dish, where no trouble ``known`` says already that they are."""
    said = {(one.service, one.dish) for one in known}
    worst: dict[tuple[str, str], dict[str, tuple[int, int, int]]] = defaultdict(dict)
    for lot in case.workload.lots:
        ready = _ready(case, lot)
        if ready is None:
            continue
        for service, dish, component, portions in _served(case, lot):
            if (service, dish) in said or ready < case.naming.closes(service):
                continue
            before, _, task = worst[service, dish].get(component, (0, 0, 0))
            task = lot.tasks[-1].task
            worst[service, dish][component] = (before + portions, ready, task)
    return [
        _trouble(case, service, dish, by_component)
        for (service, dish), by_component in sorted(worst.items())
    ]


def _ready(case: Case, lot: Lot) -> int | None:
    """When a lot that is made is ready (minutes)."""
    items = [case.plan.by_task.get(item.task) for item in lot.tasks]
    ends = [item.end for item in items if item is not None]
    return max(ends) + minutes_alone(lot) if len(ends) == len(items) and ends else None


def _served(case: Case, lot: Lot) -> list[tuple[str, str, str, int]]:
    """(service, dish, component, portions) that want a lot as it is."""
    problem = case.tables.problem
    found = []
    for serving in problem.jobs[lot.index].serves:
        service, _, dish = problem.promises[serving.promise].id.partition(":")
        if case.naming.is_service(service):
            found.append((service, dish, serving.component, serving.portions))
    return found


def _trouble(
    case: Case, service: str, dish: str, by_component: dict[str, tuple[int, int, int]]
) -> Trouble:
    item = max(by_component, key=lambda one: (by_component[one][0], one))
    portions, ready, task = by_component[item]
    count = counted("{n} portion short", "{n} portions short", portions)
    text = sentence(
        "{promise}: {count}, as {component} is ready at {at} and the service closes at {at_2}",
        promise=case.naming.promise(f"{service}:{dish}"),
        count=count,
        component=case.naming.component(item),
        at=case.naming.clock(ready),
        at_2=case.naming.clock(case.naming.closes(service)),
    )
    cause = heaviest(causes_of(case.tables, case.plan, task))
    binding = case.naming.cause(cause, task)
    late = ready - case.naming.closes(service)
    return Trouble("short", item, text, late, portions, binding, "route", "portions", service, dish)
