from planner.check.score import score_of
from planner.check.timetable import check_timetable
from tests.kitchens.plan_food import ONION_AP, ONION_ENDS, STOCK_ONION
from tests.kitchens.plans import tiny_plan


def test_the_hand_made_plan_keeps_every_rule():
    plan = tiny_plan()
    assert check_timetable(plan.workload.problem, plan.solution.timetable) == ()


def test_its_score_is_what_the_checker_counts():
    plan = tiny_plan()
    counted = score_of(plan.workload.problem, plan.solution.timetable)
    assert (counted.short, counted.tardiness, counted.labor, counted.freshness, counted.finish) == (
        0,
        0,
        72,
        0,
        375,
    )
    assert plan.solution.score == counted


def test_its_onions_balance():
    """1 740 g for dinner and 235 g in the stock come out of the diced part, ends and leftovers."""
    diced = ONION_AP * 0.9 * 0.96
    assert abs(diced - 1740 - STOCK_ONION) < 1e-9
    assert abs(STOCK_ONION + ONION_ENDS + 60 - 235) < 1e-9
