"""Read a plan file again, beside the kitchen file that it was made from."""

from pydantic import ValidationError

from planner.check.score import score_of
from planner.kitchen.document import Kitchen
from planner.lots.batching import Batching
from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.morning import BrokenPlanError, plan_around
from planner.pins.types import Pin
from planner.plan import Plan
from planner.plan_file.convert import plan_document
from planner.plan_file.document import PlanDocument
from planner.quantities.compute import kitchenry, quantities_of
from planner.schedule.timetable import (
    Assignment,
    Bound,
    Lead,
    Progress,
    Score,
    Solution,
    Timetable,
)


class PlanFileError(ValueError):
    """A plan file cannot be used with this kitchen file; says why, and what to do."""


def read_plan(kitchen: Kitchen, data: bytes) -> Plan:
    """The plan that a plan file holds, of the kitchen that it was made from.

    Quantities and lots are worked out from the kitchen again; batching and timetable are the
    file's, and the independent checker goes over them. Remedies are not read.

    Raises
    ------
    PlanFileError
        It is no plan file, or of another kitchen, another day's file, or another version.
    """
    document = _document(data)
    workload = _workload(kitchen, document)
    try:
        plan = plan_around(kitchen, document.date, workload, _solution(document), _pins(document))
    except (BrokenPlanError, IndexError, KeyError):
        raise _of_another_kitchen() from None
    same = plan_document(kitchen, plan).schedule == document.schedule
    if not same or score_of(workload.problem, plan.solution.timetable) != plan.solution.score:
        raise _of_another_kitchen()
    return plan


def read_workload(kitchen: Kitchen, data: bytes) -> Workload:
    """The lots that a plan file is of, worked out from the kitchen again; its timetable unread.

    Raises
    ------
    PlanFileError
        It is no plan file.
    """
    return _workload(kitchen, _document(data))


def _pins(document: PlanDocument) -> tuple[Pin, ...]:
    return tuple(
        Pin(
            one.lot,
            one.cook,
            None if one.begin is None else one.begin.minutes,
            one.exactly,
            one.follows,
        )
        for one in document.pins
    )


def _document(data: bytes) -> PlanDocument:
    try:
        return PlanDocument.model_validate_json(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        place = ".".join(str(step) for step in first["loc"]) or "the file"
        raise PlanFileError(
            f"it is no plan file of version 1 ({place}: {first['msg']}). Write one with "
            "'prepwright plan FILE --json OUT'"
        ) from None


def _workload(kitchen: Kitchen, document: PlanDocument) -> Workload:
    kit = kitchenry(kitchen, document.date)
    batching = Batching(frozenset((one.stage, one.way) for one in document.batching))
    return workload_of(kit, *quantities_of(kit), batching=batching)


def _of_another_kitchen() -> PlanFileError:
    return PlanFileError(
        "it does not go with this kitchen file: it was made from another one, or before this one "
        "was changed, or by another version of the program. Plan the day again"
    )


def _solution(document: PlanDocument) -> Solution:
    solver = document.solver
    return Solution(
        timetable=_timetable(document),
        score=Score(*(term.value for term in document.objective)),
        status=solver.status,
        bounds=tuple(
            Bound(term.term, term.value, term.bound, term.relaxation) for term in document.objective
        ),
        history=tuple(
            Progress(
                one.seconds,
                Score(one.short, one.tardiness, one.labor, one.freshness, one.finish),
                one.origin,
                one.least_labor,
            )
            for one in solver.history
        ),
        seconds=solver.seconds,
        deterministic_time=solver.deterministic_time,
        seed=solver.seed,
    )


def _timetable(document: PlanDocument) -> Timetable:
    workers = {cook.cook: index for index, cook in enumerate(document.schedule.cooks)}
    found = []
    for lot in document.lots:
        for task in lot.tasks:
            if task.done is None:
                continue
            lead = task.done.lead
            units = tuple((use.hold, use.unit) for use in task.done.uses if use.unit is not None)
            found.append(
                Assignment(
                    task=task.task,
                    worker=workers[task.done.cook],
                    start=task.done.start.minutes,
                    end=task.done.end.minutes,
                    lead=Lead(lead.set_up, lead.changeover, lead.hand_wash, lead.clean),
                    units=units,
                    cleaned=tuple(use.hold for use in task.done.uses if use.cleaned),
                )
            )
    found.sort(key=lambda item: item.task)
    rests = tuple(
        tuple(start.minutes for start in document.rests.get(cook, ())) for cook in workers
    )
    return Timetable(tuple(found), rests if any(rests) else ())
