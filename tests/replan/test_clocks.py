"""Food that came hot out of a step must be cold in time, whatever happens in between."""

from typing import Any

from planner.plan import Plan
from planner.replan.events import CookGone, CoversChanged, Progress
from planner.replan.replan import Replan, replan
from tests.kitchens.bench import File, bench, cook, cut_from, dish, food, work
from tests.replan.mornings import QUICK
from tests.replan.test_replan import planned

CUT, ICE = 1, 2


def kitchen(**parts: Any) -> File:
    """A kilo of ham roasted for an hour, cut within half an hour, iced to 21 C for an hour.

    The ice bath must be begun within fifty minutes of the oven, cut or not.
    """
    roast = work("roast", unattended_minutes=60, finish_minutes=2, cautions=["hot surface"])
    ice = work("ice", unattended_minutes=60, equipment=[{"equipment": "bath"}])
    route = ("roast", "cut", {"operation": "ice", "temperature_c": 21})
    return bench(
        ingredients=[food("pork")],
        operations=[roast, work("cut"), ice],
        equipment=[{"id": "bath", "name": "Bath", "count": 2, "holds": "5 kg"}],
        components=[cut_from("pork", "ham", *route, tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def out_of_the_oven(plan: Plan) -> int:
    (lot,) = [lot for lot in plan.workload.lots if lot.step == 0]
    last = lot.tasks[-1].task
    return next(a.end for a in plan.solution.timetable.assignments if a.task == last)


def done(plan: Plan, step: int) -> int:
    """When a step's hands-on work is done."""
    (lot,) = [lot for lot in plan.workload.lots if lot.step == step]
    task = lot.tasks[0].task
    return next(a.end for a in plan.solution.timetable.assignments if a.task == task)


def iced_at(found: Replan) -> int:
    (lot,) = [lot for lot in found.workload.lots[: found.new_lots] if lot.step == ICE]
    by_task = {a.task: a.start for a in found.solution.timetable.assignments}
    return by_task[lot.tasks[0].task]


def relieved(start: str) -> tuple[Replan, int]:
    """Ana roasts from 08:00, cuts, and leaves; Ben comes for the ice. When it left the oven."""
    kitchen_, plan = planned(kitchen(cooks=[cook("ana"), cook("ben", start)]))
    out, now = out_of_the_oven(plan), done(plan, CUT)
    assert out == 9 * 60 + 12
    return replan(kitchen_, plan, now, (CookGone("ana", now),), QUICK), out


def test_cut_food_keeps_the_clock_of_the_oven_it_came_from() -> None:
    """Ben comes 48 minutes after the oven: in time, and no food is lost."""
    found, out = relieved("10:00")
    assert out + 48 <= iced_at(found) <= out + 50
    assert found.notes == ()


def test_cut_food_that_cannot_be_cold_in_time_is_discarded_and_made_again() -> None:
    """He comes 51 minutes after it."""
    found, _ = relieved("10:03")
    assert "Discard 1.00 kg" in found.notes[0]
    assert [lot.step for lot in found.workload.lots[: found.new_lots]] == [0, 1, 2]
    assert found.solution.score.short == 0


def test_a_clock_runs_on_where_the_rest_is_counted_anew() -> None:
    """More covers: the kilo that is cut keeps its own time, what is roasted for them another."""
    kitchen_, plan = planned(kitchen(cooks=[cook("ana"), cook("ben")]))
    now, out = done(plan, CUT), out_of_the_oven(plan)
    found = replan(kitchen_, plan, now, (CoversChanged("dinner", 20),), QUICK)
    lots = [lot for lot in found.workload.lots[: found.new_lots] if lot.step == ICE]
    first = [lot for lot in lots if lot.stock]
    assert first
    by_task = {a.task: a.start for a in found.solution.timetable.assignments}
    assert all(by_task[lot.tasks[0].task] <= out + 50 for lot in first)
    again = replan(kitchen_, found, now + 1, (), QUICK)
    assert (again.changes, again.notes) == ((), ())


def test_cut_food_past_its_clock_unnoticed_is_discarded() -> None:
    kitchen_, plan = planned(kitchen(cooks=[cook("ana")]))
    ice = next(lot for lot in plan.workload.lots if lot.step == ICE).tasks[0].task
    now = out_of_the_oven(plan) + 80
    found = replan(kitchen_, plan, now, (), QUICK, progress=[Progress(ice, "ana", now + 1)])
    assert "it had to go on by" in found.notes[0]
