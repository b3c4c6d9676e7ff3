"""One kitchen for each thing that can hold a batch; what is said of it names it, with the times."""

import re
from dataclasses import replace
from typing import Any

import pytest

from planner.explain.batch import BatchReasons, UnknownBatch, batch_reasons
from planner.explain.words import Morning
from planner.morning import PlanOptions, plan_morning
from planner.schedule.timetable import Timetable
from planner.sheet.build import build_sheet
from tests.kitchens.bench import (
    DATE,
    NO_CHANGEOVERS,
    File,
    bench,
    cook,
    cut_from,
    delivery,
    dish,
    food,
    read,
    service,
    work,
)

QUICK = PlanOptions(deterministic_limit=0.2, workers=1, remedies=False)


def morning_of(file: File) -> Morning:
    kitchen = read(file)
    return Morning(kitchen, plan_morning(kitchen, DATE, QUICK))


def reasons(morning: Morning, title: str, nth: int = 0) -> BatchReasons:
    """The nth batch of that title, by number."""
    numbers = [run.number for run in morning.runs if morning.title(run) == title]
    return batch_reasons(morning, numbers[nth])


def ham(*route: str | File, **parts: Any) -> File:
    """Six kilos of ham for 60 covers at 18:00, by Ana in from 08:00."""
    fields = parts.pop("component", {})
    operations = parts.pop("operations", [work("cut")])
    return bench(
        ingredients=[food("pork"), *parts.pop("ingredients", [])],
        operations=operations,
        components=[
            cut_from("pork", "ham", *(route or ("cut",)), **fields),
            *parts.pop("components", []),
        ],
        dishes=[dish("plate", {"ham": "100 g", **parts.pop("takes", {})})],
        services=[service("brunch", {"plate": 1.0}, 60, **parts.pop("service", {}))],
        **parts,
    )


def test_the_shift() -> None:
    found = reasons(morning_of(ham()), "Cut Pork")
    assert found.then == ("Not before 08:00: Ana's shift begins then.",)
    assert found.back == ()


def test_setting_up_the_station() -> None:
    file = ham(rules={"station_set_up_minutes": 10})
    found = reasons(morning_of(file), "Cut Pork")
    assert found.then == ("Not before 08:10: Ana sets up the station from 08:00 until then.",)


def test_a_break() -> None:
    """An hour of work does not fit before the break from 08:30 on, and lots are not split."""
    shift = {"breaks": [{"start": "08:20", "minutes": 20}]}
    file = ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana", shift=shift)],
    )
    found = reasons(morning_of(file), "Cut Pork")
    assert found.then == ("Not before 08:40: Ana has a break from 08:20 until then.",)


def test_a_break_with_time_before_it_says_so() -> None:
    """Not what a search gives where it is let search; so the plan is written by hand."""
    shift = {"breaks": [{"start": "09:00", "minutes": 30}]}
    kitchen = read(
        ham(
            operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
            cooks=[cook("ana", shift=shift)],
        )
    )
    plan = plan_morning(kitchen, DATE, QUICK)
    (item,) = plan.solution.timetable.assignments
    assert item.end == 540
    later = Timetable((replace(item, start=570, end=630),))
    found = batch_reasons(
        Morning(kitchen, replace(plan, solution=replace(plan.solution, timetable=later))), 1
    )
    assert found.then == (
        "Not before 09:30: Ana has a break from 09:00 until then, and had time for it before.",
    )
    assert found.back == ()


def test_the_line() -> None:
    shift = {"on_line": [{"start": "08:20", "end": "09:30"}]}
    file = ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana", shift=shift)],
    )
    found = reasons(morning_of(file), "Cut Pork")
    assert found.then == ("Not before 09:30: Ana is on the line from 08:20 until then.",)


def test_a_delivery() -> None:
    file = ham(raw_stock=[], deliveries=[delivery("pork", "9 kg", "09:15")])
    found = reasons(morning_of(file), "Cut Pork")
    assert found.then == ("Not before 09:15: its delivery comes then (Pork).",)


