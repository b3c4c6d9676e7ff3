"""Whatever a small kitchen asks for, its morning is planned and no rule is broken."""

from hypothesis import given, settings

from planner.check.quantities import check_quantities
from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from tests.kitchens.bench import DATE, File, read
from tests.properties.kitchens import kitchens

FIRST_LOOK = PlanOptions(deterministic_limit=0.02, workers=1, remedies=False)
TRIED = PlanOptions(deterministic_limit=0.02, workers=1, remedy_seconds=0.01)


def _busy(plan: Plan, cook: int) -> list[tuple[int, int]]:
    return [
        (a.start - a.lead.total, a.end)
        for a in plan.solution.timetable.assignments
        if a.worker == cook
    ]


@settings(max_examples=60)
@given(kitchens())
def test_any_kitchen_gets_a_plan_that_breaks_no_rule(file: File) -> None:
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, FIRST_LOOK)
    problem, timetable = plan.workload.problem, plan.solution.timetable
    assert check_timetable(problem, timetable) == ()
    assert check_quantities(kitchen, plan) == ()
    assert score_of(problem, timetable) == plan.solution.score


@settings(max_examples=40)
@given(kitchens())
def test_minutes_and_troubles_of_any_plan_agree_with_its_timetable(file: File) -> None:
    plan = plan_morning(read(file), DATE, FIRST_LOOK)
    for index, cook in enumerate(plan.labor.cooks):
        spans = _busy(plan, index)
        assert cook.waiting >= 0
        assert cook.hands_on + cook.set_up + cook.changeover == sum(e - b for b, e in spans)
    assert bool(plan.late) == (plan.solution.score.tardiness > 0)
    # Short as well, though made or never to be made: ready too late, or taken as it is.
    assert plan.short or not plan.solution.score.short
    assert all(trouble.binding for trouble in plan.troubles)
    told = [(one.service, one.dish) for one in plan.short if one.unit == "portions"]
    assert len(told) == len(set(told)), "each dish and service once"


@settings(max_examples=8)
@given(kitchens())
def test_a_remedy_solves_exactly_if_it_leaves_nothing(file: File) -> None:
    plan = plan_morning(read(file), DATE, TRIED)
    for remedy in plan.remedies:
        left = remedy.late_minutes + remedy.short_portions + remedy.short_kilos
        assert remedy.solves == (left == 0)
    assert bool(plan.remedies) <= bool(plan.troubles)
