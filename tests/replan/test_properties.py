"""Whatever befalls a small morning at any time, there is an answer, and it can be worked."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planner.check.timetable import check_timetable
from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.replan.begun import work_of
from planner.replan.course import Course, course_of
from planner.replan.events import CookGone, CoversChanged, EquipmentDown, Event
from planner.replan.replan import Replan, replan
from tests.kitchens.bench import DATE, File, read
from tests.properties.kitchens import kitchens
from tests.replan.events import events
from tests.replan.mornings import QUICK

FIRST_LOOK = PlanOptions(deterministic_limit=0.02, workers=1, remedies=False)
TIMES = st.integers(7 * 60, 22 * 60)


def planned(file: File) -> tuple[Kitchen, Plan]:
    kitchen = read(file)
    return kitchen, plan_morning(kitchen, DATE, FIRST_LOOK)


def check(found: Replan, before: Course) -> None:
    """No rule is broken; what has begun stays; nobody is given two things at once."""
    problem, timetable = found.workload.problem, found.solution.timetable
    assert check_timetable(problem, timetable) == ()
    begun = {one.lot.id for one in found.day.begun}
    assert not begun & {lot.id for lot in found.workload.lots[: found.new_lots]}
    assert all(item.end > found.now - 1 for item in timetable.assignments)
    for worker, until in found.day.busy.items():
        for item in timetable.assignments:
            if item.worker == worker and problem.tasks[item.task].lot < len(found.workload.lots):
                assert item.start - item.lead.total >= until
    starts = {item.task: item.start for item in before.timetable.assignments}
    for one in found.day.begun:
        assert starts[work_of(one.lot)] < found.now + 60


@settings(max_examples=60)
@given(kitchens(), TIMES, st.data())
def test_any_event_at_any_time_has_an_answer(file: File, now: int, data: st.DataObject) -> None:
    kitchen, plan = planned(file)
    course = course_of(kitchen, plan)
    told = data.draw(events(kitchen, course, now))
    found = replan(kitchen, plan, now, told, QUICK)
    check(found, course)
    _check_equipment(found, told)


@settings(max_examples=40)
@given(kitchens(), TIMES, st.integers(0, 200), st.data())
def test_a_second_event_goes_on_from_the_first(
    file: File, now: int, later: int, data: st.DataObject
) -> None:
    kitchen, plan = planned(file)
    course = course_of(kitchen, plan)
    first = replan(kitchen, plan, now, data.draw(events(kitchen, course, now)), QUICK)
    then = now + later
    told = data.draw(events(kitchen, first.course, then))
    second = replan(kitchen, first, then, told, QUICK)
    check(second, first.course)
    gone = {e.cook for e in second.course.events if isinstance(e, CookGone) and e.at <= then}
    for item in second.solution.timetable.assignments:
        if second.workload.problem.tasks[item.task].lot < len(second.workload.lots):
            assert item.worker >= len(second.workload.cooks) or (
                second.workload.cooks[item.worker] not in gone
            )


@settings(max_examples=40)
@given(kitchens(), TIMES)
def test_where_nothing_happens_nothing_changes(file: File, now: int) -> None:
    kitchen, plan = planned(file)
    found = replan(kitchen, plan, now, (), QUICK)
    assert found.changes == ()
    assert found.rung == 1
    again = replan(kitchen, found, now + 30, (), QUICK)
    assert again.changes == ()


@settings(max_examples=40)
@given(kitchens(), TIMES)
def test_the_joined_day_keeps_every_rule_where_nothing_happened(file: File, now: int) -> None:
    """What has begun and what is to come make one plan again, boards by number and all."""
    kitchen, plan = planned(file)
    course = replan(kitchen, plan, now, (), QUICK).course
    assert check_timetable(course.workload.problem, course.timetable) == ()


@settings(max_examples=30)
@given(kitchens(by_products=False), TIMES)
def test_what_is_done_and_what_is_to_come_cover_the_wants(file: File, now: int) -> None:
    """After more covers there is as much of every step as in a day planned for them at once.

    Unless batches are rounded up: what is left over of one needs no second; or are made for several
    days: once today's is begun, tomorrow's food waits for tomorrow.
    """
    fields = {field for part in file["components"] for field in part}
    assume(fields.isdisjoint({"batch_minimum", "batch_multiple", "make_for_days"}))
    kitchen, plan = planned(file)
    service = kitchen.services[0]
    assume(plan.demands and now < min(d.until for d in plan.demands))
    covers = round(service.covers * 1.2)
    more = replan(kitchen, plan, now, (CoversChanged(service.id, covers),), QUICK)
    first, *rest = file["services"]
    _, fresh = planned({**file, "services": [{**first, "covers": covers}, *rest]})
    made = _made(more.course)
    for key, grams in _made(course_of(kitchen, fresh)).items():
        assert made.get(key, 0.0) >= grams * 0.999 - 2


def _made(course: Course) -> dict[tuple[str, int], float]:
    found: dict[tuple[str, int], float] = {}
    for lot in course.workload.lots:
        for share in lot.shares:
            key = share.component, lot.step
            found[key] = found.get(key, 0.0) + share.grams
    return found


def _check_equipment(found: Replan, told: tuple[Event, ...]) -> None:
    """At no minute is more in use than is left of what is down."""
    problem = found.workload.problem
    by_task = {item.task: item for item in found.solution.timetable.assignments}
    for event in told:
        if not isinstance(event, EquipmentDown):
            continue
        for index, resource in enumerate(problem.resources):
            if resource.id != f"equipment:{event.equipment}":
                continue
            spans = [
                (by_task[h.first].start - by_task[h.first].lead.total,
                 by_task[h.last].end + h.tail, h.units)
                for h in problem.holds
                if h.resource == index and h.first in by_task
                and problem.tasks[h.first].lot < len(found.workload.lots)
            ]  # fmt: skip
            until = event.until if event.until is not None else 10**6
            for begin, _, _ in spans:
                if found.now <= begin < until:
                    used = sum(units for b, e, units in spans if b <= begin < e)
                    assert used <= max(0, resource.capacity - event.units)