def test_food_of_another_cook_and_the_cooks_own_line() -> None:
    """Ben trims, Ana cuts; then Ana alone has both."""
    trim = work("trim", skill="trimming", minutes_per=5)
    cooks = [
        cook("ana"),
        cook("ben", skills=[{"skill": "trimming"}]),
    ]
    file = ham("trim", "cut", operations=[trim, work("cut")], cooks=cooks)
    found = reasons(morning_of(file), "Cut Ham")
    assert found.then == (
        "Not before 08:30: it needs Trim Pork (batch 1, Ben), which is done then.",
    )
    file["cooks"] = [cook("ana", skills=[{"skill": "trimming"}, {"skill": "hands"}])]
    found = reasons(morning_of(file), "Cut Ham")
    assert found.then == (
        "Not before 08:30: it needs Trim Pork (batch 1, Ana), which is done then.",
        "Not before 08:30: Ana is at Trim Pork (batch 1) until then.",
    )


def roast(**fields: Any) -> File:
    return work(
        "roast",
        minutes_per=0,
        each_lot_minutes=1,
        unattended_minutes=59,
        finish_minutes=1,
        equipment=[{"equipment": "oven"}],
        **fields,
    )


def test_unattended_minutes() -> None:
    file = ham(
        "roast", operations=[roast()], equipment=[{"id": "oven", "name": "Oven", "count": 1}]
    )
    found = reasons(morning_of(file), "Take out: Roast Ham")
    assert found.then == (
        "Not before 09:00: Roast Pork (batch 1, Ana) is left to itself from 08:01 until then.",
    )
    assert [step.title for step in found.back] == ["Roast Pork"]


@pytest.mark.parametrize(
    ("count", "words"),
    [(1, "no Oven is free until then;"), (2, "no Oven is free (2 of 2 in use) until then;")],
)
def test_a_full_oven(count: int, words: str) -> None:
    """One tray more than there are ovens, due so early that all but one are late or no later."""
    file = ham(
        "roast",
        operations=[roast(lot_limit=f"{6 / (count + 1)} kg")],
        equipment=[{"id": "oven", "name": "Oven", "count": count}],
        service={"opens": "08:30"},
    )
    morning = morning_of(file)
    last = max((run for run in morning.runs if run.part == "work"), key=lambda run: run.start)
    found = batch_reasons(morning, last.number)
    assert re.fullmatch(
        rf"Not before 09:0\d: {re.escape(words)} the one that comes out then is of Roast Pork "
        r"\(batch 1, Ana\), begun at 08:0\d\.",
        found.then[0],
    ), found.then


def test_a_place_that_another_cook_has() -> None:
    """One place at the board; each cook can do only one of two things there."""
    slice_ = work("slice", skill="slicing")
    file = ham(
        operations=[work("cut"), slice_],
        ingredients=[food("beef")],
        components=[cut_from("beef", "steak", "slice")],
        takes={"steak": "100 g"},
        stations=[{"id": "board", "name": "Board", "places": 1, "food_contact": False}],
        cooks=[cook("ana"), cook("ben", skills=[{"skill": "slicing"}])],
    )
    morning = morning_of(file)
    second = batch_reasons(morning, 2)
    first = {"Ana": "Cut Pork", "Ben": "Slice Beef"}
    (other,) = {"Ana", "Ben"} - {second.cook}
    assert second.then == (
        f"Not before 09:00: no place is free at Board until then; {first[other]} "
        f"(batch 1, {other}) is there from 08:00.",
    )


def test_a_board_to_be_cleaned_says_of_what_and_after_whom() -> None:
    """Raw pork by Ana at once, for 09:00; then salad on the one board by Ben, in from 09:00."""
    file = ham(
        operations=[work("cut"), work("slice", skill="slicing")],
        components=[cut_from("leaf", "salad", "slice")],
        takes={"salad": "10 g"},
        ingredients=[food("leaf")],
        rules={"changeovers": {**NO_CHANGEOVERS, "clean": 5}},
        stations=[{"id": "board", "name": "Board", "places": 1, "food_contact": True}],
        cooks=[cook("ana"), cook("ben", "09:00", skills=[{"skill": "slicing"}])],
        service={"opens": "09:06"},
    )
    file["ingredients"][0] |= {"raw_animal": "pork", "tcs": True}
    found = reasons(morning_of(file), "Slice Leaf")
    assert found.cook == "Ben"
    assert found.before == (
        "From 09:00 first: cleaning 5 min; the food from 09:05.",
        "Board must be cleaned of raw pork after Cut Pork (batch 1, Ana).",
    )


