"""Who gets what there is of an ingredient, and from when: first wanted first served."""

import math
from typing import Any

import pytest

from planner.measures import AsPurchased
from planner.quantities.supply import (
    Allotment,
    Draw,
    allot,
    draws_of,
    keeps_through,
    supplies_of,
)
from planner.quantities.types import Supply
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cut_from,
    day,
    delivery,
    dish,
    food,
    kit_of,
    needs_of,
    raw,
    service,
    work,
)


def kitchen(**parts: Any) -> File:
    return bench(
        ingredients=[food("pork"), food("salt", counted=False)],
        operations=[work("cut")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def supplies(item: str = "pork", **parts: Any) -> tuple[Supply, ...]:
    kit = kit_of(kitchen(**parts))
    return supplies_of(kit.catalog, kit.converter, item, DATE)


def draw(grams: float, due: int, consumer: str = "ham", making: int = 0) -> Draw:
    return Draw("pork", consumer, making, 0, AsPurchased(grams), due)


ON_HAND, AT_NINE = Supply(300.0, 0, "on hand"), Supply(500.0, 540, "delivery")


def given(*draws: Draw) -> dict[str, list[Allotment]]:
    """What each consumer gets of 300 g on hand and 500 g at nine."""
    found = allot(draws, {"pork": (ON_HAND, AT_NINE)})
    return {consumer: parts for (consumer, _, _, _), parts in found.items()}


def test_stock_comes_first_in_the_order_of_its_use_by_then_deliveries_by_time() -> None:
    found = supplies(
        raw_stock=[
            raw("pork", "1 kg"),
            raw("pork", "2 kg", use_by=day(4)),
            raw("pork", "3 kg", use_by=day(1)),
        ],
        deliveries=[delivery("pork", "4 kg", "11:00"), delivery("pork", "5 kg", "09:30")],
    )
    assert [(s.grams, s.at) for s in found] == [
        (3000, 0),
        (2000, 0),
        (1000, 0),
        (5000, 570),
        (4000, 660),
    ]
    assert all(s.available for s in found)


def test_stock_past_its_use_by_or_not_received_yet_is_not_there() -> None:
    found = supplies(
        raw_stock=[
            raw("pork", "1 kg", received=day(-3), use_by=day(-1)),
            raw("pork", "2 kg", received=day(1)),
            raw("pork", "3 kg", received=day(-3), use_by=day(0)),
        ]
    )
    assert [s.grams for s in found] == [3000]


def test_a_delivery_of_another_day_or_one_that_is_missing_is_not_on_its_way() -> None:
    found = supplies(
        raw_stock=[],
        deliveries=[
            delivery("pork", "4 kg", "09:00", state="missing"),
            delivery("pork", "5 kg", "09:00", date=day(1)),
        ],
    )
    assert found == ()


def test_a_staple_nobody_counts_is_always_there() -> None:
    (found,) = supplies("salt")
    assert (found.grams, found.at, found.available) == (math.inf, 0, True)


def test_the_first_to_want_it_gets_what_is_there_first() -> None:
    got = given(draw(300, 600, "early"), draw(300, 700, "later"))
    assert got["early"] == [Allotment(0.0, 1.0, ON_HAND)]
    assert got["later"] == [Allotment(0.0, 1.0, AT_NINE)]


def test_a_draw_may_take_from_several_supplies() -> None:
    (first, second) = given(draw(400, 600))["ham"]
    assert (first.begin, first.end, first.supply) == (0.0, pytest.approx(0.75), ON_HAND)
    assert (second.begin, second.end) == (first.end, pytest.approx(1.0))
    assert second.supply == AT_NINE


def test_what_nobody_has_is_said_to_be_missing() -> None:
    parts = given(draw(1000, 600))["ham"]
    assert [(round(p.begin, 9), round(p.end, 9)) for p in parts] == [
        (0.0, 0.3),
        (0.3, 0.8),
        (0.8, 1.0),
    ]
    missing = parts[-1].supply
    assert (missing.available, missing.grams) == (False, pytest.approx(200))


def test_the_last_to_want_it_goes_without() -> None:
    got = given(draw(800, 600, "early"), draw(100, 700, "later"))
    assert all(part.supply.available for part in got["early"])
    assert [part.supply.available for part in got["later"]] == [False]


def test_nothing_is_given_out_twice() -> None:
    got = given(*(draw(170, 600 + n, f"c{n}") for n in range(6)))
    taken = {ON_HAND: 0.0, AT_NINE: 0.0}
    for parts in got.values():
        assert parts[0].begin == 0.0
        assert parts[-1].end == pytest.approx(1.0)
        for part in parts:
            if part.supply.available:
                taken[part.supply] += (part.end - part.begin) * 170
    assert taken == {ON_HAND: pytest.approx(300), AT_NINE: pytest.approx(500)}


def test_draws_are_on_counted_and_uncounted_ingredients_by_making_in_the_order_of_due() -> None:
    lunch = service("lunch", {"plate": 0.5}, opens="12:00", closes="14:00")
    file = kitchen(services=[service("dinner", {"plate": 1.0}), lunch])
    kit = kit_of(file)
    found = draws_of(kit.catalog, needs_of(file).needs)
    assert [(d.ingredient, d.purchased.grams, d.due) for d in found] == [
        ("pork", pytest.approx(500), 12 * 60 - 5),
        ("pork", pytest.approx(1000), 17 * 60 - 10),
    ]


@pytest.mark.parametrize(("ahead", "keeps"), [(-1, False), (0, True), (1, True)])
def test_stock_keeps_through_its_use_by(ahead: int, keeps: bool) -> None:
    kit = kit_of(kitchen(raw_stock=[raw("pork", "1 kg", received=day(-3), use_by=day(ahead))]))
    assert keeps_through(kit.catalog.kitchen.raw_stock[0], DATE) is keeps
