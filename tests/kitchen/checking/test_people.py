"""Skills, stations and shifts."""

from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def test_a_skill_no_cook_has_is_missing() -> None:
    file = tiny_kitchen()
    file["operations"][0]["skill"] = "knifes"
    error = only(file)
    assert (error.path, error.value) == ("operations[0].skill", "knifes")
    assert "missing skill" in error.message
    assert "did you mean 'knife'?" in error.remedy


def test_a_station_where_no_cook_may_work_is_refused() -> None:
    file = tiny_kitchen()
    file["cooks"][0]["stations"] = ["board"]
    errors = reported(file)
    assert [error.path for error in errors] == ["operations[2].station", "operations[3].station"]
    assert "no cook may work at Stove" in errors[0].message


def test_some_cook_must_have_both_the_skill_and_the_station() -> None:
    file = tiny_kitchen()
    file["cooks"][0]["stations"] = ["board"]
    file["cooks"][1]["stations"] = ["board", "stove"]
    errors = reported(file)
    assert [error.path for error in errors] == ["operations[2].station", "operations[3].station"]
    assert "no cook with the skill 'heat' may work at Stove" in errors[0].message


def shift(**fields: Any) -> dict[str, Any]:
    """Return the tiny kitchen with Ana's only shift, 08:00 to 16:00, changed."""
    file = tiny_kitchen()
    file["cooks"][0]["shifts"] = [{"start": "08:00", "end": "16:00", **fields}]
    return file


@pytest.mark.parametrize("end", ["07:59", "08:00", "02:00"])
def test_a_shift_ends_after_it_starts(end: str) -> None:
    error = only(shift(end=end))
    assert (error.path, error.value) == ("cooks[0].shifts[0].end", end)
    assert "'26:00'" in error.remedy


def test_a_shift_may_run_past_midnight() -> None:
    assert reported(shift(start="18:00", end="26:00")) == ()


@pytest.mark.parametrize(
    ("start", "inside"), [("07:45", False), ("08:00", True), ("15:30", True), ("15:31", False)]
)
def test_a_break_lies_within_the_shift(start: str, inside: bool) -> None:
    errors = reported(shift(breaks=[{"start": start, "minutes": 30}]))
    assert [error.path for error in errors] == ([] if inside else ["cooks[0].shifts[0].breaks[0]"])


def test_a_block_on_the_line_lies_within_the_shift() -> None:
    error = only(shift(on_line=[{"start": "15:00", "end": "17:00"}]))
    assert error.path == "cooks[0].shifts[0].on_line[0]"
    assert "outside the shift from 08:00 to 16:00" in error.message


def test_a_block_ends_after_it_starts() -> None:
    error = only(shift(on_line=[{"start": "12:00", "end": "11:00"}]))
    assert error.path == "cooks[0].shifts[0].on_line[0].end"


def test_breaks_and_blocks_do_not_overlap() -> None:
    file = shift(
        breaks=[{"start": "11:00", "minutes": 20}, {"start": "14:00", "minutes": 10}],
        on_line=[{"start": "11:20", "end": "14:30"}],
    )
    error = only(file)
    assert error.path == "cooks[0].shifts[0].breaks[1]"
    assert "on_line[0]" in error.message


def test_a_block_inside_a_longer_one_does_not_hide_the_next_overlap() -> None:
    blocks = [("09:00", "13:00"), ("09:30", "10:00"), ("12:00", "14:00")]
    errors = reported(shift(on_line=[{"start": start, "end": end} for start, end in blocks]))
    assert [error.path for error in errors] == [
        "cooks[0].shifts[0].on_line[1]",
        "cooks[0].shifts[0].on_line[2]",
    ]


@pytest.mark.parametrize("date", [None, "2025-03-04"])
def test_a_cook_has_one_shift_a_day(date: str | None) -> None:
    file = tiny_kitchen()
    file["cooks"][0]["shifts"] = [
        {"date": date, "start": "08:00", "end": "12:00"},
        {"date": date, "start": "16:00", "end": "20:00"},
    ]
    error = only(file)
    assert error.path == "cooks[0].shifts[1].date"
    assert "Ana has two shifts" in error.message


def test_a_shift_of_one_date_stands_beside_the_usual_one() -> None:
    file = tiny_kitchen()
    file["cooks"][0]["shifts"].append({"date": "2025-03-04", "start": "06:00", "end": "12:00"})
    assert reported(file) == ()


def test_a_break_that_moves_lies_in_the_shift_wherever_it_is() -> None:
    error = only(shift(breaks=[{"start": "12:00", "latest": "15:45", "minutes": 30}]))
    assert error.path == "cooks[0].shifts[0].breaks[0]"
    assert error.value == "12:00 to 15:45 for 30 min"
    assert "outside the shift" in error.message
    assert reported(shift(breaks=[{"start": "12:00", "latest": "15:30", "minutes": 30}])) == ()


def test_a_break_starts_no_later_than_its_window_begins() -> None:
    error = only(shift(breaks=[{"start": "12:00", "latest": "11:00", "minutes": 30}]))
    assert (error.path, error.value) == ("cooks[0].shifts[0].breaks[0].latest", "11:00")
    assert "leave it out: then it is at 12:00" in error.remedy


def test_breaks_that_move_find_room_beside_the_line() -> None:
    window = {"start": "12:00", "latest": "12:20", "minutes": 30}
    error = only(shift(breaks=[window], on_line=[{"start": "12:25", "end": "15:00"}]))
    assert error.path == "cooks[0].shifts[0].breaks"
    assert "no room for the breaks beside what is on_line" in error.message
    assert reported(shift(breaks=[window], on_line=[{"start": "12:30", "end": "15:00"}])) == ()


def rested(file: dict[str, Any], hours: float, minutes: int) -> dict[str, Any]:
    file["rules"] = {"rest_rules": [{"after_hours": hours, "minutes": minutes}]}
    return file


def test_stated_breaks_keep_the_rest_rules() -> None:
    late = rested(shift(breaks=[{"start": "14:30", "minutes": 30}]), 6, 30)
    error = only(late)
    assert error.path == "cooks[0].shifts[0].breaks"
    assert "from 08:00 to 14:30 there may be no break of 30 min" in error.message
    assert "after 6 h" in error.message
    assert "leave breaks out" in error.remedy
    assert reported(rested(shift(breaks=[{"start": "13:30", "minutes": 30}]), 6, 30)) == ()


def test_breaks_that_the_rules_ask_for_find_room_too() -> None:
    full = rested(shift(breaks=[], on_line=[{"start": "09:00", "end": "15:30"}]), 6, 30)
    error = only(full)
    assert "breaks that the rest rules ask for" in error.message
    assert reported(rested(shift(breaks=[]), 6, 30)) == ()
