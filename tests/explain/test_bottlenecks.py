"""The sink, the walk-in and the people at a station bind like anything else, and are named."""

import pytest

from planner.explain.batch import batch_reasons
from tests.explain.test_words import ham, morning_of
from tests.kitchens.bench import File, cook, cut_from, food, work


def two_washers(places: int, wash_at: str = "sink") -> File:
    """An hour of washing each for Ana and Ben, who can each wash one thing only."""
    return ham(
        "rinse",
        operations=[
            work("rinse", station=wash_at),
            work("wash", station=wash_at, skill="leaves"),
        ],
        ingredients=[food("leaf")],
        components=[cut_from("leaf", "salad", "wash")],
        takes={"salad": "100 g"},
        stations=[
            {"id": "sink", "name": "Sink", "places": places},
            {"id": "board", "name": "Board", "places": 9},
        ],
        cooks=[cook("ana"), cook("ben", skills=[{"skill": "leaves"}])],
    )


@pytest.mark.parametrize(("places", "begin"), [(1, [480, 540]), (2, [480, 480])])
def test_a_wash_waits_for_the_sink(places: int, begin: list[int]) -> None:
    morning = morning_of(two_washers(places))
    assert sorted(run.start for run in morning.runs) == begin
    if places == 1:
        (then,) = batch_reasons(morning, 2).then
        assert then.startswith("Not before 09:00: no place is free at Sink until then;")


@pytest.mark.parametrize(("shelves", "begin"), [(1, 545), (2, 482)])
def test_what_thaws_waits_for_room_in_the_walk_in(shelves: int, begin: int) -> None:
    """Two lots of three kilos, two minutes to put away, an hour on a shelf, a minute to take out.

    With one shelf the second goes in when the first has come out: by Ana, at once.
    """
    thaw = work(
        "thaw",
        minutes_per=0,
        each_lot_minutes=2,
        lot_limit="3 kg",
        unattended_minutes=62,
        finish_minutes=1,
        equipment=[{"equipment": "shelf"}],
    )
    morning = morning_of(
        ham(
            "thaw",
            operations=[thaw],
            equipment=[{"id": "shelf", "name": "Walk-in shelf", "count": shelves}],
        )
    )
    puts = [a for run in morning.runs if run.part == "work" for a in run.assignments]
    first, second = sorted(puts, key=lambda one: one.start)
    assert (first.start, second.start) == (480, begin)
    if shelves == 1:
        number = morning.run_of[second.task].number
        assert "no Walk-in shelf is free until then" in batch_reasons(morning, number).then[0]


def test_a_break_that_holds_a_batch_is_named_wherever_the_plan_has_it() -> None:
    """Ana's only hour free of the line begins with a break that cannot be later."""
    shift = {
        "breaks": [{"start": "08:00", "latest": "08:05", "minutes": 30}],
        "on_line": [{"start": "10:00", "end": "17:00"}],
    }
    morning = morning_of(ham(cooks=[cook("ana", shift=shift)]))
    (run,) = morning.runs
    begin, end = morning.incumbent.rests[0][0]
    assert 480 <= begin <= 485
    assert run.start == end
    assert f"Ana has a break from 08:0{begin - 480} until then" in batch_reasons(morning, 1).then[0]
