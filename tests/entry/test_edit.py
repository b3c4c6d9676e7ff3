"""What is entered for a day comes into the file, checked, and nothing else of it changes."""

import datetime as dt
import json
from typing import Any

import pytest

from planner.entry.counting import Counted
from planner.entry.edit import DayEntered, EntryErrors, Hours, entered
from planner.entry.lines import entries_of
from planner.entry.services import services_on, with_services
from planner.kitchen.base import Amount
from planner.kitchen.hours import shift_of
from planner.kitchen.reading import read_kitchen
from tests.service.stubs import kitchen_document

DAY = dt.date(2026, 3, 2)
TODAY = dt.date(2026, 3, 1)


def _file(**more: Any) -> bytes:
    return json.dumps({**kitchen_document(), **more}).encode()


def _after(entry: DayEntered, data: bytes | None = None) -> dict[str, Any]:
    found = entered(data or _file(), DAY, TODAY, entry)
    values: dict[str, Any] = json.loads(found.data)
    return values


def test_covers_and_mix_change_their_fields_and_nothing_else() -> None:
    entry = DayEntered(covers={"covers.lunch": 55}, per_cover={"mix.lunch.soup": 0.6})
    after, before = _after(entry), kitchen_document()
    assert after["services"][0].pop("covers") == 55
    assert after["services"][0].pop("mix") == [{"dish": "soup", "per_cover": 0.6}]
    before["services"][0].pop("covers")
    before["services"][0].pop("mix")
    assert after == before


def test_what_says_the_same_changes_nothing_not_a_byte() -> None:
    entry = DayEntered(
        covers={"covers.lunch": 40},
        per_cover={"mix.lunch.soup": 0.5},
        hours={"in.ada": Hours("07:00", "15:00")},
        counts={"raw.onion.2026-03-01": Counted(Amount(20, "kg"))},
    )
    found = entered(_file(), DAY, TODAY, entry)
    assert (found.changed, found.data) == (False, _file())


def test_a_cook_is_out_for_one_day_and_in_again_when_called() -> None:
    out = entered(_file(), DAY, TODAY, DayEntered(hours={"in.ada": None})).data
    ada = read_kitchen(out).cooks[0]
    assert shift_of(ada, DAY) is None
    assert shift_of(ada, DAY + dt.timedelta(1)) is not None
    called = entered(out, DAY, TODAY, DayEntered(hours={"in.ada": Hours("07:00", "15:00")})).data
    assert "days_off" not in json.loads(called)["cooks"][0]


def test_other_hours_hold_for_the_day_and_what_does_not_fit_them_is_told() -> None:
    shift = {
        "start": "07:00",
        "end": "15:00",
        "breaks": [{"start": "08:00", "minutes": 30}, {"start": "12:00", "minutes": 20}],
        "on_line": [{"start": "13:00", "end": "15:00"}],
    }
    document = kitchen_document()
    document["cooks"][0]["shifts"] = [shift]
    data = json.dumps(document).encode()
    entry = DayEntered(hours={"in.ada": Hours("09:00", "14:00")})
    found = entered(data, DAY, TODAY, entry)
    dated, usual = json.loads(found.data)["cooks"][0]["shifts"]
    assert usual == shift
    assert dated["breaks"] == [{"start": "12:00", "minutes": 20}]
    assert dated["on_line"] == [{"start": "13:00", "end": "14:00"}]
    assert len(found.notes) == 2
    assert "break at 08:00" in found.notes[0]
    assert "13:00 to 14:00" in found.notes[1]


