"""What people type in a hurry is read, or refused with what to write."""

import pytest

from web.chef.fields import BadFieldError, clock_text, day, decimal, plain, whole
from web.presenters.preferences import Preferences


@pytest.mark.parametrize(
    ("text", "number"),
    [("2", 2), ("2.5", 2.5), ("2,5", 2.5), (".5", 0.5), ("1/2", 0.5), ("2 1/4", 2.25), ("0", 0)],
)
def test_amounts_as_they_are_typed(text: str, number: float) -> None:
    assert decimal(text, example="2.5") == number


@pytest.mark.parametrize(
    "text", ["", "two", "-1", "1,500", "1.000,5", "1e5", "1/0", "٣", "inf", "9" * 20]
)
def test_what_is_no_amount_is_refused_with_a_remedy(text: str) -> None:
    with pytest.raises(BadFieldError) as found:
        decimal(text, example="2.5")
    assert found.value.error.remedy.startswith("write ")


@pytest.mark.parametrize(
    ("text", "clock"),
    [
        ("7", "07:00"),
        ("730", "07:30"),
        ("0730", "07:30"),
        ("7:30", "07:30"),
        ("7.30", "07:30"),
        ("26:00", "26:00"),
        ("17h15", "17:15"),
    ],
)
def test_times_as_they_are_typed(text: str, clock: str) -> None:
    assert clock_text(text, Preferences()) == clock


@pytest.mark.parametrize("text", ["", "noon", "30:00", "12:60", "7:3", "12345"])
def test_what_is_no_time_is_refused_with_a_remedy(text: str) -> None:
    with pytest.raises(BadFieldError) as found:
        clock_text(text, Preferences())
    assert "0630" in found.value.error.remedy


def test_whole_numbers_and_dates() -> None:
    assert whole("70", example="70") == 70
    assert day("2026-03-02").isoformat() == "2026-03-02"
    for text in ("7.5", "-3", "seventy", "7" * 16):
        with pytest.raises(BadFieldError):
            whole(text, example="70")
    with pytest.raises(BadFieldError):
        day("2 March")


@pytest.mark.parametrize(("number", "text"), [(28.000000000000004, "28"), (0.5, "0.5"), (40, "40")])
def test_numbers_are_shown_as_one_types_them(number: float, text: str) -> None:
    assert plain(number) == text
