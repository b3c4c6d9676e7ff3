"""Trainees: the pace of two, one line of work, one place, one sheet; and what is paid."""

from typing import Any

import pytest

from planner.check.quantities import check_quantities
from planner.check.violation import Rule
from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.sheet.build import build_sheet
from planner.whatif.changes import without_cook
from tests.kitchen.reported import only
from tests.kitchens.bench import DATE, File, bench, cook, cut_from, day, dish, food, read, work

QUICK = PlanOptions(deterministic_limit=0.05, workers=1, remedies=False)


def kitchen(trainee: File | None, **ana: Any) -> File:
    """Ten kilos to cut, 100 minutes at book pace; Ana at pace 1, and perhaps Pia beside her."""
    cooks = [cook("ana", **ana), *([] if trainee is None else [trainee])]
    return bench(
        ingredients=[food("carrot")],
        operations=[work("cut")],
        components=[cut_from("carrot", "sticks", "cut")],
        dishes=[dish("plate", {"sticks": "1 kg"})],
        cooks=cooks,
    )


def pia(start: str = "08:00", end: str = "17:00", **fields: Any) -> File:
    return cook("pia", start, end, learns_from="ana", **{"pair_pace": 1.25, **fields})


def planned(file: File) -> tuple[Kitchen, Plan]:
    made = read(file)
    return made, plan_morning(made, DATE, QUICK)


def hands_on(plan: Plan) -> int:
    return sum(cook.hands_on for cook in plan.labor.cooks)


@pytest.mark.parametrize(
    ("trainee", "minutes"),
    [
        (None, 100),
        (pia(), 80),
        (pia(pair_pace=0.8), 125),
        (pia("07:00", "18:00"), 80),
        (pia("09:00", "17:00"), 100),
        (pia("08:00", "16:00"), 100),
        (pia(stations=[]), 100),
        (pia(shift={"date": day(1)}), 100),
    ],
    ids=[
        "alone",
        "quicker",
        "slower while learning",
        "longer in",
        "comes later",
        "leaves sooner",
        "not at that station",
        "not in",
    ],
)
def test_the_two_work_at_the_pace_of_a_pair(trainee: File | None, minutes: int) -> None:
    made, plan = planned(kitchen(trainee))
    assert plan.workload.cooks == ("ana",)
    assert hands_on(plan) == minutes
    assert check_quantities(made, plan) == ()


def test_minutes_of_one_alone_are_no_minutes_of_a_pair() -> None:
    """The checker counts with the pair itself."""
    _, alone = planned(kitchen(None))
    together, _ = planned(kitchen(pia()))
    assert {one.rule for one in check_quantities(together, alone)} == {Rule.MINUTES}


def test_a_trainee_is_paid_and_the_work_stands_with_the_cook() -> None:
    _, plan = planned(kitchen(pia(wage_per_hour=12)))
    ana, learner = plan.labor.cooks
    assert (ana.cook, ana.hands_on, ana.beside) == ("ana", 80, "")
    assert (learner.cook, learner.hands_on, learner.beside) == ("pia", 0, "ana")
    assert (learner.paid, learner.wages) == (540, 108.0)
    assert plan.labor.total == 80


def test_the_cooks_sheet_names_the_trainee() -> None:
    (sheet,) = build_sheet(*planned(kitchen(pia()))).cooks
    assert (sheet.name, sheet.beside) == ("Ana", "Pia")
    (alone,) = build_sheet(*planned(kitchen(None))).cooks
    assert alone.beside == ""


def test_a_trainee_who_is_in_for_a_part_of_the_shift_is_told() -> None:
    sheet = build_sheet(*planned(kitchen(pia("09:00"))))
    assert sheet.alerts == (
        "Pia works beside Ana, but not for all of that shift: the pace is that of Ana alone.",
    )
    assert build_sheet(*planned(kitchen(pia()))).alerts == ()


def test_a_trainee_without_their_cook_is_not_planned_and_that_is_told() -> None:
    file = kitchen(pia(), shift={"date": day(1)})
    file["cooks"].append(cook("ben"))
    made, plan = planned(file)
    assert plan.workload.cooks == ("ben",)
    assert build_sheet(made, plan).alerts == (
        "Pia is in, but Ana, from whom they learn, is not: nothing is planned.",
    )


def test_a_pair_takes_one_place_at_a_board() -> None:
    file = kitchen(pia())
    file["stations"] = [{"id": "board", "name": "Board", "places": 1}]
    _, plan = planned(file)
    assert all(hold.units == 1 for hold in plan.workload.problem.holds)
    assert plan.short == ()


def test_who_learns_can_do_nothing_alone() -> None:
    file = kitchen(pia(skills=[{"skill": "hands"}]), skills=[{"skill": "plating"}])
    assert "missing skill" in only(file).message


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"pia": "anna"}, "no cook has this id"),
        ({"pia": "pia"}, "nobody learns from themselves"),
        ({"ben": "pia"}, "Pia is a trainee too"),
        ({"ben": "ana"}, "Ana has a trainee already: Pia"),
    ],
)
def test_a_trainee_has_one_cook_who_works_alone(change: dict[str, str], words: str) -> None:
    file = kitchen(pia())
    file["cooks"].append(cook("ben"))
    for one in file["cooks"]:
        if one["id"] in change:
            one["learns_from"] = change[one["id"]]
    error = only(file)
    assert error.path.endswith(".learns_from")
    assert words in error.message


def test_what_if_the_cook_or_the_trainee_were_out() -> None:
    file = kitchen(pia())
    file["cooks"].append(cook("ben"))
    made = read(file)
    alone = plan_morning(without_cook(made, DATE, "pia"), DATE, QUICK)
    assert alone.workload.cooks == ("ana", "ben")
    gone = plan_morning(without_cook(made, DATE, "ana"), DATE, QUICK)
    assert gone.workload.cooks == ("ben",)


def test_who_learns_from_somebody_in_on_no_other_day_goes_with_them() -> None:
    file = kitchen(pia(), shift={"date": day(0)})
    file["cooks"].append(cook("ben"))
    found = without_cook(read(file), DATE, "ana")
    assert [one.id for one in found.cooks] == ["ben"]
