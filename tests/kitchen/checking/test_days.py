"""Clocks, dates and the time zone."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


@pytest.mark.parametrize("closes", ["17:30", "12:00", "01:00"])
def test_a_service_closes_after_it_opens(closes: str) -> None:
    file = tiny_kitchen()
    file["services"][0]["closes"] = closes
    error = only(file)
    assert (error.path, error.value) == ("services[0].closes", closes)
    assert "'26:00'" in error.remedy


def test_a_service_may_close_after_midnight() -> None:
    file = tiny_kitchen()
    file["services"][0]["closes"] = "25:00"
    assert reported(file) == ()


def test_food_is_not_due_before_it_was_made_or_received() -> None:
    file = tiny_kitchen()
    file["prepared"][0]["use_by"] = "2025-03-02"
    file["raw_stock"][0]["use_by"] = "2025-03-02"
    assert [(error.path, error.value) for error in reported(file)] == [
        ("prepared[0].use_by", "2025-03-02"),
        ("raw_stock[0].use_by", "2025-03-02"),
    ]


@pytest.mark.parametrize("name", ["Europe/Lisbon", "America/New_York", "UTC"])
def test_iana_time_zones_are_known(name: str) -> None:
    file = tiny_kitchen()
    file["time_zone"] = name
    assert reported(file) == ()


@pytest.mark.parametrize("name", ["Europe/Lisbonn", "", "../passwd", "America", "a\tb", "x" * 300])
def test_other_time_zones_are_refused(name: str) -> None:
    file = tiny_kitchen()
    file["time_zone"] = name
    error = only(file)
    assert error.path == "time_zone"
    assert "IANA" in error.remedy
    assert ("'Europe/Lisbon'" in error.remedy) == (name == "Europe/Lisbonn")
