"""Batches by their cost: each choice flips when what it costs flips."""

import pytest

from planner.batches import plan_batches
from planner.check.timetable import check_timetable
from planner.lots.batching import Batches
from planner.quantities.compute import quantities_of
from planner.schedule.search import SearchOptions, StopSearch
from planner.schedule.timetable import Progress
from tests.kitchens.bench import File, bench, cook, cut_from, dish, food, kit_of, service, work

SEARCH = SearchOptions(deterministic_limit=0.6, workers=1)


def ways(file: File) -> set[Batches]:
    """How anything is batched otherwise than by the rule."""
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    workload, _ = plan_batches(kit, demands, quantities, SEARCH)
    return {way for _, way in workload.batching.ways}


def lots(file: File) -> int:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    workload, solution = plan_batches(kit, demands, quantities, SEARCH)
    assert solution.score.short == 0
    return len(workload.lots)


def chopping(*, set_up: int, in_at: str) -> File:
    """A kilo of herbs for lunch at noon and one for dinner, 12 minutes a kilo, one lot by rule."""
    day = {"start": in_at, "end": "20:00"}
    return bench(
        ingredients=[food("herb")],
        operations=[work("chop", minutes_per=12, set_up_minutes=set_up, lot_limit="4 kg")],
        components=[cut_from("herb", "chopped", "chop")],
        dishes=[dish("plate", {"chopped": "100 g"})],
        services=[
            service("lunch", {"plate": 1.0}, opens="12:00", closes="15:00"),
            service("dinner", {"plate": 1.0}),
        ],
        cooks=[cook("ana", shifts=[day])],
        rules={"lot_minutes": 60},
    )


def test_one_early_batch_saves_a_set_up_where_there_is_time() -> None:
    assert lots(chopping(set_up=8, in_at="09:00")) == 1


def test_two_fresh_batches_where_one_would_be_late_for_lunch() -> None:
    """From 11:35 the lunch's own kilo is chopped by 11:55, both by 12:07."""
    file = chopping(set_up=8, in_at="11:35")
    assert Batches.APART in ways(file)
    assert lots(file) == 2


def peeling(*, due: str, cooks: int) -> File:
    """Potatoes for 28 minutes of one pair of hands, five minutes' set-up each."""
    return bench(
        ingredients=[food("potato")],
        operations=[work("peel", minutes_per=7, set_up_minutes=5)],
        components=[cut_from("potato", "peeled", "peel")],
        dishes=[dish("plate", {"peeled": "400 g"})],
        services=[service("lunch", {"plate": 1.0}, opens=due, closes="15:00")],
        cooks=[cook(f"c{n}", shifts=[{"start": "09:00", "end": "15:00"}]) for n in range(cooks)],
    )


@pytest.mark.parametrize(
    ("due", "cooks", "expected"),
    [("10:30", 2, 1), ("09:25", 2, 2), ("09:25", 1, 1)],
    ids=["time enough: one set-up", "tight: two cooks, two set-ups", "tight, and nobody to share"],
)
def test_a_lot_is_split_across_two_cooks_when_the_clock_is_tight(
    due: str, cooks: int, expected: int
) -> None:
    assert lots(peeling(due=due, cooks=cooks)) == expected


def roasting(*, each: float) -> File:
    """Beets for 50 minutes of hands, in one lot or two; each lot has a bother of its own."""
    file = peeling(due="12:00", cooks=1)
    file["operations"] = [work("peel", minutes_per=12.5, each_lot_minutes=each, lot_limit="10 kg")]
    return file


def test_lots_are_made_whole_where_each_costs_minutes_of_its_own() -> None:
    assert lots(roasting(each=6)) == 1
    assert lots(roasting(each=0)) == 2, "half an hour of hands by the rule, and nothing to gain"


def test_one_word_to_stop_ends_the_whole_search_with_the_best_so_far() -> None:
    heard: list[Progress] = []

    def stop(progress: Progress) -> None:
        heard.append(progress)
        raise StopSearch

    kit = kit_of(chopping(set_up=8, in_at="11:35"))
    demands, quantities = quantities_of(kit)
    workload, solution = plan_batches(kit, demands, quantities, SEARCH, stop)
    assert len(heard) == 1
    assert check_timetable(workload.problem, solution.timetable) == ()
    assert solution.score <= heard[0].score


def test_the_same_limit_gives_the_same_batches() -> None:
    assert ways(chopping(set_up=8, in_at="11:35")) == ways(chopping(set_up=8, in_at="11:35"))
