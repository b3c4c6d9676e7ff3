"""The page of the sales history in words: who wins is said, days that lack are marked."""

import datetime as dt

from planner.forecast.choose import Chosen, Score
from planner.forecast.history import COVERS, History, Sale, history_of
from planner.forecast.keeping import Compared
from planner.forecast.names import Unknown
from planner.forecast.review import service_review
from planner.forecast.service import tried_ways
from tests.forecast.invented import invented_sales
from web.language import speaking
from web.sales.asked_view import answers_in, asked_view, field_name
from web.sales.view import DAYS, Sold, charts_of, sales_view
from web.sales.words import how_words


def sold(history: History, closed: frozenset[tuple[str, dt.date]] = frozenset()) -> Sold:
    reviews = [service_review(history, one, tried_ways(history, one)) for one in history.sold]
    return Sold(history, tuple(history.sold), reviews, {"stew": "Lamb stew"}, {}, closed)


def chosen(*scores: tuple[str, float]) -> Chosen:
    return Chosen(scores[0][0], tuple(Score(name, off, 0.9, 40) for name, off in scores))


def test_which_way_is_used_and_by_how_much_it_is_better_is_said() -> None:
    best = chosen(("weekdays about a level", 6.0), ("same day last week", 8.0))
    assert "off by 6.0 a day, 25 % less than the same day last week" in how_words(best)


def test_that_the_naive_way_wins_is_said() -> None:
    naive = chosen(("same day last week", 6.0), ("weekdays about a level", 8.0))
    assert how_words(naive).startswith("By what the same day last week had")
    assert "nothing was better" in how_words(naive)


def test_a_gain_of_nothing_is_not_boasted_of() -> None:
    close = chosen(("weekdays about a level", 6.0), ("same day last week", 6.01))
    assert "about as much as the same day last week" in how_words(close)


def test_days_are_listed_newest_first_with_their_dishes_most_sold_first() -> None:
    history = history_of(invented_sales(1, weeks=10))
    view = sales_view(sold(history))
    (dinner,) = view.days[0].services
    assert int(dinner.covers) == history.sold["dinner"][max(history.sold["dinner"])][COVERS]
    counts = [int(one.count) for one in dinner.dishes]
    assert counts == sorted(counts, reverse=True)
    assert dinner.dishes[0].dish == "Lamb stew"
    assert len(view.days) <= DAYS
    assert view.before is not None
    assert view.after is None


def test_a_day_that_lacks_is_asked_about_and_a_closed_one_is_marked() -> None:
    lines = invented_sales(1, weeks=10)
    days = sorted({one.date for one in lines})
    lost, shut = days[-3], days[-4]
    sales = [one for one in lines if one.date not in {lost, shut}]
    closed = frozenset({("dinner", shut)})
    view = sales_view(sold(history_of(sales, closed), closed))
    assert [one.iso for one in view.asked] == [lost.isoformat()]
    marks = [day.services[0].covers for day in view.days[:4]]
    assert marks[2:] == ["missing?", "closed"]


def test_a_service_that_is_too_young_says_so_and_has_no_chart() -> None:
    history = history_of([Sale(dt.date(2026, 3, n), "Lunch", COVERS, 40) for n in range(1, 9)])
    view = sales_view(sold(history))
    (section,) = view.sections
    assert "Too little is kept" in section.notes[0]
    assert charts_of(sold(history).reviews) == {}


def test_covers_without_dishes_and_dishes_without_covers_are_told_apart() -> None:
    history = history_of([Sale(dt.date(2026, 3, n), "Lunch", "stew", 4) for n in range(1, 29)])
    view = sales_view(sold(history))
    assert view.days[0].services[0].covers == "not counted"
    assert "not counted" in view.sections[0].notes[0]


def test_an_empty_history_is_an_empty_page() -> None:
    assert sales_view(sold(history_of([]))).days == ()


def test_answers_come_back_from_the_fields_they_were_asked_in() -> None:
    fields = {
        field_name("dish", "Pie = mince.x"): "=pie",
        field_name("dish", "Gift"): "out",
        field_name("service", "Brunch"): "as",
        field_name("dish", "Later"): "",
    }
    assert answers_in(fields) == {
        ("dish", "Pie = mince.x"): "pie",
        ("dish", "Gift"): "",
        ("service", "Brunch"): "Brunch",
    }


def test_the_page_is_said_in_spanish() -> None:
    history = history_of(invented_sales(1, weeks=10))
    with speaking("es"):
        view = sales_view(sold(history))
    assert view.facts[0][0] != "Days kept"


def test_questions_name_what_looks_alike_first() -> None:
    view = asked_view(
        [Unknown("dish", "stews", 2, 3, ("stew",))],
        Compared((), 0, ()),
        ["dinner"],
        {"fish": "Fish", "stew": "Lamb stew"},
        {},
    )
    (asked,) = view.names
    assert asked.label == "Dish “stews”, on 3 lines"
    assert [value for value, _words in asked.choices] == ["", "=stew", "=fish", "as", "out"]
