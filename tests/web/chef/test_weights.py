"""Weights are counted in the reader's units, and what nobody changed stays as it was kept."""

import datetime as dt
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.entry.edit import entered
from planner.entry.lines import DayEntries, entries_of
from planner.kitchen.base import Amount
from planner.kitchen.reading import read_kitchen
from planner.units import standard_unit
from tests.service.stubs import kitchen_document
from web.chef.day_form import read_day_form
from web.chef.day_view import DayView, day_view
from web.chef.fields import BadFieldError, clock_field, clock_text
from web.chef.weights import in_readers_units, is_as_shown, readers_units_first, shown_number
from web.presenters.preferences import Preferences

DAY = dt.date(2026, 3, 2)
METRIC, US = Preferences(), Preferences(units="us", clock=12)
KEY = "raw.onion.2026-03-01"


def _document(amount: str = "20 kg") -> bytes:
    document = kitchen_document()
    document["raw_stock"][0]["amount"] = amount
    document["services"][0]["mix"][0]["per_cover"] = 0.12345678
    return json.dumps(document).encode()


def _entries(amount: str = "20 kg") -> DayEntries:
    return entries_of(read_kitchen(_document(amount)), DAY)


def _fields(view: DayView) -> dict[str, str]:
    """What a browser sends of the page, nothing touched."""
    fields = {}
    for service in view.services:
        for one in (service.covers, *(line.field for line in service.mix)):
            fields[one.name] = one.value
    for cook in view.cooks:
        for one in (cook.choice, cook.start, cook.end):
            fields[one.name] = one.value
    for group in view.groups:
        for line in (*group.lines, *group.more):
            fields |= {line.field.name: line.field.value, line.unit.name: line.unit.value}
    return fields


@pytest.mark.parametrize(
    ("kept", "preferences", "number", "unit"),
    [
        # NIST Handbook 44, Appendix C: 1 lb = 453.592 37 g, 1 oz = 28.349 523 125 g.
        ("20 kg", US, "44.1", "lb"),
        ("200 g", US, "7.05", "oz"),
        ("2 g", US, "0.071", "oz"),
        ("10 lb", METRIC, "4.54", "kg"),
        ("8 oz", METRIC, "227", "g"),
        ("20 kg", METRIC, "20", "kg"),
        ("10 lb", US, "10", "lb"),
        ("2 bag", US, "2", "bag"),
        ("0 kg", US, "0", "oz"),
    ],
)
def test_a_weight_is_shown_in_the_readers_units(
    kept: str, preferences: Preferences, number: str, unit: str
) -> None:
    amount = Amount.parse(kept)
    shown = in_readers_units(amount, preferences)
    assert (shown_number(amount, shown.unit), shown.unit) == (number, unit)


@pytest.mark.parametrize("preferences", [METRIC, US])
@pytest.mark.parametrize("amount", ["20 kg", "0.3333333333333333 kg", "7 lb", "3 oz", "0.01 g"])
def test_a_page_that_is_sent_back_untouched_changes_nothing(
    amount: str, preferences: Preferences
) -> None:
    data, entries = _document(amount), _entries(amount)
    view = day_view(entries, None, preferences=preferences)
    read = read_day_form(entries, _fields(view), preferences)
    assert not read.errors
    assert not entered(data, DAY, DAY, read.entered).changed


@given(
    st.floats(min_value=0.001, max_value=9999),
    st.sampled_from(["g", "kg", "oz", "lb"]),
    st.sampled_from([METRIC, US]),
)
def test_what_is_shown_stands_for_what_is_kept(
    number: float, unit: str, preferences: Preferences
) -> None:
    amount = Amount(number, unit)
    shown = in_readers_units(amount, preferences)
    text = shown_number(amount, shown.unit)
    assert float(text) > 0, "what there is must not be shown as nothing"
    assert is_as_shown(amount, float(text), shown.unit)
    kept, read = standard_unit(unit), standard_unit(shown.unit)
    assert kept is not None
    assert read is not None
    # Half of the last digit shown.
    if kept == read:
        return
    half = 0.005 if float(text) < 10 else 0.05 if float(text) < 100 else 0.5
    assert abs(float(text) * read.size - number * kept.size) <= 1.001 * half * read.size


@pytest.mark.parametrize(("text", "number"), [("45", 45), ("44,5", 44.5), ("44.5", 44.5)])
def test_a_reader_of_us_units_types_pounds_with_point_or_comma(text: str, number: float) -> None:
    read = read_day_form(_entries(), {KEY: text, f"unit.{KEY}": "lb"}, US)
    assert read.entered.counts[KEY].amount == Amount(number, "lb")


def test_the_same_number_in_another_unit_is_another_amount() -> None:
    read = read_day_form(_entries(), {KEY: "20", f"unit.{KEY}": "lb"}, METRIC)
    assert read.entered.counts[KEY].amount == Amount(20, "lb")


def test_the_form_offers_the_readers_units_first_and_says_the_unit_that_is_kept() -> None:
    assert readers_units_first(("bag", "kg", "g", "lb", "oz", "l"), US) == (
        "bag",
        "lb",
        "oz",
        "kg",
        "g",
        "l",
    )
    typed = {KEY: "many", f"unit.{KEY}": "lb"}
    view = day_view(_entries(), None, typed, preferences=US)
    (line,) = [one for group in view.groups for one in group.lines if one.field.name == KEY]
    assert line.field.stands == "44.1 lb"


@pytest.mark.parametrize("kept", ["00:00", "07:00", "12:00", "12:30", "19:05", "26:00", "29:59"])
@pytest.mark.parametrize("preferences", [METRIC, US])
def test_a_time_is_read_as_it_is_shown(kept: str, preferences: Preferences) -> None:
    assert clock_text(clock_field(kept, preferences), preferences) == kept


@pytest.mark.parametrize(
    ("text", "kept"),
    [("7 am", "07:00"), ("7p", "19:00"), ("330 PM", "15:30"), ("12:15 a. m.", "00:15")],
)
def test_times_of_the_12_h_clock_are_read_by_any_clock(text: str, kept: str) -> None:
    assert clock_text(text, US) == clock_text(text, METRIC) == kept


@pytest.mark.parametrize("text", ["7", "330", "12:00", "13 pm", "0 am", "7 xm"])
def test_who_reads_the_12_h_clock_says_which_half_of_the_day(text: str) -> None:
    with pytest.raises(BadFieldError) as found:
        clock_text(text, US)
    assert "am or pm" in found.value.error.remedy
