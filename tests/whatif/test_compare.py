"""Two plans side by side: differences known by construction, and none where nothing is changed."""

from dataclasses import replace

import pytest

from planner.check.timetable import check_timetable
from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Timetable
from planner.whatif import compare as compare_module
from planner.whatif.changes import (
    with_covers,
    with_equipment,
    with_shift_moved,
    without_cook,
)
from planner.whatif.compare import Comparison, carried_over, compare, figures_of
from tests.explain.test_scarce import one_burner, two_hours_of_hands
from tests.explain.test_words import ham
from tests.kitchens.bench import DATE, File, cook, read, work
from tests.kitchens.seeds import planned_seed

QUICK = PlanOptions(deterministic_limit=0.1, workers=1)


def compared(file: File, changed: Kitchen) -> Comparison:
    return compare(read(file), changed, DATE, QUICK)


def test_an_unchanged_kitchen_differs_in_nothing() -> None:
    found = compared(one_burner(), read(one_burner()))
    assert found.as_it_is == found.changed
    people = found.people
    assert people.kept
    assert not any((people.moved, people.earlier, people.later, people.added, people.dropped))


def test_a_second_burner_makes_the_second_pot_thirty_minutes_less_late() -> None:
    found = compared(one_burner(), with_equipment(read(one_burner()), "burner", 2))
    assert (found.as_it_is.late_minutes, found.changed.late_minutes) == (30, 0)
    assert found.as_it_is.labor == found.changed.labor


def test_a_cook_who_is_out_leaves_the_work_to_another_who_is_paid_alone() -> None:
    """An hour of work, 48 minutes for Ben; with Ben out Ana has it."""
    file = ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana"), cook("ben", skills=[{"skill": "hands", "pace": 1.25}])],
    )
    found = compared(file, without_cook(read(file), DATE, "ben"))
    assert (found.as_it_is.labor, found.changed.labor) == (48, 60)
    assert (found.as_it_is.paid, found.changed.paid) == (2 * 540, 540)
    assert found.changed.wages == 180.0
    (move,) = found.people.moved
    assert (move.title, move.cook_before, move.cook_after) == ("Cut Pork", "Ben", "Ana")


def test_more_covers_make_more_work_and_more_that_is_late() -> None:
    """Six lots of 20 minutes become eight; those after the third are late."""
    file = two_hours_of_hands()
    found = compared(file, with_covers(read(file), DATE, lambda covers: covers + 20))
    assert (found.as_it_is.labor, found.changed.labor) == (120, 160)
    assert found.as_it_is.late_minutes == 20 + 40 + 60
    assert found.changed.late_minutes == 20 + 40 + 60 + 80 + 100


def test_a_later_shift_makes_its_batches_later() -> None:
    file = ham()
    found = compared(file, with_shift_moved(read(file), DATE, 60, "ana"))
    (move,) = found.people.later
    assert (move.start_before, move.start_after) == (480, 540)
    assert not found.people.earlier
    assert not found.people.moved


def test_sixteen_minutes_are_noticed_and_fifteen_are_not() -> None:
    file = ham()
    for minutes, noticed in ((15, 0), (16, 1)):
        found = compared(file, with_shift_moved(read(file), DATE, minutes, "ana"))
        assert len(found.people.later) == noticed


def test_overtime_is_counted_and_paid() -> None:
    """Two hours of work in a shift of an hour and a half: half an hour of overtime."""
    file = two_hours_of_hands(cooks=[cook("ana", end="09:30", shift={"overtime_minutes": 60})])
    figures = figures_of(plan_morning(read(file), DATE, QUICK))
    assert (figures.overtime, figures.paid) == (30, 120)


def test_more_of_anything_never_looks_worse(monkeypatch: pytest.MonkeyPatch) -> None:
    """Even where its own search finds nothing: the plan as it is holds with more burners too."""
    file = one_burner(2)
    more = with_equipment(read(file), "burner", 3)
    poor = plan_morning(read(one_burner()), DATE, QUICK)

    def searched(kitchen: Kitchen, *_: object) -> Plan:
        plan = plan_morning(kitchen, DATE, QUICK)
        return plan if kitchen.equipment[0].count < 3 else replace(plan, solution=poor.solution)

    monkeypatch.setattr(compare_module, "plan_morning", searched)
    real = compare_module._searched_on

    def no_better(
        kitchen: Kitchen, plan: Plan, start: Timetable, search: SearchOptions, *_: object
    ) -> Plan:
        return plan if search.seconds else real(kitchen, plan, start, search)

    monkeypatch.setattr(compare_module, "_searched_on", no_better)
    found = compared(file, more)
    assert found.changed.late_minutes == found.as_it_is.late_minutes == 0


def three_cooks() -> File:
    """Ana, Ben and Cyd cut for an hour each; nobody is needed elsewhere."""
    return ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60, lot_limit="2 kg")],
        cooks=[cook(name) for name in ("ana", "ben", "cyd")],
        service={"opens": "09:00"},
    )


def test_a_plan_is_carried_over_with_cooks_and_times() -> None:
    kitchen = read(one_burner(2))
    plan = plan_morning(kitchen, DATE, QUICK)
    more = plan_morning(with_equipment(kitchen, "burner", 3), DATE, QUICK)
    assert carried_over(plan, more) == plan.solution.timetable


def test_what_no_longer_fits_is_put_in_beside_the_rest() -> None:
    """One burner in place of two: the first pot stays, the second comes after it."""
    kitchen = read(one_burner(2))
    plan = plan_morning(kitchen, DATE, QUICK)
    fewer = plan_morning(with_equipment(kitchen, "burner", 1), DATE, QUICK)
    taken = carried_over(plan, fewer)
    assert taken is not None
    assert check_timetable(fewer.workload.problem, taken) == ()
    assert sorted(item.start for item in taken.assignments) == [480, 539, 540, 599]


def test_who_stays_keeps_the_work_when_somebody_is_out() -> None:
    """Only what was Cyd's moves."""
    file = three_cooks()
    found = compared(file, without_cook(read(file), DATE, "cyd"))
    assert [move.cook_before for move in found.people.moved] in (["Cyd"], [])
    assert {one.cook for one in found.people.dropped} <= {"Cyd"}
    assert found.people.kept == 2


def test_the_caller_is_told_which_plan_is_made() -> None:
    told: list[str] = []
    kitchen = read(one_burner())
    compare(kitchen, kitchen, DATE, QUICK, on_plan=told.append)
    assert told == ["as it is", "changed"]


@pytest.mark.parametrize("cook", ["odile", "tomas", "ines"])
def test_a_real_plan_is_carried_over_when_a_cook_is_out_or_covers_differ(cook: str) -> None:
    kitchen, plan = planned_seed("demo")
    options = PlanOptions(seconds=0.0, remedies=False)
    for changed in (
        without_cook(kitchen, plan.date, cook),
        with_covers(kitchen, plan.date, lambda covers: covers * 3 // 2),
    ):
        other = plan_morning(changed, plan.date, options)
        taken = carried_over(plan, other)
        assert taken is not None
        assert check_timetable(other.workload.problem, taken) == ()
        assert len(taken.assignments) > len(other.workload.problem.tasks) // 2
