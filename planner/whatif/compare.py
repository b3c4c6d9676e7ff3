"""Two kitchens planned for the same day under the same limit, side by side."""

import datetime as dt
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.check.score import score_of
from planner.explain.trials import carried_on, left_of, rank
from planner.explain.words import Morning
from planner.kitchen.document import Kitchen
from planner.lots.types import Lot
from planner.morning import PlanOptions, plan_around, plan_morning
from planner.plan import Plan
from planner.schedule.rests import slots_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Assignment, Progress, Timetable
from planner.whatif.people import PeopleChanges, people_changes
from planner.wording import sentence

_UNITS = ("portions", "kg")
_OUT = -1
"""Index of a cook who is not in."""


@dataclass(frozen=True, slots=True)
class Figures:
    """One plan in figures that people count by.

    Attributes
    ----------
    short_portions, short_kilos
        Portions that cannot be served; kilos short of the kitchen's own pars and batches.
    late_minutes
        Over all that is due, unweighted.
    labor, overtime, paid
        Minutes of all cooks: work with set-ups and changeovers; past the end of shifts; paid.
    wages
        In the kitchen's currency.
    """

    short_portions: int
    short_kilos: int
    late_minutes: int
    labor: int
    overtime: int
    paid: int
    wages: float


@dataclass(frozen=True, slots=True)
class Comparison:
    """The kitchen as it is, the changed one, and what changes for people."""

    date: dt.date
    currency: str
    as_it_is: Figures
    changed: Figures
    people: PeopleChanges


def compare(
    kitchen: Kitchen,
    changed: Kitchen,
    date: dt.date,
    options: PlanOptions,
    on_progress: Callable[[Progress], None] | None = None,
    on_plan: Callable[[str], None] | None = None,
) -> Comparison:
    """Plan both for ``date`` and compare; each plan is verified as any is.

    Both get the same search: once anew and once from there. The changed kitchen goes on from the
    plan of the kitchen as it is wherever that, carried over, is neither shorter nor later than its
    own, so that what need not change for people does not. ``on_plan`` is told which plan is made.

    Raises
    ------
    planner.morning.BrokenPlanError
        A plan breaks a rule: a defect of this program.
    """
    anew = replace(options, remedies=False)
    search = SearchOptions(
        options.seconds, options.deterministic_limit, options.seed, options.workers
    )
    tell = on_plan or (lambda _: None)
    tell(sentence("as it is"))
    first = plan_morning(kitchen, date, anew, on_progress)
    again = _searched_on(kitchen, first, first.solution.timetable, search, on_progress)
    # What is only arranged otherwise is no gain, and would show as changes for people.
    before = min(first, again, key=_rank)
    tell("changed")
    own = plan_morning(changed, date, anew, on_progress)
    start = _nearer(before, own) or own.solution.timetable
    after = min(own, _searched_on(changed, own, start, search, on_progress), key=_rank)
    # A plan that holds in both kitchens is known for both: luck in one search is no difference.
    before, after = _the_better(kitchen, before, after), _the_better(changed, after, before)
    return Comparison(
        date=date,
        currency=kitchen.currency,
        as_it_is=figures_of(before),
        changed=figures_of(after),
        people=people_changes(Morning(kitchen, before), Morning(changed, after)),
    )


def figures_of(plan: Plan) -> Figures:
    """Add up one plan."""
    left = left_of(plan.workload.problem, plan.solution.timetable)
    # What is late or short by its delivery alone is in no timetable.
    plated = sum(one.minutes for one in plan.late if one.task is None)
    short = {unit: sum(t.portions for t in plan.short if t.unit == unit) for unit in _UNITS}
    cooks = plan.labor.cooks
    return Figures(
        short_portions=short["portions"],
        short_kilos=short["kg"],
        late_minutes=left.late + plated,
        labor=plan.labor.total,
        overtime=sum(one.overtime for one in cooks),
        paid=sum(one.paid for one in cooks),
        wages=round(sum(one.wages for one in cooks), 2),
    )


def carried_over(plan: Plan, other: Plan) -> Timetable | None:
    """A timetable of the other plan's workload that stays as near to this plan as can be.

    Lots of the same step of the same component stand for each other in the order they are due. Who
    is out hands over, what no longer fits comes as soon after as can be. None where nothing that
    keeps every rule came of it.
    """
    workload = other.workload
    workers = {cook: index for index, cook in enumerate(workload.cooks)}
    done = {item.task: item for item in plan.solution.timetable.assignments}
    known: dict[int, Assignment] = {}
    waiting = _by_work(plan.workload.lots)
    for key, lots in _by_work(workload.lots).items():
        for lot, old in zip(lots, waiting.get(key, ()), strict=False):
            for task, mine in zip(lot.tasks, old.tasks, strict=False):
                item = done.get(mine.task)
                if item is not None:
                    worker = workers.get(plan.workload.cooks[item.worker], _OUT)
                    known[task.task] = replace(
                        item, task=task.task, worker=worker, units=(), cleaned=()
                    )
    slots = slots_of(plan.workload.problem, plan.solution.timetable)
    by_cook = dict(zip(plan.workload.cooks, slots, strict=True))
    rests = tuple(by_cook.get(cook, ()) for cook in workload.cooks)
    return carried_on(workload.problem, known, rests)


def _nearer(plan: Plan, other: Plan) -> Timetable | None:
    """The plan carried over, where it is neither shorter nor later than the other."""
    start = carried_over(plan, other)
    if start is None:
        return None
    score, own = score_of(other.workload.problem, start), other.solution.score
    return start if (score.short, score.tardiness) <= (own.short, own.tardiness) else None


def _by_work(lots: tuple[Lot, ...]) -> dict[tuple[str, int, str, str | None], list[Lot]]:
    found: dict[tuple[str, int, str, str | None], list[Lot]] = defaultdict(list)
    for lot in sorted(lots, key=lambda lot: (lot.due, lot.index)):
        found[lot.component, lot.step, lot.operation, lot.cut].append(lot)
    return found


def _searched_on(
    kitchen: Kitchen,
    plan: Plan,
    start: Timetable,
    search: SearchOptions,
    on_progress: Callable[[Progress], None] | None = None,
) -> Plan:
    """A plan of the same workload, searched for from ``start``."""
    solution = solve(plan.workload.problem, search, on_progress, start)
    return plan_around(kitchen, plan.date, plan.workload, solution)


def _the_better(kitchen: Kitchen, plan: Plan, other: Plan) -> Plan:
    """The plan, or the other kitchen's carried over where that is better."""
    start = carried_over(other, plan)
    if start is None or rank(score_of(plan.workload.problem, start)) >= _rank(plan):
        return plan
    taken = _searched_on(kitchen, plan, start, SearchOptions(seconds=0.0))
    return min(plan, taken, key=_rank)


def _rank(plan: Plan) -> tuple[int, int, int]:
    return rank(plan.solution.score)
