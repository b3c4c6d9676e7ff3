"""Settings of a buffer that contradict each other."""

from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def dish(**fields: Any) -> dict[str, Any]:
    file = tiny_kitchen()
    file["dishes"][0].update(fields)
    return file


def service(**fields: Any) -> dict[str, Any]:
    file = tiny_kitchen()
    file["services"][0].update(fields)
    return file


@pytest.mark.parametrize(
    ("given", "missing"),
    [("shortage_cost", "leftover_cost"), ("leftover_cost", "shortage_cost")],
)
def test_costs_come_in_pairs(given: str, missing: str) -> None:
    assert only(dish(**{given: 3})).path == f"dishes[0].{missing}"


def test_one_of_the_two_costs_may_be_nothing_but_not_both() -> None:
    assert reported(dish(shortage_cost=5, leftover_cost=0)) == ()
    assert reported(dish(shortage_cost=0, leftover_cost=5)) == ()
    assert only(dish(shortage_cost=0, leftover_cost=0)).path == "dishes[0].shortage_cost"


@pytest.mark.parametrize("name", ["covers_spread", "service_level", "buffer_fraction"])
def test_a_guaranteed_count_has_its_overset_and_nothing_else(name: str) -> None:
    assert reported(service(guaranteed=True, overset=3)) == ()
    error = only(service(guaranteed=True, overset=3, **{name: 0.5}))
    assert error.path == f"services[0].{name}"


def test_a_forecast_has_no_overset() -> None:
    error = only(service(overset=4))
    assert (error.path, error.value) == ("services[0].overset", "4")
    assert "guaranteed: true" in error.remedy


def test_a_flat_share_and_a_level_are_not_both_given() -> None:
    assert reported(service(service_level=0.8)) == ()
    assert reported(service(buffer_fraction=0.1)) == ()
    error = only(service(service_level=0.8, buffer_fraction=0.1))
    assert error.path == "services[0].buffer_fraction"
