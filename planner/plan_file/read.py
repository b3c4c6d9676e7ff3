"""A plan read back from its file, against the kitchen file that it was made from.

What follows from the kitchen file (quantities, lots, rules) is worked out anew and compared; only
who does what when is taken from the plan file, and checked. So a plan is never carried on over a
kitchen that has changed meanwhile.
"""

from collections.abc import Iterator

from pydantic import ValidationError

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.plan import CookMinutes, Labor, Plan, Remedy, Trouble
from planner.plan_file.convert_schedule import plan_schedule
from planner.plan_file.document import PlanDocument
from planner.plan_file.work import PlanDone, PlanLot
from planner.quantities.compute import kitchenry, quantities_of
from planner.schedule.timetable import (
    Assignment,
    Bound,
    Lead,
    Progress,
    Score,
    Solution,
    Status,
    Term,
    Timetable,
)

_GRAMS = 0.5
"""By how much grams may differ for rounding."""
_REMEDY = "Plan the day again with the kitchen file as it is, and use that plan file."


class PlanFileError(ValueError):
    """A plan file that cannot be used: ``field`` and ``value`` in it, and what to do about it."""

    def __init__(self, field: str, value: str, message: str, remedy: str = _REMEDY) -> None:
        super().__init__(f"{field}: {value} {message}. {remedy}")
        self.field = field
        self.value = value
        self.remedy = remedy


def read_plan(kitchen: Kitchen, data: bytes) -> Plan:
    """The plan that ``data`` holds, of the kitchen it was made from.

    Raises
    ------
    PlanFileError
        It is no plan file, is of another kitchen file, or its timetable breaks a rule.
    """
    document = _document(data)
    kit = kitchenry(kitchen, document.date)
    demands, quantities = quantities_of(kit)
    workload = workload_of(kit, demands, quantities)
    timetable = Timetable(tuple(_assignments(document, workload)))
    plan = Plan(
        kitchen=kitchen.name,
        date=document.date,
        demands=demands,
        quantities=quantities,
        workload=workload,
        solution=_solution(document, workload, timetable),
        labor=_labor(document),
        troubles=tuple(Trouble(**one.model_dump()) for one in document.troubles),
        remedies=tuple(Remedy(**one.model_dump()) for one in document.remedies),
    )
    _compare(kitchen, plan, document)
    for broken in check_timetable(workload.problem, timetable)[:1]:
        raise PlanFileError("schedule", broken.where, f"breaks a rule: {broken}")
    return plan


def _document(data: bytes) -> PlanDocument:
    try:
        return PlanDocument.model_validate_json(data)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(map(str, first["loc"])) or "the file"
        value = str(first["input"])[:60]
        remedy = "Name a file that 'plan --json' has written."
        raise PlanFileError(
            where, repr(value), f"is not of a plan file: {first['msg']}", remedy
        ) from None


def _assignments(document: PlanDocument, workload: Workload) -> Iterator[Assignment]:
    cooks = {cook: index for index, cook in enumerate(workload.cooks)}
    tasks = len(workload.problem.tasks)
    for lot in document.lots:
        for task in lot.tasks:
            done = task.done
            if done is None:
                continue
            if done.cook not in cooks:
                raise PlanFileError(_of(lot, "cook"), repr(done.cook), "is not in on that day")
            if not 0 <= task.task < tasks:
                raise PlanFileError(_of(lot, "task"), str(task.task), "is not a task of that day")
            yield _assignment(task.task, cooks[done.cook], done)


def _assignment(task: int, worker: int, done: PlanDone) -> Assignment:
    lead = done.lead
    return Assignment(
        task,
        worker,
        done.start.minutes,
        done.end.minutes,
        Lead(lead.set_up, lead.changeover, lead.hand_wash, lead.clean),
        tuple((use.hold, use.unit) for use in done.uses if use.unit is not None),
    )


def _of(lot: PlanLot, what: str) -> str:
    return f"lots.{lot.index} ({lot.id}), {what}"


def _compare(kitchen: Kitchen, plan: Plan, document: PlanDocument) -> None:
    """Raise PlanFileError for the first thing that does not follow from the kitchen file."""
    if document.kitchen != kitchen.name:
        raise PlanFileError("kitchen", repr(document.kitchen), f"is not '{kitchen.name}'")
    lots = plan.workload.lots
    if len(document.lots) != len(lots):
        raise PlanFileError(
            "lots", str(len(document.lots)), f"are not the {len(lots)} of the kitchen file"
        )
    for known, given in zip(lots, document.lots, strict=True):
        for what in ("id", "operation", "food", "component", "step", "cut"):
            value, wanted = getattr(given, what), getattr(known, what)
            if value != wanted:
                raise PlanFileError(_of(given, what), repr(value), f"is not {wanted!r}")
        if abs(given.grams_in - known.grams_in) > _GRAMS:
            raise PlanFileError(
                _of(given, "grams_in"), f"{given.grams_in:.1f}", f"is not {known.grams_in:.1f}"
            )
    schedule = plan_schedule(kitchen, plan)
    for what in type(schedule).model_fields:
        if getattr(schedule, what) != getattr(document.schedule, what):
            raise PlanFileError(f"schedule.{what}", "it", "does not follow from the kitchen file")


def _solution(document: PlanDocument, workload: Workload, timetable: Timetable) -> Solution:
    solver = document.solver
    return Solution(
        timetable=timetable,
        score=score_of(workload.problem, timetable),
        status=Status(solver.status),
        bounds=tuple(
            Bound(Term(one.term), one.value, one.bound, one.relaxation)
            for one in document.objective
        ),
        history=tuple(
            Progress(
                one.seconds,
                Score(one.short, one.tardiness, one.labor, one.freshness, one.finish),
                one.origin,
            )
            for one in solver.history
        ),
        seconds=solver.seconds,
        deterministic_time=solver.deterministic_time,
        seed=solver.seed,
    )


def _labor(document: PlanDocument) -> Labor:
    labor = document.labor
    return Labor(
        tuple(CookMinutes(**one.model_dump()) for one in labor.cooks),
        labor.total,
        labor.dish_by_dish,
        labor.dish_by_dish_late,
        labor.dish_by_dish_short,
        labor.comparable,
    )
