"""From the scheduling problem to the plan file, fact by fact."""

from collections.abc import Mapping

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.plan_file.base import moment, moment_or_none
from planner.plan_file.schedule import (
    PlanChangeovers,
    PlanCook,
    PlanExposure,
    PlanFamily,
    PlanHold,
    PlanJob,
    PlanPromise,
    PlanResource,
    PlanRest,
    PlanSchedule,
    PlanServing,
    PlanStretch,
    PlanTaskFacts,
    PlanWait,
    PlanWalk,
)
from planner.schedule.problem import Family, Job, Problem, Task, Worker
from planner.sheet.away import away

_Kinds = Mapping[tuple[str, int, int], str]


def plan_schedule(kitchen: Kitchen, plan: Plan) -> PlanSchedule:
    """All facts of the problem; workers go by their cooks' ids."""
    workload = plan.workload
    problem = workload.problem
    kinds = _kinds(kitchen, plan)
    return PlanSchedule(
        start=moment(problem.start),
        horizon=moment(problem.horizon),
        cooks=tuple(
            _cook(cook, worker, kinds)
            for cook, worker in zip(workload.cooks, problem.workers, strict=True)
        ),
        resources=tuple(
            PlanResource(id=one.id, capacity=one.capacity, contact=one.contact)
            for one in problem.resources
        ),
        families=tuple(_family(family) for family in problem.families),
        tasks=tuple(_task(task, workload.cooks) for task in problem.tasks),
        jobs=tuple(_job(job) for job in problem.jobs),
        waits=tuple(
            PlanWait(before=one.before, after=one.after, minimum=one.minimum, maximum=one.maximum)
            for one in problem.waits
        ),
        exposures=tuple(
            PlanExposure(
                first=one.first,
                last=one.last,
                limit=one.limit,
                after=one.after,
                spent=one.spent,
                since=moment_or_none(one.since),
            )
            for one in problem.exposures
        ),
        holds=tuple(
            PlanHold(
                resource=one.resource,
                first=one.first,
                last=one.last,
                units=one.units,
                tail=one.tail,
            )
            for one in problem.holds
        ),
        promises=tuple(
            PlanPromise(id=one.id, portions=one.portions, weight=one.weight)
            for one in problem.promises
        ),
        changeovers=_changeovers(problem),
    )


def _kinds(kitchen: Kitchen, plan: Plan) -> _Kinds:
    """What each stretch away is for, as the cook's shift says."""
    return {
        (cook.id, one.start, one.end): one.kind
        for cook in kitchen.cooks
        for one in away(cook, plan.date, kitchen.rules, ())
    }


def _cook(cook: str, worker: Worker, kinds: _Kinds) -> PlanCook:
    return PlanCook(
        cook=cook,
        start=moment(worker.start),
        end=moment(worker.end),
        latest_end=moment(worker.latest_end),
        blocked=tuple(
            PlanStretch(
                kind=kinds.get((cook, start, end), "away"), start=moment(start), end=moment(end)
            )
            for start, end in worker.blocked
        ),
        rests=tuple(
            PlanRest(
                minutes=rest.minutes, earliest=moment(rest.earliest), latest=moment(rest.latest)
            )
            for rest in worker.rests
        ),
        wage_per_hour=worker.wage_per_hour,
        flexible=worker.flexible,
        min_paid=worker.min_paid,
    )


def _family(family: Family) -> PlanFamily:
    return PlanFamily(
        operation=family.operation,
        food=family.food,
        station=family.station,
        raw_animal=family.hygiene.raw_animal,
        allergens=tuple(sorted(family.hygiene.allergens)),
        set_up=family.set_up,
    )


def _task(task: Task, cooks: tuple[str, ...]) -> PlanTaskFacts:
    return PlanTaskFacts(
        id=task.id,
        lot=task.lot,
        family=task.family,
        minutes={cooks[worker]: minutes for worker, minutes in sorted(task.minutes.items())},
        release=moment(task.release),
        earliest_end=moment_or_none(task.earliest_end),
        due=moment_or_none(task.due),
        due_weight=task.due_weight,
        until=moment_or_none(task.until),
        fresh_weight=task.fresh_weight,
        pausable=task.pausable,
    )


def _job(job: Job) -> PlanJob:
    return PlanJob(
        id=job.id,
        tasks=job.tasks,
        needs=job.needs,
        serves=tuple(
            PlanServing(promise=one.promise, component=one.component, portions=one.portions)
            for one in job.serves
        ),
        impossible=job.impossible,
    )


def _changeovers(problem: Problem) -> PlanChangeovers:
    minutes = problem.changeovers
    return PlanChangeovers(
        another_food=minutes.another_food,
        another_operation=minutes.another_operation,
        another_station=minutes.another_station,
        walks=tuple(
            PlanWalk(station=walk.station, other=walk.other, minutes=walk.minutes)
            for walk in minutes.walks
        ),
        hand_wash=minutes.hand_wash,
        clean=minutes.clean,
        clean_every=minutes.clean_every,
    )
