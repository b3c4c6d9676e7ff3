"""The model's levels and weights by themselves."""

from planner.schedule.model import ROUGH_LEVELS, _weights
from planner.schedule.objective import Expressions
from planner.schedule.problem import Family, Hygiene, Job, Problem, Promise, Task, Wait
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import TERMS, Status
from tests.kitchens.problems import EIGHT, at, cook, promises, serving


def test_a_step_of_an_earlier_term_outweighs_all_later_ones_together() -> None:
    most = {term: 3 + place for place, term in enumerate(TERMS)}
    expressions = Expressions(dict.fromkeys(TERMS, 0), most)
    for level in (*ROUGH_LEVELS, TERMS):
        weights = _weights(expressions, level)
        for place, term in enumerate(level):
            later = level[place + 1 :]
            assert weights[term] > sum(weights[other] * most[other] for other in later)


def test_a_wait_does_not_hold_back_what_is_made_where_what_waits_is_left() -> None:
    """Soup counts twice and must be done by 4, so rice is cooked 4-6.

    The salad of it, of use until 5, is left.
    """
    problem = Problem(
        start=EIGHT,
        horizon=at(30),
        workers=(cook("a"),),
        resources=(),
        families=(Family("cook", "rice", "range", Hygiene(), set_up=0),),
        tasks=(
            Task("soup", 0, 0, {0: 4}, EIGHT, until=at(4)),
            Task("rice", 1, 0, {0: 2}, EIGHT),
            Task("salad", 2, 0, {0: 1}, EIGHT, until=at(5)),
        ),
        jobs=(
            Job("soup", (0,), serves=serving(0)[0]),
            Job("rice", (1,), serves=serving(1)[0]),
            Job("salad", (2,), needs=(1,), serves=serving(2)[0]),
        ),
        waits=(Wait(1, 2),),
        promises=(Promise("soup", 10, weight=2), *promises(3)[1:]),
    )
    solution = solve(problem, SearchOptions(seconds=5, workers=1))
    assert solution.score.short == 10
    assert solution.score.finish == 6
    assert solution.status is Status.OPTIMAL
