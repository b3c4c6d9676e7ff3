"""What holding weeks back tells, and that ways tried once serve every day to come."""

import datetime as dt

import pytest

from planner.forecast.history import COVERS, Sale, history_of
from planner.forecast.models import NAIVE
from planner.forecast.review import held_weeks, service_review
from planner.forecast.service import forecast_service, tried_ways
from tests.forecast.invented import invented_sales

HISTORY = history_of(invented_sales(3, weeks=20))
LAST = max(HISTORY.sold["dinner"])


@pytest.mark.parametrize("ahead", [1, 3, 9])
def test_what_was_tried_once_gives_the_forecast_of_trying_anew(ahead: int) -> None:
    date = LAST + dt.timedelta(ahead)
    known = tried_ways(HISTORY, "dinner")
    assert forecast_service(HISTORY, "dinner", date, known=known) == forecast_service(
        HISTORY, "dinner", date
    )


def test_days_are_those_that_were_held_back_with_what_came() -> None:
    review = service_review(HISTORY, "dinner", tried_ways(HISTORY, "dinner"))
    assert [day.date for day in review.days] == sorted(
        date for date in HISTORY.sold["dinner"] if (LAST - date).days < 56
    )
    for day in review.days:
        assert day.count == HISTORY.sold["dinner"][day.date][COVERS]
        week_before = HISTORY.sold["dinner"][day.date - dt.timedelta(7)][COVERS]
        # Held back in weeks from the last day on, so the week before is always known.
        assert day.last_week == week_before


def test_weeks_sum_up_their_days() -> None:
    review = service_review(HISTORY, "dinner", tried_ways(HISTORY, "dinner"))
    weeks = held_weeks(review.days)
    assert sum(week.count for week in weeks) == sum(day.count for day in review.days)
    assert sum(week.days for week in weeks) == len(review.days)
    assert all(week.first.weekday() == 0 for week in weeks)
    of_all = sum(week.off * week.days for week in weeks) / len(review.days)
    best = review.chosen[COVERS].scores[0]
    assert of_all == pytest.approx(best.off)
    naive = next(one for one in review.chosen[COVERS].scores if one.name == NAIVE)
    of_naive = sum(week.off_last_week * week.days for week in weeks) / len(review.days)
    assert of_naive == pytest.approx(naive.off)


def test_a_short_history_has_no_days_and_says_nothing_of_its_ways() -> None:
    short = history_of([Sale(LAST - dt.timedelta(n), "dinner", COVERS, 50) for n in range(9)])
    review = service_review(short, "dinner", tried_ways(short, "dinner"))
    assert (review.days, dict(review.chosen)) == ((), {})


def test_a_day_that_was_closed_is_not_asked_for() -> None:
    lines = [one for one in invented_sales(1, weeks=6) if one.date != LAST]
    lost = sorted({one.date for one in lines})[8]
    sales = [one for one in lines if one.date != lost]
    assert [gap.date for gap in history_of(sales).gaps] == [lost]
    assert history_of(sales, {("dinner", lost)}).gaps == ()
