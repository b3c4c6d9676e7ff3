"""The demands of a stretch of days, read from a kitchen file."""

import datetime as dt
from typing import Any

import pytest
from scipy import stats

from planner.demand.forecast import dish_demands, joint_grams
from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny_kitchen

DAY = dt.date(2025, 3, 4)


def demands(changes: dict[str, Any] | None = None, **dish: float) -> dict[str, DishDemand]:
    """Demands of the tiny dinner, with its service and its soup changed."""
    return {demand.dish: demand for demand in dish_demands(kitchen(changes, **dish), DAY, DAY)}


def kitchen(changes: dict[str, Any] | None = None, **dish: float) -> Kitchen:
    document = tiny_kitchen()
    document["services"][0].update(changes or {})
    document["dishes"][0].update(dish)
    return Kitchen.model_validate(document)


def test_a_service_is_due_before_its_doors_and_of_no_use_after_its_close() -> None:
    soup = demands()["onion_soup"]
    assert (soup.doors, soup.due, soup.until) == (17 * 60 + 30, 17 * 60, 21 * 60 + 30)


def test_a_service_may_set_its_own_plating_time() -> None:
    soup = demands({"plating_set_up_minutes": 45})["onion_soup"]
    assert soup.due == soup.doors - 45


def test_later_days_run_past_midnight_and_other_days_are_left_out() -> None:
    document = tiny_kitchen()
    later = {**document["services"][0], "id": "late", "date": "2025-03-05", "closes": "25:00"}
    beyond = {**later, "id": "beyond", "date": "2025-03-06"}
    document["services"] = [beyond, later, document["services"][0]]
    found = dish_demands(Kitchen.model_validate(document), DAY, DAY + dt.timedelta(days=1))
    assert [demand.service for demand in found] == ["dinner", "dinner", "late", "late"]
    assert found[2].doors == 1440 + 17 * 60 + 30
    assert found[2].until == 1440 + 25 * 60


def test_sure_covers_are_ready_at_the_level_of_scipys_binomial() -> None:
    soup = demands({"covers_spread": 0.0, "service_level": 0.95})["onion_soup"]
    assert soup.expected == 20
    assert soup.total == stats.binom.ppf(0.95, 40, 0.5)
    assert soup.buffer == soup.total - 20
    assert soup.reason == f"40 covers x 0.5 = 20 expected; 95 % service level -> {soup.total}"


def test_the_kitchens_own_spread_and_level_hold_where_the_service_has_none() -> None:
    sure, spread = demands({"covers_spread": 0.0}), demands()
    assert sure["chicken_plate"].total < spread["chicken_plate"].total
    assert "90 % service level" in spread["chicken_plate"].reason


def test_a_dishs_costs_set_its_own_level() -> None:
    costly = demands({"covers_spread": 0.0}, shortage_cost=19.0, leftover_cost=1.0)["onion_soup"]
    assert costly.total == stats.binom.ppf(0.95, 40, 0.5)
    assert "a portion short costs 19.00, one left over 1.00: 95 % level" in costly.reason


def test_costs_of_zero_leave_the_service_level() -> None:
    assert "service level" in demands(shortage_cost=0, leftover_cost=0)["onion_soup"].reason


def test_a_flat_share_goes_before_level_and_costs() -> None:
    soup = demands({"buffer_fraction": 0.12}, shortage_cost=9, leftover_cost=1)["onion_soup"]
    assert (soup.total, soup.buffer) == (23, 3)  # 22.4
    assert soup.reason == "40 covers x 0.5 = 20 expected; 12 % on top -> 23"


def test_a_banquet_ignores_the_forecasts_spread() -> None:
    soup = demands({"guaranteed": True, "overset": 3, "covers_spread": 0.5})["onion_soup"]
    assert (soup.expected, soup.total, soup.buffer) == (20, 22, 2)
    assert soup.reason == "40 guaranteed + 3 overset covers x 0.5 -> 22"


def test_a_shared_component_carries_one_buffer_for_both_dishes() -> None:
    whole = kitchen()
    both = {"onion_soup": 40.0, "chicken_plate": 30.0}
    ready = {demand.dish: demand for demand in dish_demands(whole, DAY, DAY)}
    apart = sum(grams * ready[dish].total for dish, grams in both.items())
    mean = sum(grams * ready[dish].expected for dish, grams in both.items())
    assert mean < joint_grams(whole, whole.services[0], both) < apart


@pytest.mark.parametrize("changes", [{"guaranteed": True, "overset": 2}, {"buffer_fraction": 0.1}])
def test_flat_and_agreed_buffers_add_up(changes: dict[str, Any]) -> None:
    whole = kitchen(changes)
    both = {"onion_soup": 40.0, "chicken_plate": 30.0, "not_on_the_menu": 99.0}
    ready = {demand.dish: demand.total for demand in dish_demands(whole, DAY, DAY)}
    apart = 40.0 * ready["onion_soup"] + 30.0 * ready["chicken_plate"]
    assert joint_grams(whole, whole.services[0], both) == pytest.approx(apart)


def test_no_covers_want_no_portions() -> None:
    assert {demand.total for demand in demands({"covers": 0}).values()} == {0}
