"""Sales are kept wholly or not at all; what is unclear is asked, and all can be put back."""

import datetime as dt
from collections.abc import Sequence

import pytest

from planner.forecast.history import COVERS, Sale
from planner.forecast.keeping import Counted
from planner.forecast.names import DISH, LEFT_OUT, SERVICE
from planner.forecast.outlook import NoForecast
from service.db.unit_of_work import Database
from service.errors import ConflictError, InvalidError, NotFoundError
from service.sales_choices import Differ
from service.sales_values import SalesWay
from service.usecases.forecasts import SalesForecasts
from service.usecases.kitchens import store_kitchen
from service.usecases.sales import (
    SalesAskedError,
    SalesFaultsError,
    SalesImport,
    SalesWish,
    enter_covers,
    kept_now,
    put_back_sales,
    sales_entries,
    say_closed,
    set_country,
    take_sales,
)
from tests.service import stubs

SLUG = "test-kitchen"
LAST = dt.date(2026, 3, 1)
"""The day before the test kitchen's own."""


def noon() -> dt.datetime:
    return dt.datetime(2026, 3, 2, 17, 0, tzinfo=dt.UTC)


@pytest.fixture
def kitchen(database: Database) -> Database:
    store_kitchen(database, stubs.kitchen_bytes(), actor="test", now=noon)
    return database