def test_a_board_in_use_for_long_enough_is_cleaned_by_the_clock() -> None:
    """The same with ham, which soils nothing: the board is in use from 08:00, 62 min at most."""
    file = ham(
        operations=[work("cut"), work("slice", skill="slicing")],
        components=[cut_from("leaf", "salad", "slice")],
        takes={"salad": "10 g"},
        ingredients=[food("leaf")],
        rules={"changeovers": {**NO_CHANGEOVERS, "clean": 5}, "clean_every_minutes": 62},
        stations=[{"id": "board", "name": "Board", "places": 1, "food_contact": True}],
        cooks=[cook("ana"), cook("ben", "09:00", skills=[{"skill": "slicing"}])],
        service={"opens": "09:06"},
    )
    found = reasons(morning_of(file), "Slice Leaf")
    assert found.before == (
        "From 09:00 first: cleaning 5 min; the food from 09:05.",
        "Board must be cleaned: it has been in use for long enough.",
    )


def test_what_must_be_fresh_is_as_late_as_may_be() -> None:
    file = ham(component={"fresh_hours": 2}, cooks=[cook("ana", end="19:00")])
    found = reasons(morning_of(file), "Cut Pork")
    assert (found.start, found.end) == (17 * 60, 18 * 60)
    assert found.then == (
        "Moved earlier it would wait longer, and it is to be fresh when it is due at 18:00.",
    )


def test_what_must_follow_within_a_limit_holds_what_comes_before() -> None:
    """Iced at once, by Ben, who is in from 10:00 only: so Zed boils until then."""
    boil = work("boil", skill="heat", minutes_per=5)
    boil["unattended_minutes"] = 0
    file = ham(
        {"operation": "boil", "max_wait_minutes": 0},
        "ice",
        operations=[boil, work("ice")],
        cooks=[cook("zed", skills=[{"skill": "heat"}]), cook("ben", "10:00")],
    )
    found = reasons(morning_of(file), "Boil Pork")
    assert found.end == 10 * 60
    assert found.then == (
        "It may not end before 10:00: Ice Ham (batch 2, Ben) begins at 10:00 and must follow "
        "at once.",
    )


def test_a_batch_that_is_not_there_is_named_with_what_is() -> None:
    morning = morning_of(ham())
    with pytest.raises(
        UnknownBatch, match="7: there is no such batch; the plan has batches 1 to 1"
    ):
        batch_reasons(morning, 7)


def test_a_batch_is_called_what_the_sheet_calls_it() -> None:
    """Worked food goes by its component; two cuts of one onion are told apart."""
    file = bench(
        ingredients=[food("onion")],
        operations=[work("peel"), work("dice")],
        components=[
            cut_from("onion", "base", "peel", {"operation": "dice", "cut": "medium_dice"}),
            cut_from("onion", "garnish", {"operation": "dice", "cut": "small_dice"}),
        ],
        dishes=[dish("soup", {"base": "100 g", "garnish": "30 g"})],
    )
    kitchen = read(file)
    morning = Morning(kitchen, plan_morning(kitchen, DATE, QUICK))
    titles = {run.number: morning.title(run) for run in morning.runs}
    assert sorted(titles.values()) == [
        "Dice Base, medium dice",
        "Dice Onion, small dice",
        "Peel Onion",
    ]
    sheet = build_sheet(kitchen, morning.plan)
    for cook_sheet in sheet.cooks:
        for batch in cook_sheet.batches:
            assert f"{batch.operation_name} {batch.food_name}" in titles[batch.number]
