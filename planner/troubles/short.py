"""What goes short: per dish and service one line, with all that it lacks and what binds."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace

from planner.lots.promises import OWN
from planner.lots.types import Part
from planner.plan import LeftOut, Trouble
from planner.troubles.case import Case
from planner.troubles.plated import Lack
from planner.troubles.room import hands_are_free, most_wanted
from planner.wording import counted, sentence

_BLOCKED = ("hands", "resource", "route", "skill", "food")
"""What lots can lack; of components that are as short, the last of these is the cause."""


@dataclass(frozen=True, slots=True)
class _Reason:
    """Why something is not made: what ``lacks``, in words, and how many minutes are missing."""

    lacks: str
    binding: str
    minutes: int
    resource: str = ""


@dataclass(frozen=True, slots=True)
class _Missing:
    """What one promise lacks: lots by component, with their portions, and plated food."""

    promise: str
    weight: int
    jobs: Mapping[str, list[int]]
    amounts: Mapping[str, int]
    lacks: tuple[Lack, ...]

    @property
    def own(self) -> bool:
        """Whether it is the kitchen's own."""
        return self.promise.startswith(f"{OWN}:")


def short_troubles(case: Case, lacks: tuple[Lack, ...]) -> list[Trouble]:
    """Per promise what it is short of, guests' before the kitchen's own, the heaviest first."""
    found = [(one.own, one.weight, _trouble(case, one)) for one in _missing(case, lacks)]
    found.sort(key=lambda entry: (entry[0], -entry[1] * entry[2].portions, entry[2].text))
    return [trouble for _own, _weight, trouble in found]


