"""A lot's hands-on tasks: how long for whom, looked at when, taken out by whom."""

from typing import Any

import pytest

from planner.lots.types import Lot, Part, Workload
from planner.schedule.problem import Hold, Wait
from tests.kitchens.bench import (
    File,
    bench,
    cook,
    cut_from,
    dish,
    food,
    lots_of,
    service,
    stock,
    work,
    workload,
)


def kitchen(*operations: File, component: File | None = None, **parts: Any) -> File:
    """Ten plates of 100 g ham, made of pork by the operations in their order."""
    route = [each["id"] for each in operations]
    return bench(
        ingredients=[food("pork")],
        operations=list(operations),
        components=[cut_from("pork", "ham", *route, **(component or {}))],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def parts_of(lot: Lot) -> list[tuple[Part, float]]:
    return [(item.part, item.book_minutes) for item in lot.tasks]


def minutes(work: Workload, operation: str, part: Part = Part.WORK) -> list[dict[int, int]]:
    """Whole minutes by cook of every lot's task of one kind."""
    return [
        work.problem.tasks[item.task].minutes
        for lot in lots_of(work, operation)
        for item in lot.tasks
        if item.part is part
    ]


def waits(work: Workload, before: int, after: int) -> list[Wait]:
    return [w for w in work.problem.waits if (w.before, w.after) == (before, after)]


def holds(work: Workload, resource: str) -> list[Hold]:
    return [h for h in work.problem.holds if work.problem.resources[h.resource].id == resource]


def test_hands_on_work_is_one_task_of_its_book_minutes() -> None:
    (lot,) = lots_of(workload(kitchen(work("cut"))), "cut")
    assert parts_of(lot) == [(Part.WORK, pytest.approx(10))]


def test_a_pace_makes_minutes_of_the_cooks_own() -> None:
    slow = cook("ben", skills=[{"skill": "hands", "pace": 0.8}])
    made = workload(kitchen(work("cut"), cooks=[cook("ana"), slow]))
    assert minutes(made, "cut") == [{0: 10, 1: 13}], "ten minutes, and twelve and a half"


def test_minutes_are_rounded_once_per_stage_so_that_lots_cost_nothing() -> None:
    """A kilo in seven lots of 1.43 min each: eleven minutes rounded one by one, ten together."""
    made = workload(kitchen(work("cut", lot_limit="150 g")))
    assert len(lots_of(made, "cut")) == 7
    assert sum(m[0] for m in minutes(made, "cut")) == 10


def test_minutes_by_the_lot_count_for_every_lot() -> None:
    made = workload(kitchen(work("cut", each_lot_minutes=2, lot_limit="250 g")))
    assert [m[0] for m in minutes(made, "cut")] == [5, 4, 5, 4] or sum(
        m[0] for m in minutes(made, "cut")
    ) == 18


def test_who_lacks_the_skill_or_the_station_cannot_do_it() -> None:
    away = cook("ben", stations=["range"])
    unskilled = cook("cy", skills=[{"skill": "washing"}])
    file = kitchen(work("cut"), cooks=[cook("ana"), away, unskilled])
    file["stations"].append({"id": "range", "name": "Range", "places": 1})
    assert [set(m) for m in minutes(workload(file), "cut")] == [{0}]


ROAST = {"unattended_minutes": 60, "finish_minutes": 4}


def test_what_cooks_by_itself_is_taken_out_by_hand() -> None:
    made = workload(kitchen(work("roast", **ROAST)))
    (lot,) = lots_of(made, "roast")
    assert parts_of(lot) == [(Part.WORK, pytest.approx(10)), (Part.FINISH, 4.0)]
    start, end = (item.task for item in lot.tasks)
    assert waits(made, start, end) == [Wait(start, end, 60, None)]


def test_what_must_be_taken_out_in_time_says_within_how_long() -> None:
    made = workload(kitchen(work("roast", **ROAST, finish_within_minutes=15)))
    (lot,) = lots_of(made, "roast")
    start, end = (item.task for item in lot.tasks)
    assert waits(made, start, end) == [Wait(start, end, 60, 75)]


def test_what_rests_by_itself_and_is_not_taken_out_holds_up_the_next_step() -> None:
    made = workload(kitchen(work("rest", unattended_minutes=45), work("cut")))
    (rest,), (cut,) = lots_of(made, "rest"), lots_of(made, "cut")
    assert parts_of(rest) == [(Part.WORK, pytest.approx(10))]
    assert waits(made, rest.tasks[0].task, cut.tasks[0].task) == [
        Wait(rest.tasks[0].task, cut.tasks[0].task, 45, None)
    ]


def test_the_next_step_waits_for_the_take_out() -> None:
    made = workload(kitchen(work("roast", **ROAST), work("cut")))
    (roast,), (cut,) = lots_of(made, "roast"), lots_of(made, "cut")
    end = roast.tasks[-1].task
    assert waits(made, end, cut.tasks[0].task) == [Wait(end, cut.tasks[0].task, 0, None)]


def test_the_least_and_most_wait_of_a_step_bind_the_next() -> None:
    file = kitchen(work("roast", **ROAST), work("cut"))
    file["components"][0]["route"][0] |= {"min_wait_minutes": 10, "max_wait_minutes": 25}
    made = workload(file)
    (roast,), (cut,) = lots_of(made, "roast"), lots_of(made, "cut")
    end = roast.tasks[-1].task
    assert waits(made, end, cut.tasks[0].task) == [Wait(end, cut.tasks[0].task, 10, 25)]


def test_what_is_watched_is_looked_at_again_and_again() -> None:
    """An hour and a half, looked at every half hour: by 30 and by 60, at most 15 minutes before."""
    made = workload(
        kitchen(work("roast", unattended_minutes=90, finish_minutes=4, check_every_minutes=30))
    )
    (lot,) = lots_of(made, "roast")
    assert [part for part, _ in parts_of(lot)] == [Part.WORK, Part.CHECK, Part.CHECK, Part.FINISH]
    start, first, second, end = (item.task for item in lot.tasks)
    assert waits(made, start, first) == [Wait(start, first, 15, 30)]
    assert waits(made, start, second) == [Wait(start, second, 45, 60)]
    assert waits(made, first, end) == [Wait(first, end)]
    assert waits(made, second, end) == [Wait(second, end)]


def test_checks_and_take_out_have_families_of_their_own_without_set_up() -> None:
    made = workload(
        kitchen(
            work("roast", set_up_minutes=5, unattended_minutes=60, finish_minutes=4,
                 check_every_minutes=30)
        )
    )  # fmt: skip
    problem = made.problem
    (lot,) = lots_of(made, "roast")
    families = [problem.families[problem.tasks[item.task].family] for item in lot.tasks]
    assert [(f.operation, f.set_up) for f in families] == [
        ("roast", 5),
        ("roast:check", 0),
        ("roast:finish", 0),
    ]


def over_night(**fields: Any) -> File:
    """A braise of 15 h for tomorrow's dinner, begun just before everybody leaves at 17:00."""
    braise = work("braise", unattended_minutes=900, finish_minutes=5, **fields)
    return kitchen(
        braise,
        work("cut"),
        services=[service("feast", {"plate": 1.0}, ahead=1)],
        rules={"lookahead_days": 1},
        equipment=[{"id": "pot", "name": "Pot", "count": 1, "holds": "5 kg"}],
    )


def test_what_braises_over_night_is_put_on_and_left() -> None:
    made = workload(over_night())
    (lot,) = lots_of(made, "braise")
    assert parts_of(lot) == [(Part.WORK, pytest.approx(10))]
    assert lot.unattended == 900
    assert lots_of(made, "cut") == [], "it is cut tomorrow"


def test_the_pot_stays_on_all_night() -> None:
    made = workload(over_night(equipment=[{"equipment": "pot"}]))
    (lot,) = lots_of(made, "braise")
    task = lot.tasks[0].task
    (hold,) = holds(made, "equipment:pot")
    assert (hold.first, hold.last, hold.tail) == (task, task, 900)


def test_it_is_looked_at_as_long_as_somebody_is_in() -> None:
    """Put on by 16:50, ten minutes before everybody leaves; an hour later nobody is there."""
    (lot,) = lots_of(workload(over_night(check_every_minutes=60)), "braise")
    assert [part for part, _ in parts_of(lot)] == [Part.WORK]


def test_todays_part_made_food_is_taken_out_and_the_night_is_not() -> None:
    """The same operation: one lot for tonight ends by hand, one for tomorrow is left alone."""
    file = over_night()
    file["operations"][0]["unattended_minutes"] = 300
    file["services"] = [
        service("dinner", {"plate": 1.0}),
        service("feast", {"plate": 1.0}, ahead=1, opens="09:00", closes="11:00"),
    ]
    lots = lots_of(workload(file), "braise")
    assert sorted([part for part, _ in parts_of(lot)] for lot in lots) == [
        [Part.WORK],
        [Part.WORK, Part.FINISH],
    ]


VESSELS = {"equipment": [{"id": "tray", "name": "Tray", "count": 5, "holds": "400 g"}]}


@pytest.mark.parametrize(("most", "units"), [(1, [1, 1, 1]), (2, [2, 2]), (3, [3])])
def test_a_lot_holds_as_many_vessels_as_it_fills(most: int, units: list[int]) -> None:
    """A kilo on trays of 400 g: three single ones, two pairs, or three at once."""
    tray = [{"equipment": "tray", "max_units": most}]
    made = workload(kitchen(work("roast", **ROAST, equipment=tray), **VESSELS))
    assert [hold.units for hold in holds(made, "equipment:tray")] == units


def test_a_vessel_is_held_from_start_to_take_out_and_the_place_only_by_hands() -> None:
    tray = [{"equipment": "tray", "max_units": 3}]
    made = workload(kitchen(work("roast", **ROAST, equipment=tray), **VESSELS))
    (lot,) = lots_of(made, "roast")
    start, end = (item.task for item in lot.tasks)
    assert [(h.first, h.last, h.tail) for h in holds(made, "equipment:tray")] == [(start, end, 0)]
    assert [(h.first, h.last) for h in holds(made, "station:board")] == [
        (start, start),
        (end, end),
    ]


def test_a_glance_takes_no_place_at_the_station() -> None:
    made = workload(
        kitchen(work("roast", unattended_minutes=60, finish_minutes=4, check_every_minutes=30))
    )
    (lot,) = lots_of(made, "roast")
    start, _, end = (item.task for item in lot.tasks)
    assert [h.first for h in holds(made, "station:board")] == [start, end]


def test_part_made_food_needs_no_delivery() -> None:
    """Raw pork comes at noon, but what is brined can be roasted at once."""
    file = kitchen(
        work("brine"),
        work("roast", **ROAST),
        prepared=[stock("ham", "1 kg", after_step=1)],
        raw_stock=[],
        deliveries=[],
    )
    made = workload(file)
    (lot,) = lots_of(made, "roast")
    assert made.problem.tasks[lot.tasks[0].task].release == 8 * 60
    assert made.problem.jobs[lot.index].impossible == ""
