"""Planned minutes of each cook: every minute from first to last is of one kind."""

from typing import Any

import pytest

from planner.check.rests import breaks_of
from planner.labor.minutes import cook_minutes
from planner.lots.build import workload_of
from planner.morning import PlanOptions, plan_morning
from planner.plan import CookMinutes, Plan
from planner.quantities.compute import quantities_of
from planner.schedule.timetable import Assignment, Lead, Timetable
from tests.kitchens.bench import DATE, File, bench, cook, cut_from, dish, food, kit_of, read, work
from tests.kitchens.seeds import planned_seed


def kitchen(**shift: Any) -> File:
    """Ana, 08:00 to 17:00 at 20 an hour, cuts a kilo of ham in four lots."""
    return bench(
        ingredients=[food("pork")],
        operations=[work("cut", lot_limit="250 g")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g"})],
        cooks=[cook("ana", shift=shift)],
        rules={"station_set_up_minutes": 10},
    )


def minutes(file: File, *worked: tuple[int, int, Lead]) -> CookMinutes:
    """Minutes of Ana, who works (start, end, lead before it), in minutes after 08:00."""
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    problem = workload_of(kit, demands, quantities).problem
    timetable = Timetable(
        tuple(
            Assignment(task, 0, 480 + start, 480 + end, lead)
            for task, (start, end, lead) in enumerate(worked)
        )
    )
    (found,) = cook_minutes(kit, problem, timetable)
    return found


def test_every_minute_between_first_and_last_is_of_one_kind() -> None:
    """Set-up from 08:10, a wait of 20, a change with a clean of 7 to 08:52, then a rest of 15."""
    file = kitchen(breaks=[{"start": "09:00", "minutes": 15}])
    found = minutes(
        file,
        (13, 25, Lead(set_up=3)),
        (52, 60, Lead(set_up=2, changeover=1, hand_wash=1, clean=3)),
        (75, 80, Lead()),
    )
    assert (found.hands_on, found.set_up, found.changeover) == (12 + 8 + 5, 5, 5)
    assert (found.waiting, found.breaks) == (20, 15)
    first, last = 10, 80
    kinds = found.hands_on + found.set_up + found.changeover + found.waiting + found.breaks
    assert kinds == last - first


def test_the_station_is_set_up_before_the_first_work_and_counted_apart() -> None:
    found = minutes(kitchen(), (10, 20, Lead()))
    assert (found.station_set_up, found.set_up, found.waiting) == (10, 0, 0)


def test_rests_and_service_outside_of_the_work_are_no_waiting() -> None:
    """Away from 11:00 to 14:00, after the last work at 09:00."""
    file = kitchen(on_line=[{"start": "11:00", "end": "14:00"}])
    found = minutes(file, (10, 60, Lead()))
    assert (found.on_line, found.waiting) == (180, 0)


def test_a_rest_that_falls_into_the_station_set_up_is_counted_once() -> None:
    """The station is set up to 08:10, the line is from 08:00 to 08:30."""
    file = kitchen(on_line=[{"start": "08:00", "end": "08:30"}])
    found = minutes(file, (-5, 0, Lead()), (30, 40, Lead()))
    assert found.waiting == 0


def test_a_fixed_shift_is_paid_whole_and_overtime_on_top() -> None:
    usual = minutes(kitchen(), (10, 20, Lead()))
    assert (usual.paid, usual.overtime, usual.wages) == (540, 0, pytest.approx(180))
    late = minutes(kitchen(), (10, 20, Lead()), (530, 564, Lead()))
    assert (late.paid, late.overtime, late.wages) == (564, 24, pytest.approx(188))


def test_a_fixed_shift_without_work_is_paid_too() -> None:
    idle = minutes(kitchen())
    assert (idle.hands_on, idle.waiting, idle.paid) == (0, 0, 540)


def test_a_flexible_shift_is_paid_from_station_set_up_to_the_last_work() -> None:
    """Work from 10:00 to 12:00, after ten minutes of set-up."""
    found = minutes(kitchen(flexible=True), (120, 240, Lead()))
    assert found.paid == 130


def test_a_flexible_shift_is_paid_no_less_than_agreed() -> None:
    found = minutes(kitchen(flexible=True, min_paid_minutes=180), (120, 180, Lead()))
    assert found.paid == 180
    assert minutes(kitchen(flexible=True, min_paid_minutes=180)).paid == 180


def test_a_flexible_shift_with_nothing_to_do_and_nothing_agreed_costs_nothing() -> None:
    found = minutes(kitchen(flexible=True))
    assert (found.paid, found.wages) == (0, 0)


def test_a_flexible_cook_stays_for_the_line() -> None:
    """Prep to 09:00, then the line from 11:00 to 14:00."""
    line = [{"start": "11:00", "end": "14:00"}]
    file = kitchen(flexible=True, on_line=line)
    assert minutes(file, (10, 60, Lead())).paid == 6 * 60
    assert minutes(file).paid == 3 * 60, "no prep: the line alone"


def test_a_flexible_cook_waits_for_no_rest_before_or_after_the_work() -> None:
    """Work from 10:00 to 11:00; the rests at 08:30 and 15:00 are not waited for."""
    rests = [{"start": "08:30", "minutes": 15}, {"start": "15:00", "minutes": 15}]
    found = minutes(kitchen(flexible=True, breaks=rests), (120, 180, Lead()))
    assert found.paid == 70


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned_seed("small")[1]


def test_the_minutes_of_a_planned_morning_add_up(plan: Plan) -> None:
    workers = plan.workload.problem.workers
    breaks = breaks_of(plan.workload.problem, plan.solution.timetable)
    for index, found in enumerate(plan.labor.cooks):
        items = [a for a in plan.solution.timetable.assignments if a.worker == index]
        first = min(a.start - a.lead.total for a in items)
        last = max(a.end for a in items)
        stretches = [*workers[index].blocked, *breaks[index]]
        away = sum(max(0, min(e, last) - max(b, first)) for b, e in stretches)
        busy = found.hands_on + found.set_up + found.changeover
        assert found.waiting >= 0
        assert busy + found.waiting + away == last - first


def test_the_total_is_the_work_of_all_and_what_batching_saves_has_its_sign() -> None:
    plan = plan_morning(
        read(kitchen()), DATE, PlanOptions(deterministic_limit=0.05, workers=1, remedies=False)
    )
    cooks = plan.labor.cooks
    assert plan.labor.total == sum(c.hands_on + c.set_up + c.changeover for c in cooks)
    assert plan.labor.saved == plan.labor.dish_by_dish - plan.labor.total
