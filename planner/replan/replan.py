"""A morning under way, planned anew: what is done stays, the rest is repaired with few changes."""

import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from planner.check.pins import check_pins
from planner.check.quantities import check_quantities
from planner.check.timetable import check_timetable
from planner.check.violation import Violation
from planner.kitchen.conversion import Converter
from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.lots.lacking import Shared, share_out
from planner.lots.types import Workload
from planner.morning import BrokenPlanError
from planner.pins.types import Pin, PinError
from planner.plan import Plan, Trouble
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.kitchenry import Kitchenry
from planner.replan.begun import Standing, on_route, standing, work_of
from planner.replan.breaks import moved_breaks
from planner.replan.budget import Budget
from planner.replan.changes import LEAST_SHIFT, Change, changes_of
from planner.replan.clocks import clocks
from planner.replan.course import Course, as_told, course_of
from planner.replan.events import CoversChanged, DeliveryLate, Event, Progress
from planner.replan.exposed import out_too_long, whole_exposed, with_exposures, worn_out
from planner.replan.joined import joined
from planner.replan.kept import kept
from planner.replan.kitchen import counted_now, on_hand
from planner.replan.known import check_events
from planner.replan.links import Link, links_by_lot, links_by_stock
from planner.replan.lost import counted_on, lost
from planner.replan.match import Match, match, named
from planner.replan.moved import no_room
from planner.replan.over import in_time, strike, too_late_for
from planner.replan.pinned import Wishes, given_up_notes, held_rest
from planner.replan.repair import repair
from planner.replan.residual import Residual, residual
from planner.replan.stock import Left, left_by
from planner.replan.told import notes_of, stranded
from planner.schedule.search import SearchOptions
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Solution, Timetable
from planner.troubles.find import troubles_of
from planner.troubles.plated import plated_wants

_SECONDS = 3.0
OnFirst = Callable[[tuple[Change, ...], Score], None]


