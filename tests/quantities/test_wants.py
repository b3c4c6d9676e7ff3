"""What dishes want: one joint buffer per item and service, whole pieces, shares per dish."""

from typing import Any

import pytest

from planner.kitchen.hours import DAY
from planner.quantities.types import Want
from planner.quantities.wants import demands_of, dish_wants
from tests.kitchens.bench import DATE, File, bench, cut_from, dish, food, kit_of, service, work

UNCERTAIN = {"guaranteed": False, "covers_spread": 0.1}


def kitchen(dishes: list[File], **parts: Any) -> File:
    weights = [{"unit": "each", "weight": "50 g"}]
    return bench(
        ingredients=[food("pork"), food("egg", weights=weights)],
        operations=[work("cut")],
        components=[cut_from("pork", "ham", "cut", weights=weights)],
        dishes=dishes,
        **parts,
    )


def wants_of(file: File) -> dict[str, list[Want]]:
    kit = kit_of(file)
    return dish_wants(kit.catalog, kit.converter, demands_of(kit.catalog, DATE))


def two_dishes(**fields: Any) -> File:
    both = [dish("plate", {"ham": "100 g"}), dish("roll", {"ham": "60 g"})]
    dinner = service("dinner", {"plate": 0.5, "roll": 0.4}, covers=100, **fields)
    return kitchen(both, services=[dinner])


def test_a_guaranteed_count_is_wanted_to_the_portion() -> None:
    (want,) = wants_of(kitchen([dish("plate", {"ham": "100 g"})]))["ham"]
    assert (want.grams, want.expected, want.buffer) == (1000, 1000, 0)


def test_expected_and_buffer_add_up_to_what_is_wanted() -> None:
    file = kitchen(
        [dish("plate", {"ham": "100 g"})],
        services=[service("dinner", {"plate": 0.5}, covers=100, **UNCERTAIN)],
    )
    (want,) = wants_of(file)["ham"]
    assert want.expected == pytest.approx(100 * 0.5 * 100)
    assert want.buffer > 0
    assert want.expected + want.buffer == pytest.approx(want.grams)


def test_the_joint_buffer_of_a_shared_item_is_below_the_sum_of_the_dishes_own() -> None:
    """Not both dishes sell above expectation on one evening."""
    file = two_dishes(**UNCERTAIN)
    kit = kit_of(file)
    own = sum(
        d.total * {"plate": 100.0, "roll": 60.0}[d.dish] for d in demands_of(kit.catalog, DATE)
    )
    together = sum(want.grams for want in wants_of(file)["ham"])
    expected = 100 * (0.5 * 100 + 0.4 * 60)
    assert expected < together < own


def test_without_uncertainty_there_is_nothing_to_save() -> None:
    together = sum(want.grams for want in wants_of(two_dishes())["ham"])
    assert together == pytest.approx(100 * (0.5 * 100 + 0.4 * 60))


def test_flat_buffers_add_up() -> None:
    """A flat share on top holds no chance that could be shared."""
    file = two_dishes(guaranteed=False, buffer_fraction=0.1)
    assert sum(want.grams for want in wants_of(file)["ham"]) == pytest.approx(55 * 100 + 44 * 60)


def test_portions_stay_the_dishes_own_where_grams_share_a_buffer() -> None:
    file = two_dishes(**UNCERTAIN)
    totals = {d.dish: d.total for d in demands_of(kit_of(file).catalog, DATE)}
    for want in wants_of(file)["ham"]:
        (share,) = want.shares
        assert (share.service, share.dish) == ("dinner", want.consumer)
        assert share.portions == totals[want.consumer]
        assert share.grams == want.grams


def test_services_have_a_buffer_each() -> None:
    """Lunch and dinner do not know of each other."""
    once = [service("dinner", {"plate": 1.0}, covers=100, **UNCERTAIN)]
    lunch = service("lunch", {"plate": 1.0}, covers=100, **UNCERTAIN)
    lunch |= {"opens": "12:00", "closes": "14:00"}
    dishes = [dish("plate", {"ham": "100 g"})]
    one = sum(w.grams for w in wants_of(kitchen(dishes, services=once))["ham"])
    two = sum(w.grams for w in wants_of(kitchen(dishes, services=[*once, lunch]))["ham"])
    assert two == pytest.approx(2 * one)


