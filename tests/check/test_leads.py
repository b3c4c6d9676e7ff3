"""Leads follow from what came before, on the cook's hands and on the board."""

from dataclasses import replace

import pytest

from planner.check.leads import expected_leads, leaves_behind
from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Problem,
    Resource,
    Task,
    Walk,
)
from planner.schedule.timetable import Assignment, Lead
from tests.kitchens.problems import EIGHT, at, cook

NUTS = frozenset({"tree nuts"})
MILK = frozenset({"milk"})


@pytest.mark.parametrize(
    ("before", "after", "unclean"),
    [
        (Hygiene(), Hygiene(), False),
        (Hygiene(), Hygiene("poultry", NUTS), False),
        (Hygiene("poultry"), Hygiene("poultry"), False),
        (Hygiene("poultry"), Hygiene("beef"), True),
        (Hygiene("poultry"), Hygiene(), True),
        (Hygiene(None, NUTS), Hygiene(None, NUTS | MILK), False),
        (Hygiene(None, NUTS | MILK), Hygiene(None, NUTS), True),
        (Hygiene(None, NUTS), Hygiene("poultry"), True),
    ],
)
def test_raw_animal_food_and_allergens_are_left_behind(
    before: Hygiene, after: Hygiene, unclean: bool
) -> None:
    assert leaves_behind(before, after) is unclean


STATIONS = (
    Family("dice", "onion", "board", Hygiene(), 2),
    Family("dice", "celery", "board", Hygiene(), 2),
    Family("peel", "celery", "board", Hygiene(), 2),
    Family("peel", "celery", "sink", Hygiene(), 2),
    Family("dice", "onion", "board", Hygiene(None, NUTS), 2),
)
COSTS = Changeovers(another_food=3, another_operation=5, another_station=7, hand_wash=11, clean=13)


def leads_of(
    families: tuple[int, ...], units: tuple[int, ...] = (), costs: Changeovers = COSTS
) -> list[Lead]:
    """Leads of one cook doing one task of each family in turn, on those boards (default: 0)."""
    problem = Problem(
        start=EIGHT,
        horizon=at(90),
        workers=(cook("a"),),
        resources=(Resource("board", 2, contact=True),),
        families=STATIONS,
        tasks=tuple(Task(f"t{i}", 0, family, {0: 1}, EIGHT) for i, family in enumerate(families)),
        jobs=(),
        holds=tuple(Hold(0, i, i) for i in range(len(families))),
        changeovers=costs,
    )
    places = units or (0,) * len(families)
    assignments = tuple(
        Assignment(i, 0, at(30 * i), at(30 * i + 1), units=((i, unit),))
        for i, unit in enumerate(places)
    )
    # Shuffled, since the order of the tuple says nothing: starts do.
    turned = expected_leads(problem, assignments[::-1])
    return [lead for lead, _ in turned][::-1]


@pytest.mark.parametrize(
    ("families", "lead"),
    [
        ((0, 0), Lead()),
        ((0, 1), Lead(2, 3)),
        ((0, 2), Lead(2, 5)),
        ((0, 3), Lead(2, 7)),
        ((4, 0), Lead(2, 0, 11, 13)),
        ((0, 4), Lead(2, 0, 0, 0)),
        ((4, 1), Lead(2, 3, 11, 13)),
    ],
)
def test_the_dearest_difference_is_charged_once(families: tuple[int, ...], lead: Lead) -> None:
    assert leads_of(families) == [Lead(set_up=2), lead]


@pytest.mark.parametrize("walk", [Walk("board", "sink", 1), Walk("sink", "board", 1)])
def test_a_walk_has_its_own_minutes_both_ways(walk: Walk) -> None:
    costs = replace(COSTS, walks=(Walk("oven", "sink", 9), walk))
    assert leads_of((0, 3, 0), costs=costs) == [Lead(2), Lead(2, 1), Lead(2, 1)]
    assert leads_of((0, 3), costs=replace(costs, walks=costs.walks[:1])) == [Lead(2), Lead(2, 7)]


def test_a_second_board_saves_the_clean_but_not_the_hand_wash() -> None:
    assert leads_of((4, 0), (0, 1))[1] == Lead(2, 0, 11, 0)


def test_the_board_keeps_its_state_while_the_cook_works_elsewhere() -> None:
    """Nuts on board 1, onions on board 2, then onions again on board 1: the clean is still due."""
    assert leads_of((4, 0, 0), (0, 1, 0))[2] == Lead(clean=13)
