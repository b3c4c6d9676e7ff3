"""A kitchen moved to another day."""

import datetime as dt
import json

import pytest

from planner.kitchen.dates import moved_to
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny, tiny_kitchen


def test_every_date_moves_by_the_same_days() -> None:
    file = tiny_kitchen()
    file["cooks"][0]["shifts"].append({"date": "2025-03-05", "start": "09:00", "end": "17:00"})
    file["cooks"][0]["days_off"] = ["2025-03-06"]
    file["raw_stock"][0]["use_by"] = "2025-03-09"
    moved = moved_to(Kitchen.model_validate(file), dt.date(2026, 1, 1))
    text = json.dumps(file).replace("2025-03-03", "2025-12-31")
    for day in range(4, 10):
        text = text.replace(f"2025-03-{day:02}", f"2026-01-{day - 3:02}")
    assert moved == Kitchen.model_validate_json(text)


def test_a_shift_of_every_day_stays_so() -> None:
    moved = moved_to(tiny(), dt.date(2030, 6, 1))
    assert all(shift.date is None for cook in moved.cooks for shift in cook.shifts)


def test_there_and_back_again_is_the_same_kitchen() -> None:
    kitchen = tiny()
    assert moved_to(moved_to(kitchen, dt.date(2024, 2, 29)), kitchen.as_of) == kitchen


def test_the_calendar_has_an_end() -> None:
    with pytest.raises(OverflowError):
        moved_to(tiny(), dt.date(9999, 12, 31))
