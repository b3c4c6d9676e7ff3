"""A history is checked before anything is made of it: every fault, its line, what to do."""

import datetime as dt

import pytest

from planner.forecast.history import COVERS, HistoryError, Sale, history_of
from service.sales_csv import read_sales
from tests.forecast.invented import FIRST, invented_sales

HEAD = b"date,service,dish,count\n"


def test_a_file_becomes_counts_by_service_day_and_dish() -> None:
    text = (
        HEAD
        + b"2026-03-02,dinner,covers,80\n2026-03-02,dinner,stew,31\n\n2026-03-03,dinner,stew,28\n"
    )
    history = read_sales(text)
    assert history.sold["dinner"][dt.date(2026, 3, 2)] == {COVERS: 80, "stew": 31}
    assert history.dishes("dinner") == ("stew",)
    assert history.series("dinner", "stew").counts == (31, 28)


def test_what_a_spreadsheet_writes_is_read_too() -> None:
    text = b"\xef\xbb\xbfCount,Dish,Service,Date,Note\r\n12,stew,dinner,2026-03-02,\r\n"
    assert read_sales(text).series("dinner", "stew").counts == (12,)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (b"3.3.2026,dinner,stew,4", ["line 2", "date '3.3.2026'", "Write it as 2026-03-31"]),
        (b"2026-03-02,dinner,stew,4.5", ["line 2", "count '4.5'", "no whole number"]),
        (b"2026-03-02,dinner,stew,-3", ["line 2", "count '-3'", "refunds"]),
        (b"2026-03-02,dinner,stew,9999999", ["line 2", "portions, not money"]),
        (b"2026-03-02,,stew,4", ["line 2", "service ''", "left out"]),
        (b"2026-03-02,dinner,stew", ["line 2", "3 fields, not 4"]),
    ],
)
def test_a_bad_line_is_named_with_what_to_do(line: bytes, words: list[str]) -> None:
    with pytest.raises(HistoryError) as found:
        read_sales(HEAD + line)
    assert all(word in str(found.value) for word in words)


def test_two_lines_of_one_dish_are_refused_and_both_are_named() -> None:
    with pytest.raises(
        HistoryError, match=r"line 3, dish 'stew': dinner of 2026-03-02 has it"
    ) as e:
        read_sales(HEAD + b"2026-03-02,dinner,stew,4\n2026-03-02,dinner,stew,4\n")
    assert "in line 2" in str(e.value)


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(HistoryError) as found:
        read_sales(HEAD + b"x,dinner,stew,y\n2026-03-02,dinner,stew,-1\n")
    assert [fault.line for fault in found.value.faults] == [2, 2, 3]


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", "Begin the file with: date,service,dish,count"),
        (b"date,dish\n", "no service and no count"),
        (HEAD, "no line of sales"),
        (b"\xff\xfe", "UTF-8"),
        (HEAD + b'2026-03-02,dinner,"' + b"x" * 200_000, "no line of a CSV file"),
        (b'"' + b"x" * 200_000, "Begin the file with"),
    ],
)
def test_a_file_that_is_none_says_what_is_missing(data: bytes, word: str) -> None:
    with pytest.raises(HistoryError, match=word):
        read_sales(data)


def test_a_usual_day_without_lines_is_asked_about_and_a_closed_weekday_is_not() -> None:
    lost = FIRST + dt.timedelta(9)
    history = history_of(sale for sale in invented_sales(1, weeks=6) if sale.date != lost)
    assert [(gap.service, gap.date) for gap in history.gaps] == [("dinner", lost)]


def test_an_open_day_without_a_dish_counts_as_none_sold() -> None:
    days = [FIRST + dt.timedelta(n) for n in range(3)]
    sales = [Sale(day, "dinner", COVERS, 50) for day in days]
    sales += [Sale(days[0], "dinner", "stew", 5), Sale(days[2], "dinner", "stew", 7)]
    assert history_of(sales).series("dinner", "stew").counts == (5, 0, 7)
