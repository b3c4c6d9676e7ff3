"""A service of the kitchen file gets its covers, their spread and its mix from the history."""

import datetime as dt

import pytest

from planner.forecast.backtest import at_level, flat, outcomes, short_at_waste
from planner.forecast.history import COVERS, History, Sale, history_of
from planner.forecast.models import TooShortError
from planner.forecast.service import forecast_service, with_forecast
from planner.kitchen.day import MixLine, Service
from tests.forecast.invented import DISHES, FIRST, WEEK, invented_sales

FRIDAY = FIRST + dt.timedelta(7 * 30 + 4)


@pytest.fixture(scope="module")
def history() -> History:
    return history_of(invented_sales(3, weeks=34))


def service(**fields: object) -> Service:
    mix = tuple(MixLine(dish=dish, per_cover=0.5) for dish in (*DISHES, "special"))
    given = {
        "id": "dinner",
        "name": "Dinner",
        "date": FRIDAY,
        "opens": "18:00",
        "closes": "22:00",
        "covers": 10,
        "mix": mix,
        **fields,
    }
    return Service.model_validate(given)


def test_covers_spread_and_mix_come_near_the_truth(history: History) -> None:
    found = with_forecast(service(), forecast_service(history, "dinner", FRIDAY))
    season = 1 - 0.15 * 0.52  # sin(2 pi 214 / 365), by hand
    assert found.covers == pytest.approx(90 * WEEK[4] * season, rel=0.12)
    assert found.covers_spread == pytest.approx(0.12, abs=0.06)
    mix = {line.dish: line.per_cover for line in found.mix}
    for dish, share in DISHES.items():
        assert mix[dish] == pytest.approx(share, abs=0.02)
    assert mix["special"] == 0.5, "what the history does not know stays as it was"


def test_nothing_of_the_day_itself_is_looked_at(history: History) -> None:
    until = {d: c for d, c in history.sold["dinner"].items() if d < FRIDAY}
    before = History({"dinner": until}, ())
    assert forecast_service(history, "dinner", FRIDAY).covers == (
        forecast_service(before, "dinner", FRIDAY).covers
    )


def test_a_guaranteed_count_is_no_forecast(history: History) -> None:
    banquet = service(guaranteed=True)
    assert with_forecast(banquet, forecast_service(history, "dinner", FRIDAY)) == banquet


def test_an_unknown_service_or_too_little_says_what_there_is(history: History) -> None:
    with pytest.raises(KeyError, match="it has: dinner"):
        forecast_service(history, "brunch", FRIDAY)
    with pytest.raises(TooShortError, match="at least"):
        forecast_service(history, "dinner", FIRST + dt.timedelta(5))


def test_more_buffer_is_less_short_and_more_waste(history: History) -> None:
    dishes = {dish: history.series("dinner", dish) for dish in DISHES}
    curve = outcomes(
        dishes,
        {f"{level}": at_level(level) for level in (0.5, 0.7, 0.9, 0.97)},
        way="weekdays about a level",
        weeks=8,
    )
    assert [one.short for one in curve] == sorted((one.short for one in curve), reverse=True)
    assert [one.waste for one in curve] == sorted(one.waste for one in curve)
    assert curve[2].ran_out == pytest.approx(0.1, abs=0.05)


def test_what_a_buffer_did_is_counted_portion_by_portion() -> None:
    sold = history_of(invented_sales(1, weeks=12))
    covers = sold.series("dinner", COVERS)
    (all_of_it, none) = outcomes(
        {"covers": covers},
        {"all": lambda _: 10_000, "none": lambda _: 0},
        way="same day last week",
        weeks=2,
    )
    asked = sum(covers.counts[-12:])
    assert (all_of_it.short, none.short, none.waste) == (0.0, 1.0, 0.0)
    assert all_of_it.waste == pytest.approx(1 - asked / 120_000)
    assert flat(0.2)(type("F", (), {"mean": 10.0})()) == 12  # type: ignore[arg-type]


def test_curves_are_compared_at_equal_waste() -> None:
    dishes = {"covers": history_of(invented_sales(1, weeks=12)).series("dinner", COVERS)}
    curve = outcomes(
        dishes,
        {str(level): at_level(level) for level in (0.5, 0.9)},
        way="same day last week",
        weeks=2,
    )
    middle = (curve[0].waste + curve[1].waste) / 2
    assert short_at_waste(curve, middle) == pytest.approx((curve[0].short + curve[1].short) / 2)
    assert short_at_waste(curve, 0.99) is None


def test_a_weekday_s_own_mix_counts_where_it_differs_beyond_chance() -> None:
    sales = []
    for day in range(70):
        date = FIRST + dt.timedelta(day)
        fish = 50 if date.weekday() == 4 else 20 + day % 3
        sales += [Sale(date, "dinner", COVERS, 100), Sale(date, "dinner", "fish", fish)]
    history, monday = history_of(sales), FIRST + dt.timedelta(70)
    shares = {
        day: forecast_service(history, "dinner", monday + dt.timedelta(day)).dishes[0].per_cover
        for day in (0, 4)
    }
    assert shares[4] == pytest.approx(0.5, abs=0.02)
    assert shares[0] == pytest.approx(0.21, abs=0.02)


def test_days_without_a_line_of_a_dish_count_in_its_mix() -> None:
    """One portion at every third of services of 100 covers is one in 300, not one in 100."""
    sales = []
    for day in range(70):
        date = FIRST + dt.timedelta(day)
        sales.append(Sale(date, "dinner", COVERS, 100))
        if day >= 30 and day % 3 == 0:  # new on the menu on the 31st day
            sales.append(Sale(date, "dinner", "tasting", 1))
    (tasting,) = forecast_service(history_of(sales), "dinner", FIRST + dt.timedelta(70)).dishes
    assert tasting.per_cover == pytest.approx(1 / 300, rel=0.1)
