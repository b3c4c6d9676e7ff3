"""A changed kitchen: as wished on that day, as ever on others, and always a valid file."""

import datetime as dt
from collections.abc import Callable

import pytest

from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors
from planner.kitchen.hours import shift_of
from planner.whatif.changes import (
    with_covers,
    with_equipment,
    with_hours,
    with_places,
    with_shift_moved,
    without_cook,
)
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, service, work

NEXT = DATE + dt.timedelta(1)


def kitchen() -> Kitchen:
    shift = {
        "breaks": [{"start": "12:00", "minutes": 30}],
        "on_line": [{"start": "14:00", "end": "15:00"}],
    }
    services = [
        service("lunch", {"plate": 1.0}, 41, opens="11:00"),
        service("dinner", {"plate": 1.0}, 60),
        service("brunch", {"plate": 1.0}, 20, ahead=1),
    ]
    return read(
        bench(
            ingredients=[food("pork")],
            operations=[work("cut")],
            components=[cut_from("pork", "ham", "cut")],
            dishes=[dish("plate", {"ham": "100 g"})],
            equipment=[{"id": "oven", "name": "Oven", "count": 2}],
            services=services,
            cooks=[cook("ana", shift=shift), cook("ben")],
        )
    )


def covers_of(changed: Kitchen) -> dict[str, int]:
    return {one.id: one.covers for one in changed.services}


def test_a_cook_who_is_out_is_in_on_the_days_around() -> None:
    changed = without_cook(kitchen(), DATE, "ana")
    ana = next(one for one in changed.cooks if one.id == "ana")
    assert shift_of(ana, DATE) is None
    for days in (-1, 1, 7):
        there = shift_of(ana, DATE + dt.timedelta(days))
        assert there is not None
        assert (there.start, there.end) == ("08:00", "17:00")
    assert [one.id for one in changed.cooks] == ["ana", "ben"]


def test_a_cook_with_that_shift_only_is_gone() -> None:
    file = kitchen()
    one_day = file.cooks[1].shifts[0].model_copy(update={"date": DATE})
    ben = file.cooks[1].model_copy(update={"shifts": (one_day,)})
    file = file.model_copy(update={"cooks": (file.cooks[0], ben)})
    assert [one.id for one in without_cook(file, DATE, "ben").cooks] == ["ana"]


def test_covers_of_the_day_change_and_no_others() -> None:
    changed = with_covers(kitchen(), DATE, lambda covers: covers * 2)
    assert covers_of(changed) == {"lunch": 82, "dinner": 120, "brunch": 20}
    changed = with_covers(kitchen(), DATE, lambda _: 7, "dinner")
    assert covers_of(changed) == {"lunch": 41, "dinner": 7, "brunch": 20}


def test_equipment_and_places_are_counted_anew() -> None:
    assert with_equipment(kitchen(), "oven", 3).equipment[0].count == 3
    assert with_places(kitchen(), "board", 1).stations[0].places == 1


def test_a_moved_shift_takes_its_breaks_along_but_not_the_line() -> None:
    changed = with_shift_moved(kitchen(), DATE, -30, "ana")
    shift = shift_of(changed.cooks[0], DATE)
    assert shift is not None
    assert (shift.start, shift.end) == ("07:30", "16:30")
    assert shift.breaks[0].start == "11:30"
    assert shift.on_line[0].start == "14:00"
    other_day = shift_of(changed.cooks[0], NEXT)
    assert other_day is not None
    assert other_day.start == "08:00"
    ben = shift_of(changed.cooks[1], DATE)
    assert ben is not None
    assert ben.start == "08:00"


def test_everybody_may_come_later() -> None:
    changed = with_shift_moved(kitchen(), DATE, 45)
    starts = [shift.start for one in changed.cooks if (shift := shift_of(one, DATE)) is not None]
    assert starts == ["08:45", "08:45"]


def test_hours_are_set_with_breaks_where_they_were() -> None:
    changed = with_hours(kitchen(), DATE, "ana", "07:00", "15:00")
    shift = shift_of(changed.cooks[0], DATE)
    assert shift is not None
    assert (shift.start, shift.end, shift.breaks[0].start) == ("07:00", "15:00", "12:00")


def test_the_kitchen_given_is_left_alone() -> None:
    given = kitchen()
    for change in (
        lambda k: without_cook(k, DATE, "ana"),
        lambda k: with_covers(k, DATE, lambda _: 1),
        lambda k: with_shift_moved(k, DATE, 30),
    ):
        change(given)
    assert given == kitchen()


WRONG: dict[str, tuple[Callable[[Kitchen], Kitchen], str, str, str]] = {
    "no such cook": (
        lambda k: without_cook(k, DATE, "anna"),
        "cooks",
        "anna",
        "did you mean 'ana'",
    ),
    "no such equipment": (lambda k: with_equipment(k, "stove", 2), "equipment", "stove", "oven"),
    "no such station": (lambda k: with_places(k, "bord", 2), "stations", "bord", "'board'"),
    "a service of another day": (
        lambda k: with_covers(k, DATE, lambda _: 9, "brunch"),
        "services",
        "brunch",
        "known: lunch, dinner",
    ),
    "no ovens": (lambda k: with_equipment(k, "oven", 0), "equipment[0].count", "0", "from 1 to"),
    "too many covers": (
        lambda k: with_covers(k, DATE, lambda _: 30_000),
        "services[0].covers",
        "30000",
        "from 0 to 20000",
    ),
    "before midnight": (
        lambda k: with_shift_moved(k, DATE, -600, "ben"),
        "cooks[1].shifts[0].start",
        "-02:00",
        "HH:MM",
    ),
    "a break outside the shift": (
        lambda k: with_hours(k, DATE, "ana", "13:00", "17:00"),
        "cooks[0].shifts[0].breaks[0]",
        "12:00 for 30 min",
        "",
    ),
    "nonsense hours": (
        lambda k: with_hours(k, DATE, "ana", "7:00", "17:00"),
        "cooks[0].shifts[0].start",
        "7:00",
        "HH:MM",
    ),
    "a day without service": (
        lambda k: with_covers(k, DATE + dt.timedelta(5), lambda _: 9),
        "services",
        "",
        "another day",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_change_that_cannot_be_names_field_value_and_remedy(name: str) -> None:
    change, path, value, remedy = WRONG[name]
    with pytest.raises(KitchenErrors) as raised:
        change(kitchen())
    error = raised.value.errors[0]
    assert error.path.startswith(path)
    assert error.value == value
    assert remedy in error.remedy


def test_who_is_not_in_has_no_shift_to_move() -> None:
    out = without_cook(kitchen(), DATE, "ana")
    with pytest.raises(KitchenErrors, match="not in on 2025-03-04"):
        with_shift_moved(out, DATE, 30, "ana")