@dataclass(frozen=True, slots=True)
class Replan:
    """The rest of a day from ``now`` on.

    Attributes
    ----------
    course
        The whole day, begun and to come, to replan from when something else happens.
    day
        What has begun.
    workload, solution
        The lots that have not begun, then those under way with what is left of them.
    new_lots
        How many of the lots have not begun.
    rung
        How free the plan is, see :mod:`planner.replan.repair`.
    changes
        What is different for whom.
    notes
        What people must be told beside: food to discard, food to move.
    """

    now: int
    course: Course
    day: Standing
    workload: Workload
    solution: Solution
    new_lots: int
    rung: int
    troubles: tuple[Trouble, ...]
    changes: tuple[Change, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Food:
    """What is wanted and made from now on, and the kitchen that it is counted for."""

    kit: Kitchenry
    plan: Plan
    new: Workload
    links: tuple[Link, ...]
    shared: Shared | None = None
    """How raw food was shared out anew; None: the lots are as they were."""

    @property
    def recounted(self) -> bool:
        """Whether what is wanted and there was worked out anew."""
        return self.shared is not None


def replan(
    kitchen: Kitchen,
    plan: Plan | Replan | Course,
    now: int,
    events: Iterable[Event] = (),
    options: SearchOptions | None = None,
    on_first: OnFirst | None = None,
    progress: Iterable[Progress] = (),
    pins: tuple[Pin, ...] | None = None,
) -> Replan:
    """Plan what is left of ``plan`` at ``now`` (minutes), after ``events``.

    The plan is taken to have been kept until now but for what events and ``progress`` say. There is
    always an answer; what cannot be made any more is short, and said. ``on_first`` gets the first
    repaired plan before any search. By the clock the limit of ``options`` (default: 3 s) is for all
    of it. Given a :class:`Replan`, or its ``course``, it goes on from there: earlier events still
    hold, and ``kitchen`` is as it was counted in the morning.

    ``pins`` are what people hold by hand from now on, and nothing else; None: as before, and what
    cannot be held any more is given up and said.

    Raises
    ------
    PinError
        One of ``pins`` cannot be kept.
    UnknownEventError
        An event names what the kitchen or the plan does not have.
    BrokenPlanError
        The plan breaks a rule: a defect of this program, never of the kitchen.
    """
    budget = Budget(options or SearchOptions(seconds=_SECONDS), time.monotonic())
    # How things stand is told by the minute before now, and a day has none before its midnight.
    now = max(now, 1)
    course = _course_so_far(kitchen, plan)
    told, all_news = tuple(progress), tuple(events)
    check_events(course, all_news, told)
    news = in_time(course, now, all_news)
    course = as_told(course, told, now)
    happened = (*course.events, *news)
    day = standing(course, now, happened, on_hand(course.kitchen, course.plan.date, now, happened))
    kit = kitchenry(course.counted, course.plan.date)
    converter = Converter(course.kitchen)
    left = left_by(kit.catalog, converter, course.workload, day, course.settled)
    if _food_changes(news) or not counted_on(course, day, left) <= course.settled:
        food = _recounted(course, day, left, happened)
    else:
        food = _as_it_was(course, kit, day)
    budget = budget.after_building()
    wishes = Wishes(course.pins if pins is None else pins, strict=pins is not None)
    best = _planned(course, day, food, happened, budget, wishes, quiet=not news, on_first=on_first)
    doomed = _doomed(best, now)
    if doomed:
        thrown = left_by(kit.catalog, converter, course.workload, day, course.settled | doomed)
        remade = _recounted(course, day, thrown, happened)
        less = budget.second()
        again = _planned(course, day, remade, happened, less, wishes, quiet=False, on_first=None)
        if again.solution.score < best.solution.score:
            best, left = again, thrown
    rest, solution = best.rest, best.solution
    _refuse(check_timetable(rest.workload.problem, solution.timetable))
    workload, whole, begun = joined(course, day, best.food.links, rest, solution.timetable)
    return Replan(
        now=now,
        course=Course(
            plan=best.food.plan,
            kitchen=course.kitchen,
            counted=best.food.kit.catalog.kitchen,
            workload=whole_exposed(kit.catalog, workload),
            timetable=whole,
            events=happened,
            told=begun,
            settled=course.settled | lost(day, left),
            pins=best.pins,
        ),
        day=day,
        workload=rest.workload,
        solution=solution,
        new_lots=rest.new_lots,
        rung=best.rung,
        troubles=_troubles(best.food, rest, solution.timetable),
        changes=changes_of(kit.catalog, rest, best.known, solution.timetable),
        notes=(
            *given_up_notes(kit.catalog, rest.workload, best.given_up),
            *too_late_for(course, now, all_news),
            *out_too_long(kit.catalog, rest, solution.timetable),
            *notes_of(
                kit.catalog,
                day,
                left,
                stranded(rest, solution.timetable),
                course.settled,
                again=best.food.recounted,
            ),
            *moved_breaks(
                kit.catalog, workload.cooks, rest.breaks, solution.timetable, LEAST_SHIFT
            ),
        ),
    )


def _course_so_far(kitchen: Kitchen, plan: Plan | Replan | Course) -> Course:
    if isinstance(plan, Course):
        return plan
    return plan.course if isinstance(plan, Replan) else course_of(kitchen, plan)


@dataclass(frozen=True, slots=True)
class _Planned:
    food: _Food
    rest: Residual
    known: Match
    solution: Solution
    rung: int
    pins: tuple[Pin, ...]
    given_up: tuple[PinError, ...]


def _planned(
    course: Course,
    day: Standing,
    food: _Food,
    events: tuple[Event, ...],
    budget: Budget,
    wishes: Wishes,
    *,
    quiet: bool,
    on_first: OnFirst | None,
) -> _Planned:
    """Schedule ``food`` from now on. ``quiet``: nothing is new, so nobody starts anything new."""
    new = strike(food.new, food.plan.demands, day.now)
    rest = residual(course, new, day, food.links, events)
    rest = with_exposures(food.kit.catalog, course, day, food.links, rest)
    known = match(course, rest, day)
    rest = named(rest, known.names)
    if food.recounted or not quiet:
        known = replace(known, left_out=())
    short, late = _expected(course, rest, known)

    def first(timetable: Timetable, score: Score) -> None:
        if on_first is not None:
            on_first(changes_of(food.kit.catalog, rest, known, timetable), score)

    # What was short of other food says nothing of this.
    expected = (0, late) if food.recounted else (short, late)
    catalog = food.kit.catalog
    held = held_rest(catalog, rest, known, wishes)
    repaired = repair(held.problem, held.known, budget, expected, first)
    workload, given_up = rest.workload, held.given_up
    while left := no_room(catalog, workload, held.pins, repaired.solution.timetable):
        if wishes.strict:
            raise left[0]
        given_up = (*given_up, *left)
        held = held_rest(catalog, rest, known, wishes.without(one.lot for one in given_up))
        repaired = repair(held.problem, held.known, budget, expected)
    _refuse(check_pins(held.pins, workload.lots, workload.cooks, repaired.solution.timetable))
    return _Planned(food, rest, known, repaired.solution, repaired.rung, held.pins, tuple(given_up))


def _doomed(found: _Planned, now: int) -> frozenset[tuple[str, str]]:
    """Food that nobody can go on with in time, by lot and component: it must be made again."""
    done = {item.task for item in found.solution.timetable.assignments}
    lots, links = found.food.new.lots, found.food.links
    late = {
        link.lot
        for link in links
        if link.most is not None
        and not link.begun.to_take_out
        and work_of(lots[link.lot]) not in done
        and lots[link.lot].index not in found.known.left_out
    }
    late |= {
        lot
        for lot in worn_out(found.rest, now)
        if work_of(lots[lot]) not in done and lot not in found.known.left_out
    }
    # A clock that was started before runs out lots later: what leads there is lost with it.
    behind = set(late)
    ahead = list(late)
    while ahead:
        lot = lots[ahead.pop()]
        more = {i for i, _ in lot.upstream if on_route(lots[i], lot)} - behind
        behind |= more
        ahead += more
    return frozenset(
        (link.begun.lot.id, share.component)
        for link in links
        if (link.lot in late and link.most is not None)
        or (link.lot in behind and on_route(link.begun.lot, lots[link.lot]))
        for share in link.begun.lot.shares
        if not link.begun.to_take_out
    )


def _food_changes(news: tuple[Event, ...]) -> bool:
    """Whether other food is wanted, or comes at another time, than the old plan's lots are for."""
    return any(isinstance(event, CoversChanged | DeliveryLate) for event in news)


def _recounted(course: Course, day: Standing, left: Left, events: tuple[Event, ...]) -> _Food:
    """What is wanted now less what is there, in lots of its own."""
    counted = counted_now(course.kitchen, course.plan.date, day.now, left, events)
    # A par is reached once a day: what was there and has been used counts.
    kit = replace(kitchenry(counted, course.plan.date), eaten=left.eaten)
    demands, quantities = quantities_of(kit)
    shared = share_out(kit, demands, quantities)
    new = workload_of(kit, demands, quantities, food=shared)
    plan = replace(course.plan, demands=demands, quantities=quantities, workload=new)
    _refuse(check_quantities(counted, plan))
    links = links_by_stock(kit.catalog, new, left.sources)
    hot = clocks(kit.catalog, course.workload, new, day.by_lot, links)
    return _Food(kit, plan, new, (*links, *hot), shared)


def _as_it_was(course: Course, kit: Kitchenry, day: Standing) -> _Food:
    """The old plan's own lots, those that have not begun."""
    new, new_index = kept(course.workload, day)
    links = links_by_lot(kit.catalog, course.workload, new_index, day.by_lot)
    return _Food(kit, course.plan, new, links)


def _expected(course: Course, rest: Residual, known: Match) -> tuple[int, int]:
    """How much was short, and how late (both weighted), of what had not begun."""
    by_task = {item.task: item for item in course.timetable.assignments}
    problem = course.workload.problem
    short: dict[tuple[int, str], int] = {}
    late = 0
    for job in problem.jobs:
        for serving in job.serves:
            if not all(task in by_task for task in job.tasks):
                key = serving.promise, serving.component
                short[key] = short.get(key, 0) + serving.portions
    for index, item in known.old.items():
        task = rest.workload.problem.tasks[index]
        if task.due is not None:
            late += task.due_weight * max(0, item.end - task.due)
    worst: dict[int, int] = {}
    for (promise, _), portions in short.items():
        worst[promise] = max(worst.get(promise, 0), portions)
    return sum(problem.promises[p].weight * n for p, n in worst.items()), late


def _troubles(food: _Food, rest: Residual, timetable: Timetable) -> tuple[Trouble, ...]:
    """What is short or late, of dishes and pars alone: what is under way is in the notes."""
    lots = len(rest.workload.lots)
    jobs = tuple(
        replace(
            job,
            serves=job.serves if index < rest.new_lots else (),
            needs=tuple(need for need in job.needs if need < lots),
        )
        for index, job in enumerate(rest.workload.problem.jobs)
    )
    plain = replace(rest.workload, problem=replace(rest.workload.problem, jobs=jobs))
    tables, demands, quantities = tables_of(plain.problem), food.plan.demands, food.plan.quantities
    shared = food.shared or share_out(food.kit, demands, quantities)
    plated = plated_wants(food.kit, demands, quantities, plain, shared)
    return troubles_of(food.kit, plain, tables, timetable, plated, quantities.pulls)


def _refuse(violations: tuple[Violation, ...]) -> None:
    if violations:
        raise BrokenPlanError("; ".join(str(violation) for violation in violations[:5]))
