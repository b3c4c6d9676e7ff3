"""The day's fields become what is entered; what was not sent stays as it is."""

import datetime as dt
import json

from planner.entry.edit import Hours
from planner.entry.lines import DayEntries, entries_of
from planner.kitchen.base import Amount
from planner.kitchen.reading import read_kitchen
from tests.service.stubs import kitchen_document
from web.chef.day_form import read_day_form
from web.chef.day_view import day_view

DAY = dt.date(2026, 3, 2)


def _entries() -> DayEntries:
    document = kitchen_document()
    document["dishes"].append({**document["dishes"][0], "id": "stew", "name": "Onion stew"})
    return entries_of(read_kitchen(json.dumps(document).encode()), DAY)


def test_an_empty_form_enters_nothing() -> None:
    read = read_day_form(_entries(), {})
    entered = read.entered
    assert not any((entered.covers, entered.per_cover, entered.added, entered.hours))
    assert not entered.counts
    assert not read.errors


def test_every_kind_of_field_is_read() -> None:
    read = read_day_form(
        _entries(),
        {
            "covers.lunch": " 55 ",
            "mix.lunch.soup": "28",
            "dish.lunch": "stew",
            "portions.lunch": "12.5",
            "in.ada": "in",
            "start.ada": "630",
            "end.ada": "15",
            "prepared.diced_onion": "1 1/2",
            "unit.prepared.diced_onion": "kg",
            "made.prepared.diced_onion": "2026-03-01",
        },
    )
    assert not read.errors
    assert read.entered.covers == {"covers.lunch": 55}
    assert read.entered.per_cover == {"mix.lunch.soup": 0.28}
    assert read.entered.added == {"covers.lunch": ("stew", 0.125)}
    assert read.entered.hours == {"in.ada": Hours("06:30", "15:00")}
    (counted,) = read.entered.counts.values()
    assert (counted.amount, counted.made) == (Amount(1.5, "kg"), dt.date(2026, 3, 1))


def test_a_dish_and_its_portions_belong_together() -> None:
    assert "portions.lunch" in read_day_form(_entries(), {"dish.lunch": "stew"}).errors
    assert "dish.lunch" in read_day_form(_entries(), {"portions.lunch": "5"}).errors


def test_whoever_is_out_needs_no_hours() -> None:
    read = read_day_form(_entries(), {"in.ada": "out", "start.ada": "", "end.ada": "nonsense"})
    assert (read.entered.hours, read.errors) == ({"in.ada": None}, {})


def test_what_was_typed_stands_in_the_page_with_what_is_stored_beside_it() -> None:
    typed = {"covers.lunch": "many", "mix.lunch.soup": "50"}
    read = read_day_form(_entries(), typed)
    (lunch,) = day_view(_entries(), None, typed, read.errors).services
    assert (lunch.covers.value, lunch.covers.stands) == ("many", "40")
    assert lunch.covers.error is not None
    assert (lunch.mix[0].field.value, lunch.mix[0].field.stands) == ("50", "")
