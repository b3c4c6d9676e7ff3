"""Cooks of a day as the schedule sees them."""

import datetime as dt
from typing import Any

from planner.lots.crew import Crew, crew_of
from planner.schedule.problem import Rest, Worker
from tests.kitchens.bench import DATE, File, bench, cook, cut_from, day, dish, food, read, work


def crew(*cooks: File, date: dt.date = DATE, **rules: Any) -> Crew:
    file = bench(
        ingredients=[food("pork")],
        operations=[work("cut")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g"})],
        cooks=[cook("eve"), *cooks],
        stations=[
            {"id": "board", "name": "Board", "places": 1},
            {"id": "range", "name": "Range", "places": 1},
        ],
        rules=rules,
    )
    return crew_of(read(file), date)


def last(found: Crew) -> Worker:
    return found.workers[-1]


def test_a_shift_becomes_minutes_with_the_overtime_that_is_allowed() -> None:
    found = last(crew(cook("ana", "09:00", "17:30", shift={"overtime_minutes": 45})))
    assert (found.id, found.start, found.end, found.latest_end) == ("ana", 540, 1050, 1095)
    assert found.wage_per_hour == 20


def test_station_set_up_and_the_line_are_blocked_and_breaks_are_rests_in_their_order() -> None:
    shift = {
        "on_line": [{"start": "11:30", "end": "14:00"}],
        "breaks": [{"start": "15:00", "minutes": 30}, {"start": "10:00", "minutes": 15}],
    }
    found = last(crew(cook("ana", shift=shift), station_set_up_minutes=10))
    assert found.blocked == ((480, 490), (690, 840))
    assert found.rests == (Rest(15, 600, 600), Rest(30, 900, 900))


def test_without_set_up_the_shift_begins_with_work() -> None:
    assert last(crew(cook("ana"))).blocked == ()


def test_only_who_has_a_shift_on_the_day_is_in() -> None:
    shifts = [{"date": day(1), "start": "08:00", "end": "12:00"}]
    ana = cook("ana", shifts=shifts)
    assert [c.id for c in crew(ana).cooks] == ["eve"]
    assert [c.id for c in crew(ana, date=DATE + dt.timedelta(days=1)).cooks] == ["eve", "ana"]


def test_a_shift_of_its_own_date_stands_for_the_daily_one() -> None:
    shifts = [
        {"start": "08:00", "end": "16:00"},
        {"date": day(0), "start": "12:00", "end": "20:00"},
    ]
    found = last(crew(cook("ana", shifts=shifts)))
    assert (found.start, found.end) == (720, 1200)


def test_a_cook_does_what_skill_and_station_allow_at_a_pace_of_their_own() -> None:
    found = crew(
        cook("ana", skills=[{"skill": "hands", "pace": 1.2}], stations=["board"]),
        cook("ben", skills=[{"skill": "hands"}], stations=["range"]),
        cook("cy", skills=[{"skill": "washing"}]),
    )
    operation = read(
        bench(
            ingredients=[food("pork")],
            operations=[work("cut")],
            components=[cut_from("pork", "ham", "cut")],
            dishes=[dish("plate", {"ham": "100 g"})],
        )
    ).operations[0]
    assert found.paces(operation) == {0: 1.0, 1: 1.2}
