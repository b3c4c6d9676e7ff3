"""What was wanted of a dish on days on which it ran out."""

import datetime as dt

import numpy as np
import pytest

from planner.forecast.history import COVERS, HistoryError, Sale, history_of
from planner.forecast.models import NAIVE
from planner.forecast.ran_out import wanted
from planner.forecast.service import forecast_service, tried_ways
from service.sales_csv import read_sales

FIRST = dt.date(2026, 3, 2)
SHARE = 0.3
DAYS = 56


def sales(seed: int, made: int, *, told: bool = True, guests: int = 100) -> list[Sale]:
    """A dish of which ``made`` are there every day, wanted by three guests in ten."""
    dice = np.random.default_rng(seed)
    found = []
    for n in range(DAYS):
        date = FIRST + dt.timedelta(n)
        came = int(dice.poisson(guests))
        asked = int(dice.binomial(came, SHARE))
        found.append(Sale(date, "lunch", COVERS, came))
        found.append(Sale(date, "lunch", "stew", min(asked, made), ran_out=told and asked > made))
    return found


AFTER = FIRST + dt.timedelta(DAYS)


def share_of(lines: list[Sale]) -> float:
    (dish,) = forecast_service(history_of(lines), "lunch", AFTER).dishes
    return dish.per_cover


@pytest.mark.parametrize("made", [32, 30, 27])
def test_the_share_is_recovered_though_most_days_run_out(made: int) -> None:
    told = [share_of(sales(seed, made)) for seed in range(12)]
    untold = [share_of(sales(seed, made, told=False)) for seed in range(12)]
    assert np.mean(told) == pytest.approx(SHARE, abs=0.006)
    assert np.mean(untold) < SHARE - 0.009, "else there would be nothing to mend"


def test_ways_are_tried_on_what_was_wanted() -> None:
    """A week back, the naive way says what the weekday before it was wanted, not sold."""
    history = history_of(sales(1, 27))
    after = wanted(history, AFTER).series("lunch", "stew")
    count = dict(zip(after.dates, after.counts, strict=True))
    last = tried_ways(history, "lunch")["stew"].forecasts[NAIVE][-7:]
    assert [one.mean for one in last] == [count[one.date - dt.timedelta(7)] for one in last]
    assert any(("lunch", one.date - dt.timedelta(7), "stew") in history.ran_out for one in last), (
        "else nothing is checked"
    )


def test_only_what_ran_out_changes_and_never_to_less() -> None:
    history = history_of(sales(1, 28))
    found = wanted(history, AFTER)
    for date, counts in history.sold["lunch"].items():
        after = found.sold["lunch"][date]
        if ("lunch", date, "stew") in history.ran_out:
            assert after["stew"] >= counts["stew"]
        else:
            assert after == counts
        assert after[COVERS] == counts[COVERS]


def test_by_hand() -> None:
    """Two days of 100 guests: 30 were sold on one, 30 of the other's ran out.

    Nothing scatters but the second, whose expected value at the fixed point lies above.
    """
    lines = [Sale(FIRST + dt.timedelta(n), "lunch", COVERS, 100) for n in range(2)]
    lines += [
        Sale(FIRST, "lunch", "stew", 30),
        Sale(FIRST + dt.timedelta(1), "lunch", "stew", 30, ran_out=True),
    ]
    found = wanted(history_of(lines), AFTER).sold["lunch"]
    assert found[FIRST]["stew"] == 30
    assert 31 <= found[FIRST + dt.timedelta(1)]["stew"] <= 41


def test_without_guests_a_weekday_is_its_own_measure() -> None:
    """Mondays sell ten and Saturdays forty: a Monday that runs out at ten is no Saturday."""
    lines = []
    for n in range(DAYS):
        date = FIRST + dt.timedelta(n)
        sold = {0: 10, 5: 40}.get(date.weekday(), 20)
        lines.append(Sale(date, "lunch", "stew", sold + n % 3 - 1, ran_out=n == 49))
    found = wanted(history_of(lines), AFTER).sold["lunch"]
    assert (FIRST + dt.timedelta(49)).weekday() == 0
    assert 10 <= found[FIRST + dt.timedelta(49)]["stew"] <= 15


def test_a_dish_that_always_runs_out_is_believed_so_far_and_no_further() -> None:
    found = wanted(history_of(sales(2, 5)), AFTER).sold["lunch"]
    assert {counts["stew"] for counts in found.values()} <= set(range(5, 11))


def test_nothing_of_the_day_or_later_is_looked_at() -> None:
    lines = sales(3, 28)
    middle = FIRST + dt.timedelta(30)
    before = [one for one in lines if one.date < middle]
    a, b = wanted(history_of(lines), middle), wanted(history_of(before), middle)
    for date, counts in b.sold["lunch"].items():
        assert a.sold["lunch"][date] == counts
    assert all(
        counts == history_of(lines).sold["lunch"][date]
        for date, counts in a.sold["lunch"].items()
        if date >= middle
    )


def test_a_history_that_tells_nothing_of_it_is_as_it_was() -> None:
    history = history_of(sales(4, 28, told=False))
    assert wanted(history, AFTER) is history


def test_a_file_may_say_it() -> None:
    text = (
        "date,service,dish,count,ran_out\n2026-03-02,lunch,stew,28,yes\n2026-03-03,lunch,stew,9,\n"
    )
    history = read_sales(text.encode())
    assert history.ran_out == {("lunch", FIRST, "stew")}


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("2026-03-02,lunch,stew,28,perhaps", ("line 2", "ran_out", "perhaps", "yes or no")),
        ("2026-03-02,lunch,covers,28,yes", ("line 2", "ran_out", "covers", "dishes")),
    ],
)
def test_what_cannot_be_is_refused(line: str, names: tuple[str, ...]) -> None:
    with pytest.raises(HistoryError) as caught:
        read_sales(f"date,service,dish,count,ran_out\n{line}\n".encode())
    for name in names:
        assert name in str(caught.value)