def week_of(days: int, *, covers: int = 40) -> list[Sale]:
    return [
        Sale(LAST - dt.timedelta(back), "Lunch", dish, count + back % 7, back)
        for back in range(days, -1, -1)
        for dish, count in ((COVERS, covers), ("soup", covers // 2))
    ]


def take(database: Database, sales: Sequence[Sale], wish: SalesWish | None = None) -> SalesImport:
    return take_sales(database, SLUG, sales, wish or SalesWish("a.csv"), actor="test", now=noon)


def test_the_same_again_changes_nothing(kitchen: Database) -> None:
    first = take(kitchen, week_of(20))
    again = take(kitchen, week_of(20))
    assert (first.number, first.added, again.number) == (1, 42, None)
    assert (again.added, again.same) == (0, 42)
    assert kept_now(kitchen, SLUG).kept.version == 1


def test_more_days_are_added_to_those_kept(kitchen: Database) -> None:
    take(kitchen, week_of(20)[:-2])
    found = take(kitchen, week_of(20))
    assert (found.added, found.same) == (2, 40)


def test_another_count_is_asked_about_and_nothing_of_the_file_is_kept(kitchen: Database) -> None:
    take(kitchen, week_of(6))
    other = [*week_of(13)[:14], Sale(LAST, "Lunch", COVERS, 99, 40)]
    with pytest.raises(SalesAskedError) as asked:
        take(kitchen, other)
    (differing,) = asked.value.compared.differing
    assert (differing.sale.count, differing.kept) == (99, Counted(40))
    assert "line 40" in str(asked.value)
    assert len(asked.value.compared.new) == 14
    assert kept_now(kitchen, SLUG).kept.version == 1


@pytest.mark.parametrize(("differing", "holds"), [(Differ.KEEP, 40), (Differ.REPLACE, 99)])
def test_an_answer_keeps_or_replaces(kitchen: Database, differing: Differ, holds: int) -> None:
    take(kitchen, week_of(6))
    line = Sale(LAST, "Lunch", COVERS, 99, 2)
    found = take(kitchen, [line], SalesWish(differing=differing))
    assert kept_now(kitchen, SLUG).kept.counts[LAST, "Lunch", COVERS] == Counted(holds)
    assert (found.changed, found.left) == ((1, 0) if differing is Differ.REPLACE else (0, 1))


def test_a_correction_is_an_entry_that_can_be_put_back(kitchen: Database) -> None:
    take(kitchen, week_of(6))
    line = Sale(LAST, "Lunch", COVERS, 99, 2)
    changed = take(kitchen, [line], SalesWish(differing=Differ.REPLACE))
    assert changed.number == 2
    assert put_back_sales(kitchen, SLUG, 2, actor="chef", now=noon) == 3
    assert kept_now(kitchen, SLUG).kept.counts[LAST, "Lunch", COVERS] == Counted(40)
    back, replaced, _first = sales_entries(kitchen, SLUG)
    assert (back.way, back.puts_back, back.actor) == (SalesWay.BACK, 2, "chef")
    assert (replaced.changed, replaced.at) == (1, noon())


def test_that_a_dish_ran_out_is_asked_about_like_a_count_and_put_back(kitchen: Database) -> None:
    def soup(ran_out: bool | None, count: int = 8) -> list[Sale]:
        return [Sale(LAST, "Lunch", "soup", count, 2, ran_out)]

    def held() -> Counted:
        return kept_now(kitchen, SLUG).kept.counts[LAST, "Lunch", "soup"]

    replace = SalesWish(differing=Differ.REPLACE)
    take(kitchen, soup(None))
    assert take(kitchen, soup(ran_out=False)).same == 1
    with pytest.raises(SalesAskedError, match=r"line 2, ran_out: yes: .* which did not run out"):
        take(kitchen, soup(ran_out=True))
    assert take(kitchen, soup(ran_out=True), SalesWish(differing=Differ.KEEP)).left == 1
    assert held() == Counted(8)
    assert take(kitchen, soup(ran_out=True), replace).changed == 1
    assert held() == Counted(8, ran_out=True)
    assert take(kitchen, soup(None)).same == 1, "a file that does not say contradicts nothing"
    with pytest.raises(SalesAskedError, match=r"ran_out: no: .* which ran out"):
        take(kitchen, soup(ran_out=False))
    take(kitchen, soup(None, count=9), replace)
    assert held() == Counted(9, ran_out=True), "a corrected count ran out as well"
    put_back_sales(kitchen, SLUG, 3, actor="chef", now=noon)
    assert held() == Counted(8, ran_out=True)


def test_what_a_newer_entry_is_about_is_put_back_first(kitchen: Database) -> None:
    take(kitchen, week_of(6))
    take(kitchen, [Sale(LAST, "Lunch", COVERS, 99, 2)], SalesWish(differing=Differ.REPLACE))
    with pytest.raises(ConflictError, match="entry 2 is newer"):
        put_back_sales(kitchen, SLUG, 1, actor="chef", now=noon)
    with pytest.raises(NotFoundError, match="no such entry"):
        put_back_sales(kitchen, SLUG, 9, actor="chef", now=noon)
    put_back_sales(kitchen, SLUG, 2, actor="chef", now=noon)
    put_back_sales(kitchen, SLUG, 3, actor="chef", now=noon)
    assert kept_now(kitchen, SLUG).kept.counts[LAST, "Lunch", COVERS] == Counted(99)


def test_names_are_asked_and_answers_remembered_until_they_are_put_back(
    kitchen: Database,
) -> None:
    line = Sale(LAST, "midday", "Supp", 4, 2)
    with pytest.raises(SalesAskedError) as asked:
        take(kitchen, [line])
    assert [(one.field, one.value) for one in asked.value.unknown] == [
        (SERVICE, "midday"),
        (DISH, "Supp"),
    ]
    wish = SalesWish(answers={(SERVICE, "midday"): "Lunch", (DISH, "Supp"): "soup"})
    assert take(kitchen, [line], wish).added == 1
    before = Sale(LAST - dt.timedelta(1), "midday", "Supp", 5, 2)
    assert take(kitchen, [before]).added == 1, "the answers of the last file hold for the next"
    put_back_sales(kitchen, SLUG, 1, actor="chef", now=noon)
    with pytest.raises(SalesAskedError):
        take(kitchen, [line])


def test_an_answer_that_names_nothing_is_refused(kitchen: Database) -> None:
    wish = SalesWish(answers={(DISH, "Supp"): "broth"})
    with pytest.raises(SalesFaultsError, match="broth: the kitchen has no such name"):
        take(kitchen, [Sale(LAST, "Lunch", "Supp", 4, 2)], wish)


def test_what_is_left_out_is_counted(kitchen: Database) -> None:
    wish = SalesWish(answers={(DISH, "Gift card"): LEFT_OUT})
    lines = [Sale(LAST, "Lunch", "Gift card", 4, 2), Sale(LAST, "Lunch", COVERS, 40, 3)]
    found = take(kitchen, lines, wish)
    assert (found.added, found.left_out) == (1, 1)


def test_days_to_come_and_lines_twice_are_faults_and_nothing_is_kept(kitchen: Database) -> None:
    tomorrow = LAST + dt.timedelta(2)
    lines = [
        Sale(LAST, "Lunch", COVERS, 40, 2),
        Sale(tomorrow, "Lunch", COVERS, 40, 3),
        Sale(LAST, "lunch", "Covers", 41, 4),
    ]
    with pytest.raises(SalesFaultsError) as found:
        take(kitchen, lines)
    assert [(one.line, one.field) for one in found.value.found] == [(3, "date"), (4, "dish")]
    assert kept_now(kitchen, SLUG).kept.version == 0


def test_a_gap_is_asked_about_until_it_is_closed_or_entered(kitchen: Database) -> None:
    lost = [LAST - dt.timedelta(3), LAST - dt.timedelta(5)]
    found = take(kitchen, [one for one in week_of(27) if one.date not in lost])
    assert [gap.date for gap in found.gaps] == sorted(lost)
    number = say_closed(kitchen, SLUG, "Lunch", lost[0], actor="chef", now=noon)
    assert say_closed(kitchen, SLUG, "Lunch", lost[0], actor="chef", now=noon) == number
    entered = enter_covers(kitchen, SLUG, "Lunch", lost[1], 44, actor="chef", now=noon)
    assert entered.gaps == ()
    assert [one.way for one in sales_entries(kitchen, SLUG)[:2]] == [
        SalesWay.HAND,
        SalesWay.CLOSED,
    ]


def test_who_sold_was_not_closed(kitchen: Database) -> None:
    take(kitchen, week_of(6))
    with pytest.raises(ConflictError, match="something was sold"):
        say_closed(kitchen, SLUG, "Lunch", LAST, actor="chef", now=noon)
    with pytest.raises(NotFoundError):
        say_closed(kitchen, SLUG, "Brunch", LAST, actor="chef", now=noon)
    day = LAST - dt.timedelta(30)
    say_closed(kitchen, SLUG, "Lunch", day, actor="chef", now=noon)
    enter_covers(kitchen, SLUG, "Lunch", day, 12, actor="chef", now=noon)
    assert kept_now(kitchen, SLUG).kept.closed == frozenset()


def test_a_country_goes_into_the_next_version_of_the_file_and_a_wrong_one_does_not(
    kitchen: Database,
) -> None:
    assert set_country(kitchen, SLUG, "US", "NY", actor="chef", now=noon)
    assert not set_country(kitchen, SLUG, "US", "NY", actor="chef", now=noon)
    found = kept_now(kitchen, SLUG)
    assert (found.kitchen.country, found.kitchen.region, found.stored.number) == ("US", "NY", 2)
    with pytest.raises(InvalidError, match="country: UK: no holidays are known"):
        set_country(kitchen, SLUG, "UK", "", actor="chef", now=noon)
    with pytest.raises(InvalidError, match="region: XX: US has no region"):
        set_country(kitchen, SLUG, "US", "XX", actor="chef", now=noon)
    assert set_country(kitchen, SLUG, "", "NY", actor="chef", now=noon)
    assert kept_now(kitchen, SLUG).kitchen.country is None


def test_a_day_has_no_forecast_until_there_is_enough_and_then_one_from_what_is_kept(
    kitchen: Database,
) -> None:
    forecasts = SalesForecasts(kitchen)
    today = LAST + dt.timedelta(1)
    assert forecasts.of_day(SLUG, today).newest is None
    take(kitchen, week_of(9))
    (lunch,) = forecasts.of_day(SLUG, today).services.values()
    assert (lunch.forecast, lunch.why_none, lunch.days) == (None, NoForecast.TOO_SHORT, 10)
    take(kitchen, week_of(60))
    (lunch,) = forecasts.of_day(SLUG, today).services.values()
    assert lunch.forecast is not None
    assert lunch.forecast.covers is not None
    assert 39 <= lunch.forecast.covers.mean <= 47
    assert lunch.before is not None
    assert lunch.before[COVERS] == 46, "a week before the day"
    enter_covers(kitchen, SLUG, "Lunch", today, 51, actor="chef", now=noon)
    (lunch,) = forecasts.of_day(SLUG, today).services.values()
    assert (lunch.why_none, lunch.sold) == (NoForecast.SOLD, {COVERS: 51})


def test_a_forecast_is_reckoned_once_for_a_version_of_the_history(
    kitchen: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    take(kitchen, week_of(60))
    forecasts = SalesForecasts(kitchen)
    today = LAST + dt.timedelta(1)
    first = forecasts.of_day(SLUG, today)
    monkeypatch.setattr("service.usecases.forecasts.forecast_service", _never)
    monkeypatch.setattr("service.usecases.forecasts.tried_ways", _never)
    assert forecasts.of_day(SLUG, today) == first
    take(kitchen, week_of(70))
    with pytest.raises(AssertionError, match="again"):
        forecasts.of_day(SLUG, today)


def _never(*args: object, **more: object) -> None:
    raise AssertionError(f"reckoned again: {args} {more}")
