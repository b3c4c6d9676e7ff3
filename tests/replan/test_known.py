"""Events that name what is not there say so: field, value, remedy."""

import pytest

from planner.replan.events import (
    CookGone,
    CookLate,
    CoversChanged,
    DeliveryLate,
    EquipmentDown,
    Event,
    Overran,
    Progress,
    Spoiled,
    UnknownEventError,
)
from planner.replan.known import check_events
from tests.replan.mornings import tiny_course


@pytest.mark.parametrize(
    ("event", "field", "value", "known"),
    [
        (CookGone("zoe", 600), "cook", "zoe", "ana, ben"),
        (CookLate("zoe", 600), "cook", "zoe", "ana, ben"),
        (Overran("9:peel", 600), "batch", "9:peel", "peel-onion-1"),
        (Spoiled("9:peel"), "batch", "9:peel", "dice-onion-1"),
        (EquipmentDown("wok"), "equipment", "wok", "pot"),
        (EquipmentDown("pot", 0), "units", "0", "1 or more"),
        (CoversChanged("brunch", 9), "service", "brunch", "dinner"),
        (CoversChanged("dinner", -1), "covers", "-1", "0 or more"),
        (DeliveryLate("leek", None), "ingredient", "leek", "onion"),
    ],
)
def test_what_is_unknown_is_named_with_what_there_is(
    event: Event, field: str, value: str, known: str
) -> None:
    with pytest.raises(UnknownEventError) as caught:
        check_events(tiny_course(), [event], [])
    assert (caught.value.field, caught.value.value) == (field, value)
    assert known in caught.value.remedy
    assert value in str(caught.value)


@pytest.mark.parametrize(
    ("progress", "field"),
    [
        (Progress(99, "ana", 600), "task"),
        (Progress(0, "zoe", 600), "cook"),
        (Progress(0, "ana", 600, 590), "end"),
    ],
)
def test_progress_is_checked_as_well(progress: Progress, field: str) -> None:
    with pytest.raises(UnknownEventError) as caught:
        check_events(tiny_course(), [], [progress])
    assert caught.value.field == field


def test_what_is_known_passes() -> None:
    events = (CookGone("ana", 600), Spoiled("peel-onion-1"), EquipmentDown("pot"))
    check_events(tiny_course(), events, [Progress(0, "ana", 600)])
