"""Why this cook: who else can, what they are at, and what it would be with them, solved anew."""

from planner.explain.batch import batch_reasons
from planner.explain.words import Morning
from planner.schedule.search import SearchOptions
from tests.explain.test_words import ham, morning_of
from tests.kitchens.bench import File, cook, cut_from, food, work

TRIES = SearchOptions(deterministic_limit=0.2, workers=1)


def others(morning: Morning, number: int = 1) -> dict[str, str]:
    return {one.name: one.words for one in batch_reasons(morning, number).others}


def test_why_others_cannot() -> None:
    file = ham(
        cooks=[
            cook("ana"),
            cook("ben", skills=[{"skill": "heat"}]),
            cook("cyd", stations=["stove"]),
            cook("dan", skills=[{"skill": "heat"}], stations=["stove"]),
            cook("eve", shifts=[{"date": "2025-03-05", "start": "08:00", "end": "12:00"}]),
        ],
        stations=[
            {"id": "board", "name": "Board", "places": 9, "food_contact": False},
            {"id": "stove", "name": "Stove", "places": 9, "food_contact": False},
        ],
    )
    file["cooks"][4].pop("shift", None)
    assert others(morning_of(file)) == {
        "Ben": "has no skill 'hands'",
        "Cyd": "has no place at Board",
        "Dan": "has no skill 'hands' and no place at Board",
        "Eve": "is not in",
    }


def two(pace: float, **ben: str) -> File:
    """An hour of cutting; Ben is as good or not, and Ana is first."""
    return ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana"), cook("ben", skills=[{"skill": "hands", "pace": pace}], **ben)],
    )


def test_who_is_slower_and_free_costs_the_difference() -> None:
    """48 minutes at pace 1.25 with Ben; an hour with Ana."""
    reasons = batch_reasons(morning_of(two(1.25)), 1, TRIES)
    assert reasons.cook == "Ben"
    (ana,) = reasons.others
    assert ana.words == "takes 12 min longer at it; is free in that time"
    assert ana.outcome is not None
    assert reasons.unchanged is not None
    assert ana.outcome.labor - reasons.unchanged.labor == 12


def test_who_comes_in_late_would_be_late() -> None:
    """Due at 09:00: Ana from 08:00 makes it; Ben from 08:30 is half an hour late."""
    file = two(1.0, start="08:30")
    file["services"][0]["opens"] = "09:00"
    reasons = batch_reasons(morning_of(file), 1, TRIES)
    (ben,) = reasons.others
    assert ben.words == "takes as long at it; not in before 08:30"
    assert ben.outcome is not None
    assert ben.outcome.left.late == 30


def test_who_is_busy_is_so_until_when() -> None:
    file = ham(
        operations=[work("cut"), work("slice", skill="slicing")],
        ingredients=[food("beef")],
        components=[cut_from("beef", "steak", "slice")],
        takes={"steak": "50 g"},
        cooks=[
            cook("ana"),
            cook("ben", skills=[{"skill": "hands", "pace": 0.5}, {"skill": "slicing"}]),
        ],
        service={"opens": "09:00"},
    )
    morning = morning_of(file)
    (number,) = (run.number for run in morning.runs if run.cook.id == "ana")
    assert others(morning, number) == {
        "Ben": "takes 60 min longer at it; at Slice Beef (batch 2) until 08:30"
    }


def test_without_options_nothing_is_tried() -> None:
    reasons = batch_reasons(morning_of(two(1.0)), 1)
    assert reasons.unchanged is None
    assert [one.outcome for one in reasons.others] == [None]


def test_nobody_looks_better_than_the_plan_unchanged() -> None:
    """A plan with the batch at another cook is one of the unchanged morning too."""
    reasons = batch_reasons(morning_of(two(1.0)), 1, TRIES)
    assert reasons.unchanged is not None
    for one in reasons.others:
        assert one.outcome is not None
        assert one.outcome.score >= reasons.unchanged.score
