"""Projects under scarce resources: the planner's finish is the least of all orders, and proven."""

import pytest

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Status
from tests.outside.projects import Project, as_problem, draw_project, least_finish


def test_the_least_finish_of_projects_worked_out_by_hand() -> None:
    """Two of two units each beside one of three, of four units in all; then one pair of hands."""
    project = Project(
        minutes=(3, 4, 2),
        follows=(frozenset(), frozenset(), frozenset({0})),
        units=((2,), (2,), (3,)),
        capacity=(4,),
        hands=None,
    )
    assert least_finish(project) == 6  # both at once until 3 and 4, then the third
    alone = Project(project.minutes, project.follows, project.units, project.capacity, hands=1)
    assert least_finish(alone) == 9


@pytest.mark.parametrize("seed", range(40))
def test_projects_are_proven_at_the_least_finish_of_all_orders(seed: int) -> None:
    project = draw_project(seed)
    problem = as_problem(project)
    solution = solve(problem, SearchOptions(seconds=20, workers=1))
    assert check_timetable(problem, solution.timetable) == ()
    assert score_of(problem, solution.timetable) == solution.score
    assert solution.score.short == 0
    assert solution.score.finish == least_finish(project)
    assert solution.status is Status.OPTIMAL


def test_scarce_resources_and_hands_matter_in_what_is_drawn() -> None:
    """That the projects are none that precedences alone would settle."""
    longer = 0
    for seed in range(40):
        project = draw_project(seed)
        ends: list[int] = []
        for minutes, before in zip(project.minutes, project.follows, strict=True):
            ends.append(minutes + max((ends[b] for b in before), default=0))
        longer += least_finish(project) > max(ends)
    assert longer >= 30
