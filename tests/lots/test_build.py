"""The scheduling problem of a day: windows, needs, what cannot be made, and how long the day is."""

from typing import Any

import pytest

from planner.lots.types import Lot, Workload
from planner.schedule.problem import Changeovers, Task
from tests.kitchens.bench import (
    File,
    bench,
    cook,
    cut_from,
    delivery,
    dish,
    food,
    lots_of,
    raw,
    recipe,
    service,
    work,
    workload,
)

DINNER, CLOSE = 18 * 60, 22 * 60


def kitchen(*, component: File | None = None, **parts: Any) -> File:
    return bench(
        ingredients=[food("pork")],
        operations=[work("cut"), work("boil", unattended_minutes=30)],
        components=[
            cut_from("pork", "ham", "cut", **(component or {})),
            recipe("soup", "1 kg", {"ham": "500 g"}, "boil"),
        ],
        dishes=[dish("bowl", {"soup": "100 g"}), dish("plate", {"ham": "100 g"})],
        **parts,
    )


PLATES = [service("dinner", {"plate": 1.0}, weight=4)]
BOWLS = [service("dinner", {"bowl": 1.0})]


def last_task(work: Workload, lot: Lot) -> Task:
    return work.problem.tasks[lot.tasks[-1].task]


def test_what_is_served_is_due_at_the_line_and_useless_after_the_close() -> None:
    made = workload(kitchen(services=PLATES))
    (lot,) = lots_of(made, "cut")
    task = last_task(made, lot)
    assert (task.due, task.until, task.due_weight) == (DINNER, CLOSE, 4)
    assert (task.earliest_end, task.fresh_weight) == (None, 0)


def test_what_only_another_lot_takes_is_due_for_nobody() -> None:
    made = workload(kitchen(services=BOWLS))
    (cut,), (boiled,) = lots_of(made, "cut"), lots_of(made, "boil")
    assert last_task(made, cut).due is None
    assert last_task(made, boiled).due == DINNER - 30, "the pot is done at six by itself"


def test_what_a_lot_gives_to_another_is_not_its_own_to_be_late_with() -> None:
    """Ham for the soup and for plates in one lot: it is due when the plates are."""
    made = workload(kitchen())
    (cut,) = lots_of(made, "cut")
    assert len(cut.dishes) == 2
    assert last_task(made, cut).due == DINNER


def test_what_rounds_a_batch_up_is_due_for_nobody() -> None:
    """A kilo of ham, of which the soup takes half: nobody waits for the rest."""
    made = workload(kitchen(component={"batch_minimum": "1 kg"}, services=BOWLS))
    (cut,) = lots_of(made, "cut")
    task = last_task(made, cut)
    assert made.problem.jobs[cut.index].serves
    assert task.due == task.until == CLOSE


def test_fresh_food_is_finished_no_sooner_than_its_hours_before_doors() -> None:
    made = workload(kitchen(component={"fresh_hours": 1.5}, services=PLATES))
    (lot,) = lots_of(made, "cut")
    task = last_task(made, lot)
    assert (task.earliest_end, task.fresh_weight) == (DINNER - 90, 1)


def test_early_steps_of_fresh_food_may_be_done_at_any_time() -> None:
    file = kitchen(component={"fresh_hours": 1}, services=PLATES)
    file["operations"].append(work("wash"))
    file["components"][0]["route"].insert(0, {"operation": "wash"})
    made = workload(file)
    (lot,) = lots_of(made, "wash")
    assert last_task(made, lot).earliest_end is None


def test_raw_food_is_not_worked_before_it_is_delivered() -> None:
    made = workload(
        kitchen(services=PLATES, raw_stock=[], deliveries=[delivery("pork", "9 kg", "11:15")])
    )
    (lot,) = lots_of(made, "cut")
    assert made.problem.tasks[lot.tasks[0].task].release == lot.release == 11 * 60 + 15


def test_food_nobody_has_cannot_be_made_and_the_job_says_what_is_missing() -> None:
    made = workload(kitchen(services=PLATES, raw_stock=[raw("pork", "400 g")]))
    reasons = sorted(job.impossible for job in made.problem.jobs)
    assert reasons == ["", "no Pork"]


def test_a_job_needs_the_lots_it_takes_from() -> None:
    made = workload(kitchen(services=BOWLS))
    (cut,), (boiled,) = lots_of(made, "cut"), lots_of(made, "boil")
    assert made.problem.jobs[boiled.index].needs == (cut.index,)
    assert made.problem.jobs[cut.index].needs == ()


def test_jobs_and_lots_go_by_the_same_index_and_hold_the_same_tasks() -> None:
    made = workload(kitchen())
    for index, (lot, job) in enumerate(zip(made.lots, made.problem.jobs, strict=True)):
        assert lot.index == index
        assert job.tasks == tuple(item.task for item in lot.tasks)
        assert all(made.problem.tasks[task].lot == index for task in job.tasks)


def test_the_day_runs_from_the_first_arrival_to_the_last_legal_minute() -> None:
    early = cook("ana", "06:00", "14:00")
    late = cook("ben", "12:00", "20:00", shift={"overtime_minutes": 30})
    problem = workload(kitchen(cooks=[early, late])).problem
    assert (problem.start, problem.horizon) == (6 * 60, 20 * 60 + 30)


def test_changeovers_are_the_kitchens_own() -> None:
    rules = {
        "changeovers": {
            "another_food": 1,
            "another_operation": 2,
            "another_station": 3,
            "hand_wash": 4,
            "clean": 5,
        }
    }
    assert workload(kitchen(rules=rules)).problem.changeovers == Changeovers(
        1, 2, 3, 4, 5, clean_every=240
    )


@pytest.mark.parametrize("minutes", [90, None])
def test_how_long_a_surface_is_in_use_without_a_clean_is_the_kitchens_own(
    minutes: int | None,
) -> None:
    found = workload(kitchen(rules={"clean_every_minutes": minutes})).problem.changeovers
    assert found.clean_every == minutes


def test_a_place_keeps_its_hygiene_state_where_the_station_is_a_surface() -> None:
    file = kitchen()
    assert [r.contact for r in workload(file).problem.resources] == [False]
    file["stations"][0]["food_contact"] = True
    assert [(r.capacity, r.contact) for r in workload(file).problem.resources] == [(9, True)]


def test_a_lot_finishes_where_its_route_ends() -> None:
    file = kitchen(services=PLATES)
    file["components"][0]["route"].append({"operation": "boil"})
    made = workload(file)
    assert [(lot.operation, lot.finishes) for lot in made.lots] == [
        ("cut", False),
        ("boil", True),
    ]


def test_a_missed_start_is_marked_on_its_lots() -> None:
    file = kitchen(services=PLATES)
    assert [lot.missed for lot in workload(file).lots] == [False]
    file["operations"][0]["unattended_minutes"] = 900
    assert [lot.missed for lot in workload(file).lots] == [True]


def test_food_is_named_by_what_is_on_the_board() -> None:
    """What is cut is the pork; what is boiled is the soup."""
    foods = {lot.operation: lot.food for lot in workload(kitchen(services=BOWLS)).lots}
    assert foods == {"cut": "pork", "boil": "soup"}


@pytest.mark.parametrize("pooled", [True, False])
def test_the_same_food_is_worked_pooled_or_not(pooled: bool) -> None:
    made = workload(kitchen(), pooled=pooled)
    assert sum(lot.grams_out for lot in lots_of(made, "cut")) == pytest.approx(1500)
    assert sum(lot.grams_out for lot in lots_of(made, "boil")) == pytest.approx(1000)
