"""Troubles and remedies as sentences."""

from dataclasses import replace

import pytest

from planner.plan import LeftOut, Remedy, Trouble
from planner.schedule.timetable import Bound, Term
from planner.troubles.words import (
    NO_ROOM_FOUND,
    remedy_line,
    short_line,
    trouble_line,
    trouble_lines,
)
from tests.kitchens.plans import tiny_plan


def test_a_remedy_says_what_there_was_and_what_is_left() -> None:
    remedy = Remedy("get beef", 12, 0, False, 3, 40, 23, 3)
    assert remedy_line(remedy) == (
        "Get beef: 23 portions short → 0, still 3 kg short of par or batch, "
        "40 min late in all → 12."
    )


def test_missing_hands_are_told_in_minutes() -> None:
    trouble = Trouble("short", "ham", "Plate (Brunch): 20 portions short", 20, 20, "cook hours")
    assert trouble_line(trouble) == (
        "Plate (Brunch): 20 portions short. What binds: cook hours; 20 hands-on min missing."
    )


def test_missing_food_claims_no_hands() -> None:
    trouble = Trouble("short", "ham", "Plate: 4 portions short", 0, 4, "no Pork (0 of 9 g)", "food")
    assert trouble_line(trouble) == "Plate: 4 portions short. What binds: no Pork (0 of 9 g)."


def test_a_missing_vessel_is_told_in_unit_minutes_and_what_is_left_out_with_it() -> None:
    short = Trouble("short", "ham", "Plate: 4 portions short", 60, 4, "Oven in use", "resource")
    beside = (LeftOut("soup", "Soup"), LeftOut("chives", "Chives"))
    assert trouble_line(replace(short, left_out=beside)) == (
        "Plate: 4 portions short. What binds: Oven in use; 60 unit-minutes of it missing. "
        "Left out with it: Soup; Chives."
    )


def test_what_is_short_in_all_is_told_in_portions_and_in_kilos_apart() -> None:
    short = Trouble("short", "ham", "", 0, 4, "", service="dinner", dish="plate")
    own = replace(short, portions=3, unit="kg")
    late = replace(short, kind="late")
    plan = replace(tiny_plan(), troubles=(short, replace(short, portions=1), own, late))
    assert short_line(plan) == (
        "Short in all: 5 portions and about 3 kg of the kitchen's own pars and batches."
    )
    assert short_line(replace(plan, troubles=(replace(short, portions=1),))) == (
        "Short in all: 1 portion."
    )
    assert short_line(replace(plan, troubles=(late,))) == ""


@pytest.mark.parametrize(
    ("lacks", "minutes", "said"),
    [("hands", 20, True), ("resource", 20, True), ("food", 20, True), ("food", 0, False)],
)
@pytest.mark.parametrize("bound", [20, 12])
def test_hands_and_room_are_no_fact_where_only_the_search_failed(
    lacks: str, minutes: int, said: bool, bound: int
) -> None:
    """A plan that leaves less short is not ruled out: the line says so, for what it is about."""
    trouble = Trouble("short", "ham", "Plate: 20 portions short", minutes, 20, "cook hours", lacks)
    plan = replace(tiny_plan(), troubles=(trouble,))
    bounds = (Bound(Term.SHORT, 20, bound, "what no plan can make"),)
    (line,) = trouble_lines(replace(plan, solution=replace(plan.solution, bounds=bounds)))
    unproven = said and bound < 20
    assert (NO_ROOM_FOUND in line) is unproven
    assert ("What binds in this plan: cook hours" in line) is unproven
    assert ("What binds: cook hours" in line) is not unproven


def test_what_is_late_or_lacks_a_skill_is_told_as_it_is() -> None:
    late = Trouble("late", "ham", "Ham is 20 min late", 20, 4, "cook hours")
    skill = Trouble("short", "ham", "Plate: 4 portions short", 9, 4, "nobody who is in", "skill")
    assert NO_ROOM_FOUND not in trouble_line(late, proven=False)
    assert NO_ROOM_FOUND not in trouble_line(skill, proven=False)