def test_a_count_changes_amounts_takes_out_what_is_gone_and_adds_what_is_new() -> None:
    document = kitchen_document()
    document["prepared"] = [
        {"item": "diced_onion", "amount": "2 kg", "made": "2026-03-01", "use_by": "2026-03-02"}
    ]
    data = json.dumps(document).encode()
    gone = DayEntered(
        counts={
            "prepared.diced_onion.2026-03-01": Counted(Amount(0, "kg")),
            "raw.onion.2026-03-01": Counted(Amount(1.5, "bag")),
        }
    )
    after = _after(gone, data)
    assert after["prepared"] == []
    assert after["raw_stock"][0]["amount"] == "1.5 bag"
    assert after["as_of"] == "2026-03-01"
    new = DayEntered(
        counts={"prepared.diced_onion": Counted(Amount(900, "g"), made=dt.date(2026, 2, 28))}
    )
    assert _after(new, json.dumps(after).encode())["prepared"] == [
        # It keeps two days: the day of preparation is day 1.
        {"item": "diced_onion", "amount": "900 g", "made": "2026-02-28", "use_by": "2026-03-01"}
    ]


@pytest.mark.parametrize(
    ("entry", "key", "words"),
    [
        (DayEntered(covers={"covers.lunch": 90_000}), "covers.lunch", "at most 20000"),
        (DayEntered(per_cover={"mix.lunch.soup": 11}), "mix.lunch.soup", "at most 10"),
        (DayEntered(hours={"in.ada": Hours("15:00", "09:00")}), "end.ada", "not after it starts"),
        (DayEntered(hours={"in.ada": Hours("7", "09:00")}), "start.ada", "cannot be read"),
        (
            DayEntered(counts={"raw.onion.2026-03-01": Counted(Amount(2, "hods"))}),
            "raw.onion.2026-03-01",
            "unknown unit 'hods'",
        ),
        (DayEntered(added={"covers.lunch": ("stew", 0.2)}), "dish.lunch", "stew"),
    ],
)
def test_what_cannot_be_is_refused_at_its_line(entry: DayEntered, key: str, words: str) -> None:
    with pytest.raises(EntryErrors) as found:
        entered(_file(), DAY, TODAY, entry)
    (one,) = found.value.errors
    assert one.key == key
    assert words in f"{one.error.message} {one.error.value}"
    assert one.error.remedy


def test_an_unknown_unit_is_told_with_what_may_be_used() -> None:
    entry = DayEntered(counts={"raw.onion.2026-03-01": Counted(Amount(2, "hods"))})
    with pytest.raises(EntryErrors) as found:
        entered(_file(units=[{"name": "tub", "equals": "12 l"}]), DAY, TODAY, entry)
    remedy = found.value.errors[0].error.remedy
    assert all(unit in remedy for unit in ("kg", "bag", "tub"))


def test_units_offered_are_those_that_become_grams_of_the_food() -> None:
    lines = entries_of(read_kitchen(_file(units=[{"name": "tub", "equals": "12 l"}])), DAY)
    onion = next(line for line in lines.counts if line.item == "onion")
    assert onion.units[:2] == ("kg", "bag")
    assert "tub" not in onion.units, "onions have no density here"


def test_services_are_taken_over_under_ids_of_their_own() -> None:
    taken = services_on(_file(), DAY)
    later = DAY + dt.timedelta(7)
    once = with_services(_file(), later, taken)
    services = json.loads(once.data)["services"]
    assert [one["id"] for one in services] == ["lunch", "lunch_20260309"]
    assert (services[1]["covers"], services[1]["date"]) == (40, "2026-03-09")
    assert with_services(once.data, later, taken).changed is False, "lunch is there already"
    renamed = [{**taken[0], "name": "Second lunch"}]
    again = json.loads(with_services(once.data, later, renamed).data)["services"]
    assert again[2]["id"] == "lunch_20260309_2"


def test_a_taken_over_mix_leaves_out_dishes_that_are_gone() -> None:
    (lunch,) = services_on(_file(), DAY)
    gone = {"dish": "stew", "per_cover": 0.3}
    with_gone = {**lunch, "mix": [*lunch["mix"], gone]}
    found = with_services(_file(), DAY + dt.timedelta(7), [with_gone])
    assert gone not in json.loads(found.data)["services"][1]["mix"]
    assert "Lunch" in found.notes[0]
    assert (
        with_services(_file(), DAY + dt.timedelta(7), [{**lunch, "mix": [gone]}]).changed is False
    )
