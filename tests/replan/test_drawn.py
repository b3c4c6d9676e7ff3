"""Pooled food: how much of each component a lot takes."""

import pytest

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.lots.types import Lot, LotShare, Workload
from planner.replan.drawn import Draws, draws_of
from tests.kitchens.bench import bench, cut_from, dish, food, read, recipe, work, workload


def _lot(index: int, step: int, shares: dict[str, float], **fields: object) -> Lot:
    grams = sum(shares.values())
    return Lot(
        index=index, id=str(index), operation="cut", food="onion", component=next(iter(shares)),
        step=step, cut=None, grams_in=grams, grams_out=grams,
        shares=tuple(LotShare(name, g) for name, g in shares.items()), tasks=(), unattended=0,
        due=0, until=0, release=0, finishes=False, **fields,  # type: ignore[arg-type]
    )  # fmt: skip


def _file() -> dict[str, object]:
    return bench(
        ingredients=[food("onion")],
        operations=[work("peel"), work("cut"), work("cook")],
        components=[
            cut_from("onion", "rings", "peel", "cut"),
            cut_from("onion", "dice", "peel", "cut"),
            recipe("soup", "300 g", {"rings": "100 g", "dice": "200 g"}, "cook"),
        ],
        dishes=[dish("bowl", {"soup": "100 g"})],
    )


def _draws(*lots: Lot) -> Draws:
    kitchen = read(_file())
    day = Workload(lots, workload(_file()).problem, ())
    return draws_of(Catalog(kitchen), Converter(kitchen), day, lots[-1])


def test_each_component_takes_its_own_where_sources_hold_several() -> None:
    """150 g of the first and 50 of the second are 100 of each: no other split adds up."""
    found = _draws(
        _lot(0, 0, {"rings": 100, "dice": 50}),
        _lot(1, 0, {"dice": 50}),
        _lot(2, 1, {"rings": 100, "dice": 100}, upstream=((0, 150.0), (1, 50.0))),
    )
    assert found == pytest.approx({(0, "rings"): 100, (0, "dice"): 50, (1, "dice"): 50}, abs=0.1)


def test_stock_of_a_component_is_off_what_it_takes() -> None:
    found = _draws(
        _lot(0, 0, {"rings": 100, "dice": 100}),
        _lot(1, 1, {"rings": 80, "dice": 80}, upstream=((0, 100.0),), stock=(("dice", 60.0),)),
    )
    assert found == pytest.approx({(0, "rings"): 80, (0, "dice"): 20}, abs=0.1)


def test_inputs_of_a_recipe_go_in_by_its_amounts() -> None:
    found = _draws(
        _lot(0, 1, {"rings": 100, "dice": 200}),
        _lot(1, 0, {"soup": 150}, upstream=((0, 150.0),)),
    )
    assert found == pytest.approx({(0, "rings"): 50, (0, "dice"): 100}, abs=0.1)