def _missing(case: Case, lacks: tuple[Lack, ...]) -> list[_Missing]:
    problem = case.tables.problem
    jobs: dict[str, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    amounts: dict[str, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for index, job in enumerate(problem.jobs):
        if index not in case.plan.done:
            for serving in job.serves:
                promise = problem.promises[serving.promise].id
                jobs[promise][serving.component].append(index)
                amounts[promise][serving.component] += serving.portions
    weights = {lack.promise: lack.weight for lack in lacks} | {
        promise.id: promise.weight for promise in problem.promises
    }
    totals = {promise.id: promise.portions for promise in problem.promises}
    found = []
    for promise in dict.fromkeys((*jobs, *(lack.promise for lack in lacks))):
        counted = {
            item: count if promise.startswith(f"{OWN}:") else min(count, totals[promise])
            for item, count in amounts[promise].items()
        }
        plated = sorted(
            (one for one in lacks if one.promise == promise),
            key=lambda one: (-one.portions, one.item),
        )
        found.append(_Missing(promise, weights[promise], jobs[promise], counted, tuple(plated)))
    return found


def _trouble(case: Case, missing: _Missing) -> Trouble:
    """One line of what a promise lacks: it is as short as what it lacks most portions of."""
    by_lots = max(missing.amounts.values(), default=0)
    by_plated = max((lack.portions for lack in missing.lacks), default=0)
    portions = max(by_lots, by_plated)
    dead = {job for jobs in missing.jobs.values() for job in jobs if _lacks_food(case, job)}
    worst, own_reason = _worst(case, missing, dead)
    # Only what is in the way is named: the rest is left out because nobody makes it in vain.
    lots = sorted(
        (item for item, jobs in missing.jobs.items() if item == worst or dead.intersection(jobs)),
        key=lambda item: (item != worst, -missing.amounts[item], item),
    )
    plated = [lack.item for lack in missing.lacks]
    names = {item: case.naming.component(item) for item in lots}
    names |= {item: case.naming.raw_food(item) for item in plated}
    lacking = [*plated, *lots] if by_plated > by_lots else [*lots, *plated]
    reason = _joined(case, own_reason, plated, first=by_plated > by_lots)
    if missing.own:
        text = sentence(
            "{names}, the kitchen's own par or batch: about {portions} kg short",
            names=names[lacking[0]],
            portions=portions,
        )
    else:
        count = counted("{n} portion short", "{n} portions short", portions)
        wants = "; ".join(names[item] for item in lacking)
        text = sentence(
            "{promise}: {count}, for want of {wants}",
            promise=case.naming.promise(missing.promise),
            count=count,
            wants=wants,
        )
    service, _, dish = missing.promise.partition(":")
    return Trouble(
        "short",
        lacking[0],
        text,
        reason.minutes,
        portions,
        reason.binding,
        reason.lacks,
        "kg" if missing.own else "portions",
        "" if missing.own else service,
        "" if missing.own else dish,
        tuple(lacking[1:]),
        reason.resource,
        _left_out(case, missing, lacking),
    )


def _worst(case: Case, missing: _Missing, dead: set[int]) -> tuple[str, _Reason | None]:
    """The component that most portions are missing of, and why; of several the one in the way."""
    most = max(missing.amounts.values(), default=0)
    found = [
        (item, _reason(case, missing, item, dead))
        for item, count in missing.amounts.items()
        if count == most
    ]
    if not found:
        return "", None
    return max(found, key=lambda one: (_BLOCKED.index(one[1].lacks), one[1].minutes, one[0]))


def _joined(case: Case, reason: _Reason | None, plated: list[str], *, first: bool) -> _Reason:
    """The reason of lots, and what binds plated food (``first`` or after it), each said once."""
    lacks = [case.naming.lack(item) for item in plated]
    if reason is None:
        return _Reason("food", "; ".join(lacks), 0)
    more = [lack for lack in lacks if lack not in reason.binding]
    texts = [*more, reason.binding] if first else [reason.binding, *more]
    return replace(reason, binding="; and ".join(texts))


def _left_out(case: Case, missing: _Missing, lacking: list[str]) -> tuple[LeftOut, ...]:
    """Components that are not made for the promise either, wholly or in part."""
    lots = case.workload.lots
    every = case.unmade(job for jobs in missing.jobs.values() for job in jobs)
    items = dict.fromkeys(share.component for job in every for share in lots[job].shares)
    return tuple(LeftOut(i, case.naming.component(i)) for i in items if i not in lacking)


def _reason(case: Case, missing: _Missing, item: str, dead: set[int]) -> _Reason:
    """Why the lots of one component are not made."""
    named = missing.jobs[item]
    if not any(job in dead for job in named):
        every = [job for jobs in missing.jobs.values() for job in jobs if job not in dead]
        return _why(case, named, every)
    # What has its food and is not made either lacks something else besides.
    alive = [job for job in named if job not in dead]
    binding = case.naming.no_food(case.unmade(sorted(dead)))
    if not alive:
        return _Reason("food", binding, 0)
    other = _why(case, alive, alive)
    minutes = 0 if other.lacks in ("route", "resource", "skill") else other.minutes
    return _Reason(
        "food",
        f"{binding}; and {other.binding}",
        minutes,
        other.resource,
    )


def _why(case: Case, named: list[int], every: list[int]) -> _Reason:
    """Why lots that lack no food are not made; ``every`` lot of the promise counts for minutes."""
    tables, lots = case.tables, case.workload.lots
    jobs = case.unmade(named)
    minutes = round(
        sum(item.book_minutes for job in case.unmade(every) for item in lots[job].tasks)
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
    want = most_wanted(tables, case.plan, jobs)
    if want is not None and hands_are_free(tables, case.plan, jobs):
        resource = tables.problem.resources[want.resource].id
        return _Reason("resource", case.naming.in_use(resource), want.missing, resource)
    hands = [item.task for job in jobs for item in lots[job].tasks if item.part is Part.WORK]
    scarce = min(hands, key=lambda t: len(tables.problem.tasks[t].minutes), default=None)
    binding = sentence("cook hours") if scarce is None else case.naming.cook_hours(scarce)
    return _Reason("hands", binding, minutes)


def _lacks_food(case: Case, job: int) -> bool:
    return any(case.tables.problem.jobs[one].impossible for one in case.unmade([job]))
