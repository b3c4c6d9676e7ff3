"""When a cook is in."""

import datetime as dt

from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook

DAY = dt.date(2026, 3, 2)
LATE = {"date": DAY, "start": "12:00", "end": "20:00"}
USUAL = {"start": "07:00", "end": "15:00"}


def _cook(*shifts: dict[str, object], days_off: tuple[dt.date, ...] = ()) -> Cook:
    fields = {"id": "ada", "name": "Ada", "initials": "A", "skills": [{"skill": "knife"}]}
    return Cook.model_validate({**fields, "shifts": shifts, "days_off": days_off})


def test_a_days_own_shift_comes_before_that_of_every_day() -> None:
    cook = _cook(USUAL, LATE)
    starts = [shift.start for day in (0, 1) if (shift := shift_of(cook, DAY + dt.timedelta(day)))]
    assert starts == ["12:00", "07:00"]


def test_without_a_shift_nobody_is_in() -> None:
    assert shift_of(_cook(LATE), DAY + dt.timedelta(1)) is None


def test_on_a_day_off_no_shift_holds_not_even_the_days_own() -> None:
    cook = _cook(USUAL, LATE, days_off=(DAY,))
    assert shift_of(cook, DAY) is None
    assert shift_of(cook, DAY + dt.timedelta(1)) is not None