def test_counted_pieces_are_whole_even_under_a_joint_buffer() -> None:
    """Half an egg on one dish, two on the other."""
    both = [dish("plate", {"egg": "2 each"}), dish("roll", {"egg": "0.5 each"})]
    dinner = service("dinner", {"plate": 0.5, "roll": 0.35}, covers=60, **UNCERTAIN)
    eggs = sum(w.grams for w in wants_of(kitchen(both, services=[dinner]))["egg"]) / 50
    assert eggs == pytest.approx(round(eggs))


def test_a_weight_is_not_rounded_to_pieces() -> None:
    file = kitchen([dish("plate", {"ham": "33 g"})])
    assert wants_of(file)["ham"][0].grams == pytest.approx(330)


def test_a_dish_nobody_is_expected_to_order_wants_nothing() -> None:
    both = [dish("plate", {"ham": "100 g"}), dish("roll", {"egg": "1 each"})]
    file = kitchen(both, services=[service("dinner", {"plate": 1.0, "roll": 0.0})])
    assert "egg" not in wants_of(file)


def test_wants_of_later_days_are_seen_as_far_as_the_kitchen_looks_ahead() -> None:
    services = [service(f"dinner{n}", {"plate": 1.0}, ahead=n) for n in range(3)]
    file = kitchen(
        [dish("plate", {"ham": "100 g"})], services=services, rules={"lookahead_days": 1}
    )
    assert [(w.day, w.due, w.doors, w.until) for w in wants_of(file)["ham"]] == [
        (n, n * DAY + 18 * 60, n * DAY + 18 * 60, n * DAY + 22 * 60) for n in range(2)
    ]


def test_food_is_due_when_the_line_is_set_up() -> None:
    dinner = service("dinner", {"plate": 1.0}, plating_set_up_minutes=45)
    file = kitchen([dish("plate", {"ham": "100 g"})], services=[dinner])
    (want,) = wants_of(file)["ham"]
    assert (want.due, want.doors) == (17 * 60 + 15, 18 * 60)


def kept(days: int, **rules: Any) -> float:
    """Grams wanted of a ham that keeps so many days."""
    file = two_dishes(**UNCERTAIN)
    file["components"][0]["shelf_life_days"] = days
    file["rules"] = {**file.get("rules", {}), **rules}
    return sum(want.grams for want in wants_of(file)["ham"])


def test_food_that_keeps_may_have_a_level_of_its_own() -> None:
    usual = kept(3)
    assert kept(3, kept_level=0.99) == pytest.approx(kept(3, service_level=0.99))
    assert kept(3, kept_level=0.99) > usual
    assert kept(1, kept_level=0.99) == kept(1), "what does not keep is lost"
    assert kept(3, kept_level=0.6) == usual, "never less than the dish's own level"


def test_a_flat_buffer_has_no_level_to_raise() -> None:
    file = two_dishes(**UNCERTAIN, buffer_fraction=0.1)
    file["components"][0]["shelf_life_days"] = 3
    before = wants_of(file)["ham"]
    file["rules"] = {**file.get("rules", {}), "kept_level": 0.99}
    assert wants_of(file)["ham"] == before


def test_food_of_one_dish_may_be_more_than_its_portions() -> None:
    file = kitchen(
        [dish("plate", {"ham": "100 g"})],
        services=[service("dinner", {"plate": 0.5}, covers=100, **UNCERTAIN)],
    )
    file["components"][0]["shelf_life_days"] = 2
    (before,) = wants_of(file)["ham"]
    file["rules"] = {**file.get("rules", {}), "kept_level": 0.99}
    (after,) = wants_of(file)["ham"]
    assert after.grams > before.grams
    assert after.expected == before.expected
    assert after.shares[0].portions == before.shares[0].portions
