"""Forecasts against invented truth, plain arithmetic and statsmodels itself."""

import datetime as dt
import math
import sys

import numpy as np
import pytest
from statsmodels.tsa.holtwinters import ExponentialSmoothing

from planner.forecast.choose import choose
from planner.forecast.history import COVERS, Series, history_of
from planner.forecast.holidays import public_holidays
from planner.forecast.models import (
    NAIVE,
    MissingExtraError,
    TooShortError,
    exponential_smoothing,
    same_day_last_week,
    weekdays_about_a_level,
)
from tests.forecast.invented import FIRST, WEEK, invented_sales


def covers(seed: int = 1, **how: object) -> Series:
    return history_of(invented_sales(seed, **how)).series("dinner", COVERS)  # type: ignore[arg-type]


def week_after(series: Series) -> list[dt.date]:
    days = [series.dates[-1] + dt.timedelta(n) for n in range(1, 8)]
    return [day for day in days if WEEK[day.weekday()]]


def test_the_naive_way_says_what_the_same_weekday_had() -> None:
    series = covers()
    had = {date.weekday(): count for date, count in zip(series.dates, series.counts, strict=True)}
    for one in same_day_last_week(series, week_after(series)):
        assert one.mean == had[one.date.weekday()]


def test_a_week_without_noise_is_forecast_to_the_cover() -> None:
    dates = tuple(FIRST + dt.timedelta(n) for n in range(280) if WEEK[n % 7])
    series = Series(dates, tuple(round(100 * WEEK[date.weekday()]) for date in dates))
    for one in weekdays_about_a_level(series, week_after(series)):
        assert one.mean == pytest.approx(100 * WEEK[one.date.weekday()], rel=0.03)


def test_a_holiday_has_a_factor_and_does_not_move_the_level() -> None:
    holidays = frozenset(FIRST + dt.timedelta(n) for n in (30, 72, 114, 156, 200, 233))
    series = covers(holidays=holidays, holiday_factor=1.6, spread=0.02, covers=400.0)
    (day, *_) = week_after(series)
    (plain,) = weekdays_about_a_level(series, [day], holidays)
    (on_one,) = weekdays_about_a_level(series, [day], holidays | {day})
    # Six holidays, drawn to no difference by two days' worth.
    assert on_one.mean / plain.mean == pytest.approx((6 * 1.6 + 2) / 8, rel=0.05)


def test_exponential_smoothing_is_statsmodels_own() -> None:
    series = covers(weeks=12)
    days = week_after(series)
    with np.errstate(all="ignore"):
        theirs = ExponentialSmoothing(
            np.array(series.counts, float),
            seasonal="add",
            seasonal_periods=6,
            initialization_method="estimated",
        ).fit()
        ours = exponential_smoothing(series, days)
    assert [one.mean for one in ours] == pytest.approx(theirs.forecast(6).tolist())


def test_without_statsmodels_the_remedy_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "statsmodels.tsa.holtwinters", None)
    with pytest.raises(MissingExtraError, match=r"prepwright\[forecast\]"):
        exponential_smoothing(covers(weeks=8), [dt.date(2026, 1, 1)])


def test_of_the_invented_restaurant_the_level_beats_the_naive_way() -> None:
    chosen = choose(covers(weeks=30))
    assert chosen.name != NAIVE
    assert chosen.gain > 0.1
    assert chosen.scores[0].days == 48


def test_where_only_last_week_matters_the_naive_way_wins_and_that_is_said() -> None:
    # Each weekday wanders by itself, so that only its own last count tells anything.
    dice = np.random.default_rng(6)
    walks = np.maximum(5, 100 + np.cumsum(dice.normal(0, 25, (30, 7)), axis=0))
    dates = tuple(FIRST + dt.timedelta(n) for n in range(210))
    chosen = choose(Series(dates, tuple(int(x) for x in walks.ravel())))
    assert chosen.naive_wins
    assert chosen.gain == 0.0


def test_of_many_restaurants_90_percent_of_days_are_within_the_90_percent_quantile() -> None:
    shares = []
    for seed in range(12):
        scores = {one.name: one for one in choose(covers(seed, weeks=30)).scores}
        shares.append(scores["weekdays about a level"].ready)
    assert np.mean(shares) == pytest.approx(0.9, abs=0.05)


def test_the_spread_is_never_less_than_that_of_counting() -> None:
    dates = tuple(FIRST + dt.timedelta(n) for n in range(28))
    for way in (same_day_last_week, weekdays_about_a_level):
        (one,) = way(Series(dates, (100,) * 28), [dates[-1] + dt.timedelta(1)], ())
        assert one.sd >= math.sqrt(one.mean) - 1e-9


def test_too_little_history_says_how_much_it_takes() -> None:
    short = covers(weeks=1)
    with pytest.raises(TooShortError, match="at least 14 days"):
        weekdays_about_a_level(short, [FIRST])
    with pytest.raises(TooShortError, match="at least three weeks"):
        choose(short)


def test_holidays_are_those_of_the_country_and_a_wrong_code_is_named() -> None:
    days = [dt.date(2026, 7, 4), dt.date(2026, 7, 14), dt.date(2026, 11, 26)]
    # 5 U.S.C. 6103 (4 July, fourth Thursday of November); Code du travail L3133-1 (14 July).
    assert public_holidays("US", days) == {days[0], days[2]}
    assert public_holidays("FR", days) == {days[1]}
    with pytest.raises(ValueError, match="'UK'"):
        public_holidays("UK", days)
    with pytest.raises(ValueError, match="no region 'XX'"):
        public_holidays("US", days, "XX")
